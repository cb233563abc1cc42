// What live regions say: for the jobs that listen.

/** @typedef {import("playwright-core").Page} Page */

/** More letters are not listened to. */
export const MOST = 120;

/**
 * Listens to the page from now on; to be called again where it is loaded again.
 * @param {Page} page
 */
export async function listenTo(page) {
  await page.evaluate(() => {
    const heard = /** @type {string[]} */ ([]);
    Object.assign(window, { heard });
    const last = new WeakMap();
    const hear = () => {
      for (const region of document.querySelectorAll('[role="status"], [role="alert"], [aria-live]')) {
        const text = (region.textContent ?? "").trim();
        if (text === (last.get(region) ?? "")) continue;
        last.set(region, text);
        if (text !== "") heard.push(text);
      }
    };
    hear();
    heard.length = 0;
    new MutationObserver(hear).observe(document.body, { childList: true, subtree: true, characterData: true });
  });
}

/**
 * What was heard since this was asked last.
 * @param {Page} page
 */
export function heard(page) {
  return page.evaluate(() => /** @type {{heard: string[]}} */ (/** @type {unknown} */ (window)).heard.splice(0));
}
