// A studio's page made from the page itself: her pictures, her stock and her prices are in it, and a buyer starts from them.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { choose, colourAt, inFull, png, reads, said, settled, type } from "./desk.mjs";
import { listen, pageTest } from "./harness.mjs";

const FEW = [
  { for: "paper", by: { each: "40" } },
  { for: "frame", by: { each: "90" } },
];
const BOOK = JSON.stringify({
  overmantel_prices: 1,
  name: "The studio's </script>",
  currency: "EUR",
  rows: [
    ...FEW,
    ...["mat", "glass", "mount", "backing"].map((part) => ({ for: part, by: { each: "5" } })),
    { for: "extra", only: "varnish", by: { each: "7" } },
    { for: "shipping", only: "by van", by: { once: "30" } },
  ],
});
const STOCK = JSON.stringify({ overmantel_stock: 1, sticks: { add: [{ name: "driftwood", length: "13 ft", kerf: "1/8 in", trim: "2 in" }] } });

pageTest("a page of one's own pictures is made, and a buyer starts from it; a proposal is priced by the book", async ({ page, screenshot }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const elsewhere = await page.context().browser()?.newContext({ viewport: { width: 1280, height: 800 } });
  const buyer = await elsewhere?.newPage();
  assert.ok(buyer);
  const complaints = listen(buyer, "");
  try {
    await page.waitForSelector("html[data-ready]");
    await choose(page, "pieces.count", "one");
    await page.setInputFiles("#pictures", { name: "wrack.png", mimeType: "image/png", buffer: png(800, 1000, [180, 70, 50]) });
    await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("800 × 1000"));
    const open = async (/** @type {string} */ name, /** @type {string} */ text) => {
      await page.setInputFiles("#book", { name, mimeType: "application/json", buffer: Buffer.from(text) });
      await page.waitForFunction((name) => document.querySelector("#status")?.textContent === `${name} is in use.`, name);
    };

    // Where something has no price there is no total, and a proposal has no lines of the book.
    await page.locator("#propose summary").click();
    await page.locator("#prices summary").click();
    const lines = page.locator("#propose").getByLabel(/^Prices/);
    await open("few.json", JSON.stringify({ ...JSON.parse(BOOK), rows: FEW }));
    await settled(page);
    await reads(page.locator("#propose p.note:visible"), "The price book has no price for mat, glass, mount board, backing, so there is no total. The list of prices says what row to add.");
    assert.equal(await lines.inputValue(), "");
    await reads(page.locator("#prices"), /Missing: mat, 20 × 24"; add a row such as \{ "for": "mat", "by": \{ "each": "AMOUNT" \} \}/);

    // With a price for everything its lines are those of the proposal, until they are written over.
    await open("ours.json", BOOK);
    await settled(page);
    const line = (/** @type {string} */ part, each = "5.00", size = "20 × 24") => `1 × ${part}, ${size}": EUR ${each} each, EUR ${each}`;
    await reads(lines, [line("paper", "40.00", "16 × 20"), line("mat"), line("frame", "90.00"), line("glass"), line("mount board"), line("backing"), "total EUR 150.00"].join("\n"));
    await page.locator("#prices").getByLabel("varnish").check();
    await page.locator("#prices").getByLabel("by van (shipping)").check();
    await reads(lines, /1 × varnish, 16 × 20": EUR 7\.00 each.*1 × shipping, once: EUR 30\.00 each.*total EUR 187\.00$/s);
    await page.locator("#prices").getByLabel("varnish").uncheck();
    await reads(lines, /total EUR 180\.00$/);
    await page.locator("#prices summary").click();
    await type(page, "piece.all.image", "11 × 14 in");
    await reads(lines, /paper, 11 × 14"/);
    await lines.fill("All of it: 120 EUR");
    await type(page, "piece.all.image", "16 × 20 in");
    assert.equal(await lines.inputValue(), "All of it: 120 EUR", "what was written stays");

    await page.locator("#studio summary").click();
    await reads(page.locator("#studio"), /Pictures in it.*wrack.*It uses the stock on offer\./);
    assert.equal(await page.locator("#studio").getByLabel("Low water, evening").count(), 0, "the demo's painting has left");
    await page.setInputFiles("#stock", { name: "stock.json", mimeType: "application/json", buffer: Buffer.from(STOCK) });
    await page.waitForFunction(() => document.querySelector("#studio")?.textContent?.includes("It uses your own stock list."));
    await page.locator("#studio").getByLabel("Title").fill("From the slipway </title>");
    await page.locator("#studio").getByLabel(/with my price book/).check();
    await screenshot("studio-form");
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the page as a file" }).click()]);
    const file = path.join(folder, download.suggestedFilename());
    await download.saveAs(file);
    assert.ok((await stat(file)).size < 3_000_000, `${(await stat(file)).size} bytes`);
    const text = await readFile(file, "utf8");
    assert.ok(!text.includes("The studio's </script>") && !text.includes('data-name="low-water.json"'), "nothing ends its element, and the examples are left out");

    await buyer.goto(pathToFileURL(file).href);
    await buyer.waitForSelector("html[data-ready]");
    await settled(buyer);
    await reads(buyer.locator("#title .field input"), "From the slipway </title>");
    await reads(buyer.locator("#specification"), /wrack/);
    await buyer.locator("#prices summary").click();
    await settled(buyer);
    await reads(buyer.locator("#prices"), /EUR 40\.00/);
    assert.equal(await buyer.getByRole("button", { name: "Open the example" }).count(), 0);
    const [red, , blue] = await colourAt(buyer, "The piece", 0.5, 0.5);
    assert.ok(red > 130 && blue < 100, `her picture hangs there: ${red}, ${blue}`);
    const pictures = await buyer.evaluate(() => [...document.querySelectorAll(".demo-picture")].map((one) => one.getAttribute("data-name")));
    assert.deepEqual(pictures, ["wrack.png"], "what was not ticked is not in it");
    await buyer.screenshot({ path: "output/studio.png" });

    // Opened where one's own plans are kept, it starts from her pictures all the same; and one's own is left as it was.
    const beside = await page.context().newPage();
    await beside.goto(pathToFileURL(file).href);
    await beside.waitForSelector("html[data-ready]");
    await reads(beside.locator("#title .field input"), "From the slipway </title>");
    await inFull(beside);
    await type(beside, "wall.width", "9'");
    await beside.reload();
    await beside.waitForSelector("html[data-ready]");
    assert.equal(await said(beside, "wall.width"), "9′ 0″", "what is made on it is kept");
    // The list of kept plans is one: where both have a plan of it at work, neither goes over what the other keeps.
    await beside.locator("#kept > summary").click();
    await beside.getByRole("button", { name: /^Open wrack/ }).click();
    await beside.waitForFunction(() => document.title.startsWith("wrack"));
    await settled(beside);
    await type(beside, "wall.width", "15'");
    await page.waitForFunction(() => document.querySelector("#status")?.textContent?.includes("changing this plan too"));
    await type(beside, "wall.width", "12'");
    // The list has it a moment later.
    await beside.waitForTimeout(600);
    await beside.close();
    await page.reload();
    await page.waitForSelector("html[data-ready]");
    assert.equal(await said(page, "wall.width"), "12′ 0″");
    assert.equal(await said(page, "piece.all.image"), "16 × 20″");

    // A proposal made there has the list of stock, and not the book.
    await buyer.locator("#propose summary").click();
    const [next] = await Promise.all([buyer.waitForEvent("download"), buyer.getByRole("button", { name: "Save the proposal as a file" }).click()]);
    const proposal = path.join(folder, "proposal.html");
    await next.saveAs(proposal);
    const written = await readFile(proposal, "utf8");
    assert.ok(written.includes("driftwood") && !written.includes("own-prices\">"), "the stock goes on, the book does not");
    assert.deepEqual(complaints, []);
  } finally {
    await elsewhere?.close();
    await rm(folder, { recursive: true });
  }
});

pageTest(
  "an address asks for a work at a size on a wall; one's own plan is kept",
  async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    await reads(page.locator("#status"), /This work came with the address/);
    assert.deepEqual([await said(page, "piece.all.image"), await said(page, "wall.size")], ["40 × 50 cm", "420 × 260 cm"]);
    assert.match(await page.title(), /^Three boats/);
    await page.getByRole("button", { name: "Undo" }).click();
    await settled(page);
    assert.match(await page.title(), /^Low water/);
    // What there is not is said, with what there is.
    await page.evaluate(() => (location.hash = "work=high-water"));
    await reads(page.locator("#status"), /The address can't be followed: there is no work "high-water" on this page; it has .*low-water-evening/);
    await page.evaluate(() => (location.hash = "work=three-boats&size=huge"));
    await reads(page.locator("#status"), /The address can't be followed: the size in the address: /);
  },
  { fragment: "work=three-boats&size=40x50cm&wall=420x260cm", depth: "short" },
);
