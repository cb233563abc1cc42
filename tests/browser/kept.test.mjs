// Plans kept on the machine: by name, through reloads and crashes, opened, doubled, given up and brought back; and as files.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { choose, colourAt, control, finds, png, reads, ready, rename, said, settled, specification, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/**
 * The list, opened, once it has what is expected.
 * @param {Page} page
 * @param {number} rows
 */
async function list(page, rows) {
  const details = page.locator("#kept");
  if (!(await details.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open))) await details.locator("summary").click();
  await page.waitForFunction((rows) => document.querySelectorAll("#kept li").length === rows, rows);
  return details.locator("li");
}

pageTest("plans are kept by name with their pictures, opened again, doubled, deleted and brought back", async ({ page, screenshot }) => {
  await ready(page);
  await reads((await list(page, 1)).first(), /None yet/);
  // Two plans whose pictures have one name, and are not alike.
  await choose(page, "pieces.count", "one");
  await page.setInputFiles("#pictures", { name: "flats.png", mimeType: "image/png", buffer: png(400, 500, [200, 60, 40]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("400 × 500"));
  await rename(page, "The hall");
  await page.waitForFunction(() => document.querySelector("#kept li")?.textContent?.startsWith("The hall"));
  await page.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 2 });
  await page.waitForFunction(() => !document.title.startsWith("The hall"));
  await settled(page);
  await choose(page, "pieces.count", "one");
  await page.setInputFiles("#pictures", { name: "flats.png", mimeType: "image/png", buffer: png(500, 500, [40, 60, 200]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("500 × 500"));
  await rename(page, "The landing");
  await page.waitForFunction(() => [...document.querySelectorAll("#kept li")].some((row) => row.textContent?.startsWith("The landing")));
  await finds(await list(page, 2), 2);
  const landing = await specification(page);
  await page.getByRole("button", { name: "Open The hall" }).press("Enter");
  await page.waitForFunction(() => document.title.startsWith("The hall"));
  await settled(page);
  assert.equal(await said(page, "pieces.count"), "one");
  assert.match(await specification(page), /400 × 500/);
  const red = await colourAt(page, "The piece", 0.5, 0.5);
  assert.ok(red[0] > 150 && red[2] < 90, `its own picture: ${red}`);
  assert.ok(await page.getByRole("button", { name: "Undo" }).isDisabled(), "another plan has a past of its own");
  // Changes go where they belong, and a reload goes on with the same plan.
  await type(page, "wall.width", "10'");
  await page.reload();
  await ready(page);
  assert.equal(await said(page, "wall.width"), "10′ 0″");
  await reads((await list(page, 2)).first(), /^The hall open now/);
  await page.getByRole("button", { name: "Duplicate The hall" }).click();
  await list(page, 3);
  await page.getByRole("button", { name: "Open The hall, a copy" }).click();
  await page.waitForFunction(() => document.title.startsWith("The hall, a copy"));
  await type(page, "wall.width", "11'");
  await page.getByRole("button", { name: "Open The landing" }).click();
  await page.waitForFunction(() => document.title.startsWith("The landing"));
  await settled(page);
  assert.equal(await specification(page), landing);
  const blue = await colourAt(page, "The piece", 0.5, 0.5);
  assert.ok(blue[2] > 150 && blue[0] < 90, `its own picture: ${blue}`);
  await page.getByRole("button", { name: "Delete The hall", exact: true }).click();
  await page.waitForFunction(() => document.querySelector("#kept")?.textContent?.includes("The hall is deleted"));
  await screenshot("kept");
  await page.getByRole("button", { name: "Undo: bring back The hall", exact: true }).click();
  await page.waitForFunction(() => !document.querySelector("#kept")?.textContent?.includes("is deleted"));
  await page.getByRole("button", { name: "Open The hall", exact: true }).click();
  await page.waitForFunction(() => document.title.startsWith("The hall ·"));
  await settled(page);
  assert.equal(await said(page, "wall.width"), "10′ 0″", "the copy was changed, and not this");
  const back = await colourAt(page, "The piece", 0.5, 0.5);
  assert.ok(back[0] > 150 && back[2] < 90, `with its picture: ${back}`);
});

pageTest("a crash at any moment loses nothing", async ({ page }) => {
  await ready(page);
  await type(page, "group.gap", "4");
  await page.waitForTimeout(600);
  // The page is gone in the very moment of a change, before the list has it.
  await page.evaluate(() => {
    const field = /** @type {HTMLInputElement} */ (document.querySelector('#specification [data-field="group.gap"] input'));
    field.value = "7";
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
    location.reload();
  });
  await page.waitForTimeout(200);
  await ready(page);
  assert.equal(await said(page, "group.gap"), "7″");
  const rows = await list(page, 1);
  await reads(rows.first(), /open now/);
  // The list has it, too: opened from there it is the same.
  await page.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 3 });
  await page.waitForFunction(() => document.querySelectorAll("#kept button").length === 3);
  await page.getByRole("button", { name: /^Open Low water/ }).click();
  await page.waitForFunction(() => document.title.startsWith("Low water"));
  await settled(page);
  assert.equal(await said(page, "group.gap"), "7″");
});

pageTest("a plan goes out as a file and comes in as a plan of its own, and the one before is kept", async ({ page }) => {
  await ready(page);
  await rename(page, "To send");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the plan as a file" }).click();
  const text = await readFile(await (await download).path(), "utf8");
  await type(page, "wall.width", "9'");
  await page.setInputFiles("#plan", { name: "x.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.waitForFunction(() => document.querySelector('#specification [data-field="wall.width"]')?.textContent?.startsWith("12′ 0″"));
  await list(page, 2);
  await page.getByRole("button", { name: "Open To send" }).click();
  await page.waitForFunction(() => document.querySelector('#specification [data-field="wall.width"]')?.textContent?.startsWith("9′ 0″"));
  await reads(control(page, "wall.width"), "9' 0\"");
});

pageTest("where the browser keeps nothing, a plan that is opened can be undone", async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(globalThis, "indexedDB", { value: { open: () => { throw new Error("not here"); } } });
  });
  await page.reload();
  await ready(page);
  await type(page, "group.gap", "4");
  await page.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 3 });
  await page.waitForFunction(() => !document.title.startsWith("Low water"));
  await settled(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  assert.equal(await said(page, "group.gap"), "4″");
});

pageTest("a plan that two windows have open: neither goes over what the other keeps", async ({ page }) => {
  await ready(page);
  await choose(page, "pieces.count", "one");
  await rename(page, "The quay");
  await list(page, 1);
  await page.waitForFunction(() => document.querySelector("#kept li")?.textContent?.startsWith("The quay"));
  const other = await page.context().newPage();
  await other.goto(page.url());
  await ready(other);
  await reads(other.locator("#title .field input"), "The quay");
  await type(other, "wall.width", "11'");
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.startsWith("Another window is changing this plan too."));
  assert.equal(await said(page, "wall.width"), "12′ 0″", "this window is left alone");
  await type(page, "wall.width", "13'");
  await page.waitForFunction(() => document.querySelectorAll("#kept li").length === 2);
  assert.equal(await said(other, "wall.width"), "11′ 0″");
  // The other window goes on with its own, and the list has both.
  await type(other, "wall.height", "9'");
  await list(other, 2);
  const widths = () =>
    other.evaluate(
      () =>
        new Promise((resolve) => {
          const opened = indexedDB.open("overmantel");
          opened.onsuccess = () => {
            const all = opened.result.transaction("plans").objectStore("plans").getAll();
            all.onsuccess = () => {
              opened.result.close();
              resolve(all.result.map((entry) => JSON.parse(entry.text).wall.size ?? JSON.parse(entry.text).wall));
            };
          };
        }),
    );
  await other.waitForTimeout(700);
  const kept = JSON.stringify(await widths());
  assert.ok(kept.includes("132 in") && kept.includes("156 in") && kept.includes("108 in"), kept);
});
