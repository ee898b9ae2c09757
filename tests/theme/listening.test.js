// Listening to a strum: what is named is right, clean strums raise no alarm, and what others cover is said to be covered.
// The guitar of this trial (listening/steel.js) shares nothing with the sounds on which the limits were set.
import assert from "node:assert/strict";
import { test } from "node:test";
import { covered, fault } from "../../theme/js/listening/fault.js";
import { partial, partialsAmong } from "../../theme/js/listening/partials.js";
import { chances, strum } from "./listening/steel.js";
import { chordOf, trial } from "./listening/trial.js";

const RATE = 22050;

test("strings an octave or a twelfth above others are covered, since their partials coincide", () => {
  // C x32010: string 2 is an octave above string 5, string 1 above string 4: each of their partials is one of those too.
  // Of string 5 only the fundamental is its own: its partials 2, 4, 6 are string 2's, its third is string 3's second.
  assert.deepEqual(covered(chordOf("x32010")), [5, 2, 1]);
  assert.deepEqual(covered([{ string: 6, midi: 40 }]), []);
});

test("partials lie a little above the multiples of the fundamental, as stiff strings' do (Fletcher 1964)", () => {
  assert.equal(partial(69, 1), 440);
  assert.ok(partial(45, 5) > 5 * 110 && partial(45, 5) < 5 * 110 * 1.002);
  assert.ok(partialsAmong(45, []).every(({ alone }) => alone));
});

test("what is named is right, and a clean strum is never accused", () => {
  const { clean, silent, other } = trial(["x32010", "x24232", "355xxx"], strum, chances(3), 1);
  assert.equal(clean.wrong, 0);
  assert.equal(silent.wrong + other.wrong, 0);
  assert.ok(silent.right + other.right >= 8, `named ${silent.right + other.right}`);
});

test("a wrong note is not told as one an octave lower on another string, whose even partials it has", () => {
  const cases = [["577555", 68], ["577555", 70], ["466544", 67], ["133311", 64]];
  const named = cases.flatMap(([shape, midi]) => [1, 2, 3, 4].map((seed) => {
    const chord = chordOf(shape);
    const off = chord.map((one) => (one.string === 1 ? { midi } : one));
    return fault(strum(off, chances(seed), RATE), RATE, chord)?.string;
  })).filter((string) => string !== undefined);
  assert.deepEqual(new Set(named), new Set([1]));
  assert.ok(named.length >= 8, `named ${named.length}`);
});

test("silence, noise and too short a sound name nothing", () => {
  const chance = chances(4);
  const chord = chordOf("x32010");
  assert.equal(fault(new Float32Array(RATE), RATE, chord), null);
  assert.equal(fault(new Float32Array(RATE * 2).map(() => chance() - 0.5), RATE, chord), null);
  assert.equal(fault(new Float32Array(400).fill(0.1), RATE, chord), null);
});

test("two faults at once are not told as one", () => {
  const chord = chordOf("320003");
  const two = chord.map((one) => (one.string === 6 || one.string === 5 ? { midi: one.midi, muted: true } : one));
  const found = fault(strum(two, chances(6), RATE), RATE, chord);
  assert.ok(found === null || found.string === 6 || found.string === 5);
});
