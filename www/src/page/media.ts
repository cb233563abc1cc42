// What the style sheets and the page's modules both go by: whether the page is dark, and how it is laid out.

/** Whether the user wants it dark. */
export const dark = matchMedia("(prefers-color-scheme: dark)");

/** How the page is laid out: drawing and specification beside each other, in one column, or beside each other in a low window. */
export type Layout = "wide" | "narrow" | "low";

/** How it is laid out; `narrow.css` and `low.css`, which hold from their breakpoints on, say so. */
export function layout(): Layout {
  const said = getComputedStyle(document.documentElement).getPropertyValue("--layout").trim();
  return said === "narrow" || said === "low" ? said : "wide";
}
