// The jobs of three people, from the file on disk, by what things are called: the buyer tries a size and drags, the artist asks what
// could hang there and sends a link, the framer reads what is to be cut and opens a price book. The same in each browser.

import assert from "node:assert/strict";
import { launch } from "puppeteer-core";
import { pageAddress } from "./address.mjs";

/**
 * @typedef {import("puppeteer-core").Page} Page
 * @typedef {import("puppeteer-core").LaunchOptions} LaunchOptions
 * @typedef {ReturnType<typeof deskOf>} Desk
 */

/**
 * The page in a browser of its own, for one job; what it complains of fails it.
 * @param {LaunchOptions} options
 * @param {(desk: Desk) => Promise<void>} job
 * @param {string} [address] Where the page is, if not on the disk.
 */
export async function atDesk(options, job, address = pageAddress) {
  const browser = await launch({ headless: true, ...options });
  try {
    const page = await browser.newPage();
    await page.setViewport({ width: 1280, height: 800 });
    /** @type {string[]} */
    const complaints = [];
    page.on("pageerror", (error) => complaints.push(String(error)));
    page.on("console", (message) => {
      // Chromium's advice on reading a canvas concerns the test, which does.
      const isAdvice = message.text().startsWith("Canvas2D: Multiple readback operations");
      if (!isAdvice && (message.type() === "error" || message.type() === "warn")) complaints.push(message.text());
    });
    const desk = deskOf(page);
    await page.goto(address);
    await desk.ready();
    await job(desk);
    assert.deepEqual(complaints, [], "the page has complained");
  } finally {
    await browser.close();
  }
}

/** What a field holds; run in the page. @param {Element} field */
function valueOf(field) {
  return field instanceof HTMLInputElement ? field.value : "";
}

/** @param {Page} page */
function deskOf(page) {
  const patience = { timeout: 20_000 };
  /** What is called so. @param {string} name @param {string} role */
  const called = (name, role) => page.locator(`::-p-aria([name="${name}"][role="${role}"])`);
  /** The same of whatever kind: a field that offers something is a box with a list. @param {string} name */
  const named = (name) => page.locator(`::-p-aria([name="${name}"])`);
  const desk = {
    page,
    ready: () => page.waitForSelector("html[data-ready]", { timeout: 60_000 }),
    called,
    /** Presses the button that is called so. @param {string} name */
    press: (name) => called(name, "button").click(),
    /** Opens a part of the page by its heading. @param {string} heading */
    open: (heading) => page.locator(`summary ::-p-text(${heading})`).click(),
    /** What the field that is called so holds; there may be one in a sentence and one on the drawing. @param {string} name */
    value: (name) => named(name).map(valueOf).wait(),
    /** Writes into it, by keys. @param {string} name @param {string} text */
    async write(name, text) {
      const field = await named(name).waitHandle();
      await field.focus();
      await page.keyboard.down("Control");
      await page.keyboard.press("a");
      await page.keyboard.up("Control");
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
    },
    /** Waits until it holds this. @param {string} name @param {string} text */
    holds: (name, text) =>
      page.waitForFunction((name, text) => [...document.querySelectorAll("input")].some((field) => field.getAttribute("aria-label") === name && field.value === text), patience, name, text),
    /** Waits until the page has these words where a reader would see them. @param {string} words */
    reads: (words) => page.waitForFunction((words) => document.body.innerText.includes(words), patience, words),
    /** The name of what can be taken hold of, by its beginning. @param {string} beginning */
    handle: (beginning) => page.waitForSelector(`button[aria-label^="${beginning}"]`),
    /** Waits until that name is this one, or is not. @param {string} beginning @param {string} name @param {boolean} isSame */
    handleIs: (beginning, name, isSame) =>
      page.waitForFunction(
        (beginning, name, isSame) => {
          const now = document.querySelector(`button[aria-label^="${beginning}"]`)?.getAttribute("aria-label");
          return now !== undefined && now !== null && (now === name) === isSame;
        },
        patience,
        beginning,
        name,
        isSame,
      ),
  };
  return desk;
}

/** @type {[string, (desk: Desk) => Promise<void>][]} */
export const JOBS = [
  [
    "the buyer: a start is chosen, sizes are tried, dragged, undone, and there again after a reload",
    async ({ page, ready, called, open, press, value, write, holds, reads, handle, handleIs }) => {
      // The sheet, the wall, the sofa and the pictures have many colours; a blank canvas has one.
      const colours = await page.$eval("canvas", (canvas) => {
        const { width, height } = canvas;
        const data = canvas.getContext("2d")?.getImageData(0, 0, width, height).data;
        return data === undefined ? 0 : new Set(new Uint32Array(data.buffer)).size;
      });
      assert.ok(colours > 1000, `the drawing has ${colours} colours`);
      await open("Start from");
      await press("Three above a sofa");
      assert.match(await value("width of the wall"), /^\d+' /);
      await write("width of the wall", "13' 6");
      await holds("width of the wall", "13' 6\"");
      await write("image of each piece", "11 x 14 in");
      await holds("image of each piece", "11 × 14\"");

      const pieces = await handle("The pieces together");
      const label = (await pieces?.evaluate((one) => one.getAttribute("aria-label"))) ?? "";
      const box = await pieces?.boundingBox();
      assert.ok(box, "the pieces can be taken hold of");
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let step = 1; step <= 8; step += 1) await page.mouse.move(x - 8 * step, y);
      await page.mouse.up();
      await handleIs("The pieces together", label, false);
      const middle = (/** @type {string | null | undefined} */ of) => Number(/middle (\d+)' /.exec(of ?? "")?.[1]);
      const moved = await (await handle("The pieces together"))?.evaluate((one) => one.getAttribute("aria-label"));
      assert.ok(middle(moved) < middle(label), `${label} became ${moved}`);

      await press("Undo");
      await handleIs("The pieces together", label, true);
      await holds("image of each piece", "11 × 14\"");
      // By keys: taken up, moved, and put back.
      await (await handle("The pieces together"))?.focus();
      await page.keyboard.press("Enter");
      await page.keyboard.press("ArrowRight");
      await handleIs("The pieces together", label, false);
      await page.keyboard.press("Escape");
      await handleIs("The pieces together", label, true);
      // What is shown after a reload is what is: a browser that fills in forms again must not choose another view.
      await called("in the room", "radio").click();
      await page.reload();
      await ready();
      const views = await page.$$eval("#view input:checked", (inputs) => inputs.map((input) => (input instanceof HTMLInputElement ? input.value : "")));
      const handles = await page.$$eval("#overlay .handle", (handles) => handles.length);
      assert.deepEqual([views, handles > 0], [["elevation"], true]);
      await holds("image of each piece", "11 × 14\"");
      await holds("width of the wall", "13' 6\"");
      await handleIs("The pieces together", label, true);
      await page.locator("summary ::-p-text(Plans kept on this device)").click();
      await reads("open now");
    },
  ],
  [
    "the artist: what could hang there is taken, and sent as a link that opens as the same plan",
    async ({ page, open, value, called, reads, holds, press }) => {
      await open("What could hang here");
      await page.waitForSelector("#suggestions .thumbnail");
      const words = await page.$eval("#suggestions .thumbnail span", (span) => span.textContent ?? "");
      const asked = await value("image of each piece");
      await page.click("#suggestions .thumbnail");
      await reads(`Chosen: ${words}`);
      // The sentences follow a moment after it is said; what is taken here is of another size.
      await page.waitForFunction((before) => [...document.querySelectorAll("input")].some((field) => field.getAttribute("aria-label") === "image of each piece" && field.value !== before), { timeout: 20_000 }, asked);
      const size = await value("image of each piece");
      await open("Share it as a link");
      await called("Address of a published page of Overmantel", "textbox").fill("https://example.org/overmantel.html");
      await page.keyboard.press("Tab");
      await page.waitForFunction(() => [...document.querySelectorAll("input")].some((field) => field.getAttribute("aria-label") === "The link" && field.value.startsWith("https://example.org/")), { timeout: 20_000 });
      const link = await value("The link");
      const other = await page.browser().newPage();
      await other.goto(`${pageAddress}#${link.split("#")[1]}`);
      await other.waitForSelector("html[data-ready]", { timeout: 60_000 });
      const there = other.locator('::-p-aria([name="image of each piece"])');
      assert.equal(await there.map(valueOf).wait(), size);
      await other.close();
      await press("Undo");
      await holds("image of each piece", "16 × 20\"");
    },
  ],
  [
    // 16 × 20 in behind 2 1/2 in of mat: a board of 20 × 24, a moulding of 3/4 in with a lip of 1/4: 21 1/8 × 25 1/8 outside.
    "the framer: the cut list has the long points of the rails, and a price book what they cost",
    async ({ open, reads, press }) => {
      await open("Parts, cuts and what to buy");
      await reads("21¹⁄₈″");
      await reads("25¹⁄₈″");
      await open("Prices");
      await press("Open the example");
      await reads("This price book is an example");
    },
  ],
];
