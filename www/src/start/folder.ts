// The page as a folder on a web host: where its parts are, how they come, and how it is kept for the next time.
//
// In the page that is one file no element says so, its policy lets nothing be asked for, and nothing of this is done.

/** The answers with the core's two parts, which a few lines in the page's head have asked for already. */
declare const overmantelCore: Promise<Response> | undefined;
declare const overmantelRest: Promise<Response> | undefined;
declare const trustedTypes: { createPolicy(name: string, rules: { createScriptURL: (address: string) => string }): { createScriptURL(address: string): string } } | undefined;

const { core, rest } = document.querySelector<HTMLElement>("[data-core]")?.dataset ?? {};
/** Where the core's two parts are; nothing where they lie in the page itself. */
export const coreAddresses = core === undefined || rest === undefined ? undefined : { core, rest };

/** A part of the page from its own host. Where it does not come, the error's message is a plain sentence. */
export function fetchPart(address: string): Promise<Response> {
  return answered(fetch(address));
}

/** A part of the core as it comes, under the media type without which no browser compiles what is still coming: not every host knows it. */
export async function streamed(part: "core" | "rest", address: string): Promise<Response> {
  const asked = part === "core" ? (typeof overmantelCore === "undefined" ? undefined : overmantelCore) : typeof overmantelRest === "undefined" ? undefined : overmantelRest;
  const response = await answered(asked ?? fetch(address));
  // Without any parameter (WebAssembly Web API, "compile a potential WebAssembly response").
  const isKnown = response.headers.get("Content-Type")?.toLowerCase() === "application/wasm";
  return isKnown ? response : new Response(response.body, { headers: { "Content-Type": "application/wasm" } });
}

/** An answer that is what was asked for. */
async function answered(asked: Promise<Response>): Promise<Response> {
  const failure =
    location.protocol === "file:"
      ? "This form of the page is for web hosts. From a disk, open the page that is one file."
      : "A part of this page did not come from its host. Check the connection and load the page again.";
  const response = await asked.catch((cause: unknown) => {
    throw new Error(failure, { cause });
  });
  if (!response.ok) throw new Error(failure, { cause: response.status });
  return response;
}

/** Keeps this version of the page in the browser, or has it look for the next one. Without a worker it works all the same, as long as its host is there. */
export function keepForNextTime(): void {
  if (coreAddresses === undefined || !("serviceWorker" in navigator)) return;
  const address = "service-worker.js";
  const trusted = typeof trustedTypes === "undefined" ? address : trustedTypes.createPolicy("overmantel", { createScriptURL: (own) => own }).createScriptURL(address);
  navigator.serviceWorker.register(trusted).catch(() => undefined);
}
