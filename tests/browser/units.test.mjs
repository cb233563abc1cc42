// In which units a new plan begins, without a browser.
//
// Expected values: CLDR's supplemental measurementData as UTS #35 part 6 gives it (measurementSystem "US": LR, MM, US; "UK": GB; "metric"
// everywhere else), and CLDR's likely subtags for languages without a region (de is de-Latn-DE, en is en-Latn-US, sv is sv-Latn-SE).

import assert from "node:assert/strict";
import { test } from "node:test";
import { pageModule } from "./page-module.mjs";

const units = /** @type {typeof import("../../www/src/start/units.js")} */ (await pageModule("start/units.ts"));

test("a new plan is in inches where these are everyday, and in centimetres elsewhere", () => {
  for (const language of ["en-US", "es-US", "en-LR", "my-MM", "en", "my"]) assert.equal(units.isMetric([language]), false, language);
  for (const language of ["de-DE", "de", "sv", "en-CA", "fr-CA", "en-AU", "en-GB", "ja", "zh-Hant-TW"]) assert.equal(units.isMetric([language]), true, language);
});

test("the preferred language decides, and what is no language decides nothing", () => {
  assert.equal(units.isMetric(["de", "en-US", "en"]), true);
  assert.equal(units.isMetric(["en-US", "de"]), false);
  assert.equal(units.isMetric(["no language", "de"]), true);
  // "und" is unstated; likely subtags take it for English as in the United States.
  for (const none of [[], ["und"], ["qaa"], ["no language"]]) assert.equal(units.isMetric(none), false, String(none));
});

test("a plan that can't be opened says its units as long as they can be read", () => {
  assert.equal(units.isInCentimetres('{ "overmantel": 99, "units": "centimetres", "wall'), true);
  assert.equal(units.isInCentimetres('{"units":"inches"}'), false);
  assert.equal(units.isInCentimetres("no plan"), undefined);
});
