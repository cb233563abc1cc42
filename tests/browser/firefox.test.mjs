// The main job in Firefox, from the file on disk: opened, drawn, a field edited, a piece dragged, undone, and all of it kept through a reload.
//
// Firefox is found in FIREFOX or at Debian's place; where there is none, the test says so and is skipped.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { test } from "node:test";
import { launch } from "puppeteer-core";
import { pageAddress } from "./address.mjs";

const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";
const skip = existsSync(firefox) ? false : `Firefox is not at ${firefox}; name it in FIREFOX`;

test("the main job in Firefox: opened, drawn, edited, dragged, undone, reloaded", { skip, timeout: 180_000 }, async () => {
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
    const ready = () => page.waitForSelector("html[data-ready]", { timeout: 60_000 });
    /** @param {string} field */
    const said = (field) => page.$eval(`#specification [data-field="${field}"] > span`, (span) => span.textContent ?? "");
    /** @param {string} field @param {string} text */
    const says = (field, text) =>
      page.waitForFunction(
        (field, text) => document.querySelector(`#specification [data-field="${field}"] > span`)?.textContent === text,
        { timeout: 20_000 },
        field,
        text,
      );
    /** The handle whose name begins so. @param {string} label */
    const handle = (label) => page.waitForSelector(`.handle[aria-label^="${label}"]`);

    await page.goto(pageAddress);
    await ready();
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
    assert.deepEqual(complaints, [], "the page has complained");
  } finally {
    await browser.close();
  }
});
