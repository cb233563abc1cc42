// What must not be lost: the tab is killed at any moment, there is no room, there is no leave, two windows have one plan.

import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { test } from "node:test";
import { chromium } from "playwright-core";
import { launch } from "puppeteer-core";
import { pageAddress } from "./address.mjs";
import { inFull, said, settled, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */
/** @typedef {{ id: string, changed: number, text: string }} Entry */

/** How often the tab is killed. */
const KILLS = 100;
/** How often the whole browser is. */
const BROWSER_KILLS = 8;

/**
 * Pseudo-random numbers from 0 to 1, the same each time (mulberry32).
 * @param {number} seed
 */
function numbers(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/**
 * The plans of the list, as they lie in the database.
 * @param {Page} page
 * @returns {Promise<Entry[]>}
 */
function listed(page) {
  return page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const opened = indexedDB.open("overmantel");
        opened.onerror = () => reject(opened.error);
        opened.onsuccess = () => {
          const all = opened.result.transaction("plans").objectStore("plans").getAll();
          all.onsuccess = () => {
            opened.result.close();
            resolve(all.result);
          };
        };
      }),
  );
}

/**
 * Which change a plan file is of: change by change, the title and the wall's width say it in turn.
 * @param {string} text
 */
function changeOf(text) {
  const plan = JSON.parse(text);
  const title = Number(/^Quay (\d+)$/.exec(plan.title)?.[1] ?? 0);
  // 127 mm are 5 in, and a file has what is whole in inches so.
  const [, number, unit] = /^(\d+) (mm|in)$/.exec(plan.wall.size[0]) ?? [];
  const width = Math.round(Number(number) * (unit === "in" ? 25.4 : 1)) - 3000;
  assert.equal(Math.abs(title - width), 1, `the plan is whole: ${plan.title}, ${plan.wall.size[0]}`);
  return Math.max(title, width);
}

/**
 * Changes the plan over and over, from this change on, and says of each when it has been made; run in the page.
 * @param {number} from
 * @param {number} pace_ms
 */
function editing(from, pace_ms) {
  let at = from;
  const next = () => {
    const isTitle = at % 2 === 0;
    const field = document.querySelector(isTitle ? "#title input" : '#specification [data-field="wall.width"] input');
    if (!(field instanceof HTMLInputElement)) throw new Error("no field");
    field.value = isTitle ? `Quay ${at}` : `${3000 + at} mm`;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
    console.log(`made ${at}`);
    at += 1;
    setTimeout(next, pace_ms);
  };
  next();
}

test(`the tab is killed ${KILLS} times: never is more lost than the change under way`, { timeout: 240_000 }, async () => {
  const began = performance.now();
  const profile = await mkdtemp(path.join(os.tmpdir(), "overmantel-profile-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: (process.env.CHROMIUM_FLAGS ?? "--no-sandbox --disable-gpu").split(" "),
    viewport: { width: 640, height: 480 },
  });
  const random = numbers(20_261_126);
  let made = 1;
  let lost = 0;
  /** @type {string[]} */
  const troubles = [];
  const open = async () => {
    const page = await context.newPage();
    page.on("pageerror", (error) => troubles.push(String(error)));
    page.on("console", (message) => {
      const at = /^made (\d+)$/.exec(message.text())?.[1];
      if (at !== undefined) made = Number(at);
      else if (message.type() === "error") troubles.push(message.text());
    });
    return page;
  };
  try {
    let page = await open();
    await page.goto(pageAddress);
    await page.waitForSelector("#title input");
    // It is remembered, as it is for anybody.
    await inFull(page);
    await type(page, "wall.width", "3001 mm");
    for (let kill = 0; kill < KILLS; kill += 1) {
      if (kill % 5 === 4) {
        // Killed while it starts: what was there stays there.
        await page.reload({ waitUntil: "commit" });
        await new Promise((resolve) => setTimeout(resolve, random() * 300));
      } else {
        await page.evaluate(`(${editing})(${made + 1}, ${random() * 40})`);
        await new Promise((resolve) => setTimeout(resolve, random() * 250));
      }
      if (kill % 2 === 0) {
        const devtools = await context.newCDPSession(page);
        const crashed = page.waitForEvent("crash");
        void devtools.send("Page.crash").catch(() => {});
        await crashed;
      }
      await page.close({ runBeforeUnload: false });
      page = await open();
      await page.goto(pageAddress, { waitUntil: "commit" });
      await page.waitForSelector("#title input");
      const now = await page.evaluate(() => ({
        title: document.querySelector("#title input") instanceof HTMLInputElement ? Object(document.querySelector("#title input")).value : "",
        kept: localStorage.getItem("overmantel.plan") ?? "",
        current: localStorage.getItem("overmantel.current"),
        said: document.querySelector("#status")?.textContent ?? "",
      }));
      const change = changeOf(now.kept);
      assert.ok(change >= made - 1, `killed for the ${kill + 1}th time after change ${made}, the plan is that of change ${change}`);
      assert.doesNotMatch(now.said, /can't be opened/);
      lost += change < made ? 1 : 0;
      made = Math.max(made, change);
      await page.waitForFunction((title) => document.title.startsWith(title), now.title);
      assert.ok(change - Number(now.title.slice("Quay ".length)) <= 1 || change < 3, `${now.title} at change ${change}`);
      // The list has the same, a moment later, and nothing in it is broken.
      let changes = [];
      const end = Date.now() + 5000;
      do {
        changes = (await listed(page)).map(({ text }) => changeOf(text));
      } while (Math.max(...changes, 0) < made - 1 && made >= 3 && Date.now() < end);
      assert.ok(Math.max(...changes, 0) >= made - 1 || made < 3, `the list has ${changes.join(", ")} after change ${made}`);
    }
    assert.deepEqual(troubles, []);
    console.log(`${made} changes in ${Math.round((performance.now() - began) / 1000)} s; killed ${KILLS} times, the change under way lost ${lost} times`);
  } finally {
    await context.close();
    await rm(profile, { recursive: true, force: true });
  }
});

// A browser that is killed loses what it was still to write of `localStorage`; the list of kept plans is in a database, a moment behind.
test(`the whole browser is killed ${BROWSER_KILLS} times: what is older than a second is there again`, { timeout: 240_000 }, async () => {
  const profile = await mkdtemp(path.join(os.tmpdir(), "overmantel-profile-"));
  const random = numbers(20_261_127);
  /** @type {{ change: number, at: number }[]} */
  const made = [{ change: 1, at: 0 }];
  /** @type {string[]} */
  const troubles = [];
  /** @type {import("puppeteer-core").Browser | undefined} */
  let browser;
  try {
    for (let kill = 0; kill <= BROWSER_KILLS; kill += 1) {
      browser = await launch({
        executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
        args: (process.env.CHROMIUM_FLAGS ?? "--no-sandbox --disable-gpu").split(" "),
        headless: true,
        userDataDir: profile,
      });
      const page = await browser.newPage();
      page.on("pageerror", (error) => troubles.push(String(error)));
      page.on("console", (message) => {
        const change = /^made (\d+)$/.exec(message.text())?.[1];
        if (change !== undefined) made.push({ change: Number(change), at: performance.now() });
      });
      await page.goto(pageAddress);
      await page.waitForSelector("html[data-ready]", { timeout: 60_000 });
      const edited = (/** @type {number} */ from, /** @type {number} */ pace_ms) => page.evaluate(editing, from, pace_ms);
      if (kill === 0) {
        // In full, which is remembered.
        await page.evaluate(() => document.querySelector('#depth input[value="full"]') instanceof HTMLElement && Object(document.querySelector('#depth input[value="full"]')).click());
        // That there is a plan at work is written some seconds later.
        await edited(2, 100_000);
        await new Promise((resolve) => setTimeout(resolve, 12_000));
      } else {
        const killed_at = made.at(-1)?.at ?? 0;
        const surely = Math.max(...made.filter(({ at }) => at < killed_at - 1_000).map(({ change }) => change));
        await page.waitForFunction((least) => Number(/^Quay (\d+)/.exec(document.title)?.[1]) >= least - 1, { timeout: 20_000 }, surely);
        const change = Number(/^Quay (\d+)/.exec(await page.title())?.[1]);
        console.log(`killed after change ${made.at(-1)?.change}: the plan is that of change ${change}, and must be that of ${surely - 1} or later`);
        await edited(Math.ceil((made.at(-1)?.change ?? 0) / 2) * 2 + 2, 10 + random() * 60);
        await new Promise((resolve) => setTimeout(resolve, 1_500 + random() * 1_500));
      }
      browser.process()?.kill("SIGKILL");
      await browser.disconnect();
    }
    assert.deepEqual(troubles, []);
  } finally {
    browser?.process()?.kill("SIGKILL");
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
});

/**
 * What stands below the drawing.
 * @param {Page} page
 */
async function status(page) {
  return (await page.locator("#status").textContent()) ?? "";
}

/**
 * Waits until this stands there.
 * @param {Page} page
 * @param {string} text
 */
function says(page, text) {
  return page.waitForFunction((text) => document.querySelector("#status")?.textContent === text, text, { timeout: 5_000 });
}

/**
 * Counts how often something new is said there.
 * @param {Page} page
 */
async function listen(page) {
  await page.evaluate(() => {
    const counts = Object.assign(globalThis, { sayings: 0 });
    const observer = new MutationObserver(() => (counts.sayings += 1));
    observer.observe(/** @type {Node} */ (document.querySelector("#status")), { childList: true, characterData: true, subtree: true });
  });
}

pageTest("storage is denied: the page opens, draws and is edited, and says once that nothing is kept", async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(globalThis, "localStorage", {
      get() {
        throw new DOMException("The operation is insecure.", "SecurityError");
      },
    });
    Object.defineProperty(IDBFactory.prototype, "open", {
      value() {
        throw new DOMException("The operation is insecure.", "SecurityError");
      },
    });
  });
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await inFull(page);
  assert.equal(await status(page), "", "nothing is to be kept yet");
  await listen(page);
  for (const [field, text, shown] of /** @type {const} */ ([["wall.width", "11'", "11′ 0″"], ["group.gap", "4", "4″"], ["wall.width", "13'", "13′ 0″"]])) {
    await type(page, field, text);
    assert.equal(await said(page, field), shown);
    await says(page, "The plan is not kept: this browser does not let the page keep anything. Save it as a file.");
  }
  // It stands there, and is not said anew.
  assert.equal(await page.evaluate(() => Object(globalThis).sayings), 1);
  await page.locator("#kept summary").click();
  await page.waitForFunction(() => document.querySelector("#kept li")?.textContent === "None: this browser does not let the page keep anything.");
  // What can be done without keeping can be done.
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  assert.equal(await said(page, "wall.width"), "11′ 0″");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the plan as a file" }).click();
  assert.match((await download).suggestedFilename(), /^Low water.*\.json$/);
  await page.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 3 });
  await page.waitForFunction(() => !document.title.startsWith("Low water"));
  await settled(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  assert.equal(await said(page, "wall.width"), "11′ 0″");
});

pageTest("storage is full: it is said, the desk keeps all, and what is made room for is kept", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await type(page, "wall.width", "11'");
  await page.waitForTimeout(600);
  // Full to the last character, as the browser itself counts.
  await page.evaluate(() => {
    for (let length = 1 << 22; length >= 1; length = length >> 1) {
      for (let at = 0; at < 4; at += 1) {
        try {
          localStorage.setItem(`stuff ${length} ${at}`, "x".repeat(length));
        } catch {
          break;
        }
      }
    }
  });
  await page.evaluate(() => {
    Object.assign(globalThis, { put: IDBObjectStore.prototype.put });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException("Quota exceeded.", "QuotaExceededError");
    };
  });
  const title = page.getByRole("textbox", { name: "title" });
  await title.fill("The wall of the harbour master, as it was measured on the second visit");
  await title.press("Enter");
  await settled(page);
  await says(page, "The plan is not kept: this browser has no room left. Save it as a file.");
  await type(page, "group.gap", "4");
  assert.equal(await said(page, "group.gap"), "4″");
  // Another plan does not go over it: what can't be kept can be had back by undoing.
  await page.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 3 });
  await page.waitForFunction(() => !document.title.startsWith("The wall of"));
  await settled(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  assert.equal(await said(page, "group.gap"), "4″");
  // The list finds room, and the place that a crash can't reach does not: the list's is the later one, and comes back.
  await page.evaluate(() => {
    IDBObjectStore.prototype.put = Object(globalThis).put;
  });
  await type(page, "group.gap", "5");
  await says(page, "");
  await page.reload();
  await page.waitForFunction(() => document.title.startsWith("The wall of the harbour master"));
  await settled(page);
  assert.equal(await said(page, "group.gap"), "5″");
  await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("stuff")).forEach((key) => localStorage.removeItem(key)));
  await type(page, "group.gap", "6");
  assert.equal(await status(page), "", "there is room again");
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "6″");
});

pageTest("the list is full and the place of the plan at work is not: it is said before another plan goes over it", async ({ page }) => {
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException("Quota exceeded.", "QuotaExceededError");
    };
  });
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await type(page, "group.gap", "4");
  await says(page, "Only the plan you have open is kept: this browser has no room left. Save it as a file before you open another.");
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "4″");
});

pageTest("two windows change one plan within the same moment: both are kept", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await type(page, "wall.width", "10'");
  await page.waitForTimeout(600);
  const other = await page.context().newPage();
  await other.goto(page.url());
  await other.waitForSelector("html[data-ready]");
  await other.waitForTimeout(300);
  await Promise.all([type(page, "wall.width", "11'"), type(other, "wall.width", "13'")]);
  await other.waitForTimeout(900);
  const widths = (await listed(page)).map(({ text }) => JSON.parse(text).wall.size[0]);
  for (const width of ["132 in", "156 in"]) assert.ok(widths.includes(width), `${width} is among ${widths.join(", ")}`);
  assert.equal(await said(page, "wall.width"), "11′ 0″");
  assert.equal(await said(other, "wall.width"), "13′ 0″");
});
