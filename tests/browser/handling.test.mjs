// Handling the drawing: pulling, sliding, catching, going nearer, comparing; by pointer, by fingers and by keys. Numbers were worked
// out on paper.

import assert from "node:assert/strict";
import { choose, png, reads, said, settled } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** @param {Page} page */
const status = async (page) => (await page.locator("#status").textContent()) ?? "";

/**
 * One canvas of 16 × 20 in, upright, with a picture of 6000 × 4000 pixels, at eye level in the middle of a bare wall of 12 ft.
 * @param {Page} page
 */
async function oneCanvas(page) {
  await page.waitForSelector("html[data-ready]");
  await choose(page, "pieces.count", "one");
  await choose(page, "piece.all.material", "canvas");
  await page.setInputFiles("#pictures", { name: "flats.png", mimeType: "image/png", buffer: png(6000, 4000, [90, 120, 110]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("6000 × 4000"));
  await choose(page, "group.up", "centred at eye level");
  await choose(page, "group.across", "in the middle of the wall");
}

/**
 * Device pixels of the drawing to an inch of the wall of 12 ft.
 * @param {Page} page
 */
async function perInch(page) {
  const [left, right] = await Promise.all(["group.left", "group.right"].map(async (field) => page.locator(`#overlay [data-field="${field}"]`).boundingBox()));
  const group = await page.locator('.handle[aria-label^="The piece"]').boundingBox();
  assert.ok(left && right && group);
  return group.width / 16;
}

pageTest("a corner is pulled in steps of sizes that are sold, freely with Shift, and by keys", async ({ page, screenshot }) => {
  await oneCanvas(page);
  const inch = await perInch(page);
  const corner = page.locator('[data-handle="corner.0.lr"]');
  const opacity = () => corner.evaluate((one) => getComputedStyle(one).opacity);
  assert.equal(await opacity(), "0", "corners show only on what has been pressed");
  await page.locator('.handle[aria-label^="The piece"]').click();
  assert.equal(await opacity(), "1");
  const box = await corner.boundingBox();
  assert.ok(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  // The canvas keeps its middle: 2 in out make it 4 in larger.
  await page.mouse.move(x + 2 * inch, y + 2 * inch, { steps: 4 });
  assert.match(await status(page), /^20 × 24", a size that is sold; hold Shift for any size$/);
  await screenshot("corner");
  await page.mouse.up();
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "20 × 24″");
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "16 × 20″");
  await page.locator('.handle[aria-label^="The piece"]').click();
  await page.keyboard.down("Shift");
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 1.5 * inch, y, { steps: 4 });
  assert.match(await status(page), /freely$/);
  await page.mouse.up();
  await page.keyboard.up("Shift");
  await settled(page);
  const free = (await said(page, "piece.all.image")).match(/^(1[89]\S*) × (\S+)″$/);
  assert.ok(free, "about 19 × 20");
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  await page.getByRole("button", { name: /^Size of piece 1, 16 × 20/ }).last().focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowRight");
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "16 × 24″");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("Shift+ArrowUp");
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "16 × 20¹⁄₄″");
});

// All 4000 pixels of the height are 20 in: 5 in of drag are 1000 pixels. The middle goes from 3000 to 2000 of 6000.
pageTest("the picture is moved in its opening, by drag, by keys and by field", async ({ page, screenshot }) => {
  await oneCanvas(page);
  const inch = await perInch(page);
  await page.getByRole("radio", { name: "drag a picture in its opening" }).check();
  await settled(page);
  const across = page.locator("#crop").getByRole("textbox", { name: /from the left edge of the picture/ });
  await reads(across, "50 %");
  const handle = page.getByRole("button", { name: /^The picture in piece 1/ });
  const box = await handle.boundingBox();
  assert.ok(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 5 * inch, y, { steps: 4 });
  assert.match(await status(page), /^shows 53 % of its width, its middle 33(\.\d)? % from the left, and its whole height$/);
  await page.mouse.up();
  await settled(page);
  await reads(across, /^33(\.\d)? %$/);
  await screenshot("crop");
  await across.fill("40");
  await across.press("Enter");
  await settled(page);
  await handle.focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Shift+ArrowLeft");
  await settled(page);
  await reads(across, "45 %");
  await across.fill("140");
  await across.press("Enter");
  assert.match(await status(page), /not a percentage/);
  await across.press("Escape");
  await reads(across, "45 %");
  await page.getByRole("radio", { name: "drag pieces" }).press("Space");
  assert.equal(await page.locator("#crop").isHidden(), true);
});

pageTest("what is dragged catches with its reason, and a red guide shows where while it holds", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const box = await page.locator('.handle[aria-label^="The pieces together"]').boundingBox();
  assert.ok(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const redAt = () =>
    page.evaluate(() => {
      const canvas = /** @type {HTMLCanvasElement} */ (document.querySelector("#canvas"));
      const handle = /** @type {HTMLElement} */ (document.querySelector('.handle[aria-label^="The pieces together"]'));
      const column = Math.round((handle.offsetLeft + handle.offsetWidth / 2) * devicePixelRatio) - 3;
      // On the wall between the pieces, as they lie while they are held, and the sofa.
      const row = Math.round((handle.offsetTop + handle.offsetHeight - 10) * devicePixelRatio);
      const { data } = canvas.getContext("2d")?.getImageData(column, row, 7, 1) ?? { data: [] };
      let red = 0;
      for (let at = 0; at < data.length; at += 4) if ((data[at] ?? 0) > (data[at + 1] ?? 0) + 60) red += 1;
      return red;
    });
  assert.equal(await redAt(), 0);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 60, y - 40, { steps: 3 });
  await page.mouse.move(x + 3, y - 40, { steps: 3 });
  await settled(page);
  assert.match(await status(page), /over the middle of the sofa/);
  await screenshot("guide");
  assert.ok((await redAt()) > 0, "a red line over the sofa's middle");
  await page.keyboard.down("Shift");
  await page.mouse.move(x + 4, y - 40);
  await settled(page);
  assert.equal(await status(page), "", "with Shift nothing catches");
  await page.keyboard.up("Shift");
  await page.mouse.up();
  await settled(page);
  assert.equal(await redAt(), 0);
});

pageTest("one goes nearer by wheel, buttons and keys, moves about, and sees the whole wall again", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const handle = page.locator('.handle[aria-label^="The pieces together"]');
  const box = await handle.boundingBox();
  assert.ok(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -400);
  await page.keyboard.up("Control");
  await settled(page);
  const near = await handle.boundingBox();
  // e to the power of 400 × 0.0025 is 2.718.
  assert.ok(near && Math.abs(near.width / box.width - Math.E) < 0.02, `${near?.width} of ${box.width}`);
  assert.ok(near && Math.abs(near.x + near.width / 2 - x) < 3 && Math.abs(near.y + near.height / 2 - y) < 3, "what is under the pointer stays");
  await screenshot("nearer");
  await page.mouse.wheel(0, 80);
  await settled(page);
  const moved = await handle.boundingBox();
  assert.ok(moved && Math.abs(near.y - moved.y - 80) < 2);
  // What gets the focus comes into the window.
  await page.locator('.handle[aria-label^="The light switch"]').focus();
  await settled(page);
  const light = await page.locator('.handle[aria-label^="The light switch"]').boundingBox();
  const stage = await page.locator("#stage").boundingBox();
  assert.ok(light && stage && light.x > stage.x && light.x + light.width < stage.x + stage.width);
  await page.keyboard.press("0");
  await settled(page);
  await page.evaluate(() => scrollTo(0, 0));
  assert.deepEqual(await handle.boundingBox(), box);
  const nearer = page.getByRole("button", { name: "zoom in" });
  await nearer.focus();
  await page.keyboard.press("Enter");
  await settled(page);
  assert.ok(((await handle.boundingBox())?.width ?? 0) > box.width * 1.4);
  const before = await handle.boundingBox();
  await page.keyboard.press("ArrowRight");
  await settled(page);
  assert.ok(((await handle.boundingBox())?.x ?? 0) < (before?.x ?? 0));
  await page.getByRole("button", { name: "the whole wall" }).click();
  await settled(page);
  await page.evaluate(() => scrollTo(0, 0));
  assert.deepEqual(await handle.boundingBox(), box);
  assert.ok(await page.getByRole("button", { name: "the whole wall" }).isDisabled());
});

pageTest("a button is held to see the plan before the last step", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const colours = () =>
    page.evaluate(() => {
      const canvas = /** @type {HTMLCanvasElement} */ (document.querySelector("#canvas"));
      const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data;
      return data ? data.reduce((sum, value, at) => (sum + value * ((at % 251) + 1)) % 4294967291, 0) : 0;
    });
  const button = page.getByRole("button", { name: "hold to compare with the last step" });
  assert.ok(await button.isDisabled());
  await settled(page);
  const first = await colours();
  await choose(page, "wall.paint", "stone");
  const second = await colours();
  assert.notEqual(first, second);
  await button.focus();
  await page.keyboard.down(" ");
  await settled(page);
  assert.equal(await colours(), first);
  assert.equal(await status(page), "Before the last step.");
  await page.keyboard.up(" ");
  await settled(page);
  assert.equal(await colours(), second);
  const box = await button.boundingBox();
  assert.ok(box);
  await page.mouse.move(box.x + 5, box.y + 5);
  await page.mouse.down();
  await settled(page);
  assert.equal(await colours(), first);
  await page.mouse.up();
  await settled(page);
  assert.equal(await colours(), second);
  assert.equal(await said(page, "wall.paint"), "stone");
});

pageTest(
  "two fingers go nearer",
  async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    const handle = page.locator('.handle[aria-label^="The pieces together"]');
    const box = await handle.boundingBox();
    assert.ok(box);
    const session = await page.context().newCDPSession(page);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    /** @param {"touchStart" | "touchMove" | "touchEnd"} type @param {number} apart */
    const touch = (type, apart) =>
      session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x: x - apart, y, id: 1 }, { x: x + apart, y, id: 2 }] });
    await touch("touchStart", 20);
    for (const apart of [25, 30, 35, 40]) await touch("touchMove", apart);
    await touch("touchEnd", 0);
    await settled(page);
    const near = await handle.boundingBox();
    assert.ok(near && Math.abs(near.width / box.width - 2) < 0.1, `${near?.width} of ${box.width}`);
    assert.ok(near && Math.abs(near.x + near.width / 2 - x) < 4);
  },
  { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
);
