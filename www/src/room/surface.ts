// The photograph on the page: a canvas as large as there is room for, what a pointer and the keys do on it, a loupe beside the pointer, and
// what is being drawn by hand but not marked yet.

import type { AtView } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";
import { devicePixels, mostHeight } from "../drawing/sheet.js";

/** What takes presses and keys. */
export interface Hand {
  /** Whether it has a use for a press here; where not, a finger scrolls the page. */
  press(at: AtView, event: PointerEvent): boolean;
  move(at: AtView, event: PointerEvent): void;
  lift(at: AtView, event: PointerEvent): void;
  /** Puts back what is held. */
  cancel(): void;
  /** Whether it has a use for a key. */
  key(event: KeyboardEvent): boolean;
  /** The focus has left the photograph. */
  leave(): void;
}

/** How wide and high the loupe is, and how far beside the pointer, in CSS pixels. */
const LOUPE = 120;
const BESIDE = 40;

/** Lines drawn by hand: a light one on a dark one, to be seen on any wall; and a brush. Widths in CSS pixels. */
const LINES: [string, number][] = [
  ["rgb(0 0 0 / 0.7)", 3.5],
  ["#fff", 1.5],
];
const BRUSH = "rgb(255 122 82 / 0.5)";

/** The canvas of the photograph. */
export class Surface {
  readonly canvas = known<HTMLCanvasElement>("room-canvas");
  readonly context: CanvasRenderingContext2D;
  private readonly place = known("room");
  private readonly frame = known("room-frame");
  private readonly loupe = make("canvas", { class: "loupe", hidden: true, "aria-hidden": "true" });
  private readonly loupeContext: CanvasRenderingContext2D;
  /** What is being drawn lies over the photograph, so that nothing of that is drawn again meanwhile. */
  private readonly over = make("canvas", { class: "over", hidden: true, "aria-hidden": "true" });
  private isHeld = false;

  constructor(
    private readonly hand: () => Hand,
    resized: () => void,
  ) {
    const [context, loupe] = [this.canvas, this.loupe].map((canvas) => canvas.getContext("2d", { alpha: false }));
    if (!context || !loupe) throw new Error("This browser cannot draw here. Try another browser.");
    [this.context, this.loupeContext] = [context, loupe];
    this.frame.append(this.over, this.loupe);
    const { canvas } = this;
    canvas.addEventListener("pointerdown", (event) => {
      if (event.button !== 0 || !event.isPrimary) return;
      this.isHeld = this.hand().press(this.at(event), event);
      if (this.isHeld) canvas.setPointerCapture(event.pointerId);
    });
    canvas.addEventListener("pointermove", (event) => {
      if (this.isHeld) this.hand().move(this.at(event), event);
    });
    canvas.addEventListener("pointerup", (event) => {
      if (!this.isHeld) return;
      this.isHeld = false;
      this.hand().lift(this.at(event), event);
    });
    canvas.addEventListener("pointercancel", () => {
      if (!this.isHeld) return;
      this.isHeld = false;
      this.hand().cancel();
    });
    // A finger that has taken hold of something does not scroll the page; any other does.
    canvas.addEventListener("touchstart", (event) => this.isHeld && event.cancelable && event.preventDefault(), { passive: false });
    canvas.addEventListener("keydown", (event) => {
      if (event.altKey || event.metaKey || event.ctrlKey || !this.hand().key(event)) return;
      event.preventDefault();
      event.stopPropagation();
    });
    canvas.addEventListener("blur", () => this.hand().leave());
    new ResizeObserver(resized).observe(this.place);
  }

  /** How wide the photograph is shown, in CSS pixels. */
  get width(): number {
    return Math.max(1, this.canvas.clientWidth);
  }

  get height(): number {
    return Math.max(1, this.canvas.clientHeight);
  }

  /** Makes it as large as there is room for, with so much height for its width; its longer side in CSS pixels. */
  fit(aspect: number, fills: boolean): number {
    const [wide, high] = fills ? [innerWidth, innerHeight] : [this.place.clientWidth, mostHeight()];
    const width = Math.max(1, Math.min(wide, high / aspect));
    this.frame.style.setProperty("inline-size", `${width}px`);
    this.frame.style.setProperty("block-size", `${width * aspect}px`);
    return Math.max(width, width * aspect);
  }

  /** Whether a press draws something. */
  draws(draws: boolean): void {
    this.canvas.toggleAttribute("data-draws", draws);
  }

  /** Where an event is on it. */
  at(event: MouseEvent): AtView {
    const box = this.canvas.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top, width: this.width };
  }

  /** Shows what is being drawn by hand; an empty path shows nothing. `wide` is the brush. */
  outline(path: string, wide?: number): void {
    this.over.hidden = path === "";
    const context = path === "" ? null : this.over.getContext("2d");
    if (context === null) return;
    // A canvas that is given its size is empty.
    [this.over.width, this.over.height] = [devicePixels(this.width), devicePixels(this.height)];
    context.scale(devicePixelRatio, devicePixelRatio);
    context.lineCap = context.lineJoin = "round";
    for (const [colour, width] of wide === undefined ? LINES : [[BRUSH, wide] as const]) {
      context.strokeStyle = colour;
      context.lineWidth = width;
      context.stroke(new Path2D(path));
    }
  }

  /** Shows a place much larger, beside it; or no longer. */
  magnify(at: AtView | undefined, draw?: (context: CanvasRenderingContext2D, at: AtView) => void): void {
    this.loupe.hidden = at === undefined;
    if (at === undefined || draw === undefined) return;
    draw(this.loupeContext, at);
    const right = at.x + BESIDE;
    const left = right + LOUPE <= this.width ? right : at.x - BESIDE - LOUPE;
    const top = Math.max(0, Math.min(this.height - LOUPE, at.y - LOUPE / 2));
    this.loupe.style.setProperty("left", `${left}px`);
    this.loupe.style.setProperty("top", `${top}px`);
  }
}
