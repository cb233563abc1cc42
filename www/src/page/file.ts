// Handing out files.

import { make } from "./dom.js";

/** A file's name without what a title may have and a file's name not: what parts folders, and what turns the direction of letters. */
export function fileName(name: string): string {
  return name.replace(/[\\/:*?"<>|\x00-\x1f\x7f\u200e\u200f\u202a-\u202e\u2066-\u2069]+/g, " ");
}

/** Hands a text or something written as a file. */
export function save(name: string, content: string | Blob): void {
  const link = make("a", { download: fileName(name) });
  link.href = URL.createObjectURL(typeof content === "string" ? new Blob([content], { type: "application/json" }) : content);
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
