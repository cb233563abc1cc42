// How a piece is made up, and what it takes: the frame that is there, the space on the wall, the sizes on offer, the section,
// the cuts, a list of one's own. Numbers were worked out on paper.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { pageTest } from "./harness.mjs";
import { choose, control, finds, png, reads, said, settled, specification, type } from "./desk.mjs";

/** @typedef {import("playwright-core").Page} Page */

/**
 * One piece with a picture of 4000 × 5000 pixels.
 * @param {Page} page
 */
async function onePicture(page) {
  await page.waitForSelector("html[data-ready]");
  await choose(page, "pieces.count", "one");
  const picture = { name: "creek.png", mimeType: "image/png", buffer: png(4000, 5000, [90, 120, 110]) };
  await page.setInputFiles("#pictures", picture);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("4000 × 5000"));
  await settled(page);
}

/**
 * The rows of a list that is open, each as its cells.
 * @param {Page} page
 * @param {string} list
 */
async function rows(page, list) {
  return page.evaluate((list) => [...document.querySelectorAll(`${list} tbody tr`)].map((row) => [...row.children].map((cell) => cell.textContent ?? "")), list);
}

// A frame whose outside is 17 5/8 × 21 5/8 in with a face of 1 in, a lip of 1/4 and 1/8 of play takes 16 × 20: the print to the
// edge has 250 ppi; behind a mat of 1 1/2 in at least, 16 - 3 + 1/4 = 13 1/4 by 16 9/16.
pageTest("what to order for a frame that is there", async ({ page, screenshot }) => {
  await onePicture(page);
  await choose(page, "in_hand.measured", "by its outside");
  await type(page, "in_hand.face", "1");
  await type(page, "in_hand.size", "17 5/8 x 21 5/8");
  const words = await specification(page);
  assert.match(words, /it takes 16 × 20″, shows 15⁵⁄₈ × 19⁵⁄₈″/);
  assert.match(words, /to the edge \(16 × 20″, 250 ppi\)/);
  assert.match(words, /behind a mat \(13¹⁄₄ × 16⁹⁄₁₆″, with an opening of 13 × 16⁵⁄₁₆″/);
  await page.getByRole("button", { name: "behind a mat" }).click();
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "13¹⁄₄ × 16⁹⁄₁₆″");
  assert.equal(await said(page, "piece.all.mat.whole"), "16 × 20″");
  assert.match(await specification(page), /order the frame as 16 × 20″/);
  await screenshot("frame-in-hand");
  await page.click("#undo");
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "16 × 20″");
});

// 40 in of width for one piece of 16 × 20 whose outside is 5 1/8 in larger: 34 7/8 wide, 43 19/32 high; of 40 in of height 34 7/8
// are left, so 27.9 wide.
pageTest("how large a print a space on the wall takes", async ({ page }) => {
  await onePicture(page);
  await choose(page, "space", "no more than");
  await type(page, "space.size", "40 x 40");
  const offer = page.locator('#specification [data-about="fit"] .offer');
  await reads(offer, "27⁷⁄₈ × 34⁷⁄₈″");
  await offer.press("Enter");
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "27⁷⁄₈ × 34⁷⁄₈″");
  assert.match(await specification(page), /Outside 33 × 40″/);
});

pageTest("a size on offer is taken from the list, with the keyboard", async ({ page }) => {
  await onePicture(page);
  await page.locator("#fits summary").press("Enter");
  await settled(page);
  const found = await rows(page, "#fits");
  // 4 : 5, so 16 × 20 is whole and 16 × 24 is cropped; the first has 250 ppi.
  const whole = found.findIndex((row) => row[0] === "16 × 20 in" && row[1] === "whole, to the edge");
  assert.ok(whole >= 0, JSON.stringify(found.slice(0, 8)));
  assert.deepEqual(found[whole]?.slice(2), ["16 × 20 in", "none", "nothing", "250"]);
  await page.locator("#fits tbody tr").nth(whole).locator("button").press("Enter");
  await settled(page);
  assert.equal(await said(page, "piece.all.mat"), "without");
  assert.match(await specification(page), /order the frame as 16 × 20″/);
  assert.equal(await page.evaluate(() => document.activeElement?.tagName), "SUMMARY", "the focus stays at the list");
});

// The demo's frames: twelve rails, two of 21 1/8 and two of 25 1/8 in to a frame; a mat of 2 1/8 in all round.
pageTest("the cuts can be read off, and follow a list of one's own", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator("#cuts summary").click();
  await settled(page);
  const found = await rows(page, "#cuts");
  assert.ok(found.some((row) => row.join("|").startsWith("leg|2|21¹⁄₈″|536.6 mm|oak")), JSON.stringify(found));
  assert.deepEqual(found.find((row) => row[0] === "mat, warm white, from the back")?.slice(1, 5), ["2¹⁄₈″", "2¹⁄₈″", "2¹⁄₈″", "2¹⁄₈″"]);
  const own = { overmantel_stock: 1, sticks: { replace: [{ name: "from the yard", length: "60 in", kerf: "1/8 in", trim: "0" }] } };
  const file = { name: "yard.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(own)) };
  await page.setInputFiles("#stock", file);
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("yard.json"));
  await settled(page);
  const sticks = (await rows(page, "#cuts")).filter((row) => row[0]?.includes(": stick "));
  assert.equal(sticks.length, 6, "two rails to a stick of 60 in");
  await screenshot("cuts");
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await page.locator("#cuts summary").click();
  await settled(page);
  assert.equal((await rows(page, "#cuts")).filter((row) => row[1]?.startsWith("from the yard: ")).length, 6, "the list is kept");
  await page.setInputFiles("#stock", { ...file, buffer: Buffer.from('{ "overmantel_stock": 1, "sticks": 3 }') });
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.startsWith("yard.json can't be used: "));
  assert.equal((await rows(page, "#cuts")).filter((row) => row[1]?.startsWith("from the yard: ")).length, 6, "and stays when another is wrong");
  await page.getByRole("button", { name: "Use the stock on offer again" }).click();
  await settled(page);
  assert.equal((await rows(page, "#cuts")).filter((row) => row[0]?.includes(": stick ")).length, 3);
  const saved = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the stock list" }).click();
  const text = await readFile(await (await saved).path(), "utf8");
  assert.equal(JSON.parse(text).overmantel_stock, 1);
});

pageTest("the section says in words what it shows, and follows the piece", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const label = () => page.locator("#section canvas").getAttribute("aria-label");
  await page.waitForFunction(() => document.querySelector("#section canvas")?.hasAttribute("aria-label"));
  assert.match((await label()) ?? "", /glass 5\/64".*backing: foam board 3\/16".*package 25\/64"/);
  await choose(page, "piece.all.material", "canvas");
  await settled(page);
  assert.match((await label()) ?? "", /edge: mirrored wrap/);
  const [width, height] = await page.evaluate(() => {
    const canvas = document.querySelector("#section canvas");
    return canvas instanceof HTMLCanvasElement ? [canvas.width, canvas.height] : [];
  });
  assert.ok((width ?? 0) > 300 && (height ?? 0) > 200, `${width} × ${height}`);
  await screenshot("section-canvas");
});

// One frame for three prints of 16 × 20: openings of 15 3/4, two bars of 2 and 2 1/8 at both ends make 55 1/2; outside 56 5/8.
pageTest("three prints share a frame", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await choose(page, "shared", "all in one frame");
  assert.match(await specification(page), /order the frame as 55¹⁄₂ × 24″/);
  assert.match(await specification(page), /Outside 56⁵⁄₈ × 25¹⁄₈″/);
  await finds(control(page, "group.gap"), 0, "there is no gap between frames any more");
  await type(page, "shared.bar", "1/16");
  await reads(page.locator('#specification [data-about="made"] [role=alert]'), /make it wider/);
  assert.equal(await control(page, "shared.bar").inputValue(), "1/16", "what was typed stays");
  await control(page, "shared.bar").press("Escape");
  await screenshot("shared");
});

pageTest("numbers, ratios and sizes by name are read, and refused in words", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await type(page, "piece.all.image", "A3");
  assert.match(await said(page, "piece.all.image"), /^11¹¹⁄₁₆ × 16⁹⁄₁₆″$/);
  await choose(page, "piece.all.mat.weighting", "bottom to top in the ratio");
  await type(page, "piece.all.mat.ratio", "5 to 4");
  assert.equal(await said(page, "piece.all.mat.ratio"), "5 : 4");
  await type(page, "piece.all.mat.ratio", "five");
  const alert = page.locator('#specification [data-about="made"] [role=alert]');
  await reads(alert, /is not a ratio; write the bottom, then the top/);
  await control(page, "piece.all.mat.ratio").press("Escape");
  await type(page, "fineness", "2401");
  await reads(page.locator('#specification [data-about="picture"] [role=alert]'), /allowed: 1 to 2400/);
});
