// The page from a web server, in Chromium and in Firefox: one request, for the page itself, and an empty console. Its icon is inside it.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { launch } from "puppeteer-core";
import { pageAddress } from "./address.mjs";

const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";
const browsers = /** @type {const} */ ([
  ["Chromium", { browser: "chrome", executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: (process.env.CHROMIUM_FLAGS ?? "--no-sandbox --disable-gpu").split(" ") }],
  ["Firefox", { browser: "firefox", executablePath: firefox, args: [] }],
]);

for (const [name, options] of browsers) {
  // `cargo verify` has found none, and says so in a step of its own.
  if (options.executablePath === "") continue;
  const skip = existsSync(options.executablePath) ? false : `${name} is not at ${options.executablePath}`;
  test(`over http the page asks for nothing but itself, and the console is empty, in ${name}`, { skip, timeout: 120_000 }, async () => {
    const page = await readFile(fileURLToPath(pageAddress));
    /** @type {string[]} */
    const asked = [];
    const server = createServer((request, response) => {
      asked.push(request.url ?? "");
      const isPage = request.url === "/";
      response.writeHead(isPage ? 200 : 404, { "content-type": isPage ? "text/html; charset=utf-8" : "text/plain" });
      response.end(isPage ? page : "not here");
    });
    await new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(undefined)));
    const address = server.address();
    const port = typeof address === "object" && address !== null ? address.port : 0;
    const browser = await launch({ headless: true, ...options, args: [...options.args] });
    try {
      const tab = await browser.newPage();
      /** @type {string[]} */
      const said = [];
      tab.on("console", (message) => said.push(message.text()));
      tab.on("pageerror", (error) => said.push(String(error)));
      await tab.goto(`http://127.0.0.1:${port}/`);
      await tab.waitForSelector("html[data-ready]", { timeout: 60_000 });
      // What a browser asks for on its own comes a moment later.
      await new Promise((resolve) => setTimeout(resolve, 1000));
      assert.deepEqual(said, []);
      assert.deepEqual(asked, ["/"]);
      const icon = await tab.$eval('link[rel="icon"]', (link) => link.getAttribute("href") ?? "");
      assert.match(icon, /^data:image\/svg\+xml,/);
      const description = await tab.$eval('meta[name="description"]', (meta) => meta.getAttribute("content") ?? "");
      assert.ok(description.length > 50 && description.length < 160, description);
    } finally {
      await browser.close();
      server.close();
    }
  });
}
