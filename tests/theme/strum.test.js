// Catching one strum out of what a microphone gives, piece by piece.
import assert from "node:assert/strict";
import { test } from "node:test";
import { StrumCatcher } from "../../theme/js/listening/catch.js";
import { fault } from "../../theme/js/listening/fault.js";
import { chances, strum } from "./listening/steel.js";
import { chordOf } from "./listening/trial.js";

const RATE = 44100;

/** @param {Float32Array} sound @param {number} [size] */
function caught(sound, size = 128) {
  const catcher = new StrumCatcher(RATE);
  for (let from = 0; from + size <= sound.length; from += size) {
    const found = catcher.push(sound.subarray(from, from + size));
    if (found) return { found, rate: catcher.rate };
  }
  return null;
}

/** @param {number} seconds @param {() => number} chance */
const room = (seconds, chance) => Float32Array.from({ length: Math.round(seconds * RATE) }, () => 0.002 * (chance() - 0.5));

test("a strum after a while of a quiet room is caught from just before it, and judged", () => {
  const chance = chances(9);
  const chord = chordOf("355xxx");
  const silent = chord.map((one) => ({ midi: one.midi, muted: one.string === 5 }));
  const quiet = room(2, chance);
  const struck = strum(silent, chance, RATE, 2).map((one) => 0.4 * one);
  const all = Float32Array.from([...quiet, ...struck]);
  const heard = caught(all);
  assert.ok(heard);
  assert.ok(heard.found.length / heard.rate > 1 && heard.found.length / heard.rate < 1.5);
  assert.deepEqual(fault(heard.found, heard.rate, chord), { string: 5, fault: "silent" });
});

test("a quiet room is no strum, however long", () => {
  assert.equal(caught(room(6, chances(2))), null);
});
