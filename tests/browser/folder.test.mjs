// The page as a folder on a web host, in Chromium: it does the main job, asks its own host alone, draws the same bytes as the one file, opens
// without a connection after the first visit, and lets a new version take over.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { brotliDecompressSync, gunzipSync, inflateRawSync } from "node:zlib";
import { pageAddress } from "./address.mjs";
import { ready, settled } from "./desk.mjs";
import { browser, listen } from "./harness.mjs";
import { builtFiles, host } from "./host.mjs";
import { begun, drawn, hasMark } from "./starting.mjs";
import { atDesk, JOBS } from "./three-people.mjs";

/** @typedef {import("playwright-core").Page} Page */

const HASHED = /\.([0-9a-f]{16})\.[a-z]+$/;
const sha256 = (/** @type {import("node:crypto").BinaryLike} */ bytes) => createHash("sha256").update(bytes).digest("hex");
const built = await builtFiles();
/** @param {string} name */
const file = (name) => built.get(name) ?? assert.fail(`there is no ${name}`);
const named = (/** @type {RegExp} */ pattern) => [...built.keys()].find((name) => pattern.test(name)) ?? assert.fail(`there is no ${pattern}`);

/**
 * A tab of its own with the page from a host, which fails the test when the page complains, or asks anybody else or for what is not there.
 * @param {(tab: {page: Page, host: Awaited<ReturnType<typeof host>>, files: Map<string, Buffer>, elsewhere: string[]}) => Promise<void>} body
 * @param {Parameters<typeof host>[1]} [otherwise]
 * @param {string} [folder] Where on the host it is; at the top by default.
 */
async function onHost(body, otherwise, folder = "") {
  const files = new Map([...built].map(([name, bytes]) => [folder + name, bytes]));
  const server = await host(files, otherwise);
  const context = await (await browser()).newContext({ viewport: { width: 1280, height: 800 } });
  try {
    /** @type {string[]} */
    const elsewhere = [];
    // The worker's requests are among these.
    context.on("request", (request) => {
      if (!request.url().startsWith(server.address) && !/^(blob|data|file):/.test(request.url())) elsewhere.push(request.url());
    });
    const page = await context.newPage();
    /** @type {string[]} */
    const complaints = [];
    page.on("pageerror", (error) => complaints.push(String(error.stack)));
    page.on("console", (message) => {
      if (!message.text().startsWith("Canvas2D: Multiple readback operations")) complaints.push(message.text());
    });
    await page.goto(server.address + folder);
    await ready(page);
    await body({ page, host: server, files, elsewhere });
    assert.deepEqual(complaints, [], "the page has complained");
    assert.deepEqual(elsewhere, [], "it has asked somebody else");
  } finally {
    await context.close();
    server.close();
  }
}

/** Waits until the worker keeps the page, and answers for it. @param {Page} page */
const kept = (page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null);

/** The drawing's bytes, when nothing is drawn any more. @param {Page} page */
async function atRest(page) {
  await settled(page);
  return drawn(page);
}

test("each file is named after its content, and is the same compressed", () => {
  const plain = ["index.html", "manifest.json", "service-worker.js", "robots.txt", "README.md"];
  for (const [name, bytes] of built) {
    const of = name.replace(/\.(br|gz)$/, "");
    if (of === name) {
      const hash = HASHED.exec(name)?.[1];
      if (hash === undefined) assert.ok(plain.includes(name), name);
      else assert.equal(sha256(bytes).slice(0, 16), hash, name);
    } else {
      const again = name.endsWith(".br") ? brotliDecompressSync(bytes) : gunzipSync(bytes);
      assert.ok(again.equals(file(of)) && bytes.length < again.length, name);
    }
  }
  for (const name of ["index.html", named(/^core\..*\.wasm$/), named(/^rest\..*\.wasm$/), named(/^page\..*\.js$/), named(/^page\..*\.css$/)]) file(`${name}.br`), file(`${name}.gz`);
});

test("both parts of the core are those of the one file, byte for byte", async () => {
  const single = await readFile(fileURLToPath(pageAddress), "latin1");
  for (const part of ["core", "rest"]) {
    const blocks = [...single.matchAll(new RegExp(`class="${part}" data-parts="\\d+">([^<]*)<`, "g"))].map((block) => block[1]).join("");
    assert.equal(sha256(inflateRawSync(Buffer.from(blocks, "base64"))), sha256(file(named(new RegExp(`^${part}\\..*\\.wasm$`)))));
  }
});

test("no script and no style stands in the page, and its policy allows none", () => {
  const page = file("index.html").toString();
  assert.deepEqual([...page.matchAll(/<script(?![^>]*type=)([^>]*)>/g)].map((script) => script[1]), [
    ` async src="${named(/^early\..*\.js$/)}" data-core="${named(/^core\..*\.wasm$/)}" data-rest="${named(/^rest\..*\.wasm$/)}" data-folder`,
    ` defer src="${named(/^page\..*\.js$/)}"`,
  ]);
  assert.ok(!/<style|\sstyle=|\son[a-z]+=/.test(page));
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? "";
  assert.deepEqual(policy.split("; "), [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self'",
    "img-src 'self' blob: data:",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types overmantel",
  ]);
});

test("a device is told how to install it: a name, where it starts, and icons that are there", () => {
  const { name, start_url, scope, display, icons } = JSON.parse(file("manifest.json").toString());
  assert.deepEqual([name, start_url, scope, display], ["Overmantel", "./", "./", "standalone"]);
  for (const { src, sizes, type } of icons) {
    assert.equal(type, "image/png");
    // A PNG has its width and height at 16 and 20 (W3C, PNG, 11.2.1).
    const png = file(src);
    assert.equal(`${png.readUInt32BE(16)}x${png.readUInt32BE(20)}`, sizes);
  }
  assert.deepEqual(icons.map((/** @type {{sizes: string}} */ { sizes }) => sizes), ["192x192", "512x512", "512x512"]);
});

test("Chromium finds nothing that keeps the page from being installed", async () => {
  const says = async (/** @type {Page} */ page) => {
    const session = await page.context().newCDPSession(page);
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    // A test's profile is a private one.
    return installabilityErrors.map(({ errorId }) => errorId).filter((error) => error !== "in-incognito");
  };
  await onHost(async ({ page, files }) => {
    assert.deepEqual(await says(page), []);
    files.set("manifest.json", Buffer.from(file("manifest.json").toString().replace("standalone", "browser")));
    files.delete("manifest.json.br"), files.delete("manifest.json.gz");
    await page.reload();
    await ready(page);
    assert.notDeepEqual(await says(page), [], "and it would say so");
  });
});

const chromium = {
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: (process.env.CHROMIUM_FLAGS ?? "--no-sandbox --disable-gpu").split(" "),
};
const buyer = JOBS.find(([name]) => name.startsWith("the buyer")) ?? assert.fail("no job");
test(`from a web host: ${buyer[0]}`, { timeout: 180_000 }, async () => {
  const server = await host(built);
  try {
    await atDesk(chromium, buyer[1], server.address);
    const asked = server.takeAsked();
    for (const part of [/^core\./, /^rest\./]) assert.ok(asked.includes(`/${named(part)}`), String(asked));
    for (const name of asked) assert.ok(built.has(name.slice(1) || "index.html"), `asked for ${name}`);
  } finally {
    server.close();
  }
});

test("it draws the same bytes as the one file, flat and in the room", async () => {
  const context = await (await browser()).newContext({ viewport: { width: 1280, height: 800 } });
  try {
    const single = await context.newPage();
    const complaints = listen(single);
    await single.goto(pageAddress);
    await ready(single);
    await onHost(async ({ page }) => {
      const views = [];
      for (const name of ["flat, to scale", "in the room"]) {
        for (const one of [single, page]) await one.getByRole("radio", { name }).check({ force: true });
        const [here, there] = [await atRest(single), await atRest(page)];
        assert.equal(there, here, name);
        views.push(here);
      }
      assert.notEqual(views[0], views[1]);
    });
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
  }
});

// The second is right but for its parameter, with which no browser takes it (WebAssembly Web API).
for (const type of ["application/octet-stream", "application/wasm; charset=utf-8"]) {
  test(`a host that calls the core ${type} will do`, () => onHost(async ({ page }) => assert.equal(await page.title(), "Low water, three over the sofa · Overmantel"), { media: { wasm: type } }));
}

test("a core that its host does not have, or not whole, is told in a sentence", async () => {
  const [core, rest] = [named(/^core\..*\.wasm$/), named(/^rest\..*\.wasm$/)];
  const missing = /^A part of this page did not come from its host\. Check the connection and load the page again\.$/;
  const broken = /^The part of this page that calculates cannot be run: either it did not come whole/;
  const context = await (await browser()).newContext();
  try {
    for (const [part, bytes, expected] of /** @type {const} */ ([
      [core, undefined, missing],
      [core, file(core).subarray(0, 100_000), broken],
      [rest, undefined, missing],
      [rest, file(rest).subarray(0, 100_000), broken],
    ])) {
      const files = new Map([...built].filter(([name]) => !name.startsWith(part)));
      if (bytes) files.set(part, bytes);
      const server = await host(files);
      const page = await context.newPage();
      await page.goto(server.address);
      await page.waitForFunction(() => document.getElementById("notice")?.textContent !== "Overmantel is starting…");
      assert.match((await page.locator("#notice").textContent()) ?? "", expected);
      server.close();
    }
  } finally {
    await context.close();
  }
});

/** @param {Parameters<typeof onHost>[0]} body */
const inFolder = (body) => onHost(body, { moved: { "walls/index.html": "/walls/index.html" } }, "walls/");
test("after the first visit it opens and draws without its host, which sends it on within a folder", () =>
  inFolder(async ({ page, host }) => {
    await kept(page);
    const before = await atRest(page);
    host.takeAsked();
    host.goAway(true);
    for (const name of ["walls/", "walls/index.html?from=a-letter"]) {
      await page.goto(host.address + name);
      await ready(page);
      assert.equal(await atRest(page), before);
    }
    // A picture that the first drawing had not.
    await page.locator("#files > summary").click();
    await page.locator("#begin").selectOption({ label: "Two harbours beside the window" });
    await page.waitForFunction(() => document.title.startsWith("Two harbours"));
    assert.equal(await page.locator("#status").textContent(), "", "every picture is there");
    assert.deepEqual(host.takeAsked(), []);
  }));

/**
 * The files of another build: another style, and so another page and another worker.
 * @param {Map<string, Buffer>} files
 * @param {string} hash
 */
function newBuild(files, hash) {
  const style = [...files.keys()].find((name) => /^page\..*\.css$/.test(name)) ?? assert.fail("no style");
  const another = `page.${hash}.css`;
  const other = new Map(files);
  for (const name of files.keys()) if (name.startsWith(style) || /\.(html|js)\.(br|gz)$/.test(name)) other.delete(name);
  other.set(another, Buffer.from(`${files.get(style)}:root{--built:"${hash}"}`));
  const [page, worker] = ["index.html", "service-worker.js"].map((name) => String(files.get(name)).replaceAll(style, another));
  other.set("index.html", Buffer.from(page ?? ""));
  // The worker's version is the hash of the page.
  other.set("service-worker.js", Buffer.from((worker ?? "").replace(sha256(file("index.html")).slice(0, 16), sha256(page ?? "").slice(0, 16))));
  return other;
}

/** Puts them on a host in place of what it has. @param {Map<string, Buffer>} files @param {Map<string, Buffer>} other */
function deploy(files, other) {
  files.clear();
  for (const [name, bytes] of other) files.set(name, bytes);
}

const build = (/** @type {Page} */ page) => page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue("--built"));
const versions = (/** @type {Page} */ page) => page.evaluate(async () => (await caches.keys()).length);

/** Loads the page again, and waits until a version has been taken over. @param {Page} page */
async function lookForUpdate(page) {
  await page.reload();
  await ready(page);
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update().catch(() => undefined);
    const worker = registration.installing ?? registration.waiting ?? registration.active;
    while (worker?.state !== "activated" && worker?.state !== "redundant") await new Promise((resolve) => worker?.addEventListener("statechange", resolve, { once: true }));
  });
}

test("a new build takes over at the next load, and a window of the one before still has its parts", () =>
  onHost(async ({ page, host, files }) => {
    await kept(page);
    assert.equal(await build(page), "");
    const [second, third] = [newBuild(built, "0000000000000002"), newBuild(built, "0000000000000003")];

    // Half of it is on the host: the worker of the new build with the page of the old one. Nothing changes.
    deploy(files, new Map([...built, ["service-worker.js", second.get("service-worker.js") ?? Buffer.from("")]]));
    files.delete("service-worker.js.br"), files.delete("service-worker.js.gz");
    await lookForUpdate(page);
    assert.deepEqual([await build(page), await versions(page)], ["", 1]);

    deploy(files, second);
    host.takeAsked();
    await lookForUpdate(page);
    assert.equal(await build(page), "", "this load was still that of the old one");
    const asked = host.takeAsked();
    assert.ok(asked.includes("/page.0000000000000002.css") && !asked.some((name) => /^\/(core|rest)\./.test(name)), `only what is new: ${asked}`);
    // The old window makes a page of itself, whose style the host has no more.
    await page.locator("#studio summary").click();
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the page as a file" }).click()]);
    assert.ok((await readFile(await download.path(), "utf8")).includes(`<style>${file(named(/^page\..*\.css$/))}</style>`));
    await page.reload();
    await ready(page);
    assert.deepEqual([await build(page), await versions(page)], ['"0000000000000002"', 2]);

    deploy(files, third);
    await lookForUpdate(page);
    await page.reload();
    await ready(page);
    assert.deepEqual([await build(page), await versions(page)], ['"0000000000000003"', 2], "the first is forgotten");
    host.goAway(true);
    await page.reload();
    await ready(page);
    assert.equal(await build(page), '"0000000000000003"');
  }));

test("the worker leaves alone what is not the page's, on its host and elsewhere", () =>
  onHost(async ({ page, host: own, files, elsewhere }) => {
    await kept(page);
    files.set("beside.html", Buffer.from("<!doctype html><title>beside</title>"));
    const other = await host(new Map([["core.0123456789abcdef.txt", Buffer.from("not ours")]]));
    try {
      // A page of somebody else's in the same folder, which this worker answers for as well if it wants to.
      own.takeAsked();
      const beside = await page.context().newPage();
      const answer = await beside.goto(`${own.address}beside.html`);
      assert.equal(answer?.fromServiceWorker(), false);
      assert.deepEqual(own.takeAsked().filter((name) => name !== "/favicon.ico"), ["/beside.html"]);
      assert.equal(await beside.evaluate(() => navigator.serviceWorker.controller !== null), true);
      const [response] = await Promise.all([beside.waitForResponse((response) => response.url().startsWith(other.address)), beside.evaluate((address) => fetch(address, { mode: "no-cors" }).then(() => undefined), `${other.address}core.0123456789abcdef.txt`)]);
      assert.equal(response.fromServiceWorker(), false);
      assert.deepEqual(other.takeAsked(), ["/core.0123456789abcdef.txt"]);
      assert.deepEqual(elsewhere.splice(0), [response.url()], "that page's own request, once");
    } finally {
      other.close();
    }
  }));

test("a page made from the folder is the one file, and needs no host", async () => {
  const folder = await mkdtemp(path.join(tmpdir(), "overmantel-"));
  const context = await (await browser()).newContext({ viewport: { width: 1280, height: 800 } });
  /** @param {Page} page @param {string} name */
  const made = async (page, name) => {
    await page.locator("#studio summary").click();
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the page as a file" }).click()]);
    await download.saveAs(path.join(folder, name));
    return readFile(path.join(folder, name), "latin1");
  };
  try {
    const single = await context.newPage();
    await single.goto(pageAddress);
    await ready(single);
    const expected = await made(single, "single.html");
    await onHost(async ({ page }) => {
      const written = await made(page, "folder.html");
      // The core is deflated by the browser there, and by a better program here; everything else is the same.
      const core = /<script type="application\/wasm;base64" class="(core|rest)" data-parts="\d+">([^<]*)<\/script>\n?/g;
      assert.equal(written.replace(core, ""), expected.replace(core, ""));
      for (const part of ["core", "rest"]) {
        const blocks = [...written.matchAll(core)].filter((block) => block[1] === part);
        const inflated = inflateRawSync(Buffer.from(blocks.map((block) => block[2]).join(""), "base64"));
        assert.equal(sha256(inflated), sha256(file(named(new RegExp(`^${part}\\..*\\.wasm$`)))));
      }
      assert.ok(written.includes("connect-src 'none'") && !/<[^>]*data-(folder|single)/.test(written.replace(/<script>.*<\/script>/, "")));
      await page.locator("#propose > summary").click();
      const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the proposal as a file" }).click()]);
      await download.saveAs(path.join(folder, "proposal.html"));
    });
    for (const [name, title] of /** @type {const} */ ([["folder.html", "From the studio"], ["proposal.html", "Low water, three over the sofa"]])) {
      const opened = await context.newPage();
      const complaints = listen(opened, "");
      await opened.goto(pathToFileURL(path.join(folder, name)).href);
      await ready(opened);
      assert.ok((await opened.title()).startsWith(title), await opened.title());
      assert.equal(await opened.locator("#proposed").isVisible(), name === "proposal.html");
      assert.deepEqual(complaints, []);
    }
  } finally {
    await context.close();
    await rm(folder, { recursive: true });
  }
});

test("the wall is drawn while the rest of the core is still under way, and nothing else is done until it is here", async () => {
  const server = await host(await builtFiles());
  const context = await (await browser()).newContext({ viewport: { width: 1280, height: 800 } });
  try {
    const page = await context.newPage();
    /** @type {string[]} */
    const complaints = [];
    page.on("pageerror", (error) => complaints.push(String(error.stack)));
    let release = () => {};
    const released = new Promise((resolve) => (release = () => resolve(undefined)));
    await page.route(/\/rest\.[0-9a-f]+\.wasm$/, async (route) => {
      await released;
      await route.continue();
    });
    await page.goto(server.address, { waitUntil: "commit" });
    await page.waitForFunction(() => performance.getEntriesByName("pictures-drawn").length > 0);
    assert.equal(await hasMark(page, "core-whole"), false);
    const early = await drawn(page);
    assert.equal(await page.locator("#specification").textContent().then((text) => text?.includes("Low water")), false, "nothing is told yet");
    // What can be done to the page by now reaches no part of the core that is not here.
    await page.setViewportSize({ width: 1200, height: 800 });
    await page.keyboard.press("Control+z");
    await page.locator("#canvas").click({ position: { x: 300, y: 200 }, force: true });
    await page.locator("#papers > summary").click({ force: true, timeout: 1000 }).catch(() => undefined);
    await page.setViewportSize({ width: 1280, height: 800 });
    release();
    await ready(page);
    await settled(page);
    assert.equal(await drawn(page), early, "with all of the core it is the same drawing");
    assert.equal(await begun(page), 1, "the first part had all that this takes");
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
    server.close();
  }
});
