// The core comes in two parts: whatever the first lacks is drawn and told all the same, only later.

import assert from "node:assert/strict";
import { ready, reads, settled } from "./desk.mjs";
import { pageTest } from "./harness.mjs";
import { begun, drawn } from "./starting.mjs";

pageTest("a start that takes more than the first part has begins again, and says and draws the same", async ({ page }) => {
  await ready(page);
  assert.equal(await begun(page), 1);
  // What is kept can't be read: saying why takes what no other start does.
  await page.evaluate(() => {
    for (const place of [localStorage, sessionStorage]) place.setItem("overmantel.plan", '{"overmantel": 1, "units": "inches", "wall": {"size": "12 cubits"}}');
    addEventListener("pagehide", (event) => event.stopImmediatePropagation(), { capture: true });
  });
  await page.reload();
  await ready(page);
  assert.ok((await begun(page)) > 1, "it took both parts");
  await reads(page.locator("#status"), /The plan kept from last time can't be opened: .*"title" is missing/);
  const again = await drawn(page);
  // The very same plan, which is kept now, begins with the first part alone.
  await page.evaluate(() => sessionStorage.clear());
  await page.reload();
  await ready(page);
  await settled(page);
  assert.equal(await drawn(page), again);
});
