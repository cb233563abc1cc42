// The page's beginning.

import { loadCore } from "./core.js";

async function begin(): Promise<void> {
  const notice = document.getElementById("notice");
  if (!notice) return;
  try {
    await loadCore();
    notice.textContent = "Overmantel is ready.";
    document.documentElement.dataset["ready"] = "";
  } catch (error) {
    notice.textContent = error instanceof Error ? error.message : String(error);
  }
}

void begin();
