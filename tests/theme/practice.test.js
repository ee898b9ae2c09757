// The practice view's modules that need no page: where it goes, what keys and beats mean, when a rest is due.
import assert from "node:assert/strict";
import { test } from "node:test";
import { askedToPractise, practiseAddress } from "../../theme/js/practice/address.js";
import { askedFor, placeOf } from "../../theme/js/practice/asked.js";
import { beatTime, litMark, meaning, stride } from "../../theme/js/practice/beats.js";
import { fingersLifted, fingersStretched } from "../../theme/js/practice/fingers.js";
import { actionOf } from "../../theme/js/practice/keys.js";
import { Position } from "../../theme/js/practice/position.js";
import { restIsDue, workedOn, workedSoFar } from "../../theme/js/practice/rested.js";
import { changeOf, direction, neighbour, pairInto, pairOf, timedNext } from "../../theme/js/practice/walk.js";

/** @param {string} block @param {string} kind @param {string} shape */
const stop = (block, kind, shape) => ({ id: `${block}--${shape}-${kind}`, block, kind, shape, wayBack: kind === "start" ? null : {} });
const STEPS = [
  stop("a", "start", "G"), stop("a", "passing", "Gx"), stop("a", "move", "C"), stop("a", "hold", "C"), stop("a", "rest", ""),
  stop("a", "back", "C"), stop("b", "start", "Am"), stop("b", "move", "C"),
];

test("an address says the steps, whatever their ids hold", () => {
  const ids = ["a,b--1", "é #2"];
  assert.deepEqual(askedToPractise(practiseAddress(ids)), ids);
  assert.equal(askedToPractise("#slack-water"), null);
  assert.deepEqual(askedToPractise("#practise="), []);
  assert.deepEqual(askedToPractise("#practise=100%"), ["100%"]);
});

test("a step that is no more leads to its block, and one of no block to the beginning", () => {
  assert.equal(placeOf(STEPS[2].id, STEPS), 2);
  assert.equal(placeOf("b--other", STEPS), 6);
  assert.equal(placeOf("c--other", STEPS), 0);
});

test("what an address asks for is found where it stood; a step that is gone leaves the other alone", () => {
  const ids = STEPS.map(({ id }) => id);
  const steps = STEPS.map((step, at) => ({ ...step, ordinal: at < 6 ? at : at - 6 }));
  /** @param {string} id @param {string} block @param {number} ordinal */
  const stood = (id, block, ordinal) => ({ id, block, ordinal });
  assert.deepEqual(askedFor([ids[7], ids[6]], steps, []), { at: 7, pair: [6, 7], notice: "" });
  assert.deepEqual(askedFor([], steps, []), { at: 0, pair: null, notice: "" });
  // Edited since: what stands in its place is taken, but no way-point and no rest.
  assert.deepEqual(askedFor([ids[0], "a--was"], steps, [stood("a--was", "a", 2)]), { at: 2, pair: [0, 2], notice: "" });
  assert.deepEqual(askedFor(["a--was"], steps, [stood("a--was", "a", 3)]), { at: 3, pair: null, notice: "" });
  for (const ordinal of [1, 4, 9]) {
    assert.deepEqual(askedFor([ids[2], "a--was"], steps, [stood("a--was", "a", ordinal)]), { at: 2, pair: null, notice: "edited" });
  }
  // Never what it is not: nothing is known of it, or what stands there is known from elsewhere.
  assert.deepEqual(askedFor(["a--was", ids[5]], steps, []), { at: 5, pair: null, notice: "edited" });
  assert.deepEqual(askedFor(["b--was"], steps, []), { at: 6, pair: null, notice: "edited" });
  const known = [stood("a--was", "a", 2), stood(ids[2], "a", 3)];
  assert.deepEqual(askedFor([ids[0], "a--was"], steps, known), { at: 0, pair: null, notice: "edited" });
  assert.deepEqual(askedFor([ids[2], "a--was"], steps, [stood("a--was", "a", 2)]).notice, "edited", "both would be the same");
  assert.deepEqual(askedFor([ids[2], ids[3]], steps, []), { at: 3, pair: null, notice: "no-pair" });
});

test("next and back go through the lesson, or between the two of a pair", () => {
  assert.deepEqual([neighbour(0, -1, 8, null), neighbour(0, 1, 8, null), neighbour(7, 1, 8, null)], [null, 1, null]);
  assert.deepEqual([neighbour(0, 1, 8, [0, 2]), neighbour(0, -1, 8, [0, 2]), neighbour(2, 1, 8, [0, 2])], [2, 2, 0]);
});

test("time stops with the block, since the next may be tuned otherwise", () => {
  assert.equal(timedNext(4, STEPS, null), 5);
  assert.equal(timedNext(5, STEPS, null), null);
  assert.equal(timedNext(5, STEPS, [2, 5]), 2);
});

test("a change begins before a way-point, and rests, holds and other blocks are none", () => {
  assert.deepEqual(changeOf(1, 2, STEPS), [0, 2]);
  for (const [from, to] of [[0, 1], [2, 3], [3, 4], [4, 5], [5, 6]]) assert.equal(changeOf(from, to, STEPS), null, `${from} ${to}`);
  assert.equal(changeOf(null, 2, STEPS), null);
  assert.deepEqual([pairInto(2, STEPS), pairInto(0, STEPS), pairOf(7, 6, STEPS), pairOf(2, 7, STEPS)], [[0, 2], null, [6, 7], null]);
});

test("two steps lie there, back or apart", () => {
  assert.deepEqual([[1, 2], [2, 1], [2, 0], [5, 6], [1, 0]].map(([from, to]) => direction(from, to, STEPS)), ["there", "back", "apart", "apart", "back"]);
});

test("a round of a pair goes there and back, and time begins with its first", () => {
  const opened = new Position(STEPS).opened(5, [0, 2]);
  const there = opened.inTime;
  const back = there.inTime;
  assert.deepEqual([opened, there, back].map(({ at, roundIsOver }) => [at, roundIsOver]), [[0, false], [2, false], [0, true]]);
  assert.deepEqual([opened.change, there.change, back.change], [null, [STEPS[0], STEPS[2]], [STEPS[2], STEPS[0]]]);
  assert.deepEqual([there.timeBegins.at, back.timeBegins.at, back.timeBegins.roundIsOver], [0, 0, false]);
  assert.deepEqual(there.practised, [STEPS[0], STEPS[2]]);
});

test("gone on, a step is come to by a change; gone back, it is only opened; a position stays as it was", () => {
  const third = new Position(STEPS, 2);
  assert.deepEqual([third.beside(1).from, third.beside(-1).from, new Position(STEPS).beside(-1)], [2, null, null]);
  assert.deepEqual([third.at, third.timeBegins === third, third.otherPair], [2, true, [0, 2]]);
});

test("beats come when the tempo says, by the count and not by the last one", () => {
  assert.equal(beatTime(4, 60), 4000);
  assert.ok(Math.abs(beatTime(1000, 137) - 1000 * (60000 / 137)) < 1e-6);
});

test("never more than three changes of light a second (WCAG 2.2, 2.3.1)", () => {
  for (let tempo = 30; tempo <= 400; tempo += 1) {
    for (const marks of [1, 2, 3, 4, 7]) {
      const shown = Array.from({ length: 400 }, (_, beat) => [beatTime(beat, tempo), litMark(beat, beat % marks, marks, tempo)]).filter(([, lit]) => lit !== null);
      const gaps = shown.slice(1).map(([at], one) => Number(at) - Number(shown[one][0]));
      assert.ok(Math.min(...gaps) >= 1000 / 3 - 1e-6, `${tempo} ${marks}`);
    }
  }
  assert.deepEqual([60, 180, 181, 208].map(stride), [1, 1, 2, 2]);
});

test("a beat of one in a bar is seen too", () => {
  assert.deepEqual([0, 1, 2, 3].map((beat) => litMark(beat, 0, 1, 60)), [0, 1, 0, 1]);
});

test("the count-in comes first, then the step's beats, then the step is over", () => {
  assert.deepEqual([0, 1, 2, 4, 5].map((beat) => meaning(beat, 2, 3).kind), ["count", "count", "step", "step", "over"]);
  assert.deepEqual(meaning(1, 2, 3), { kind: "count", left: 1, of: 2 });
  assert.deepEqual(meaning(0, 0, 1), { kind: "step", within: 0, of: 1 });
});

const ALL = { arrows: true, pages: true, space: true, letters: true };
const LETTERS = { run: "p", clean: "c", unclean: "n" };
/** @param {string} key @param {Partial<KeyboardEvent>} [more] @param {object} [now] @param {object} [groups] */
const pressed = (key, more = {}, now = {}, groups = {}) =>
  actionOf({ key, shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, ...more }, { running: false, focus: "none", ...now }, { ...ALL, ...groups }, LETTERS);

test("page-turners go on and back", () => {
  assert.deepEqual(["ArrowRight", "ArrowDown", "PageDown", " ", "Enter"].map((key) => pressed(key)), Array(5).fill("next"));
  assert.deepEqual(["ArrowLeft", "ArrowUp", "PageUp"].map((key) => pressed(key)), Array(3).fill("back"));
  assert.equal(pressed(" ", { shiftKey: true }), "back");
});

test("any key pauses, but for those that go with others or belong to the device", () => {
  for (const key of ["a", "ArrowRight", "Tab", "Escape", "F5", "7"]) assert.equal(pressed(key, {}, { running: true }), "pause", key);
  for (const key of ["Shift", "Control", "AudioVolumeUp", "MediaPlayPause"]) assert.equal(pressed(key, {}, { running: true }), null, key);
  assert.equal(pressed("r", { ctrlKey: true }, { running: true }), null);
});

test("space and enter only while no control has the focus; a field takes all its keys; words scroll", () => {
  assert.equal(pressed(" ", {}, { focus: "control" }), null);
  assert.equal(pressed("ArrowRight", {}, { focus: "control" }), "next");
  assert.equal(pressed("ArrowRight", {}, { focus: "field" }), null);
  assert.deepEqual(["ArrowDown", "PageUp", " "].map((key) => pressed(key, {}, { focus: "words" })), [null, null, null]);
  assert.equal(pressed("ArrowRight", {}, { focus: "words" }), "next");
});

test("each group of keys can be turned off", () => {
  for (const [group, key] of [["arrows", "ArrowUp"], ["pages", "PageDown"], ["space", "Enter"], ["letters", "C"]]) {
    assert.notEqual(pressed(key), null, key);
    assert.equal(pressed(key, {}, {}, { [group]: false }), null, key);
  }
  assert.equal(pressed("x"), null);
});

test("a rest is due after the author's minutes of practice, over all lessons", () => {
  const minute = 60000;
  let worked = workedSoFar(null, 0, 5);
  for (let at = 0; at <= 20 * minute; at += 5000) worked = workedOn(worked, at, 10);
  assert.equal(worked.seconds, 1200);
  assert.deepEqual([restIsDue(worked, 20), restIsDue(worked, 21), restIsDue(worked, 0)], [true, false, false]);
  assert.equal(workedSoFar(worked, 23 * minute, 5).seconds, 1200);
  assert.equal(workedSoFar(worked, 25 * minute, 5).seconds, 0);
});

test("a sleeping device does not count as practice, and a store that is not ours counts as nothing", () => {
  assert.equal(workedOn({ seconds: 10, at: 0 }, 3600000, 10).seconds, 20);
  for (const kept of ["x", 3, {}, { seconds: -1, at: 0 }, { seconds: 5, at: 99 }, { seconds: "5", at: 0 }]) {
    assert.deepEqual(workedSoFar(kept, 1, 5), { seconds: 0, at: 1 }, JSON.stringify(kept));
  }
});

test("the fingers that leave the neck are read from the shapes", () => {
  assert.deepEqual(fingersLifted("x02210/--231-", "x02010/--2-1-"), ["3"]);
  assert.deepEqual(fingersLifted("x02210/--231-", "x32010/-32-1-"), []);
  assert.deepEqual(fingersLifted("133211/T34211", "000000"), ["T", "3", "4", "2", "1"]);
});

test("a finger that stays and presses more strings or fewer lies down into a bar or rolls up out of it", () => {
  const one = (/** @type {string} */ before, /** @type {string} */ after) => fingersStretched(before, after).map(({ finger, was, now }) => [finger, was, now]);
  assert.deepEqual(one("xx3211/--3211", "xx3210/--321-"), [["1", [2, 1], [2, 2]]]);
  assert.deepEqual(one("xx0231/---231", "xx0231/---231/1=2:1-1:1"), [["1", [1, 1], [2, 1]]]);
  assert.deepEqual(one("x33211/-34211", "133211/134211"), [["1", [2, 1], [6, 1]]]);
  assert.deepEqual(one("x-10-12-12-11-x/-1342-", "10-10-12-12-11-10/113421"), [["1", [5, 5], [6, 1]]]);
  // Another fret, other strings, another finger, a bar that does not change: none of these.
  for (const [before, after] of [["xx3211/--3211", "xx4322/--3211"], ["1xxxx0/1-----", "xxxx11/----11"], ["xx0211/---211", "xx0211/---322"], ["xx3211/--3211", "xx3211/--4211"]]) {
    assert.deepEqual(one(before, after), [], after);
  }
});
