// Takes the README's pictures of the page: `npm run screens`, after `cargo page`.

import { execFileSync } from "node:child_process";
import { mkdir } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), "../..");
const output = path.join(root, "demo-data/screens");
/** @param {string} name */
const picture = (name) => path.join(output, `${name}.png`);
await mkdir(output, { recursive: true });
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
/** @type {[string, import("playwright-core").BrowserContextOptions][]} */
const screens = [
  ["desk", { viewport: { width: 1440, height: 900 } }],
  ["hanging", { viewport: { width: 1440, height: 900 }, deviceScaleFactor: 2 }],
  ["phone", { viewport: { width: 390, height: 760 }, colorScheme: "dark", isMobile: true, hasTouch: true }],
];
for (const [name, options] of screens) {
  const page = await browser.newPage(options);
  await page.goto(pathToFileURL(path.join(root, "www/dist/overmantel.html")).href);
  await page.waitForSelector("html[data-ready]");
  // The small drawings come when the page has time for them.
  await page.waitForTimeout(600);
  if (name === "hanging") {
    await page.locator("#papers > summary").click();
    await page.waitForTimeout(1200);
    await page.getByRole("img", { name: "Hanging plan, page 1" }).screenshot({ path: picture(name) });
    continue;
  }
  await page.screenshot({ path: picture(name) });
  if (name === "desk") {
    await page.locator("#compare").click();
    await page.waitForSelector("#compared[data-drawn='2']");
    await page.waitForTimeout(300);
    await page.locator("#beside").screenshot({ path: picture("compared") });
    await page.locator("#comparing > summary").click();
    await page.setViewportSize({ width: 1440, height: 1350 });
    await page.evaluate(() => scrollTo(0, 0));
    await page.locator("#suggestions > summary").click();
    await page.locator("#suggestions .thumbnail").nth(1).hover();
    await page.waitForTimeout(600);
    await page.screenshot({ path: picture("suggestions") });
  }
  await page.close();
}
await browser.close();
/** @param {string} name */
const plan = (name) => path.join(root, "demo-data/plans", `${name}.json`);
for (const task of [
  ["draw", plan("harbour-pair"), "--pictures", path.join(root, "demo-data/pictures"), "--width", "1200", "--out", picture("harbour-pair")],
  ["draw", plan("evening-by-the-lamp"), "--oblique", "--pictures", path.join(root, "demo-data/pictures"), "--width", "1200", "--height", "750", "--out", picture("evening")],
  ["section", plan("low-water"), "--width", "1000", "--out", picture("section")],
]) {
  execFileSync("cargo", ["overmantel", ...task, "--force"], { cwd: root, stdio: "inherit" });
}
