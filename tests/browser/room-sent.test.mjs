// The room in a proposal and in papers: only where it is chosen. The room's own truth.json says where its sheet is; the piece that hangs
// there is of one blue.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { png, ready, settled } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const room = path.join(path.dirname(fileURLToPath(import.meta.url)), "../rooms/green-sofa");
/** @type {{sheet: {corners: {px: [number, number]}[]}}} */
const truth = JSON.parse(await readFile(path.join(room, "truth.json"), "utf8"));
const middle = [0, 1].map((axis) => truth.sheet.corners.reduce((sum, { px }) => sum + (px[axis] ?? 0) / 4, 0));

/**
 * A photograph with one blue piece in it.
 * @param {Page} page
 */
async function hang(page) {
  await ready(page);
  await page.setInputFiles("#pictures", { name: "blue.png", mimeType: "image/png", buffer: png(2400, 3000, [30, 60, 190]) });
  await settled(page);
  await page.locator('#view input[value="photograph"]').check({ force: true });
  await page.setInputFiles("#room-file", path.join(room, "photo.jpg"));
  await page.waitForSelector("#room-frame:not([hidden])");
  await settled(page);
}

/**
 * What is downloaded by a press.
 * @param {Page} page
 * @param {import("playwright-core").Locator} press
 */
async function downloaded(page, press) {
  const [download] = await Promise.all([page.waitForEvent("download"), press.click()]);
  return readFile(await download.path());
}

/**
 * The colour of a JPEG where the sheet hangs.
 * @param {Page} page
 * @param {string} address
 */
function colourOf(page, address) {
  return page.evaluate(
    async ([source, x, y]) => {
      const image = new Image();
      image.src = String(source);
      await image.decode();
      const context = new OffscreenCanvas(image.naturalWidth, image.naturalHeight).getContext("2d");
      context?.drawImage(image, 0, 0);
      const [red = 0, , blue = 0] = context?.getImageData(Number(x), Number(y), 1, 1).data ?? [];
      return { size: [image.naturalWidth, image.naturalHeight], isBlue: blue > red + 60 };
    },
    [address, ...middle],
  );
}

/** How often a picture of the photograph's 1600 × 1200 pixels is in a PDF (ISO 32000-1, 8.9.5: Width and Height of an image). */
const photographs = (/** @type {Buffer} */ pdf) => pdf.toString("latin1").match(/\/Width 1600\s*\/Height 1200/g)?.length ?? 0;

pageTest("the room goes into a proposal only when that is chosen, and the client sees each option in it", async ({ page }) => {
  await hang(page);
  const propose = page.locator("#propose");
  await propose.locator("> summary").click();
  await propose.getByRole("button", { name: "Add this plan as an option" }).click();
  await propose.getByRole("button", { name: "Add this plan as an option" }).click();
  const choice = propose.getByLabel(/my photograph of the room/);
  assert.equal(await choice.isChecked(), false);
  const along = propose.locator(".along");
  await page.waitForFunction(() => document.querySelector("#propose .along li"));
  assert.doesNotMatch(await along.innerText(), /the room/);
  const without = await downloaded(page, propose.getByRole("button", { name: "Save the proposal as a file" }));
  assert.doesNotMatch(without.toString(), /"in_room":"\/9j/);
  await choice.check();
  await page.waitForFunction(() => document.querySelector("#propose .along")?.textContent?.includes("the room as you photographed it"));
  assert.match(await along.innerText(), /the room as you photographed it, with .*, 1600 × 1200 px, \d+ KB/);
  const file = await downloaded(page, propose.getByRole("button", { name: "Save the proposal as a file" }));
  const pdf = await downloaded(page, propose.getByRole("button", { name: "Save it as a PDF" }));
  assert.equal(photographs(pdf), 2);
  // It is not kept: another day it is chosen again.
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await page.locator("#propose").evaluate((one) => one.toggleAttribute("open", true));
  await page.waitForSelector("#propose .along-with:not([hidden])");
  assert.equal(await choice.isChecked(), false);
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const sent = path.join(folder, "sent.html");
  await writeFile(sent, file);
  // The client has a browser of their own.
  const context = await page.context().browser()?.newContext();
  const client = await context?.newPage();
  assert.ok(context && client);
  await client.goto(pathToFileURL(sent).href);
  await ready(client);
  const view = client.locator("#proposed figure img");
  await view.waitFor();
  const seen = await colourOf(client, (await view.getAttribute("src")) ?? "");
  assert.deepEqual(seen, { size: [1600, 1200], isBlue: true });
  assert.match((await view.getAttribute("alt")) ?? "", /in a photograph of the room/);
  await client.locator("#offered input[type=radio]").nth(1).check({ force: true });
  assert.equal(await client.locator("#proposed figure img").count(), 1, "of the option that is shown");
  await context.close();
  await rm(folder, { recursive: true });
});

pageTest("a paper shows the room where that is chosen, on the page and in its file", async ({ page }) => {
  await hang(page);
  const papers = page.locator("#papers");
  await papers.locator("> summary").click();
  const save = page.locator('#papers button[data-kind="proposal"]');
  await save.waitFor();
  const pages = page.locator('#papers canvas[aria-label^="Proposal"]');
  const before = await pages.count();
  assert.equal(photographs(await downloaded(page, save)), 0);
  await papers.getByLabel(/my photograph of the room/).check();
  await page.waitForFunction((count) => document.querySelectorAll('#papers canvas[aria-label^="Proposal"]').length > count, before);
  await settled(page);
  // On its last page something is of the blue that hangs there.
  const blue = await pages.last().evaluate((one) => {
    const canvas = /** @type {HTMLCanvasElement} */ (one);
    const { data } = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).getImageData(0, 0, canvas.width, canvas.height);
    let count = 0;
    for (let at = 0; at < data.length; at += 4) if ((data[at + 2] ?? 0) > (data[at] ?? 0) + 60) count += 1;
    return count / (data.length / 4);
  });
  assert.ok(blue > 0.005, `${blue} of the page is blue`);
  assert.equal(photographs(await downloaded(page, save)), 1);
});

pageTest("the view is handed to the system's own way to share, as a picture without anything of the camera", async ({ page }) => {
  await page.addInitScript(() => {
    Object.assign(navigator, { canShare: () => true, share: async (/** @type {ShareData} */ data) => void Object.assign(globalThis, { shared: data.files }) });
  });
  await page.reload();
  await hang(page);
  await page.locator("#look").evaluate((one) => one.toggleAttribute("open", true));
  await page.locator("#share-view").click();
  await page.waitForFunction(() => Object.hasOwn(globalThis, "shared"));
  const { address, name, bytes } = await page.evaluate(async () => {
    const [file] = /** @type {{shared: File[]}} */ (Object(globalThis)).shared;
    if (file === undefined) throw new Error("nothing was shared");
    return { address: URL.createObjectURL(file), name: file.name, bytes: [...new Uint8Array(await file.arrayBuffer())] };
  });
  assert.match(name, /\.jpg$/);
  assert.deepEqual(await colourOf(page, address), { size: [1600, 1200], isBlue: true });
  // Exif 2.3, 4.5.4: the identifier of its segment.
  assert.ok(!Buffer.from(bytes).includes("Exif\0"));
});
