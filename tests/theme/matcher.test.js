// The search's matcher: chord names as players type them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { excerpt, find, fold, prepare, words } from "../../theme/js/matcher.js";

/** @param {string} location @param {string} title @param {string} [text] */
const entry = (location, title, text = "") => ({ location, title, text });
const index = prepare({ docs: [
  entry("a/", "Letting G loosen", "Gadd9 and C6/9"), entry("a/#one", "Am"), entry("b/", "After rain", "am I late? A♭maj7"),
  entry("chords/", "Chords"), entry("chords/#am", "Am"),
] }, "chords/");

test("a chord with all its signs is one word", () => {
  assert.deepEqual(words("F#m7b5, C6/9 (Cmaj9(#11)) (or Am)"), ["F#m7b5", "C6/9", "Cmaj9(#11)", "or", "Am"]);
});

test("accidentals are found as people type them", () => {
  assert.equal(fold("A♭ F♯"), "Ab F#");
  assert.deepEqual(find(index, "Abmaj7").map((found) => found.entry.location), ["b/"]);
});

test("the chord index comes first, then steps, then words in any case", () => {
  assert.deepEqual(find(index, "Am").map((found) => found.entry.location), ["chords/#am", "a/#one", "b/"]);
});

test("an excerpt marks what was asked for and nothing else", () => {
  assert.deepEqual(excerpt("Gadd9 and C6/9", "C6/9").filter((part) => part.hit).map((part) => part.text), ["C6/9"]);
});
