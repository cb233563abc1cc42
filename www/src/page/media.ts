// What the style sheets and the page's modules both go by: whether the page is dark, and whether it is set in one column.

/** Whether the user wants it dark. */
export const dark = matchMedia("(prefers-color-scheme: dark)");

/** Whether the page is set in one column; `narrow.css`, which holds from the breakpoint down, says so. */
export function isNarrow(): boolean {
  return getComputedStyle(document.documentElement).getPropertyValue("--columns").trim() === "1";
}
