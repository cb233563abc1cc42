// How soon the page starts, against another build of it: a wide window on a desk, and a phone whose processor is slowed to a quarter.
//
// Run with `npm run starts -- OTHER.html [PAGE.html]` in tests/ after `cargo page --no-open`: the other page is what the ratios are
// relative to. Both are loaded in turn, each time in a browser profile of its own; the last line is a row for the table in DEVELOPERS.md.

import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const folder = path.dirname(fileURLToPath(import.meta.url));
const [other, own = path.join(folder, "../../www/dist/overmantel.html")] = process.argv.slice(2);
if (other === undefined) throw new Error("Name the page to compare with: node bench/starts.mjs OTHER.html");
const pages = { own, other };
const MARKS = /** @type {const} */ (["first-drawing", "pictures-drawn"]);
const LOADS = 9;

/** @typedef {import("playwright-core").BrowserContextOptions} Options */
/** @type {Record<string, {options: Options, slowed: number}>} */
const DEVICES = {
  desk: { options: { viewport: { width: 1440, height: 900 } }, slowed: 1 },
  phone: { options: { viewport: { width: 390, height: 844 }, deviceScaleFactor: 3, isMobile: true, hasTouch: true }, slowed: 4 },
};

/** @param {number[]} values */
const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync".split(" "),
});

/**
 * When the page had each mark, after the navigation.
 * @param {string} file
 * @param {keyof typeof DEVICES} device
 * @returns {Promise<Record<string, number>>}
 */
async function start(file, device) {
  const { options, slowed } = DEVICES[device] ?? {};
  const context = await browser.newContext(options);
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: slowed ?? 1 });
    await page.goto(pathToFileURL(file).href, { waitUntil: "commit" });
    await page.waitForSelector("html[data-ready]", { state: "attached" });
    return Object.fromEntries(await page.evaluate(() => performance.getEntriesByType("mark").map((mark) => [mark.name, mark.startTime])));
  } finally {
    await context.close();
  }
}

/** @type {string[]} */
const row = [];
for (const device of Object.keys(DEVICES)) {
  /** @type {Record<"own" | "other", Record<string, number>[]>} */
  const seen = { own: [], other: [] };
  for (let load = -1; load < LOADS; load += 1) {
    // Which of them comes first changes from pair to pair.
    for (const which of load % 2 ? /** @type {const} */ (["own", "other"]) : /** @type {const} */ (["other", "own"])) {
      const marks = await start(pages[which], device);
      if (load >= 0) seen[which].push(marks);
    }
  }
  for (const mark of MARKS) {
    const [mine, theirs] = [seen.own, seen.other].map((loads) => loads.map((marks) => marks[mark] ?? NaN));
    if (!mine || !theirs) continue;
    const ratio = median(mine.map((time, index) => time / (theirs[index] ?? NaN)));
    console.log(`${device}: ${mark}: ${median(mine).toFixed(0)} / ${median(theirs).toFixed(0)} ms, ratio ${ratio.toFixed(2)} (medians of ${LOADS} pairs)`);
    row.push(`${median(mine).toFixed(0)} / ${median(theirs).toFixed(0)} ms, ${ratio.toFixed(2)}`);
  }
  for (const which of /** @type {const} */ (["own", "other"])) {
    const names = Object.keys(seen[which][0] ?? {});
    console.log(`  ${which}: ${names.map((name) => `${name} ${median(seen[which].map((marks) => marks[name] ?? NaN)).toFixed(0)} ms`).join(", ")}`);
  }
}
console.log(`| ${row.join(" | ")} |`);
await browser.close();
