// The pictures that a plan wants, from where they are: kept on this machine, or the demo's own. Those of the plan that the page begins
// with are decoded by the browser while the core still comes.

import type { Desk, WantedCopy } from "../generated/overmantel.js";
import { keptCopy } from "../kept/database.js";
import type { Core } from "../start/core.js";
import { demoPicture } from "../start/demo.js";
import { copyName, put } from "./copies.js";
import { beginning, copyOf } from "./pictures.js";

/** A picture that the browser has decoded. */
interface Early {
  wanted: WantedCopy;
  bytes: Uint8Array;
  bitmap: ImageBitmap;
  isDemo: boolean;
}

/** A picture that a plan wants: one of this very file; the demo's own; or one that was kept before there were several plans. */
export async function keptPicture(wanted: WantedCopy): Promise<Blob | undefined> {
  return (await keptOne(wanted)) ?? (await demoPicture(wanted.file)) ?? (await keptCopy(wanted.name))?.image;
}

/** The kept one of this very file. */
export async function keptOne(wanted: WantedCopy): Promise<Blob | undefined> {
  return (await keptCopy(copyName(wanted)))?.image;
}

/** The pictures of the plan that the page begins with. */
export class EarlyPictures {
  /** When each is decoded or is known not to be. */
  readonly decoded: Promise<unknown>;
  /** Those put for which the demo's own stands in until it is known whether another one is kept: asking takes longer than all the rest. */
  standIns: WantedCopy[] = [];
  private here: Early[] = [];
  private isClosed = false;

  /** Of a plan as a file; which pictures it has is only a guess here, and the core says which of them it wants. */
  constructor(plan: string | undefined) {
    this.decoded = Promise.allSettled(stated(plan).map((one) => this.decode(one)));
  }

  /**
   * Puts those on a desk that are decoded by now; whether there was any, and whether none is wanted any more. What can't be read is told
   * when it is asked for again.
   */
  putOn(desk: Desk, core: Core): { isAny: boolean; isAll: boolean } {
    const wanted = new Set(desk.wanted_copies().map(copyName));
    let count = 0;
    this.standIns = [];
    for (const { wanted: one, bytes, bitmap, isDemo } of this.here) {
      if (!wanted.has(copyName(one))) continue;
      const copy = readable(() => copyOf(core, bytes, bitmap, one.file));
      if (copy === undefined) continue;
      put(desk, one.name, copy);
      count += 1;
      if (isDemo) this.standIns.push(one);
    }
    return { isAny: count > 0, isAll: count === wanted.size };
  }

  /** Gives up what the browser holds of them; what comes later is asked for again. */
  close(): void {
    this.isClosed = true;
    for (const { bitmap } of this.here) bitmap.close();
    this.here = [];
  }

  private async decode(wanted: WantedCopy): Promise<void> {
    const demo = await demoPicture(wanted.file);
    const blob = demo ?? (await keptPicture(wanted));
    if (blob === undefined) return;
    const [bytes, bitmap] = await Promise.all([beginning(blob), createImageBitmap(blob)]);
    if (this.isClosed) bitmap.close();
    else this.here.push({ wanted, bytes, bitmap, isDemo: demo !== undefined });
  }
}

/** The pictures that a plan's file states. */
function stated(plan: string | undefined): WantedCopy[] {
  const parts = readable(() => JSON.parse(plan ?? "{}") as { pictures?: { name: string; file: string; pixels: [number, number] }[] });
  return readable(() => (parts?.pictures ?? []).map(({ name, file, pixels: [width_px, height_px] }) => ({ name, file, width_px, height_px }))) ?? [];
}

function readable<Result>(read: () => Result): Result | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof WebAssembly.RuntimeError) throw error;
    return undefined;
  }
}
