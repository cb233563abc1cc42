// What is hostile in a text, and where it can stand: for the jobs in more than one browser.

import { readFile } from "node:fs/promises";
import { crc32 } from "node:zlib";

/** Texts that would do something if they were taken for anything but text. */
export const HOSTILE = [
  "</script><script>caught=1</script>",
  "<img src=x onerror=caught=1>",
  "<svg/onload=caught=1>",
  "\"><iframe srcdoc='<script>parent.caught=1</script>'>",
  "' onmouseover='caught=1' x='",
  "javascript:caught=1//",
  "${caught=1}{{caught=1}}<%= 1 %>",
  "<!--<script>",
  "]]><a xlink:href='javascript:caught=1'>",
  "<style>*{display:none}</style>",
  "=HYPERLINK(\"https://example.org\")",
  "\u202e<b>turned</b>\u2066\u200d\u{1f300}",
];

const low = JSON.parse(await readFile(new URL("../../demo-data/plans/low-water.json", import.meta.url), "utf8"));

/**
 * A plan with a text in every place that takes one.
 * @param {string} text
 */
export function planWith(text) {
  const name = `${text} sea`;
  return JSON.stringify({
    ...low,
    title: text,
    fixtures: [{ ...low.fixtures[0], name: text }],
    pictures: [{ ...low.pictures[0], name, file: `${text}.jpg` }],
    split: { ...low.split, picture: name },
    group: { ...low.group, across: { fixture_middle: text }, up: { above: { fixture: text, clearance: "8 in" } } },
  });
}

/**
 * An answer from someone of that name, put together by the standards: CBOR, stored blocks, CRC-32.
 * @param {string} text
 */
export function answer(text) {
  const string = (/** @type {string} */ words) => {
    const bytes = Buffer.from(words);
    return Buffer.concat([Buffer.from([0x79, bytes.length >> 8, bytes.length & 255]), bytes]);
  };
  // { 1: title, 7: [{}], 33: { 5: sender, 6: note } }
  const map = Buffer.concat([
    Buffer.from([0xa3, 1]),
    string(text),
    Buffer.from([7, 0x81, 0xa0, 0x18, 33, 0xa2, 5]),
    string(text),
    Buffer.from([6]),
    string(text),
  ]);
  const head = Buffer.alloc(5);
  head[0] = 1;
  head.writeUInt16LE(map.length, 1);
  head.writeUInt16LE(~map.length & 0xffff, 3);
  const body = Buffer.concat([head, map]);
  const sum = Buffer.alloc(4);
  sum.writeUInt32LE(crc32(Buffer.concat([Buffer.from([1]), body])));
  return `#${Buffer.concat([Buffer.from([1]), sum, body]).toString("base64url")}`;
}

/** What a page must have of a text that it took for text: nothing run, nothing made. */
export const NOTHING = { caught: false, made: 0, scripts: 1 };

/** What a page has of it; run in the page. */
export function taken() {
  return {
    caught: "caught" in window,
    made: document.querySelectorAll("body img, body iframe, body svg, body style, body b, script:not([type]) ~ script:not([type='application/wasm;base64'], [type^='image/'])").length,
    scripts: document.querySelectorAll("script:not([type])").length,
  };
}
