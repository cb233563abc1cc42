// A photograph on its way in: decoded, reduced, without anything of its file but its pixels, and looked through by the core.

import type { RoomPhotograph } from "../generated/overmantel.js";
import type { KeptRoom } from "../kept/database.js";
import { reason } from "../page/error.js";
import { decode, encode } from "../pictures/pictures.js";
import type { Core } from "../start/core.js";
import { capital } from "../state.js";

/** Bytes of a file's beginning in which its Exif is. */
const EXIF_BYTES = 256 * 1024;

/** A photograph that is at work, and its pixels as they are kept. */
export interface Chosen {
  photograph: RoomPhotograph;
  image: Blob;
}

/** Takes a photograph from a file. Throws an error whose message is a plain sentence. */
export async function chosen(core: Core, file: File): Promise<Chosen> {
  // It is read before the pixels are drawn, which forget it.
  const focal = core.RoomPhotograph.focal_in(new Uint8Array(await file.slice(0, EXIF_BYTES).arrayBuffer()));
  const { copy } = await decode(core, file, file.name.normalize());
  await painted();
  const photograph = plainly(() => core.RoomPhotograph.found(copy.width, copy.height, new Uint8Array(copy.data.buffer), focal));
  return { photograph, image: await encode(copy) };
}

/** Takes up a photograph that was kept. Throws an error whose message is a plain sentence. */
export async function keptOne(core: Core, { image, marks }: KeptRoom): Promise<Chosen> {
  const { copy } = await decode(core, image, "The kept photograph");
  return { photograph: plainly(() => core.RoomPhotograph.with_marks(copy.width, copy.height, new Uint8Array(copy.data.buffer), marks)), image };
}

/** What is wrong, as a sentence. */
export function sentence(text: string): string {
  return /[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`;
}

function plainly<T>(act: () => T): T {
  try {
    return act();
  } catch (error) {
    // A fault of the core is none of the photograph's.
    if (error instanceof WebAssembly.RuntimeError) throw error;
    throw new Error(sentence(reason(error)), { cause: error });
  }
}

/** Waits until the browser has drawn what was said last. */
function painted(): Promise<void> {
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}
