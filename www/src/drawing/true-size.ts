// At true size: the screen is measured once with a card, a ruler or a tape; then a part of a print is shown as large as it is, with the pixels that it is printed from, or
// the whole wall on a television or a projector.

import type { Desk, SheetOptions, TrueOptions, TrueView } from "../generated/overmantel.js";
import { keepCard, keptCard } from "../kept/local.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { Saying } from "../page/saying.js";
import type { Originals } from "../pictures/originals.js";
import { demoPicture } from "../start/demo.js";
import { devicePixels, sheetOf } from "./sheet.js";

/** What is looked at. */
type Looked = "close" | "far" | "wall";

/** One press of an arrow key moves so large a share of the print. */
const STEP = 0.05;

/** Shows things as large as they are. */
export class TrueSize {
  private readonly dialog = known<HTMLDialogElement>("true-size");
  private readonly card = make("div", { class: "card", "aria-hidden": "true" });
  private readonly width = make("input", { type: "range", min: "15", max: "900", step: "0.5", "aria-label": "Width of the outline" });
  private readonly helds = make("fieldset", {});
  private held = "card";
  private readonly measure: HTMLElement;
  private readonly shown: HTMLElement;
  private readonly canvas = make("canvas", { tabindex: "0", role: "img" });
  private readonly line = make("p");
  private readonly said = new Saying(this.line);
  private readonly pieces = make("fieldset", {});
  private looked: Looked = "close";
  private piece = 0;
  private at: [number, number] = [0.5, 0.5];
  private due = 0;
  /** Which drawing is the last: one that was overtaken is dropped. */
  private turn = 0;

  constructor(
    private readonly desk: Desk,
    private readonly originals: Originals,
  ) {
    const fits = make("button", { type: "button", class: "main" }, "It fits");
    fits.addEventListener("click", () => {
      keepCard(this.width.value, String(devicePixelRatio), this.held);
      this.show(true);
    });
    this.measure = make(
      "div",
      { class: "measure" },
      make("h2", { tabindex: "-1" }, "Measure your screen once"),
      this.helds,
      make("p", {}, "Hold it flat against the screen. Move the slider until the outline is exactly as wide; the arrow keys move it by half a pixel."),
      this.card,
      make("label", {}, "Outline ", this.width),
      make("p", {}, fits),
    );
    const again = make("button", { type: "button" }, "Measure again");
    again.addEventListener("click", () => this.show(false));
    this.shown = make("div", { class: "shown" }, make("div", { class: "bar" }, this.choice(), this.pieces, again), this.line, this.canvas);
    const close = make("button", { type: "button" }, "Close");
    close.addEventListener("click", () => this.dialog.close());
    this.dialog.append(close, this.measure, this.shown);
    this.width.addEventListener("input", () => this.outline());
    known("true").addEventListener("click", () => this.open());
    this.dialog.addEventListener("close", () => known("true").focus({ preventScroll: true }));
    this.canvas.addEventListener("keydown", (event) => this.step(event));
    this.canvas.addEventListener("pointerdown", (event) => this.canvas.setPointerCapture(event.pointerId));
    this.canvas.addEventListener("pointermove", (event) => {
      if (event.buttons > 0) this.move(-event.movementX / this.canvas.clientWidth, -event.movementY / this.canvas.clientHeight);
    });
    new ResizeObserver(() => this.later()).observe(this.canvas);
  }

  private choice(): HTMLElement {
    const ways: [Looked, string][] = [
      ["close", "close to"],
      ["far", "from where people stand"],
      ["wall", "the wall"],
    ];
    const labels = ways.map(([way, words]) => {
      const input = make("input", { type: "radio", name: "looked", value: way });
      input.checked = way === this.looked;
      input.addEventListener("change", () => {
        this.looked = way;
        this.later();
      });
      return make("label", {}, input, make("span", {}, words));
    });
    return make("fieldset", {}, make("legend", { class: "unseen" }, "At true size"), ...labels);
  }

  private open(): void {
    const { pieces } = this.desk.view(undefined);
    this.piece = Math.min(this.piece, pieces - 1);
    this.pieces.hidden = pieces < 2;
    const names = ["first", "second", "third"].slice(0, pieces);
    this.pieces.replaceChildren(
      make("legend", { class: "unseen" }, "Piece"),
      ...names.map((name, index) => {
        const input = make("input", { type: "radio", name: "true-piece", value: String(index) });
        input.checked = index === this.piece;
        input.addEventListener("change", () => {
          this.piece = index;
          this.later();
        });
        return make("label", {}, input, make("span", {}, name));
      }),
    );
    const kept = keptCard(String(devicePixelRatio));
    // The screen is as wide as anything that can be held to it.
    this.width.max = String(innerWidth);
    this.held = kept?.held ?? "card";
    this.width.value = kept?.width ?? "324";
    this.offer();
    this.outline();
    this.dialog.showModal();
    this.show(kept !== undefined);
  }

  /** Offers what can be held to the screen. */
  private offer(): void {
    const known = this.desk.held();
    // What was measured in other units stays what it was.
    const labels = known.map(({ key, words }) => {
      const input = make("input", { type: "radio", name: "held", value: key });
      input.checked = key === this.held;
      input.addEventListener("change", () => {
        this.held = key;
        this.outline();
      });
      return make("label", {}, input, make("span", {}, words));
    });
    this.helds.replaceChildren(make("legend", {}, "Held to the screen:"), ...labels);
  }

  /** The outline of what is held to it, as wide as the slider says; a card's height follows by its shape. */
  private outline(): void {
    this.card.style.setProperty("inline-size", `${this.width.value}px`);
    this.card.dataset["held"] = this.held;
  }

  private show(isMeasured: boolean): void {
    this.measure.hidden = isMeasured;
    this.shown.hidden = !isMeasured;
    if (isMeasured) this.canvas.focus();
    else this.measure.querySelector("h2")?.focus();
    this.later();
  }

  private step(event: KeyboardEvent): void {
    const by = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, -STEP], ArrowDown: [0, STEP] }[event.key];
    if (!by) return;
    event.preventDefault();
    this.move(by[0] ?? 0, by[1] ?? 0);
  }

  private move(across: number, down: number): void {
    const held = (share: number): number => Math.min(1, Math.max(0, share));
    this.at = [held(this.at[0] + across), held(this.at[1] + down)];
    this.later();
  }

  private later(): void {
    this.due ||= requestAnimationFrame(() => {
      this.due = 0;
      void this.draw();
    });
  }

  private async draw(): Promise<void> {
    const context = this.canvas.getContext("2d", { alpha: false });
    if (!this.dialog.open || this.shown.hidden || !context || this.canvas.clientWidth < 1) return;
    const turn = ++this.turn;
    const sheet = sheetOf(devicePixels(this.canvas.clientWidth), devicePixels(this.canvas.clientHeight));
    const options: TrueOptions = { width: Number(this.width.value), held: this.held, piece: this.piece, across: this.at[0], down: this.at[1], far: this.looked === "far" };
    try {
      const said = this.looked === "wall" ? this.wall(context, sheet, options) : await this.print(context, sheet, options, () => turn === this.turn);
      if (said !== undefined) this.said.say(said);
    } catch (error) {
      this.said.say(`${reason(error)}.`);
    }
  }

  private sized(sheet: SheetOptions): void {
    this.canvas.width = sheet.width_px;
    this.canvas.height = sheet.height_px;
  }

  private wall(context: CanvasRenderingContext2D, sheet: SheetOptions, options: TrueOptions): string {
    this.sized(sheet);
    const isWhole = this.desk.draw_true_wall(context, { ...sheet, clean: true }, options);
    this.canvas.setAttribute("aria-label", "The wall at its true size");
    return isWhole ? "The wall at its true size. Drag it, or use the arrow keys." : "The wall is too large for this screen, so you see it smaller than it is. A television or a projector has room for it.";
  }

  private async print(context: CanvasRenderingContext2D, sheet: SheetOptions, options: TrueOptions, isWanted: () => boolean): Promise<string | undefined> {
    const view = this.desk.true_view(options, sheet);
    if (view === undefined) return "This piece shows no picture yet: choose one.";
    const pixels = await this.pixels(view);
    if (!isWanted()) return undefined;
    this.sized(sheet);
    this.desk.draw_true(context, sheet, options, pixels ?? new Uint8Array());
    this.canvas.setAttribute("aria-label", `A part of ${view.name} at its true size`);
    const reduced = pixels === undefined ? ` Only a reduced copy of ${view.name} is here: choose the file again to see its own pixels.` : "";
    return view.said + reduced;
  }

  /** The pixels of the file that are needed; nothing where the file is not at hand. */
  private async pixels(view: TrueView): Promise<Uint8Array | undefined> {
    const blob = this.originals.of(view) ?? (await demoPicture(view.file));
    if (blob === undefined) return undefined;
    const [left, top, width, height] = view.needed;
    const bitmap = await createImageBitmap(blob);
    try {
      // A file that is not as large as the plan has it would show another part.
      if (bitmap.width !== view.width_px || bitmap.height !== view.height_px) return undefined;
      const canvas = make("canvas", {});
      [canvas.width, canvas.height] = [width, height];
      const context = canvas.getContext("2d", { alpha: false, willReadFrequently: true });
      if (!context) return undefined;
      context.drawImage(bitmap, left, top, width, height, 0, 0, width, height);
      const { data } = context.getImageData(0, 0, width, height);
      return new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
    } finally {
      bitmap.close();
    }
  }
}
