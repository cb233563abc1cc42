// The module for JavaScript by itself: packed by npm, unpacked, and used by a page, by Node and by a program in TypeScript that have
// nothing else of the repository.
//
// The figures expected were worked out on paper: three canvases of 16 × 20 in with gaps of 3 in are 3 × 16 + 2 × 3 = 54 in wide; in
// the middle of a wall of 144 in they begin (144 - 54) / 2 = 45 in from its corner, which is 1143 mm at 25.4 mm to the inch.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtemp, mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { createServer } from "node:http";
import os from "node:os";
import path from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { gunzipSync } from "node:zlib";
import { browser } from "./harness.mjs";

const folder = path.dirname(fileURLToPath(import.meta.url));
const built = process.env.OVERMANTEL_LIBRARY ?? path.join(folder, "../../www/dist/library");
const isWindows = process.platform === "win32";

/** The files of the package, by their names in it. @type {Map<string, Buffer>} */
const packed = new Map();

/** A folder that nothing of the repository lies in. */
let scratch = "";

/** @param {string} name */
function file(name) {
  const bytes = packed.get(name);
  assert.ok(bytes, `${name} is in the package: ${[...packed.keys()]}`);
  return bytes;
}

/**
 * The files of a tar archive, by their names: headers of 512 bytes, whose size is in octal, and contents filled up to 512 (POSIX, ustar).
 * @param {Buffer} archive
 */
function* unpacked(archive) {
  for (let at = 0; archive[at]; ) {
    /** @type {(from: number, to: number) => string} */
    const text = (from, to) => archive.toString("utf8", at + from, at + to).split("\0")[0] ?? "";
    const size = parseInt(text(124, 136), 8);
    const [prefix, name] = [text(345, 500), text(0, 100)];
    at += 512;
    yield { name: prefix ? `${prefix}/${name}` : name, bytes: archive.subarray(at, at + size) };
    at += Math.ceil(size / 512) * 512;
  }
}

before(async () => {
  scratch = await mkdtemp(path.join(os.tmpdir(), "overmantel-library-"));
  const npm = isWindows ? "npm.cmd" : "npm";
  execFileSync(npm, ["pack", "--offline", "--silent", "--pack-destination", scratch], { cwd: built, shell: isWindows });
  const archives = await readdir(scratch);
  assert.deepEqual(archives, ["overmantel-0.2.0.tgz"]);
  for (const { name, bytes } of unpacked(gunzipSync(await readFile(path.join(scratch, archives[0] ?? ""))))) {
    packed.set(name.replace(/^package\//, ""), bytes);
  }
  const installed = path.join(scratch, "node_modules/overmantel");
  await mkdir(installed, { recursive: true });
  for (const [name, bytes] of packed) await writeFile(path.join(installed, name), bytes);
});

after(() => rm(scratch, { recursive: true, force: true }));

test("the package has what is needed, and says so", () => {
  const { version, license, type, exports, types, files } = JSON.parse(file("package.json").toString());
  assert.deepEqual([version, license, type], ["0.2.0", "MIT OR Apache-2.0", "module"]);
  for (const name of [exports["."].default, exports["."].types, types]) file(name.replace("./", ""));
  assert.deepEqual([...packed.keys()].sort(), [...files, "package.json"].sort());
  const example = file("example.html").toString().split("\n").length;
  assert.ok(example <= 45, `${example} lines of example`);
});

/** Media types by the endings of files (RFC 9239; WebAssembly Web API, which takes no other). */
const MEDIA = { ".html": "text/html; charset=utf-8", ".js": "text/javascript", ".wasm": "application/wasm" };

/** What the example has drawn and said. */
function shown() {
  const canvas = document.querySelector("canvas");
  const context = canvas?.getContext("2d");
  if (!canvas || !context) return undefined;
  const { width, height } = canvas;
  // Along a line through the middles of the pieces.
  const row = [...context.getImageData(0, Math.round(height * 0.4), width, 1).data];
  const alphas = row.filter((_, index) => index % 4 === 3);
  return { width, height, row, isOpaque: alphas.every((alpha) => alpha === 255), said: document.querySelector("p")?.textContent };
}

test("a page with nothing else draws a plan and has its figures", async () => {
  /** @type {string[]} */
  const asked = [];
  const server = createServer((request, response) => {
    const name = (request.url ?? "").slice(1);
    const bytes = packed.get(name);
    if (name !== "favicon.ico") asked.push(name);
    const media = Object.entries(MEDIA).find(([ending]) => name.endsWith(ending))?.[1];
    response.writeHead(bytes ? 200 : 404, { "content-type": media ?? "application/octet-stream" }).end(bytes);
  });
  await /** @type {Promise<void>} */ (new Promise((resolve) => server.listen(0, "127.0.0.1", resolve)));
  const address = server.address();
  assert.ok(address && typeof address === "object");
  const context = await (await browser()).newContext();
  try {
    const page = await context.newPage();
    /** @type {string[]} */
    const complaints = [];
    page.on("pageerror", (error) => complaints.push(error.message));
    await page.goto(`http://127.0.0.1:${address.port}/example.html`);
    await page.waitForFunction(() => document.querySelector("p")?.textContent, undefined, { timeout: 30_000 }).catch((error) => {
      throw new Error(`${complaints.join("; ")} ${error.message}`);
    });
    const found = await page.evaluate(shown);
    assert.ok(found);
    assert.equal(found.said, "The group is 54 in wide and begins 45 in from the left corner.");
    assert.deepEqual(asked.sort(), ["example.html", "overmantel.js", "overmantel_bg.wasm"]);
    assert.deepEqual(complaints, []);
    // Without lines the wall is as wide as the canvas: 1200 px for 144 in, and 96 in of it are 800 px, above a strip of floor.
    assert.ok(found.width === 1200 && found.height > 800 && found.height < 900 && found.isOpaque, JSON.stringify([found.width, found.height]));
    // From the left the wall is even up to the first piece, 45 in from the corner: 45 × 1200 / 144 = 375 px.
    /** @type {(x: number) => number} */
    const step = (x) => Math.max(...[0, 1, 2].map((part) => Math.abs((found.row[4 * x + part] ?? 0) - (found.row[4 * x - 4 + part] ?? 0))));
    const steps = Array.from({ length: 600 }, (_, x) => x).filter((x) => x > 0 && step(x) > 5);
    assert.ok(Math.abs((steps[0] ?? 0) - 375) <= 2, `${steps} instead of 375`);
    // The second begins a piece and a gap further on: (45 + 16 + 3) × 1200 / 144 = 533.3 px.
    assert.ok(steps.some((x) => Math.abs(x - 533) <= 2), `${steps} without 533`);
  } finally {
    await context.close();
    server.close();
  }
});

test("Node has the figures, too", async () => {
  const module = pathToFileURL(path.join(scratch, "node_modules/overmantel/overmantel.js")).href;
  const { initSync, Desk } = await import(module);
  initSync({ module: file("overmantel_bg.wasm") });
  const plan = {
    overmantel: 1,
    title: "Ebb",
    wall: { size: ["144 in", "96 in"] },
    group: { arrangement: "row", gap: "3 in", across: "wall_middle", up: "eye_level" },
    pieces: Array(3).fill({ image: ["16 in", "20 in"], made: { canvas: { depth: "3/2 in", edge: "mirrored" } } }),
  };
  const desk = new Desk(JSON.stringify(plan));
  const told = JSON.parse(desk.figures());
  assert.equal(told.version, 1);
  assert.deepEqual(told.group.left, { exact: "45 in", inches: 45, mm: 1143 });
  assert.equal(told.group.size.width.exact, "54 in");
  assert.equal(told.pieces.length, 3);
  // On a wall of 154 in it begins 5 in further on; what is wrong is said, and changes nothing.
  assert.equal(desk.set("wall.width", "154 in").error, undefined);
  assert.equal(JSON.parse(desk.figures()).group.left.exact, "50 in");
  assert.match(desk.set("wall.width", "wide").error, /wide/);
  assert.ok(desk.undo());
  assert.equal(JSON.parse(desk.figures()).group.left.exact, "45 in");
  desk.free();
  assert.throws(() => new Desk("{}"), /overmantel/i);
});

test("the types hold in a strict program", async () => {
  const tsc = path.join(folder, "../../www/node_modules/.bin", isWindows ? "tsc.cmd" : "tsc");
  const check = (/** @type {string} */ text) => {
    const options = ["--noEmit", "--strict", "--target", "es2022", "--module", "nodenext", "--lib", "es2022,dom,esnext.disposable", "--types", ""];
    try {
      return execFileSync(tsc, [...options, "program.mts"], { cwd: scratch, encoding: "utf8", shell: isWindows });
    } catch (error) {
      assert.ok(error instanceof Error && "stdout" in error, `${text}: ${error}`);
      return String(error.stdout);
    }
  };
  const program = (/** @type {string} */ last) =>
    `import init, { Desk, type SheetOptions } from "overmantel";
await init();
const sheet: SheetOptions = { width_px: 9, height_px: 9, pixel_ratio: 1, dark: false, oblique: false, clean: true, chosen: undefined };
const desk = Desk.starting(false);
const height: number = desk.height_for_width(sheet);
${last}
`;
  await writeFile(path.join(scratch, "program.mts"), program("const told: string = desk.figures() + height;\nconsole.log(told);"));
  assert.equal(check("right"), "");
  await writeFile(path.join(scratch, "program.mts"), program("const told: number = desk.figures() + height;\nconsole.log(told);"));
  assert.match(check("wrong"), /program\.mts\(6,7\): error TS2322/);
});
