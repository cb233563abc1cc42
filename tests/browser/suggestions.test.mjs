// Suggestions and prices: asked for in a sentence, tried on, taken, and left again.

import assert from "node:assert/strict";
import { choose, finds, reads, said, settled, specification } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @param {import("./harness.mjs").Page} page */
const drawn = (page) =>
  page.locator("#canvas").evaluate((element) => {
    const canvas = /** @type {HTMLCanvasElement} */ (element);
    return [...(canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? [])].reduce((sum, value, at) => (sum + value * (at % 8191)) % 1e9, 0);
  });

pageTest("the buyer asks what could hang there, tries it on, takes it and leaves it, with keys alone", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const before = await specification(page);
  await page.locator("#suggestions summary").focus();
  await page.keyboard.press("Enter");
  const offered = page.locator("#suggestions .thumbnail");
  await offered.first().waitFor();
  const words = await offered.locator("span:first-of-type").allTextContents();
  assert.ok(words.length >= 4 && new Set(words).size === words.length, words.join("; "));
  // The sofa of the demo is 84 in wide: each says what it fills of that.
  for (const why of await offered.locator(".why").allTextContents()) assert.match(why, /^fills \d+ % of the sofa’s width; /);
  await settled(page);
  const plain = await drawn(page);
  await offered.nth(1).focus();
  await page.waitForTimeout(200);
  assert.notEqual(await drawn(page), plain, "the one with the focus is tried on");
  assert.equal(await specification(page), before, "trying on changes no plan");
  await screenshot("suggestions");
  await page.locator("#suggestions summary").focus();
  await page.waitForTimeout(200);
  assert.equal(await drawn(page), plain, "and taken off again");
  await offered.nth(1).focus();
  await page.keyboard.press("Enter");
  await settled(page);
  assert.notEqual(await specification(page), before);
  await reads(page.locator("#status"), /^Chosen: /);
  assert.deepEqual(await offered.locator("span:first-of-type").allTextContents(), words, "they stay as they were");
  assert.equal(await offered.nth(1).getAttribute("aria-pressed"), "true");
  await page.keyboard.press("Control+z");
  await settled(page);
  assert.equal(await specification(page), before);
});

pageTest("wishes are a sentence: what is asked, how many, how they are made, and what counts", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator("#suggestions summary").click();
  const offered = page.locator("#suggestions .thumbnail span:first-of-type");
  await choose(page, "count", "one piece");
  await choose(page, "make", "on aluminium");
  assert.match((await offered.allTextContents()).join(), /^One on aluminium: [^,]+,will disappoint: [0-9]+ % of “/);
  await choose(page, "question", "the same in sizes of the other system");
  assert.match((await offered.allTextContents()).join(), / cm$/);
  await finds(page.locator('#suggestions [data-field="count"]'), 0, "as many as the plan has");
  await choose(page, "question", "what fits the frame you already have");
  await reads(page.locator("#suggestions .said"), /^No suggestions: no frame that you already have is stated; first say/);
});

pageTest("prices come from a book; the example says that it is one, and a budget holds", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator("#prices summary").click();
  await reads(page.locator("#prices"), /this program has no prices of its own/);
  await page.getByRole("button", { name: "Open the example" }).click();
  const table = page.getByRole("table", { name: /^What it costs, by/ });
  await table.waitFor();
  // Three prints of 16 × 20 in at 30 each.
  assert.deepEqual(await table.getByRole("row").nth(1).locator("th, td").allTextContents(), ["paper", "16 × 20″", "3", "USD 30.00", "USD 90.00"]);
  await reads(page.locator("#prices"), /This price book is an example: nobody sells at its prices\./);
  await page.locator("#suggestions summary").click();
  const budget = page.locator('#suggestions [data-field="budget"] input');
  await budget.fill("150");
  await budget.press("Enter");
  await page.locator("#suggestions .why:visible").first().waitFor();
  const whys = await page.locator("#suggestions .why:visible").allTextContents();
  assert.ok(whys.length > 0);
  for (const why of whys) assert.ok(Number(/^USD (\d+\.\d\d); /.exec(why)?.[1]) <= 150, why);
  await budget.fill("a song");
  await budget.press("Enter");
  await reads(page.locator('#suggestions [role="alert"]'), /^"a song" is not an amount; write one such as 400 or 399\.50$/);
  await page.getByRole("button", { name: "Take canvas" }).or(page.getByRole("button", { name: /^Take canvas,/ })).first().click();
  await settled(page);
  assert.equal(await said(page, "piece.all.material"), "canvas");
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await page.locator("#prices > summary").press("Enter");
  await page.getByRole("table", { name: /^What it costs, by/ }).waitFor();
  await page.setInputFiles("#book", { name: "torn.json", mimeType: "application/json", buffer: Buffer.from('{"overmantel_prices": 1, "name"') });
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.startsWith("torn.json can't be used: "));
  await page.getByRole("table", { name: /^What it costs, by/ }).waitFor();
  await page.getByRole("button", { name: "Close the price book" }).click();
  await reads(page.locator("#prices"), /this program has no prices of its own/);
});
