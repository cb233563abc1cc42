// The jobs of three people in Firefox, and what is hostile there.
//
// Firefox is found in FIREFOX or at Debian's place; where there is none, the test says so and is skipped.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
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

inFirefox("a proposal: three options are made, one is changed and kept, accepted, and the answer opened", async ({ page, open, press, called, holds, reads }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  /** What a press hands out: read where the page makes it, since Firefox's driver has no downloads. @param {import("puppeteer-core").Page} of @param {string} button @param {string} name */
  const saved = async (of, button, name) => {
    await of.evaluate(() => {
      /** @type {Blob[]} */
      const files = [];
      Object.assign(window, { files });
      const address = URL.createObjectURL.bind(URL);
      URL.createObjectURL = (/** @type {Blob} */ blob) => {
        files.push(blob);
        return address(blob);
      };
      HTMLAnchorElement.prototype.click = () => undefined;
    });
    await of.locator(`::-p-aria([name="${button}"][role="button"])`).click();
    await of.waitForFunction(() => Object(window).files.length > 0, { timeout: 30_000 });
    const text = await of.evaluate(() => /** @type {Promise<string>} */ (Object(window).files[0].text()));
    const file = path.join(folder, name);
    await writeFile(file, text);
    return file;
  };
  const patience = { timeout: 30_000 };
  try {
    await open("Prices");
    await press("Open the example");
    await open("Make a proposal");
    for (const [count, material] of ["", "canvas", "aluminium"].entries()) {
      if (material !== "") await page.select('#specification [data-field="piece.all.material"] select', material);
      await press("Add this plan as an option");
      await page.waitForFunction((count) => document.querySelectorAll("#propose .offers > li").length === count + 1, patience, count);
    }
    await called("From", "textbox").fill("The painter");
    await page.select("#propose > label select", "needed");
    await page.waitForFunction(() => /your prices in \d+ rows/.test(document.querySelector("#propose .along")?.textContent ?? ""), patience);
    const proposal = await saved(page, "Save the proposal as a file", "proposal.html");

    // What lies behind another tab is drawn seldom: each is in front while it is worked at.
    const client = await page.browser().newPage();
    await client.goto(pathToFileURL(proposal).href);
    await client.waitForSelector("html[data-ready]", { timeout: 60_000 });
    const says = (/** @type {string} */ pattern) => client.waitForFunction((pattern) => new RegExp(pattern, "s").test(document.querySelector("#proposed")?.textContent ?? ""), patience, pattern);
    await client.waitForSelector("#offered .options[data-drawn='flat']", patience);
    assert.equal(await client.$$eval("#offered .options label", (cards) => cards.length), 3);
    await client.click("#offered .options label:nth-of-type(2) input");
    await says("^Canvas.*Image: 16 × 20");
    await client.locator('::-p-aria([name="Change it"][role="button"])').click();
    const size = await client.waitForSelector('#specification [data-field="piece.all.image"] input');
    await size?.focus();
    await client.keyboard.down("Control");
    await client.keyboard.press("a");
    await client.keyboard.up("Control");
    await client.keyboard.type("20 x 24 in");
    await client.keyboard.press("Enter");
    await client.locator('::-p-aria([name="Back to the proposal"][role="button"])').click();
    await says("What you changed.*became three of 20 × 24.*As changed, it costs USD [0-9.]+; as it was sent, USD [0-9.]+");
    await client.click('input[name="verdict"][value="accepted"]');
    await client.locator('::-p-aria([name="Your name"][role="textbox"])').fill("Anna");
    await client.reload();
    await client.waitForSelector("html[data-ready]", { timeout: 60_000 });
    await says("^Canvas.*Image: 20 × 24");
    const kept = await client.evaluate(() => [...document.querySelectorAll("#offered input:checked, #proposed .verdict input:checked")].map((one) => (one instanceof HTMLInputElement ? one.value : "")));
    assert.deepEqual(kept, ["1", "accepted"]);
    const answer = await saved(client, "Save my answer as a file", "answer.txt");
    await client.close();
    await page.bringToFront();

    await (await page.$("input#plan"))?.uploadFile(answer);
    await page.waitForFunction(() => /Answers to .*Anna.*I'd like this one: Canvas.*became three of 20 × 24.*Price: USD/s.test(document.querySelector("#answer")?.textContent ?? ""), patience);
    await press("Take it up and print its papers");
    await reads("is the plan you have open");
    await page.waitForSelector("#papers[open] .pages canvas", patience);
    await holds("image of each piece", '20 × 24"');
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

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
