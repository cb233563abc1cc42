// Plan files with their pictures in them: saved, opened where none of them is known, and refused in a plain sentence.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { choose, colourAt, inFull, png, ready, settled, specification } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const pictures = path.join(path.dirname(fileURLToPath(import.meta.url)), "../../demo-data/pictures");

/** @param {Page} page */
async function savedFull(page) {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save it with its pictures" }).press("Enter");
  const file = await download;
  assert.match(file.suggestedFilename(), /, with pictures\.json$/);
  return readFile(await file.path(), "utf8");
}

/** Forgets everything the browser keeps of the page. @param {Page} page */
async function forget(page) {
  await page.evaluate(async () => {
    localStorage.clear();
    await new Promise((resolve) => {
      const request = indexedDB.deleteDatabase("overmantel");
      request.onsuccess = request.onerror = request.onblocked = resolve;
    });
  });
  await page.reload();
  await ready(page);
  await inFull(page);
}

/** @param {Page} page @param {string} text */
async function open(page, text) {
  await page.setInputFiles("#plan", { name: "sent.json", mimeType: "application/json", buffer: Buffer.from(text) });
}

pageTest("a plan file with its pictures brings them where they are not known, without what else stood in their files", async ({ page, screenshot }) => {
  await ready(page);
  await choose(page, "pieces.count", "one");
  // A JPEG with a place in it, as a telephone writes it: an EXIF segment (marker FF E1) after the first two bytes.
  const jpeg = await readFile(path.join(pictures, "three-boats.jpg"));
  const exif = Buffer.from("Exif\0\0GPSLatitude 54.1", "latin1");
  const segment = Buffer.concat([Buffer.from([0xff, 0xe1, 0, exif.length + 2]), exif]);
  const file = Buffer.concat([jpeg.subarray(0, 2), segment, jpeg.subarray(2)]);
  assert.ok(file.includes("GPSLatitude"));
  await page.setInputFiles("#pictures", { name: "ebb.jpg", mimeType: "image/jpeg", buffer: file });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("ebb"));
  await page.waitForTimeout(300);
  const before = await specification(page);
  const colour = await colourAt(page, "The piece", 0.5, 0.5);
  const text = await savedFull(page);
  const plan = /** @type {{pictures: {name: string, copy?: string}[]}} */ (JSON.parse(text));
  const copy = Buffer.from(plan.pictures.find(({ name }) => name === "ebb")?.copy ?? "", "base64");
  assert.deepEqual([...copy.subarray(0, 3)], [0xff, 0xd8, 0xff]);
  assert.ok(!copy.includes("GPSLatitude") && !copy.includes("Exif"), "nothing of its EXIF");
  assert.ok(text.length < 2_000_000, `${text.length} bytes`);

  await forget(page);
  await open(page, text);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("ebb"));
  await page.waitForTimeout(500);
  await settled(page);
  assert.equal(await specification(page), before);
  const back = await colourAt(page, "The piece", 0.5, 0.5);
  back.forEach((value, index) => assert.ok(Math.abs(value - (colour[index] ?? 0)) < 12, `${back} was ${colour}`));
  assert.equal(await page.locator("#status").textContent(), "");
  await screenshot("copies-opened");
  // They are kept, too.
  await page.reload();
  await ready(page);
  const again = await colourAt(page, "The piece", 0.5, 0.5);
  again.forEach((value, index) => assert.ok(Math.abs(value - (colour[index] ?? 0)) < 12, `${again} was ${colour}`));
});

pageTest("copies that can't be shown are told of, and the plan opens or stays as it was", async ({ page }) => {
  await ready(page);
  await choose(page, "pieces.count", "one");
  await page.setInputFiles("#pictures", { name: "slack.png", mimeType: "image/png", buffer: png(400, 500, [200, 60, 40]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("slack"));
  await page.waitForTimeout(300);
  const text = await savedFull(page);
  const status = () => page.locator("#status").textContent();
  // No JPEG at all: the file is not opened.
  await open(page, text.replace(/"copy": "[^"]*"/, '"copy": "iVBORw0KGgo="'));
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("not a JPEG file in base64"));
  // A JPEG that breaks off: the plan opens, and its picture is asked for.
  await forget(page);
  await open(page, text.replace(/"name": "slack",\s*"file": "slack.png"/, '"name": "slack", "file": "other.png"').replace(/("copy": "\/9j\/.{60})[^"]*"/g, '$1"'));
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("other.png"));
  assert.match((await status()) ?? "", /“slack” is not here: choose or drop its file, other\.png/);
  // A JPEG whose head says that it is huge: its sides are in the frame header behind FF C0, height first.
  const huge = JSON.parse(text);
  for (const picture of huge.pictures) {
    const bytes = Buffer.from(picture.copy ?? "", "base64");
    const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]));
    if (frame < 0) continue;
    bytes.writeUInt16BE(16_000, frame + 5);
    bytes.writeUInt16BE(16_000, frame + 7);
    picture.copy = bytes.toString("base64");
  }
  await forget(page);
  await open(page, JSON.stringify(huge));
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("too large to be one of ours"));
});
