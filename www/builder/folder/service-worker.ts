// The service worker of the page on a web host: it keeps the page's own files, so that the page opens without a connection, and answers for
// nothing else. The builder says which files these are.
//
// A new version is fetched whole beside the one at work, and the next load has it. The one before stays until there is another, for
// windows that were opened with it.

export {};
declare const FILES: readonly string[];
declare const VERSION: string;
declare const self: ServiceWorkerGlobalScope;

const PAGE = "./";
/** Several of these pages may be on one host, whose caches are in one place. */
const OWN = `overmantel ${self.registration.scope} `;
const NOW = OWN + VERSION;
/** A file that is named after its content. */
const HASHED = /^[a-z0-9_-]+\.[0-9a-f]{16}\.[a-z]+$/i;

self.addEventListener("install", (event) => event.waitUntil(keep().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(forget().then(() => self.clients.claim())));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { scope } = self.registration;
  const address = request.url.split(/[?#]/)[0] ?? "";
  if (request.method !== "GET" || !address.startsWith(scope)) return;
  const name = address.slice(scope.length);
  if (request.mode === "navigate" && (name === "" || name === "index.html")) event.respondWith(page(request));
  else if (HASHED.test(name)) event.respondWith(file(request));
});

/** Keeps all files of this version, or none: one that is half on its host is tried again another time. */
async function keep(): Promise<void> {
  const page = await whole(PAGE, "reload");
  const text = await page.clone().text();
  if (!FILES.every((name) => text.includes(name))) throw new Error("The page on this host is of another version.");
  // Each may be there from the version before, or from the page that has just been loaded.
  const responses = await Promise.all(FILES.map(async (name) => (await caches.match(name)) ?? whole(name, "force-cache")));
  const cache = await caches.open(NOW);
  await Promise.all(FILES.map((name, index) => cache.put(name, responses[index] as Response)));
  await cache.put(PAGE, page);
}

async function whole(name: string, cache: RequestCache): Promise<Response> {
  const response = await fetch(name, { cache });
  if (!response.ok) throw new Error(`${name}: ${response.status}`);
  // A browser opens no page that was sent on from another address (Fetch, "HTTP fetch"), which some hosts do with a folder's.
  return response.redirected ? new Response(response.body, response) : response;
}

/** Forgets every version but this and the last one before. */
async function forget(): Promise<void> {
  const before = (await caches.keys()).filter((key) => key.startsWith(OWN) && key !== NOW);
  await Promise.all(before.slice(0, -1).map((key) => caches.delete(key)));
}

async function page(request: Request): Promise<Response> {
  return (await (await caches.open(NOW)).match(PAGE)) ?? fetch(request);
}

async function file(request: Request): Promise<Response> {
  return (await caches.match(request, { ignoreVary: true })) ?? fetch(request);
}
