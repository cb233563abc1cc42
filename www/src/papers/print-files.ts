// Print-ready pictures: the chosen file is decoded by the browser at its full size, its rows go through the core a strip at a time, and what
// comes out is a PNG.

import type { Desk, PrintFileView } from "../generated/overmantel.js";
import { make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { save } from "../page/file.js";
import { Saying } from "../page/saying.js";
import type { Originals } from "../pictures/originals.js";
import { checked } from "../pictures/pictures.js";
import type { Core } from "../start/core.js";

/** Rows that are read together, and columns: no browser's canvas is narrower. */
const STRIP_PX = 64;
const TILE_PX = 4096;

/** The part of the papers that makes print-ready pictures. */
export class PrintFiles {
  readonly element = make("section", { class: "papers print-files" });
  private readonly list = make("div");
  private readonly bleed = make("input", { type: "text", id: "bleed", placeholder: "none", size: "8", autocomplete: "off" });
  private readonly line = make("p");
  private readonly said = new Saying(this.line);
  private isBusy = false;

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly originals: Originals,
  ) {
    this.bleed.addEventListener("change", () => this.show());
    this.element.append(
      make("h3", {}, "Print-ready pictures"),
      make("p", {}, "Each piece as a PNG at the full size of its file, with border, edges and bleed, and with its resolution stated. The browser converts the colours to sRGB with 8 bits per channel. To keep the file's own profile, or for files too large for the browser, use the command line: overmantel print-file."),
      make("p", { class: "paper-options" }, make("label", {}, "with a bleed of ", this.bleed)),
      this.line,
      this.list,
    );
  }

  /** Shows what can be made as things are now. */
  show(): void {
    const had = this.list.contains(document.activeElement) ? document.activeElement?.getAttribute("aria-label") : undefined;
    this.list.replaceChildren(...this.desk.print_files(this.bleed.value).map((view, piece) => this.piece(view, piece)));
    if (had) [...this.list.querySelectorAll("button")].find((button) => button.getAttribute("aria-label") === had)?.focus({ preventScroll: true });
  }

  private piece(view: PrintFileView, piece: number): HTMLElement {
    const element = make("div", {}, make("h4", {}, view.title));
    if (view.error !== undefined) {
      element.append(make("p", { class: "note" }, `Not available: ${view.error}.`));
      return element;
    }
    const [first = "", ...rest] = view.words;
    element.append(make("p", {}, first), make("p", {}, `${rest.join("; ")}.`));
    const original = this.originals.of(view);
    if (original) {
      element.append(press("Save as PNG", `Save as PNG: ${view.title}`, () => void this.save(view, piece, original)));
    } else {
      const input = make("input", { type: "file", accept: "image/*", hidden: true });
      input.addEventListener("change", () => {
        const file = input.files?.[0];
        if (file) void this.save(view, piece, file);
      });
      const choose = press("Choose the file", `Choose the file ${view.file} for ${view.title}`, () => input.click());
      element.append(make("p", {}, `Only a reduced copy of ${view.file} is kept here.`), choose, input);
    }
    return element;
  }

  private async save(view: PrintFileView, piece: number, file: Blob): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    try {
      const made = await this.make(view, piece, file);
      save(`${this.desk.view(undefined).title}, ${view.title.replace(":", "")}.png`, made);
      this.said.say(`${view.title}: saved. Print it at its own size, without fitting it to the sheet.`);
    } catch (error) {
      const why = reason(error);
      this.said.say(`${view.title} was not made: ${why.replace(/\.$/, "")}.`);
    } finally {
      this.isBusy = false;
      this.show();
    }
  }

  private async make(view: PrintFileView, piece: number, file: Blob): Promise<Blob> {
    this.said.say(`${view.title}: decoding…`);
    await checked(this.core, file, view.file);
    let bitmap: ImageBitmap;
    try {
      bitmap = await createImageBitmap(file);
    } catch {
      throw new Error(`this browser can't decode ${view.file} at its full size; the command line can: overmantel print-file`);
    }
    try {
      const { width, height } = bitmap;
      const making = this.desk.print_file(piece, this.bleed.value, width, height);
      this.originals.keep(view, file);
      const [first = 0, end = 0] = making.needed();
      const parts: Uint8Array<ArrayBuffer>[] = [];
      for (let top = first; top < end; top += STRIP_PX) {
        const rows = strip(bitmap, top, Math.min(STRIP_PX, end - top));
        parts.push(making.take(rows, width) as Uint8Array<ArrayBuffer>);
        this.said.show(`${view.title}: ${Math.floor((100 * (top - first)) / (end - first))} %`);
        // The page stays alive.
        await new Promise((resolve) => setTimeout(resolve));
      }
      parts.push(making.finish() as Uint8Array<ArrayBuffer>);
      return new Blob(parts, { type: "image/png" });
    } finally {
      bitmap.close();
    }
  }
}

function press(text: string, label: string, act: () => void): HTMLElement {
  const button = make("button", { type: "button", "aria-label": label }, text);
  button.addEventListener("click", act);
  return button;
}

/** Some whole rows of a picture: RGBA, over white. */
function strip(bitmap: ImageBitmap, top: number, height: number): Uint8Array {
  const rows = new Uint8Array(bitmap.width * height * 4);
  for (let left = 0; left < bitmap.width; left += TILE_PX) {
    const width = Math.min(TILE_PX, bitmap.width - left);
    const context = new OffscreenCanvas(width, height).getContext("2d", { alpha: false, willReadFrequently: true });
    if (!context) throw new Error("this browser cannot read pictures here");
    context.fillStyle = "#fff";
    context.fillRect(0, 0, width, height);
    context.drawImage(bitmap, -left, -top);
    const { data } = context.getImageData(0, 0, width, height);
    for (let row = 0; row < height; row += 1) {
      rows.set(data.subarray(row * width * 4, (row + 1) * width * 4), (row * bitmap.width + left) * 4);
    }
  }
  return rows;
}
