// The jobs of three people in Firefox, and what is hostile there.
//
// Firefox is found in FIREFOX or at Debian's place; where there is none, the test says so and is skipped.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { test } from "node:test";
import { pageAddress } from "./address.mjs";
import { answer, HOSTILE, NOTHING, planWith, taken } from "./hostile.mjs";
import { atDesk, JOBS } from "./three-people.mjs";

const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";
const skip = existsSync(firefox) ? false : `Firefox is not at ${firefox}; name it in FIREFOX`;

/** @param {string} name @param {(desk: import("./three-people.mjs").Desk) => Promise<void>} job */
function inFirefox(name, job) {
  test(`${name}, in Firefox`, { skip, timeout: 180_000 }, () => atDesk({ browser: "firefox", executablePath: firefox }, job));
}

for (const [name, job] of JOBS) inFirefox(name, job);

inFirefox("what is hostile: no text of a plan, a link or an answer is anything but text", async ({ page, called }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const other = await page.browser().newPage();
  const reads = (/** @type {string} */ selector, /** @type {string} */ words) =>
    page.waitForFunction((selector, words) => document.querySelector(selector)?.textContent?.includes(words), { timeout: 20_000 }, selector, words);
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
