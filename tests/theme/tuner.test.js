// The tuner without a page: pitches of stiff, gliding and noisy strings against their true fundamental; words and places.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PitchFinder } from "../../theme/js/tuner/pitch.js";
import { IN_TUNE, midiOf, reading } from "../../theme/js/tuner/reading.js";
import { kindOf, Pluck } from "../../theme/js/tuner/verdict.js";
import { plucked, random } from "./plucked.js";

const RATE = 48000;
/** The strings of standard tuning, of D A D G A D, and B1 of seven strings; each off, as before tuning: by more amounts in tests/bench. */
const TUNED = [35, 38, 40, 45, 50, 55, 57, 59, 62, 64];
const OFF = process.env.MORE_TONES ? [-47, -31, -12, -3, 7, 18, 29, 44] : [-31];
const KINDS = {
  plain: { stiffness: 0 },
  stiff: { stiffness: 1.5e-4 },
  gliding: { glide: 15 },
  weak: { weak: 0.25, snr: 30 },
  "30 dB": { snr: 30 },
  "20 dB": { snr: 20 },
};
/** Seconds of silence before the pluck. */
const BEFORE = 0.1;

/** @returns {{time: number, cents: number | null}[]} after the pluck: how far each finding is from the true fundamental then */
function follow(hertz, how, rate = RATE) {
  const { samples, truth } = plucked(hertz, rate, how);
  const all = new Float64Array(Math.round(BEFORE * rate) + samples.length);
  all.set(samples, Math.round(BEFORE * rate));
  const finder = new PitchFinder(rate, hertz * 0.94);
  const out = [];
  for (let at = 0; at < all.length; at += 1024) {
    const time = Math.min(at + 1024, all.length) / rate - BEFORE;
    for (const { hertz: found } of finder.push(all.subarray(at, at + 1024))) {
      if (time > 0) out.push({ time, cents: found === null ? null : 1200 * Math.log2(found / truth(time)) });
    }
  }
  return out;
}

test("within 3 cents of the fundamental from half a second on, settled by then, and never grossly wrong", () => {
  const worst = new Map();
  for (const [kind, how] of Object.entries(KINDS)) {
    const row = { error: 0, settled: 0, tones: 0 };
    for (const midi of TUNED) {
      for (const off of OFF) {
        row.tones += 1;
        for (const { time, cents } of follow(440 * 2 ** ((midi - 69 + off / 100) / 12), { ...how, seed: midi * 7 + row.tones })) {
          const size = cents === null ? Infinity : Math.abs(cents);
          if (time >= 0.5) row.error = Math.max(row.error, size);
          if (size > 3) row.settled = Math.max(row.settled, time);
          assert.ok(cents === null || time < 0.15 || size < 50, `${kind}, MIDI ${midi}: off by ${cents} cents at ${time.toFixed(2)} s`);
        }
      }
    }
    worst.set(kind, row);
    console.log(`tuner, ${kind}: ${row.tones} tones, at most ${row.error.toFixed(2)} cents from 0.5 s on; settled after ${row.settled.toFixed(2)} s`);
  }
  for (const [kind, { error, settled }] of worst) assert.ok(error <= 3 && settled < 0.5, kind);
});

test("a tone is found at other rates and on lower and higher strings than a guitar's", () => {
  for (const [midi, rate] of [[28, 48000], [30, 44100], [76, 44100], [40, 16000]]) {
    const last = follow(440 * 2 ** ((midi - 69) / 12), { seconds: 1 }, rate).at(-1);
    assert.ok(last?.cents !== null && Math.abs(last?.cents ?? 99) < 3, `MIDI ${midi} at ${rate}: ${last?.cents}`);
  }
});

test("silence and noise have no pitch", () => {
  const even = random(5);
  const finder = new PitchFinder(RATE);
  assert.ok(finder.push(new Float64Array(RATE)).every(({ hertz }) => hertz === null));
  const noise = Float64Array.from({ length: RATE }, () => 0.2 * (even() - 0.5));
  const found = finder.push(noise);
  assert.ok(found.filter(({ hertz }) => hertz !== null).length < 0.1 * found.length);
});

test("a reading names the nearest string, says flat or sharp, and has a place", () => {
  const standard = [40, 45, 50, 55, 59, 64];
  const at = (/** @type {number} */ midi, /** @type {number | null} */ wanted = null) => reading(440 * 2 ** ((midi - 69) / 12), standard, wanted);
  assert.equal(midiOf(440), 69); // ISO 16
  assert.deepEqual([at(45.04).verdict, at(45.06).verdict, at(44.94).verdict], ["in-tune", "sharp", "flat"]);
  assert.deepEqual([at(47.6).string, at(47.4).string], [2, 1]);
  assert.deepEqual([at(43, 1).verdict, at(43, 1).place, at(43, 1).string], ["far-flat", 0, 1]);
  assert.ok(at(44.9).place < 0.5 && at(45.1).place > 0.5);
  assert.equal(IN_TUNE, 5);
});

test("a note is told from its neighbours, the open string and another string of the shape", () => {
  const asked = { pitch: 57, open: 55, others: [45, 52, 60, 64] };
  const heard = { 57: "rings", 57.1: "rings", 57.3: "off", 55: "open", 52: "other-string", 56: "fret-low", 58: "fret-high", 70: "wrong" };
  for (const [midi, kind] of Object.entries(heard)) assert.equal(kindOf(Number(midi), asked), kind, midi);
});

/** @param {Pluck} pluck @param {{hertz: number | null, power: number}[]} findings one each 30 ms */
function verdictOf(pluck, findings) {
  for (const [at, finding] of findings.entries()) {
    const verdict = pluck.hear(finding, at * 0.03);
    if (verdict) return verdict;
  }
  return null;
}

test("a pluck rings when its note lasts, is silent when only a thud came, and nothing is said before it", () => {
  const asked = { pitch: 57, open: 55, others: [] };
  const quiet = Array.from({ length: 20 }, () => ({ hertz: null, power: 1e-8 }));
  const note = Array.from({ length: 40 }, (_, at) => ({ hertz: 220, power: 0.01 * 0.95 ** at }));
  const thud = [{ hertz: 220, power: 0.01 }, { hertz: 218, power: 0.004 }, ...Array.from({ length: 50 }, () => ({ hertz: null, power: 1e-7 }))];
  assert.equal(verdictOf(new Pluck(asked), quiet), null);
  assert.equal(verdictOf(new Pluck(asked), [...quiet, ...note]), "rings");
  assert.equal(verdictOf(new Pluck(asked), [...quiet, ...thud]), "silent");
  assert.equal(verdictOf(new Pluck({ ...asked, pitch: 60 }), [...quiet, ...note]), "wrong");
});
