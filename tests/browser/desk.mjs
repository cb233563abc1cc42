// What a person does at the page, in the words of its specification.

import assert from "node:assert/strict";
import { deflateSync, crc32 } from "node:zlib";

/**
 * @typedef {import("playwright-core").Page} Page
 * @typedef {import("playwright-core").Locator} Locator
 */

/**
 * The control of a field in the specification (not the one on the drawing).
 * @param {Page} page
 * @param {string} field
 */
export function control(page, field) {
  return page.locator(`:is(#specification, #ideas) [data-field="${field}"] :is(input, select)`);
}

/**
 * What a field says, as typeset on the page.
 * @param {Page} page
 * @param {string} field
 */
export async function said(page, field) {
  return (await page.locator(`#specification [data-field="${field}"] > span`).textContent()) ?? "";
}

/**
 * Types into a field and presses Enter.
 * @param {Page} page
 * @param {string} field
 * @param {string} text
 */
export async function type(page, field, text) {
  await control(page, field).fill(text);
  await control(page, field).press("Enter");
  await settled(page);
}

/**
 * Chooses in a field.
 * @param {Page} page
 * @param {string} field
 * @param {string} option
 */
export async function choose(page, field, option) {
  await control(page, field).selectOption(option);
  await settled(page);
}

/**
 * Holds an element, or a form's control, to its words. What the page shows a moment later counts as well: a part that
 * is opened fills itself when the browser says so, which on a busy machine may be after the next line of a test. What must
 * never be there, and what must stay, is looked at once and not with this.
 * @param {Locator} locator
 * @param {string | RegExp | ((words: string) => boolean)} expected
 * @param {unknown} [named] What a failure names as expected.
 */
export async function reads(locator, expected, named = expected) {
  const words = () => locator.evaluate((one) => (one instanceof HTMLInputElement || one instanceof HTMLTextAreaElement ? one.value : (one.textContent ?? "")));
  const holds = (/** @type {string} */ found) =>
    typeof expected === "function" ? expected(found) : typeof expected === "string" ? found === expected : expected.test(found);
  const found = await patiently(words, holds);
  if (typeof expected === "string") assert.equal(found, expected);
  else assert.ok(holds(found), `expected ${named}, found: ${found}`);
}

/**
 * Holds a locator to how many it finds, now or a moment later.
 * @param {Locator} locator
 * @param {number} expected
 * @param {string} [message]
 */
export async function finds(locator, expected, message) {
  assert.equal(await patiently(() => locator.count(), (found) => found === expected), expected, message);
}

/**
 * What is found as soon as it holds, or what is found last when it does not within five seconds.
 * @template T
 * @param {() => Promise<T>} find
 * @param {(found: T) => boolean} holds
 */
async function patiently(find, holds) {
  const end = Date.now() + 5000;
  let found = await find();
  while (!holds(found) && Date.now() < end) {
    await new Promise((resolve) => setTimeout(resolve, 50));
    found = await find();
  }
  return found;
}

/**
 * Waits until the page has shown what there is to show.
 * @param {Page} page
 */
export async function settled(page) {
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => setTimeout(() => requestAnimationFrame(resolve)))));
}

/**
 * The words of the specification, fields and all.
 * @param {Page} page
 */
export async function specification(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll("#full > details > p")]
      .map((paragraph) => {
        const copy = /** @type {Element} */ (paragraph.cloneNode(true));
        for (const control of copy.querySelectorAll("select, input, .aside")) control.remove();
        return copy.textContent ?? "";
      })
      .join("\n"),
  );
}

/**
 * Mean colour of the drawing in a small square round a point in shares of a handle's box.
 * @param {Page} page
 * @param {string} label The beginning of the handle's name.
 * @param {number} across 0 to 1.
 * @param {number} down 0 to 1.
 * @returns {Promise<[number, number, number]>}
 */
export async function colourAt(page, label, across, down) {
  return page.evaluate(
    ([label, across, down]) => {
      const handle = document.querySelector(`.handle[aria-label^="${label}"]`);
      const canvas = document.querySelector("canvas");
      const context = canvas?.getContext("2d");
      if (!(handle instanceof HTMLElement) || !canvas || !context) throw new Error(`no ${label}`);
      const ratio = devicePixelRatio;
      const x = Math.round((handle.offsetLeft + handle.offsetWidth * Number(across)) * ratio);
      const y = Math.round((handle.offsetTop + handle.offsetHeight * Number(down)) * ratio);
      const { data } = context.getImageData(x - 2, y - 2, 5, 5);
      const mean = [0, 1, 2].map((channel) => {
        let sum = 0;
        for (let at = channel; at < data.length; at += 4) sum += data[at] ?? 0;
        return Math.round(sum / 25);
      });
      return /** @type {[number, number, number]} */ (mean);
    },
    [label, across, down],
  );
}

/**
 * A PNG of one colour, or of one for each pixel, made here: no library's encoder, and of one colour small however large it is.
 * @param {number} width
 * @param {number} height
 * @param {number[] | ((x: number, y: number) => number[])} colour Red, green and blue.
 */
export function png(width, height, colour) {
  const row = Buffer.alloc(1 + width * 3);
  const rows = Buffer.alloc(row.length * height);
  for (let y = 0; y < height; y += 1) {
    if (y === 0 || typeof colour === "function") {
      for (let x = 0; x < width; x += 1) row.set(typeof colour === "function" ? colour(x, y) : colour, 1 + x * 3);
    }
    row.copy(rows, y * row.length);
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(rows, { level: 1 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

/**
 * @param {string} kind
 * @param {Buffer} data
 */
function chunk(kind, data) {
  const body = Buffer.concat([Buffer.from(kind, "ascii"), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/**
 * Tells the specification in full, where a link or a proposal has it in short.
 * @param {Page} page
 */
export async function inFull(page) {
  await page.locator('#depth input[value="full"]').check({ force: true });
  await page.evaluate(() => document.querySelectorAll("#full details").forEach((one) => one.toggleAttribute("open", true)));
  await settled(page);
}

/**
 * Waits until the page has begun and its drawing has settled.
 * @param {Page} page
 */
export async function ready(page) {
  await page.waitForSelector("html[data-ready]");
  await settled(page);
}

/**
 * Gives the plan another title.
 * @param {Page} page
 * @param {string} name
 */
export async function rename(page, name) {
  const title = page.getByRole("textbox", { name: "title" });
  await title.fill(name);
  await title.press("Enter");
  await settled(page);
}
