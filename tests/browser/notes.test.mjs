// Margin notes: counted, reached and read by keys, mended by one press and undone like any edit.

import assert from "node:assert/strict";
import { pageTest } from "./harness.mjs";
import { choose, finds, reads, said, settled, type } from "./desk.mjs";

/** @typedef {import("playwright-core").Page} Page */

/**
 * What stands in the note of a code.
 * @param {Page} page
 * @param {string} code
 */
function note(page, code) {
  return page.locator(`#specification .note[data-code="${code}"]`);
}

/**
 * What a screen reader is told of where the focus is.
 * @param {Page} page
 */
function focused(page) {
  return page.evaluate(() => `${document.activeElement?.getAttribute("role") ?? document.activeElement?.tagName}: ${document.activeElement?.textContent}`);
}

// 5 in between pieces, where 1 1/2 to 4 are usual (common practice, no source).
pageTest("a note is reached by keys, mended by one press, and undone", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const counted = page.locator("#counted > span");
  const before = (await counted.textContent()) ?? "";
  await type(page, "group.gap", "5");
  await reads(note(page, "gap"), /^A matter of taste: The gap between the pieces is 5″; 1¹⁄₂″ to 4″ is usual\. Hang them 4″ apart · common practice, no source$/);
  assert.notEqual(await counted.textContent(), before);
  const count = await page.locator("#specification .note[data-code]").count();
  await reads(counted, new RegExp(`^${count} notes?(, a matter of taste\\.|\\. .*A matter of taste: \\d+\\.)$`));
  // By keys: from the count to each note in turn, until it is the one, and from there to its remedy.
  await page.getByRole("button", { name: "Go to the next", exact: true }).focus();
  for (let step = 0; step < count && !(await focused(page)).includes("The gap between"); step += 1) {
    await page.getByRole("button", { name: "Go to the next", exact: true }).focus();
    await page.keyboard.press("Enter");
  }
  assert.match(await focused(page), /^note: A matter of taste: The gap between/);
  await screenshot("note");
  await page.keyboard.press("Tab");
  assert.equal(await focused(page), "BUTTON: Hang them 4″ apart");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "4″");
  await finds(note(page, "gap"), 0);
  await reads(counted, /^Done; undo brings back what was there\. /);
  await page.keyboard.press("Control+z");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "5″");
  await finds(note(page, "gap"), 1);
});

pageTest("where there is one note, nothing leads to the next", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const notes = page.locator("#specification .note[data-code]");
  const next = page.getByRole("button", { name: "Go to the next", exact: true });
  /** @type {number[]} */
  const seen = [];
  // Remedies take one note after the other away.
  for (let step = 0; step < 6 && !seen.includes(1); step += 1) {
    const count = await notes.count();
    seen.push(count);
    assert.equal(await next.isVisible(), count > 1, `${count} notes`);
    if (count > 1) await notes.first().getByRole("button").first().press("Enter");
    await settled(page);
  }
  assert.ok(seen.some((count) => count > 1) && seen.includes(1), seen.join());
});

// ADA 2010 Standards, 307.2: 4 in at the most from 27 to 80 in up.
pageTest("what may hurt someone is said to be so, with its law", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await choose(page, "site.way", "in a public corridor");
  assert.equal(await note(page, "in-the-way").count(), 0);
  await choose(page, "piece.all.material", "canvas");
  await type(page, "piece.all.canvas.depth", "4 1/4");
  const words = (await note(page, "in-the-way").textContent()) ?? "";
  assert.match(words, /^For your safety: .*4¹⁄₄″ from the wall/);
  assert.match(words, /ADA 2010 Standards, 307\.2; local rules come first$/);
  await reads(page.locator("#counted"), /for your safety/i);
});
