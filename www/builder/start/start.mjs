// Starts the core as the page does, up to the first drawings, and writes which of its functions ran: the builder puts those into the
// module that the page draws with before it has the rest.
//
// node start.mjs WATCHED.wasm PLACE COUNT OUT BINDINGS.js DEMO: in WATCHED each of COUNT functions sets its byte, from PLACE on.

import { readFile, readdir, writeFile } from "node:fs/promises";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [watched = "", place, count, out = "", bindings = "", demo = ""] = process.argv.slice(2);

// What the core takes of a browser: it hands pixels over, and nothing of them is asked for.
class ImageData {}
class CanvasRenderingContext2D {
  putImageData() {}
}
Object.assign(globalThis, { ImageData, CanvasRenderingContext2D });

const { Desk, initSync, picture_header, startAfresh } = await import(pathToFileURL(bindings).href);
const module = new WebAssembly.Module(await readFile(watched));
initSync({ module });

/** What is drawn on: a wide window by day, a phone's by night, and one between them. */
const SHEETS = [
  { width_px: 900, height_px: 738, pixel_ratio: 1, dark: false },
  { width_px: 1170, height_px: 1164, pixel_ratio: 3, dark: true },
  { width_px: 1536, height_px: 1312, pixel_ratio: 2, dark: false },
];

/** One file of each kind, as far as their beginnings tell. */
const pictures = path.join(demo, "pictures");
const names = (await readdir(pictures)).sort();
const kinds = [".avif", ".jpg"].map((kind) => names.find((name) => name.endsWith(kind)) ?? "");
const headers = await Promise.all(kinds.map(async (name) => new Uint8Array(await readFile(path.join(pictures, name)))));

/** Draws a desk, and again with its pictures, as a start does. */
function draw(make) {
  for (const size of SHEETS) {
    const desk = make();
    const context = new CanvasRenderingContext2D();
    const sheet = { ...size, oblique: false, clean: false, chosen: undefined };
    sheet.height_px = Math.min(desk.height_for_width(sheet), sheet.height_px);
    desk.redraw(context, sheet);
    for (const { name, file, width_px, height_px } of desk.wanted_copies()) {
      for (const header of headers) picture_header(header, file);
      const width = Math.min(width_px, 1200);
      const height = Math.max(1, Math.round((width * height_px) / width_px));
      desk.put_copy(name, width, height, new Uint8Array(width * height * 4).fill(255));
    }
    desk.redraw(context, sheet);
  }
}

const folder = path.join(demo, "plans");
const files = (await readdir(folder)).filter((name) => name.endsWith(".json")).sort();
const plans = await Promise.all(files.map((name) => readFile(path.join(folder, name), "utf8")));
const demoDesk = new Desk(plans[0]);
const stock = demoDesk.stock_file();
const starts = demoDesk.starts().map(({ code }) => {
  const desk = new Desk(plans[0]);
  desk.set("offer.start", code);
  return desk.plan_file();
});

// What made these plans ready does not count.
startAfresh();
for (const plan of [...plans, ...starts]) draw(() => new Desk(plan));
for (const inCentimetres of [false, true]) draw(() => Desk.starting(inCentimetres));
new Desk(plans[0]).open_stock(stock);
const { memory } = initSync({ module });

await writeFile(out, new Uint8Array(memory.buffer, Number(place), Number(count)));
