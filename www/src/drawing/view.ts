// The view by itself: on the whole screen without lines, and as a picture to save or share.

import type { Desk } from "../generated/overmantel.js";
import { known } from "../page/dom.js";
import { fileName, save } from "../page/file.js";
import { inShort } from "../page/saying.js";
import type { PageState } from "../state.js";
import { sheetOf } from "./sheet.js";

/** What the page does for it. */
export interface Viewing {
  /** Draws in the next frame. */
  draw(): void;
  /** Draws the pieces in the photograph of the room, so many pixels large at most; whether there is one. */
  photograph(context: CanvasRenderingContext2D, most_px: number): boolean;
  say(text: string): void;
}

/** So many pixels a saved picture is wide. */
export const WIDTH_PX = 2400;

const TYPES = { png: "image/png", jpeg: "image/jpeg" } as const;

/** Shows the view alone, and hands it on. */
export class View {
  private readonly sheet = known("sheet");

  constructor(
    private readonly desk: Desk,
    private readonly state: PageState,
    private readonly page: Viewing,
  ) {
    known("clean").addEventListener("click", () => this.clear(true));
    known("save-png").addEventListener("click", () => void this.save("png"));
    known("save-jpeg").addEventListener("click", () => void this.save("jpeg"));
    const share = known("share-view");
    share.hidden = !canShare();
    share.addEventListener("click", () => void this.share());
    document.addEventListener("fullscreenchange", () => {
      if (document.fullscreenElement !== null) return;
      this.clear(false);
      if (document.activeElement === this.sheet) this.giveBack();
    });
    addEventListener("keydown", (event) => {
      if (event.key === "Escape") this.clear(false);
      // There is nothing else to go to.
      else if (event.key === "Tab" && this.state.now.clean) event.preventDefault();
    });
    this.sheet.addEventListener("click", () => this.clear(false));
    addEventListener("resize", () => {
      if (this.state.now.clean) page.draw();
    });
  }

  /** Fills the screen with the drawing, without lines; or shows the page again. */
  private clear(clean: boolean): void {
    if (!this.state.change({ kind: "cleared", clean })) return;
    document.body.toggleAttribute("data-clean", clean);
    if (clean) {
      // Where the browser has no whole screen, the window is filled.
      this.sheet.requestFullscreen?.().catch(() => undefined);
      this.sheet.tabIndex = -1;
      this.sheet.focus({ preventScroll: true });
      this.page.say("Press Escape, or the drawing, to come back.");
    } else {
      if (document.fullscreenElement !== null) void document.exitFullscreen();
      this.giveBack();
      this.page.say("");
    }
    this.page.draw();
  }

  /** The focus goes back to where the whole screen was asked for. */
  private giveBack(): void {
    const look = known<HTMLDetailsElement>("look");
    (look.open ? known("clean") : look.querySelector("summary"))?.focus({ preventScroll: true });
  }

  private async save(type: keyof typeof TYPES): Promise<void> {
    const file = await this.file(type);
    if (file === undefined) return;
    save(file.name, file);
    this.page.say(`Saved: ${inShort(file.name)}.`);
  }

  private async share(): Promise<void> {
    const file = await this.file("jpeg");
    if (file === undefined) return;
    try {
      await navigator.share({ files: [file], title: file.name });
    } catch (error) {
      // Who thinks better of it has done nothing wrong.
      if (!(error instanceof DOMException && error.name === "AbortError")) this.page.say("This browser could not share the picture; save it instead.");
    }
  }

  /** The view as a file, named after the plan and its sizes. */
  private async file(type: keyof typeof TYPES): Promise<File | undefined> {
    const canvas = document.createElement("canvas");
    const context = canvas.getContext("2d", { alpha: false });
    const { oblique, photographed } = this.state.now;
    if (photographed && context && !this.page.photograph(context, WIDTH_PX)) {
      this.page.say("There is no photograph yet that the pieces hang in.");
      return undefined;
    }
    const sheet = { ...sheetOf(WIDTH_PX, 1, { oblique, clean: true }), pixel_ratio: 2 };
    const name = photographed ? this.desk.view(undefined).title : context ? this.desk.draw_captioned(canvas, context, sheet) : "";
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, TYPES[type], 0.92));
    if (!context || blob === null) {
      this.page.say("This browser could not make a picture of the view.");
      return undefined;
    }
    return new File([blob], `${fileName(name)}.${type === "jpeg" ? "jpg" : type}`, { type: TYPES[type] });
  }
}

/** Whether the system's own way to share takes pictures. */
function canShare(): boolean {
  const file = new File([], "view.jpg", { type: TYPES.jpeg });
  return "canShare" in navigator && navigator.canShare({ files: [file] });
}
