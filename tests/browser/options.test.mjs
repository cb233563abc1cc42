// Proposals with options: made, read side by side, changed, kept, accepted, taken up and sent again; in Chromium and on a phone by touch.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { choose, png, reads, ready, settled, type } from "./desk.mjs";
import { listen, pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */
/** @typedef {import("playwright-core").Locator} Locator */

/** A text that would do something if it were taken for anything but text. */
const HOSTILE = `</script><img src=x onerror="document.title='caught'"><!--`;

/**
 * Saves what a press hands out.
 * @param {Page} page
 * @param {string} folder
 * @param {Locator} button
 */
async function saved(page, folder, button) {
  const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
  const file = path.join(folder, `${Date.now()}-${download.suggestedFilename()}`);
  await download.saveAs(file);
  return file;
}

/**
 * Opens the example of a price book and makes three options of the plan at work: paper, canvas, aluminium.
 * @param {Page} page
 */
async function threeOptions(page) {
  await page.locator("#prices > summary").click();
  await page.getByRole("button", { name: "Open the example" }).click();
  await page.locator("#propose > summary").click();
  const add = page.locator("#propose").getByRole("button", { name: "Add this plan as an option" });
  await add.click();
  for (const material of ["canvas", "aluminium"]) {
    await choose(page, "piece.all.material", material);
    await add.click();
  }
  assert.equal(await page.locator("#propose .offers > li").count(), 3);
}

/**
 * A browser of somebody else's.
 * @param {Page} page
 * @param {import("playwright-core").BrowserContextOptions} options
 */
async function elsewhere(page, options) {
  const context = await page.context().browser()?.newContext({ acceptDownloads: true, ...options });
  const other = await context?.newPage();
  assert.ok(context && other);
  return { context, other };
}

/**
 * The canvases of the options as hashes of their pixels.
 * @param {Page} page
 */
function drawn(page) {
  return page.locator("#offered .options canvas").evaluateAll((all) => all.map((canvas) => (canvas instanceof HTMLCanvasElement ? canvas.toDataURL() : "")));
}

pageTest("three options go out, one is changed, reloaded, accepted, and its papers name it", async ({ page, screenshot }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  await ready(page);
  await threeOptions(page);
  const form = page.locator("#propose");
  await form.getByLabel("Name of option 2").fill("Three canvases");
  await form.getByLabel("Number", { exact: true }).fill("2026-014");
  await form.getByLabel("Client", { exact: true }).fill("The harbour office");
  await form.getByLabel("From", { exact: true }).fill("The painter");
  await form.getByLabel("How to reach you").fill("The old pilot house\nTidal flats");
  await form.getByLabel("Valid until").fill("2999-01-31");
  await form.getByLabel("If your client changes something").selectOption("needed");
  await form.getByLabel("A picture of your mark").setInputFiles({ name: "mark.png", mimeType: "image/png", buffer: png(900, 600, [40, 60, 80]) });
  await form.locator("img.emblem").waitFor();
  // What goes along is said before it goes: the mark's file is not, the copies and the rows of the book are.
  await reads(form.locator(".along"), /“Low water, evening”, 1200 × 560 px, \d+ KB.*your prices in \d+ rows: .*canvas/);
  await form.getByLabel("Pictures go along at").selectOption("600");
  await reads(form.locator(".along"), /“Low water, evening”, 600 × 280 px/);
  const file = await saved(page, folder, form.getByRole("button", { name: "Save the proposal as a file" }));
  await page.locator("#sent > summary").click();
  await reads(page.locator("#sent"), /2026-014 · Low water.*for The harbour office.*Three canvases, USD .*State: open/);

  const { context, other: client } = await elsewhere(page, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const complaints = listen(client, "");
  try {
    await client.goto(pathToFileURL(file).href);
    await ready(client);
    await reads(client.locator("#letter"), /A proposal from The painter for The harbour office.*2026-014.*The old pilot house · Tidal flats.*valid until 31 January 2999/);
    assert.equal(await client.locator("#letter img").count(), 1);
    await client.waitForSelector("#offered .options[data-drawn='flat']");
    const cards = client.locator("#offered .options label");
    assert.equal(await cards.count(), 3);
    assert.match((await cards.nth(1).textContent()) ?? "", /Three canvases.*USD [\d.]+.*the lowest price/);
    const flat = await drawn(client);
    assert.equal(new Set(flat).size, 3, "each is drawn as it is");
    await client.locator('#view input[value="oblique"]').check({ force: true });
    await client.waitForSelector("#offered .options[data-drawn='room']");
    const room = await drawn(client);
    assert.ok(room.every((one, index) => one !== flat[index]));
    await client.locator('#view input[value="elevation"]').check({ force: true });
    await client.waitForSelector("#offered .options[data-drawn='flat']");

    // The second is turned large, and changed; the price follows.
    const before = (await cards.nth(1).locator(".total").textContent()) ?? "";
    await cards.nth(1).tap();
    await reads(client.locator("#proposed"), /Three canvases.*Image: 16 × 20″/);
    await client.getByRole("button", { name: "Change it" }).tap();
    await type(client, "piece.all.image", "20 × 24 in");
    await client.getByRole("button", { name: "Back to the proposal" }).tap();
    await reads(client.locator("#proposed"), /What you changed.*became three of 20 × 24.*As changed, it costs USD [\d.]+; as it was sent, USD [\d.]+/);
    const after = (await cards.nth(1).locator(".total").textContent()) ?? "";
    assert.notEqual(after, before);

    // A reload keeps it: which is large, what it became, and the words.
    await client.getByLabel("I’d like this one").check();
    await client.getByLabel("Your name").fill(`Anna ${HOSTILE}`);
    await client.locator("#proposed").getByLabel("Your message").fill("By Easter, please.");
    await client.reload();
    await ready(client);
    await reads(client.locator("#proposed"), /Three canvases.*Image: 20 × 24″/);
    assert.equal(await cards.nth(1).locator("input").isChecked(), true);
    assert.equal(await client.getByLabel("I’d like this one").isChecked(), true);
    assert.equal(await client.locator("#proposed").getByLabel("Your message").inputValue(), "By Easter, please.");
    assert.equal(await cards.nth(1).locator(".total").textContent(), after);
    const link = (await client.getByRole("link", { name: "Send it by mail" }).getAttribute("href")) ?? "";
    assert.match(link, /^mailto:\?subject=Answer%20to%20.*&body=Answer%20to%3A.*%0D%0A/);
    assert.ok(decodeURIComponent(link).includes("By Easter, please."));
    const answer = await saved(client, folder, client.getByRole("button", { name: "Save my answer as a file" }));
    const text = await readFile(answer, "utf8");
    assert.match(text, /^Answer to: Low water, three over the sofa \(2026-014\)\nFrom: Anna/);
    assert.match(text, /I'd like this one: Three canvases\.\nWhat changed:\n(- .*\n){1,10}Price: USD/);

    // Somebody else of the household answers, too: on their own machine nothing is known of the first answer.
    const { context: second, other: partner } = await elsewhere(page, { viewport: { width: 1440, height: 900 } });
    await partner.goto(pathToFileURL(file).href);
    await ready(partner);
    await reads(partner.locator("#proposed"), /Image: 16 × 20″/);
    await partner.getByLabel("Your name").fill("Ben");
    await partner.getByLabel("none of these").check();
    const declined = await saved(partner, folder, partner.getByRole("button", { name: "Save my answer as a file" }));
    await second.close();

    // At the artist's: both beside each other, the new price, and one press to the papers.
    await page.setInputFiles("#plan", declined);
    await reads(page.locator("#answer"), /Ben, .*None of these/);
    await page.setInputFiles("#plan", answer);
    await reads(page.locator("#answer"), /Answers to .*\(2026-014\).*Ben, .*None of these, thank you.*Anna.*I'd like this one: Three canvases.*Price: USD/);
    await page.waitForSelector("#compared[data-drawn='3']");
    assert.equal(await page.locator("#answer img").count(), 0, "what was written is only ever text");
    await screenshot("answers");
    await reads(page.locator("#sent"), /State: accepted/);
    await page.locator("#answer section").nth(1).getByRole("button", { name: "Take it up and print its papers" }).click();
    await settled(page);
    await reads(page.locator("#status"), /is the plan you have open/);
    await page.waitForSelector("#papers[open] .pages canvas");
    const order = await saved(page, folder, page.getByRole("button", { name: "Save as PDF: Order for the print shop" }));
    assert.ok((await readFile(order)).subarray(0, 5).equals(Buffer.from("%PDF-")));
    assert.deepEqual(complaints.filter((complaint) => !complaint.startsWith("request: file:")), []);
  } finally {
    await context.close();
    await rm(folder, { recursive: true });
  }
});

pageTest("a proposal is kept while it is made, listed, sent again, and the list is a file", async ({ page }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  try {
    await ready(page);
    await threeOptions(page);
    const form = page.locator("#propose");
    await form.getByLabel("Number", { exact: true }).fill("T-099");
    await form.getByLabel("Client", { exact: true }).fill(HOSTILE);
    await form.getByLabel("Name of option 1").fill("On paper");
    await form.locator(".offers details summary").first().click();
    await form.getByLabel("What sets it apart: option 1").fill("the one you saw at the lock");
    // A reload loses none of it.
    await page.reload();
    await ready(page);
    await page.locator("#propose > summary").click();
    assert.equal(await form.getByLabel("Name of option 1").inputValue(), "On paper");
    assert.equal(await form.getByLabel("Client", { exact: true }).inputValue(), HOSTILE);
    assert.equal(await form.getByLabel("What sets it apart: option 1").inputValue(), "the one you saw at the lock");
    await form.getByRole("button", { name: "Earlier: option 2" }).click();
    assert.equal(await form.getByLabel("Name of option 2").inputValue(), "On paper");
    await form.getByRole("button", { name: "Remove: option 3" }).click();
    await saved(page, folder, form.getByRole("button", { name: "Save the proposal as a file" }));
    const list = page.locator("#sent");
    await page.locator("#sent > summary").click();
    await reads(list, /T-099/);
    assert.equal(await list.locator("img").count(), 0);

    // Sent again: the next version, with what is new in it.
    await list.getByRole("button", { name: /^Send it again, changed/ }).click();
    await reads(form, /next version of T-099/);
    assert.equal(await form.getByLabel("Name of option 2").inputValue(), "On paper");
    await form.getByRole("button", { name: "Remove: option 1" }).click();
    await type(page, "piece.all.image", "20 × 24 in");
    await form.getByRole("button", { name: "Add this plan as an option" }).click();
    const second = await saved(page, folder, form.getByRole("button", { name: "Save the proposal as a file" }));
    await reads(list, /T-099, version 2/);
    const { context, other: client } = await elsewhere(page, { viewport: { width: 1440, height: 900 } });
    await client.goto(pathToFileURL(second).href);
    await ready(client);
    await reads(client.locator("#letter"), /T-099, version 2/);
    await reads(client.locator("#offered"), /New since the version before: New in this version/);
    await context.close();

    // What its sender says of it; as a file, and back.
    await list.getByLabel(/^What became of T-099 ·/).selectOption("declined");
    await reads(list, /State: declined/);
    // The list is looked through, by keys; what is written in it is no pattern.
    const find = list.getByRole("searchbox");
    const rows = list.locator("> ul > li");
    assert.equal(await rows.count(), 2);
    await find.fill("DECLINED t-099");
    await page.waitForFunction(() => document.querySelectorAll("#sent > ul > li").length === 1);
    assert.match(await rows.innerText(), /State: declined/);
    await find.fill(".*");
    await reads(list, /None of the 2 says that\./);
    await find.fill("");
    await list.getByLabel("Order of the list").selectOption("by state");
    await page.waitForFunction(() => document.querySelectorAll("#sent > ul > li").length === 2);
    assert.match(await rows.first().innerText(), /State: open/);
    const file = await saved(page, folder, list.getByRole("button", { name: "Save the list as a file" }));
    assert.equal(JSON.parse(await readFile(file, "utf8")).proposals.length, 2);
    for (let left = 2; left > 0; left -= 1) {
      await list.getByRole("button", { name: /^Delete/ }).first().click();
      await page.waitForFunction((count) => document.querySelectorAll('#sent button[aria-label^="Delete"]').length === count, left - 1);
    }
    await list.getByRole("button", { name: /^Undo/ }).first().click();
    await page.waitForFunction(() => document.querySelectorAll('#sent button[aria-label^="Delete"]').length === 1);
    await list.locator("input[type=file]").setInputFiles(file);
    await reads(list, /T-099, version 2.*State: open/);
    await reads(list, /T-099 · .*State: declined/);
    // The next number is the one after the last.
    await page.evaluate(() => localStorage.removeItem("overmantel.draft"));
    await page.reload();
    await ready(page);
    await page.locator("#propose > summary").click();
    await page.waitForFunction(() => [...document.querySelectorAll("#propose input")].some((input) => input instanceof HTMLInputElement && input.value === "T-100"));
    const wrong = path.join(folder, "wrong.json");
    await writeFile(wrong, "{ \"overmantel_sent\": 1 }");
    await page.locator("#sent > summary").click();
    await list.locator("input[type=file]").setInputFiles(wrong);
    await reads(page.locator("#status"), /wrong\.json: the list of proposals can't be read: "proposals" is missing/);
  } finally {
    await rm(folder, { recursive: true });
  }
});

pageTest("what was sent by the version before opens, and its answer finds it", async ({ page }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  try {
    await ready(page);
    await page.locator("#propose > summary").click();
    const made = await readFile(await saved(page, folder, page.getByRole("button", { name: "Save the proposal as a file" })), "utf8");
    const older = await readFile("proposals/1/dusk.json", "utf8");
    const file = path.join(folder, "older.html");
    await writeFile(file, made.replace(/(id="proposal"[^>]*>)[^<]*/, (_, head) => `${head}${older}`));
    const { context, other: client } = await elsewhere(page, { viewport: { width: 1440, height: 900 } });
    await client.goto(pathToFileURL(file).href);
    await ready(client);
    await reads(client.locator("#letter"), /Dusk over the mole.*A proposal from The painter.*Both weeks are fine.*valid until 31 January 2027/);
    await reads(client.locator("#proposed"), /Image: 16 × 20″.*One print, framed: 240 EUR.*Packing: 12 EUR/);
    await client.getByRole("button", { name: "Change it" }).click();
    await client.setInputFiles("#plan", "proposals/1/dusk-answer.txt");
    await reads(client.locator("#answer"), /An answer from A buyer.*I have decided on the sizes.*became 20 × 24/);
    await context.close();
  } finally {
    await rm(folder, { recursive: true });
  }
});
