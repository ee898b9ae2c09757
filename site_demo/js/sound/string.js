// A plucked string as samples, computed: the extended string algorithm of Karplus & Strong and Jaffe & Smith (1983).
//
// A loop of N samples passes a loss filter (one pole) and a first-order all-pass. The all-pass takes what is left of
// the period when N and the loss filter's own delay at the fundamental are taken off, so that the pitch is exact:
// D = P - (phase delay of the loss filter) - N, C = sin((w - wD) / 2) / sin((w + wD) / 2).

/** How far from the bridge the string is plucked, as a part of its length. */
const PLUCKED_AT = 0.22;
/** How soft the pluck is: the corner of the pulse is rounded over so many seconds. */
const SOFT = 0.0006;
/** The overtones about this frequency, in Hz, ring as long as a string tuned to it. */
const BRIGHT = 2000;
/** Seconds: the longest sound, its way up at the start, its way down at the end. */
const LONGEST = 4;
const ATTACK = 0.0015;
const FADE = 0.25;
/** The loudest sample. */
export const PEAK = 1;

/** @param {number} midi may lie between the semitones (ISO 16: A4 = 440 Hz) @returns {number} Hz */
export function frequency(midi) {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** Seconds until a string has lost 60 dB; by ear, after guitars with steel strings. @param {number} hertz */
export function ringingTime(hertz) {
  return 6 * (hertz / 82.4) ** -0.55;
}

/**
 * @param {number} midi MIDI number, may be fractional
 * @param {number} rate samples a second
 * @returns {Float32Array<ArrayBuffer>} from silence to silence, zero mean at the start, the loudest sample PEAK
 */
export function pluckedString(midi, rate) {
  const hertz = frequency(midi);
  const loop = loopFor(hertz, rate);
  const sound = new Float32Array(Math.round(Math.min(LONGEST, ringingTime(hertz)) * rate));
  run(loop, pulse(loop.samples, rate), sound);
  return shaped(sound, rate);
}

/**
 * @typedef {object} Loop
 * @property {number} samples N
 * @property {number} pole of the loss filter
 * @property {number} gain of one way round, the loss filter's own loss at the fundamental taken off
 * @property {number} allPass C
 */

/** @param {number} hertz @param {number} rate @returns {Loop} */
function loopFor(hertz, rate) {
  const w = (2 * Math.PI * hertz) / rate;
  const pole = poleFor(hertz, rate);
  const lossDelay = Math.atan2(pole * Math.sin(w), 1 - pole * Math.cos(w)) / w;
  const left = rate / hertz - lossDelay;
  const samples = Math.floor(left - 0.1);
  const delay = left - samples; // between 0.1 and 1.1 samples, where a first-order all-pass is well behaved
  const lost = (1 - pole) / Math.sqrt(1 - 2 * pole * Math.cos(w) + pole * pole);
  return {
    samples, pole, gain: Math.min(roundTrip(hertz, hertz) / lost, 0.99999),
    allPass: Math.sin((w - w * delay) / 2) / Math.sin((w + w * delay) / 2),
  };
}

/** What is left after one period of a string, of an overtone that rings as long as a string tuned to it would. */
function roundTrip(/** @type {number} */ hertz, /** @type {number} */ overtone) {
  return 10 ** (-3 / (hertz * ringingTime(overtone)));
}

/** The pole with which overtones about BRIGHT die away sooner than the fundamental, as they do on a string. */
function poleFor(/** @type {number} */ hertz, /** @type {number} */ rate) {
  const fall = (/** @type {number} */ at) => 1 - Math.cos((2 * Math.PI * at) / rate);
  const bright = Math.max(BRIGHT, 2 * hertz);
  const ratio = (roundTrip(hertz, bright) / roundTrip(hertz, hertz)) ** 2;
  const q = (1 - ratio) / (2 * (ratio * fall(bright) - fall(hertz)));
  return (2 * q + 1 - Math.sqrt(4 * q + 1)) / (2 * q);
}

/**
 * One period of the force on the bridge of a string that is pulled aside and let go: a rectangle as long as the plucked
 * part of the string, its corners rounded by the flesh of the finger. Its mean is zero.
 * @param {number} samples
 * @param {number} rate
 */
function pulse(samples, rate) {
  const width = Math.max(2, Math.min(Math.round(SOFT * rate), Math.round(samples / 4)));
  const kernel = Float64Array.from({ length: width }, (_, at) => 1 - Math.cos((2 * Math.PI * (at + 0.5)) / width));
  const pulled = Math.round(samples * PLUCKED_AT);
  const out = new Float64Array(samples);
  for (let from = 0; from < pulled; from++) for (let at = 0; at < width; at++) out[(from + at) % samples] += kernel[at];
  const mean = out.reduce((sum, one) => sum + one, 0) / samples;
  return out.map((one) => one - mean);
}

/** @param {Loop} loop @param {Float64Array} line the first period, used up @param {Float32Array} sound filled */
function run({ samples, pole, gain, allPass }, line, sound) {
  const enters = gain * (1 - pole);
  let lost = 0;
  let lostBefore = 0;
  let out = 0;
  for (let at = 0, place = 0; at < sound.length; at++) {
    const sample = line[place];
    sound[at] = sample;
    lostBefore = lost;
    lost = enters * sample + pole * lost;
    out = allPass * (lost - out) + lostBefore;
    line[place] = out;
    if (++place === samples) place = 0;
  }
}

/** Rises from silence and falls to it, so that neither end clicks. @param {Float32Array<ArrayBuffer>} sound @param {number} rate */
function shaped(sound, rate) {
  const ends = { rise: Math.round(ATTACK * rate), fall: Math.round(FADE * rate) };
  for (let at = 0; at < ends.rise; at++) sound[at] *= halfCosine(at / ends.rise);
  for (let at = 0; at < ends.fall; at++) sound[sound.length - 1 - at] *= halfCosine(at / ends.fall);
  let loudest = 0;
  for (const sample of sound) loudest = Math.max(loudest, Math.abs(sample));
  for (let at = 0; at < sound.length; at++) sound[at] *= PEAK / loudest;
  return sound;
}

/** @param {number} part from 0 to 1 */
function halfCosine(part) {
  return (1 - Math.cos(Math.PI * part)) / 2;
}
