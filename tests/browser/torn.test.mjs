// Files that did not arrive whole: what is missing is said in a sentence, and nothing else is shown.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { pageAddress } from "./address.mjs";
import { listen, pageTest } from "./harness.mjs";

const whole = await readFile(fileURLToPath(pageAddress), "utf8");
/** The blocks of the core's first part, with which the wall is drawn, and those of its rest. */
const [cores = [], rests = []] = ["core", "rest"].map((part) => [...whole.matchAll(new RegExp(`<script type="application/wasm;base64" class="${part}" data-parts="(\\d+)">[^<]*</script>`, "g"))]);

pageTest("a file that was torn or damaged on its way says so", async ({ page }) => {
  for (const blocks of [cores, rests]) assert.ok(blocks.length > 5 && blocks.every((block) => Number(block[1]) === blocks.length), `${blocks.length} blocks`);
  const [, second, third] = cores;
  const [, later] = rests;
  assert.ok(second && third && later);
  const middle = (second.index + third.index) / 2;
  const swapped = `${whole.slice(0, middle)}${whole.slice(middle, middle + 400).split("").reverse().join("")}${whole.slice(middle + 400)}`;
  const torn = /** @type {const} */ ([
    ["cut off within a part", whole.slice(0, middle), /incomplete.*get it again/i],
    ["cut off between two parts", whole.slice(0, third.index), /incomplete.*get it again/i],
    ["cut off before the core", whole.slice(0, cores[0]?.index), /incomplete.*get it again/i],
    ["without the last of the first blocks", whole.replace(cores.at(-1)?.[0] ?? "", ""), /incomplete.*get it again/i],
    ["cut off within the rest", whole.slice(0, later.index + 1000), /incomplete.*get it again/i],
    ["cut off before the rest", whole.slice(0, rests[0]?.index), /incomplete.*get it again/i],
    ["without its last block", whole.replace(rests.at(-1)?.[0] ?? "", ""), /incomplete.*get it again/i],
    ["with letters of the rest that are none of base64", whole.replace(later[0], later[0].replace(/>..../, ">!!!!")), /damaged.*get it again/i],
    ["with letters changed", swapped, /damaged.*get it again/i],
    ["with letters that are none of base64", whole.replace(second[0], second[0].replace(/>..../, ">!!!!")), /damaged.*get it again/i],
  ]);
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  try {
    for (const [how, text, said] of torn) {
      const file = path.join(folder, `${how.replaceAll(" ", "-")}.html`);
      await writeFile(file, text);
      const opened = await page.context().newPage();
      const complaints = listen(opened, pathToFileURL(file).href);
      await opened.goto(pathToFileURL(file).href);
      await opened.waitForFunction(() => !document.querySelector("#notice")?.textContent?.includes("is starting"));
      assert.match((await opened.locator("#notice").textContent()) ?? "", said, how);
      assert.ok(!(await opened.locator("main").isVisible()), how);
      const box = await opened.locator("#notice").boundingBox();
      assert.ok(box && box.y < 200, `${how}: the sentence is where one looks, ${JSON.stringify(box)}`);
      assert.deepEqual(complaints, [], how);
      await opened.close();
    }
  } finally {
    await rm(folder, { recursive: true });
  }
});
