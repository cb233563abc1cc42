// In your room: a photograph chosen, marked and kept, and the pieces that hang in it. What is expected is in the rooms' own truth.json: the
// numbers by which their photographs were made.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { choose, finds, png, reads, ready, said, settled, type } from "./desk.mjs";
import { heard, listenTo, MOST } from "./ear.mjs";
import { pageTest } from "./harness.mjs";

/** @typedef {import("playwright-core").Page} Page */
/** @typedef {[number, number]} At */

const axe = await readFile(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

const rooms = path.join(path.dirname(fileURLToPath(import.meta.url)), "../rooms");
const photo = (/** @type {string} */ room) => path.join(rooms, room, "photo.jpg");
/** The photographs are so many pixels wide. */
const WIDE = 1600;

/**
 * What is true of a room.
 * @param {string} room
 * @returns {Promise<{sheet: {corners: {px: At}[], width_mm: number}, wall: {height_mm: number, corners: {name: string, px: At}[]}}>}
 */
async function truth(room) {
  return JSON.parse(await readFile(path.join(rooms, room, "truth.json"), "utf8"));
}

/** @param {Page} page */
const status = (page) => page.locator("#status");

/**
 * Chooses a view.
 * @param {Page} page
 * @param {string} view
 */
async function look(page, view) {
  await page.locator(`#view input[value="${view}"]`).check({ force: true });
  await settled(page);
}

/**
 * Chooses a photograph, and waits until it is shown.
 * @param {Page} page
 * @param {string} room
 */
async function hang(page, room) {
  await look(page, "photograph");
  await page.setInputFiles("#room-file", photo(room));
  await page.waitForSelector("#room-frame:not([hidden])");
  await settled(page);
}

/**
 * Goes over to marking, with a tool.
 * @param {Page} page
 * @param {string} tool
 */
async function mark(page, tool) {
  await page.locator('#photograph input[value="mark"]').check({ force: true });
  await page.locator(`#marking input[value="${tool}"]`).check({ force: true });
  await settled(page);
}

/**
 * What is kept of the photograph, once the last change is.
 * @param {Page} page
 */
async function kept(page) {
  await page.waitForTimeout(500);
  return page.evaluate(
    () =>
      /** @type {Promise<{marks: any, bytes: Uint8Array, type: string} | undefined>} */ (
        new Promise((resolve, reject) => {
          const request = indexedDB.open("overmantel");
          request.onerror = () => reject(request.error);
          request.onsuccess = () => {
            const got = request.result.transaction("rooms").objectStore("rooms").get("room");
            got.onsuccess = () => {
              request.result.close();
              const stored = got.result;
              resolve(stored && { marks: JSON.parse(stored.marks), bytes: new Uint8Array(stored.image).slice(0, 64 * 1024), type: stored.type });
            };
          };
        })
      ),
  );
}

/**
 * Where a pixel of the photograph is in the window.
 * @param {Page} page
 * @param {At} px
 * @returns {Promise<At>}
 */
async function shown(page, [x, y]) {
  await page.evaluate(() => scrollTo(0, 0));
  await settled(page);
  const box = await page.locator("#room-canvas").boundingBox();
  assert.ok(box);
  return [box.x + (x * box.width) / WIDE, box.y + (y * box.width) / WIDE];
}

/**
 * The colour shown at a pixel of the photograph.
 * @param {Page} page
 * @param {At} px
 */
function colour(page, px) {
  return page.evaluate(
    ([x, y, wide]) => {
      const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById("room-canvas"));
      const scale = canvas.width / Number(wide);
      const { data } = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).getImageData(Number(x) * scale, Number(y) * scale, 1, 1);
      return [data[0] ?? 0, data[1] ?? 0, data[2] ?? 0];
    },
    [...px, WIDE],
  );
}

/**
 * The box of what is strongly blue on the wall, in pixels of the photograph.
 * @param {Page} page
 */
function blue(page) {
  return page.evaluate((wide) => {
    const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById("room-canvas"));
    const { data } = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).getImageData(0, 0, canvas.width, canvas.height);
    const [left, right, top] = [[], [], []].map(() => /** @type {number[]} */ ([]));
    // What lies on the table is blue, too.
    for (let y = 0; y < 0.7 * canvas.height; y += 1) {
      let [first, last] = [-1, -1];
      for (let x = 0; x < canvas.width; x += 1) {
        const at = 4 * (y * canvas.width + x);
        if ((data[at + 2] ?? 0) < (data[at] ?? 0) + 70) continue;
        if (first < 0) first = x;
        last = x;
      }
      if (first < 0) continue;
      left?.push(first);
      right?.push(last);
      top?.push(y);
    }
    const middle = (/** @type {number[] | undefined} */ of) => [...(of ?? [])].sort((one, other) => one - other)[Math.floor((of ?? []).length / 2)] ?? 0;
    const scale = Number(wide) / canvas.width;
    return { left: middle(left) * scale, right: middle(right) * scale, top: (top?.[0] ?? 0) * scale, bottom: (top?.at(-1) ?? 0) * scale };
  }, WIDE);
}

/** @param {At[]} corners @returns {At} */
function middleOf(corners) {
  const mean = (/** @type {0 | 1} */ axis) => corners.reduce((sum, at) => sum + at[axis], 0) / corners.length;
  return [mean(0), mean(1)];
}

/**
 * One canvas with a blue picture, that hangs alone.
 * @param {Page} page
 */
async function oneBlue(page) {
  await choose(page, "pieces.count", "one");
  await choose(page, "piece.all.material", "canvas");
  await page.setInputFiles("#pictures", { name: "harbour.png", mimeType: "image/png", buffer: png(1600, 2000, [20, 60, 220]) });
  await page.waitForFunction(() => document.querySelector("#specification")?.textContent?.includes("1600 × 2000"));
  await type(page, "piece.all.image", "16 × 20");
}

/**
 * Marks as a text, to a thousandth of a pixel.
 * @param {unknown} marks
 */
const rounded = (marks) => JSON.stringify(marks, (_, value) => (typeof value === "number" ? Math.round(value * 1000) / 1000 : value));

/** @param {Page} page */
const planFile = (page) =>
  page.evaluate(
    () =>
      /** @type {Promise<string>} */ (
        new Promise((resolve) => {
          const own = URL.createObjectURL;
          URL.createObjectURL = (/** @type {Blob} */ blob) => {
            URL.createObjectURL = own;
            void blob.text().then(resolve);
            return own.call(URL, blob);
          };
          document.getElementById("save")?.click();
        })
      ),
  );

pageTest("a photograph is chosen, its sheet is found, and the pieces hang on it in true size", async ({ page, screenshot }) => {
  const { sheet } = await truth("green-sofa");
  await ready(page);
  await oneBlue(page);
  const before = await planFile(page);
  await look(page, "photograph");
  assert.match((await page.locator("#room-choose").textContent()) ?? "", /A4 or Letter.*stays on this machine/s);
  assert.equal(await page.locator("#stage").isVisible(), false);
  await screenshot("room-choose");
  await hang(page, "green-sofa");
  await reads(status(page), /true size/);
  const room = await kept(page);
  assert.ok(room);
  // Sheets of a photograph of 1600 pixels, found: the rooms say where they are to a hundredth of a pixel.
  for (const [index, { px }] of sheet.corners.entries()) {
    const [x, y] = room.marks.sheet.corners[index];
    assert.ok(Math.hypot(x - px[0], y - px[1]) < 1.5, `corner ${index}: ${x}, ${y} in place of ${px}`);
  }
  // What the file's Exif says, and nothing else of the file.
  assert.equal(room.marks.focal_35mm, 27);
  const [a, b, c] = sheet.corners.map(({ px }) => px);
  assert.ok(a && b && c);
  const middle = middleOf(sheet.corners.map(({ px }) => px));
  const [red, , blueness] = await colour(page, middle);
  assert.ok((blueness ?? 0) > (red ?? 0) + 70, "the picture hangs over the sheet");
  // 16 in are 406.4 mm, and the sheet's 210 mm are as wide as its upper edge and its middle are.
  const box = await blue(page);
  const perMm = Math.hypot(b[0] - a[0], b[1] - a[1]) / sheet.width_mm;
  const wide = (box.right - box.left) / perMm;
  assert.ok(Math.abs(wide - 406.4) < 0.04 * 406.4, `${wide} mm wide in place of 406.4`);
  await screenshot("room-hang");
  await mark(page, "sheet");
  const paper = await colour(page, middle);
  assert.ok(Math.min(...paper) > 180, `the paper itself: ${paper}`);
  // The plan and its link know nothing of it.
  assert.equal(await planFile(page), before);
  await page.locator("#send summary").click();
  await settled(page);
  const link = await page.evaluate(() => [...document.querySelectorAll("#send :is(input, textarea)")].map((one) => /** @type {HTMLInputElement} */ (one).value).join(" "));
  await look(page, "elevation");
  assert.equal(await page.locator("#stage").isVisible(), true);
  assert.equal(await page.locator("#photograph").isVisible(), false);
  assert.equal(await page.evaluate(() => [...document.querySelectorAll("#send :is(input, textarea)")].map((one) => /** @type {HTMLInputElement} */ (one).value).join(" ")), link);
});

pageTest("pieces are dragged in the photograph, moved by keys, undone, and there again after a reload", async ({ page }) => {
  await ready(page);
  await oneBlue(page);
  await choose(page, "group.across", "in the middle of the wall");
  await hang(page, "green-sofa");
  const before = await blue(page);
  const grip = await shown(page, [(before.left + before.right) / 2, (before.top + before.bottom) / 2]);
  const [away] = await shown(page, [(before.left + before.right) / 2 - 200, 0]);
  await page.keyboard.down("Shift");
  await page.mouse.move(...grip);
  await page.mouse.down();
  await page.mouse.move(away, grip[1], { steps: 5 });
  await page.mouse.up();
  await page.keyboard.up("Shift");
  await settled(page);
  const after = await blue(page);
  const moved = (before.left + before.right - after.left - after.right) / 2;
  assert.ok(Math.abs(moved - 200) < 12, `moved by ${moved} pixels in place of 200`);
  assert.ok(after.right - after.left > 1.01 * (before.right - before.left), "nearer to the camera, and so larger: the wall's left is nearer in this room");
  await page.locator("#room-canvas").focus();
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("ArrowUp");
  await settled(page);
  const higher = await blue(page);
  assert.ok(higher.top < after.top - 3, `${higher.top} above ${after.top}`);
  // Both keys were one step.
  await page.keyboard.press("Control+z");
  await settled(page);
  const undone = await blue(page);
  assert.ok(Math.abs(undone.top - after.top) <= 1);
  const marks = rounded((await kept(page))?.marks);
  await page.reload();
  await ready(page);
  await look(page, "photograph");
  await page.waitForSelector("#room-frame:not([hidden])");
  await settled(page);
  assert.equal(rounded((await kept(page))?.marks), marks);
  const again = await blue(page);
  assert.ok(Math.abs(again.left - undone.left) <= 1.5 && Math.abs(again.top - undone.top) <= 1.5, "where it was");
  const file = await kept(page);
  assert.match(file?.type ?? "", /^image\/(jpeg|webp)$/);
  assert.equal(Buffer.from(Object.values(file?.bytes ?? {})).includes("Exif"), false, "nothing of the file but its pixels");
});

pageTest("pieces that went out of the photograph come back to the sheet, and those of another plan hang in sight", async ({ page }) => {
  const { sheet } = await truth("green-sofa");
  const middle = middleOf(sheet.corners.map(({ px }) => px));
  await ready(page);
  await oneBlue(page);
  await hang(page, "green-sofa");
  const back = page.getByRole("button", { name: "Bring the pieces back to the sheet" });
  assert.equal(await back.isVisible(), false);
  // A wall of 60 ft whose pieces hang in its middle: that is 24 ft farther to the right than in one of 12 ft.
  await choose(page, "group.across", "in the middle of the wall");
  await type(page, "wall.width", "60 ft");
  await settled(page);
  assert.equal((await blue(page)).right, 0, "out of the photograph");
  await back.click();
  await settled(page);
  const [red = 0, , blueness = 0] = await colour(page, middle);
  assert.ok(blueness > red + 70);
  assert.equal(await back.isVisible(), false);
  await page.getByRole("combobox", { name: "Open an example" }).selectOption({ index: 2 });
  await settled(page);
  await page.waitForTimeout(300);
  assert.equal(await back.isVisible(), false);
});

pageTest("marks are moved and removed by keys, and undone where one is", async ({ page }) => {
  await ready(page);
  await hang(page, "green-sofa");
  await mark(page, "sheet");
  const corner = async () => /** @type {At} */ ((await kept(page))?.marks.sheet.corners[0]);
  const [x, y] = await corner();
  const button = page.getByRole("button", { name: "top left corner of the sheet" });
  await button.focus();
  await page.keyboard.press("Enter");
  assert.equal(await button.getAttribute("aria-pressed"), "true");
  assert.equal(await page.locator("#room-frame .loupe").isVisible(), true);
  for (let press = 0; press < 3; press += 1) await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowDown");
  assert.deepEqual((await corner()).map(Math.round), [x + 3, y + 10].map(Math.round));
  await page.keyboard.press("Control+z");
  assert.deepEqual((await corner()).map(Math.round), [x + 3, y].map(Math.round));
  assert.equal(await said(page, "wall.width"), "12′ 0″", "the plan's own steps stay");
  // A line that was found is left out, and counts again.
  await mark(page, "lines");
  const first = page.locator("#marking .marks button").first();
  await first.click();
  await page.getByRole("button", { name: "Leave it out" }).click();
  await reads(first, /left out$/);
  const isOut = async () => (await kept(page))?.marks.lines[0].left_out;
  assert.equal(await isOut(), true);
  await page.getByRole("button", { name: "Count it again" }).click();
  assert.equal(await isOut(), false);
  // A line by keys alone: two points on the canvas.
  const lines = async () => (await kept(page))?.marks.lines.length;
  const many = Number(await lines());
  await page.locator("#room-canvas").focus();
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Enter");
  await reads(status(page), "Now the other end of the edge.");
  for (let press = 0; press < 4; press += 1) await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("Enter");
  assert.equal(await lines(), many + 1);
  await page.locator("#marking .marks button").last().focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Delete");
  assert.equal(await lines(), many, "one drawn by hand goes away");
});

pageTest("what can't be used is said plainly, and the photograph before it stays", async ({ page }) => {
  await ready(page);
  await listenTo(page);
  await look(page, "photograph");
  await page.setInputFiles("#room-file", { name: "tide table.txt", mimeType: "text/plain", buffer: Buffer.from("low water 14:10") });
  await reads(status(page), /^tide table\.txt is not a picture/);
  assert.equal(await page.locator("#room-choose").isVisible(), true);
  await hang(page, "white-door");
  const marks = (await kept(page))?.marks;
  await page.setInputFiles("#room-file", { name: "small.png", mimeType: "image/png", buffer: png(150, 120, [200, 200, 200]) });
  await reads(status(page), /^The photograph has 150 × 120 pixels; at least 200/);
  await page.setInputFiles("#room-file", { name: "shore.png", mimeType: "image/png", buffer: png(2600, 600, [200, 200, 200]) });
  await reads(status(page), /as long as a panorama/);
  assert.equal(await page.locator("#room-frame").isVisible(), true);
  assert.deepEqual((await kept(page))?.marks, marks);
  // Where no sheet is found it is marked by hand.
  await page.setInputFiles("#room-file", { name: "bare.png", mimeType: "image/png", buffer: png(800, 600, (x, y) => (x > 300 && x < 405 && y > 200 && y < 348 ? [150, 152, 149] : [140, 160, 150])) });
  await reads(status(page), /^No sheet was found|true size/);
  for (const text of await heard(page)) assert.ok(text.length <= MOST, `${text.length} letters: ${text}`);
  await mark(page, "sheet");
  await page.getByRole("button", { name: "Forget this photograph" }).click();
  await reads(status(page), /forgotten/);
  assert.equal(await kept(page), undefined);
  await finds(page.locator("#room-frame:visible"), 0);
  await page.getByRole("button", { name: "Bring the last one back" }).click();
  await finds(page.locator("#room-frame:visible"), 1);
  assert.ok(await kept(page));
});

pageTest("the ends of the wall are marked, measured, and taken into the plan as one step", async ({ page, screenshot }) => {
  const { wall } = await truth("green-sofa");
  await ready(page);
  await page.locator('#units input[value="centimetres"]').check({ force: true });
  await settled(page);
  const before = await said(page, "wall.height");
  await hang(page, "green-sofa");
  await mark(page, "ends");
  const corner = (/** @type {string} */ name) => /** @type {At} */ (wall.corners.find((own) => own.name === name)?.px);
  for (const [end, name] of [["3", "bottom-right"], ["2", "top-right"]]) {
    await page.locator(`#marking input[name="room-end"][value="${end}"]`).check({ force: true });
    await page.mouse.click(...(await shown(page, corner(String(name)))));
    await settled(page);
  }
  const row = page.locator("#marking .lengths tr", { hasText: "Height of the wall" });
  const text = (await row.locator("td").textContent()) ?? "";
  const [, metres = "", off = ""] = /^([\d.]+) c?m ± ([\d.]+) /.exec(text) ?? [];
  const mm = Number(metres) * (/^[\d.]+ m /.test(text) ? 1000 : 10);
  assert.ok(Number(off) > 0, text);
  // A press is off by a pixel or two of the photograph, of which 2.5 mm is one there.
  assert.ok(Math.abs(mm - wall.height_mm) < 60, `${text} in place of ${wall.height_mm} mm`);
  await screenshot("room-ends");
  await page.getByRole("button", { name: "Take these into the plan" }).click();
  await settled(page);
  await reads(status(page), /^Taken into the plan/);
  assert.match(await said(page, "wall.height"), /^2(4[6-9]|5[0-8])\d? cm$|^2\.(4[6-9]|5[0-8])\d? m$/);
  await page.locator("#undo").click();
  await settled(page);
  assert.equal(await said(page, "wall.height"), before);
});

pageTest(
  "a finger drags the pieces and the marks, and scrolls the page from anywhere else",
  async ({ page, screenshot }) => {
    await ready(page);
    await hang(page, "green-sofa");
    await screenshot("room-phone");
    const touch = await page.context().newCDPSession(page);
    const swipe = async (/** @type {At} */ [x, y], /** @type {At} */ [right, down]) => {
      await touch.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [{ x, y }] });
      for (let step = 1; step <= 8; step += 1) await touch.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: [{ x: x + (right * step) / 8, y: y + (down * step) / 8 }] });
      await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
      await settled(page);
    };
    const pixels = () => page.evaluate(() => /** @type {HTMLCanvasElement} */ (document.getElementById("room-canvas")).toDataURL());
    const sheet = (await truth("green-sofa")).sheet.corners.map(({ px }) => px);
    const before = await pixels();
    await swipe(await shown(page, middleOf(sheet)), [20, -40]);
    assert.notEqual(await pixels(), before, "the pieces have moved");
    assert.equal(await page.evaluate(() => scrollY), 0);
    await mark(page, "sheet");
    await page.evaluate(() => scrollTo(0, 0));
    await settled(page);
    const [corner] = sheet;
    assert.ok(corner);
    const was = (await kept(page))?.marks.sheet.corners[0];
    await swipe(await shown(page, corner), [-12, -8]);
    const now = (await kept(page))?.marks.sheet.corners[0];
    assert.ok(now[0] < was[0] - 20 && now[1] < was[1] - 10, `${now} from ${was}`);
    assert.equal(await page.evaluate(() => scrollY), 0);
    await page.getByRole("button", { name: "Undo the last mark" }).click();
    assert.deepEqual((await kept(page))?.marks.sheet.corners[0], was);
    await page.evaluate(() => scrollTo(0, 0));
    await settled(page);
    await swipe(await shown(page, [300, 850]), [0, -150]);
    await page.waitForFunction(() => scrollY > 50);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("#photograph :is(button, select, input), #marking :is(button, select, input)")]
        .map((one) => [one instanceof HTMLInputElement && one.type !== "text" ? one.closest("label") : one, one])
        .filter(([target]) => target?.getClientRects().length)
        .filter(([target]) => Math.min(target?.getBoundingClientRect().height ?? 0, target?.getBoundingClientRect().width ?? 0) < 24)
        .map(([, one]) => one?.outerHTML.slice(0, 80)),
    );
    assert.deepEqual(small, []);
  },
  { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, depth: "short" },
);

pageTest("what stands in front is painted, the light is chosen, and the view is saved and printed", async ({ page, screenshot }) => {
  const { sheet } = await truth("green-sofa");
  const middle = middleOf(sheet.corners.map(({ px }) => px));
  await ready(page);
  await oneBlue(page);
  await hang(page, "green-sofa");
  const isBlue = (/** @type {number[]} */ [red = 0, , blueness = 0]) => blueness > red + 70;
  assert.ok(isBlue(await colour(page, middle)));
  // By the mouse: a stroke over the middle of the piece; the bare wall is seen there, without the sheet.
  await mark(page, "front");
  await page.mouse.move(...(await shown(page, [middle[0] - 30, middle[1]])));
  await page.mouse.down();
  await page.mouse.move(...(await shown(page, [middle[0] + 30, middle[1]])), { steps: 4 });
  await screenshot("room-brush");
  await page.mouse.up();
  await settled(page);
  assert.ok(!isBlue(await colour(page, middle)), "hidden there");
  assert.equal((await kept(page))?.marks.strokes.length, 1);
  await page.getByRole("button", { name: "Undo the last mark" }).click();
  await settled(page);
  assert.ok(isBlue(await colour(page, middle)));
  // By keys: an outline of three points, closed by Enter on the last. It begins in the middle of the canvas.
  await page.locator("#room-canvas").focus();
  const press = async (/** @type {string} */ key, times = 1) => {
    for (let time = 0; time < times; time += 1) await page.keyboard.press(key);
  };
  await press("Shift+ArrowUp", 4);
  await press("Enter");
  await press("Shift+ArrowLeft", 6);
  await press("Enter");
  await press("Shift+ArrowDown", 4);
  await press("Enter", 2);
  const strokes = (await kept(page))?.marks.strokes;
  assert.deepEqual([strokes.length, strokes[0].points.length, strokes[0].radius, strokes[0].hides], [1, 3, undefined, true]);
  await press("Control+z");
  assert.equal((await kept(page))?.marks.strokes.length, 0);
  await mark(page, "light");
  await page.locator("#marking select:visible").selectOption("right");
  assert.equal((await kept(page))?.marks.light_from, "right");
  await page.locator("#look").evaluate((one) => one.toggleAttribute("open", true));
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-png").click()]);
  const file = await readFile(await download.path());
  // The photograph's own 1600 × 1200 pixels (PNG, 11.2.2: width and height stand at 16).
  assert.deepEqual([file.readUInt32BE(16), file.readUInt32BE(20)], [1600, 1200]);
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  const printed = await page.evaluate(
    ([x, y]) => {
      const canvas = /** @type {HTMLCanvasElement} */ (document.querySelector("#printed canvas"));
      const { data } = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).getImageData(Number(x), Number(y), 1, 1);
      return { size: [canvas.width, canvas.height], at: [data[0] ?? 0, data[1] ?? 0, data[2] ?? 0] };
    },
    middle,
  );
  assert.deepEqual(printed.size, [1600, 1200]);
  assert.ok(isBlue(printed.at));
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
});

pageTest("a press draws both ends of a length, which is typed; a sheet is drawn where none was found", async ({ page }) => {
  const { sheet } = await truth("green-sofa");
  const [a, , c] = sheet.corners.map(({ px }) => px);
  assert.ok(a && c);
  await ready(page);
  await hang(page, "green-sofa");
  await mark(page, "length");
  const typed = page.getByRole("textbox", { name: "How long it is" });
  await page.mouse.click(...(await shown(page, a)));
  await reads(status(page), "Now its other end.");
  await page.mouse.click(...(await shown(page, c)));
  await reads(status(page), "Now type how long that is.");
  assert.equal(await typed.evaluate((one) => one === document.activeElement), true);
  await page.keyboard.type("a long way");
  await page.keyboard.press("Enter");
  await reads(status(page), /^"a long way" is no length/);
  // The diagonal of A4: the root of 210² + 297² is 363.7 mm.
  await typed.fill("36.4 cm");
  await page.keyboard.press("Enter");
  await reads(status(page), "");
  const [length] = (await kept(page))?.marks.lengths;
  assert.equal(length.length, "36.4 cm");
  await finds(page.locator("#marking .marks button"), 2);
  // The sheet is removed, and drawn again in one go from corner to corner; its edges are found.
  await mark(page, "sheet");
  await page.getByRole("button", { name: "top left corner of the sheet" }).click();
  await page.getByRole("button", { name: "Remove" }).click();
  await reads(status(page), /^Removed/);
  await reads(page.locator("#marking .note").first(), /no sheet of paper/i);
  const [from, to] = [await shown(page, [a[0] - 4, a[1] - 4]), await shown(page, [c[0] + 4, c[1] + 4])];
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move(...to, { steps: 3 });
  await page.mouse.up();
  await reads(status(page), /^The sheet is marked/);
  const corners = (await kept(page))?.marks.sheet.corners;
  for (const [index, { px }] of sheet.corners.entries()) assert.ok(Math.hypot(corners[index][0] - px[0], corners[index][1] - px[1]) < 2, `corner ${index}`);
  await page.locator("#marking select:visible").selectOption("other");
  await page.getByRole("textbox", { name: "across" }).fill("21 cm");
  await page.getByRole("textbox", { name: "up" }).fill("29.7 cm");
  await page.keyboard.press("Enter");
  const own = (await kept(page))?.marks.sheet;
  assert.deepEqual([own.paper, own.size_mm], [undefined, [210, 297]]);
});

for (const [name, options] of /** @type {[string, import("./harness.mjs").Options][]} */ ([
  ["by day", { viewport: { width: 1440, height: 900 } }],
  ["by night", { viewport: { width: 1440, height: 900 }, colorScheme: "dark" }],
  ["on a phone by night", { viewport: { width: 390, height: 844 }, colorScheme: "dark", hasTouch: true, isMobile: true }],
  ["on a phone held across", { viewport: { width: 844, height: 390 }, hasTouch: true, isMobile: true }],
])) {
  pageTest(
    `axe-core finds nothing in the photograph and its tools, ${name}`,
    async ({ page, screenshot }) => {
      await ready(page);
      await page.evaluate(axe);
      const wrong = async () => {
        const report = await page.evaluate(async () => {
          const found = await /** @type {any} */ (window).axe.run({ include: [["#sheet"], ["#tools"], ["#photograph"], ["#marking"]] }, { rules: { "target-size": { enabled: true } } });
          return found.violations.flatMap((/** @type {any} */ one) => one.nodes.map((/** @type {any} */ node) => `${one.id}: ${node.html.slice(0, 120)}`));
        });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        return [...report, ...(wide > 0 ? [`${wide} pixels too wide`] : [])];
      };
      await look(page, "photograph");
      assert.deepEqual(await wrong(), []);
      await hang(page, "green-sofa");
      assert.deepEqual(await wrong(), []);
      for (const tool of ["sheet", "lines", "length", "ends", "things", "front", "light"]) {
        await mark(page, tool);
        assert.deepEqual(await wrong(), [], tool);
        await page.evaluate(() => scrollTo(0, 0));
        await screenshot(`room-${name.replaceAll(" ", "-")}-${tool}`);
      }
    },
    { ...options, depth: "short" },
  );
}
