// What is hostile: every text that can come from elsewhere is only ever text, and nothing is asked for.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { pageAddress } from "./address.mjs";
import { settled } from "./desk.mjs";
import { listen, pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** Texts that would do something if they were taken for anything but text. */
const HOSTILE = [
  "</script><script>caught=1</script>",
  "<img src=x onerror=caught=1>",
  "<svg/onload=caught=1>",
  "\"><iframe srcdoc='<script>parent.caught=1</script>'>",
  "' onmouseover='caught=1' x='",
  "javascript:caught=1//",
  "${caught=1}{{caught=1}}<%= 1 %>",
  "<!--<script>",
  "]]><a xlink:href='javascript:caught=1'>",
  "<style>*{display:none}</style>",
  "=HYPERLINK(\"https://example.org\")",
  "\u202e<b>turned</b>\u2066\u200d\u{1f300}",
];

const low = JSON.parse(await readFile(new URL("../../demo-data/plans/low-water.json", import.meta.url), "utf8"));

/**
 * A plan with a text in every place that takes one.
 * @param {string} text
 */
function planWith(text) {
  const name = `${text} sea`;
  return JSON.stringify({
    ...low,
    title: text,
    fixtures: [{ ...low.fixtures[0], name: text }],
    pictures: [{ ...low.pictures[0], name, file: `${text}.jpg` }],
    split: { ...low.split, picture: name },
    group: { ...low.group, across: { fixture_middle: text }, up: { above: { fixture: text, clearance: "8 in" } } },
  });
}

/**
 * Nothing was run, and the page has no element that a text could have made.
 * @param {Page} page
 * @param {string} text
 */
async function inert(page, text) {
  const found = await page.evaluate(() => ({
    caught: "caught" in window,
    made: document.querySelectorAll("body img, body iframe, body svg, body style, body b, script:not([type]) ~ script").length,
    scripts: document.querySelectorAll("script:not([type])").length,
  }));
  assert.deepEqual(found, { caught: false, made: 0, scripts: 1 }, text);
}

pageTest("no text of a plan, a link or an answer is anything but text", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const address = page.getByLabel("Address of a published page of Overmantel");
  await page.locator("#send summary").click();
  await address.fill("javascript:caught=1");
  await address.press("Tab");
  await settled(page);
  assert.match((await page.locator("#send .error").textContent()) ?? "", /is no address of a published page/);
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
      assert.ok(((await page.locator("#specification").textContent()) ?? "").includes(text), text);
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
      await other.getByLabel("Open a link that came to you").fill(await answer(text));
      await other.waitForSelector("#answer:not([hidden])");
      assert.ok(((await other.locator("#answer").textContent()) ?? "").includes(`An answer from ${text}`), text);
      await inert(other, text);
    }
    assert.deepEqual(complaints.filter((complaint) => !complaint.includes("about:blank")), []);
  } finally {
    await elsewhere?.close();
  }
});

/**
 * An answer from someone of that name, put together by the standards: CBOR, stored blocks, CRC-32.
 * @param {string} text
 */
async function answer(text) {
  const { crc32 } = await import("node:zlib");
  const string = (/** @type {string} */ words) => {
    const bytes = Buffer.from(words);
    return Buffer.concat([Buffer.from([0x79, bytes.length >> 8, bytes.length & 255]), bytes]);
  };
  // { 1: title, 7: [{}], 33: { 5: sender, 6: note } }
  const map = Buffer.concat([
    Buffer.from([0xa3, 1]),
    string(text),
    Buffer.from([7, 0x81, 0xa0, 0x18, 33, 0xa2, 5]),
    string(text),
    Buffer.from([6]),
    string(text),
  ]);
  const head = Buffer.alloc(5);
  head[0] = 1;
  head.writeUInt16LE(map.length, 1);
  head.writeUInt16LE(~map.length & 0xffff, 3);
  const body = Buffer.concat([head, map]);
  const sum = Buffer.alloc(4);
  sum.writeUInt32LE(crc32(Buffer.concat([Buffer.from([1]), body])));
  return `#${Buffer.concat([Buffer.from([1]), sum, body]).toString("base64url")}`;
}

pageTest("a link that would inflate to fifty million bytes is refused at once", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const { crc32, deflateRawSync } = await import("node:zlib");
  const bomb = deflateRawSync(Buffer.alloc(50_000_000), { level: 9 });
  const sum = Buffer.alloc(4);
  sum.writeUInt32LE(crc32(Buffer.concat([Buffer.from([1]), bomb])));
  const link = Buffer.concat([Buffer.from([1]), sum, bomb]).toString("base64url");
  await page.locator("#send summary").click();
  const began = performance.now();
  await page.getByLabel("Open a link that came to you").fill(`#${link}`);
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("The link can't be opened"));
  assert.ok(performance.now() - began < 2_000);
  assert.match((await page.locator("#status").textContent()) ?? "", /characters; at most 65536 are read|more than 98304 bytes/);
  assert.match(await page.title(), /^Low water/);
});
