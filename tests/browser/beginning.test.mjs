// The core comes in two parts: the wall is drawn with the first, and whatever that lacks is drawn and told all the same, only later.

import assert from "node:assert/strict";
import { test } from "node:test";
import { ready, reads, settled } from "./desk.mjs";
import { browser, pageTest } from "./harness.mjs";
import { builtFiles, host } from "./host.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** The drawing's bytes. @param {Page} page */
const drawn = (page) =>
  page.evaluate(async () => {
    const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById("canvas"));
    const { data, width, height } = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).getImageData(0, 0, canvas.width, canvas.height);
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", data));
    return `${width} × ${height}: ${[...hash].join(" ")}`;
  });

/** How often the core was started anew, and the wall drawn for the first time. @param {Page} page */
const begun = (page) => page.evaluate(() => performance.getEntriesByName("core-ready").length);
const hasMark = (/** @type {Page} */ page, /** @type {string} */ name) => page.evaluate((name) => performance.getEntriesByName(name).length > 0, name);

test("the wall is drawn while the rest of the core is still under way, and nothing else is done until it is here", async () => {
  const server = await host(await builtFiles());
  const context = await (await browser()).newContext({ viewport: { width: 1280, height: 800 } });
  try {
    const page = await context.newPage();
    /** @type {string[]} */
    const complaints = [];
    page.on("pageerror", (error) => complaints.push(String(error.stack)));
    let release = () => {};
    const released = new Promise((resolve) => (release = () => resolve(undefined)));
    await page.route(/\/rest\.[0-9a-f]+\.wasm$/, async (route) => {
      await released;
      await route.continue();
    });
    await page.goto(server.address, { waitUntil: "commit" });
    await page.waitForFunction(() => performance.getEntriesByName("pictures-drawn").length > 0);
    assert.equal(await hasMark(page, "core-whole"), false);
    const early = await drawn(page);
    assert.equal(await page.locator("#specification").textContent().then((text) => text?.includes("Low water")), false, "nothing is told yet");
    // What can be done to the page by now reaches no part of the core that is not here.
    await page.setViewportSize({ width: 1200, height: 800 });
    await page.keyboard.press("Control+z");
    await page.locator("#canvas").click({ position: { x: 300, y: 200 }, force: true });
    await page.locator("#papers > summary").click({ force: true, timeout: 1000 }).catch(() => undefined);
    await page.setViewportSize({ width: 1280, height: 800 });
    release();
    await ready(page);
    await settled(page);
    assert.equal(await drawn(page), early, "with all of the core it is the same drawing");
    assert.equal(await begun(page), 1, "the first part had all that this takes");
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
    server.close();
  }
});

pageTest("a start that takes more than the first part has begins again, and says and draws the same", async ({ page }) => {
  await ready(page);
  assert.equal(await begun(page), 1);
  // What is kept can't be read: saying why takes what no other start does.
  await page.evaluate(() => {
    for (const place of [localStorage, sessionStorage]) place.setItem("overmantel.plan", '{"overmantel": 1, "units": "inches", "wall": {"size": "12 cubits"}}');
    addEventListener("pagehide", (event) => event.stopImmediatePropagation(), { capture: true });
  });
  await page.reload();
  await ready(page);
  assert.ok((await begun(page)) > 1, "it took both parts");
  await reads(page.locator("#status"), /The plan kept from last time can't be opened: .*"title" is missing/);
  const again = await drawn(page);
  // The very same plan, which is kept now, begins with the first part alone.
  await page.evaluate(() => sessionStorage.clear());
  await page.reload();
  await ready(page);
  await settled(page);
  assert.equal(await drawn(page), again);
});
