// The page's states, without a browser: what each change makes of them.

import assert from "node:assert/strict";
import { test } from "node:test";
import { pageModule } from "./page-module.mjs";

const page = /** @type {typeof import("../../www/src/state.js")} */ (await pageModule("state.ts"));
const atWork = /** @type {typeof import("../../www/src/kept/at-work.js")} */ (await pageModule("kept/at-work.ts"));

/**
 * The page's state after some changes.
 * @param {import("../../www/src/state.js").Change[]} changes
 */
function after(...changes) {
  return changes.reduce(page.changed, page.firstState(undefined, "short"));
}

test("a piece is described until the plan has it no more", () => {
  const third = after({ kind: "counted", pieces: 3 }, { kind: "described", piece: 2 });
  assert.equal(third.piece, 2);
  assert.equal(page.isAlone(third), true);
  assert.equal(page.changed(third, { kind: "counted", pieces: 3 }).piece, 2);
  const fewer = page.changed(third, { kind: "counted", pieces: 2 });
  assert.deepEqual([fewer.pieces, fewer.piece, page.isAlone(fewer)], [2, undefined, false]);
});

test("the caption and the choice follow from how many pieces there are", () => {
  const one = after();
  assert.deepEqual([page.caption(one), page.describable(one)], ["The piece", []]);
  const three = after({ kind: "counted", pieces: 3 });
  assert.equal(page.caption(three), "Each piece (the first, where they differ)");
  assert.deepEqual(page.describable(three), ["all of them", "the first", "the second", "the third"]);
  assert.equal(page.caption(page.changed(three, { kind: "described", piece: 1 })), "Piece 2");
  assert.deepEqual(page.describable(after({ kind: "counted", pieces: 2 })), ["all of them", "the first", "the second"]);
});

test("one thing is held at a time, and dropped once", () => {
  const held = after({ kind: "taken", handle: "group" });
  assert.equal(page.changed(held, { kind: "taken", handle: "fixture.0" }).held, "group");
  const dropped = page.changed(held, { kind: "dropped" });
  assert.equal(dropped.held, undefined);
  assert.equal(page.changed(dropped, { kind: "dropped" }), dropped, "the very same state");
});

test("a change that changes nothing is told, and one that does leaves the rest as it is", () => {
  const state = new page.PageState(page.firstState("{}", "short"));
  assert.equal(state.now.stock, "{}");
  assert.equal(state.change({ kind: "chosen", field: "wall.width" }), true);
  assert.equal(state.change({ kind: "chosen", field: "wall.width" }), false);
  assert.equal(state.change({ kind: "viewed", oblique: true }), true);
  assert.equal(state.change({ kind: "dragging", drags: "picture" }), true);
  assert.equal(state.change({ kind: "touched", piece: 1 }), true);
  assert.equal(state.change({ kind: "stocked", stock: undefined }), true);
  assert.deepEqual(state.now, { ...page.firstState(undefined, "short"), chosen: "wall.width", oblique: true, drags: "picture", touched: 1 });
});

test("a plan of none of the list gets a place in it when it is edited", () => {
  const first = atWork.firstAtWork(null, 0);
  const edited = atWork.edited(first, "one", 100, "a");
  assert.deepEqual(edited, { id: "a", own: undefined, changed: 100, isDue: true, isElsewhere: false });
  assert.equal(atWork.edited(edited, "two", 90, "b").id, "a");
  assert.equal(atWork.edited(edited, "two", 90, "b").changed, 101, "a clock that is set back makes nothing older");
});

test("the plan of a link becomes one beside the user's own, unless it is her own again", () => {
  const own = atWork.edited(atWork.firstAtWork("a", 5), "mine", 10, "x");
  const linked = atWork.borrowed(own, "mine");
  assert.equal(atWork.borrowed(linked, "another").own, "mine", "the own plan is the first");
  assert.equal(atWork.edited(linked, "mine", 20, "b"), linked, "undone: the very same state");
  const edited = atWork.edited(linked, "theirs, changed", 20, "b");
  assert.deepEqual([edited.id, edited.own, edited.isDue], ["b", undefined, true]);
});

test("another window that keeps the same plan leaves what is changed here a plan beside it", () => {
  const listed = atWork.listed(atWork.edited(atWork.firstAtWork("a", 5), "one", 10, "x"), 10);
  assert.equal(listed.isDue, false);
  assert.equal(atWork.keptElsewhere(listed, "c", "b"), listed, "another plan is none of ours");
  assert.equal(atWork.keptElsewhere(listed, null, "b"), listed);
  const elsewhere = atWork.keptElsewhere(listed, "a", "b");
  assert.deepEqual([elsewhere.id, elsewhere.isElsewhere], ["a", true]);
  assert.equal(atWork.keptElsewhere(elsewhere, "a", "b"), elsewhere, "told once");
  assert.deepEqual([atWork.edited(elsewhere, "two", 20, "b").id, atWork.edited(elsewhere, "two", 20, "b").isElsewhere], ["b", false]);
  // What is not in the list yet gets a place of its own at once.
  const due = atWork.edited(listed, "two", 20, "x");
  assert.deepEqual([atWork.keptElsewhere(due, "a", "b").id, atWork.keptElsewhere(due, "a", "b").isElsewhere], ["b", false]);
});

test("what was changed while the list was written is still to come", () => {
  const edited = atWork.edited(atWork.firstAtWork("a", 5), "one", 10, "x");
  assert.equal(atWork.listed(edited, 9).isDue, true);
  assert.equal(atWork.listed(edited, 10).isDue, false);
});

test("of what was kept at once and what the list has, the later is taken", () => {
  const first = atWork.takenUp(atWork.firstAtWork("a", 5), true, "x");
  assert.equal(first.id, "a");
  assert.equal(atWork.takenUp(atWork.firstAtWork("a", 5), false, "x").id, null);
  assert.equal(atWork.takenUp(atWork.firstAtWork(null, 5), true, "x").id, "x");
  for (const inList of [undefined, 4, 5]) {
    const { state, opens } = atWork.compared(first, 5, inList, "b");
    assert.deepEqual([state.isDue, opens], [true, false], `${inList}`);
  }
  assert.deepEqual(atWork.compared(first, undefined, 6, "b"), { state: { ...first, isDue: true }, opens: false });
  assert.deepEqual(atWork.compared(first, 5, 6, "b"), { state: first, opens: true });
  const edited = atWork.edited(first, "one", 10, "x");
  assert.deepEqual(atWork.compared(edited, 5, 6, "b"), { state: { ...edited, id: "b" }, opens: false });
});

test("a plan that replaces another owes nothing to the list", () => {
  const edited = atWork.edited(atWork.firstAtWork("a", 5), "one", 10, "x");
  assert.deepEqual(atWork.replaced(edited, "c", 3), { id: "c", own: undefined, changed: 11, isDue: false, isElsewhere: false });
});
