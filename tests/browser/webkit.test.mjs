// The page in WebKit: from the file on disk opened, drawn, edited, undone, reloaded, with one's own pictures, by keys, to the papers; over http, as one
// file and as a folder, for what it asks for and complains of. WebKitGTK stands in for the browser that
// telephones and tablets of one maker have; it is driven by WebDriver (W3C Recommendation, 5 June 2018), under a virtual display where
// there is none.
//
// Its driver is found in WEBKIT_DRIVER or at Debian's place; where it or a display is missing, the test says so and is skipped.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { pageAddress } from "./address.mjs";
import { png } from "./desk.mjs";
import { builtFiles, host } from "./host.mjs";

const driver = process.env.WEBKIT_DRIVER ?? "/usr/bin/WebKitWebDriver";
const display = process.env.DISPLAY;
const virtual = process.env.XVFB ?? "/usr/bin/Xvfb";
const skip = !existsSync(driver)
  ? `WebKit's driver is not at ${driver}; name it in WEBKIT_DRIVER`
  : display === undefined && !existsSync(virtual)
    ? `there is no display, and no Xvfb at ${virtual}; name it in XVFB`
    : false;

/** The key under which WebDriver names an element (section 11). */
const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";

// WebDriver tells nothing of the console; what goes wrong is written down by the page itself.
const COMPLAINTS =
  "window.wrong = []; for (const kind of ['error', 'unhandledrejection', 'securitypolicyviolation']) addEventListener(kind, (event) => window.wrong.push(`${kind}: ${event.message ?? event.reason ?? event.violatedDirective}`))";

/** A port that nobody listens on. @returns {Promise<number>} */
function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => resolve(typeof address === "object" && address !== null ? address.port : 0));
    });
  });
}

/** Asks again until there is an answer. @template T @param {string} what @param {() => Promise<T | undefined | null | false>} ask @returns {Promise<T>} */
async function until(what, ask, milliseconds = 60_000) {
  const end = Date.now() + milliseconds;
  for (;;) {
    const answer = await ask();
    if (answer !== undefined && answer !== null && answer !== false) return answer;
    if (Date.now() > end) throw new Error(`waited in vain: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** A display of its own, and its number: Xvfb writes that to the descriptor that it is given, and chooses one that is free. */
async function virtualDisplay() {
  const server = spawn(virtual, ["-displayfd", "3", "-screen", "0", "1400x1000x24", "-nolisten", "tcp"], { stdio: ["ignore", "ignore", "ignore", "pipe"] });
  let written = "";
  server.stdio[3]?.on("data", (data) => (written += String(data)));
  const number = await until("a virtual display", async () => /^\d+\n/.test(written) && written.trim(), 20_000);
  return { server, display: `:${number}` };
}

/**
 * A session of the driver, with what a test does in it.
 * @typedef {object} Session
 * @property {(method: string, path: string, body?: object) => Promise<any>} call A call below the session's own path.
 * @property {(script: string, ...args: unknown[]) => Promise<any>} run Runs a script in the page.
 * @property {(selector: string) => Promise<string>} find An element.
 * @property {() => Promise<unknown>} ready Waits until the page has begun.
 * @property {(field: string) => Promise<string>} said What a field says.
 * @property {(field: string, text: string) => Promise<unknown>} says Waits until it says this.
 */

/** @param {(session: Session) => Promise<void>} body */
async function inWebKit(body) {
  const screen = display === undefined ? await virtualDisplay() : undefined;
  const port = await freePort();
  const process_ = spawn(driver, [`--port=${port}`, "--host=127.0.0.1"], {
    stdio: "ignore",
    env: { ...process.env, DISPLAY: screen?.display ?? display, WEBKIT_DISABLE_COMPOSITING_MODE: "1", NO_AT_BRIDGE: "1" },
  });
  let session = "";
  /** @param {string} method @param {string} path @param {object} [body] */
  const call = async (method, path, body) => {
    const response = await fetch(`http://127.0.0.1:${port}${session}${path}`, { method, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
    const { value } = /** @type {{value: any}} */ (await response.json());
    if (!response.ok) throw new Error(`${path}: ${value?.error}: ${value?.message}`);
    return value;
  };
  try {
    await until("the driver", () => call("GET", "/status").then(() => true, () => false), 20_000);
    const options = { "webkitgtk:browserOptions": { binary: process.env.WEBKIT ?? undefined, args: ["--automation"] } };
    const capabilities = process.env.WEBKIT === undefined ? {} : options;
    const opened = await call("POST", "/session", { capabilities: { alwaysMatch: capabilities } });
    session = `/session/${opened.sessionId}`;
    /** @type {Session["run"]} */
    const run = (script, ...args) => call("POST", "/execute/sync", { script, args });
    /** @type {Session["said"]} */
    const said = (field) => run("return document.querySelector(`#specification [data-field=\"${arguments[0]}\"] > span`)?.textContent", field);
    await body({
      call,
      run,
      find: async (selector) => (await call("POST", "/element", { using: "css selector", value: selector }))[ELEMENT],
      ready: () => until("the page to be ready", () => run("return document.documentElement.dataset.ready !== undefined")),
      said,
      says: (field, text) => until(`${field} to say ${text}`, async () => (await said(field)) === text, 20_000),
    });
  } finally {
    if (session !== "") await call("DELETE", "").catch(() => undefined);
    process_.kill();
    screen?.server.kill();
  }
}

test("the page in WebKit: opened, drawn, edited, undone, reloaded, with one's own pictures, by keys, to the papers", { skip, timeout: 240_000 }, () => inWebKit(async ({ call, run, find, ready, said, says }) => {
  const folder = await mkdtemp(path.join(tmpdir(), "pictures-"));
  try {
    await call("POST", "/url", { url: pageAddress });
    await ready();
    const colours = await run(
      "const c = document.getElementById('canvas'); const { data } = c.getContext('2d').getImageData(0, 0, c.width, c.height); return new Set(new Uint32Array(data.buffer)).size",
    );
    assert.ok(colours > 1000, `the drawing has ${colours} colours`);
    assert.equal(await said("wall.size"), "12′ 0″ × 8′ 0″", "in short at first");
    await call("POST", `/element/${await find('#depth input[value="full"]')}/click`, {});
    await run("for (const details of document.querySelectorAll('#full details')) details.open = true");
    assert.equal(await said("wall.width"), "12′ 0″");
    assert.equal(await run("return document.getElementById('notice').hidden"), true, "nothing is complained of");
    assert.equal(await run("return document.getElementById('status').textContent"), "", "every picture that the page carries was decoded");

    await run(COMPLAINTS);

    /** As a hand types it: a field that is entered is marked whole, so that it is written over; U+E007 is Enter (section 17.4.2). @param {string} field @param {string} text */
    const type = async (field, text) => {
      const input = await find(`#specification [data-field="${field}"] input`);
      await call("POST", `/element/${input}/value`, { text: `${text}\uE007` });
    };
    await type("wall.width", "13' 6");
    await says("wall.width", "13′ 6″");
    const gap = await said("group.gap");
    await type("group.gap", "4");
    await says("group.gap", "4″");
    await call("POST", `/element/${await find("#undo")}/click`, {});
    await says("group.gap", gap);
    assert.equal(await said("wall.width"), "13′ 6″", "one step back, and no more");

    assert.deepEqual(await run("return window.wrong"), [], "the page has complained");
    await call("POST", "/refresh", {});
    await ready();
    assert.equal(await said("wall.width"), "13′ 6″", "kept");
    assert.equal(await run("return document.getElementById('notice').hidden"), true);

    // Three pictures of one's own, from files: taken, drawn, and there again after a reload.
    await run(COMPLAINTS);
    const names = ["ebb", "slack", "flood"];
    const files = names.map((name) => path.join(folder, `${name}.png`));
    await Promise.all(files.map((file, index) => writeFile(file, png(1500, 1200, [70 + 60 * index, 110, 120]))));
    await call("POST", `/element/${await find("#pictures")}/value`, { text: files.join("\n") });
    const chosen = () => run("return [...document.querySelectorAll('#specification [data-field$=picture] select')].map((select) => select.selectedOptions[0]?.textContent)");
    const isShown = async () => (await chosen()).join() === names.join();
    await until("the three pictures to be shown", isShown);
    const settled = () => new Promise((resolve) => setTimeout(resolve, 500));
    await settled();
    assert.equal(await run("return document.getElementById('status').textContent"), "Three pictures hang.", "each is kept, also where a window keeps nothing for good");
    await call("POST", "/refresh", {});
    await ready();
    await until("the three pictures to be there again", isShown);
    await settled();
    assert.equal(await run("return document.getElementById('status').textContent"), "", "no file has to be chosen again");

    // By keys: U+E004 is Tab, U+E008 Shift, U+E007 Enter, U+E014 the right arrow, U+E00C Escape.
    await run(COMPLAINTS);
    await run("document.querySelector('[data-handle=group]').focus()");
    const label = () => run("return document.querySelector('[data-handle=group]').getAttribute('aria-label')");
    const before = await label();
    const keys = (/** @type {string} */ text) => find("[data-handle=group]").then((handle) => call("POST", `/element/${handle}/value`, { text }));
    await keys("\uE007\uE014\uE014");
    await until("the pieces to have moved", async () => (await label()) !== before);
    await keys("\uE00C");
    await until("the pieces to be back", async () => (await label()) === before);

    // A photograph of a room: its sheet is found, and a piece is drawn there in its light; the room's own truth.json says where.
    const room = path.join(path.dirname(fileURLToPath(import.meta.url)), "../rooms/green-sofa");
    const { sheet } = JSON.parse(await readFile(path.join(room, "truth.json"), "utf8"));
    const middle = [0, 1].map((axis) => sheet.corners.reduce((/** @type {number} */ sum, /** @type {{px: number[]}} */ { px }) => sum + (px[axis] ?? 0) / 4, 0));
    await run("document.querySelector('#view input[value=photograph]').click()");
    await call("POST", `/element/${await find("#room-file")}/value`, { text: path.join(room, "photo.jpg") });
    await until("the photograph to be shown", () => run("return !document.querySelector('#room-frame').hidden"), 30_000);
    const where = "const c = document.querySelector('#room-canvas'); const [r, g, b] = c.getContext('2d').getImageData(arguments[0] / 1600 * c.width, arguments[1] / 1200 * c.height, 1, 1).data; return [r, g, b]";
    await until("a piece to hang where the sheet is", async () => {
      // What hangs there is of a reddish grey, and the sheet is white.
      const [red, green] = await run(where, ...middle);
      return red > green + 8 && red < 190;
    }, 20_000);
    await run("document.querySelector('#view input[value=elevation]').click()");

    // The papers are made here as elsewhere.
    await run("document.querySelector('#papers').open = true");
    const press = async (/** @type {string} */ words) =>
      run("[...document.querySelectorAll('#papers button')].find((button) => button.textContent.includes(arguments[0])).click()", words);
    await until("the papers to be offered", () => run("return [...document.querySelectorAll('#papers button')].some((button) => button.textContent.includes('Save all papers'))"), 20_000);
    await run("window.made = []; const create = URL.createObjectURL; URL.createObjectURL = (blob) => { window.made.push([blob.type, blob.size]); return create.call(URL, blob); }");
    await press("Save all papers");
    await until("a paper to be made", () => run("return window.made.some(([type, size]) => type === 'application/pdf' && size > 10000)"), 60_000);
    assert.deepEqual(await run("return window.wrong"), [], "the page has complained");
  } finally {
    await rm(folder, { recursive: true });
  }
}));

// Opens the page in a frame, and hooks on to the frame's window before anything runs in it.
const OPEN_IN_FRAME = `
window.wrong = [];
const frame = document.createElement("iframe");
frame.src = arguments[0];
frame.width = 1200;
frame.height = 800;
document.body.append(frame);
const inside = frame.contentWindow;
for (const kind of ["error", "unhandledrejection", "securitypolicyviolation"])
  inside.addEventListener(kind, (event) => window.wrong.push([kind, event.message ?? event.reason ?? event.violatedDirective ?? event.target?.src ?? event.target?.href].join(": ")), true);
for (const method of ["log", "info", "warn", "error"]) inside.console[method] = (...words) => window.wrong.push([method, ...words].join(" "));`;

/**
 * Opens the page from a host; whatever it says in the console or fails at is returned, with what the host was asked for.
 * @param {Session} session
 * @param {Map<string, Buffer>} files
 */
async function overHttp({ call, run, ready, said }, files) {
  const frame = Buffer.from('<!doctype html><link rel="icon" href="data:,"><title>a page with a frame</title>');
  const server = await host(new Map([...files, ["frame.html", frame], ["wrong.html", WRONG]]));
  const open = async (/** @type {string} */ name) => {
    await call("POST", "/url", { url: `${server.address}frame.html` });
    server.takeAsked();
    await run(OPEN_IN_FRAME, name);
    await call("POST", "/frame", { id: 0 });
  };
  const wrong = () => run("return window.parent.wrong");
  try {
    await open("wrong.html");
    await until("what is wrong to be noticed", async () => (await wrong()).length >= 4, 20_000);
    assert.deepEqual((await wrong()).sort(), ["error: Error: thrown", `error: ${server.address}not-there.png`, "securitypolicyviolation: style-src-attr", "warn said"]);
    assert.deepEqual(server.takeAsked(), ["/wrong.html", "/not-there.png"]);
    await open("./");
    await ready();
    assert.equal(await said("wall.size"), "12′ 0″ × 8′ 0″");
    // What a browser asks for on its own comes a moment later.
    await new Promise((resolve) => setTimeout(resolve, 1500));
    return { wrong: await wrong(), asked: server.takeAsked() };
  } finally {
    server.close();
  }
}

/** A page that would be complained of in every way that is listened for. */
const WRONG = Buffer.from(
  `<!doctype html><meta http-equiv="Content-Security-Policy" content="style-src 'none'"><p style="color: red"><img src="not-there.png"><script>console.warn("said"); setTimeout(() => { throw new Error("thrown"); });</script>`,
);

test("over http, in WebKit, the one file asks for nothing but itself, and the console is empty", { skip, timeout: 120_000 }, () =>
  inWebKit(async (session) => {
    const { wrong, asked } = await overHttp(session, new Map([["index.html", await readFile(fileURLToPath(pageAddress))]]));
    assert.deepEqual([wrong, asked], [[], ["/"]]);
  }));

test("over http, in WebKit, the folder asks its host for its own files, and the console is empty", { skip, timeout: 120_000 }, () =>
  inWebKit(async (session) => {
    const files = await builtFiles();
    const { wrong, asked } = await overHttp(session, files);
    assert.deepEqual(wrong, []);
    assert.ok(asked.length > 4, String(asked));
    for (const name of asked) assert.ok(files.has(name.slice(1) || "index.html"), `asked for ${name}`);
  }));
