// Print-ready pictures on the page: made from the chosen file, row by row, and read back here by the PNG standard.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { inflateSync } from "node:zlib";
import { png } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const root = new URL("../../", import.meta.url);

/** The pixel of the picture: none is like its neighbour. @param {number} x @param {number} y */
const pixel = (x, y) => [x & 255, y & 255, (x >> 8) * 16 + (y >> 8)];

/**
 * The demo's plan with one canvas of 400 × 500 mm, its edges of 38 mm in mirror image, that shows a file of these pixels.
 * @param {number} width
 * @param {number} height
 */
async function plan(width, height) {
  const whole = JSON.parse(await readFile(new URL("demo-data/plans/harbour-pair.json", root), "utf8"));
  whole.pictures = [{ name: "Flats", file: "flats.png", pixels: [width, height] }];
  whole.pieces = [{ picture: "Flats", image: ["400 mm", "500 mm"], made: { canvas: { depth: "38 mm", edge: "mirrored" } } }];
  return { name: "plan.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(whole)) };
}

/** @param {number} width @param {number} height */
const flats = (width, height) => ({ name: "flats.png", mimeType: "image/png", buffer: png(width, height, pixel) });

/**
 * A PNG of eight bits and three colours: its size, its density, its rows. Chunks are length, name, data and checksum (PNG, 5.3); each row
 * says how it is filtered, here always by the mean of what is on the left and above (9.2).
 * @param {Buffer} file
 */
function read(file) {
  /** @type {Record<string, Buffer>} */
  const chunks = {};
  for (let at = 8; at < file.length; at += 12 + file.readUInt32BE(at)) {
    const name = file.toString("latin1", at + 4, at + 8);
    const data = file.subarray(at + 8, at + 8 + file.readUInt32BE(at));
    chunks[name] = Buffer.concat([chunks[name] ?? Buffer.alloc(0), data]);
  }
  const { IHDR, IDAT, pHYs } = chunks;
  assert.ok(IHDR && IDAT && pHYs && !("eXIf" in chunks), Object.keys(chunks).join());
  const [width, height] = [IHDR.readUInt32BE(0), IHDR.readUInt32BE(4)];
  const bytes = inflateSync(IDAT);
  const stride = width * 3;
  let above = Buffer.alloc(stride);
  const rows = Array.from({ length: height }, (_, y) => {
    assert.equal(bytes[y * (stride + 1)], 3);
    const row = Buffer.from(bytes.subarray(y * (stride + 1) + 1, (y + 1) * (stride + 1)));
    for (let x = 0; x < stride; x += 1) row[x] = (row[x] ?? 0) + (((x < 3 ? 0 : row[x - 3] ?? 0) + (above[x] ?? 0)) >> 1);
    above = row;
    return row;
  });
  return { width, height, perMetre: pHYs.readUInt32BE(0), isMetre: pHYs[8] === 1, rows };
}

/** The pixel seen so far beyond the first: there and back. @param {number} place @param {number} length */
const mirrored = (place, length) => (place < 0 ? -1 - place : place >= length ? 2 * length - 1 - place : place);

/**
 * Holds that a file is the picture with its mirror images round it.
 * @param {Page} page
 * @param {() => Promise<void>} act
 * @param {number} margin
 */
async function made(page, act, margin) {
  const [download] = await Promise.all([page.waitForEvent("download"), act()]);
  assert.match(download.suggestedFilename(), /, Piece 1 Flats\.png$/);
  const { width, height, perMetre, isMetre, rows } = read(await readFile(await download.path()));
  // 800 px in 400 mm are 2 px to the millimetre.
  assert.deepEqual([width, height, perMetre, isMetre], [800 + 2 * margin, 1000 + 2 * margin, 2000, true]);
  for (const [y, row] of rows.entries()) {
    for (let x = 0; x < width; x += 1) {
      const expected = pixel(mirrored(x - margin, 800), mirrored(y - margin, 1000));
      const found = [...row.subarray(x * 3, x * 3 + 3)];
      if (found.join() !== expected.join()) assert.fail(`${x}, ${y}: ${found} for ${expected}`);
    }
  }
}

pageTest("a piece becomes a print-ready picture, pixel for pixel", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await page.setInputFiles("#plan", await plan(800, 1000));
  await page.locator("#papers > summary").click();
  const files = page.locator(".print-files");
  await files.getByText("Only a reduced copy of flats.png is kept here.").waitFor();
  await files.getByText("edge of 76 px all round").waitFor();
  const said = files.locator("p:has(> [role=status])");
  await files.getByRole("button", { name: "Choose the file flats.png for Piece 1: Flats" }).waitFor();
  const choose = files.locator("input[type=file]");
  await choose.setInputFiles(flats(400, 500));
  await said.getByText("this is a smaller copy, so use the picture at its full size").waitFor();
  await choose.setInputFiles({ name: "notes.txt", mimeType: "text/plain", buffer: Buffer.from("no picture") });
  await said.getByText("is not a picture that the page can show").waitFor();
  await made(page, () => choose.setInputFiles(flats(800, 1000)), 76);
  await said.getByText("Piece 1: Flats: saved.").waitFor();
  // From now on the file is in reach: a press makes it, with 3 mm more.
  await files.getByLabel("with a bleed of").fill("3 mm");
  await files.getByLabel("with a bleed of").press("Tab");
  await files.getByText("bleed of 6 px all round, to be trimmed off").waitFor();
  await files.scrollIntoViewIfNeeded();
  await screenshot("print-files");
  await made(page, () => files.getByRole("button", { name: "Save as PNG: Piece 1: Flats" }).click(), 82);
  await files.getByLabel("with a bleed of").fill("a hair");
  await files.getByLabel("with a bleed of").press("Tab");
  await files.getByText("Not available: ").waitFor();
});

pageTest("a picture that was chosen for the plan is in reach", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.setInputFiles("#plan", await plan(10, 10));
  await page.setInputFiles("#pictures", flats(800, 1000));
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("800 × 1000"));
  await page.locator("#papers > summary").click();
  const save = page.getByRole("button", { name: /^Save as PNG: Piece 1: / });
  const [download] = await Promise.all([page.waitForEvent("download"), save.click()]);
  const { width, height } = read(await readFile(await download.path()));
  assert.deepEqual([width, height], [952, 1152]);
});
