// Thumbnail drawings to choose by: buttons that each show what they would make, drawn by the core, over plain words.

import type { SheetOptions } from "../generated/overmantel.js";
import { make } from "../page/dom.js";
import { dark } from "../page/media.js";
import { sheetFor } from "./sheet.js";

/** One thing to choose. */
export interface Thumbnail {
  /** Its stable name. */
  code: string;
  /** What it is, in plain words. */
  words: string;
  /** Why it is offered, in short. */
  why?: string;
  /** What stands against it. */
  cautions?: string[];
  /** Why it can't be chosen now. */
  error?: string | undefined;
  /** Whether it is what holds now; left out where nothing holds. */
  holds?: boolean;
}

/** Draws a thing into a canvas of the sheet's size; false where there is nothing to see. */
export type DrawThumbnail = (context: CanvasRenderingContext2D, sheet: SheetOptions, code: string) => boolean;

/** The parts of one that is shown. */
interface Shown {
  button: HTMLButtonElement;
  canvas: HTMLCanvasElement;
  words: HTMLElement;
  why: HTMLElement;
  cautions: HTMLElement;
}

/** A row of small drawings. */
export class Thumbnails {
  readonly element = make("ul", { class: "thumbnails" });
  private readonly shown = new Map<string, Shown>();
  private due = 0;
  private things: Thumbnail[] = [];

  constructor(
    private readonly draw: DrawThumbnail,
    private readonly take: (thing: Thumbnail) => void,
    /** Tries one on while the pointer or the focus is on it; none when it leaves. */
    private readonly tryOn?: (code: string | undefined) => void,
  ) {
    dark.addEventListener("change", () => this.later());
  }

  /** Shows what there is to choose; what stays keeps its button, so that the focus is left alone. */
  show(things: Thumbnail[]): void {
    this.things = things;
    for (const thing of things) {
      const { button, words, why, cautions } = this.shown.get(thing.code) ?? this.add(thing.code);
      words.textContent = thing.words;
      why.textContent = thing.why ?? "";
      why.hidden = thing.why === undefined;
      cautions.replaceChildren(...(thing.cautions ?? []).map((caution) => make("span", { class: "caution" }, caution)));
      button.title = thing.error ?? "";
      button.toggleAttribute("disabled", thing.error !== undefined);
      if (thing.holds !== undefined) button.setAttribute("aria-pressed", String(thing.holds));
    }
    const items = things.map(({ code }) => this.shown.get(code)?.button.parentElement ?? "");
    if (items.length !== this.element.children.length || items.some((item, index) => item !== this.element.children[index])) {
      this.element.replaceChildren(...items);
    }
    this.later();
  }

  private add(code: string): Shown {
    const canvas = make("canvas", { "aria-hidden": "true" });
    const words = make("span");
    const why = make("span", { class: "why" });
    const cautions = make("span", { class: "cautions" });
    const button = make("button", { type: "button", class: "thumbnail" }, canvas, words, why, cautions);
    button.addEventListener("click", () => {
      const thing = this.things.find((one) => one.code === code);
      if (thing) this.take(thing);
    });
    const { tryOn } = this;
    if (tryOn) {
      button.addEventListener("pointerenter", (event) => event.pointerType === "mouse" && tryOn(code));
      button.addEventListener("focus", () => button.matches(":focus-visible") && tryOn(code));
      for (const end of ["pointerleave", "blur"] as const) button.addEventListener(end, () => tryOn(undefined));
    }
    make("li", {}, button);
    const made = { button, canvas, words, why, cautions };
    this.shown.set(code, made);
    return made;
  }

  /** Draws when the page has time for it: the large drawing goes first. */
  private later(): void {
    clearTimeout(this.due);
    this.due = setTimeout(() => this.things.forEach(({ code }) => this.paint(code)), 150);
  }

  private paint(code: string): void {
    const canvas = this.shown.get(code)?.canvas;
    const context = canvas?.getContext("2d", { alpha: false });
    if (!canvas || !context || canvas.clientWidth < 1) return;
    canvas.hidden = !this.draw(context, sheetFor(canvas), code);
  }
}
