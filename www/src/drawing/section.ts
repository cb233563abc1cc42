// The section: a cut through a piece, drawn by the core beside the table of its sizes.

import type { Desk } from "../generated/overmantel.js";
import { known } from "../page/dom.js";
import { dark } from "../page/media.js";
import { devicePixels, sheetOf } from "./sheet.js";

/** The section on the page. */
export class Section {
  private readonly figure = known("section");
  private readonly canvas: HTMLCanvasElement;
  private readonly caption: HTMLElement;
  private readonly context: CanvasRenderingContext2D;
  private piece: number | undefined;
  private due = 0;

  constructor(private readonly desk: Desk) {
    const canvas = this.figure.querySelector("canvas");
    const caption = this.figure.querySelector("figcaption");
    const context = canvas?.getContext("2d", { alpha: false });
    if (!canvas || !caption || !context) throw new Error("This browser cannot draw here. Try another browser.");
    [this.canvas, this.caption, this.context] = [canvas, caption, context];
    dark.addEventListener("change", () => this.later());
    new ResizeObserver(() => this.later()).observe(this.figure);
  }

  /** Shows a piece, or the first where none is chosen. */
  show(piece: number | undefined, caption: string): void {
    this.piece = piece;
    this.caption.textContent = caption;
    this.later();
  }

  private later(): void {
    this.due ||= requestAnimationFrame(() => this.draw());
  }

  private draw(): void {
    this.due = 0;
    const width = devicePixels(this.figure.clientWidth);
    if (width < 1) return;
    // Until something is drawn on it, it would be black.
    this.canvas.hidden = false;
    this.canvas.setAttribute("aria-label", this.desk.draw_section(this.canvas, this.context, sheetOf(width, 1), this.piece));
  }
}
