// The page as a folder on a web host, in Firefox: what it asks for, an empty console, the drawing of the one file, and a second visit
// without its host. (The script is that of the one file, which does its jobs in another test.)
//
// Firefox is found in FIREFOX or at Debian's place; where there is none, the test says so and is skipped.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { test } from "node:test";
import { launch } from "puppeteer-core";
import { pageAddress } from "./address.mjs";
import { builtFiles, host } from "./host.mjs";

const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";
const skip = existsSync(firefox) ? false : `Firefox is not at ${firefox}; name it in FIREFOX`;
const files = await builtFiles();
const isOurs = (/** @type {string} */ asked) => files.has(asked.slice(1) || "index.html");

test("on a host that does not know wasm: an empty console, the drawing of the one file, and a second visit without the host, in Firefox", { skip, timeout: 180_000 }, async () => {
  const server = await host(files, { media: { wasm: "application/octet-stream" } });
  const browser = await launch({ headless: true, browser: "firefox", executablePath: firefox });
  try {
    /** The drawing's bytes. A tab draws when it is in front. @param {import("puppeteer-core").Page} tab */
    const hash = (tab) =>
      tab.evaluate(async () => {
        for (let frames = 0; frames < 3; frames += 1) await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
        const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById("canvas"));
        const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? new Uint8ClampedArray();
        return new Uint8Array(await crypto.subtle.digest("SHA-256", data)).join(" ");
      });
    /** @param {import("puppeteer-core").Page} tab @param {string} address */
    const open = async (tab, address) => {
      await tab.setViewport({ width: 1280, height: 800 });
      await tab.goto(address);
      await tab.waitForSelector("html[data-ready]", { timeout: 60_000 });
      return hash(tab);
    };
    const before = await open(await browser.newPage(), pageAddress);

    const tab = await browser.newPage();
    const [said, elsewhere] = [/** @type {string[]} */ ([]), /** @type {string[]} */ ([])];
    tab.on("console", (message) => said.push(message.text()));
    tab.on("pageerror", (error) => said.push(String(error)));
    tab.on("request", (request) => {
      if (!request.url().startsWith(server.address) && !/^(blob|data):/.test(request.url())) elsewhere.push(request.url());
    });
    assert.equal(await open(tab, server.address), before);
    await tab.waitForFunction(() => navigator.serviceWorker.controller !== null);
    assert.deepEqual(server.takeAsked().filter((name) => !isOurs(name)), []);
    server.goAway(true);
    await tab.reload();
    await tab.waitForSelector("html[data-ready]", { timeout: 60_000 });
    assert.equal(await hash(tab), before);
    assert.deepEqual([said, elsewhere, server.takeAsked()], [[], [], []]);
  } finally {
    await browser.close();
    server.close();
  }
});
