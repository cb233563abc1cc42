// Files that come in: by picker, by dropping and by pasting.

import { known } from "./dom.js";

/** What takes them. */
export interface Receivers {
  /** Shows where what is dragged over the page would go; none where it would go nowhere. */
  aim(event: DragEvent | undefined): void;
  /** Takes pictures, dropped at an event or not. */
  pictures(files: File[], dropped?: DragEvent): void;
  /** Takes a plan, or an answer. */
  plan(file: File | undefined): void;
  /** Takes a list of stock. */
  stock(file: File | undefined): void;
}

/** Hands every file that comes in to what takes it. */
export function receiveFiles(page: Receivers): void {
  const picked = (id: string, take: (files: File[]) => void): void => {
    const input = known<HTMLInputElement>(id);
    input.addEventListener("change", () => {
      take([...(input.files ?? [])]);
      input.value = "";
    });
  };
  known("choose").addEventListener("click", () => known("pictures").click());
  picked("pictures", (files) => page.pictures(files));
  picked("plan", (files) => page.plan(files[0]));
  picked("stock", (files) => page.stock(files[0]));
  addEventListener("paste", (event) => {
    const files = [...(event.clipboardData?.files ?? [])];
    if (files.length > 0) {
      event.preventDefault();
      page.pictures(files);
    }
  });
  addEventListener("dragover", (event) => {
    event.preventDefault();
    document.body.dataset["dropping"] = "";
    page.aim(event);
  });
  addEventListener("dragleave", (event) => {
    if (event.relatedTarget) return;
    delete document.body.dataset["dropping"];
    page.aim(undefined);
  });
  addEventListener("drop", (event) => {
    event.preventDefault();
    delete document.body.dataset["dropping"];
    page.aim(undefined);
    const files = [...(event.dataTransfer?.files ?? [])];
    const plan = files.find((file) => /\.(json|txt)$/.test(file.name));
    if (plan) page.plan(plan);
    else page.pictures(files, event);
  });
}
