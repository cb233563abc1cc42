// Where plans are kept: each window and each page handed out has a place of its own, a step can be undone after a reload, what a killed
// browser forgot is offered, and what can't be read is told as what it is.

import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { choose, inFull, png, reads, ready, rename, said, settled, specification, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** Until the list of kept plans has the last change, and what is kept at once may be lost.
 * @param {Page} page */
const listed = (page) => page.waitForTimeout(700);

const title = (/** @type {Page} */ page) => page.locator("#title .field input");

pageTest("two windows have a place each, and a new one says which plan it took up", async ({ page }) => {
  await ready(page);
  await rename(page, "The quay");
  await listed(page);
  const other = await page.context().newPage();
  await other.goto(page.url());
  await ready(other);
  await reads(other.locator("#status"), /^This is The quay, last changed /);
  await other.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 3 });
  await settled(other);
  await rename(other, "The stairs");
  await listed(other);
  await page.reload();
  await ready(page);
  await reads(title(page), "The quay");
  await reads(page.locator("#status"), "");
  await other.reload();
  await ready(other);
  await reads(title(other), "The stairs");
  const third = await page.context().newPage();
  await third.goto(page.url());
  await ready(third);
  await reads(title(third), "The stairs");
});

pageTest("steps are undone and done again after a reload", async ({ page }) => {
  await ready(page);
  const before = await said(page, "group.gap");
  await choose(page, "pieces.count", "one");
  await page.setInputFiles("#pictures", { name: "dusk.png", mimeType: "image/png", buffer: png(800, 1000, [180, 70, 50]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("800 × 1000"));
  await choose(page, "pieces.count", "three");
  await type(page, "group.gap", "5");
  await page.reload();
  await ready(page);
  assert.equal(await said(page, "group.gap"), "5″");
  const undo = page.getByRole("button", { name: "Undo" });
  for (let step = 0; step < 4; step += 1) await undo.click();
  await settled(page);
  assert.equal(await said(page, "group.gap"), before);
  assert.match(await specification(page), /9000 × 4200/, "the demo is back, with its picture");
  assert.ok(await undo.isDisabled());
  await page.reload();
  await ready(page);
  const redo = page.getByRole("button", { name: "Redo" });
  for (let step = 0; step < 4; step += 1) await redo.click();
  await settled(page);
  assert.equal(await said(page, "group.gap"), "5″");
  assert.ok(await redo.isDisabled());
});

pageTest("what a killed browser forgot is offered from the list", async ({ page }) => {
  await ready(page);
  await type(page, "wall.width", "11'");
  await rename(page, "The quay");
  await listed(page);
  // What is kept at once reaches the disk some seconds later.
  const other = await page.context().newPage();
  await page.close();
  await other.goto("about:blank");
  await other.addInitScript(() => {
    if (sessionStorage.getItem("killed") === null) localStorage.clear();
    sessionStorage.setItem("killed", "");
  });
  await other.goto((await import("./address.mjs")).pageAddress);
  await ready(other);
  await reads(other.locator("#latest"), /^Your last plan on this device is The quay, changed /);
  await other.getByRole("button", { name: "Open it" }).click();
  await reads(title(other), "The quay");
  await inFull(other);
  assert.equal(await said(other, "wall.width"), "11′ 0″");
  await reads(other.locator("#latest"), "");
});

pageTest("the database of a newer page is told as one", async ({ page }) => {
  await page.evaluate(
    () =>
      new Promise((resolve) => {
        const opened = indexedDB.open("overmantel", 99);
        opened.onsuccess = () => {
          opened.result.close();
          resolve(undefined);
        };
      }),
  );
  await page.reload();
  await ready(page);
  await type(page, "group.gap", "4");
  await reads(page.locator("#status"), /a newer version of this page keeps its plans in this browser/);
  assert.equal(await said(page, "group.gap"), "4″");
});

pageTest("files that hold nothing, or too much, are told as such", async ({ page }) => {
  await ready(page);
  const before = await specification(page);
  await page.setInputFiles("#plan", { name: "quay.json", mimeType: "application/json", buffer: Buffer.alloc(0) });
  await reads(page.locator("#status"), /^quay\.json is empty: there is no plan in it\./);
  await page.setInputFiles("#plan", { name: "all.json", mimeType: "application/json", buffer: Buffer.alloc((16 << 20) + 1, " ") });
  await reads(page.locator("#status"), /^all\.json is too large: a plan with all its pictures takes up to 16 MB, and this file 17 MB\./);
  await page.setInputFiles("#pictures", { name: "ebb.jpg", mimeType: "image/jpeg", buffer: Buffer.alloc(0) });
  await reads(page.locator("#status"), /ebb\.jpg.* is empty/);
  assert.equal(await specification(page), before);
});

pageTest("a proposal that is opened from a disk does not take the place of one's own plan", async ({ page }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  try {
    await ready(page);
    await rename(page, "The quay");
  await listed(page);
    await page.locator("#propose summary").click();
    await page.locator("#propose").getByLabel("Title").fill("For the landing");
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the proposal as a file" }).click()]);
    const file = path.join(folder, "proposal.html");
    await download.saveAs(file);
    const proposal = await page.context().newPage();
    await proposal.goto(pathToFileURL(file).href);
    await ready(proposal);
    await proposal.getByRole("button", { name: "Change it" }).click();
    await inFull(proposal);
    await type(proposal, "wall.width", "13'");
    await listed(proposal);
    await proposal.close();
    const own = await page.context().newPage();
    await own.goto(page.url());
    await ready(own);
    await reads(title(own), "The quay");
    assert.equal(await said(own, "wall.width"), "12′ 0″");
    assert.ok(!(await own.evaluate(() => localStorage.getItem("overmantel.plan")))?.includes("13'"));
  } finally {
    await rm(folder, { recursive: true });
  }
});

pageTest("the demo's painting is never among one's own", async ({ page }) => {
  await ready(page);
  const files = ["ebb", "slack", "boats"].map((name, index) => ({ name: `${name}.png`, mimeType: "image/png", buffer: png(800, 1000, [40 + index * 80, 70, 50]) }));
  await page.setInputFiles("#pictures", files);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("800 × 1000"));
  await reads(title(page), "ebb, slack and boats");
  for (const start of ["One large", "Three above a sofa"]) {
    const details = page.locator("#starts");
    if (!(await details.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open))) await details.locator("summary").click();
    await page.getByRole("button", { name: start, exact: true }).click();
    await settled(page);
  }
  const text = await specification(page);
  assert.ok(!text.includes("Low water") && !text.includes("9000 × 4200"), text);
  for (const name of ["ebb", "slack", "boats"]) assert.ok(text.includes(name), `${name} in ${text}`);
});
