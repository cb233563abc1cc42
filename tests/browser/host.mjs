// A static web host for a folder of the page, which a test may change: it hands out files, and remembers what it was asked for.

import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { createServer } from "node:http";
import path from "node:path";
import { fileURLToPath } from "node:url";

const folder = process.env.OVERMANTEL_FOLDER ?? path.join(path.dirname(fileURLToPath(import.meta.url)), "../../www/dist/folder");

/** Media types by the endings of files (IANA; WebAssembly Web API, which takes no other for wasm). @type {Record<string, string>} */
const MEDIA = {
  html: "text/html; charset=utf-8",
  css: "text/css",
  js: "text/javascript",
  json: "application/json",
  png: "image/png",
  avif: "image/avif",
  txt: "text/plain; charset=utf-8",
  md: "text/markdown; charset=utf-8",
  wasm: "application/wasm",
};

/** The folder's files by their names. */
export async function builtFiles() {
  const names = await readdir(folder);
  assert.ok(names.length > 10, `${names}: build it with cargo page --folder`);
  return new Map(await Promise.all(names.map(async (name) => /** @type {const} */ ([name, await readFile(path.join(folder, name))]))));
}

/**
 * Starts a host.
 * @param {Map<string, Buffer>} files What it has, by name; it may change.
 * @param {{media?: Record<string, string>, moved?: Record<string, string>}} [otherwise] Other media types than the usual; names that
 * are sent on to others.
 */
export async function host(files, { media = {}, moved = {} } = {}) {
  /** @type {string[]} */
  const asked = [];
  let isAway = false;
  const server = createServer((request, response) => {
    asked.push(request.url ?? "");
    const name = ((request.url ?? "").split("?")[0] ?? "").slice(1).replace(/(^|\/)$/, "$1index.html");
    const bytes = files.get(name);
    if (isAway) return void request.socket.destroy();
    const there = moved[name];
    if (there !== undefined && request.url?.endsWith("/")) return void response.writeHead(302, { location: there }).end();
    const accepts = String(request.headers["accept-encoding"] ?? "");
    // As a plain host does it: what is there compressed is sent so to whoever takes it.
    const coding = /** @type {const} */ ([["br", "br"], ["gzip", "gz"]]).find(([coding, ending]) => accepts.includes(coding) && files.has(`${name}.${ending}`));
    const ending = path.extname(name).slice(1);
    const isHashed = /\.[0-9a-f]{16}\./.test(name);
    response.writeHead(bytes ? 200 : 404, {
      "content-type": { ...MEDIA, ...media }[ending] ?? "application/octet-stream",
      "cache-control": isHashed ? "max-age=31536000, immutable" : "no-cache",
      ...(bytes && coding ? { "content-encoding": coding[0], vary: "Accept-Encoding" } : {}),
    });
    response.end(bytes && coding ? files.get(`${name}.${coding[1]}`) : bytes);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(undefined)));
  const address = server.address();
  const port = typeof address === "object" && address !== null ? address.port : 0;
  return {
    address: `http://127.0.0.1:${port}/`,
    /** What it was asked for since the last time. */
    takeAsked: () => asked.splice(0),
    /** From now on it answers nobody, or does so again. @param {boolean} away */
    goAway: (away) => void (isAway = away),
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}
