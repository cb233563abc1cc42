// Reduced copies of pictures: put on the desk, kept on this machine, written into plan files and read out of them.

import type { Desk, WantedCopy } from "../generated/overmantel.js";
import { keepCopy, keptCopy } from "../kept/database.js";
import { reason } from "../page/error.js";
import { inShort } from "../page/saying.js";
import type { Core } from "../start/core.js";
import { keptOne, keptPicture } from "./early.js";
import type { Originals } from "./originals.js";
import { decode, encode, forFile, fromFile, type Decoded, type Filing } from "./pictures.js";

/** What the page does for it. */
export interface Copying {
  /** The pixels of a picture have come: the drawing is another. */
  draw(): void;
  /** The plan has changed. */
  changed(): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** The name under which the copy of a picture is kept. */
export function copyName(picture: { name: string; file: string; width_px: number; height_px: number }): string {
  return [picture.name, picture.file, picture.width_px, picture.height_px].join("\n");
}

/** The copies of the plan's pictures. */
export class Copies {
  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly originals: Originals,
    private readonly page: Copying,
  ) {}

  /** Takes picture files into the plan: all of it, or one piece. */
  async take(files: File[], piece: number | undefined): Promise<void> {
    const decoded: Decoded[] = [];
    const refused: string[] = [];
    for (const file of files) {
      const name = file.name.normalize();
      this.page.say(`Reading ${inShort(name)}…`);
      try {
        const picture = await decode(this.core, file, name);
        decoded.push(picture);
        this.originals.keep(picture, file);
      } catch (error) {
        refused.push(reason(error).replaceAll(name, inShort(name)));
      }
    }
    // What went wrong of several is told as one before what did not, and then each.
    const count = refused.length > 0 && files.length > 1 ? [`${refused.length} of ${files.length} files can't be used.`] : [];
    const told = decoded.length > 0 ? await this.add(decoded, piece) : [];
    if (decoded.length > 0) this.page.changed();
    this.page.say([...count, ...told, ...refused, ...this.missing()].join(" "));
  }

  /** Adds decoded pictures to the plan, and keeps their copies; what there is to say of it. */
  private async add(decoded: Decoded[], piece: number | undefined): Promise<string[]> {
    const wrong: string[] = [];
    const files = decoded.map(({ file, width_px, height_px }) => ({ file, width_px, height_px }));
    const { error, names } = this.desk.add_pictures({ files, piece });
    if (error !== undefined) wrong.push(error);
    else if (names.length > 3) wrong.push(`Three of the ${names.length} pictures hang; the others can be chosen in the sentences.`);
    else wrong.push(["One picture hangs.", "Two pictures hang.", "Three pictures hang."][names.length - 1] ?? "");
    const copyNames = new Map(this.desk.wanted_copies().map((wanted) => [wanted.name, copyName(wanted)]));
    for (const [index, name] of names.entries()) {
      const copy = decoded[index]?.copy;
      if (!copy) continue;
      put(this.desk, name, copy);
      if (!(await keepCopy({ name: copyNames.get(name) ?? name, image: await encode(copy) }))) {
        wrong.push(`“${inShort(name)}” could not be kept on this machine; after a reload it has to be chosen again.`);
      }
    }
    return wrong;
  }

  /** What to say of pictures of the plan that are not here. */
  missing(): string[] {
    const missing = this.desk.wanted_copies().filter(({ name }) => !this.desk.is_sketched(name));
    const [first] = missing;
    if (first === undefined) return [];
    if (missing.length === 1) return [`“${inShort(first.name)}” is not here: choose or drop its file, ${first.file}.`];
    return [`${missing.length} pictures are not here: choose or drop their files.`, `${missing.map(({ name, file }) => `“${name}”: ${file}`).join("; ")}.`];
  }

  /** The plan with its pictures, reduced, in the same file; and what to say of those that are not here. */
  fullPlan(filing?: Filing): Promise<{ text: string; without: string[] }> {
    return this.full(this.desk, filing);
  }

  /** Another plan with its pictures, as far as they are here. */
  fullOf(plan: string, filing: Filing): Promise<string> {
    return this.furnished(plan, async (desk) => (await this.full(desk, filing)).text);
  }

  /** Does something with another plan on a desk of its own, with its pictures as far as they are here. */
  async furnished<T>(plan: string, act: (desk: Desk) => Promise<T>): Promise<T> {
    const desk = new this.core.Desk(plan);
    try {
      // Of the very same files, those that are on the desk; another plan may call another picture alike.
      const wanted = new Set(desk.copies().map(copyName));
      for (const copy of this.desk.copies()) {
        const { name, copy_width_px, copy_height_px } = copy;
        if (copy_width_px > 0 && wanted.has(copyName(copy))) desk.put_copy(name, copy_width_px, copy_height_px, this.desk.copy_pixels(name));
      }
      await this.furnish(desk);
      return await act(desk);
    } finally {
      desk.free();
    }
  }

  private async full(desk: Desk, filing?: Filing): Promise<{ text: string; without: string[] }> {
    const copies: string[] = [];
    const without: string[] = [];
    for (const { name, copy_width_px, copy_height_px } of desk.copies()) {
      const isHere = copy_width_px > 0;
      const pixels = new Uint8ClampedArray(desk.copy_pixels(name));
      const filed = isHere ? await forFile(new ImageData(pixels, copy_width_px, copy_height_px), filing) : "";
      if (filed === "") without.push(`“${inShort(name)}” is not here, and is not in the file.`);
      copies.push(filed);
    }
    return { text: desk.full_plan_file(copies), without };
  }

  /** Puts the pictures that came with a plan file on the desk, and keeps those that are not kept yet. */
  async restore(filed: string[]): Promise<void> {
    const wrong: string[] = [];
    for (const [index, picture] of this.desk.copies().entries()) {
      const text = filed[index];
      if (!text) continue;
      try {
        const copy = await fromFile(this.core, text, picture.name);
        put(this.desk, picture.name, copy);
        const name = copyName(picture);
        if ((await keptCopy(name)) === undefined && !(await keepCopy({ name, image: await encode(copy) }))) {
          wrong.push(`“${inShort(picture.name)}” could not be kept on this machine; after a reload the file has to be opened again.`);
        }
      } catch (error) {
        wrong.push(reason(error));
      }
    }
    this.page.draw();
    this.page.say([...wrong, ...this.missing()].join(" "));
  }

  /** Puts on a desk what copies there are of its plan's pictures: the demo's own, and those kept; also those kept in place of stand-ins. */
  async furnish(desk: Desk, standIns: WantedCopy[] = []): Promise<void> {
    for (const wanted of [...desk.wanted_copies(), ...standIns]) {
      const { name, file } = wanted;
      const blob = await (standIns.includes(wanted) ? keptOne(wanted) : keptPicture(wanted));
      if (!blob) continue;
      try {
        const { copy } = await decode(this.core, blob, file);
        put(desk, name, copy);
        if (desk === this.desk) this.page.draw();
      } catch {
        this.page.say(`The kept copy of “${inShort(name)}” can't be read; choose the picture again.`);
      }
    }
  }
}

/** Puts a copy of a picture on a desk. */
export function put(desk: Desk, name: string, copy: ImageData): void {
  desk.put_copy(name, copy.width, copy.height, new Uint8Array(copy.data.buffer));
}
