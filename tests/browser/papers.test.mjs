// Papers on the page: shown as they will be printed, and saved as PDF.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { settled } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

pageTest("papers are shown as they will be printed, and saved one by one or all", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator("#papers > summary").focus();
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelectorAll("#papers canvas").length >= 7);
  await page.waitForTimeout(500);
  const pages = await page.evaluate(() =>
    [.../** @type {NodeListOf<HTMLCanvasElement>} */ (document.querySelectorAll("#papers canvas"))].map((canvas) => {
      const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
      return { name: canvas.getAttribute("aria-label") ?? "", shape: canvas.height / canvas.width, colours: new Set(data).size };
    }),
  );
  // The demo is in inches: letter, 11 / 8.5.
  assert.ok(pages.every(({ shape }) => Math.abs(shape - 11 / 8.5) < 0.01), JSON.stringify(pages));
  assert.ok(pages.every(({ colours }) => colours > 20), JSON.stringify(pages));
  assert.deepEqual(
    [...new Set(pages.map(({ name }) => name.replace(/, page .*/, "")))],
    ["Proposal", "Order for the print shop", "Cut list for the framer", "Receiving and assembly", "Hanging plan", "Template at full size", "Record of the wall"],
  );
  await screenshot("papers");
  await page.locator("#papers-date").fill("2026-11-26");
  // Whose it is, what it says and costs is stated once, under “Make a proposal”.
  await page.locator("#papers").getByRole("button", { name: "fill them in" }).click();
  await page.locator("#propose").getByLabel("From", { exact: true }).fill("Orla Tidewell");
  await page.locator("#propose").getByLabel("Title").fill("For the room by the harbour");
  await page.locator("#propose").getByLabel("Valid until").fill("2027-01-31");
  await page.locator("#propose").getByLabel("Your message").fill("Delivered by boat.");
  await page.locator("#propose").getByLabel(/^Prices/).fill("Three prints, framed: 640 EUR\nCarriage: 20 EUR");
  await page.locator("#propose").getByLabel(/^Prices/).blur();
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save as PDF: Proposal" }).click()]);
  assert.match(download.suggestedFilename(), /, proposal\.pdf$/);
  const file = (await readFile(await download.path())).toString("latin1");
  assert.ok(file.startsWith("%PDF-1.7") && file.includes("/PrintScaling/None") && file.includes("/MediaBox[0 0 612 792]"));
  assert.ok(file.includes("(Orla Tidewell)") && file.includes("(D:20261126)") && file.includes("/DCTDecode"));
  assert.ok(file.includes("(For the room by the harbour: Proposal)"));
  await page.getByText("“Low water, evening” is printed from the reduced copy").waitFor();
  await page.getByRole("radio", { name: "A4" }).check();
  await settled(page);
  await page.waitForTimeout(500);
  const tall = await page.locator("#papers canvas").first().evaluate((element) => {
    const canvas = /** @type {HTMLCanvasElement} */ (element);
    return canvas.height / canvas.width;
  });
  assert.ok(Math.abs(tall - 297 / 210) < 0.01, `A4 is 297 by 210 mm: ${tall}`);
  /** @type {string[]} */
  const names = [];
  page.on("download", (saved) => names.push(saved.suggestedFilename()));
  await page.getByRole("button", { name: "Save all papers" }).click();
  await page.getByText("7 papers saved. Print them at 100 %.").waitFor();
  await page.waitForTimeout(300);
  assert.equal(names.length, 7, names.join("; "));
  // A picture that is chosen goes in as its file is coded.
  const picture = new URL("../../demo-data/pictures/three-boats.jpg", import.meta.url);
  await page.locator("#pictures").setInputFiles(fileURLToPath(picture));
  await settled(page);
  const [order] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save as PDF: Order" }).click()]);
  await page.getByText(/^Saved\. Print it at 100 %\. .*pictures are printed from your files\.$/).waitFor({ timeout: 10_000 });
  const [written, coded] = [await readFile(await order.path()), await readFile(picture)];
  // The end of a JPEG is its coded picture; what its file says of a camera stands at the beginning.
  assert.ok(written.includes(coded.subarray(coded.length - 2000)), "not coded again");
});
