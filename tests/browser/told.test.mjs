// What is rarely said: each trouble, and each thing that is done, is told those who listen in a sentence or two of at most 120 letters, and once.

import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { choose, control, inFull, png, rename, settled, type } from "./desk.mjs";
import { heard, listenTo, MOST } from "./ear.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const LONG = `${"the wall above the landing stage as it was measured on the second visit, ".repeat(3)}again`;

/** @param {string} name @param {string | Buffer} text */
const file = (name, text) => ({ name, mimeType: "application/octet-stream", buffer: Buffer.from(text) });
/** @param {string} name */
const picture = (name) => file(name, png(1200, 1500, [60, 90, 110]));

/**
 * Does something and holds what is heard of it to what is listened to: something of this, none of it twice, nothing more of it a moment
 * later. What does not fit into that stands in the line below the drawing.
 * @param {Page} page
 * @param {() => Promise<unknown>} act
 * @param {RegExp} said
 * @param {RegExp} [reads]
 */
async function tells(page, act, said, reads) {
  await heard(page);
  await act();
  /** @type {string[]} */
  const all = [];
  for (let turn = 0; turn < 60 && !all.some((line) => said.test(line)); turn += 1) {
    await page.waitForTimeout(50);
    all.push(...(await heard(page)));
  }
  // The list is kept 400 ms after a change, and a trouble with it is told then.
  await page.waitForTimeout(700);
  all.push(...(await heard(page)));
  assert.equal(all.filter((line) => said.test(line)).length, 1, `${said} once in ${JSON.stringify(all)}`);
  assert.equal(new Set(all).size, all.length, `nothing twice in ${JSON.stringify(all)}`);
  for (const line of all) {
    assert.ok(line.length <= MOST, `${line.length} letters: ${line}`);
    assert.ok((line.match(/[.!?](?=\s|$)/g) ?? []).length <= 2, line);
  }
  if (reads !== undefined) assert.match((await page.locator("#status").textContent()) ?? "", reads);
}

/** A plan with three pictures of long names, none of which is here. */
async function unfurnished() {
  const { readFile } = await import("node:fs/promises");
  const low = JSON.parse(await readFile(new URL("../../demo-data/plans/low-water.json", import.meta.url), "utf8"));
  const names = ["the quay before the tide comes in, in the third week", "slack water off the mole, seen from the pilot house", "boats on the mud, waiting"];
  const { split: _, ...plan } = low;
  const [piece] = low.pieces;
  return JSON.stringify({
    ...plan,
    title: "The quay",
    pictures: names.map((name) => ({ ...low.pictures[0], name, file: `${name.replaceAll(" ", "_")}.jpg` })),
    pieces: names.map((name) => ({ ...piece, picture: name })),
  });
}

pageTest("what is done is told: units, pictures, things added and removed", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await listenTo(page);
  await tells(page, () => page.locator('#units input[value="centimetres"]').press("Space"), /^Lengths in centimetres\.$/);
  await tells(page, () => page.locator('#units input[value="both"]').press("Space"), /^Lengths in inches and centimetres\.$/);
  await tells(page, () => page.locator('#units input[value="inches"]').press("Space"), /^Lengths in inches\.$/);
  await tells(page, () => page.setInputFiles("#pictures", [picture("ebb.png"), picture("slack.png"), picture("boats.png")]), /^Three pictures hang\.$/);
  await tells(page, () => page.setInputFiles("#pictures", [picture("dusk.png")]), /^One picture hangs\.$/);
  await tells(page, () => page.setInputFiles("#pictures", ["a", "b", "c", "d"].map((name) => picture(`${name}.png`))), /^Three of the 4 pictures hang; the others can be chosen in the sentences\.$/);
  const kind = await control(page, "fixtures.add").locator("option").evaluateAll((options) => options.map((one) => (one instanceof HTMLOptionElement ? one.text : "")).find((words) => words.includes("sofa")) ?? "");
  await tells(page, () => choose(page, "fixtures.add", kind), /^Added: the .*sofa.*; undo takes it away\.$/);
  await tells(page, () => control(page, "fixture.0.kind").first().selectOption("remove"), /^Removed: the .*sofa.*; undo brings it back\.$/);
});

pageTest("files that can't be used, and pictures that are not here", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await listenTo(page);
  const plan = (/** @type {string} */ name, /** @type {string | Buffer} */ text) => () => page.setInputFiles("#plan", file(name, text));
  await tells(page, plan("x.json", ""), /^x\.json is empty: there is no plan in it\./);
  await tells(page, plan(`${LONG}.json`, "dear painter"), /^the wall above .*….*\.json can't be opened:/, /stops short or is not JSON/);
  await tells(page, plan("x.json", Buffer.alloc((17 << 20) + 1, 32)), /^x\.json is too large: /, /takes up to 16 MB/);
  await tells(page, plan("x.json", JSON.stringify({ overmantel: 9 })), /^x\.json can't be opened: /);
  await tells(page, async () => page.setInputFiles("#plan", file("quay.json", await unfurnished())), /^3 pictures are not here: choose or drop their files\.$/, /“the quay before.*”: the_quay.*\.jpg; “slack/);
  await tells(page, () => page.setInputFiles("#pictures", [file("x.jpg", "")]), /^x\.jpg is empty/);
  await tells(page, () => page.setInputFiles("#pictures", [file(`${LONG}.jpg`, "no picture"), file("y.jpg", ""), picture("ebb.png")]), /^2 of 3 files can't be used\. One picture hangs\.$/, /y\.jpg is empty/);
  await tells(page, () => page.setInputFiles("#stock", file(`${LONG}.json`, "{")), /^the wall .* can't be used:/);
  await tells(page, () => page.setInputFiles("#stock", file("yard.json", '{ "overmantel_stock": 1, "sticks": 3 }')), /^yard\.json can't be used: /);
  await tells(page, () => page.setInputFiles("#stock", file("yard.json", '{ "overmantel_stock": 1 }')), /^The list yard\.json is in use\.$/);
  await tells(page, () => page.setInputFiles("#book", file("torn.json", '{"overmantel_prices": 1, "name"')), /^torn\.json can't be used: /);
  await tells(page, () => page.setInputFiles("#book", file(`${LONG}.json`, JSON.stringify({ overmantel_prices: 1, name: "x", currency: "EUR", rows: [{ for: "paper", by: { each: "40" } }] }))), /^the wall .* is in use\.$/);
  await rename(page, LONG.slice(0, 118));
  await page.locator("#kept > summary").click();
  await page.getByRole("button", { name: /^Duplicate/ }).first().waitFor();
  await tells(page, () => page.getByRole("button", { name: /^Duplicate the wall/ }).click(), /^the wall .* is kept\.$/);
  await tells(page, () => page.getByRole("button", { name: /^Open Low water|^Open the wall/ }).first().click(), / is open\./);
});

pageTest("links, addresses and fields that are wrong", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  await listenTo(page);
  const go = (/** @type {string} */ hash) => () => page.evaluate((hash) => (location.hash = hash), hash);
  await tells(page, go("work=high-water"), /^The address can't be followed: there is no work "high-water" on this page/, /it has .*low-water-evening/);
  await tells(page, go("work=low-water-evening&size=large"), /^The address can't be followed: /);
  await tells(page, go("work=low-water-evening"), /^This work came with the address\. Your own plan is kept as it was; undo brings it back\.$/, /Change its size, its frame and your wall\./);
  await tells(page, go("AgAAAAAD"), /^The link can't be opened: /);
  await tells(page, go(`%3Cimg${"x".repeat(300)}`), /^The link can't be opened:/);
  await inFull(page);
  await page.locator("#send > summary").click();
  const address = page.getByLabel("Address of a published page of Overmantel");
  await tells(page, async () => {
    await address.fill(`${"example.org/".repeat(20)}`);
    await address.press("Tab");
  }, /is not the address of a published page|address/);
  await tells(page, async () => {
    await address.fill("https://example.org/overmantel.html");
    await address.press("Tab");
    await type(page, "wall.width", `${"a yard or so and ".repeat(12)}`);
  }, /too long for a length/);
  await control(page, "wall.width").press("Escape");
  const link = await page.getByLabel("The link", { exact: true }).inputValue();
  await page.setInputFiles("#pictures", ["ebb.png", "slack.png", "boats.png"].map(picture));
  await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("Three pictures hang."));
  await page.waitForTimeout(500);
  const drawn = await page.getByLabel("The link", { exact: true }).inputValue();
  assert.notEqual(drawn, link);
  // Somebody else's browser: none of the pictures is there.
  const elsewhere = await page.context().browser()?.newContext();
  const other = await elsewhere?.newPage();
  assert.ok(other);
  await other.goto(page.url().split("#")[0] ?? "");
  await other.waitForSelector("html[data-ready]");
  await listenTo(other);
  await tells(other, () => other.evaluate((hash) => (location.hash = hash ?? ""), drawn.split("#")[1]), /^This plan came with the link\. Your own is kept as it was; undo brings it back\.$/, /The link has only the colours or a rough sketch of ebb, slack, boats\./);
  await elsewhere?.close();
  takeComplaints();
});

pageTest("another window, and a browser that keeps nothing", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await type(page, "wall.width", "11'");
  await page.waitForTimeout(600);
  await listenTo(page);
  const other = await page.context().newPage();
  await other.goto(page.url());
  await other.waitForSelector("html[data-ready]");
  await tells(page, async () => {
    await other.locator('#depth input[value="full"]').check({ force: true });
    await type(other, "group.gap", "4");
  }, /^Another window is changing this plan too\. What you change here is kept as a separate plan\.$/);
  await other.close();
  for (const [name, told] of /** @type {const} */ ([["QuotaExceededError", "this browser has no room left"], ["SecurityError", "this browser does not let the page keep anything"]])) {
    await page.evaluate((name) => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("It is not kept.", name);
      };
    }, name);
    await tells(page, () => type(page, "wall.width", name === "QuotaExceededError" ? "12'" : "13'"), new RegExp(`^Only the plan you have open is kept: ${told}\\.`), /Save it as a file before you open another\.$/);
    // It stands there with the next change, and is not said again.
    await heard(page);
    await type(page, "group.gap", name === "QuotaExceededError" ? "3" : "2");
    await page.waitForTimeout(700);
    assert.deepEqual(await heard(page), []);
    assert.match((await page.locator("#status").textContent()) ?? "", /^Only the plan you have open is kept/);
    // Nor where something else was said between.
    await tells(page, () => page.keyboard.press("Control+z"), /^Undone: /);
    await type(page, "group.gap", name === "QuotaExceededError" ? "3 1/2" : "2 1/2");
    await page.waitForTimeout(700);
    assert.deepEqual(await heard(page), []);
  }
});

pageTest("a proposal that is made, kept in the list, opened and answered", async ({ page }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  await page.waitForSelector("html[data-ready]");
  await listenTo(page);
  try {
    await page.locator("#prices > summary").click();
    await page.getByRole("button", { name: "Open the example" }).click();
    await page.locator("#propose > summary").click();
    const form = page.locator("#propose");
    const add = form.getByRole("button", { name: "Add this plan as an option" });
    await tells(page, () => add.click(), /^Option 1 of the proposal: /);
    for (const material of ["canvas", "aluminium", "canvas", "aluminium", "canvas"]) {
      await choose(page, "piece.all.material", material);
      await add.click();
    }
    await tells(page, () => add.click(), /^A proposal takes 6 options\. Remove one first\.$/);
    await tells(page, () => form.getByRole("button", { name: "Earlier: option 2" }).click(), /^.* is option 1 now\.$/);
    for (let left = 6; left > 2; left -= 1) await tells(page, () => form.getByRole("button", { name: `Remove: option ${left}` }).click(), /^Removed from the proposal: /);
    await form.getByLabel("Name of option 1").fill(LONG.slice(0, 100));
    const saving = page.waitForEvent("download");
    await tells(page, () => form.getByRole("button", { name: "Save the proposal as a file" }).click(), /^The proposal is saved\. Open it once yourself before you send it\.$/);
    const sent = path.join(folder, "sent.html");
    await (await saving).saveAs(sent);
    await tells(page, () => form.getByLabel("A picture of your mark").setInputFiles(file("mark.png", "")), /^mark\.png is empty/);
    await page.locator("#sent > summary").click();
    const list = page.locator("#sent");
    await list.getByRole("button", { name: /^Delete/ }).waitFor();
    await tells(page, () => list.locator("input[type=file]").setInputFiles(file(`${LONG}.json`, '{ "overmantel_sent": 1 }')), /^the wall .*\.json: the list of proposals can't be read/);
    await tells(page, () => list.getByRole("button", { name: /^Delete/ }).click(), /^The proposal is deleted from the list\. Undo in the list brings it back until you close this page\.$/);
    await tells(page, () => list.getByRole("button", { name: /^Undo/ }).click(), /^The proposal is in the list again\.$/);

    // At the client's.
    const context = await page.context().browser()?.newContext({ acceptDownloads: true });
    const client = await context?.newPage();
    assert.ok(client);
    await client.goto(pathToFileURL(sent).href);
    await client.waitForSelector("html[data-ready]");
    await settled(client);
    await listenTo(client);
    const options = client.locator("#offered .options input");
    await options.first().focus();
    await tells(client, () => client.keyboard.press("ArrowRight"), /^.* is shown large: USD [\d., ]+\.$/);
    await tells(client, () => client.keyboard.press("ArrowLeft"), /^the wall above .*….* is shown large: USD [\d., ]+\.$/i);
    await client.getByRole("button", { name: "Change it" }).click();
    await inFull(client);
    await type(client, "wall.width", "15'");
    await client.getByRole("button", { name: "Back to the proposal" }).click();
    await tells(client, () => client.getByRole("button", { name: "As it was sent" }).click(), /^The option is as it was sent\.$/);
    const answering = client.waitForEvent("download");
    await tells(client, () => client.getByRole("button", { name: "Save my answer as a file" }).click(), /^Your answer is saved as a file\. Send it back, by mail for example\.$/);
    const answer = path.join(folder, "answer.txt");
    await (await answering).saveAs(answer);
    await client.evaluate(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException("It is not kept.", "QuotaExceededError");
      };
    });
    await tells(client, () => client.getByLabel("Your name").fill("Anna"), /^What you change here is not kept: this browser has no room left\./, /Save your answer as a file before you close this page/);
    await client.getByLabel("Your name").fill("Anna of the lock");
    await client.waitForTimeout(700);
    assert.deepEqual(await heard(client), [], "it is said once");
    await context?.close();
    await page.setInputFiles("#plan", answer);
    await page.waitForSelector("#answer:not([hidden])");
    await tells(page, () => page.getByRole("button", { name: "Take it up and print its papers" }).click(), / is the plan you have open\.|^Low water.* is the plan you have open/, /Its papers say what was ordered/);
    await page.getByRole("button", { name: "Save as PDF: Order for the print shop" }).waitFor();
    await tells(page, () => page.getByRole("button", { name: "Save as PDF: Order for the print shop" }).click(), /^Saved\. Print it at 100 %\.$/);
  } finally {
    await rm(folder, { recursive: true });
  }
});
