// What the browser prints of the page: the proposal, as the paper has it, without a control.

import type { Desk, PaperOptions, PartView } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";

/** Dots to the inch of the drawing. */
const PPI = 300;

/** Fills in what is printed when the browser is about to, and takes it away again. */
export function printProposals(desk: Desk, options: () => PaperOptions, photograph: (context: CanvasRenderingContext2D) => boolean): void {
  const place = known("printed");
  addEventListener("beforeprint", () => {
    const canvas = make("canvas", { role: "img" });
    const context = canvas.getContext("2d", { alpha: false });
    if (!context) return;
    // No wider than 178 mm.
    canvas.width = Math.round((178 / 25.4) * PPI);
    const { title, made, width_mm, words, parts } = desk.print_proposal(canvas, context, options());
    canvas.setAttribute("aria-label", words);
    // Who looks at the photograph of a room prints that; it may be upright.
    if (photograph(context)) canvas.style.maxBlockSize = "120mm";
    else canvas.style.inlineSize = `${width_mm}mm`;
    place.replaceChildren(make("p", { class: "made" }, make("span", {}, "Proposal"), make("span", {}, made)), make("h1", {}, title), canvas, ...parts.map(part));
  });
  addEventListener("afterprint", () => place.replaceChildren());
}

function part({ kind, text, rows }: PartView): HTMLElement {
  if (kind === "heading") return make("h2", {}, text);
  if (kind !== "prices") return make("p", { class: kind }, text);
  const [head, ...body] = rows.map((cells, index) => make("tr", {}, ...cells.map((cell) => make(index === 0 ? "th" : "td", {}, cell))));
  return make("table", {}, make("thead", {}, ...(head ? [head] : [])), make("tbody", {}, ...body));
}
