// Picture files that were chosen since the page was opened: papers and print-ready pictures are made from them, where they can be.

import type { CopyView, Desk } from "../generated/overmantel.js";
import { encode, type Decoded } from "./pictures.js";

/** Up to so many bytes a file goes into a paper as it is. */
const MOST_BYTES = 8 << 20;

/** A picture as a plan names it. */
type OfFile = Pick<Decoded, "file" | "width_px" | "height_px">;

/** Which picture of a plan a file is. */
function keyOf({ file, width_px, height_px }: OfFile): string {
  return [file, width_px, height_px].join("\n");
}

/** The files of pictures, as long as the page is open. */
export class Originals {
  private readonly files = new Map<string, Blob>();

  /** Keeps a file in reach: only the page's hold on it, not what is in it. */
  keep(picture: OfFile, file: Blob): void {
    this.files.set(keyOf(picture), file);
  }

  /** The file of a picture, where it was chosen. */
  of(picture: OfFile): Blob | undefined {
    return this.files.get(keyOf(picture));
  }

  /** The plan's pictures as JPEG files for papers, empty where there is none, and what each was made from. */
  async photos(desk: Desk): Promise<{ files: Uint8Array[]; told: string }> {
    const files: Uint8Array[] = [];
    const reduced: string[] = [];
    let own = 0;
    for (const picture of desk.copies()) {
      const { name, copy_width_px, copy_height_px } = picture;
      const { file, why } = await this.original(desk, picture);
      if (file !== undefined) {
        own += 1;
        files.push(file);
      } else if (copy_width_px === 0) {
        files.push(new Uint8Array());
        reduced.push(`“${name}” is not here, so its place stays grey.`);
      } else {
        const pixels = new Uint8ClampedArray(desk.copy_pixels(name));
        files.push(new Uint8Array(await (await encode(new ImageData(pixels, copy_width_px, copy_height_px))).arrayBuffer()));
        reduced.push(`“${name}” is printed from the reduced copy kept here (${copy_width_px} × ${copy_height_px} pixels), because ${why}.`);
      }
    }
    const whole = own === 0 ? [] : [own === files.length ? "The pictures are printed from your files." : "The other pictures are printed from your files."];
    return { files, told: [...reduced, ...whole].join(" ") };
  }

  private async original(desk: Desk, picture: CopyView): Promise<{ file?: Uint8Array; why: string }> {
    const file = this.of(picture);
    if (file === undefined) return { why: "you have not chosen its file since you opened this page" };
    if (file.size > MOST_BYTES) return { why: "its file is larger than 8 MB" };
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      return desk.takes_photo(bytes) ? { file: bytes, why: "" } : { why: "its file is not a JPEG" };
    } catch {
      return { why: "its file can no longer be read" };
    }
  }
}
