// The page as it opens, in three windows by day and by night, against pictures of it that were looked at.
//
// The pictures are small: a screenshot reduced, so that another version of the browser may set its letters otherwise by a hair, and
// whatever has moved, gone or changed colour is seen. They are compared tile by tile: a word that is missing is a small share of the page,
// and most of the tile where it stood. `BLESS=1` writes them anew, and fails. A difference writes expected,
// difference and actual side by side to tests/output.

import assert from "node:assert/strict";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { settled } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

const folder = path.dirname(fileURLToPath(import.meta.url));
const goldens = path.join(folder, "golden");
const output = path.join(folder, "../output");
/** Of 255, by which a channel may differ before a pixel counts as another. */
const CHANNEL = 24;
/** The side of a tile, in pixels of the reduced picture: about a word. */
const TILE = 8;
/** The share of a tile's pixels that may be other ones. */
const SHARE = 0.05;

/**
 * Reduces a screenshot and compares it with a picture of its size, by tiles: what of the worst is other.
 * @param {{shot: string, golden: string | null, by: number, channel: number, tile: number}} pictures PNG in base64.
 */
async function compare({ shot, golden, by, channel, tile }) {
  /** @param {string} png */
  const decoded = async (png) => createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob());
  /** @param {ImageBitmap} image @param {number} width @param {number} height */
  const drawn = (image, width, height) => {
    const canvas = Object.assign(document.createElement("canvas"), { width, height });
    const context = canvas.getContext("2d", { willReadFrequently: true });
    if (!context) throw new Error("no canvas");
    context.imageSmoothingQuality = "high";
    context.drawImage(image, 0, 0, width, height);
    return { canvas, data: context.getImageData(0, 0, width, height) };
  };
  /** @param {HTMLCanvasElement} canvas */
  const png = (canvas) => canvas.toDataURL("image/png").split(",")[1] ?? "";
  const image = await decoded(shot);
  const [width, height] = [Math.round(image.width / by), Math.round(image.height / by)];
  const actual = drawn(image, width, height);
  if (golden === null) return { reduced: png(actual.canvas), share: 1, told: "" };
  const known = await decoded(golden);
  if (known.width !== width || known.height !== height) return { reduced: png(actual.canvas), share: 1, told: "" };
  const expected = drawn(known, width, height);
  const difference = new ImageData(width, height);
  const across = Math.ceil(width / tile);
  const others = new Uint32Array(across * Math.ceil(height / tile));
  for (let at = 0; at < difference.data.length; at += 4) {
    const differs = Math.max(...[0, 1, 2].map((part) => Math.abs((actual.data.data[at + part] ?? 0) - (expected.data.data[at + part] ?? 0))));
    const [x, y] = [(at / 4) % width, Math.floor(at / 4 / width)];
    const place = Math.floor(y / tile) * across + Math.floor(x / tile);
    if (differs > channel) others[place] = (others[place] ?? 0) + 1;
    difference.data.set([differs, differs, differs, 255], at);
  }
  const told = Object.assign(document.createElement("canvas"), { width: width * 3, height });
  const context = told.getContext("2d");
  context?.putImageData(expected.data, 0, 0);
  context?.putImageData(difference, width, 0);
  context?.putImageData(actual.data, width * 2, 0);
  return { reduced: png(actual.canvas), share: Math.max(...others) / (tile * tile), told: png(told) };
}

const windows = /** @type {[string, number, number, number][]} */ ([
  ["desk", 1440, 900, 4],
  ["tablet", 820, 1180, 4],
  ["phone", 390, 844, 2],
]);
for (const [name, width, height, by] of windows) {
  for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
    pageTest(`the page as it opens, ${width} by ${height}, ${colorScheme}`, async ({ page }) => {
      await page.waitForSelector("html[data-ready]");
      await settled(page);
      // The small drawings come when the page has time for them.
      await page.waitForTimeout(500);
      const shot = (await page.screenshot({ animations: "disabled", caret: "hide" })).toString("base64");
      const file = path.join(goldens, `${name}-${colorScheme}.png`);
      const golden = await readFile(file, "base64").catch(() => null);
      const bare = await page.context().newPage();
      const { reduced, share, told } = await bare.evaluate(compare, { shot, golden, by, channel: CHANNEL, tile: TILE });
      await bare.close();
      if (process.env.BLESS !== undefined) {
        await mkdir(goldens, { recursive: true });
        await writeFile(file, reduced, "base64");
        assert.fail(`${path.basename(file)} was written anew; look at it`);
      }
      if (share > SHARE) {
        await mkdir(output, { recursive: true });
        await writeFile(path.join(output, `page-${name}-${colorScheme}.png`), told || reduced, "base64");
      }
      assert.ok(share <= SHARE, `${(share * 100).toFixed(2)} % of a tile of ${path.basename(file)} is other; see tests/output`);
    }, { viewport: { width, height }, colorScheme });
  }
}

/**
 * Paints a short word of the page that is in sight with nothing, and no other; which one, and undefined when there are no more. Nothing of the
 * page is changed for it: it is a highlight.
 * @param {number} which
 */
function hide(which) {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync("::highlight(missing) { color: transparent; }");
  document.adoptedStyleSheets = [sheet];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let seen = 0;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const found = /(?<=^|\s)\p{L}{2,4}(?=\s|$)/u.exec(node.textContent ?? "");
    const parent = node.parentElement;
    if (!found || !parent || parent.closest("select, option, title, style, script, svg")) continue;
    const range = document.createRange();
    range.setStart(node, found.index);
    range.setEnd(node, found.index + found[0].length);
    const box = range.getBoundingClientRect();
    const middle = [box.x + box.width / 2, box.y + box.height / 2];
    const top = document.elementFromPoint(middle[0] ?? 0, middle[1] ?? 0);
    if (box.width < 4 || box.right > innerWidth || box.bottom > innerHeight || box.y < 0 || top !== parent) continue;
    if (seen === which) {
      CSS.highlights.set("missing", new Highlight(range));
      return found[0];
    }
    seen += 1;
  }
  return undefined;
}

for (const [name, width, height, by] of windows) {
  pageTest(`a missing word is seen, ${width} by ${height}`, async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    await settled(page);
    await page.waitForTimeout(500);
    const golden = await readFile(path.join(goldens, `${name}-light.png`), "base64");
    const bare = await page.context().newPage();
    /** @type {string[]} */
    const unseen = [];
    let words = 0;
    for (; words < 20; words += 1) {
      const word = await page.evaluate(hide, words);
      if (word === undefined) break;
      const shot = (await page.screenshot({ animations: "disabled", caret: "hide" })).toString("base64");
      const { share } = await bare.evaluate(compare, { shot, golden, by, channel: CHANNEL, tile: TILE });
      if (share <= SHARE) unseen.push(word);
    }
    await bare.close();
    assert.ok(words >= 3, `${words} short words are in sight`);
    assert.deepEqual(unseen, [], "words whose absence nothing shows");
  }, { viewport: { width, height }, colorScheme: "light" });
}
