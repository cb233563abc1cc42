// The drawing: the canvas that the core paints, and over it the fields and handles that lie on it.

import { known, make } from "../page/dom.js";
import { makeField, type Field, type Write } from "../field/field.js";
import { holdToCompare } from "./before.js";
import { zoomByHand } from "./zoom.js";
import type { DrawingView, HandleView, MarkView, PlaceView, SheetOptions, Workbench as Desk } from "../generated/overmantel.js";

/** What the drawing tells the page. */
export interface Told {
  /** The plan changed by handling. */
  changed(): void;
  /** The plan as it is now has been drawn without a fault. */
  drawn(): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
  /** Whether a piece was chosen to be changed alone. */
  alone(): boolean;
}

const dark = matchMedia("(prefers-color-scheme: dark)");

/** The drawing on the page. */
export class Drawing {
  private readonly stage = known("stage");
  private readonly canvas = known<HTMLCanvasElement>("canvas");
  private readonly overlay = known("overlay");
  private readonly context: CanvasRenderingContext2D;
  private readonly fields = new Map<string, Field>();
  private readonly handles = new Map<string, HTMLButtonElement>();
  private chosen: string | undefined;
  private due = 0;
  private held: string | undefined;
  private oblique = false;

  constructor(
    private readonly desk: Desk,
    private readonly write: Write,
    private readonly told: Told,
  ) {
    const context = this.canvas.getContext("2d", { alpha: false });
    if (!context) throw new Error("This browser gives no canvas to draw on; another one will.");
    this.context = context;
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
    zoomByHand(this.stage, desk, { later: () => this.later(), letGo: () => this.drop(false), isHeld: () => this.held !== undefined });
    holdToCompare(known<HTMLButtonElement>("before"), (before) => {
      desk.show_before(before);
      this.told.say(before ? "Before the last step." : "");
      this.later();
    });
    known("view").addEventListener("change", (event) => this.turn(event));
    this.overlay.addEventListener("focusin", (event) => this.choose(event));
    this.overlay.addEventListener("focusout", () => this.choose(undefined));
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
    if (this.held !== undefined) {
      this.desk.redraw(this.context, sheet);
      return;
    }
    this.lay(this.desk.draw(this.context, sheet));
    this.told.drawn();
  }

  /** Draws for the first time: what can be pressed follows with the next drawing. */
  first(): void {
    this.desk.redraw(this.context, this.prepared());
    this.later();
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
    const ratio = devicePixelRatio;
    const wide = matchMedia("(min-width: 60.01rem)").matches;
    const options: SheetOptions = {
      width_px: Math.max(1, Math.round(this.stage.clientWidth * ratio)),
      height_px: 1,
      pixel_ratio: ratio,
      dark: dark.matches,
      oblique: this.oblique,
      chosen: this.chosen,
    };
    const room = Math.round(innerHeight * ratio * (wide ? 0.82 : 0.46));
    options.height_px = Math.min(this.desk.height_for_width(options), room);
    return options;
  }

  /** Shows the wall in elevation, or the room from the viewer's place. */
  private turn(event: Event): void {
    if (!(event.target instanceof HTMLInputElement)) return;
    this.oblique = event.target.value === "oblique";
    known("elevation").textContent = this.oblique ? "The room from where the viewer stands, in perspective" : "Elevation of the wall, to scale";
    this.later();
  }

  /** Lays the fields and handles where the core says they are. */
  private lay(drawn: DrawingView): void {
    const laid = new Set<string>();
    const middle = this.stage.clientWidth / 2;
    for (const handle of drawn.handles) {
      laid.add(handle.handle);
      this.layHandle(handle);
    }
    for (const mark of drawn.marks) {
      laid.add(mark.value.field);
      this.layMark(mark, middle);
    }
    for (const [name, field] of this.fields) {
      if (!laid.has(name)) {
        field.element.remove();
        this.fields.delete(name);
      }
    }
    for (const [name, handle] of this.handles) {
      if (!laid.has(name)) {
        handle.remove();
        this.handles.delete(name);
      }
    }
  }

  private layMark(mark: MarkView, middle: number): void {
    let field = this.fields.get(mark.value.field);
    if (!field) {
      field = makeField(mark.value, this.write, (message) => this.told.say(message ?? ""));
      field.element.classList.add("mark");
      this.fields.set(mark.value.field, field);
      this.overlay.append(field.element);
    }
    field.update(mark.value);
    place(field.element, mark.place);
    // Near the right edge a field that is being edited grows to the left.
    if (mark.place.x > middle) {
      field.element.style.setProperty("left", "auto");
      field.element.style.setProperty("right", `calc(100% - ${mark.place.x}px - ${mark.place.width}px)`);
    } else {
      field.element.style.setProperty("right", "auto");
    }
  }

  private layHandle(view: HandleView): void {
    let handle = this.handles.get(view.handle);
    if (!handle) {
      const [kind = "", , corner] = view.handle.split(".");
      handle = make("button", { type: "button", class: `handle ${kind}`, "data-handle": view.handle, "data-corner": corner });
      // One corner of four is enough for keys.
      if (kind === "corner" && corner !== "lr") handle.tabIndex = -1;
      handle.addEventListener("keydown", (event) => this.nudge(event, view.handle));
      this.handles.set(view.handle, handle);
      // Corners and pictures lie over the pieces.
      if (kind === "group" || kind === "fixture") this.overlay.prepend(handle);
      else this.overlay.append(handle);
    }
    handle.setAttribute("aria-label", `${view.label}.`);
    place(handle, view.place);
  }

  private nudge(event: KeyboardEvent, handle: string): void {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (!step) return;
    event.preventDefault();
    this.desk.nudge(handle, this.told.alone(), step[0] ?? 0, step[1] ?? 0, event.shiftKey);
    this.told.changed();
  }

  private choose(event: FocusEvent | undefined): void {
    const target = event?.target instanceof Element ? event.target : undefined;
    const chosen = target?.closest<HTMLElement>(".field")?.dataset["field"];
    if (chosen === this.chosen) return;
    this.chosen = chosen;
    this.later();
  }

  private press(event: PointerEvent): void {
    const handle = event.target instanceof HTMLElement ? event.target.closest<HTMLElement>(".handle") : null;
    const name = handle?.dataset["handle"];
    if (event.button !== 0 || !event.isPrimary || this.held !== undefined || name === undefined) return;
    // What is being typed elsewhere is entered before anything moves.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    if (!this.desk.take(name, this.told.alone(), ...this.at(event))) return;
    this.held = name;
    this.stage.toggleAttribute("data-held", true);
    this.stage.setPointerCapture(event.pointerId);
  }

  private move(event: PointerEvent): void {
    if (this.held === undefined) return;
    this.told.say(this.desk.drag_to(...this.at(event), event.shiftKey));
    this.later();
  }

  private drop(keep: boolean): void {
    if (this.held === undefined) return;
    this.held = undefined;
    this.stage.toggleAttribute("data-held", false);
    if (keep) this.desk.release();
    else this.desk.abandon();
    this.told.changed();
  }

  /** Where an event is on the drawing, in CSS pixels. */
  at(event: MouseEvent): [number, number] {
    const box = this.canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }
}

function place(element: HTMLElement, at: PlaceView): void {
  element.style.setProperty("left", `${at.x}px`);
  element.style.setProperty("top", `${at.y}px`);
  element.style.setProperty("width", `${at.width}px`);
  element.style.setProperty("height", `${at.height}px`);
}
