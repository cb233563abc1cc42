// Benchmark: the size of the page, how soon it draws, and the core's drawing against the browser's own canvas.
//
// Run with `npm run bench` in tests/ after `cargo page`. All figures are from one run in one browser; absolute times
// depend on the machine, so quote the ratios. The comparison is in comparison.mjs.

import { createRequire } from "node:module";
import { readFile, stat } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const folder = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(folder, "../..");
// The bundler is the page's own.
/** @type {typeof import("../../www/node_modules/esbuild/lib/main.js")} */
const { build } = createRequire(path.join(root, "www/package.json"))("esbuild");
const file = path.join(root, "www/dist/overmantel.html");

/** @param {number[]} values */
const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
/** @param {number} value */
const ms = (value) => `${value.toFixed(2)} ms`;

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync".split(" "),
});
console.log(`${browser.browserType().name()} ${browser.version()}`);
console.log(`page: ${(await stat(file)).size} bytes`);

/** @type {Record<string, number[]>} */
const marks = {};
for (let load = 0; load < 9; load += 1) {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(pathToFileURL(file).href);
  await page.waitForSelector("html[data-ready]");
  const seen = await page.evaluate(() => performance.getEntriesByType("mark").map((mark) => /** @type {const} */ ([mark.name, mark.startTime])));
  for (const [name, time] of seen) (marks[name] ??= []).push(time);
  await page.close();
}
for (const [name, times] of Object.entries(marks)) {
  console.log(`navigation to ${name}: median ${ms(median(times))}, least ${ms(Math.min(...times))}, most ${ms(Math.max(...times))} of ${times.length}`);
}

const script = await build({
  entryPoints: [path.join(folder, "comparison.mjs")],
  bundle: true,
  write: false,
  format: "iife",
  globalName: "comparison",
  target: "es2022",
  logLevel: "error",
});
const page = await browser.newPage({ viewport: { width: 1700, height: 1100 } });
page.on("console", (message) => console.log(message.text()));
page.on("pageerror", (error) => console.error(error));
await page.setContent("<!doctype html><title>Comparison</title>");
await page.addScriptTag({ content: script.outputFiles[0]?.text ?? "" });
/** @param {string} name */
const base64 = async (name) => (await readFile(path.join(root, name))).toString("base64");
const parts = {
  wasm: await base64("www/src/generated/overmantel_bg.wasm"),
  picture: await base64("demo-data/pictures/low-water-evening.jpg"),
  plan: await readFile(path.join(root, "demo-data/plans/low-water.json"), "utf8"),
};
/** @type {Record<string, {core: number[], canvas: number[]}>} */
const results = await page.evaluate(`comparison.run(${JSON.stringify(parts)})`);
for (const [name, { core, canvas }] of Object.entries(results)) {
  const ratios = core.map((time, index) => time / (canvas[index] ?? time));
  console.log(`${name}, 1600 × 1000: core ${ms(median(core))}, canvas ${ms(median(canvas))}, core / canvas ${median(ratios).toFixed(2)} (median of ${core.length} pairs)`);
}
await browser.close();
