// Handing out files.

import { make } from "./dom.js";

/** Hands a text or something written as a file. */
export function save(name: string, content: string | Blob): void {
  // What a title may have, and a file's name not.
  const link = make("a", { download: name.replace(/[\\/:*?"<>|]+/g, " ") });
  link.href = URL.createObjectURL(typeof content === "string" ? new Blob([content], { type: "application/json" }) : content);
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
