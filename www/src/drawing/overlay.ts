// What can be pressed on the drawing: its figures, which are fields, and handles. They lie where the core says. For the keys they are
// one stop: arrows go among them, Enter takes up a handle or opens a figure.

import { makeField, type Field, type Write } from "../field/field.js";
import type { DrawingView, HandleView, MarkView, PlaceView } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";
import { Roving } from "../page/roving.js";

/** What the drawing does for it. */
export interface Pressed {
  /** A key moves a handle's thing by steps to the right and up. */
  nudge(handle: string, right: number, up: number, large: boolean): void;
  /** Keys pick up a thing: what they move then is a step of its own. */
  pickUp(): void;
  /** Cancels that move. */
  putBack(): void;
  /** Removes a handle's thing. */
  remove(handle: string): void;
  /** A field has the focus, or none. */
  choose(field: string | undefined): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** The handles that keys come to. */
const HANDLES = ".handle[aria-pressed]";
/** The figures. */
const FIGURES = ".mark input, .mark select";

/** Whether a figure has been opened, so that its keys are its own. */
function isEdited(control: HTMLElement): boolean {
  return control.dataset["edited"] !== undefined;
}

/** Fields and handles over the canvas. */
export class Overlay {
  private readonly element = known("overlay");
  private readonly fields = new Map<string, Field>();
  private readonly handles = new Map<string, HTMLButtonElement>();
  private readonly target = make("div", { class: "target", hidden: true });
  private readonly roving: Roving;
  /** What the keys have picked up. */
  private taken: string | undefined;

  constructor(
    private readonly write: Write,
    private readonly drawing: Pressed,
  ) {
    this.element.addEventListener("focusin", (event) => this.choose(event.target));
    this.element.addEventListener("focusout", (event) => {
      this.choose(null);
      this.leave(event.target);
    });
    // Before the fields, which have a use for arrows of their own.
    this.element.addEventListener("keydown", (event) => this.key(event), true);
    this.element.addEventListener("pointerdown", (event) => this.edit(event.target));
    this.roving = new Roving(this.element, `${HANDLES}, ${FIGURES}`, (control) => isEdited(control) || (this.taken !== undefined && control.dataset["handle"] === this.taken));
  }

  /** Lays what is on a drawing of this width, in CSS pixels, and takes away what is no longer there. */
  lay(drawn: DrawingView, width: number): void {
    for (const handle of drawn.handles) this.layHandle(handle);
    for (const mark of drawn.marks) this.layMark(mark, width / 2);
    const laid = new Set([...drawn.handles.map(({ handle }) => handle), ...drawn.marks.map(({ value }) => value.field)]);
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
    this.roving.refresh();
  }

  /** Frames where something is about to be dropped, or nothing. */
  aim(at: PlaceView | undefined): void {
    this.target.hidden = at === undefined;
    if (at === undefined) return;
    if (!this.target.isConnected) this.element.append(this.target);
    place(this.target, at);
  }

  /** Shows what has been pressed: it alone has corners to pull, and moves under a finger. */
  press(on: string | undefined): void {
    for (const [name, handle] of this.handles) {
      const [kind, number] = name.split(".");
      const isOn = on !== undefined && (kind === "group" ? on.startsWith("piece.") : kind === "fixture" ? on === name : on === `piece.${number}`);
      handle.toggleAttribute("data-on", isOn);
    }
  }

  private layMark(mark: MarkView, middle: number): void {
    let field = this.fields.get(mark.value.field);
    if (!field) {
      field = makeField(mark.value, this.write, (message) => this.drawing.say(message ?? ""));
      field.element.classList.add("mark");
      this.fields.set(mark.value.field, field);
      this.element.append(field.element);
    }
    field.update(mark.value);
    place(field.element, mark.place);
    // In the right half a field that is being edited grows to the left.
    if (mark.place.x > middle) {
      field.element.style.setProperty("left", "auto");
      field.element.style.setProperty("right", `calc(100% - ${mark.place.x}px - ${mark.place.width}px)`);
    } else {
      field.element.style.setProperty("right", "auto");
    }
  }

  private layHandle(view: HandleView): void {
    const handle = this.handles.get(view.handle) ?? this.addHandle(view);
    handle.setAttribute("aria-label", view.label);
    place(handle, view.place);
  }

  private addHandle({ handle: name, kind, corner, piece, by_keys }: HandleView): HTMLButtonElement {
    const of = kind === "picture" ? piece?.toString() : undefined;
    const handle = make("button", { type: "button", class: `handle ${kind}`, "data-handle": name, "data-corner": corner, "data-picture-of": of });
    // One of four corners is enough for the keys, and for the ear.
    if (by_keys) handle.setAttribute("aria-pressed", "false");
    else handle.setAttribute("aria-hidden", "true");
    handle.tabIndex = -1;
    // What presses without a pointer, such as a spoken command, takes it up as Enter does.
    handle.addEventListener("click", (event) => {
      if (event.detail === 0 && by_keys) this.take(name);
    });
    this.handles.set(name, handle);
    // The pieces come first, then what stands there.
    if (kind === "group") this.element.prepend(handle);
    else if (kind === "fixture") [...this.element.querySelectorAll(".group, .fixture")].at(-1)?.after(handle);
    else this.element.append(handle);
    return handle;
  }

  private key(event: KeyboardEvent): void {
    if (event.altKey || event.ctrlKey || event.metaKey || !(event.target instanceof HTMLElement)) return;
    const handle = event.target.dataset["handle"];
    const isDone = handle === undefined ? this.keyOnFigure(event, event.target) : this.keyOnHandle(event, handle);
    if (!isDone) return;
    event.preventDefault();
    event.stopPropagation();
  }

  private keyOnHandle(event: KeyboardEvent, handle: string): boolean {
    const isTaken = this.taken === handle;
    if (event.key === "Enter" || event.key === " ") {
      if (isTaken) this.letGo("Left there.");
      else this.take(handle);
      return true;
    }
    if (event.key === "Delete" || event.key === "Backspace") {
      this.drawing.remove(handle);
      return true;
    }
    if (!isTaken) return false;
    if (event.key === "Escape") {
      this.letGo("");
      this.drawing.putBack();
      return true;
    }
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (!step) return false;
    this.drawing.nudge(handle, step[0] ?? 0, step[1] ?? 0, event.shiftKey);
    return true;
  }

  /** A figure is opened by Enter or by typing; then its keys are its own. */
  private keyOnFigure(event: KeyboardEvent, control: HTMLElement): boolean {
    if (isEdited(control)) {
      if (event.key === "Escape") delete control.dataset["edited"];
      return false;
    }
    const types = event.key.length === 1 || event.key === "Backspace" || event.key === "Delete";
    if (event.key === "Enter" || types) this.edit(control);
    return event.key === "Enter" && control instanceof HTMLInputElement;
  }

  private take(handle: string): void {
    if (this.taken !== undefined && this.taken !== handle) this.letGo("");
    this.taken = handle;
    this.drawing.pickUp();
    this.handles.get(handle)?.setAttribute("aria-pressed", "true");
    this.drawing.say("Picked up: arrows move it, with Shift by large steps, Enter leaves it there, and Escape puts it back.");
  }

  private letGo(said: string): void {
    if (this.taken !== undefined) this.handles.get(this.taken)?.setAttribute("aria-pressed", "false");
    this.taken = undefined;
    this.drawing.say(said);
  }

  /** The focus goes elsewhere: what was taken up stays where it is. */
  private leave(from: EventTarget | null): void {
    if (!(from instanceof HTMLElement)) return;
    delete from.dataset["edited"];
    if (this.taken !== undefined && from.dataset["handle"] === this.taken) this.letGo("");
  }

  private edit(target: EventTarget | null): void {
    if (target instanceof HTMLElement && target.closest(".field")) target.dataset["edited"] = "";
  }

  private choose(target: EventTarget | null): void {
    const element = target instanceof Element ? target : undefined;
    this.drawing.choose(element?.closest<HTMLElement>(".field")?.dataset["field"]);
  }
}

function place(element: HTMLElement, at: PlaceView): void {
  element.style.setProperty("left", `${at.x}px`);
  element.style.setProperty("top", `${at.y}px`);
  element.style.setProperty("width", `${at.width}px`);
  element.style.setProperty("height", `${at.height}px`);
}
