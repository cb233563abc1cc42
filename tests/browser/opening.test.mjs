// The page opens from a disk, starts its core, and lets nothing out.

import assert from "node:assert/strict";
import { pageTest } from "./harness.mjs";

pageTest("the page opens and its core starts, without a complaint", async ({ page, screenshot }) => {
  await page.waitForSelector("html[data-ready]");
  assert.equal(await page.title(), "Low water, three over the sofa · Overmantel");
  await screenshot("opening");
});

pageTest("the policy forbids a request, and the tests would notice one", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  const answer = await page.evaluate(() => fetch("https://example.com/").then(() => "let out", () => "kept in"));
  assert.equal(answer, "kept in");
  assert.ok(takeComplaints().some((complaint) => complaint.includes("connect-src")));
});

pageTest("the policy forbids text that becomes code or style", async ({ page, takeComplaints }) => {
  await page.waitForSelector("html[data-ready]");
  const outcomes = await page.evaluate(async () => {
    // The debugger's own call may compile text; what runs after it is the page's and may not.
    await new Promise((resolve) => setTimeout(resolve));
    /** @param {() => unknown} act */
    const attempt = (act) => {
      try {
        act();
        return "done";
      } catch {
        return "refused";
      }
    };
    const paragraph = document.createElement("p");
    document.body.append(paragraph);
    return [
      attempt(() => new Function("return 1")()),
      attempt(() => (paragraph.innerHTML = "<b>bold</b>")),
      attempt(() => paragraph.setAttribute("style", "color: rgb(1, 2, 3)")),
      getComputedStyle(paragraph).color === "rgb(1, 2, 3)" ? "styled" : "plain",
    ];
  });
  assert.deepEqual(outcomes, ["refused", "refused", "done", "plain"]);
  const complaints = takeComplaints().join("\n");
  for (const reason of ["TrustedScript", "TrustedHTML", "style-src"]) {
    assert.ok(complaints.includes(reason), `${reason} in: ${complaints}`);
  }
});
