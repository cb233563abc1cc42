// The states of a proposal with options, at the maker's and at the client's: nothing that axe-core finds, targets for fingers, the focus never
// lost, headings in order; by day and by night, on a phone and at a desk. And what is hostile in each of its fields.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { choose, inFull, png, reads, ready, settled, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */
/** @typedef {import("playwright-core").Locator} Locator */

const axe = await readFile(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

/**
 * What is wrong with the page as it is now: what axe-core finds; controls that are lower than fingers or a pointer need (WCAG 2.2, 2.5.5:
 * 44 CSS pixels; 2.5.8: 24); headings that leave a level out.
 * @param {Page} page
 * @param {string[]} parts
 * @param {number} least
 */
async function wrong(page, parts, least) {
  await page.evaluate(axe);
  return page.evaluate(
    async ([parts, least]) => {
      const report = await /** @type {any} */ (window).axe.run({ rules: { "target-size": { enabled: true } } });
      const found = report.violations.map((/** @type {any} */ { id, nodes }) => `${id}: ${nodes.map((/** @type {any} */ node) => node.html).join(" | ")}`);
      const shown = (/** @type {Element} */ one) => one.checkVisibility({ visibilityProperty: true });
      const low = parts
        .flatMap((part) => [...document.querySelectorAll(`${part} :is(button, a[href], input, select, textarea, summary)`)])
        .filter(shown)
        // A label takes the finger for its control.
        .map((one) => (one instanceof HTMLInputElement && ["radio", "checkbox"].includes(one.type) ? (one.closest("label") ?? one) : one))
        .map((one) => ({ what: one.outerHTML.slice(0, 90), height: one.getBoundingClientRect().height }))
        .filter(({ height }) => height < least - 0.5)
        .map(({ what, height }) => `${height} high: ${what}`);
      const levels = [...document.querySelectorAll("h1, h2, h3, h4")].filter(shown).map((heading) => Number(heading.tagName.slice(1)));
      const skipped = levels.flatMap((level, at) => (at > 0 && level > (levels[at - 1] ?? 0) + 1 ? [`heading ${level} after ${levels[at - 1]}`] : []));
      return [...found, ...low, ...skipped];
    },
    /** @type {[string[], number]} */ ([parts, least]),
  );
}

/**
 * Presses by keys, and holds the focus to the page.
 * @param {Page} page
 * @param {Locator} button
 * @param {RegExp} [expected] What has the focus then.
 */
async function presses(page, button, expected = /./) {
  await button.focus();
  await button.press("Enter");
  await settled(page);
  await page.waitForTimeout(250);
  const focused = await page.evaluate(() => {
    const one = document.activeElement;
    return one === null || one === document.body ? "" : `${one.tagName} ${one.getAttribute("aria-label") ?? one.textContent ?? ""}`;
  });
  assert.match(focused, expected, `after ${await button.count() > 0 ? "it" : "it, which is gone"}: ${focused || "the body"}`);
}

for (const [name, options, least] of /** @type {const} */ ([
  ["on a desk, by day", { viewport: { width: 1440, height: 900 }, colorScheme: "light" }, 24],
  ["on a desk, by night", { viewport: { width: 1440, height: 900 }, colorScheme: "dark" }, 24],
  ["on a phone, by day", { viewport: { width: 390, height: 844 }, colorScheme: "light", hasTouch: true, isMobile: true }, 44],
  ["on a phone, by night", { viewport: { width: 390, height: 844 }, colorScheme: "dark", hasTouch: true, isMobile: true }, 44],
])) {
  pageTest(
    `a proposal with options is for everyone, ${name}`,
    async ({ page, screenshot }) => {
      const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
      const saved = async (/** @type {Page} */ from, /** @type {Locator} */ button) => {
        const [download] = await Promise.all([from.waitForEvent("download"), button.press("Enter")]);
        const file = path.join(folder, `${Date.now()}-${download.suggestedFilename()}`);
        await download.saveAs(file);
        return file;
      };
      try {
        await ready(page);
        await page.locator("#prices > summary").press("Enter");
        await page.getByRole("button", { name: "Open the example" }).press("Enter");
        await page.locator("#propose > summary").press("Enter");
        const form = page.locator("#propose");
        const add = form.getByRole("button", { name: "Add this plan as an option" });
        await presses(page, add, /^INPUT Name of option 1/);
        for (const material of ["canvas", "aluminium"]) {
          await choose(page, "piece.all.material", material);
          await presses(page, add, /^INPUT Name of option/);
        }
        await form.locator(".offers summary").first().press("Enter");
        await presses(page, form.getByRole("button", { name: "Earlier: option 2" }), /^BUTTON Earlier: option 1/);
        await form.getByLabel("A picture of your mark").setInputFiles({ name: "mark.png", mimeType: "image/png", buffer: png(900, 600, [40, 60, 80]) });
        await form.locator("img.emblem").waitFor();
        await form.getByLabel("Number", { exact: true }).fill("2026-014");
        await form.getByLabel("From", { exact: true }).fill("The painter");
        await form.getByLabel("If your client changes something").selectOption("needed");
        await form.locator(".along li").first().waitFor();
        assert.deepEqual(await wrong(page, ["#propose"], least), [], "the form");
        await screenshot(`offers-form-${least}-${options.colorScheme}`);
        const file = await saved(page, form.getByRole("button", { name: "Save the proposal as a file" }));
        await page.locator("#sent > summary").press("Enter");
        const list = page.locator("#sent");
        await list.getByRole("button", { name: /^Delete/ }).waitFor();
        assert.deepEqual(await wrong(page, ["#sent"], least), [], "the list");
        await presses(page, list.getByRole("button", { name: /^Delete/ }), /^BUTTON Undo: bring back 2026-014/);
        assert.deepEqual(await wrong(page, ["#sent"], least), [], "the list without it");
        await presses(page, list.getByRole("button", { name: /^Undo/ }), /^BUTTON Delete: 2026-014/);
        await presses(page, list.getByRole("button", { name: /^Send it again/ }), /^INPUT Name of option 1/);
        await presses(page, form.getByRole("button", { name: "Make it a new proposal" }), /^INPUT/);
        await presses(page, form.getByRole("button", { name: "Without a mark" }));
        for (const left of [3, 2, 1]) await presses(page, form.getByRole("button", { name: `Remove: option ${left}` }));

        const context = await page.context().browser()?.newContext({ acceptDownloads: true, ...options });
        const client = await context?.newPage();
        assert.ok(context && client);
        await client.goto(pathToFileURL(file).href);
        await ready(client);
        await client.waitForSelector("#offered .options[data-drawn='flat']");
        assert.deepEqual(await wrong(client, ["#letter", "#offered", "#proposed", "#tools"], least), [], "the proposal");
        await client.locator("#offered summary").press("Enter");
        await client.locator("#proposed details summary").first().press("Enter");
        assert.deepEqual(await wrong(client, ["#letter", "#offered", "#proposed", "#tools"], least), [], "the proposal, unfolded");
        // By arrows from one option to the next, round to the first.
        const shown = () => client.evaluate(() => (document.activeElement instanceof HTMLInputElement && document.activeElement.name === "option" && document.activeElement.checked ? document.activeElement.value : "elsewhere"));
        await client.locator("#offered .options input").first().focus();
        for (const expected of ["1", "2", "0", "1"]) {
          await client.keyboard.press("ArrowRight");
          await settled(client);
          await client.waitForTimeout(250);
          assert.equal(await shown(), expected);
        }
        await presses(client, client.getByRole("button", { name: "Change it" }), /^INPUT/);
        await inFull(client);
        await type(client, "wall.width", "15'");
        await presses(client, client.getByRole("button", { name: "Back to the proposal" }), /^BUTTON Change it/);
        assert.deepEqual(await wrong(client, ["#letter", "#offered", "#proposed", "#tools"], least), [], "the proposal, changed");
        await client.screenshot({ path: `output/offers-client-${least}-${options.colorScheme}.png`, fullPage: true });
        await presses(client, client.getByRole("button", { name: "As it was sent" }), /^BUTTON Change it/);
        await client.getByLabel("I’d like this one").press("Space");
        await client.getByLabel("Your name").fill("Anna");
        await settled(client);
        assert.deepEqual(await wrong(client, ["#proposed"], least), [], "the answer");
        const answer = await saved(client, client.getByRole("button", { name: "Save my answer as a file" }));
        await context.close();

        await page.setInputFiles("#plan", answer);
        await reads(page.locator("#answer"), /Answers to .*\(2026-014\).*Anna/);
        await settled(page);
        assert.deepEqual(await wrong(page, ["#answer"], least), [], "the answers");
        await page.screenshot({ path: `output/offers-answers-${least}-${options.colorScheme}.png`, fullPage: true });
        await presses(page, page.locator("#answer").getByRole("button", { name: "Done" }));
      } finally {
        await rm(folder, { recursive: true });
      }
    },
    { ...options, depth: "short" },
  );
}
