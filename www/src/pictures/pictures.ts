// Pictures: checked by their first bytes, decoded by the browser (which turns them upright and converts their colours),
// reduced, and one after another, so that large files never stand in memory together.

import { decodeBase64, type Core } from "../start/core.js";

/** A decoded picture: a reduced copy, and the size of its file. */
export interface Decoded {
  file: string;
  /** Pixels of the file, upright. */
  width_px: number;
  height_px: number;
  copy: ImageData;
}

/** The longer side of a reduced copy, in pixels. */
const COPY_PX = 2400;
/** The longer sides of a copy in a file, from the best down: the first whose file is short enough is taken. */
const FILED_PX = [1600, 1200, 800, 400];
/** Bytes of a copy in a plan file at the most; the core refuses longer ones. */
const FILED_BYTES = 700_000;
/** Bytes of a copy in a proposal at the most: three of them and the page go through any mail. */
export const SENT_BYTES = 220_000;
/** Bytes of a file that its header is looked for in. */
const HEADER_BYTES = 512 * 1024;

/** The size of a picture as its file stores it. Throws an error whose message is a plain sentence when it can't be decoded. */
export async function checked(core: Core, file: Blob, name: string): Promise<{ width_px: number; height_px: number }> {
  if (file.size === 0) throw new Error(`${name} is empty: there is no picture in it. Choose the file once more, or another.`);
  return checkedBeginning(core, await beginning(file), name);
}

/** What a file's header is read from. */
export async function beginning(file: Blob): Promise<Uint8Array> {
  return new Uint8Array(await file.slice(0, HEADER_BYTES).arrayBuffer());
}

function checkedBeginning(core: Core, bytes: Uint8Array, name: string): { width_px: number; height_px: number } {
  const header = core.picture_header(bytes, name);
  if (header.error !== undefined) throw new Error(header.error);
  return header;
}

/** The copy of a picture that the browser has decoded already; nothing where it has to be decoded otherwise. */
export function copyOf(core: Core, bytes: Uint8Array, bitmap: ImageBitmap, name: string): ImageData | undefined {
  const { width_px, height_px } = checkedBeginning(core, bytes, name);
  return Math.max(width_px, height_px) > COPY_PX ? undefined : pixels(bitmap);
}

/** Decodes one picture file. Throws an error whose message is a plain sentence. */
export async function decode(core: Core, file: Blob, name: string): Promise<Decoded> {
  const header = await checked(core, file, name);
  const longer = Math.max(header.width_px, header.height_px);
  const width = longer > COPY_PX ? Math.max(1, Math.round((header.width_px * COPY_PX) / longer)) : header.width_px;
  let bitmap: ImageBitmap;
  try {
    // With a width alone the browser keeps the proportions, whichever way it turns the picture.
    bitmap = await createImageBitmap(file, longer > COPY_PX ? { resizeWidth: width, resizeQuality: "high" } : {});
  } catch {
    throw new Error(`${name} can't be decoded by this browser; it may be broken. Save it as a new JPEG, then choose that file.`);
  }
  try {
    const copy = pixels(bitmap);
    // A copy that stands where the header says it lies was turned by the file's orientation tag.
    const turned = bitmap.width < bitmap.height !== header.width_px < header.height_px;
    return {
      file: name,
      width_px: turned ? header.height_px : header.width_px,
      height_px: turned ? header.width_px : header.height_px,
      copy,
    };
  } finally {
    bitmap.close();
  }
}

function pixels(bitmap: ImageBitmap): ImageData {
  // A turned picture was reduced by its shorter side.
  const share = Math.min(1, COPY_PX / Math.max(bitmap.width, bitmap.height));
  const [width, height] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.round(side * share))) as [number, number];
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext("2d", { alpha: false, willReadFrequently: true });
  if (!context) throw new Error("This browser cannot read pictures here.");
  // Transparent parts lie over white paper.
  context.fillStyle = "#fff";
  context.fillRect(0, 0, width, height);
  context.imageSmoothingQuality = "high";
  context.drawImage(bitmap, 0, 0, width, height);
  return context.getImageData(0, 0, width, height);
}

/** A copy as a file to keep. */
export async function encode(copy: ImageData): Promise<Blob> {
  const canvas = new OffscreenCanvas(copy.width, copy.height);
  canvas.getContext("2d")?.putImageData(copy, 0, 0);
  return canvas.convertToBlob({ type: "image/jpeg", quality: 0.92 });
}

/** How a copy goes into a file. */
export interface Filing {
  /** Bytes at the most. */
  most?: number;
  /** Pixels of its longer side at the most. */
  largest?: number;
  /** What is done to its pixels before. */
  marked?: (pixels: ImageData) => ImageData;
}

/** A copy for a plan file: a JPEG in base64, made from pixels alone, so that nothing else of the picture's file goes with it. */
export async function forFile(copy: ImageData, { most = FILED_BYTES, largest = COPY_PX, marked }: Filing = {}): Promise<string> {
  const whole = new OffscreenCanvas(copy.width, copy.height);
  whole.getContext("2d", { alpha: false })?.putImageData(copy, 0, 0);
  const longer = Math.max(copy.width, copy.height);
  for (const side of [largest, ...FILED_PX].filter((side) => side <= largest)) {
    const share = Math.min(1, side / longer);
    const [width, height] = [copy.width, copy.height].map((of) => Math.max(1, Math.round(of * share))) as [number, number];
    const canvas = new OffscreenCanvas(width, height);
    const context = canvas.getContext("2d", { alpha: false });
    if (!context) continue;
    context.imageSmoothingQuality = "high";
    context.drawImage(whole, 0, 0, width, height);
    if (marked) context.putImageData(marked(context.getImageData(0, 0, width, height)), 0, 0);
    const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
    if (blob.size <= most) return base64(new Uint8Array(await blob.arrayBuffer()));
  }
  return "";
}

/** The base64 text of bytes. */
export function base64(bytes: Uint8Array): string {
  let characters = "";
  // As many at a time as a call takes.
  for (let at = 0; at < bytes.length; at += 8192) characters += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(characters);
}

/** Decodes the copy of a picture out of a plan file. Throws an error whose message is a plain sentence. */
export async function fromFile(core: Core, filed: string, name: string): Promise<ImageData> {
  const bytes = decodeBase64(filed);
  const { error, width_px, height_px } = core.picture_header(bytes.subarray(0, HEADER_BYTES), name);
  if (error !== undefined) throw new Error(error);
  // No page made it so large; it is not decoded.
  if (Math.max(width_px, height_px) > COPY_PX) throw new Error(`The copy of ${name} in this file is too large to be one of ours. Choose the picture itself.`);
  return (await decode(core, new Blob([bytes], { type: "image/jpeg" }), name)).copy;
}
