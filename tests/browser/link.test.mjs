// Links: a plan goes out as an address and comes back whole, and nothing of one's own is lost by opening another's.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { pageAddress } from "./address.mjs";
import { choose, colourAt, inFull, png, reads, ready, said, settled, specification, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** A link that was issued: two canvases beside a window. */
const issued = (await readFile(new URL("../links/1/harbour-pair.link", import.meta.url), "utf8")).trim().split("#")[1] ?? "";

/** @param {Page} page */
const status = async (page) => (await page.locator("#status").textContent()) ?? "";

/**
 * Opens the place where links are made, and states where a page is published.
 * @param {Page} page
 * @param {string} address
 */
async function publishedAt(page, address) {
  const details = page.locator("#send");
  if (!(await details.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open))) await details.locator("summary").click();
  const field = page.getByLabel("Address of a published page of Overmantel");
  await field.fill(address);
  await field.press("Tab");
  await settled(page);
}

pageTest(
  "a page opened with a link shows its plan; one's own is kept, and undo brings it back",
  async ({ page }) => {
    await ready(page);
    assert.match(await page.title(), /^Two harbours beside the window/);
    assert.match(await status(page), /Your own is kept as it was; undo brings it back/);
    assert.equal(await page.evaluate(() => localStorage.getItem("overmantel.plan")), null, "nothing is kept of it before it is changed");
    await page.getByRole("button", { name: "Undo" }).click();
    await settled(page);
    assert.match(await page.title(), /^Low water/);
    await page.getByRole("button", { name: "Redo" }).click();
    await settled(page);
    assert.match(await page.title(), /^Two harbours/);
    assert.equal(await page.locator('#depth input[value="short"]').isChecked(), true, "a link opens in short");
    await inFull(page);
    // Changed, it is a plan of one's own, and a reload shows it as changed and not as the link has it.
    await type(page, "wall.width", "5 m");
    assert.ok(!page.url().includes("#"), page.url());
    await page.reload();
    await ready(page);
    assert.equal(await said(page, "wall.width"), "500 cm");
  },
  { fragment: issued, depth: "short" },
);

pageTest("another link can be pasted, and a plan that was changed stays in the list of plans", async ({ page }) => {
  await ready(page);
  await type(page, "wall.width", "13'");
  await page.locator("#send summary").click();
  await page.getByLabel("Open a link you were sent").fill(`https://example.org/wall.html#${issued}`);
  await page.waitForFunction(() => document.title.startsWith("Two harbours"));
  await inFull(page);
  await type(page, "wall.height", "260 cm");
  await page.locator("#kept summary").click();
  await page.waitForFunction(() => document.querySelectorAll("#kept li").length === 2);
  await page.getByRole("button", { name: /^Open Low water/ }).click();
  await page.waitForFunction(() => document.title.startsWith("Low water"));
  await settled(page);
  assert.equal(await said(page, "wall.width"), "13′ 0″");
});

pageTest(
  "a link is made in steps of length, is copied, and opens elsewhere as the same plan with a likeness of its picture",
  async ({ page, screenshot }) => {
    await ready(page);
    await choose(page, "pieces.count", "one");
    await page.setInputFiles("#pictures", { name: "dusk.png", mimeType: "image/png", buffer: png(400, 500, [180, 70, 50]) });
    await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("400 × 500"));
    await publishedAt(page, "example.org");
    await reads(page.locator("#send .error"), /"example.org" is not the address of a published page; write all of it/);
    await publishedAt(page, "https://example.org/overmantel.html");
    const lengths = (await page.locator("#send fieldset small").allTextContents()).map((text) => Number.parseInt(text, 10));
    assert.equal(lengths.length, 4);
    assert.deepEqual([...lengths].sort((a, b) => a - b), lengths);
    const link = await page.getByLabel("The link", { exact: true }).inputValue();
    assert.equal(link.length, lengths[1], "the main colours are the usual step");
    await reads(page.locator("#send"), /short enough for a mail, a chat, a text message and a QR code/);
    assert.ok(await page.getByLabel("The link as a QR code").isVisible());
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.getByRole("button", { name: "Copy the link" }).click();
    await page.waitForFunction(() => document.querySelector("#status")?.textContent === "The link is on the clipboard.");
    assert.equal(await page.evaluate(() => navigator.clipboard.readText()), link);
    await screenshot("link");
    const stated = await specification(page);
    const colour = await colourAt(page, "The piece", 0.5, 0.5);

    const elsewhere = await page.context().browser()?.newContext({ viewport: { width: 1280, height: 800 } });
    const other = await elsewhere?.newPage();
    assert.ok(other);
    await other.goto(`${pageAddress}#${link.split("#")[1]}`);
    await ready(other);
    await inFull(other);
    assert.equal(await specification(other), stated);
    assert.match(await status(other), /The link has only the colours or a rough sketch of dusk/);
    const seen = await colourAt(other, "The piece", 0.5, 0.5);
    seen.forEach((code, channel) => assert.ok(Math.abs(code - (colour[channel] ?? 0)) < 12, `${seen} beside ${colour}`));
    // Changed and reloaded, it is still to be seen; and the picture itself takes its place.
    await type(other, "wall.width", "13'");
    await other.reload();
    await ready(other);
    const again = await colourAt(other, "The piece", 0.5, 0.5);
    again.forEach((code, channel) => assert.ok(Math.abs(code - (colour[channel] ?? 0)) < 12, `${again} beside ${colour}`));
    await other.setInputFiles("#pictures", { name: "dusk.png", mimeType: "image/png", buffer: png(400, 500, [180, 70, 50]) });
    await other.waitForFunction(() => document.querySelector("#status")?.textContent === "One picture hangs.");
    assert.equal((await specification(other)).match(/dusk/g)?.length, stated.match(/dusk/g)?.length, "it is the same picture come back");
    await elsewhere?.close();
  },
);

for (const [words, fragment, told] of [
  ["cut short", issued.slice(0, -3), /The link can't be opened: the link is incomplete/],
  ["of a later version", "AgAAAAAD", /The link can't be opened: /],
  ["made of something else", "%3Cimg%20src=x%20onerror=alert(1)%3E", /letters, digits, - and _ only/],
]) {
  pageTest(
    `a link ${words} is refused in a sentence, and the plan is as it was`,
    async ({ page }) => {
      await ready(page);
      assert.match(await status(page), /** @type {RegExp} */ (told));
      assert.match(await page.title(), /^Low water/);
      assert.equal(await page.getByRole("button", { name: "Undo" }).isDisabled(), true);
    },
    { fragment: String(fragment) },
  );
}
