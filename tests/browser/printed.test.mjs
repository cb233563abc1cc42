// What the browser prints of the page: the proposal, on either paper, whole and without a control.

import assert from "node:assert/strict";
import { pageTest } from "./harness.mjs";

/** Points of a page (ISO 216; ANSI/ASME Y14.1): 72 to the inch, by the 25.4 mm of one. */
const PAPERS = /** @type {const} */ ({ A4: [595, 842], Letter: [612, 792] });

pageTest("the browser prints the page as a proposal on A4 and on letter", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.locator("#propose > summary").click();
  await page.locator("#propose").getByLabel("From", { exact: true }).fill("Orla Tidewell");
  await page.locator("#propose").getByLabel("Your message").fill("Delivered by boat.");
  // A client's goes on one page; with all that its maker needs it takes two.
  for (const [format, count] of /** @type {const} */ ([["A4", 1], ["Letter", 1], ["A4", 2], ["Letter", 2]])) {
    if (count === 2) {
      const details = page.locator("#papers");
      if (!(await details.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open))) await details.locator("summary").first().click();
      await page.getByLabel("the proposal with everything its maker needs").check();
    }
    const file = (await page.pdf({ format, printBackground: false })).toString("latin1");
    const pages = file.match(/\/Type\s*\/Page\b(?!s)/g)?.length;
    assert.equal(pages, count, `${format}: ${pages} pages`);
    const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(file)?.slice(1).map((side) => Math.round(Number(side)));
    assert.ok(box?.every((side, index) => Math.abs(side - (PAPERS[format][index] ?? 0)) <= 1), `${format}: ${box}`);
  }
  // What is printed, as it stands while it is.
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  const seen = await page.evaluate(() => {
    const printed = document.querySelector("#printed");
    const canvas = printed?.querySelector("canvas");
    const shown = [...document.querySelectorAll("button, input, select, textarea, summary")].filter((control) => control.getClientRects().length > 0);
    const wide = [...(printed?.querySelectorAll("*") ?? [])].filter((element) => element.scrollWidth > element.clientWidth + 1 && element.clientWidth > 0);
    return {
      text: printed?.textContent ?? "",
      controls: shown.length,
      wide: wide.map((element) => element.outerHTML.slice(0, 80)),
      name: canvas?.getAttribute("aria-label") ?? "",
      dots: [canvas?.width ?? 0, canvas?.height ?? 0],
      colours: new Set(canvas?.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data).size,
    };
  });
  assert.equal(seen.controls, 0, "no control is printed");
  assert.deepEqual(seen.wide, [], "nothing is clipped");
  assert.ok(seen.dots[0] === 2102 && (seen.dots[1] ?? 0) > 1000 && seen.colours > 40, JSON.stringify(seen.dots));
  assert.match(seen.name, /wall/);
  for (const words of ["Proposal", "Orla Tidewell", "Low water, three over the sofa", "The wall is 12′ 0″ wide", "Printed 16 × 20", "Delivered by boat.", "Care", "1 in to 2 ft"]) {
    assert.ok(seen.text.includes(words), `${words} in ${seen.text}`);
  }
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  assert.equal(await page.locator("#printed > *").count(), 0, "taken away again");
});
