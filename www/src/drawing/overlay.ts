// What can be pressed on the drawing: its figures, which are fields, and handles. They lie where the core says.

import { makeField, type Field, type Write } from "../field/field.js";
import type { DrawingView, HandleView, MarkView, PlaceView } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";

/** What the drawing does for it. */
export interface Pressed {
  /** A key moves a handle's thing by steps to the right and up. */
  nudge(handle: string, right: number, up: number, large: boolean): void;
  /** A field has the focus, or none. */
  choose(field: string | undefined): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** Fields and handles over the canvas. */
export class Overlay {
  private readonly element = known("overlay");
  private readonly fields = new Map<string, Field>();
  private readonly handles = new Map<string, HTMLButtonElement>();

  constructor(
    private readonly write: Write,
    private readonly drawing: Pressed,
  ) {
    this.element.addEventListener("focusin", (event) => this.choose(event.target));
    this.element.addEventListener("focusout", () => this.choose(null));
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
    handle.setAttribute("aria-label", `${view.label}.`);
    place(handle, view.place);
  }

  private addHandle({ handle: name, kind, corner, piece, by_keys }: HandleView): HTMLButtonElement {
    const of = kind === "picture" ? piece?.toString() : undefined;
    const handle = make("button", { type: "button", class: `handle ${kind}`, "data-handle": name, "data-corner": corner, "data-picture-of": of });
    if (!by_keys) handle.tabIndex = -1;
    handle.addEventListener("keydown", (event) => this.nudge(event, name));
    this.handles.set(name, handle);
    // Corners and pictures lie over the pieces.
    if (kind === "group" || kind === "fixture") this.element.prepend(handle);
    else this.element.append(handle);
    return handle;
  }

  private nudge(event: KeyboardEvent, handle: string): void {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (!step) return;
    event.preventDefault();
    this.drawing.nudge(handle, step[0] ?? 0, step[1] ?? 0, event.shiftKey);
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
