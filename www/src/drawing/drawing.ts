// The drawing: the canvas that the core paints, and what a pointer does on it.

import type { Write } from "../field/field.js";
import type { Desk, SheetOptions } from "../generated/overmantel.js";
import { known } from "../page/dom.js";
import { dark } from "../page/media.js";
import { capital, isAlone, type PageState, type State } from "../state.js";
import { holdToCompare } from "./before.js";
import { Overlay } from "./overlay.js";
import { devicePixels, mostHeight, sheetOf } from "./sheet.js";
import { zoomByHand } from "./zoom.js";

/** What the drawing tells the page. */
export interface Told {
  /** The plan changed by handling. */
  changed(): void;
  /** The plan as it is now has been drawn without a fault. */
  drawn(): void;
  /** The pieces are to be drawn in the photograph of the room. */
  photograph(): void;
  /** The photograph of the room is shown from now on, or no longer. */
  photographed(shown: boolean): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** What each view is. */
const HEADINGS: Record<string, string> = {
  elevation: "The wall, flat and to scale",
  oblique: "The wall in the room, as you see it from where you stand",
  photograph: "The pieces in a photograph of your room",
};

/** What can be pressed and then moved, by the handle that is under the pointer: a piece, or a thing that stands there. */
type Pressed = string | undefined;

/** Draws a desk as the page begins with it, before anything else of the page is made. */
export function drawFirst(desk: Desk, state: State): void {
  desk.redraw(contextOf(known<HTMLCanvasElement>("canvas")), prepared(desk, state));
}

function contextOf(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("This browser cannot draw here. Try another browser.");
  return context;
}

/** The sheet, with the canvas in its size. */
function prepared(desk: Desk, state: State): SheetOptions {
  const canvas = known<HTMLCanvasElement>("canvas");
  const sheet = sheetInPlace(desk, state);
  if (canvas.width !== sheet.width_px || canvas.height !== sheet.height_px) {
    canvas.width = sheet.width_px;
    canvas.height = sheet.height_px;
  }
  return sheet;
}

/** The sheet for the place that the page has: its full width, and no higher than the window has room for. */
function sheetInPlace(desk: Desk, { oblique, chosen, clean }: State): SheetOptions {
  const sheet = sheetOf(Math.max(1, devicePixels(known("stage").clientWidth)), 1, { oblique, chosen, clean });
  if (clean) return { ...sheet, height_px: Math.max(1, devicePixels(innerHeight)) };
  const room = Math.max(1, devicePixels(mostHeight()));
  return { ...sheet, height_px: Math.min(desk.height_for_width(sheet), room) };
}

/** The drawing on the page. */
export class Drawing {
  private readonly stage = known("stage");
  private readonly canvas = known<HTMLCanvasElement>("canvas");
  private readonly context: CanvasRenderingContext2D;
  private readonly overlay: Overlay;
  private due = 0;
  /** What a finger came down on, until it moves on or is lifted. */
  private tapped: { on: Pressed } | undefined;

  constructor(
    private readonly desk: Desk,
    private readonly state: PageState,
    write: Write,
    private readonly told: Told,
  ) {
    this.context = contextOf(this.canvas);
    this.overlay = new Overlay(write, {
      nudge: (handle, right, up, large) => {
        const said = desk.nudge(handle, isAlone(state.now), right, up, large);
        told.changed();
        told.say(`${said}.`);
      },
      pickUp: () => desk.pick_up(),
      putBack: () => {
        if (!desk.put_back()) return;
        told.changed();
        told.say("Put back.");
      },
      remove: (handle) => this.remove(handle),
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
    this.stage.addEventListener("pointerup", (event) => {
      if (event.pointerType === "touch" && this.tapped !== undefined) this.choose(this.tapped.on);
      this.tapped = undefined;
      this.drop(true);
    });
    this.stage.addEventListener("pointercancel", () => {
      this.tapped = undefined;
      this.drop(false);
    });
    // A press elsewhere lets go; a swipe is no click.
    addEventListener("click", (event) => {
      if (event.target instanceof Node && !this.stage.contains(event.target)) this.choose(undefined);
    });
    addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      if (this.state.now.held === undefined) this.choose(undefined);
      else this.drop(false);
    });
    zoomByHand(this.stage, desk, { later: () => this.later(), letGo: () => this.drop(false), isHeld: () => state.now.held !== undefined });
    holdToCompare(known<HTMLButtonElement>("before"), (before) => {
      desk.show_before(before);
      told.say(before ? "Before the last step." : "");
      this.later();
    });
    known("view").addEventListener("change", (event) => this.turn(event));
  }

  /** Removes what has been pressed; whether there was anything. */
  removePressed(): boolean {
    const { pressed } = this.state.now;
    if (pressed === undefined) return false;
    // A piece by its picture: the group's handle is all of them.
    this.remove(pressed.replace("piece.", "picture."));
    return true;
  }

  private remove(handle: string): void {
    const what = this.desk.thing(handle);
    const why = this.desk.remove(handle);
    this.choose(undefined);
    if (why === undefined) this.told.changed();
    this.told.say(why === undefined ? `Removed: ${what}; undo brings it back.` : `${capital(why)}.`);
  }

  /** Shows over which piece something is that is to be dropped; over none, none. */
  aim(event: DragEvent | undefined): void {
    const piece = event && this.pieceUnder(event);
    this.overlay.aim(piece === undefined ? undefined : this.desk.place_of_piece(piece));
  }

  /** The piece of the drawing that an event is over; none in a photograph. */
  pieceUnder(event: MouseEvent): number | undefined {
    return this.state.now.photographed ? undefined : this.desk.piece_under(...this.at(event));
  }

  /** Draws in the next frame. */
  later(): void {
    this.due ||= requestAnimationFrame(() => this.now());
  }

  /** Draws at once, and lays what can be pressed on it. */
  now(): void {
    cancelAnimationFrame(this.due);
    this.due = 0;
    if (this.state.now.photographed) {
      this.told.photograph();
      if (this.state.now.held === undefined) this.drawn();
      return;
    }
    const sheet = prepared(this.desk, this.state.now);
    if (this.state.now.held !== undefined) {
      this.desk.redraw(this.context, sheet);
      return;
    }
    this.overlay.lay(this.desk.draw(this.context, sheet), this.stage.clientWidth);
    this.overlay.press(this.state.now.pressed);
    this.drawn();
  }

  private drawn(): void {
    document.documentElement.style.setProperty("--drawing", `${known("sheet").offsetHeight}px`);
    this.told.drawn();
  }

  /** Where an event is on the drawing, in CSS pixels. */
  at(event: MouseEvent): [number, number] {
    const box = this.canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  /** Shows the wall flat, the room from the viewer's place, or the pieces in a photograph of the room. */
  private turn(event: Event): void {
    if (!(event.target instanceof HTMLInputElement)) return;
    const view = event.target.value;
    const photographed = view === "photograph";
    this.choose(undefined);
    this.state.change({ kind: "viewed", oblique: view === "oblique", photographed });
    known("elevation").textContent = HEADINGS[view] ?? "";
    this.stage.hidden = photographed;
    this.told.photographed(photographed);
    this.later();
  }

  private press(event: PointerEvent): void {
    const handle = event.target instanceof HTMLElement ? event.target.closest<HTMLElement>(".handle") : null;
    const name = handle?.dataset["handle"];
    if (event.button !== 0 || !event.isPrimary || this.state.now.held !== undefined) return;
    const on = name === undefined ? undefined : this.pressedBy(name, event);
    if (event.pointerType === "touch" && handle?.hasAttribute("data-on") !== true) {
      // The first press only chooses, so that a swipe which begins here scrolls the page.
      this.tapped = event.target instanceof Element && event.target.closest(".field") ? undefined : { on };
      return;
    }
    this.choose(on);
    if (name === undefined) return;
    // What is being typed elsewhere is entered before anything moves.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    if (!this.desk.take(name, isAlone(this.state.now), ...this.at(event))) return;
    this.state.change({ kind: "taken", handle: name });
    this.stage.toggleAttribute("data-held", true);
    this.stage.setPointerCapture(event.pointerId);
  }

  /** What can be moved by a handle: of the pieces together it is the one under the pointer that shows its corners. */
  private pressedBy(handle: string, event: PointerEvent): Pressed {
    const [kind, number] = handle.split(".");
    if (kind === "group") return `piece.${this.desk.piece_under(...this.at(event)) ?? 0}`;
    return kind === "fixture" ? handle : `piece.${number}`;
  }

  private choose(on: Pressed): void {
    if (this.state.change({ kind: "pressed", on })) this.overlay.press(on);
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
