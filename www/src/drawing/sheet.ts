// The sheet that a drawing is made on: how many pixels it has, and in which colours it is.

import type { SheetOptions } from "../generated/overmantel.js";
import { dark } from "../page/media.js";

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

/** Device pixels of a length in CSS pixels. */
export function devicePixels(length: number): number {
  return Math.round(length * devicePixelRatio);
}
