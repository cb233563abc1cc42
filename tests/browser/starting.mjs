// How the page has started: what it has drawn, and what of its core it had by then.

/** @typedef {import("playwright-core").Page} Page */

/** The drawing's bytes. @param {Page} page */
export const drawn = (page) =>
  page.evaluate(async () => {
    const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById("canvas"));
    const { data, width, height } = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).getImageData(0, 0, canvas.width, canvas.height);
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", data));
    return `${width} × ${height}: ${[...hash].join(" ")}`;
  });

/** How often the core was started again, and the wall drawn for the first time. @param {Page} page */
export const begun = (page) => page.evaluate(() => performance.getEntriesByName("core-ready").length);
export const hasMark = (/** @type {Page} */ page, /** @type {string} */ name) => page.evaluate((name) => performance.getEntriesByName(name).length > 0, name);
