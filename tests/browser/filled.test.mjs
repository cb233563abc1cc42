// How a browser fills a window with a picture, and how it puts one inside: an outside reference for crops and borders.
//
// SVG 2, 8.2 (preserveAspectRatio): `slice` is what a crop does, `meet` what a border does; xMin, xMid and xMax are the focus at the
// left, in the middle and at the right (likewise upright). What Chromium lays out is kept in `filled.json`, which the core is
// tested against by tests/tests/filled_reference.rs; this test holds that it is what the browser does. `BLESS=1` writes it anew,
// and fails.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { pageTest } from "./harness.mjs";

const table = path.join(path.dirname(fileURLToPath(import.meta.url)), "filled.json");

/**
 * How the picture lies in the window, in CSS pixels from its upper left corner: pixels of the picture times `scale`, moved by x and y.
 * @typedef {{scale: number, x: number, y: number}} Laid
 * @typedef {{picture_px: number[], window_css_px: number[], focus_permille: number, slice: Laid, meet: Laid}} Row
 */

/** Pictures of usual and of odd shapes, in pixels. */
const pictures = [[4000, 6000], [6000, 4000], [3024, 4032], [1920, 1080], [11648, 8736], [2100, 2970], [997, 1009], [9000, 601]];
/** Windows: 16 × 20, 20 × 30 and 12 × 12 in, A3 to the nearest pixel, and odd ones. */
const windows = [[1536, 1920], [2880, 1920], [1152, 1152], [1123, 1587], [733, 1021], [2999, 41]];

pageTest("crops and borders are kept as the browser lays them out", async ({ page }) => {
  const rows = await page.evaluate(
    ({ pictures, windows }) => {
      const svg = "http://www.w3.org/2000/svg";
      /**
       * @param {number[]} picture
       * @param {number[]} window
       * @param {string} rule
       */
      const lay = ([width, height], [windowWidth, windowHeight], rule) => {
        const root = document.createElementNS(svg, "svg");
        root.setAttribute("width", `${windowWidth}`);
        root.setAttribute("height", `${windowHeight}`);
        root.setAttribute("viewBox", `0 0 ${width} ${height}`);
        root.setAttribute("preserveAspectRatio", rule);
        const group = document.createElementNS(svg, "g");
        root.append(group);
        document.body.append(root);
        const matrix = group.getCTM();
        root.remove();
        if (!matrix || matrix.a !== matrix.d) throw new Error("no even scale");
        return { scale: matrix.a, x: matrix.e, y: matrix.f };
      };
      return pictures.flatMap((picture_px, row) =>
        windows.map((window_css_px, column) => {
          const at = (row + column) % 3;
          const align = ["xMinYMin", "xMidYMid", "xMaxYMax"][at];
          return {
            picture_px,
            window_css_px,
            focus_permille: at * 500,
            slice: lay(picture_px, window_css_px, `${align} slice`),
            meet: lay(picture_px, window_css_px, "xMidYMid meet"),
          };
        }),
      );
    },
    { pictures, windows },
  );
  if (process.env.BLESS) {
    await writeFile(table, `[\n${rows.map((row) => JSON.stringify(row)).join(",\n")}\n]\n`);
    assert.fail("filled.json was written anew; look at it, then run without BLESS");
  }
  /** @type {Row[]} */
  const kept = JSON.parse(await readFile(table, "utf8"));
  assert.equal(kept.length, rows.length);
  for (const [index, row] of rows.entries()) {
    const { slice, meet, ...stated } = row;
    const other = kept[index];
    assert.ok(other);
    assert.deepEqual(stated, { picture_px: other.picture_px, window_css_px: other.window_css_px, focus_permille: other.focus_permille });
    for (const [laid, before] of /** @type {const} */ ([[slice, other.slice], [meet, other.meet]])) {
      // Browsers count in 24 bits here and there.
      assert.ok(Math.abs(laid.scale / before.scale - 1) < 1e-6, JSON.stringify(row));
      assert.ok(Math.abs(laid.x - before.x) < 0.01 && Math.abs(laid.y - before.y) < 0.01, JSON.stringify(row));
    }
  }
});
