// The specification in short: how much it asks of a buyer, on which windows it fits, and her whole job on a phone, counted in actions.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { choose, finds, inFull, png, reads, ready, settled, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const axe = await readFile(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, depth: /** @type {const} */ ("short") };

/** What is to be seen of the specification: its fields and its words. @param {Page} page */
async function asked(page) {
  return page.locator("#specification").evaluate((place) => {
    const fields = [...place.querySelectorAll(".field")].filter((field) => field.checkVisibility());
    const copy = /** @type {HTMLElement} */ (place.cloneNode(true));
    copy.querySelectorAll("select, input, .aside, details > :not(summary), .note, legend").forEach((one) => one.remove());
    return { fields: fields.length, words: (copy.textContent ?? "").trim().split(/\s+/).length };
  });
}

/** Everything that can be pressed and is to be seen, with its size. @param {Page} page @param {string} within */
async function targets(page, within) {
  return page.locator(within).evaluate((place) =>
    [...place.querySelectorAll("button, a[href], input, select, textarea, summary")]
      .filter((one) => one.checkVisibility({ visibilityProperty: true }))
      // A label takes the finger for its control.
      .map((one) => (one.matches("fieldset input") ? (one.closest("label") ?? one) : one))
      .map((one) => ({ what: one.outerHTML.slice(0, 90), height: one.getBoundingClientRect().height }))
      .filter(({ height }) => height < 43.5),
  );
}

pageTest(
  "a first visit is told in short: at most 14 fields and 120 words, in two and a half screens, with targets of 44 pixels",
  async ({ page, screenshot }) => {
    await ready(page);
    assert.ok(await page.locator('#depth input[value="short"]').isChecked());
    const { fields, words } = await asked(page);
    assert.ok(fields >= 8 && fields <= 14, `${fields} fields`);
    assert.ok(words <= 120, `${words} words`);
    const height = await page.evaluate(() => document.documentElement.scrollHeight);
    assert.ok(height <= 2.5 * 844, `${height} pixels`);
    assert.deepEqual(await targets(page, "header"), []);
    assert.deepEqual(await targets(page, "main"), []);
    await screenshot("short-phone");
    // In full there is all the rest, and what was chosen is remembered.
    await inFull(page);
    const full = await asked(page);
    assert.ok(full.fields > 50, `${full.fields} fields in full`);
    await page.reload();
    await ready(page);
    assert.ok(await page.locator('#depth input[value="full"]').isChecked(), "what was chosen last is remembered");
  },
  PHONE,
);

pageTest(
  "both depths are the same plan: a change in one shows in the other",
  async ({ page }) => {
    await ready(page);
    await page.locator('#short [data-field="wall.size"] input').fill("4 x 2.5 m");
    await page.keyboard.press("Enter");
    await page.locator('#short [data-field="piece.all.look.mat"] select').selectOption("none");
    await settled(page);
    await inFull(page);
    await reads(page.locator('#full [data-field="wall.width"] > span'), "13′ 1¹⁄₂″");
    await reads(page.locator('#full [data-field="piece.all.mat"] > span'), "without");
    await page.locator('#full [data-field="wall.width"] input').fill("12'");
    await page.keyboard.press("Enter");
    await settled(page);
    await page.locator('#depth input[value="short"]').check({ force: true });
    await reads(page.locator('#short [data-field="wall.size"] > span'), /^12′ 0″ × 8′ 2/);
  },
  { depth: "short" },
);

for (const [name, viewport] of /** @type {const} */ ([
  ["a phone held across", { width: 844, height: 390 }],
  ["a window at 200 %", { width: 720, height: 450 }],
])) {
  pageTest(
    `${name} has drawing and fields beside each other, the wall at least 60 % of the height, and no figures over each other`,
    async ({ page, screenshot }) => {
      await ready(page);
      const found = await page.evaluate(() => {
        const box = (/** @type {string} */ selector) => Object(document.querySelector(selector)).getBoundingClientRect();
        const figures = [...document.querySelectorAll("#overlay .mark")].map((mark) => mark.getBoundingClientRect());
        const over = figures.flatMap((one, at) => figures.slice(at + 1).filter((other) => one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom));
        return { stage: box("#stage"), short: box("#short"), over: over.length, figures: figures.length };
      });
      assert.ok(found.short.left >= found.stage.right, "beside each other");
      assert.ok(found.short.top < viewport.height / 2, "and both in the window");
      assert.ok(found.stage.bottom <= viewport.height, "the whole drawing is in the window");
      assert.ok(found.figures >= 8 && found.over === 0, `${found.over} of ${found.figures} figures lie over others`);
      // The wall's own height, between the ticks of its dimension: its lane is the one at the left.
      const wall = await page.evaluate(() => {
        const canvas = /** @type {HTMLCanvasElement} */ (document.querySelector("#canvas"));
        const { data } = Object(canvas.getContext("2d")).getImageData(0, 0, canvas.width, canvas.height);
        // The wall's paint at its upper right, where nothing hangs: the column that has most of it.
        const paint = [213, 220, 214];
        let most = 0;
        for (let x = Math.floor(canvas.width * 0.6); x < canvas.width; x += 1) {
          let first = -1;
          let last = -1;
          for (let y = 0; y < canvas.height; y += 1) {
            const at = (y * canvas.width + x) * 4;
            if (paint.every((code, channel) => Math.abs(code - (data[at + channel] ?? 0)) < 14)) {
              if (first < 0) first = y;
              last = y;
            }
          }
          most = Math.max(most, last - first);
        }
        return most / devicePixelRatio;
      });
      assert.ok(wall >= 0.6 * viewport.height * 0.94, `the wall above its skirting is ${wall} pixels high`);
      await screenshot(`short-${viewport.width}`);
    },
    { viewport, depth: "short" },
  );
}

pageTest(
  "a swipe that begins on the pieces scrolls the page; once pressed they move, and a press elsewhere lets go",
  async ({ page }) => {
    await ready(page);
    const handle = page.locator(".handle.group");
    const box = await handle.boundingBox();
    assert.ok(box);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const touch = await page.context().newCDPSession(page);
    const swipe = async (/** @type {number} */ right, /** @type {number} */ down) => {
      await touch.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [{ x, y }] });
      for (let step = 1; step <= 8; step += 1) await touch.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: [{ x: x + (right * step) / 8, y: y + (down * step) / 8 }] });
      await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
      await settled(page);
    };
    const label = await handle.getAttribute("aria-label");
    await swipe(0, -120);
    assert.ok((await page.evaluate(() => scrollY)) > 50, "it scrolls");
    assert.equal(await handle.getAttribute("aria-label"), label, "and nothing is moved");
    // Until the page has come to rest.
    await page.waitForTimeout(800);
    await page.evaluate(() => scrollTo(0, 0));
    await settled(page);
    const shown = () => page.locator(".corner").evaluateAll((corners) => corners.filter((one) => getComputedStyle(one).opacity === "1").length);
    assert.equal(await shown(), 0);
    await page.touchscreen.tap(x, y);
    assert.equal(await shown(), 4, "the corners of one piece");
    await swipe(-30, 0);
    assert.notEqual(await handle.getAttribute("aria-label"), label, "pressed, they move");
    assert.equal(await page.evaluate(() => scrollY), 0);
    // Scrolled to before: a touch finds what the screen shows, which follows the page by a frame or two.
    await page.locator("#result").scrollIntoViewIfNeeded();
    await settled(page);
    await page.locator("#result").tap();
    await page.waitForFunction(() => document.querySelectorAll(".corner[data-on]").length === 0);
    assert.equal(await shown(), 0, "a press elsewhere lets go");
  },
  PHONE,
);

pageTest(
  "the buyer's job on a phone: three photos above her own sofa, 40 x 50 cm, framed, then canvas, then compared, in at most 25 actions",
  async ({ page, screenshot }) => {
    await ready(page);
    let actions = 0;
    const tap = async (/** @type {string} */ selector) => {
      actions += 1;
      await page.locator(selector).tap();
    };
    const choose = async (/** @type {string} */ field, /** @type {string} */ option) => {
      // Opening the list and choosing in it.
      actions += 2;
      await page.locator(`#short [data-field="${field}"] select`).selectOption(option);
      await settled(page);
    };
    const type = async (/** @type {string} */ field, /** @type {string} */ text) => {
      // Pressing the field, typing, and Enter.
      actions += 3;
      await page.locator(`#short [data-field="${field}"] input`).fill(text);
      await page.keyboard.press("Enter");
      await settled(page);
    };
    await tap('#units label:has([value="centimetres"])');
    actions += 2;
    await page.setInputFiles("#pictures", ["ebb", "slack", "boats"].map((name, index) => ({ name: `${name}.png`, mimeType: "image/png", buffer: png(2400, 3000, [60 + index * 60, 90, 110]) })));
    await reads(page.locator("#short"), /ebb.*slack.*boats/);
    await type("wall.size", "420 x 260");
    await type("fixture.0.width", "210");
    await type("piece.all.image", "40 x 50");
    await choose("piece.all.look.frame", "box, 3/4 in");
    await reads(page.locator("#result"), /^Each is 5\d[.\d]* × 6\d[.\d]* cm outside/);
    await choose("piece.all.material", "canvas");
    await reads(page.locator("#result"), /^Each is 40 × 50 cm outside/);
    await tap("#compare");
    await page.waitForSelector("#compared[data-drawn='2']");
    const lines = await page.locator("#compared tbody tr").allInnerTexts();
    assert.ok(lines.length <= 8, lines.join("\n"));
    assert.match(lines.join("\n"), /Make-up\s+paper in a mat, framed behind glass\s+canvas, .* deep, mirrored wrap/);
    assert.match(await page.locator("#compared img, #compared canvas").first().evaluate((one) => one.getAttribute("aria-label") ?? ""), /^As it was on paper/);
    assert.ok(actions <= 25, `${actions} actions`);
    console.log(`the buyer's job: ${actions} actions`);
    const text = (await page.locator("body").innerText()) ?? "";
    assert.ok(!text.includes("Low water"), "nothing of the demo is left");
    await screenshot("short-compared");
  },
  PHONE,
);

pageTest(
  "the buyer's job by keys alone, in short",
  async ({ page }) => {
    await ready(page);
    const focused = () => page.evaluate(() => document.activeElement?.closest(".field")?.getAttribute("data-field") ?? document.activeElement?.id ?? "");
    const tabTo = async (/** @type {string} */ field) => {
      for (let press = 0; press < 80; press += 1) {
        await page.keyboard.press("Tab");
        if ((await focused()) === field) return;
      }
      throw new Error(`no way to ${field} by keys`);
    };
    await page.locator("#depth input:checked").focus();
    await tabTo("piece.all.image");
    await page.keyboard.type("11 x 14");
    await page.keyboard.press("Enter");
    await reads(page.locator('#short [data-field="piece.all.image"] > span'), "11 × 14″");
    await tabTo("piece.all.material");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await settled(page);
    await page.keyboard.press("Escape");
    await page.locator("#compare").focus();
    await page.keyboard.press("Enter");
    await page.waitForSelector("#compared[data-drawn='2']");
    await finds(page.locator("#compared canvas"), 2);
  },
  { depth: "short" },
);

pageTest(
  "the view fills the screen without lines, and is saved as a picture with the plan's name and sizes",
  async ({ page, screenshot }) => {
    await ready(page);
    await page.locator("#look > summary").press("Enter");
    for (const [button, type] of /** @type {const} */ ([["save-png", "png"], ["save-jpeg", "jpg"]])) {
      const [download] = await Promise.all([page.waitForEvent("download"), page.locator(`#${button}`).click()]);
      assert.match(download.suggestedFilename(), new RegExp(`^Low water, three over the sofa.*each 21.*25.*outside\\.${type}$`));
      const bytes = await readFile(await download.path());
      assert.ok(bytes.length > 50_000, `${bytes.length} bytes`);
      if (type === "png") {
        assert.equal(bytes.readUInt32BE(16), 2400);
        // A wall of 12 × 8 ft, its floor, and a strip for the words.
        const ratio = 2400 / bytes.readUInt32BE(20);
        assert.ok(ratio > 1.3 && ratio < 1.5, `${ratio}`);
      } else assert.deepEqual([...bytes.subarray(0, 3)], [0xff, 0xd8, 0xff]);
    }
    await page.locator("#clean").click();
    await settled(page);
    await page.waitForTimeout(300);
    const { width, height } = page.viewportSize() ?? { width: 0, height: 0 };
    const canvas = await page.locator("#canvas").boundingBox();
    assert.ok(canvas && canvas.width >= width && canvas.height >= height - 1, JSON.stringify(canvas));
    assert.equal(await page.locator("header").isVisible(), false);
    await screenshot("clean");
    await page.keyboard.press("Escape");
    await settled(page);
    assert.equal(await page.locator("header").isVisible(), true);
  },
  { depth: "short" },
);

// A card of 85.60 mm that is 428 CSS pixels wide: 5 to the millimetre, 127 to the inch.
pageTest(
  "a print is seen at its true size, with its own pixels, once the screen was measured with a card",
  async ({ page, screenshot }) => {
    await ready(page);
    await page.getByRole("radio", { name: "inches" }).press("Space");
    // Black and white columns of 60 pixels; 1600 pixels over 16 in are 100 to the inch.
    await page.locator('#short [data-field="pieces.shown"] select').selectOption("1");
    await page.setInputFiles("#pictures", { name: "bars.png", mimeType: "image/png", buffer: png(1600, 2000, (x) => (Math.floor(x / 60) % 2 === 0 ? [0, 0, 0] : [255, 255, 255])) });
    await reads(page.locator("#short"), /bars/);
    await page.locator("#look > summary").press("Enter");
    await page.locator("#true").click();
    await page.locator("#true-size input[type=range]").fill("428");
    const card = await page.locator("#true-size .card").boundingBox();
    assert.ok(card && Math.abs(card.width - 428) < 0.6 && Math.abs(card.height - (428 * 53.98) / 85.6) < 0.6, JSON.stringify(card));
    await page.getByRole("button", { name: "It fits" }).click();
    await reads(page.locator("#true-size .shown p"), /^100 ppi on paper, at its true size\. Sharp from 35″ away; people look at it from 9′ 0″\.$/);
    await settled(page);
    await page.waitForTimeout(500);
    // A column of 60 pixels is 0.6 in: 76.2 CSS pixels.
    const runs = await page.locator("#true-size canvas").evaluate((element) => {
      const canvas = /** @type {HTMLCanvasElement} */ (element);
      const { data } = Object(canvas.getContext("2d")).getImageData(0, Math.floor(canvas.height / 2), canvas.width, 1);
      const found = [];
      let from = 0;
      for (let x = 1; x < canvas.width; x += 1) {
        if (data[x * 4] > 127 !== data[(x - 1) * 4] > 127) {
          found.push((x - from) / devicePixelRatio);
          from = x;
        }
      }
      return found.slice(1);
    });
    assert.ok(runs.length >= 6, runs.join());
    for (const run of runs) assert.ok(Math.abs(run - 76.2) < 1.7, runs.join());
    const mean = runs.reduce((sum, run) => sum + run, 0) / runs.length;
    assert.ok(Math.abs(mean - 76.2) < 0.3, `${mean}`);
    await screenshot("true-size");
    await page.getByRole("radio", { name: "from where people stand" }).check({ force: true });
    await reads(page.locator("#true-size .shown p"), /as large as it looks from 9′ 0″ when the screen is 24″ from your eye/);
    await page.getByRole("radio", { name: "the wall", exact: true }).check({ force: true });
    await reads(page.locator("#true-size .shown p"), /^The wall /);
    await page.getByRole("button", { name: "Close" }).click();
    await page.locator("#true").click();
    assert.equal(await page.locator("#true-size .measure").isVisible(), false, "measured once");
  },
  { depth: "short" },
);

// A television of 55 in: 1920 CSS pixels over 1217.6 mm, 1576.9 to the metre. A sheet of 40 cm is 630.8 of them.
pageTest(
  "the wall is seen at its true size on a television, measured with a metre of tape",
  async ({ page, screenshot }) => {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await ready(page);
    await page.getByRole("radio", { name: "cm", exact: true }).press("Space");
    await page.locator('#short [data-field="pieces.shown"] select').selectOption("1");
    await choose(page, "piece.all.material", "aluminium");
    await page.setInputFiles("#pictures", { name: "black.png", mimeType: "image/png", buffer: png(800, 1000, [0, 0, 0]) });
    await reads(page.locator("#short"), /black/);
    await type(page, "piece.all.image", "40 × 50 cm");
    await page.locator("#look > summary").press("Enter");
    await page.locator("#true").click();
    await page.locator("#true-size").getByRole("radio", { name: /a metre of tape/ }).check({ force: true });
    await page.locator("#true-size input[type=range]").fill("1577");
    await screenshot("tape");
    await page.getByRole("button", { name: "It fits" }).click();
    await page.getByRole("radio", { name: "the wall", exact: true }).check({ force: true });
    await reads(page.locator("#true-size .shown p"), /^The wall at its true size\./);
    await settled(page);
    await page.waitForFunction(() => {
      const canvas = /** @type {HTMLCanvasElement | null} */ (document.querySelector("#true-size canvas"));
      return (canvas?.width ?? 0) > 1000;
    });
    const widest = await page.locator("#true-size canvas").evaluate((element) => {
      const canvas = /** @type {HTMLCanvasElement} */ (element);
      const { data } = Object(canvas.getContext("2d")).getImageData(0, 0, canvas.width, canvas.height);
      let most = 0;
      for (let y = 0; y < canvas.height; y += 7) {
        let run = 0;
        for (let x = 0; x < canvas.width; x += 1) {
          const at = (y * canvas.width + x) * 4;
          run = Math.max(data[at], data[at + 1], data[at + 2]) < 50 ? run + 1 : 0;
          most = Math.max(most, run);
        }
      }
      return most / devicePixelRatio;
    });
    assert.ok(Math.abs(widest - 630.8) < 3, `${widest}`);
  },
  { depth: "short" },
);

for (const [name, options] of /** @type {const} */ ([
  ["light and wide", { viewport: { width: 1440, height: 900 } }],
  ["dark, on a phone", { viewport: { width: 390, height: 844 }, colorScheme: "dark" }],
])) {
  pageTest(
    `axe-core finds nothing in short, ${name}`,
    async ({ page }) => {
      await ready(page);
      await page.locator("#notes > summary").press("Enter");
      await page.locator("#compare").press("Enter");
      await page.waitForSelector("#compared[data-drawn='2']");
      await page.evaluate(axe);
      const run = () =>
        page.evaluate(async () => {
          const report = await /** @type {any} */ (window).axe.run({ rules: { "target-size": { enabled: true } } });
          return report.violations.map((/** @type {any} */ { id, nodes }) => `${id}: ${nodes.map((/** @type {any} */ node) => node.html).join(" | ")}`);
        });
      assert.deepEqual(await run(), []);
      await page.locator("#look > summary").press("Enter");
      await page.locator("#true").press("Enter");
      await settled(page);
      assert.deepEqual(await run(), [], "measuring the screen");
    },
    { ...options, depth: "short" },
  );
}
