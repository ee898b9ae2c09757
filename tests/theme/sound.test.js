// The sounds of a course without a page: the pitch of its strings by their phase, their ends, strokes, scores.
import assert from "node:assert/strict";
import { test } from "node:test";
import { changesBetween, fretsOf, pitchesOf } from "../../theme/js/sound/pitches.js";
import { rhythm } from "../../theme/js/sound/rhythm.js";
import { frequency, PEAK, pluckedString, ringingTime } from "../../theme/js/sound/string.js";
import { tick } from "../../theme/js/sound/tick.js";
import { gainOf } from "../../theme/js/sound/volume.js";

const RATES = [44100, 48000];
/** B1 to E6: from seven strings' lowest to the 24th fret of string 1. */
const RANGE = Array.from({ length: 88 - 35 + 1 }, (_, at) => 35 + at);
const STRINGS = new Map(RATES.map((rate) => [rate, new Map(RANGE.map((midi) => [midi, pluckedString(midi, rate)]))]));

/** @param {number} midi @param {number} rate */
const sound = (midi, rate) => /** @type {Float32Array} */ (STRINGS.get(rate)?.get(midi));

/** Phase and size of one frequency about a time: a Hann window of at least eight periods, turned back by that frequency. */
function spin(samples, rate, hertz, from, length) {
  let [re, im] = [0, 0];
  for (let at = from; at < from + length; at++) {
    const weight = 1 - Math.cos((2 * Math.PI * (at - from + 0.5)) / length);
    const angle = (2 * Math.PI * hertz * at) / rate;
    re += weight * samples[at] * Math.cos(angle);
    im -= weight * samples[at] * Math.sin(angle);
  }
  return { phase: Math.atan2(im, re), size: Math.hypot(re, im) };
}

/** Between two times a tone of exactly that frequency keeps its phase; what the phase has turned is what it is off. */
function measured(midi, rate) {
  const hertz = frequency(midi);
  const [samples, length] = [sound(midi, rate), Math.round(Math.max(8 / hertz, 0.1) * rate)];
  const [first, second] = [Math.round(0.05 * rate), Math.round(0.35 * rate)];
  const [one, other] = [first, second].map((from) => spin(samples, rate, hertz, from, length));
  const turned = other.phase - one.phase;
  const off = (turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI))) / (2 * Math.PI * 0.3);
  return { cents: 1200 * Math.log2(1 + off / hertz), t60: (-60 * 0.3) / (20 * Math.log10(other.size / one.size)) };
}

test("each string sounds its fundamental within one cent, from B1 to E6, at 44.1 and 48 kHz", () => {
  // Jaffe & Smith (1983): the all-pass takes the fraction of a sample. The trials' floor: 0.004 cents from E2 to E5.
  const rows = RATES.map((rate) => RANGE.map((midi) => Math.abs(measured(midi, rate).cents)));
  const parts = [[35, 40], [41, 52], [53, 64], [65, 76], [77, 88]];
  for (const [at, rate] of RATES.entries()) {
    for (const [low, high] of parts) {
      const worst = Math.max(...rows[at].slice(low - 35, high - 34));
      console.log(`pitch error, ${rate} Hz, MIDI ${low} to ${high}: at most ${worst.toFixed(4)} cents`);
    }
  }
  assert.ok(Math.max(...rows.flat()) < 0.01);
});

test("a string between the semitones is as true", () => {
  const samples = pluckedString(45.37, 48000);
  const hertz = 440 * 2 ** ((45.37 - 69) / 12); // ISO 16: A4 = 440 Hz
  const [one, other] = [2400, 16800].map((from) => spin(samples, 48000, hertz, from, 4800));
  const turned = other.phase - one.phase;
  assert.ok(Math.abs(turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI))) < 0.01);
});

test("a string rings as long as the formula says", () => {
  for (const midi of [40, 52, 64, 76]) {
    assert.ok(Math.abs(measured(midi, 48000).t60 / ringingTime(frequency(midi)) - 1) < 0.05, String(midi));
  }
});

test("no string is louder than its bound, and none clicks where it begins or ends", () => {
  for (const rate of RATES) {
    for (const midi of RANGE) {
      const samples = sound(midi, rate);
      const loudest = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
      assert.ok(loudest <= PEAK + 1e-6 && loudest > 0.99 * PEAK, `${midi} peaks at ${loudest}`);
      assert.ok(samples[0] === 0);
      const end = samples.subarray(-Math.round(0.002 * rate)).reduce((most, one) => Math.max(most, Math.abs(one)), 0);
      assert.ok(end < 0.0005, `${midi} ends at ${end}`);
      const mean = samples.subarray(0, rate).reduce((sum, one) => sum + one, 0) / rate;
      assert.ok(Math.abs(mean) < 0.002, `${midi} has a mean of ${mean}`);
    }
  }
});

test("the level is even from string to string", () => {
  const levels = RANGE.map((midi) => {
    const part = sound(midi, 48000).subarray(0, 9600);
    return 10 * Math.log10(part.reduce((sum, one) => sum + one * one, 0) / part.length);
  });
  const steps = levels.slice(1).map((level, at) => Math.abs(level - levels[at]));
  assert.ok(Math.max(...steps) < 1.5, `neighbours differ by ${Math.max(...steps).toFixed(2)} dB`);
});

test("the same string is the same samples", () => assert.deepEqual(pluckedString(52, 44100), sound(52, 44100)));

test("a strong beat ticks higher and louder; neither tick clicks at its end", () => {
  const [strong, weak] = [tick(true, 48000), tick(false, 48000)];
  const loud = (/** @type {Float32Array} */ one) => Math.max(...one.map(Math.abs));
  const crossings = (/** @type {Float32Array} */ one) => one.filter((sample, at) => at && sample > 0 !== one[at - 1] > 0).length;
  assert.ok(loud(strong) > loud(weak) && crossings(strong) > crossings(weak));
  for (const one of [strong, weak]) assert.ok(Math.abs(one[0]) < 1e-6 && Math.abs(one.at(-1) ?? 1) < 1e-6);
});

test("the volume's control goes from silence to full, and its middle is well below half", () => {
  assert.deepEqual([gainOf(0), gainOf(1)], [0, 1]);
  assert.ok(gainOf(0.5) < 0.3);
});

test("shapes as text give what each string sounds, capo and tuning counted in", () => {
  // x32010 in standard tuning is C major: C3 E3 G3 C4 E4 (common practice; MIDI 60 = C4).
  const standard = [40, 45, 50, 55, 59, 64];
  assert.deepEqual(pitchesOf("x32010/-32-1-", standard, 0), [null, 48, 52, 55, 60, 64]);
  assert.deepEqual(pitchesOf("x32010", standard, 3), [null, 51, 55, 58, 63, 67]);
  assert.deepEqual(fretsOf("x-10-12-12-11-x/-1342-"), [null, 10, 12, 12, 11, null]);
  assert.deepEqual(fretsOf("000000"), [0, 0, 0, 0, 0, 0]);
});

test("what changed is told string by string, newly silent and newly sounding ones too", () => {
  assert.deepEqual(changesBetween([null, 48, 52], [40, 48, null]), [
    { string: 3, before: null, after: 40 }, { string: 1, before: 52, after: null },
  ]);
});

test("strokes fall on the beat and between, are repeated, and end with the beats", () => {
  const places = (/** @type {string} */ pattern, /** @type {number | null} */ beats) =>
    rhythm(pattern, beats).strokes.map(({ at, up }) => `${at}${up ? "u" : "d"}`).join(" ");
  assert.equal(places("d du -udu", 4), "0d 1d 1.5u 2.5u 3d 3.5u");
  assert.equal(places("d du", 4), "0d 1d 1.5u 2d 3d 3.5u");
  assert.equal(places("d du -udu", 2), "0d 1d 1.5u");
  assert.equal(places("", 4), "0d");
  assert.equal(rhythm("d du -udu", null).beats, 4);
  assert.equal(rhythm("", null).beats, 4);
  assert.deepEqual(rhythm("-", 2), { beats: 2, strokes: [] });
});
