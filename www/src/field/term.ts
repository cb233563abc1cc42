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
  readonly element: HTMLButtonElement;
  private readonly card: HTMLElement;
  private readonly meaning = make("span", {});
  private readonly canvas = make("canvas", { role: "img" });
  private term = "";

  constructor(run: RunView & { run: "term" }) {
    const id = `term-${++made}`;
    this.element = make("button", { type: "button", class: "term", "aria-expanded": "false" });
    this.card = make("div", { id, class: "meaning", role: "note" }, this.canvas, this.meaning);
    this.element.addEventListener("focus", () => this.open());
    this.element.addEventListener("click", () => {
      // A browser that gives a pressed button no focus would never close it.
      this.element.focus();
      this.open();
    });
    this.element.addEventListener("blur", () => this.close());
    this.element.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !this.card.isConnected) return;
      event.stopPropagation();
      this.close();
    });
    this.show(run);
  }

  show({ words, term, meaning }: RunView & { run: "term" }): void {
    this.term = term;
    this.element.textContent = words;
    this.meaning.textContent = meaning;
  }

  private open(): void {
    if (this.card.isConnected) return;
    (this.element.closest("p") ?? this.element).after(this.card);
    this.element.setAttribute("aria-expanded", "true");
    this.element.setAttribute("aria-describedby", this.card.id);
    const context = this.canvas.getContext("2d", { alpha: false });
    this.canvas.hidden = false;
    const width = devicePixels(this.canvas.clientWidth);
    const words = context && width > 0 ? drawTerm?.(this.canvas, context, sheetOf(width, 1), this.term) : undefined;
    this.canvas.hidden = words === undefined;
    this.canvas.setAttribute("aria-label", words ?? "");
  }

  private close(): void {
    this.card.remove();
    this.element.setAttribute("aria-expanded", "false");
    this.element.removeAttribute("aria-describedby");
  }
}
