// What a listener hears in the main job: the name, role, value and description of what has the focus, as Chromium's accessibility tree
// has them, and what live regions say. `ear.txt` was read by a person before it was blessed (`BLESS=1` writes it anew, and fails).

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { control, settled } from "./desk.mjs";
import { heard, listenTo, MOST } from "./ear.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */

const file = path.join(path.dirname(fileURLToPath(import.meta.url)), "ear.txt");

/**
 * Follows what is said on the page.
 * @param {Page} page
 */
async function listener(page) {
  const session = await page.context().newCDPSession(page);
  await session.send("Accessibility.enable");
  await listenTo(page);
  /** @type {string[]} */
  const told = [];
  /** @type {string[]} */
  const live = [];
  return {
    told,
    live,
    /** Presses keys, or does something, and notes what is heard then. @param {string} what @param {() => Promise<unknown>} act */
    async after(what, act) {
      await act();
      await settled(page);
      await settled(page);
      const { result } = await session.send("Runtime.evaluate", { expression: "document.activeElement" });
      const { nodes } = await session.send("Accessibility.getPartialAXTree", { objectId: result.objectId, fetchRelatives: false });
      const [node] = nodes;
      const text = (/** @type {{value?: unknown} | undefined} */ part) => (part?.value === undefined ? "" : String(part.value));
      const states = (node?.properties ?? []).filter(({ name, value }) => ["pressed", "expanded", "checked", "invalid", "disabled"].includes(name) && !["false", false].includes(/** @type {string} */ (value.value)));
      const parts = [text(node?.name), text(node?.role), text(node?.value) && `"${text(node?.value)}"`, ...states.map(({ name }) => name)].filter(Boolean).join(", ");
      const description = text(node?.description);
      told.push(`${what}: ${parts}${description ? ` (${description})` : ""}`);
      const said = await heard(page);
      live.push(...said);
      told.push(...said.map((line) => `    ~ ${line}`));
    },
  };
}

pageTest(
  "what a listener hears in the main job is what was read and agreed to",
  async ({ page }) => {
    await page.waitForSelector("html[data-ready]");
    await settled(page);
    const ear = await listener(page);
    const press = (/** @type {string} */ key) => ear.after(key, () => page.keyboard.press(key));
    ear.told.push("== From the top of the page");
    for (let stop = 0; stop < 12; stop += 1) await press("Tab");
    ear.told.push("== The size: wrong, then right");
    await ear.after("to the size", () => control(page, "piece.all.image").focus());
    await ear.after("types large, Enter", async () => {
      await page.keyboard.type("large");
      await page.keyboard.press("Enter");
    });
    await ear.after("types 40 x 50 cm, Enter", async () => {
      await page.keyboard.press("Control+a");
      await page.keyboard.type("40 x 50 cm");
      await page.keyboard.press("Enter");
    });
    await press("Control+z");
    ear.told.push("== Another material");
    await ear.after("chooses canvas", async () => {
      await control(page, "piece.all.material").focus();
      await control(page, "piece.all.material").selectOption("canvas");
    });
    ear.told.push("== The drawing");
    await ear.after("to the drawing", () => page.locator('[data-handle="group"]').focus());
    for (const key of ["ArrowRight", "ArrowRight", "ArrowRight", "Home", "Enter", "ArrowRight", "ArrowLeft", "Shift+ArrowUp", "Escape"]) await press(key);
    await ear.after("to the light switch", () => page.locator('[data-handle="fixture.1"]').focus());
    await press("Delete");
    await press("Control+z");
    await ear.after("drags a picture in its opening", async () => {
      await page.locator("#look > summary").click();
      await page.getByRole("radio", { name: "drag a picture in its opening" }).check();
    });
    await ear.after("to the first picture", () => page.locator('[data-handle="picture.0"]').focus());
    for (const key of ["Enter", "ArrowLeft", "Enter"]) await press(key);
    ear.told.push("== What could hang here, and the papers");
    await ear.after("to the suggestions", () => page.locator("#suggestions > summary").focus());
    await press("Enter");
    await ear.after("to the papers", () => page.locator("#papers > summary").focus());
    await press("?");
    for (const line of ear.live) {
      assert.ok(line.length <= MOST, `${line.length}: ${line}`);
      assert.doesNotMatch(line, /[.!?] [A-Z].*[.!?] [A-Z].*[.!?] [A-Z]/, "one saying, not a paragraph");
    }
    const repeated = ear.live.filter((line, index) => line === ear.live[index - 1]);
    assert.deepEqual(repeated, [], "nothing is said twice");
    const told = `${ear.told.join("\n")}\n`;
    if (process.env.BLESS) {
      await writeFile(file, told);
      assert.fail("blessed: read it, then run the test again");
    }
    assert.equal(told, await readFile(file, "utf8"));
  },
  { depth: "short" },
);
