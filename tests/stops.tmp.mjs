import { chromium } from "playwright-core";
const b = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
const page = await b.newPage({ viewport: { width: 1280, height: 800 } });
await page.goto("file:///work/main/www/dist/overmantel.html");
await page.waitForSelector("html[data-ready]");
const stops = [];
for (let i = 0; i < 200; i++) {
  await page.keyboard.press("Tab");
  const s = await page.evaluate(() => {
    const e = document.activeElement; if (!e || e === document.body) return null;
    const f = e.closest(".field");
    return `${e.tagName.toLowerCase()}${e.id ? "#" + e.id : ""}${e.type ? ":" + e.type : ""} [${e.getAttribute("aria-label") ?? e.textContent.trim().slice(0, 60)}] ${f ? f.dataset.field : ""} ${e.closest("section,header,footer")?.id ?? ""}`;
  });
  if (s === null) break;
  stops.push(s);
}
console.log(stops.length); stops.forEach((s, i) => console.log(i + 1, s));
await b.close();
