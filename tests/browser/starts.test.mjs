// Starting points, by the words on them: each is a whole plan, taken as one step. Sizes were worked out on paper.

import assert from "node:assert/strict";
import { choose, control, finds, png, reads, said, settled, specification } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

pageTest("a newcomer begins with each of the starting points, and undo brings back what was there", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const before = await specification(page);
  // The demo’s picture has 9000 × 4200 pixels: at 200 to the inch 45 × 21 in. 24 × 36 in loses least of 15 : 7.
  await page.locator("#starts > summary").click();
  const rows = /** @type {[string, string, string, RegExp][]} */ ([
    ["Three above a sofa", "piece.all.image", "16 × 20″", /a part of one picture/],
    ["One large", "piece.all.image", "36 × 24″", /canvas/],
    ["A pair", "pieces.count", "two", /8″ above the sofa/],
    ["Along the stairs", "group.arrangement", "steps", /above the flight of stairs/],
    ["A frame I already have", "in_hand.size", "16 × 20″", /behind a mat/],
    ["How large can I print this file", "piece.all.image", "45 × 21″", /order the frame as 45 × 21″/],
  ]);
  for (const [name, field, value, words] of rows) {
    const button = page.getByRole("button", { name, exact: true });
    await button.focus();
    await page.keyboard.press("Enter");
    await settled(page);
    assert.equal(await said(page, field), value, name);
    assert.match(await specification(page), words);
    await reads(page.locator("#status"), /^Started from /);
    await reads(page.locator("#title .field input"), "Low water, evening");
    assert.ok(await button.evaluate((one) => one === document.activeElement), "the focus stays where it was");
    await page.getByRole("button", { name: "Undo" }).click();
    await settled(page);
    assert.equal(await specification(page), before);
  }
  await page.waitForTimeout(300);
  const painted = await page.evaluate(() =>
    [.../** @type {NodeListOf<HTMLCanvasElement>} */ (document.querySelectorAll("#starts canvas"))].map((canvas) => {
      const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
      return new Set(data).size;
    }),
  );
  assert.equal(painted.length, 7);
  assert.ok(painted.every((colours) => colours > 30), `${painted}`);
  await screenshot("starts");
});

pageTest("a picture of one's own is in the small drawings, and in the plan that is begun", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.setInputFiles("#pictures", { name: "slack.png", mimeType: "image/png", buffer: png(3000, 4000, [20, 120, 200]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("slack"));
  await page.locator("#starts > summary").click();
  await page.waitForTimeout(400);
  const blue = await page.getByRole("button", { name: "One large", exact: true }).locator("canvas").evaluate((element) => {
    const canvas = /** @type {HTMLCanvasElement} */ (element);
    const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
    let count = 0;
    for (let at = 0; at < data.length; at += 4) if ((data[at] ?? 255) < 60 && (data[at + 2] ?? 0) > 150) count += 1;
    return count;
  });
  assert.ok(blue > 50, `${blue} pixels of it`);
  await page.getByRole("button", { name: "How large can I print this file" }).click();
  await settled(page);
  // 3000 × 4000 pixels at 200 to the inch.
  assert.equal(await said(page, "piece.all.image"), "15 × 20″");
});

pageTest("arrangements, edges and mouldings are chosen by small drawings, with keys and with the pointer", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const shape = control(page, "piece.all.frame.shape");
  await shape.focus();
  await page.keyboard.press("Enter");
  const board = page.getByRole("group", { name: "shape of the frame's face of each piece" });
  assert.deepEqual(await board.getByRole("button").allTextContents(), ["flat", "bevelled", "scooped", "stepped", "rounded"]);
  assert.ok(await board.getByRole("button", { name: "flat", pressed: true }).evaluate((one) => one === document.activeElement), "what holds has the focus");
  await page.waitForTimeout(300);
  await screenshot("mouldings");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await said(page, "piece.all.frame.shape"), "scooped");
  await finds(board, 0);
  assert.ok(await shape.evaluate((one) => one === document.activeElement), "and the focus comes back");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Escape");
  await finds(board, 0);
  assert.equal(await said(page, "piece.all.frame.shape"), "scooped");
  // Where the sentence is another afterwards, as with steps, the focus is still in it.
  await control(page, "group.arrangement").click();
  await page.getByRole("group", { name: "arrangement of the pieces" }).getByRole("button", { name: "steps" }).click();
  await settled(page);
  assert.equal(await said(page, "group.arrangement"), "steps");
  assert.equal(await page.evaluate(() => document.activeElement?.closest(".field")?.getAttribute("data-field")), "group.arrangement");
  await choose(page, "piece.all.material", "canvas");
  await control(page, "piece.all.canvas.edge").click();
  const edges = page.getByRole("group", { name: "edge of the canvas of each piece" });
  await page.waitForTimeout(400);
  await screenshot("edges");
  const drawn = await edges.locator("canvas").evaluateAll((found) =>
    found.map((one) => {
      const canvas = /** @type {HTMLCanvasElement} */ (one);
      return [...(canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? [])].reduce((sum, value, at) => (sum + value * ((at % 251) + 1)) % 4294967291, 0);
    }),
  );
  assert.equal(new Set(drawn).size, 3, `three edges that look different: ${drawn}`);
  await edges.getByRole("button", { name: "a solid edge" }).click();
  await settled(page);
  assert.equal(await said(page, "piece.all.canvas.edge"), "a solid edge");
});
