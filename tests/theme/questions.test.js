// Questions about a lesson: each has just one right answer, and it is among the options.
import assert from "node:assert/strict";
import { test } from "node:test";
import { A_ROUND, round } from "../../theme/js/ask/questions.js";
import { fromTheRoot, pitchClass, sameNotes } from "../../theme/js/ask/tones.js";

/** @param {number} seed */
function chances(seed) {
  // A linear congruential generator (Numerical Recipes' constants, from memory): the same questions in every run.
  let state = seed;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
}

/** @param {string} name @param {string[]} notes @param {string[]} newNotes @param {Partial<import("../../theme/js/ask/questions.js").Known>} [more] */
const step = (name, notes, newNotes, more = {}) =>
  ({ id: `step-${name}`, kind: "move", name, before: "C", notes, newNotes, notesBefore: ["C", "E", "G"], ...more });
const lesson = [
  step("C", ["C", "E", "G"], [], { kind: "start", before: "", notesBefore: [] }),
  step("Cmaj7", ["C", "E", "G", "B"], ["B"]),
  step("C6", ["C", "E", "G", "A"], ["A"]),
  step("Am7", ["A", "C", "E", "G"], ["A"]),
  step("Em", ["E", "G", "B"], ["B"]),
  step("Cadd9", ["C", "E", "G", "D"], ["D"]),
];

test("the right answer is always one of the options, once, and there are three or more", () => {
  for (let seed = 0; seed < 200; seed += 1) {
    for (const question of round(lesson, chances(seed))) {
      assert.equal(question.options.filter((option) => option === question.right).length, 1);
      assert.ok(question.options.length >= 3);
    }
  }
});

test("no option is right too: C6 and Am7 are the same notes", () => {
  for (let seed = 0; seed < 200; seed += 1) {
    for (const { kind, right, options } of round(lesson, chances(seed))) {
      if (kind === "name" && right === "C6") assert.ok(!options.includes("Am7"));
      if (kind === "name" && right === "Am7") assert.ok(!options.includes("C6"));
    }
  }
});

test("a round asks both kinds in turn and no step twice while others are left", () => {
  const asked = round(lesson, chances(7));
  assert.equal(asked.length, A_ROUND);
  assert.deepEqual(asked.slice(0, 4).map((question) => question.kind), ["note", "name", "note", "name"]);
  assert.equal(new Set(asked.slice(0, lesson.length).map((question) => question.step)).size, lesson.length);
});

test("a note that sounded before on another string, or two new ones, make no fair question", () => {
  const doubled = step("C", ["C", "E", "G", "E"], ["E"], { id: "doubled" });
  const two = step("F", ["F", "A", "C"], ["F", "A"], { id: "two" });
  const kinds = round([lesson[1], doubled, two], chances(1)).filter(({ step: id }) => id === "doubled" || id === "two");
  assert.ok(kinds.every((question) => question.kind === "name"));
});

test("a lesson with too little to ask about asks nothing", () => {
  assert.deepEqual(round([lesson[0]], chances(1)), []);
  assert.deepEqual(round([], chances(1)), []);
});

test("notes are told by what they sound: enharmonic spellings are one note", () => {
  // The twelve notes of a keyboard, with the usual spellings of each.
  const keys = ["C B# Dbb", "C# Db", "D C## Ebb", "D# Eb", "E Fb D##", "F E#", "F# Gb", "G F##", "G# Ab", "A G##", "A# Bb", "B Cb"];
  keys.forEach((spellings, at) => spellings.split(" ").forEach((note) => assert.equal(pitchClass(note), at, note)));
  assert.ok(sameNotes(["Eb", "A", "C", "Gb"], ["F#", "C", "Eb", "A", "C"]));
  assert.ok(!sameNotes(["C", "E", "G"], ["C", "Eb", "G"]));
});

test("no option is right too: a chord of the same notes under another spelling, or another step's, is never offered", () => {
  const twins = [step("Ebdim7", ["Eb", "A", "C", "Gb"], []), step("F#dim7", ["F#", "C", "Eb", "A"], []), step("Am7", ["A", "C", "G"], [], { id: "thin" })];
  for (let seed = 0; seed < 200; seed += 1) {
    for (const { kind, right, options } of round([...lesson, ...twins], chances(seed))) {
      if (kind !== "name") continue;
      if (right.endsWith("dim7")) assert.equal(options.filter((option) => option.endsWith("dim7")).length, 1);
      if (right === "C6") assert.ok(!options.includes("Am7"), "that it lacks a tone elsewhere makes it no wrong name here");
    }
  }
});

test("a note that only changed its spelling did not come", () => {
  const respelled = step("B7", ["B", "D#", "A", "F#"], ["D#"], { id: "respelled", notesBefore: ["Eb", "A", "C", "Gb"] });
  assert.ok(round([...lesson, respelled], chances(1)).every(({ kind, step: id }) => kind !== "note" || id !== "respelled"));
});

test("the tones of a chord are told from its root upwards, each once", () => {
  const tone = (/** @type {string} */ note, /** @type {string} */ sign) => ({ note, sign, words: "" });
  const heard = [tone("E", "3"), tone("C", "R"), tone("G", "5"), tone("C", "R"), tone("D", "9"), tone("Bb", "♭7")];
  assert.deepEqual(fromTheRoot(heard).map(({ note }) => note), ["C", "E", "G", "Bb", "D"]);
});
