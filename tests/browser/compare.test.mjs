// Plans side by side: ticked by keys, drawn each with its own picture, and told apart in words.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { control, finds, settled, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const axe = await readFile(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

/** @param {Page} page @param {number} count */
async function drawn(page, count) {
  await page.waitForFunction((count) => document.querySelector("#compared")?.getAttribute("data-drawn") === String(count) && document.querySelectorAll("#compared canvas").length === count, count);
}

/** Everything that differs, list by list. @param {Page} page */
async function told(page) {
  return page.locator("#compared").evaluate((place) =>
    [...place.querySelectorAll("details")].map((details) => [...details.querySelectorAll("li")].map((row) => row.textContent)),
  );
}

/** How many colours a small drawing has. @param {Page} page @param {number} index */
async function colours(page, index) {
  return page.locator("#compared canvas").nth(index).evaluate((canvas) => {
    const { width, height } = /** @type {HTMLCanvasElement} */ (canvas);
    const data = /** @type {HTMLCanvasElement} */ (canvas).getContext("2d")?.getImageData(0, 0, width, height).data ?? new Uint8ClampedArray();
    return new Set(new Uint32Array(data.buffer)).size;
  });
}

for (const [name, options] of /** @type {const} */ ([
  ["on a desk", { viewport: { width: 1440, height: 900 } }],
  ["on a phone, in the dark", { viewport: { width: 390, height: 844 }, colorScheme: "dark" }],
])) {
  pageTest(`kept plans and the plan at work stand side by side, with their differences in words, ${name}`, async ({ page, screenshot }) => {
    await page.waitForSelector("html[data-ready]");
    await control(page, "piece.all.image").fill("16 x 20 in");
    await control(page, "piece.all.image").press("Enter");
    await type(page, "wall.width", "12'");
    await type(page, "group.gap", "3");
    await page.locator("#kept summary").press("Enter");
    const double = page.getByRole("button", { name: /^Duplicate/ });
    await double.first().press("Enter");
    await page.waitForFunction(() => document.querySelectorAll("#kept li").length === 2);
    await type(page, "piece.all.image", "20 x 24 in");
    await type(page, "wall.width", "13'");
    await page.waitForTimeout(600);
    const tick = page.getByRole("checkbox", { name: /^Side by side: .*, a copy$/ });
    assert.equal(await page.locator("#compared").isVisible(), false);
    // One alone stands beside the plan at work.
    await tick.press("Space");
    await drawn(page, 2);
    assert.ok(await tick.evaluate((box) => box === document.activeElement), "the focus stays");
    const rows = (await told(page))[0] ?? [];
    assert.deepEqual(await page.locator("#compared thead th").allTextContents(), ["Low water, three over the sofa", "Low water, three over the sofa, a copy"]);
    const lines = await page.locator("#compared tbody tr").allInnerTexts();
    assert.ok(lines.length <= 8, lines.join("\n"));
    assert.ok(lines.some((line) => /^Size\s+three of 20 × 24″.*three of 16 × 20″/s.test(line)), lines.join("\n"));
    assert.ok(lines.some((line) => /^Wall\s+13′ 0″.*12′ 0″/s.test(line)), lines.join("\n"));
    // 20 × 24 has half as much again of 16 × 20, and is sharp from further off.
    assert.match(lines.at(-1) ?? "", /^Advantages\s+a larger image\s.*lighter.*sharp from closer up/s);
    assert.ok(rows.includes("Width of the wall: 13′ 0″ became 12′ 0″."), rows.join("\n"));
    assert.ok(rows.includes("Image of each piece: 20 × 24″ became 16 × 20″."), rows.join("\n"));
    assert.ok(!rows.some((row) => row?.includes("gap between")), rows.join("\n"));
    for (const index of [0, 1]) assert.ok((await colours(page, index)) > 500, "it is drawn, with its pictures");
    await page.getByRole("img", { name: /^Low water, three over the sofa, a copy\. ./ }).waitFor();
    // A change of the plan at work is told as it is made.
    await type(page, "wall.width", "14'");
    await page.waitForFunction(() => document.querySelector("#compared")?.textContent?.includes("14′ 0″ became 12′ 0″"));
    await drawn(page, 2);
    // Three, and not more.
    for (const count of [3, 4]) {
      await double.last().press("Enter");
      await page.waitForFunction((count) => document.querySelectorAll("#kept li").length === count, count);
    }
    for (const count of [2, 3]) {
      await page.locator("#kept input:not(:checked):enabled").first().press("Space");
      await page.waitForFunction((count) => document.querySelectorAll("#kept input:checked").length === count, count);
      await settled(page);
    }
    await drawn(page, 3);
    await finds(page.locator("#kept input:disabled"), 1);
    assert.equal((await told(page)).length, 2);
    await settled(page);
    await page.locator("#kept").scrollIntoViewIfNeeded();
    await page.locator("#compared").evaluate((place) => place.scrollIntoView({ block: "center" }));
    await screenshot(`compare-${options.viewport.width}`);
    await page.evaluate(axe);
    const violations = await page.evaluate(async () => {
      const report = await /** @type {any} */ (window).axe.run({ include: [["#foot"], ["#beside"]] }, { rules: { "target-size": { enabled: true } } });
      return report.violations.map((/** @type {any} */ { id, nodes }) => `${id}: ${nodes[0]?.html}`);
    });
    assert.deepEqual(violations, []);
    for (const count of [2, 1, 0]) {
      await page.locator("#kept input:checked").first().press("Space");
      await page.waitForFunction((count) => document.querySelectorAll("#kept input:checked").length === count, count);
      await settled(page);
    }
    await page.locator("#compared").waitFor({ state: "hidden" });
  }, options);
}
