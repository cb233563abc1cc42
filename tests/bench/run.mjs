// Benchmark: the size of the page, how soon it draws, and the core's drawing against the browser's own canvas, in Chromium and in
// Firefox.
//
// Run with `npm run bench` in tests/ after `cargo page`. Absolute times depend on the machine and on what else it does, so quote the
// ratios: medians of pairs taken in turn in one page. The comparison is in comparison.mjs.

import { createRequire } from "node:module";
import { access, readFile, stat } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { launch } from "puppeteer-core";

const folder = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(folder, "../..");
// The bundler is the page's own.
/** @type {typeof import("../../www/node_modules/esbuild/lib/main.js")} */
const { build } = createRequire(path.join(root, "www/package.json"))("esbuild");
const file = path.join(root, "www/dist/overmantel.html");
const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";

/** @param {number[]} values */
const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
/** @param {number} value */
const ms = (value) => `${value.toFixed(2)} ms`;

const script = await build({
  entryPoints: [path.join(folder, "comparison.mjs")],
  bundle: true,
  write: false,
  format: "iife",
  globalName: "comparison",
  target: "es2022",
  logLevel: "error",
});
/** @param {string} name */
const base64 = async (name) => (await readFile(path.join(root, name))).toString("base64");
const parts = {
  wasm: await base64("www/src/generated/overmantel_bg.wasm"),
  picture: await base64("demo-data/pictures/low-water-evening.jpg"),
  plan: await readFile(path.join(root, "demo-data/plans/low-water.json"), "utf8"),
  photograph: await base64("tests/rooms/green-sofa/photo.jpg"),
  threePlan: await readFile(path.join(root, "demo-data/plans/three-along-the-stairs.json"), "utf8"),
};

/**
 * @param {string} browser
 * @param {(script: string) => Promise<unknown>} evaluate In a fresh page.
 */
async function compare(browser, evaluate) {
  await evaluate(`${script.outputFiles[0]?.text ?? ""}; globalThis.comparison = comparison; undefined`);
  for (const [width, height] of [[1600, 1000], [3840, 2160]]) {
    const pairs = await evaluate(`comparison.run(${JSON.stringify({ ...parts, width, height })})`);
    for (const { name, one, other } of /** @type {import("./comparison.mjs").Pair[]} */ (pairs)) {
      const ratio = median(one.map((time, index) => time / Math.max(other[index] ?? time, 0.001)));
      console.log(`${browser}, ${width} × ${height}: ${name}: ${ms(median(one))} / ${ms(median(other))}, ratio ${ratio.toFixed(2)} (medians of ${one.length} pairs)`);
    }
  }
}

/**
 * @param {string} browser
 * @param {(script: string) => Promise<unknown>} evaluate In the page of the comparison.
 */
async function suggestions(browser, evaluate) {
  const measured = await evaluate(`comparison.suggestions(${JSON.stringify(parts)})`);
  for (const { sizes, times, said } of /** @type {{sizes: string, times: number[], said: string}[]} */ (measured)) {
    console.log(`${browser}, suggestions, ${sizes}: ${ms(median(times))}. ${said}`);
  }
}

/**
 * @param {string} browser
 * @param {(script: string) => Promise<unknown>} evaluate In the page of the comparison.
 */
async function photographed(browser, evaluate) {
  const measured = await evaluate(`comparison.photographed(${JSON.stringify(parts)})`);
  for (const { name, times } of /** @type {{name: string, times: number[]}[]} */ (measured)) {
    console.log(`${browser}, photograph of 1600 × 1200: ${name}: ${ms(median(times))}, most ${ms(Math.max(...times))}`);
  }
}

console.log(`page: ${(await stat(file)).size} bytes`);
{
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync".split(" "),
  });
  const name = `Chromium ${browser.version()}`;
  /** @type {Record<string, number[]>} */
  const marks = {};
  for (let load = 0; load < 9; load += 1) {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(pathToFileURL(file).href);
    await page.waitForSelector("html[data-ready]");
    const seen = await page.evaluate(() => performance.getEntriesByType("mark").map((mark) => /** @type {const} */ ([mark.name, mark.startTime])));
    for (const [mark, time] of seen) (marks[mark] ??= []).push(time);
    await page.close();
  }
  for (const [mark, times] of Object.entries(marks)) {
    console.log(`${name}: navigation to ${mark}: median ${ms(median(times))}, least ${ms(Math.min(...times))}, most ${ms(Math.max(...times))} of ${times.length}`);
  }
  const page = await browser.newPage();
  await compare(name, (script) => page.evaluate(script));
  await suggestions(name, (script) => page.evaluate(script));
  await photographed(name, (script) => page.evaluate(script));
  await browser.close();
}
if (await access(firefox).then(() => true, () => false)) {
  // Firefox counts time in whole milliseconds unless it is told otherwise.
  const browser = await launch({ browser: "firefox", executablePath: firefox, headless: true, protocolTimeout: 600_000, extraPrefsFirefox: { "privacy.reduceTimerPrecision": false } });
  const page = await browser.newPage();
  const name = (await browser.version()).replace("/", " ");
  await compare(name, (script) => page.evaluate(script));
  await suggestions(name, (script) => page.evaluate(script));
  await photographed(name, (script) => page.evaluate(script));
  await browser.close();
} else {
  console.log(`Firefox: not found at ${firefox}; name another in FIREFOX.`);
}
