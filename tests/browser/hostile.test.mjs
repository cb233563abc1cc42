// What is hostile: every text that can come from elsewhere is only ever text, and nothing is asked for.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { pageAddress } from "./address.mjs";
import { png, reads, settled } from "./desk.mjs";
import { listen, pageTest } from "./harness.mjs";
import { answer, HOSTILE, NOTHING, planWith, taken } from "./hostile.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** Reads what stands in a PDF, where it is installed. */
const pdftotext = ["/usr/bin/pdftotext", "/usr/local/bin/pdftotext", "/opt/homebrew/bin/pdftotext"].find((place) => existsSync(place));

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

/**
 * Nothing was run or made where there is a sender's mark, too; that is the page's own.
 * @param {Page} page
 * @param {string} text
 */
async function inertBesideMark(page, text) {
  const found = await page.evaluate(() => ({
    caught: "caught" in window,
    made: document.querySelectorAll("body img:not(.emblem[src^='data:image/jpeg;base64,']), body iframe, body svg, body style, body b, script:not([type]) ~ script:not([type='application/wasm;base64'], [type^='image/'], #proposal)").length,
    scripts: document.querySelectorAll("script:not([type])").length,
    events: document.querySelectorAll("[onerror], [onload], [onmouseover]").length,
    links: [...document.querySelectorAll("a[href]")].filter((link) => !/^(#|mailto:|$)/.test(link.getAttribute("href") ?? "")).length,
  }));
  assert.deepEqual(found, { ...NOTHING, events: 0, links: 0 }, text);
}

/** What no file's name has: what parts folders or turns the direction of letters (Unicode's bidirectional controls). */
const NO_NAME = /[\\/:*?"<>|\x00-\x1f\u202a-\u202e\u2066-\u2069]/;

pageTest("no text of a proposal with options, of its answer or of its PDF is anything but text", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const elsewhere = await page.context().browser()?.newContext({ acceptDownloads: true });
  const client = await elsewhere?.newPage();
  assert.ok(client);
  const complaints = listen(client, "");
  const saved = async (/** @type {Page} */ from, /** @type {string} */ button, /** @type {string} */ name) => {
    const [download] = await Promise.all([from.waitForEvent("download"), from.getByRole("button", { name: button, exact: true }).click()]);
    assert.doesNotMatch(download.suggestedFilename(), NO_NAME);
    const file = path.join(folder, name);
    await download.saveAs(file);
    return file;
  };
  try {
    await page.locator("#propose > summary").click();
    const form = page.locator("#propose");
    for (let count = 0; count < 2; count += 1) {
      await form.getByRole("button", { name: "Add this plan as an option" }).click();
      await form.locator(".offers summary").nth(count).click();
    }
    for (const [index, text] of HOSTILE.entries()) {
      for (const field of ["Number", "Client", "From", "Title"]) await form.getByLabel(field, { exact: true }).fill(text);
      await form.getByLabel("How to reach you").fill(text);
      await form.getByLabel("Your message").fill(text);
      await form.getByLabel("A line of text across the pictures").fill(text.slice(0, 40));
      await form.getByLabel("Name of option 1").fill(text);
      await form.getByLabel("What sets it apart: option 1").fill(text);
      await form.getByLabel("Prices, one per line: option 1").fill(text);
      await form.getByLabel("A picture of your mark").setInputFiles({ name: `${text.replaceAll("/", " ")}.png`, mimeType: "image/png", buffer: png(40, 30, [40, 60, 80]) });
      await form.locator("img.emblem").waitFor();
      await form.locator(".along li").first().waitFor();
      await inertBesideMark(page, text);
      const file = await saved(page, "Save the proposal as a file", `${index}.html`);
      const paper = await saved(page, "Save it as a PDF", `${index}.pdf`);
      const written = pdftotext === undefined ? "" : execFileSync(pdftotext, [paper, "-"], { encoding: "utf8" });
      // Lines break where they must; the letters that the face has are there.
      const letters = (/** @type {string} */ words) => words.replace(/[^A-Za-z0-9=<>()/]/g, "");
      if (pdftotext !== undefined) assert.ok(letters(written).split(letters(text)).length > 3, `${text} in ${written.slice(0, 400)}`);
      assert.ok(!/\/(JavaScript|JS|OpenAction|Launch|AA)\b/.test((await readFile(paper)).toString("latin1")), "nothing in it runs");
      if ((await page.locator("#sent").getAttribute("open")) === null) await page.locator("#sent > summary").click();
      await reads(page.locator("#sent"), (words) => words.includes(`for ${text}`), text);
      await inertBesideMark(page, text);

      await client.goto(pathToFileURL(file).href);
      await client.waitForSelector("html[data-ready]");
      await client.waitForSelector("#offered .options[data-drawn]");
      const read = (await client.locator("#letter, #offered, #proposed").allTextContents()).join("\n");
      // Title, number, client, sender, contact, message; the option's name on its card and above its sizes, what sets it apart; its price.
      assert.ok(read.split(text).length > 8, `${read.split(text).length - 1} times ${text} in ${read}`);
      await inertBesideMark(client, text);
      await client.getByLabel("Your name").fill(text);
      await client.locator("#proposed").getByLabel("Your message").fill(text);
      await inertBesideMark(client, text);
      const mail = (await client.getByRole("link", { name: "Send it by mail" }).getAttribute("href")) ?? "";
      assert.match(mail, /^mailto:\?subject=[^&?#<>"\s]*&body=[^&?#<>"\s]*$/, text);
      const answer = await saved(client, "Save my answer as a file", `${index}.txt`);
      await page.setInputFiles("#plan", answer);
      await reads(page.locator("#answer"), (words) => words.split(text).length > 3, text);
      await inertBesideMark(page, text);
    }
    assert.deepEqual(complaints.filter((complaint) => !complaint.startsWith("request: file:")), []);
  } finally {
    await elsewhere?.close();
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
