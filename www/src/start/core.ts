// Starts the core: the wasm that the builder has put, deflated, into the page itself, or beside it.
//
// It comes in two parts: with the first the wall is drawn, and then comes the rest. What the first lacks is an empty slot of its table, and
// a call of that is a trap. Then a fresh instance begins again with both parts, so that it only takes longer. Between the first drawing
// and the rest the core is not called at all.

import initialise, { startAfresh, type InitOutput } from "../generated/overmantel.js";
import * as generated from "../generated/overmantel.js";
import { coreAddresses, streamed } from "./folder.js";
import { readBlock } from "./reading.js";

/** Everything the core offers, with the types that were generated from it. */
export type Core = typeof generated;

/** Keeps hold of an object of the core. */
export type Hold = <One>(one: One) => One;

/** Which part of the core. */
type Part = "core" | "rest";

/** What was made with an instance that was replaced: were it collected, it would give back memory of the next one. */
const lost: unknown[] = [];

/** What is made with the core while its rest is still coming. */
export class Beginning<Made> {
  private rest: Promise<WebAssembly.Module> | undefined;
  private held: unknown[] = [];
  /** The first part that has the rest. */
  private whole: InitOutput | undefined;

  private constructor(
    private readonly make: (core: Core, hold: Hold) => Made,
    private first: InitOutput,
    public made: Made,
  ) {}

  /**
   * Inflates, compiles and starts the core's first part, while the browser reads the page, and makes something with it. That must leave
   * nothing behind but what it returns, and keep hold of each object of the core: where the first part does not do, it is made again with both.
   * Where the core can't be started, the error's message is a plain sentence that can be shown as it is.
   */
  static async of<Made>(make: (core: Core, hold: Hold) => Made): Promise<Beginning<Made>> {
    const first = await initialise({ module_or_path: await compiled("core") });
    const beginning = new Beginning<Made | undefined>(make, first, undefined);
    await beginning.tried(() => (beginning.made = make(generated, beginning.hold)));
    return beginning as Beginning<Made>;
  }

  /** Does one thing more with what was made; it may be done twice, with what was made again. */
  async also(act: (made: Made, core: Core) => void): Promise<void> {
    if (!(await this.tried(() => act(this.made, generated)))) act(this.made, generated);
  }

  /** Brings the rest. Until it is here the core must not be called by anyone else. */
  async complete(): Promise<Core> {
    const rest = await this.module();
    // While this waits, another first part may have taken its place.
    while (this.whole !== this.first) {
      const { first } = this;
      await WebAssembly.instantiate(rest, { first: first as unknown as WebAssembly.ModuleImports });
      if (first === this.first) this.whole = first;
    }
    return generated;
  }

  /** Tries something; where the first part lacks what that takes, all is made again with both parts, and it has not been done. */
  private async tried(act: () => void): Promise<boolean> {
    try {
      act();
      return true;
    } catch (error) {
      if (this.whole === this.first || !(error instanceof WebAssembly.RuntimeError)) throw error;
    }
    await this.module();
    lost.push(...this.held.splice(0));
    this.first = startAfresh();
    await this.complete();
    this.made = this.make(generated, this.hold);
    return false;
  }

  private readonly hold: Hold = (one) => {
    this.held.push(one);
    return one;
  };

  private module(): Promise<WebAssembly.Module> {
    return (this.rest ??= compiled("rest"));
  }
}

function compiled(part: Part): Promise<WebAssembly.Module> {
  return coreAddresses === undefined ? compile(part) : compileFrom(part, coreAddresses[part]);
}

/** The bytes that base64 text stands for. */
export function decodeBase64(text: string): Uint8Array<ArrayBuffer> {
  // Quicker, but younger than some browsers that we serve.
  const native = Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> };
  if (native.fromBase64) return native.fromBase64(text);
  const characters = atob(text);
  const bytes = new Uint8Array(characters.length);
  for (let i = 0; i < bytes.length; i += 1) bytes[i] = characters.charCodeAt(i);
  return bytes;
}

/** Compiles a part of the core while it comes from the page's host. */
async function compileFrom(part: Part, address: string): Promise<WebAssembly.Module> {
  const response = await streamed(part, address);
  return WebAssembly.compileStreaming(response).catch((cause: unknown) => {
    throw new Error("The part of this page that calculates cannot be run: either it did not come whole, then load the page again, or this browser is older than three years.", { cause });
  });
}

/** Compiles a part of the core while it is being read and inflated. */
async function compile(part: Part): Promise<WebAssembly.Module> {
  if (typeof DecompressionStream === "undefined") {
    throw new Error("This browser is too old for Overmantel; one of the last three years will do.");
  }
  let isWhole = true;
  let taken = 0;
  const deflated = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(taker) {
      const block = await readBlock(part, taken);
      isWhole = block !== undefined;
      if (!block) throw new Error("A part is missing.");
      taker.enqueue(decodeBase64(block.textContent ?? ""));
      taken += 1;
      if (taken === Number(block.dataset["parts"])) taker.close();
    },
  });
  const inflated = deflated.pipeThrough(new DecompressionStream("deflate-raw"));
  const response = new Response(inflated, { headers: { "Content-Type": "application/wasm" } });
  try {
    return await WebAssembly.compileStreaming(response);
  } catch (cause) {
    throw new Error(
      isWhole
        ? "The part of this file that calculates cannot be run: either the file is damaged, then get it again, or this browser is older than three years."
        : "This file is incomplete: something of the part that calculates is missing. Please get it again.",
      { cause },
    );
  }
}
