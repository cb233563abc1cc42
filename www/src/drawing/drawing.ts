// The drawing: the canvas that the core paints, and what a pointer does on it.

import type { Write } from "../field/field.js";
import type { Desk, SheetOptions } from "../generated/overmantel.js";
import { known } from "../page/dom.js";
import { dark, isNarrow } from "../page/media.js";
import { isAlone, type PageState } from "../state.js";
import { holdToCompare } from "./before.js";
import { Overlay } from "./overlay.js";
import { devicePixels, sheetOf } from "./sheet.js";
import { zoomByHand } from "./zoom.js";

/** What the drawing tells the page. */
export interface Told {
  /** The plan changed by handling. */
  changed(): void;
  /** The plan as it is now has been drawn without a fault. */
  drawn(): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** Of the window's height the drawing takes so much at the most. */
const MOST_OF_WINDOW = { wide: 0.82, narrow: 0.46 };

/** The drawing on the page. */
export class Drawing {
  private readonly stage = known("stage");
  private readonly canvas = known<HTMLCanvasElement>("canvas");
  private readonly context: CanvasRenderingContext2D;
  private readonly overlay: Overlay;
  private due = 0;

  constructor(
    private readonly desk: Desk,
    private readonly state: PageState,
    write: Write,
    private readonly told: Told,
  ) {
    const context = this.canvas.getContext("2d", { alpha: false });
    if (!context) throw new Error("This browser gives no canvas to draw on; another one will.");
    this.context = context;
    this.overlay = new Overlay(write, {
      nudge: (handle, right, up, large) => {
        desk.nudge(handle, isAlone(state.now), right, up, large);
        told.changed();
      },
      choose: (field) => {
        if (state.change({ kind: "chosen", field })) this.later();
      },
      say: (text) => told.say(text),
    });
    dark.addEventListener("change", () => this.later());
    this.canvas.addEventListener("contextrestored", () => {
      desk.forget_canvas();
      this.later();
    });
    new ResizeObserver(() => this.later()).observe(this.stage);
    this.stage.addEventListener("pointerdown", (event) => this.press(event));
    this.stage.addEventListener("pointermove", (event) => this.move(event));
    this.stage.addEventListener("pointerup", () => this.drop(true));
    this.stage.addEventListener("pointercancel", () => this.drop(false));
    zoomByHand(this.stage, desk, { later: () => this.later(), letGo: () => this.drop(false), isHeld: () => state.now.held !== undefined });
    holdToCompare(known<HTMLButtonElement>("before"), (before) => {
      desk.show_before(before);
      told.say(before ? "Before the last step." : "");
      this.later();
    });
    known("view").addEventListener("change", (event) => this.turn(event));
  }

  /** Draws in the next frame. */
  later(): void {
    this.due ||= requestAnimationFrame(() => this.now());
  }

  /** Draws at once, and lays what can be pressed on it. */
  now(): void {
    cancelAnimationFrame(this.due);
    this.due = 0;
    const sheet = this.prepared();
    if (this.state.now.held !== undefined) {
      this.desk.redraw(this.context, sheet);
      return;
    }
    this.overlay.lay(this.desk.draw(this.context, sheet), this.stage.clientWidth);
    this.told.drawn();
  }

  /** Draws for the first time: what can be pressed follows with the next drawing. */
  first(): void {
    this.desk.redraw(this.context, this.prepared());
    this.later();
  }

  /** Where an event is on the drawing, in CSS pixels. */
  at(event: MouseEvent): [number, number] {
    const box = this.canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  /** The sheet, with the canvas in its size. */
  private prepared(): SheetOptions {
    const sheet = this.sheet();
    if (this.canvas.width !== sheet.width_px || this.canvas.height !== sheet.height_px) {
      this.canvas.width = sheet.width_px;
      this.canvas.height = sheet.height_px;
    }
    return sheet;
  }

  /** The sheet for the place that the page has: its full width, and no higher than the window has room for. */
  private sheet(): SheetOptions {
    const { oblique, chosen } = this.state.now;
    const sheet = sheetOf(Math.max(1, devicePixels(this.stage.clientWidth)), 1, { oblique, chosen });
    const room = Math.round(innerHeight * devicePixelRatio * MOST_OF_WINDOW[isNarrow() ? "narrow" : "wide"]);
    return { ...sheet, height_px: Math.min(this.desk.height_for_width(sheet), room) };
  }

  /** Shows the wall in elevation, or the room from the viewer's place. */
  private turn(event: Event): void {
    if (!(event.target instanceof HTMLInputElement)) return;
    const oblique = event.target.value === "oblique";
    this.state.change({ kind: "viewed", oblique });
    known("elevation").textContent = oblique ? "The room from where the viewer stands, in perspective" : "Elevation of the wall, to scale";
    this.later();
  }

  private press(event: PointerEvent): void {
    const handle = event.target instanceof HTMLElement ? event.target.closest<HTMLElement>(".handle") : null;
    const name = handle?.dataset["handle"];
    if (event.button !== 0 || !event.isPrimary || this.state.now.held !== undefined || name === undefined) return;
    // What is being typed elsewhere is entered before anything moves.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    if (!this.desk.take(name, isAlone(this.state.now), ...this.at(event))) return;
    this.state.change({ kind: "taken", handle: name });
    this.stage.toggleAttribute("data-held", true);
    this.stage.setPointerCapture(event.pointerId);
  }

  private move(event: PointerEvent): void {
    if (this.state.now.held === undefined) return;
    this.told.say(this.desk.drag_to(...this.at(event), event.shiftKey));
    this.later();
  }

  private drop(keep: boolean): void {
    if (!this.state.change({ kind: "dropped" })) return;
    this.stage.toggleAttribute("data-held", false);
    if (keep) this.desk.release();
    else this.desk.abandon();
    this.told.changed();
  }
}
