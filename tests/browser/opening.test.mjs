// The page opens from a disk, starts its core, and lets nothing out.

import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { pageTest } from "./harness.mjs";

pageTest("the page opens and its core starts, without a complaint", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  assert.equal(await page.title(), "Low water, three over the sofa · Overmantel");
  await screenshot("opening");
});

pageTest("the pictures that the page carries are those of the demo", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const folder = new URL("../../demo-data/pictures/", import.meta.url);
  const files = (await readdir(folder)).filter((name) => name.endsWith(".jpg"));
  assert.ok(files.length >= 5);
  for (const name of files) {
    const jpeg = (await readFile(new URL(name, folder))).toString("base64");
    const { type, noise } = await page.evaluate(
      async ([name, jpeg]) => {
        const element = /** @type {HTMLScriptElement} */ (document.querySelector(`.demo-picture[data-name="${name}"]`));
        /** @param {string} base64 @param {string} type */
        const pixels = async (base64, type) => {
          const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
          const bitmap = await createImageBitmap(new Blob([bytes], { type }));
          const { width, height } = bitmap;
          const context = new OffscreenCanvas(width, height).getContext("2d");
          context?.drawImage(bitmap, 0, 0);
          return context?.getImageData(0, 0, width, height).data ?? new Uint8ClampedArray();
        };
        const type = element.type.replace(";base64", "");
        const [one, other] = [await pixels(element.textContent ?? "", type), await pixels(String(jpeg), "image/jpeg")];
        let sum = one.length === other.length && one.length > 0 ? 0 : Infinity;
        for (let at = 0; at < one.length; at += 1) sum += ((one[at] ?? 0) - (other[at] ?? 0)) ** 2;
        // Opacity is the same everywhere and does not count.
        return { type, noise: sum / ((one.length * 3) / 4) };
      },
      [name, jpeg],
    );
    assert.equal(type, "image/avif");
    const decibels = 10 * Math.log10(255 ** 2 / noise);
    assert.ok(decibels > 30, `${name}: ${decibels.toFixed(1)} dB`);
    console.log(`${name}: ${decibels.toFixed(1)} dB between the page's copy and the JPEG`);
  }
});

pageTest("the policy forbids a request, and the tests would notice one", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  const answer = await page.evaluate(() => fetch("https://example.com/").then(() => "let out", () => "kept in"));
  assert.equal(answer, "kept in");
  assert.ok(takeComplaints().some((complaint) => complaint.includes("connect-src")));
});

pageTest("the policy forbids text that becomes code or style", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  const outcomes = await page.evaluate(async () => {
    // The debugger's own call may compile text; what runs after it is the page's and may not.
    await new Promise((resolve) => setTimeout(resolve));
    /** @param {() => unknown} act */
    const attempt = (act) => {
      try {
        act();
        return "done";
      } catch {
        return "refused";
      }
    };
    const paragraph = document.createElement("p");
    document.body.append(paragraph);
    return [
      attempt(() => new Function("return 1")()),
      attempt(() => (paragraph.innerHTML = "<b>bold</b>")),
      attempt(() => paragraph.setAttribute("style", "color: rgb(1, 2, 3)")),
      getComputedStyle(paragraph).color === "rgb(1, 2, 3)" ? "styled" : "plain",
    ];
  });
  assert.deepEqual(outcomes, ["refused", "refused", "done", "plain"]);
  const complaints = takeComplaints().join("\n");
  for (const reason of ["TrustedScript", "TrustedHTML", "style-src"]) {
    assert.ok(complaints.includes(reason), `${reason} in: ${complaints}`);
  }
});
