// What is kept of practice, without a page: when a change is due again, what is found in files and stores, what has changed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { differences } from "../../theme/js/kept/difference.js";
import { joined, readFile, written } from "../../theme/js/kept/file.js";
import { match, settled } from "../../theme/js/kept/match.js";
import { between, recordIn, untried } from "../../theme/js/kept/record.js";
import { GAPS, afterTry, dayOf, dueDay, dueIn } from "../../theme/js/kept/schedule.js";

const HOUR = 3_600_000;
const NOON = new Date(2026, 2, 27, 12).getTime();
/** @param {number} days */
const noon = (days) => new Date(2026, 2, 27 + days, 12).getTime();

/** @param {string} block @param {string} from @param {string} to */
const change = (block, from, to) => ({
  page: "fog/", title: "Fog", block, ordinal: 1, from: `${block}--${from}`, to: `${block}--${to}`, fromShape: from, toShape: to, fromName: "Am", toName: "C",
});
/** @param {import("../../theme/js/kept/record.js").Kept} kept @param {boolean[]} tries @param {number} now */
const tried = (kept, tries, now) => tries.reduce((record, clean) => afterTry(record, clean, now), kept);
const ONE = untried(change("a", "x02210", "x32010"));

test("a day is a day of the student's own calendar, also where the clock is put forward", () => {
  assert.equal(dayOf(new Date(2026, 2, 28, 23, 59).getTime()) + 1, dayOf(new Date(2026, 2, 29, 0, 1).getTime()));
  // In much of Europe the 29th of March 2026 has 23 hours.
  assert.equal(dayOf(noon(3)) - dayOf(NOON), 3);
  assert.equal(dayOf(NOON - 11 * HOUR), dayOf(NOON + 11 * HOUR));
});

test("what was tried comes back tomorrow, clean or not", () => {
  for (const clean of [true, false]) {
    const kept = tried(ONE, [clean], NOON);
    assert.deepEqual(dueIn([kept], NOON + 2 * HOUR), []);
    assert.equal(dueIn([kept], noon(1)).length, 1);
  }
  assert.deepEqual(dueIn([{ ...ONE, done: true }], noon(400)), []);
});

test("after clean days the gaps grow; after a day that was not clean it is tomorrow again", () => {
  let kept = ONE;
  let day = 0;
  for (const gap of [...GAPS, GAPS[GAPS.length - 1]]) {
    kept = tried(kept, [true, true, false, true, true], noon(day));
    assert.equal(dueDay(kept) - dayOf(noon(day)), gap);
    day += gap;
  }
  kept = tried(kept, [true, false, false], noon(day));
  assert.equal(dueDay(kept) - dayOf(noon(day)), 1);
  assert.deepEqual([kept.clean, kept.tries], [4 * 7 + 1, 5 * 7 + 3]);
});

test("the least clean comes first, and two of a block are not next to each other where it can be helped", () => {
  const shares = { a: [[0, 4], [1, 4], [2, 4]], b: [[3, 4]], c: [[1, 8], [4, 4]] };
  const all = Object.entries(shares).flatMap(([block, tries]) => tries.map(([clean, of], at) =>
    tried(untried(change(block, `${at}`, "to")), Array.from({ length: of }, (_, n) => n < clean), NOON)));
  const due = dueIn(all, noon(1)).map(({ block, clean, tries }) => `${block} ${clean}/${tries}`);
  assert.deepEqual(due, ["a 0/4", "c 1/8", "b 3/4", "a 1/4", "c 4/4", "a 2/4"]);
  assert.deepEqual(dueIn(all.map((kept) => ({ ...kept, gone: true })), noon(1)), []);
});

test("of what is due none is left out for a cleaner one, however they are mixed", () => {
  /** @param {string} block @param {number} clean @param {number} at */
  const of = (block, clean, at) => tried(untried(change(block, `${at}`, "to")), [clean > 0, clean > 1], NOON);
  const all = [of("a", 0, 1), of("a", 0, 2), of("b", 2, 1), of("a", 1, 3), of("c", 2, 1), of("b", 1, 2)];
  assert.deepEqual(dueIn(all, noon(9), 4).map(({ block, clean }) => `${block} ${clean}`), ["a 0", "b 1", "a 0", "a 1"]);
  assert.equal(dueIn(all, noon(9)).length, 6);
  assert.equal(dueIn(all.map((kept) => ({ ...kept, gone: true })), noon(9), 4).length, 0);
});

test("what is practised since a step was edited comes back in place of what was before", () => {
  const [before, after] = ["x32010", "x32000"].map((to, at) => tried(untried({ ...change("a", "x02210", to), fromOrdinal: 0 }), [at === 0], noon(at)));
  assert.deepEqual(dueIn([before, after], noon(9)), [after]);
  assert.deepEqual(dueIn([before, { ...after, gone: true }], noon(9)), [before]);
  const other = tried(untried({ ...change("a", "x02210", "x3201x"), fromOrdinal: 2 }), [true], NOON);
  assert.equal(dueIn([after, other], noon(9)).length, 2);
});

test("a record that is not whole is none", () => {
  const kept = tried(ONE, [true, false], NOON);
  assert.deepEqual(recordIn(JSON.parse(JSON.stringify(kept))), kept);
  for (const wrong of [
    { clean: 3 }, { tries: -1 }, { tries: 1.5 }, { last: "now" }, { ordinal: null }, { day: null }, { day: { number: 1, clean: 2, tries: 1 } },
    { page: "//elsewhere.example/" }, { page: "javascript:alert(1)" }, { page: "../other/" }, { page: "fog/?x" }, { toName: 4 }, { rung: Infinity },
  ]) assert.equal(recordIn({ ...kept, ...wrong }), null, JSON.stringify(wrong));
  for (const wrong of [null, 4, "text", [], {}]) assert.equal(recordIn(wrong), null);
});

test("a file is read as it was written, and anything else is refused with its reason", () => {
  const progress = { steps: [tried(ONE, [true], NOON)], ticks: { "a/change/x/y": true } };
  const text = written(progress, "Fog Bank", new Date(NOON));
  assert.deepEqual(readFile(text, "Fog Bank"), { progress });
  assert.deepEqual(readFile(text, "Other"), { refused: "other-course", course: "Fog Bank" });
  const file = JSON.parse(text);
  const refusals = {
    unreadable: [text.slice(0, -9), "", JSON.stringify({ ...file, steps: [{}] }), JSON.stringify({ ...file, ticks: { a: "yes" } }), JSON.stringify({ ...file, version: 0 })],
    foreign: ["{}", "[]", "null", "4", JSON.stringify({ ...file, format: "other" })],
    newer: [JSON.stringify({ ...file, version: 2 })],
  };
  for (const [refused, texts] of Object.entries(refusals)) {
    for (const one of texts) assert.deepEqual(readFile(one, "Fog Bank"), { refused }, one);
  }
});

test("two devices' progress goes together: more tries hold, ticks of both stay", () => {
  const [fewer, more] = [tried(ONE, [true], NOON), tried(ONE, [true, false, false], noon(1))];
  const other = untried(change("b", "0", "1"));
  const both = joined({ steps: [{ ...more, done: false }], ticks: { one: true } }, { steps: [{ ...fewer, done: true }, other], ticks: { two: true } });
  assert.deepEqual(both, { steps: [{ ...more, done: true }, other], ticks: { one: true, two: true } });
  assert.deepEqual(joined({ steps: [fewer], ticks: {} }, { steps: [more], ticks: {} }).steps, [more]);
});

/** @param {number} ordinal @param {string} shape @param {string} kind */
const stop = (ordinal, shape, kind = "move") => ({ id: `a--${shape}`, block: "a", ordinal, kind, shape, name: shape, written: shape, named: "" });

test("a record is found by id, then by block and ordinal", () => {
  const lesson = [stop(0, "x02210", "start"), stop(1, "x32010")];
  assert.equal(match(ONE, lesson).place, "same");
  const changed = match(ONE, [stop(0, "x02210", "start"), stop(1, "x32000")]);
  assert.equal(changed.place, "changed");
  assert.deepEqual([changed.now?.to, changed.now?.from, changed.now?.toShape], ["a--x32000", "a--x02210", "x32000"]);
  assert.equal(match(ONE, [stop(0, "x02210", "start"), stop(1, "", "rest")]).place, "gone");
  assert.equal(match(ONE, [stop(0, "x02210", "start")]).place, "gone");
  assert.equal(match(ONE, []).place, "gone");
  const moved = match(ONE, [{ ...stop(0, "x02210"), id: "b1" }, { ...stop(1, "x32010"), id: "b2" }]);
  assert.equal(moved.place, "moved");
  assert.deepEqual(settled([ONE], [moved]).map(({ from, to, gone }) => [from, to, gone]), [["b1", "b2", false]]);
  assert.equal(settled([ONE], [match(ONE, [])])[0].gone, true);
});

/** A change between two steps as it is kept now, or as it was before it was kept where a change begins. @param {ReturnType<typeof stop>} from @param {ReturnType<typeof stop>} to */
const practised = (from, to) => tried(untried(between({ page: "fog/", title: "Fog" }, from, to)), [true], NOON);
/** @param {import("../../theme/js/kept/record.js").Kept} kept */
const early = ({ fromOrdinal, ...kept }) => (assert.notEqual(fromOrdinal, undefined), kept);

test("where a change begins is found by its own place, whichever way it goes and however far", () => {
  const [a, b, c, d] = [stop(0, "x02210", "start"), stop(1, "x32010"), stop(2, "xx0232"), stop(3, "320003")];
  const edited = [a, b, stop(2, "xx0231"), d];
  const back = match(practised(c, b), edited);
  assert.deepEqual([back.place, back.now?.from, back.now?.to], ["changed", "a--xx0231", b.id]);
  const far = match(practised(a, d), [stop(0, "x02000", "start"), b, c, d]);
  assert.deepEqual([far.place, far.now?.from, far.now?.to], ["changed", "a--x02000", d.id]);
  // A record from before is told by that of the way there; without one, the step before is what was most likely meant.
  const told = match(early(practised(c, b)), edited, [early(practised(b, c))]);
  assert.deepEqual([told.place, told.now?.from], ["changed", "a--xx0231"]);
  assert.equal(match(early(practised(b, c)), [a, stop(1, "x32000"), c, d]).now?.from, "a--x32000");
  assert.equal(match(practised(b, c), [a, stop(1, "x30000", "passing"), c]).place, "gone");
});

test("a step that is known from elsewhere has not come out of the one that is gone", () => {
  const [a, b, c, d] = [stop(0, "x02210", "start"), stop(1, "x32010"), stop(2, "xx0232"), stop(3, "320003")];
  const kept = [practised(a, b), practised(b, c), practised(c, d)];
  const shorter = [a, { ...c, ordinal: 1 }, { ...d, ordinal: 2 }];
  const matches = kept.map((one) => match(one, shorter, kept));
  assert.deepEqual(matches.map(({ place }) => place), ["gone", "gone", "same"]);
  const after = settled(kept, matches);
  assert.deepEqual(after.map(({ gone, ordinal, fromOrdinal }) => [gone, ordinal, fromOrdinal]), [[true, 1, 0], [true, 2, 1], [false, 2, 1]]);
  assert.deepEqual(after.map((one) => match(one, shorter, after).place), ["gone", "gone", "same"], "and so it stays");
  assert.deepEqual(after.map((one) => match(one, [a, b, c, d], after).place), ["same", "same", "same"], "until it is back");
});

test("a lesson that is opened brings its records up to date, and those of the same change together", () => {
  const [a, b] = [stop(0, "x02210", "start"), stop(1, "x32010")];
  const before = early(practised(a, b));
  assert.equal(settled([before], [match(before, [a, b])])[0].fromOrdinal, 0);
  const renamed = [a, { ...b, id: "other" }];
  const both = [tried(before, [false], noon(1)), practised(renamed[0], renamed[1])];
  const [one, ...rest] = settled(both, both.map((kept) => match(kept, renamed, both)));
  assert.deepEqual([one.to, one.clean, one.tries, rest.length], ["other", 1, 2, 0]);
});

test("a record of an earlier version is read as it was, and one with more is taken without what is wrong in it", () => {
  const kept = practised(stop(0, "x02210", "start"), stop(1, "x32010"));
  assert.deepEqual(recordIn(JSON.parse(JSON.stringify(kept))), kept);
  assert.deepEqual(recordIn(early(kept)), early(kept));
  for (const fromOrdinal of [-1, "0", null, 0.5]) assert.deepEqual(recordIn({ ...kept, fromOrdinal }), early(kept));
});

test("what two shapes do differently is told string by string, the lowest first", () => {
  const none = "";
  assert.deepEqual(differences("x02210/--231-", "x32010/-32-1-"), [
    { string: 5, was: { fret: 0, finger: none }, now: { fret: 3, finger: "3" } },
    { string: 3, was: { fret: 2, finger: "3" }, now: { fret: 0, finger: none } },
  ]);
  assert.deepEqual(differences("x-10-12-12-11-x/-1342-", "x-10-12-12-11-10/-13421"), [
    { string: 1, was: { fret: null, finger: none }, now: { fret: 10, finger: "1" } },
  ]);
  assert.deepEqual(differences("200232/T--132", "200232/1--132"), [{ string: 6, was: { fret: 2, finger: "T" }, now: { fret: 2, finger: "1" } }]);
  assert.deepEqual(differences("x32010", "x32010"), []);
});
