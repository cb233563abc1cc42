// Starts the core: the wasm that the builder has put, deflated, into the page itself, or beside it.

import initialise, * as generated from "../generated/overmantel.js";
import { coreAddress, streamedCore } from "./folder.js";

/** Everything the core offers, with the types that were generated from it. */
export type Core = typeof generated;

/**
 * Inflates, compiles and starts the core, while the browser reads the page.
 * Where that fails, the error's message is a plain sentence that can be shown as it is.
 */
export async function loadCore(): Promise<Core> {
  await initialise({ module_or_path: await (coreAddress === undefined ? compile() : compileFrom(coreAddress)) });
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

/** Compiles the core while it comes from the page's host. */
async function compileFrom(address: string): Promise<WebAssembly.Module> {
  const response = await streamedCore(address);
  return WebAssembly.compileStreaming(response).catch((cause: unknown) => {
    throw new Error("The part of this page that calculates cannot be run: either it did not come whole, then load the page again, or this browser is older than three years.", { cause });
  });
}

/** Compiles the core while it is being read and inflated. */
async function compile(): Promise<WebAssembly.Module> {
  if (typeof DecompressionStream === "undefined") {
    throw new Error("This browser is too old for Overmantel; one of the last three years will do.");
  }
  let isWhole = true;
  let taken = 0;
  const deflated = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(taker) {
      const part = await readPart(taken);
      isWhole = part !== undefined;
      if (!part) throw new Error("A part is missing.");
      taker.enqueue(decodeBase64(part.textContent ?? ""));
      taken += 1;
      if (taken === Number(part.dataset["parts"])) taker.close();
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

/** One of the core's parts, which stand behind the script, as soon as the browser has read it; nothing when the page ends without it. */
async function readPart(index: number): Promise<HTMLElement | undefined> {
  const parts = document.getElementsByClassName("core") as HTMLCollectionOf<HTMLElement>;
  // What follows a part tells that all of it is there.
  while (document.readyState === "loading" && !parts[index]?.nextSibling) await readOn();
  return parts[index];
}

/** Waits until the browser has read on. */
function readOn(): Promise<void> {
  return new Promise((resolve) => {
    const done = (): void => {
      observer.disconnect();
      document.removeEventListener("readystatechange", done);
      resolve();
    };
    const observer = new MutationObserver(done);
    observer.observe(document.body, { childList: true });
    document.addEventListener("readystatechange", done);
  });
}
