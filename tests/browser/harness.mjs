// Opens the finished page in a headless browser, and fails a test on anything the page complains of: an error, a
// breach of its policy, or any request to anywhere.
//
// `cargo verify` names the page and the browser in the environment; run by hand with `node --test browser/`, the
// page last built and Debian's Chromium are used.

import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import path from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { pageAddress } from "./address.mjs";

/**
 * @typedef {import("playwright-core").Page} Page
 * @typedef {import("playwright-core").Browser} Browser
 * @typedef {import("playwright-core").BrowserContextOptions} BrowserContextOptions
 */

const folder = path.dirname(fileURLToPath(import.meta.url));
const flags = process.env.CHROMIUM_FLAGS ?? "--no-sandbox --disable-gpu";

/** @type {Promise<Browser> | undefined} */
let launched;

/** One browser for all tests of a file, started by the first. */
export function browser() {
  launched ??= chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: flags.split(" "),
  });
  return launched;
}

after(async () => {
  await (await launched)?.close();
});

/**
 * The page as a test has it.
 * @typedef {object} Session
 * @property {Page} page Playwright's page, with Overmantel loaded.
 * @property {() => string[]} takeComplaints Complaints so far, which are then forgotten: for tests that provoke one.
 * @property {(name: string) => Promise<void>} screenshot Writes `tests/output/<name>.png`.
 */

/**
 * How to open the page.
 * @typedef {BrowserContextOptions & {fragment?: string, depth?: "short" | "full"}} Options
 * `fragment` follows the `#` of the address; `depth` is how much of the specification was chosen the last time, `short` being
 * what a first visit has. Default: none; in full, with every paragraph open; a window of 1280 by 800 pixels.
 */

/** The paragraphs of the specification in full. */
const PARAGRAPHS = "wall fixtures picture fit made hanging site";

/**
 * Tells the specification in full, as whoever has chosen that before has it; run in the page, begun or not. (A script that runs
 * before the page's own must not touch what a page from a disk keeps: Chromium then finds nothing of it after a reload.)
 * @param {string} open
 */
function rememberFull(open) {
  try {
    localStorage.setItem("overmantel.depth", "full");
    localStorage.setItem("overmantel.open", open);
  } catch {
    // A page that may keep nothing is told by its button alone.
  }
  const full = document.querySelector('#depth input[value="full"]');
  if (document.body.dataset.ready !== undefined && full instanceof HTMLElement) full.click();
}

/**
 * A test with the page open, each in a browser profile of its own. It fails, too, when the page has complained.
 * @param {string} name
 * @param {(session: Session) => Promise<void>} body
 * @param {Options} [options]
 */
export function pageTest(name, body, options = {}) {
  test(name, async () => {
    const { fragment, depth = "full", ...contextOptions } = options;
    const context = await (await browser()).newContext({
      viewport: { width: 1280, height: 800 },
      ...contextOptions,
    });
    try {
      const page = await context.newPage();
      const complaints = listen(page);
      await page.goto(fragment ? `${pageAddress}#${fragment}` : pageAddress);
      if (depth === "full") await page.evaluate(rememberFull, PARAGRAPHS);
      await body({
        page,
        takeComplaints: () => complaints.splice(0),
        screenshot: (file) => screenshot(page, file),
      });
      assert.deepEqual(complaints, [], "the page has complained");
    } finally {
      await context.close();
    }
  });
}

/**
 * Collects whatever the page complains of, as it happens. The browser reports breaches of the policy in the console.
 * @param {Page} page
 * @param {string} [own] The page's own address; where it is empty, the first that is asked for.
 */
export function listen(page, own = pageAddress) {
  /** @type {string[]} */
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(`error: ${error.stack ?? error.message}`));
  page.on("console", (message) => {
    // Chromium's advice on reading a canvas often concerns the tests, which do; the page itself never reads its drawing.
    const isAdvice = message.text().startsWith("Canvas2D: Multiple readback operations");
    if (!isAdvice && (message.type() === "error" || message.type() === "warning")) complaints.push(`console: ${message.text()}`);
  });
  page.on("request", (request) => {
    const address = request.url();
    own ||= address;
    const isOwn = address.split("#")[0] === own;
    if (!isOwn && !/^(blob|data):/.test(address)) complaints.push(`request: ${address.slice(0, 200)}`);
  });
  page.on("websocket", (socket) => complaints.push(`request: ${socket.url()}`));
  return complaints;
}

/**
 * @param {Page} page
 * @param {string} name
 */
async function screenshot(page, name) {
  const output = path.join(folder, "../output");
  await mkdir(output, { recursive: true });
  await page.screenshot({ path: path.join(output, `${name}.png`) });
}
