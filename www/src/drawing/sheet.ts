// The sheet that a drawing is made on: how many pixels it has, and in which colours it is.

import type { SheetOptions } from "../generated/overmantel.js";
import { known } from "../page/dom.js";
import { dark, layout } from "../page/media.js";

/** Of the window's height a drawing takes so much at the most; of a low window all that the header leaves. */
const MOST_OF_WINDOW = { wide: 0.82, narrow: 0.46, low: 1 };

/** What is left below the drawing in a low window, in CSS pixels. */
const ROOM_BELOW = 4;

/** A sheet of so many device pixels: the wall flat, with nothing chosen, unless the options say otherwise. */
export function sheetOf(width_px: number, height_px: number, options: Partial<SheetOptions> = {}): SheetOptions {
  return { width_px, height_px, pixel_ratio: devicePixelRatio, dark: dark.matches, oblique: false, clean: false, chosen: undefined, ...options };
}

/** The sheet of a canvas, which is given as many pixels as it is shown with. */
export function sheetFor(canvas: HTMLCanvasElement): SheetOptions {
  const sheet = sheetOf(devicePixels(canvas.clientWidth), devicePixels(canvas.clientHeight));
  canvas.width = sheet.width_px;
  canvas.height = sheet.height_px;
  return sheet;
}

/** How high a drawing may be, in CSS pixels: no higher than the window has room for. */
export function mostHeight(): number {
  const shape = layout();
  const free = shape === "low" ? innerHeight - known("sheet").offsetTop + known("letter").offsetHeight - ROOM_BELOW : innerHeight;
  return free * MOST_OF_WINDOW[shape];
}

/** Device pixels of a length in CSS pixels. */
export function devicePixels(length: number): number {
  return Math.round(length * devicePixelRatio);
}
