// Starts the core: the wasm that the builder has put, deflated, into the page itself.

import initialise, * as generated from "./generated/overmantel.js";

/** Everything the core offers, with the types that were generated from it. */
export type Core = typeof generated;

/** Bytes of the deflated core that are handed over at a time. */
const PART_BYTES = 1 << 16;

/**
 * Inflates, compiles and starts the core.
 * Where that fails, the error's message is a plain sentence that can be shown as it is.
 */
export async function loadCore(): Promise<Core> {
  const element = document.getElementById("core");
  if (!element?.textContent) {
    throw new Error("This file is incomplete: the part that calculates is missing. Please get it again.");
  }
  const deflated = decodeBase64(element.textContent);
  // Its text is not needed again, and is by far the longest in the page.
  element.remove();
  await initialise({ module_or_path: await compile(deflated) });
  return generated;
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

/** Compiles the core while it is being inflated: handed over in parts, the first are compiled while the next are inflated. */
async function compile(deflated: Uint8Array<ArrayBuffer>): Promise<WebAssembly.Module> {
  if (typeof DecompressionStream === "undefined") {
    throw new Error("This browser is too old for Overmantel; one of the last three years will do.");
  }
  let at = 0;
  const parts = new ReadableStream<Uint8Array<ArrayBuffer>>({
    pull(taker) {
      taker.enqueue(deflated.subarray(at, at + PART_BYTES));
      at += PART_BYTES;
      if (at >= deflated.length) taker.close();
    },
  });
  const inflated = parts.pipeThrough(new DecompressionStream("deflate-raw"));
  const response = new Response(inflated, { headers: { "Content-Type": "application/wasm" } });
  try {
    return await WebAssembly.compileStreaming(response);
  } catch (cause) {
    throw new Error("The part of this file that calculates cannot be run: either the file is damaged, then get it again, or this browser is older than three years.", { cause });
  }
}
