// What goes wrong at a desk: things pushed off the wall, pictures that are not there, plans from elsewhere, little room.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { choose, control, png, said, settled, specification, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

const axe = await readFile(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const plans = path.join(path.dirname(fileURLToPath(import.meta.url)), "../../demo-data/plans");

/** @param {import("playwright-core").Page} page */
const status = async (page) => (await page.locator("#status").textContent()) ?? "";

pageTest("pieces far beyond the wall break nothing, and it is said how far they reach", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  for (const [field, text] of /** @type {const} */ ([["group.gap", "160"], ["piece.all.image", "300 x 300"], ["piece.all.mat.border", "72"], ["wall.width", "1'"], ["wall.height", "100'"]])) {
    await type(page, field, text);
  }
  assert.match(await specification(page), /Outside 444⁷⁄₈ × 444⁷⁄₈″/, "300 - 1/4 + 2 × 72 + 1/8 + 1 = 444 7/8");
  const notes = (await page.locator("#specification .note").allTextContents()).join("\n");
  // 3 × 444 7/8 + 2 × 160 = 1654 5/8 in on a wall of 12 in: (1654 5/8 - 12) / 2 = 821 5/16 in = 68' 5 5/16" on each side.
  assert.match(notes, /The group extends 68′ 5⁵⁄₁₆″ beyond the left corner of the wall/);
});

pageTest("dragging stops at the corners of the wall and at the ceiling", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const handle = page.locator('.handle[aria-label^="The pieces together"]');
  const box = await handle.boundingBox();
  assert.ok(box);
  await page.mouse.move(box.x + 40, box.y + 40);
  await page.mouse.down();
  await page.mouse.move(box.x - 900, box.y - 900, { steps: 6 });
  await page.mouse.up();
  await settled(page);
  const words = (await page.locator("#words").textContent()) ?? "";
  // The group is 69 3/8 in wide: within 1/8 in of the corner its middle is 34 11/16 in from it.
  assert.match(words, /Piece 1: 21 1\/8 × 25 1\/8" outside, its left edge (0|1\/16|1\/8)" from the left corner/);
});

pageTest("a saved plan comes back, and so do its pictures when they are chosen again", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  await choose(page, "pieces.count", "one");
  await page.setInputFiles("#pictures", { name: "own_flats.png", mimeType: "image/png", buffer: png(500, 400, [10, 90, 150]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("own flats"));
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the plan as a file" }).click();
  const saved = await readFile(await (await download).path(), "utf8");
  // Another machine: nothing is kept there.
  await page.evaluate(() => {
    localStorage.clear();
    indexedDB.deleteDatabase("overmantel");
  });
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await page.setInputFiles("#plan", { name: "flats.json", mimeType: "application/json", buffer: Buffer.from(saved) });
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("own_flats.png"));
  assert.equal(await said(page, "piece.0.picture"), "own flats");
  await page.setInputFiles("#pictures", { name: "own_flats.png", mimeType: "image/png", buffer: png(500, 400, [10, 90, 150]) });
  await page.waitForFunction(() => document.querySelector("#status")?.textContent === "One picture hangs.");
  assert.equal(await said(page, "piece.0.picture"), "own flats", "it is the same picture, not a second one");
  assert.deepEqual(takeComplaints(), []);
});

pageTest("what is no plan is refused in words, and the plan stays", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const before = await specification(page);
  const good = JSON.parse(await readFile(path.join(plans, "harbour-pair.json"), "utf8"));
  const rows = /** @type {[string, RegExp][]} */ ([
    ["", /is empty: there is no plan in it/],
    ["dear painter", /stops short or is not JSON/],
    [JSON.stringify({ ...good, overmantel: 9 }), /has version 9, and this program reads version 1/],
    [JSON.stringify({ ...good, colour: "red" }), /"colour" is not a known name here/],
    [JSON.stringify({ ...good, pieces: [] }), /0 pieces were given; a plan takes 1 to 3/],
    [JSON.stringify({ ...good, title: "<img src=x onerror=alert(1)>".repeat(9) }), /write at most 120/],
  ]);
  for (const [text, expected] of rows) {
    await page.setInputFiles("#plan", { name: "x.json", mimeType: "application/json", buffer: Buffer.from(text) });
    await page.waitForFunction(() => document.querySelector("#status")?.textContent?.startsWith("x.json"));
    assert.match(await status(page), expected);
    await page.evaluate(() => document.querySelectorAll("#status span").forEach((part) => part.replaceChildren()));
  }
  assert.equal(await specification(page), before);
});

pageTest("markup in names is shown as it is written", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const plan = JSON.parse(await readFile(path.join(plans, "low-water.json"), "utf8"));
  plan.title = "<b>bold</b> & <img src=x onerror=alert(1)>";
  await page.setInputFiles("#plan", { name: "x.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(plan)) });
  await page.waitForFunction(() => document.title.startsWith("<b>bold</b>"));
  assert.equal(await page.locator("#title b, #title img").count(), 0);
});

pageTest("a plan that broke the page is not tried a second time", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  await type(page, "wall.width", "13'");
  // As if the page had died while it drew what was kept.
  await page.evaluate(() => {
    localStorage.setItem("overmantel.trial", "");
    localStorage.setItem("overmantel.plan", "{ broken");
  });
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  assert.equal(await said(page, "wall.width"), "13′ 0″");
  assert.match(await status(page), /could not be drawn, so this is the one before it/);
  assert.deepEqual(takeComplaints(), []);
});

pageTest("an arrow key opens the list of what can stand there, and adds nothing", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await control(page, "fixtures.add").focus();
  await page.keyboard.press("ArrowDown");
  await settled(page);
  assert.equal(await page.locator('#specification [data-field="fixture.2.kind"]').count(), 0);
});

pageTest(
  "the drawing stays in sight while the last sentence is changed",
  async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    await control(page, "fixing.inset").scrollIntoViewIfNeeded();
    await control(page, "fixing.inset").focus();
    const box = await page.locator(".handle").first().boundingBox();
    assert.ok(box && box.y > 0 && box.y + box.height < 600, JSON.stringify(box));
  },
  { viewport: { width: 1440, height: 600 } },
);

for (const [name, options] of /** @type {[string, import("playwright-core").BrowserContextOptions][]} */ ([
  ["light and wide", { viewport: { width: 1440, height: 900 }, colorScheme: "light" }],
  ["dark and wide", { viewport: { width: 1440, height: 900 }, colorScheme: "dark" }],
  ["light and narrow", { viewport: { width: 390, height: 844 }, colorScheme: "light" }],
  ["dark and narrow", { viewport: { width: 390, height: 844 }, colorScheme: "dark" }],
  ["in forced colours, as narrow as can be", { viewport: { width: 320, height: 640 }, forcedColors: "active" }],
])) {
  pageTest(
    `axe-core finds nothing, ${name}`,
    async ({ page }) => {
      await page.waitForSelector("html[data-ready]");
      await page.evaluate(axe);
      for (const list of ["#suggestions", "#fits", "#cuts", "#prices", "#kept", "#send", "#propose", "#studio", "#papers"]) await page.locator(`${list} > summary`).click();
      await page.getByRole("button", { name: "Open the example" }).click();
      await page.getByLabel("Address of a published page of Overmantel").fill("https://example.org/overmantel.html");
      await page.getByRole("radio", { name: "drag a picture in its opening" }).check();
      await page.getByRole("button", { name: "zoom in" }).click();
      for (const plan of ["low-water.json", "harbour-pair.json", "three-along-the-stairs.json", "evening-by-the-lamp.json"]) {
        await page.setInputFiles("#plan", path.join(plans, plan));
        await settled(page);
        await control(page, "wall.width").fill("wide");
        await control(page, "wall.width").press("Enter");
        // With a board of small drawings open, too.
        await control(page, "group.arrangement").press("Enter");
        const found = await page.evaluate(async () => {
          /** @type {{violations: {id: string, nodes: {html: string}[]}[]}} */
          const report = await /** @type {any} */ (window).axe.run({ rules: { "target-size": { enabled: true } } });
          return report.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
        });
        assert.deepEqual(found, [], plan);
        await page.keyboard.press("Escape");
        await control(page, "wall.width").press("Escape");
      }
    },
    options,
  );
}

pageTest(
  "at 320 pixels, and with letters twice as large, nothing lies beyond the page",
  async ({ page, screenshot }) => {
    await page.waitForSelector("html[data-ready]");
    for (const details of await page.locator("main details > summary").all()) {
      if (await details.evaluate((one) => !(/** @type {HTMLDetailsElement} */ (one.parentElement).open))) await details.click();
    }
    await settled(page);
    const beyond = () =>
      page.evaluate(() => {
        const { scrollWidth, clientWidth } = document.documentElement;
        const wide = [...document.querySelectorAll("main *")].filter((one) => !one.closest(".list, .unseen, #overlay") && one.getBoundingClientRect().right > clientWidth + 1);
        return scrollWidth > clientWidth ? wide.slice(0, 5).map((one) => `${one.tagName} ${one.id} ${one.className}: ${one.textContent?.slice(0, 40)}`) : [];
      });
    assert.deepEqual(await beyond(), []);
    await screenshot("narrowest");
    await page.setViewportSize({ width: 640, height: 800 });
    await page.evaluate(() => document.documentElement.style.setProperty("font-size", "200%"));
    await settled(page);
    assert.deepEqual(await beyond(), [], "with letters twice as large");
    await screenshot("twice-as-large");
  },
  { viewport: { width: 320, height: 640 } },
);
