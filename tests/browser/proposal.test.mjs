// Proposals: the page writes a copy of itself with a plan inside, which is read, changed and answered, and asks for nothing.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { choose, inFull, png, reads, ready, said, settled, type } from "./desk.mjs";
import { listen, pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

/** Texts that would do something if they were taken for anything but text. */
const HOSTILE = `</script><img src=x onerror="document.title='caught'"><!--`;

/**
 * Saves what a press hands out.
 * @param {Page} page
 * @param {string} folder
 * @param {string} name The button's.
 */
async function saved(page, folder, name) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name }).click()]);
  const file = path.join(folder, download.suggestedFilename());
  await download.saveAs(file);
  return file;
}

pageTest("title and prices of a proposal follow the plan at work", async ({ page }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  try {
    await ready(page);
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the plan as a file" }).click()]);
    const plan = JSON.parse(await readFile(await download.path(), "utf8"));
    const form = page.locator("#propose");
    await form.locator("summary").click();
    await reads(form.getByLabel("Title"), plan.title);
    await form.getByLabel("Title").fill("For the harbour master");
    await form.getByLabel(/^Prices/).fill("All of it: 120 EUR");
    await type(page, "wall.width", "13'");
    assert.equal(await form.getByLabel("Title").inputValue(), "For the harbour master", "what was written stays with its plan");
    await page.setInputFiles("#plan", { name: "x.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify({ ...plan, title: "Ebb at the mole" })) });
    await reads(form.getByLabel("Title"), "Ebb at the mole");
    assert.equal(await form.getByLabel(/^Prices/).inputValue(), "");
    assert.match(await saved(page, folder, "Save the proposal as a file"), /Ebb at the mole\.html$/);
  } finally {
    await rm(folder, { recursive: true });
  }
});

pageTest("a proposal goes out as one file, is read, changed and answered elsewhere, and the answer comes back", async ({ page, screenshot }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const elsewhere = await page.context().browser()?.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  const buyer = await elsewhere?.newPage();
  assert.ok(buyer);
  const complaints = listen(buyer, "");
  try {
    await ready(page);
    await choose(page, "pieces.count", "one");
    await page.setInputFiles("#pictures", { name: "dusk.png", mimeType: "image/png", buffer: png(800, 1000, [180, 70, 50]) });
    await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("800 × 1000"));
    await page.locator("#propose summary").click();
    await page.locator("#propose").getByLabel("Title").fill(`Dusk ${HOSTILE}`);
    await page.locator("#propose").getByLabel("From", { exact: true }).fill("The painter");
    await page.locator("#propose").getByLabel("Your message").fill(`As we said.\n\n${HOSTILE}`);
    await page.locator("#propose").getByLabel(/^Prices/).fill(`One print, framed: 240 EUR\n${HOSTILE}`);
    const file = await saved(page, folder, "Save the proposal as a file");
    assert.ok((await stat(file)).size < 2_300_000, `${(await stat(file)).size} bytes`);
    const text = await readFile(file, "utf8");
    assert.ok(!text.includes(HOSTILE), "the data cannot end its element");

    await buyer.goto(pathToFileURL(file).href);
    await ready(buyer);
    await reads(buyer.locator("#letter h2"), `Dusk ${HOSTILE}`);
    const read = `${await buyer.locator("#letter").textContent()} ${await buyer.locator("#proposed").textContent()}`;
    for (const words of ["A proposal from The painter", "As we said.", "One print, framed: 240 EUR", "Image: 16 × 20″", "21¹⁄₈ × 25¹⁄₈″", "Change it"]) assert.ok(read.includes(words), `${words} in ${read}`);
    assert.equal(await buyer.locator("#specification").isVisible(), false, "it is to be read, and is no form");
    assert.equal(await buyer.locator(":is(#letter, #offered, #proposed) img").count(), 0);
    assert.equal(await buyer.locator("#offered").textContent().then((text) => text?.includes("The options") === true && buyer.locator("#offered .options").isVisible()), false, "one plan is no choice");
    await buyer.screenshot({ path: "output/proposal.png" });

    await buyer.getByRole("button", { name: "Change it" }).press("Enter");
    assert.equal(await buyer.evaluate(() => document.activeElement?.closest("#specification") !== null), true, "the focus goes where it is changed");
    await buyer.getByRole("button", { name: "Back to the proposal" }).press("Enter");
    assert.equal(await buyer.evaluate(() => document.activeElement?.textContent), "Change it");
    await buyer.getByRole("button", { name: "Change it" }).click();
    // A proposal is changed in short: her size is there, and the wall's width under "in full".
    await type(buyer, "piece.all.image", "20 × 24 in");
    await inFull(buyer);
    await type(buyer, "wall.width", "13'");
    await buyer.getByRole("button", { name: "Back to the proposal" }).click();
    await reads(buyer.locator("#proposed"), /What you changed.*16 × 20.*became 20 × 24/);
    await buyer.getByLabel("the sizes", { exact: true }).check();
    await buyer.getByLabel("Your name").fill("A buyer");
    await buyer.locator("#proposed").getByLabel("Your message").fill("A little larger, please.");
    const answer = await readFile(await saved(buyer, folder, "Save my answer as a file"), "utf8");
    for (const words of ["From: A buyer", "I have decided on the sizes.", "became 20 × 24", "A little larger, please."]) assert.ok(answer.includes(words), `${words} in ${answer}`);
    assert.deepEqual(complaints.splice(0), [], "the proposal has complained");

    // It is a page of its own, from which a proposal can go on.
    await buyer.getByRole("button", { name: "Change it" }).click();
    await buyer.locator("#propose summary").click();
    await buyer.locator("#propose").getByLabel("Title").fill("Dusk, larger");
    const next = await saved(buyer, folder, "Save the proposal as a file");
    await buyer.goto(pathToFileURL(next).href);
    await ready(buyer);
    await reads(buyer.locator("#letter h2"), "Dusk, larger");
    await reads(buyer.locator("#proposed"), /Image: 20 × 24″/);
    assert.deepEqual(
      complaints.filter((complaint) => !complaint.startsWith("request: file:")),
      [],
    );

    // Back at the sender's: both are seen, a part is taken, all of it, and each is undone.
    const file2 = path.join(folder, "answer.txt");
    await writeFile(file2, answer);
    await page.setInputFiles("#plan", file2);
    await page.waitForSelector("#answer:not([hidden])");
    const all = (await page.locator("#answer").textContent()) ?? "";
    for (const words of [`Answers to Dusk ${HOSTILE}`, "A buyer, ", "this change needs a new price"]) assert.ok(all.includes(words), `${words} in ${all}`);
    await page.getByRole("button", { name: "Take only parts of it" }).click();
    const came = (await page.locator("#answer").textContent()) ?? "";
    for (const words of ["An answer from A buyer", "A little larger, please.", "I have decided on the sizes.", "became 20 × 24"]) assert.ok(came.includes(words), `${words} in ${came}`);
    await page.waitForSelector("#compared[data-drawn='2']");
    await screenshot("answer");
    assert.equal(await said(page, "piece.all.image"), "16 × 20″", "nothing is taken yet");
    assert.deepEqual(await page.locator("#answer fieldset label").allTextContents(), [" the wall", " the sizes"]);
    await page.getByRole("button", { name: "Take what is ticked" }).click();
    await reads(page.locator("#status"), /Tick what you want/);
    await page.locator("#answer").getByLabel("the wall", { exact: true }).check();
    await page.getByRole("button", { name: "Take what is ticked" }).click();
    await settled(page);
    assert.deepEqual([await said(page, "wall.width"), await said(page, "piece.all.image")], ["13′ 0″", "16 × 20″"]);
    assert.equal(((await page.locator("#answer details li").allTextContents())).length, 1, "what was taken differs no more");
    await page.getByRole("button", { name: "Take all" }).click();
    await settled(page);
    assert.deepEqual([await said(page, "wall.width"), await said(page, "piece.all.image")], ["13′ 0″", "20 × 24″"]);
    for (const before of ["16 × 20″", "16 × 20″"]) {
      await page.getByRole("button", { name: "Undo" }).click();
      await settled(page);
      assert.equal(await said(page, "piece.all.image"), before);
    }
    assert.equal(await said(page, "wall.width"), "12′ 0″");
  } finally {
    await elsewhere?.close();
    await rm(folder, { recursive: true });
  }
});
