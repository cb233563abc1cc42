// A term of the trade in a sentence: pressed or in focus it is explained, with a small cut through the piece that points at it.

import type { RunView, SheetOptions } from "../generated/overmantel.js";
import { devicePixels, sheetOf } from "../drawing/sheet.js";
import { make } from "../page/dom.js";

/** Draws a cut through the piece with one term pointed out, into a canvas that takes the height it needs; what it shows, or nothing. */
export type DrawTerm = (canvas: HTMLCanvasElement, context: CanvasRenderingContext2D, sheet: SheetOptions, term: string) => string | undefined;

let drawTerm: DrawTerm | undefined;

/** Tells all terms who draws them. */
export function setTermDrawing(draw: DrawTerm): void {
  drawTerm = draw;
}

/** How many have been made: each card has a name of its own. */
let made = 0;

/** A term as a button with a card that explains it. */
export class TermButton {
  readonly element: HTMLElement;
  private readonly button: HTMLButtonElement;
  private readonly card: HTMLElement;
  private readonly meaning = make("span", {});
  private readonly canvas = make("canvas", { role: "img", hidden: true });
  private term = "";

  constructor(run: RunView & { run: "term" }) {
    const id = `term-${++made}`;
    this.button = make("button", { type: "button", class: "term", "aria-expanded": "false", "aria-controls": id });
    this.card = make("span", { id, class: "card", role: "note", hidden: true }, this.meaning, this.canvas);
    this.element = make("span", { class: "explained" }, this.button, this.card);
    this.button.addEventListener("focus", () => this.open());
    this.button.addEventListener("click", () => this.open());
    this.button.addEventListener("blur", () => this.close());
    this.button.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || this.card.hidden) return;
      event.stopPropagation();
      this.close();
    });
    this.show(run);
  }

  show({ words, term, meaning }: RunView & { run: "term" }): void {
    this.term = term;
    this.button.textContent = words;
    this.meaning.textContent = meaning;
  }

  private open(): void {
    if (!this.card.hidden) return;
    this.card.hidden = false;
    this.button.setAttribute("aria-expanded", "true");
    this.button.setAttribute("aria-describedby", this.card.id);
    const context = this.canvas.getContext("2d", { alpha: false });
    this.canvas.hidden = false;
    const width = devicePixels(this.canvas.clientWidth);
    const words = context && width > 0 ? drawTerm?.(this.canvas, context, sheetOf(width, 1), this.term) : undefined;
    this.canvas.hidden = words === undefined;
    this.canvas.setAttribute("aria-label", words ?? "");
    // Near the right edge it grows to the left.
    const [box, around] = [this.button, this.element.closest("section") ?? document.body].map((at) => at.getBoundingClientRect());
    this.element.classList.toggle("leftwards", box !== undefined && around !== undefined && box.left - around.left > around.right - box.right);
  }

  private close(): void {
    this.card.hidden = true;
    this.button.setAttribute("aria-expanded", "false");
    this.button.removeAttribute("aria-describedby");
  }
}
