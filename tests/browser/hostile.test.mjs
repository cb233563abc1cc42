// What is hostile: every text that can come from elsewhere is only ever text, and nothing is asked for.

import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { pageAddress } from "./address.mjs";
import { reads, settled } from "./desk.mjs";
import { listen, pageTest } from "./harness.mjs";
import { answer, HOSTILE, NOTHING, planWith, taken } from "./hostile.mjs";

/** @typedef {import("playwright-core").Page} Page */

/**
 * Nothing was run, and the page has no element that a text could have made.
 * @param {Page} page
 * @param {string} text
 */
async function inert(page, text) {
  assert.deepEqual(await page.evaluate(taken), NOTHING, text);
}

pageTest("no text of a plan, a link or an answer is anything but text", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const address = page.getByLabel("Address of a published page of Overmantel");
  await page.locator("#send summary").click();
  await address.fill("javascript:caught=1");
  await address.press("Tab");
  await settled(page);
  await reads(page.locator("#send .error"), /is not the address of a published page/);
  await address.fill("https://example.org/overmantel.html");
  await address.press("Tab");
  const elsewhere = await page.context().browser()?.newContext({ viewport: { width: 1280, height: 800 } });
  const other = await elsewhere?.newPage();
  assert.ok(other);
  const complaints = listen(other);
  try {
    for (const text of HOSTILE) {
      await page.setInputFiles("#plan", { name: "plan.json", mimeType: "application/json", buffer: Buffer.from(planWith(text)) });
      await page.waitForFunction((title) => document.title.startsWith(title), text);
      await settled(page);
      await reads(page.locator("#specification"), (words) => words.includes(text), text);
      await inert(page, text);
      const link = await page.getByLabel("The link", { exact: true }).inputValue();
      await other.goto("about:blank");
      await other.goto(`${pageAddress}#${link.split("#")[1]}`);
      await other.waitForSelector("html[data-ready]");
      await settled(other);
      assert.ok((await other.title()).startsWith(text), `${await other.title()} for ${text}`);
      await inert(other, text);
      // An answer with it in its sender and its note.
      await other.locator("#send summary").click();
      await other.getByLabel("Open a link you were sent").fill(answer(text));
      await other.waitForSelector("#answer:not([hidden])");
      await reads(other.locator("#answer"), (words) => words.includes(`An answer from ${text}`), text);
      await inert(other, text);
    }
    assert.deepEqual(complaints.filter((complaint) => !complaint.includes("about:blank")), []);
  } finally {
    await elsewhere?.close();
  }
});

pageTest("no text of a price book, a list of stock or a proposal is anything but text", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const other = await page.context().newPage();
  const complaints = listen(other, "");
  const json = (/** @type {unknown} */ value) => ({ name: "given.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(value)) });
  try {
    await page.locator("#prices summary").click();
    await page.locator("#cuts summary").click();
    await page.locator("#propose summary").click();
    const form = page.locator("#propose");
    for (const text of HOSTILE) {
      await page.setInputFiles("#book", json({ overmantel_prices: 1, name: text, currency: "EUR", rows: [{ for: "paper", by: { each: "40" } }] }));
      await page.setInputFiles("#stock", json({ overmantel_stock: 1, sticks: { add: [{ name: text, length: "13 ft", kerf: "1/8 in", trim: "2 in" }] } }));
      // In a sentence quotation marks are set as print has them.
      await page.waitForFunction((text) => document.querySelector("#prices")?.textContent?.replace(/[“”]/g, '"').replace(/[‘’′]/g, "'").includes(text), text);
      await settled(page);
      await form.getByLabel("Title").fill(text);
      await form.getByLabel("From", { exact: true }).fill(text);
      await form.getByLabel("Your message").fill(text);
      await form.getByLabel(/^Prices/).fill(text);
      await inert(page, text);
      const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the proposal as a file" }).click()]);
      const file = path.join(folder, "proposal.html");
      await download.saveAs(file);
      await other.goto(pathToFileURL(file).href);
      await other.waitForSelector("html[data-ready]");
      // The heading, the cards and the text below them are parts of their own.
      const read = (await other.locator("#letter, #offered, #proposed").allTextContents()).join("\n");
      assert.equal(read.split(text).length > 4, true, `title, sender, note and price of ${text} are in ${read}`);
      await inert(other, text);
    }
    assert.deepEqual(complaints, []);
  } finally {
    await other.close();
    await rm(folder, { recursive: true, force: true });
  }
});

pageTest("a link that would inflate to fifty million bytes is refused at once", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const { crc32, deflateRawSync } = await import("node:zlib");
  const bomb = deflateRawSync(Buffer.alloc(50_000_000), { level: 9 });
  const sum = Buffer.alloc(4);
  sum.writeUInt32LE(crc32(Buffer.concat([Buffer.from([1]), bomb])));
  const link = Buffer.concat([Buffer.from([1]), sum, bomb]).toString("base64url");
  await page.locator("#send summary").click();
  const began = performance.now();
  await page.getByLabel("Open a link you were sent").fill(`#${link}`);
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("The link can't be opened"));
  assert.ok(performance.now() - began < 2_000);
  await reads(page.locator("#status"), /characters; at most 65536 are allowed|more than 98304 bytes/);
  assert.match(await page.title(), /^Low water/);
});
