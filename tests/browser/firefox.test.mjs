// The jobs of three people in Firefox, from the file on disk: the buyer tries sizes and drags, the artist sends a link and asks what
// could hang there, the framer reads what is to be cut.
//
// Firefox is found in FIREFOX or at Debian's place; where there is none, the test says so and is skipped.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { test } from "node:test";
import { launch } from "puppeteer-core";
import { pageAddress } from "./address.mjs";
import { answer, HOSTILE, NOTHING, planWith, taken } from "./hostile.mjs";

const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";
const skip = existsSync(firefox) ? false : `Firefox is not at ${firefox}; name it in FIREFOX`;

/** @typedef {import("puppeteer-core").Page} Page */

/**
 * The page in Firefox, for one job; what it complains of fails it.
 * @param {string} name
 * @param {(desk: ReturnType<typeof deskOf>) => Promise<void>} job
 */
function inFirefox(name, job) {
  test(`${name}, in Firefox`, { skip, timeout: 180_000 }, async () => {
    const browser = await launch({ browser: "firefox", executablePath: firefox, headless: true });
    try {
      const page = await browser.newPage();
      await page.setViewport({ width: 1280, height: 800 });
      /** @type {string[]} */
      const complaints = [];
      page.on("pageerror", (error) => complaints.push(String(error)));
      page.on("console", (message) => {
        if (message.type() === "error" || message.type() === "warn") complaints.push(message.text());
      });
      const desk = deskOf(page);
      await page.goto(pageAddress);
      await desk.ready();
      await job(desk);
      assert.deepEqual(complaints, [], "the page has complained");
    } finally {
      await browser.close();
    }
  });
}

/** @param {Page} page */
function deskOf(page) {
  const patience = { timeout: 20_000 };
  return {
    page,
    ready: () => page.waitForSelector("html[data-ready]", { timeout: 60_000 }),
    /** What a field says. @param {string} field */
    said: (field) => page.$eval(`#specification [data-field="${field}"] > span`, (span) => span.textContent ?? ""),
    /** Waits until a field says so. @param {string} field @param {string} text */
    says: (field, text) =>
      page.waitForFunction(
        (field, text) => document.querySelector(`#specification [data-field="${field}"] > span`)?.textContent === text,
        patience,
        field,
        text,
      ),
    /** Waits until an element's text has some words. @param {string} selector @param {string} words */
    reads: (selector, words) => page.waitForFunction((selector, words) => document.querySelector(selector)?.textContent?.includes(words), patience, selector, words),
    /** What is called so. @param {string} name @param {string} role */
    called: (name, role) => page.locator(`::-p-aria([name="${name}"][role="${role}"])`),
    /** The handle whose name begins so. @param {string} label */
    handle: (label) => page.waitForSelector(`.handle[aria-label^="${label}"]`),
  };
}

inFirefox("the buyer: opened, drawn, edited, dragged, undone, reloaded", async ({ page, ready, said, says, handle }) => {
  // The sheet, the wall, the sofa and the pictures have many colours; a blank canvas has one.
  const colours = await page.$eval("#canvas", (canvas) => {
    const { width, height } = /** @type {HTMLCanvasElement} */ (canvas);
    const data = /** @type {HTMLCanvasElement} */ (canvas).getContext("2d")?.getImageData(0, 0, width, height).data;
    return data === undefined ? 0 : new Set(new Uint32Array(data.buffer)).size;
  });
  assert.ok(colours > 1000, `the drawing has ${colours} colours`);

  // A field, by keys.
  assert.equal(await said("wall.width"), "12′ 0″");
  const width = await page.waitForSelector('#specification [data-field="wall.width"] input');
  await width?.focus();
  await page.keyboard.down("Control");
  await page.keyboard.press("a");
  await page.keyboard.up("Control");
  await page.keyboard.type("13' 6");
  await page.keyboard.press("Enter");
  await says("wall.width", "13′ 6″");

  // The pieces, by pointer.
  const pieces = await handle("The pieces together");
  const label = await pieces?.evaluate((one) => one.getAttribute("aria-label"));
  const box = await pieces?.boundingBox();
  assert.ok(box, "the pieces can be taken hold of");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 8; step += 1) await page.mouse.move(x - 8 * step, y);
  await page.mouse.up();
  const labelled = (/** @type {string} */ label, /** @type {boolean} */ isSame) =>
    page.waitForFunction(
      (label, isSame) => {
        const now = document.querySelector('.handle[aria-label^="The pieces together"]')?.getAttribute("aria-label");
        return now !== undefined && now !== null && (now === label) === isSame;
      },
      { timeout: 20_000 },
      label,
      isSame,
    );
  await labelled(label ?? "", false);
  const middle = (/** @type {string | null | undefined} */ of) => Number(/middle (\d+)' /.exec(of ?? "")?.[1]);
  const moved = await (await handle("The pieces together"))?.evaluate((one) => one.getAttribute("aria-label"));
  assert.ok(middle(moved) < middle(label), `${label} became ${moved}`);

  await page.click("#undo");
  await labelled(label ?? "", true);
  assert.equal(await said("wall.width"), "13′ 6″", "one step back, and no more");

  await page.reload();
  await ready();
  assert.equal(await said("wall.width"), "13′ 6″", "kept");
  await labelled(label ?? "", true);
  // In the list of kept plans, too.
  await page.click("#kept summary");
  await page.waitForFunction(() => document.querySelector("#kept li strong")?.textContent?.startsWith("Low water"), { timeout: 20_000 });
});

inFirefox("the artist: what could hang there is tried on and taken, and sent as a link that opens as the same plan", async ({ page, said, reads, called }) => {
  await page.click("#suggestions summary");
  await page.waitForSelector("#suggestions .small");
  const words = await page.$eval("#suggestions .small span", (span) => span.textContent ?? "");
  await page.click("#suggestions .small");
  await reads("#status", `Taken: ${words}`);
  const size = await said("piece.all.image");
  await page.click("#send summary");
  await called("Address of a published page of Overmantel", "textbox").fill("https://example.org/overmantel.html");
  await page.keyboard.press("Tab");
  await page.waitForFunction(() => /** @type {HTMLInputElement | null} */ (document.querySelector('input[aria-label="The link"]'))?.value.startsWith("https://example.org/"), { timeout: 20_000 });
  const link = await page.$eval('input[aria-label="The link"]', (input) => /** @type {HTMLInputElement} */ (input).value);
  const other = await page.browser().newPage();
  await other.goto(`${pageAddress}#${link.split("#")[1]}`);
  await other.waitForSelector("html[data-ready]", { timeout: 60_000 });
  assert.equal(await other.$eval('#specification [data-field="piece.all.image"] > span', (span) => span.textContent), size);
  await other.close();
});

// 16 × 20 in behind 2 1/2 in of mat: a board of 20 × 24, a moulding of 3/4 in with a lip of 1/4: 21 1/8 × 25 1/8 outside.
inFirefox("the framer: the cut list of the demo has the long points of its rails", async ({ page, reads }) => {
  await page.click("#cuts summary");
  await reads("#cuts", "21¹⁄₈″");
  await reads("#cuts", "25¹⁄₈″");
  await page.click("#prices summary");
  await page.click("#example-book");
  await reads("#prices", "This book is an example");
});

inFirefox("what is hostile: no text of a plan, a link or an answer is anything but text", async ({ page, called, reads }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const other = await page.browser().newPage();
  try {
    await page.click("#send summary");
    await called("Address of a published page of Overmantel", "textbox").fill("https://example.org/overmantel.html");
    await page.keyboard.press("Tab");
    for (const text of HOSTILE) {
      const file = path.join(folder, "plan.json");
      await writeFile(file, planWith(text));
      await (await page.$("input#plan"))?.uploadFile(file);
      await reads("title", text);
      await reads("#specification", text);
      assert.deepEqual(await page.evaluate(taken), NOTHING, text);
      const link = await page.$eval('input[aria-label="The link"]', (input) => /** @type {HTMLInputElement} */ (input).value);
      await other.goto("about:blank");
      await other.goto(`${pageAddress}#${link.split("#")[1]}`);
      await other.waitForSelector("html[data-ready]", { timeout: 60_000 });
      assert.ok((await other.title()).startsWith(text), `${await other.title()} for ${text}`);
      assert.deepEqual(await other.evaluate(taken), NOTHING, text);
      // Pasted whole; `fill` types what is short letter by letter.
      await page.$eval(
        'input[placeholder="paste it here"]',
        (input, pasted) => {
          /** @type {HTMLInputElement} */ (input).value = pasted;
          input.dispatchEvent(new Event("input", { bubbles: true }));
        },
        answer(text),
      );
      await reads("#answer", `An answer from ${text}`);
      assert.deepEqual(await page.evaluate(taken), NOTHING, text);
    }
  } finally {
    await other.close();
    await rm(folder, { recursive: true, force: true });
  }
});
