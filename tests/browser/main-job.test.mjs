// The main job: a triptych above a sofa, as a new user would do it.
//
// The expected sizes are worked out on paper: opening 16 - 2 × 1/8 = 15 3/4; board 15 3/4 + 2 × 2 1/8 = 20; outside
// 20 + 1/8 + 2 × (3/4 - 1/4) = 21 1/8; group 3 × 21 1/8 + 2 × 3 = 69 3/8 = 5' 9 3/8"; left (144 - 69 3/8) / 2 = 37 5/16 = 3' 1 5/16";
// height 24 + 1/8 + 1 = 25 1/8, so the centre is at 34 + 8 + 25 1/8 / 2 = 54 9/16.

import assert from "node:assert/strict";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { choose, colourAt, control, finds, png, reads, said, settled, specification, type } from "./desk.mjs";
import { pageTest } from "./harness.mjs";

const pictures = path.join(path.dirname(fileURLToPath(import.meta.url)), "../../demo-data/pictures");
const portraits = ["harbour-morning.jpg", "the-flats-at-noon.jpg", "three-boats.jpg"].map((file) => path.join(pictures, file));

/** @param {import("playwright-core").Page} page */
async function stateTheJob(page) {
  await type(page, "wall.width", "12'");
  await type(page, "wall.height", "8’");
  await type(page, "fixture.0.width", "84 in");
  await type(page, "fixture.0.height", "34");
  await type(page, "piece.all.image", "16 x 20");
  await type(page, "group.gap", "3");
  await type(page, "group.clearance", "8\"");
  await choose(page, "group.across", "over the middle of the sofa");
}

pageTest("three pictures of one's own above a sofa, in inches and in centimetres, and nothing lost by a reload", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await page.setInputFiles("#pictures", portraits);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("three boats"));
  await stateTheJob(page);
  assert.equal(await page.locator("#status").textContent(), "");
  let text = await specification(page);
  for (const part of ["Outside 21¹⁄₈ × 25¹⁄₈″", "order the frame as 20 × 24″", "the mat opening is 15³⁄₄ × 19³⁄₄″", "The centre is 54⁹⁄₁₆″"]) {
    assert.ok(text.includes(part), `${part} in: ${text}`);
  }
  await reads(page.locator('#overlay [data-field="group.left"] > span'), "3′ 1⁵⁄₁₆″");
  const words = (await page.locator("#words").textContent()) ?? "";
  assert.ok(words.includes("Together they are 5' 9 3/8\" wide and 25 1/8\" high"), words);
  await screenshot("main-job");

  // 69 3/8 in = 176.2125 cm; 37 5/16 in = 94.77375 cm; 54 9/16 in = 138.58875 cm (1 in = 2.54 cm).
  await page.getByRole("radio", { name: "cm", exact: true }).check();
  await settled(page);
  text = await specification(page);
  assert.equal(await said(page, "wall.width"), "365.8 cm");
  assert.ok(text.includes("The centre is 138.6 cm"), text);
  await reads(page.locator('#overlay [data-field="group.left"] > span'), "94.8 cm");
  await screenshot("main-job-centimetres");

  const before = await colourAt(page, "The pieces together", 0.5, 0.5);
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  await settled(page);
  assert.equal(await specification(page), text);
  const after = await colourAt(page, "The pieces together", 0.5, 0.5);
  before.forEach((channel, index) => {
    // The kept copy is a JPEG of the copy that was drawn.
    assert.ok(Math.abs(channel - (after[index] ?? 0)) <= 6, `${before} became ${after}`);
  });
  // Back in inches the lengths are what they were: what was shown has not flowed back.
  await page.getByRole("radio", { name: "inches", exact: true }).check();
  await settled(page);
  assert.equal(await said(page, "wall.width"), "12′ 0″");
  assert.equal(await said(page, "piece.all.image"), "16 × 20″");
});

pageTest("one picture over three panels, with the strips hidden or kept", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await page.setInputFiles("#pictures", path.join(pictures, "channel-markers.jpg"));
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("channel markers"));
  assert.equal(await said(page, "pieces.share"), "a part of one picture");
  const hidden = await colourAt(page, "The pieces together", 0.1, 0.5);
  await choose(page, "split.strips", "kept, so that nothing is lost");
  const kept = await colourAt(page, "The pieces together", 0.1, 0.5);
  assert.notDeepEqual(hidden, kept, "the first panel shows another part of the picture");
  await choose(page, "pieces.share", "a picture of its own");
  await finds(page.locator('#specification [data-field="piece.2.picture"]'), 1);
});

pageTest("a wrong entry keeps its text, says what is wrong, and leaves the plan alone", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const before = await page.locator("#words").textContent();
  const width = control(page, "wall.width");
  await width.fill("12 ft and a bit");
  await width.press("Enter");
  const alert = page.locator('#specification [data-about="wall"] [role="alert"]');
  await reads(alert, /“and a bit” is left over after the length/);
  assert.equal(await width.inputValue(), "12 ft and a bit");
  assert.equal(await width.getAttribute("aria-invalid"), "true");
  assert.equal(await page.locator("#words").textContent(), before);
  // Another field can be changed meanwhile, and the wrong text stays.
  await type(page, "wall.height", "2.6 m");
  assert.equal(await width.inputValue(), "12 ft and a bit");
  await width.press("Escape");
  await reads(width, "12' 0\"");
  await reads(alert, "");
});

// 20 + 2 × 3 = 26 in = 66.04 cm; 84 in + 60 cm = 84 + 23 5/8 in (23.622) = 8' 11 5/8"; the gap goes from 3 in to the next eighth.
pageTest("a field takes arithmetic, tells what it comes to, and steps with the arrow keys", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  const gap = page.getByRole("textbox", { name: "gap between pieces" }).last();
  await gap.focus();
  await gap.fill("20 + 2*3");
  assert.equal(await page.evaluate(() => document.getElementById(document.activeElement?.getAttribute("aria-describedby") ?? "")?.textContent), "26″ (66 cm)");
  await screenshot("field-arithmetic");
  await gap.press("Enter");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "26″");
  await type(page, "fixture.0.width", "84 in + 60 cm");
  assert.equal(await said(page, "fixture.0.width"), "8′ 11⁵⁄₈″");
  await type(page, "group.gap", "3");
  await gap.focus();
  await gap.press("ArrowUp");
  await settled(page);
  await reads(gap, "3 1/8\"");
  await gap.press("Shift+ArrowDown");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "3″");
  for (let presses = 0; presses < 4; presses += 1) await gap.press("Shift+ArrowDown");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "0″", "below nothing there is none");
  await reads(page.locator('#specification [data-about="hanging"] [role="alert"]'), /gap/);
  const image = control(page, "piece.all.image");
  await image.focus();
  await image.press("ArrowUp");
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "16 × 24″", "the next size of prints that is sold");
  // On the drawing what is wrong is said at the figure, and Escape restores it.
  const mark = page.locator('#overlay [data-field="wall.width"] input');
  await mark.click();
  await mark.fill("12 / 1/2");
  await mark.press("Enter");
  await reads(page.locator('#overlay [data-field="wall.width"] .aside'), /divides twice/);
  await screenshot("field-wrong-on-drawing");
  await page.locator("h1").click();
  assert.equal(await mark.inputValue(), "12 / 1/2");
  await mark.press("Escape");
  await reads(mark, "12' 0\"");
});

pageTest("undo and redo go through every step", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await type(page, "group.gap", "5");
  await type(page, "wall.width", "13'");
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  assert.equal(await said(page, "wall.width"), "12′ 0″");
  assert.equal(await said(page, "group.gap"), "5″");
  await page.locator("body").press("Control+z");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "3″");
  await page.getByRole("button", { name: "Redo" }).click();
  await page.getByRole("button", { name: "Redo" }).click();
  await settled(page);
  assert.equal(await said(page, "wall.width"), "13′ 0″");
  assert.ok(await page.getByRole("button", { name: "Redo" }).isDisabled());
});

pageTest("a dimension on the drawing is a field, and the group can be dragged and snaps", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const gap = page.locator('#overlay [data-field="group.gap"] input');
  await gap.click();
  await gap.fill("4 1/2");
  await gap.press("Enter");
  await settled(page);
  assert.equal(await said(page, "group.gap"), "4¹⁄₂″");
  const box = await page.locator('.handle[aria-label^="The pieces together"]').boundingBox();
  assert.ok(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 90, y - 30, { steps: 4 });
  await page.mouse.up();
  await settled(page);
  assert.equal(await said(page, "group.across"), "at a distance from the left corner");
  // Back to within a few pixels of the sofa's axis.
  await page.mouse.move(x - 90, y - 30);
  await page.mouse.down();
  await page.mouse.move(x - 3, y - 30, { steps: 4 });
  await reads(page.locator("#status"), /over the middle of the sofa/);
  await page.mouse.up();
  await settled(page);
  assert.equal(await said(page, "group.across"), "over the middle of the sofa");
});

pageTest("the whole job with keys alone", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  /** Goes on with Tab until a control of this field has the focus. @param {string} field */
  const goTo = async (field) => {
    for (let presses = 0; presses < 120; presses += 1) {
      await page.keyboard.press("Tab");
      const here = await page.evaluate(() => document.activeElement?.closest("#specification .field")?.getAttribute("data-field"));
      if (here === field) return;
    }
    assert.fail(`${field} was not reached with Tab`);
  };
  /** @type {[string, string][]} */
  const typed = [
    ["wall.width", "365 cm"],
    ["wall.height", "2.4 m"],
    ["fixture.0.width", "2 m"],
    ["piece.all.image", "40 x 50 cm"],
    ["group.gap", "5cm"],
    ["group.clearance", "20 cm"],
  ];
  for (const [field, text] of typed) {
    await goTo(field);
    await page.keyboard.type(text);
    await page.keyboard.press("Tab");
    await page.keyboard.press("Shift+Tab");
    await settled(page);
  }
  // The group is moved by its handle on the drawing.
  await page.locator('.handle[aria-label^="The pieces together"]').focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowLeft");
  await settled(page);
  assert.equal(await said(page, "group.across"), "at a distance from the left corner");
  await page.getByRole("radio", { name: "cm", exact: true }).check();
  await settled(page);
  assert.equal(await said(page, "piece.all.image"), "40 × 50 cm");
  assert.equal(await said(page, "group.gap"), "5 cm");
  assert.equal(await said(page, "fixture.0.width"), "200 cm");
});

pageTest("a HEIC, a broken and a foreign file each get a plain sentence, and the good one among them is taken", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypheic"), Buffer.from([0, 0, 0, 0]), Buffer.from("mif1heic")]);
  const broken = png(400, 300, [200, 80, 40]).subarray(0, 60);
  await page.setInputFiles("#pictures", [
    { name: "phone.heic", mimeType: "image/heic", buffer: heic },
    { name: "half.png", mimeType: "image/png", buffer: broken },
    { name: "letter.txt", mimeType: "text/plain", buffer: Buffer.from("dear painter") },
    { name: "good.png", mimeType: "image/png", buffer: png(400, 300, [200, 80, 40]) },
  ]);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("400 × 300"));
  const status = (await page.locator("#status").textContent()) ?? "";
  assert.match(status, /phone\.heic is a HEIC picture/);
  assert.match(status, /half\.png can't be decoded/);
  assert.match(status, /letter\.txt is not a picture/);
});

pageTest("a picture can be dropped on a piece and pasted", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  await choose(page, "pieces.share", "a picture of its own");
  const colour = /** @type {[number, number, number]} */ ([30, 140, 90]);
  const base64 = png(600, 750, colour).toString("base64");
  await page.evaluate((base64) => {
    const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
    const data = new DataTransfer();
    data.items.add(new File([bytes], "green_flats.png", { type: "image/png" }));
    const handle = document.querySelector('.handle[aria-label^="The pieces together"]');
    const box = handle?.getBoundingClientRect();
    if (!box) throw new Error("no pieces");
    const at = { clientX: box.right - 40, clientY: box.top + box.height / 2, bubbles: true, cancelable: true };
    document.querySelector("#stage")?.dispatchEvent(new DragEvent("drop", { ...at, dataTransfer: data }));
  }, base64);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("green flats"));
  await settled(page);
  assert.equal(await said(page, "piece.2.picture"), "green flats");
  const last = await colourAt(page, "The pieces together", 0.85, 0.5);
  last.forEach((channel, index) => assert.ok(Math.abs(channel - (colour[index] ?? 0)) <= 2, `${last}`));
  await page.evaluate((base64) => {
    const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
    const data = new DataTransfer();
    data.items.add(new File([bytes], "pasted.png", { type: "image/png" }));
    window.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, cancelable: true }));
  }, base64);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("pasted"));
});

pageTest("a turned picture stands upright, and its size is that of the upright picture", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  // A JPEG made by the browser, 64 × 32, to which an EXIF block with orientation 6 is added by hand (Exif 2.3, tag 0x0112).
  const base64 = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(64, 32);
    const context = canvas.getContext("2d");
    if (!context) throw new Error("no canvas");
    context.fillStyle = "#d04020";
    context.fillRect(0, 0, 32, 32);
    context.fillStyle = "#2040d0";
    context.fillRect(32, 0, 32, 32);
    const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: "image/jpeg", quality: 1 })).arrayBuffer());
    return btoa(String.fromCharCode(...bytes));
  });
  const plain = Buffer.from(base64, "base64");
  const tiff = Buffer.from("49492a0008000000010012010300010000000600000000000000", "hex");
  const app1 = Buffer.concat([Buffer.from("Exif\0\0"), tiff]);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(app1.length + 2);
  const turned = Buffer.concat([plain.subarray(0, 2), Buffer.from([0xff, 0xe1]), length, app1, plain.subarray(2)]);
  await choose(page, "pieces.count", "one");
  await page.setInputFiles("#pictures", { name: "turned.jpg", mimeType: "image/jpeg", buffer: turned });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("32 × 64 px"));
  await settled(page);
  // Orientation 6: what is stored at the left stands at the top.
  const top = await colourAt(page, "The piece", 0.5, 0.3);
  const bottom = await colourAt(page, "The piece", 0.5, 0.7);
  assert.ok(top[0] > 180 && top[2] < 80, `red at the top: ${top}`);
  assert.ok(bottom[2] > 180 && bottom[0] < 80, `blue at the foot: ${bottom}`);
});

pageTest("three pictures of 100 megapixels do not break the page", async ({ page }) => {
  await page.waitForSelector("html[data-ready]");
  const files = /** @type {[number, number, number][]} */ ([[180, 60, 40], [60, 120, 70], [40, 70, 160]]).map((colour, index) => ({
    name: `large ${index + 1}.png`,
    mimeType: "image/png",
    buffer: png(10_000, 10_000, colour),
  }));
  await page.setInputFiles("#pictures", files);
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("10000 × 10000"), undefined, { timeout: 120_000 });
  await settled(page);
  const colours = [];
  for (const across of [0.15, 0.5, 0.85]) colours.push(await colourAt(page, "The pieces together", across, 0.5));
  assert.ok((colours[0]?.[0] ?? 0) > 150 && (colours[1]?.[1] ?? 0) > 100 && (colours[2]?.[2] ?? 0) > 140, JSON.stringify(colours));
});

for (const width of [320, 390]) {
  pageTest(
    `at ${width} px nothing sticks out, and a field can be reached and changed`,
    async ({ page, screenshot }) => {
      await page.waitForSelector("html[data-ready]");
      const [scroll, client] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
      assert.ok((scroll ?? 0) <= (client ?? 0), `the page is ${scroll} wide in a window of ${client}`);
      await control(page, "group.gap").scrollIntoViewIfNeeded();
      await type(page, "group.gap", "4");
      assert.equal(await said(page, "group.gap"), "4″");
      await screenshot(`narrow-${width}`);
    },
    { viewport: { width, height: 700 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true },
  );
}

pageTest("the room is seen from where the viewer stands, and as an elevation again, with keys alone", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  await settled(page);
  const colours = () =>
    page.evaluate(() => {
      const canvas = document.querySelector("canvas");
      const data = canvas?.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data;
      return data ? data.reduce((sum, value, at) => (sum + value * ((at % 251) + 1)) % 4294967291, 0) : 0;
    });
  const elevation = await colours();
  assert.ok((await page.locator("#overlay .handle").count()) > 0);
  await page.getByRole("radio", { name: "flat, to scale" }).focus();
  await page.keyboard.press("ArrowRight");
  await settled(page);
  assert.ok(await page.getByRole("radio", { name: "in the room" }).isChecked());
  const seen = await colours();
  assert.notEqual(seen, elevation);
  // Nothing lies there that an elevation has elsewhere.
  await finds(page.locator("#overlay > *"), 0);
  await screenshot("oblique");
  await choose(page, "viewing.side", "to the right of the middle of the pictures");
  assert.notEqual(await colours(), seen, "a step aside shows the room otherwise");
  await page.keyboard.press("Control+z");
  await settled(page);
  await page.getByRole("radio", { name: "in the room" }).focus();
  await page.keyboard.press("ArrowLeft");
  await settled(page);
  assert.equal(await colours(), elevation);
  assert.ok((await page.locator("#overlay .handle").count()) > 0);
});
