// The page by keys alone: one stop for what belongs together, keys that do what they do elsewhere, and a focus that stays on the page.
// The patterns are those of the WAI-ARIA Authoring Practices (toolbar, roving tabindex) and of the operating systems (Ctrl+Z, Ctrl+S, Delete).

import assert from "node:assert/strict";
import { choose, control, finds, png, reads, said, settled } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** @param {Page} page */
const status = async (page) => (await page.locator("#status").textContent()) ?? "";

/**
 * What has the focus: its name, or what else tells it; nothing for the body.
 * @param {Page} page
 */
const focused = (page) =>
  page.evaluate(() => {
    const element = document.activeElement;
    if (!element || element === document.body) return "";
    const field = element.closest(".field");
    return element.getAttribute("data-handle") ?? field?.getAttribute("data-field") ?? (element.id || (element.getAttribute("aria-label") ?? element.textContent ?? "").trim());
  });

/**
 * All Tab stops from the top of the page.
 * @param {Page} page
 */
async function stops(page) {
  const found = [];
  for (;;) {
    await page.keyboard.press("Tab");
    const name = await focused(page);
    if (name === "" || found.length > 200) return found;
    found.push(name);
  }
}

pageTest(
  "a first visit has at most 25 Tab stops, and from choosing pictures to their size at most 12",
  async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    const found = await stops(page);
    assert.ok(found.length <= 25, `${found.length}: ${found.join(" | ")}`);
    // The first two skip what comes before.
    assert.match(found[0] ?? "", /^Skip to/);
    const pictures = [1, 2, 3].map((index) => ({ name: `flats-${index}.png`, mimeType: "image/png", buffer: png(3000, 2400, [90, 120, 60 * index]) }));
    await page.setInputFiles("#pictures", pictures);
    await page.waitForFunction(() => document.querySelector("#short")?.textContent?.includes("flats"));
    await settled(page);
    await page.locator("#choose").focus();
    let count = 0;
    while ((await focused(page)) !== "piece.all.image" && count < 40) {
      await page.keyboard.press("Tab");
      count += 1;
    }
    assert.ok(count <= 12, `${count} from choosing pictures to the size`);
  },
  { depth: "short" },
);

pageTest(
  "arrows reach every control of a row and every heading of a list",
  async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    const reached = async (/** @type {string} */ from, /** @type {string} */ key, /** @type {number} */ most) => {
      await page.locator(from).focus();
      /** @type {string[]} */
      const found = [];
      for (let press = 0; press < most; press += 1) {
        await page.keyboard.press(key);
        const name = await page.evaluate(() => {
          const element = document.activeElement;
          return element instanceof HTMLInputElement ? element.value : element?.id || (element?.textContent ?? "").trim();
        });
        if (found.includes(name)) break;
        found.push(name);
      }
      return found.sort();
    };
    assert.deepEqual(await reached("#undo", "ArrowRight", 10), ["both", "centimetres", "choose", "inches", "redo", "undo"]);
    assert.deepEqual(await reached("#compare", "ArrowRight", 10), ["More views", "compare", "elevation", "oblique", "photograph"]);
    const first = await reached("#suggestions > summary", "ArrowDown", 20);
    assert.deepEqual(first, ["Compare", "Make a proposal", "Papers: proposal, order, cut list, hanging plan, template", "Share it as a link", "Start from", "What could hang here"]);
    const second = await reached("#make-up > summary", "ArrowDown", 20);
    assert.deepEqual(second, ["Examples, files and stock", "Keys", "Make a page of your pictures", "Parts, cuts and what to buy", "Plans kept on this device", "Prices", "Section and sizes", "Sizes on offer that suit the picture"]);
    // By them a person in centimetres gets there, and to her pictures.
    await page.locator("#undo").focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowRight");
    await settled(page);
    assert.equal(await page.locator('#units input[value="centimetres"]').isChecked(), true);
    const chooser = page.waitForEvent("filechooser");
    await page.keyboard.press("End");
    await page.keyboard.press("Enter");
    await chooser;
  },
  { depth: "short" },
);

pageTest("undo belongs to where one is", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const width = control(page, "wall.width");
  assert.equal(await said(page, "wall.width"), "12′ 0″");
  await width.focus();
  await page.keyboard.type("400 cm");
  // Not entered yet: the text's own.
  await page.keyboard.press("Control+z");
  await settled(page);
  assert.equal(await said(page, "wall.width"), "12′ 0″");
  assert.notEqual(await width.inputValue(), "400 cm");
  await width.fill("400 cm");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await said(page, "wall.width"), "13′ 1¹⁄₂″");
  // Entered: the plan's, and it says what came back.
  await page.keyboard.press("Control+z");
  await settled(page);
  assert.equal(await said(page, "wall.width"), "12′ 0″");
  assert.equal(await status(page), "Undone: Width of the wall: 13′ 1¹⁄₂″ became 12′ 0″.");
  await page.keyboard.press("Control+Shift+z");
  await settled(page);
  assert.equal(await status(page), "Redone: Width of the wall: 12′ 0″ became 13′ 1¹⁄₂″.");
  // A field that is only looked at.
  await control(page, "wall.height").focus();
  await page.keyboard.press("Control+z");
  await settled(page);
  assert.equal(await said(page, "wall.width"), "12′ 0″");
  // In a message nothing happens to the plan.
  await page.keyboard.press("Control+y");
  await settled(page);
  await page.locator("#propose > summary").click();
  const message = page.locator("#propose textarea").first();
  await message.fill("");
  await message.pressSequentially("Dear Ms Tidewell");
  await page.keyboard.press("Control+z");
  await settled(page);
  assert.equal(await said(page, "wall.width"), "13′ 1¹⁄₂″");
  assert.notEqual(await message.inputValue(), "Dear Ms Tidewell");
});

pageTest("the drawing is one stop, with arrows among its things; Enter takes one up", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator('[data-handle="group"]').focus();
  const left = await said(page, "group.across");
  assert.match(left, /over the middle of the sofa/);
  // Arrows go among the things and move nothing.
  await page.keyboard.press("ArrowRight");
  assert.equal(await focused(page), "fixture.0");
  await page.keyboard.press("ArrowLeft");
  assert.equal(await focused(page), "group");
  await page.keyboard.press("End");
  assert.match(await focused(page), /^fixture\.\d\.|^group|^piece|^wall/);
  await page.keyboard.press("Home");
  assert.equal(await focused(page), "group");
  // One Tab leaves it, and coming back finds what was left.
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement?.closest("#overlay") === null), true);
  await page.keyboard.press("Shift+Tab");
  assert.equal(await focused(page), "fixture.0");
  await page.keyboard.press("Home");
  // Taken up, it goes by a quarter of an inch, and says where it is and what it is over: 72 in and 1/4.
  await page.keyboard.press("Enter");
  assert.equal(await page.locator('[data-handle="group"]').getAttribute("aria-pressed"), "true");
  assert.match(await status(page), /^Picked up: arrows move it/);
  await page.keyboard.press("ArrowRight");
  await settled(page);
  await screenshot("taken-up");
  assert.match(await status(page), /^The pieces together, middle 6′ 0¹⁄₄″ from the left corner, .* up, 8″ above the sofa\.$/);
  await page.keyboard.press("ArrowLeft");
  await settled(page);
  assert.match(await status(page), /middle 6′ 0″ from the left corner, .*, over the middle of the sofa, 8″ above the sofa\.$/);
  await page.keyboard.press("Shift+ArrowUp");
  await settled(page);
  assert.match(await status(page), /^The pieces together, middle 6′ 0″ from the left corner, 4′ 8⁹⁄₁₆″ up/);
  // Escape puts it back, in one step.
  await page.keyboard.press("Escape");
  await settled(page);
  assert.equal(await status(page), "Put back.");
  assert.match(await said(page, "group.across"), /over the middle of the sofa/);
  assert.equal(await page.locator('[data-handle="group"]').getAttribute("aria-pressed"), "false");
  // Without a trace: there is nothing to undo, and a second Escape takes no other step away.
  assert.equal(await page.locator("#undo").getAttribute("aria-disabled"), "true");
  // Enter keeps it.
  await page.keyboard.press("Enter");
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await focused(page), "group");
  assert.doesNotMatch(await said(page, "group.across"), /over the middle of the sofa/);
  // A figure is opened by Enter, changed, and left with Escape; then arrows go on.
  while ((await focused(page)) !== "wall.width") await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await page.keyboard.type("13 ft");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await said(page, "wall.width"), "13′ 0″");
  await page.keyboard.press("Escape");
  await page.keyboard.press("ArrowRight");
  assert.equal(await focused(page), "wall.height");
});

pageTest("Delete removes a thing of the drawing, and undo brings it back", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator('[data-handle="fixture.1"]').focus();
  await page.keyboard.press("Delete");
  await settled(page);
  assert.equal(await status(page), "Removed: the light switch; undo brings it back.");
  await finds(page.locator('[data-handle="fixture.1"]'), 0);
  assert.notEqual(await focused(page), "", "the focus stays on the page");
  await page.keyboard.press("Control+z");
  await settled(page);
  await finds(page.locator('[data-handle="fixture.1"]'), 1);
  // A piece, by its size; the picture goes on over the two that are left.
  await page.locator('[data-handle="corner.1.lr"]').focus();
  await page.keyboard.press("Backspace");
  await settled(page);
  assert.equal(await status(page), "Removed: piece 2, the second of three; undo brings it back.");
  await reads(page.locator('#specification [data-field="pieces.count"] > span').first(), "two");
  // Of several none is meant by the group.
  await page.locator('[data-handle="group"]').focus();
  await page.keyboard.press("Delete");
  await settled(page);
  assert.match(await status(page), /^Choose one piece first/);
  // What a pointer has chosen.
  const sofa = await page.locator('[data-handle="fixture.0"]').boundingBox();
  assert.ok(sofa);
  await page.mouse.click(sofa.x + 20, sofa.y + sofa.height - 15);
  await page.keyboard.press("Delete");
  await settled(page);
  assert.equal(await status(page), "Removed: the sofa; undo brings it back.");
  // In a field it deletes letters.
  await control(page, "wall.width").focus();
  await page.keyboard.press("Delete");
  assert.equal(await control(page, "wall.width").inputValue(), "");
});

pageTest("Escape gives up a drag, Ctrl+S saves, ? shows every key, and the focus stays where undo ends", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const box = await page.locator('[data-handle="group"]').boundingBox();
  assert.ok(box);
  const before = await said(page, "group.across");
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2 + 90, box.y + box.height / 2 - 30, { steps: 3 });
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await settled(page);
  assert.equal(await said(page, "group.across"), before);
  assert.equal(await page.locator("#undo").getAttribute("aria-disabled"), "true", "nothing was done");
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
  assert.match(download.suggestedFilename(), /\.json$/);
  // The whole screen keeps the focus, and gives it back.
  await page.locator("#clean").focus();
  await page.keyboard.press("Enter");
  await settled(page);
  await page.keyboard.press("Tab");
  assert.equal(await focused(page), "sheet");
  await page.keyboard.press("Escape");
  await settled(page);
  assert.equal(await focused(page), "clean");
  await page.keyboard.press("?");
  assert.equal(await page.locator("#keys").getAttribute("open"), "");
  const keys = (await page.locator("#keys").textContent()) ?? "";
  for (const key of ["Ctrl + Z", "Ctrl + Shift + Z", "Ctrl + S", "Ctrl + P", "Delete", "Esc", "Enter", "?"]) assert.ok(keys.includes(key), key);
  await choose(page, "pieces.count", "two");
  await page.locator("#undo").focus();
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await page.locator("#undo").getAttribute("aria-disabled"), "true");
  assert.equal(await focused(page), "undo");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await status(page), "There is nothing to undo.");
});

pageTest("what is wrong stays tied to its field until it is mended, and no description repeats a name", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const width = control(page, "wall.width");
  await width.fill("a yard or so");
  await width.press("Enter");
  await page.keyboard.press("Tab");
  await settled(page);
  const described = () =>
    width.evaluate((input) => {
      const id = input.getAttribute("aria-describedby");
      return id === null ? "" : (document.getElementById(id)?.textContent ?? "");
    });
  assert.equal(await width.getAttribute("aria-invalid"), "true");
  assert.match(await described(), /is not a number/);
  await width.fill("12 ft");
  await width.press("Enter");
  await page.keyboard.press("Tab");
  assert.equal(await width.getAttribute("aria-invalid"), null);
  assert.equal(await described(), "");
  const repeated = await page.evaluate(() =>
    [...document.querySelectorAll("[aria-label]")]
      .filter((element) => element instanceof HTMLElement && element.title !== "" && element.title.includes(element.getAttribute("aria-label") ?? "-"))
      .map((element) => element.getAttribute("aria-label")),
  );
  assert.deepEqual(repeated, []);
});

// Relative luminance and contrast: WCAG 2.2, its definitions; 1.4.11 asks for 3 : 1 of what shows where one is.
pageTest("the focus is seen on every paint, floor and picture: one of its two tones stands out by 3 to 1", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator('[data-handle="group"]').focus();
  // As by keys.
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowLeft");
  await screenshot("focus");
  const tones = await page.locator('[data-handle="group"]').evaluate((one) => {
    const { outlineColor, outlineStyle, outlineWidth, boxShadow } = getComputedStyle(one);
    return { outlineColor, outlineStyle, outlineWidth, boxShadow };
  });
  assert.notEqual(tones.outlineStyle, "none");
  assert.ok(Number.parseFloat(tones.outlineWidth) >= 2, tones.outlineWidth);
  const luminance = (/** @type {string} */ colour) => {
    const [red = 0, green = 0, blue = 0] = (/rgb\((\d+), (\d+), (\d+)\)/.exec(colour) ?? []).slice(1).map((channel) => {
      const share = Number(channel) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const contrast = (/** @type {number} */ one, /** @type {number} */ other) => (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
  const ring = [luminance(tones.outlineColor), luminance(tones.boxShadow)];
  for (let ground = 0; ground <= 1; ground += 0.01) {
    const best = Math.max(...ring.map((tone) => contrast(tone, ground)));
    assert.ok(best >= 3, `${best} on a ground of luminance ${ground}: ${JSON.stringify(tones)}`);
  }
});

pageTest("a file that is dragged over a piece shows which piece will take it", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const box = await page.locator('[data-handle="corner.1.lr"]').boundingBox();
  const left = await page.locator('[data-handle="corner.1.ul"]').boundingBox();
  assert.ok(box && left);
  const drag = (/** @type {string} */ kind, /** @type {number} */ x, /** @type {number} */ y) =>
    page.evaluate(
      ([kind, x, y]) => {
        const at = document.elementFromPoint(Number(x), Number(y)) ?? document.body;
        at.dispatchEvent(new DragEvent(String(kind), { bubbles: true, cancelable: true, clientX: Number(x), clientY: Number(y), dataTransfer: new DataTransfer() }));
      },
      [kind, x, y],
    );
  const [x, y] = [(left.x + box.x + box.width) / 2, (left.y + box.y + box.height) / 2];
  await drag("dragover", x, y);
  await screenshot("dropping");
  const target = await page.locator(".target").boundingBox();
  assert.ok(target, "the piece is framed");
  assert.ok(target.x < x && target.x + target.width > x && target.y < y && target.y + target.height > y, JSON.stringify(target));
  // It is the second piece, and no other: 21 1/8 in of a wall of 12 ft, as the drawing has it.
  assert.ok(Math.abs(target.x - left.x) < 24 && Math.abs(target.x + target.width - box.x - box.width) < 24, JSON.stringify([target, left, box]));
  await drag("dragover", 5, 400);
  assert.equal(await page.locator(".target").isVisible(), false, "beside the pieces none takes it");
});

// Web Vitals: a shift of the layout of less than 0.1 is good. Four times slower than here is about a phone.
for (const [name, viewport] of /** @type {const} */ ([
  ["phone", { width: 390, height: 844 }],
  ["desk", { width: 1280, height: 800 }],
])) {
  pageTest(
    `nothing shifts while the page comes, on a slowed ${name}`,
    async ({ page }) => {
      const session = await page.context().newCDPSession(page);
      await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      await page.addInitScript(() => {
        const shifts = /** @type {{value: number, hadRecentInput: boolean}[]} */ ([]);
        Object.assign(window, { shifts });
        new PerformanceObserver((list) => shifts.push(...list.getEntries().map((entry) => JSON.parse(JSON.stringify(entry))))).observe({ type: "layout-shift", buffered: true });
      });
      await page.reload();
      await page.waitForSelector("html[data-ready]");
      await settled(page);
      const shifts = await page.evaluate(() => /** @type {{shifts: {value: number, sources?: {node?: unknown}[]}[]}} */ (/** @type {unknown} */ (window)).shifts);
      const sum = shifts.reduce((all, { value }) => all + value, 0);
      assert.ok(sum < 0.1, `${sum}: ${JSON.stringify(shifts.map(({ value }) => value))}`);
    },
    { viewport, depth: "short" },
  );
}
