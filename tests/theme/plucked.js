// Tones of plucked strings for the tests of the tuner: stiff, gliding, noisy, with a weak fundamental. Not made by the course's own synthesis.
//
// Partials of a stiff string (Fletcher 1964): f_n = n f sqrt((1 + B n^2) / (1 + B)) with f the fundamental as it sounds.

/** A small generator of even numbers from 0 to 1, so that every run is the same (numbers of Numerical Recipes). */
export function random(seed = 1) {
  let state = seed >>> 0;
  return () => { state = (Math.imul(state, 1664525) + 1013904223) >>> 0; return state / 2 ** 32; };
}

/**
 * @param {number} hertz the fundamental it settles on
 * @param {number} rate
 * @param {{stiffness?: number, glide?: number, snr?: number | null, weak?: number, seconds?: number, seed?: number}} [how]
 *   glide: cents above at the pluck, falling by 1/e in 0.25 s; snr: dB against the tone's first second; weak: of the fundamental
 * @returns {{samples: Float64Array, truth: (time: number) => number}} truth: Hz of the fundamental
 */
export function plucked(hertz, rate, { stiffness = 8e-5, glide = 0, snr = null, weak = 1, seconds = 1.5, seed = 1 } = {}) {
  const even = random(seed);
  const samples = new Float64Array(Math.round(seconds * rate));
  const truth = (/** @type {number} */ time) => hertz * 2 ** ((glide * Math.exp(-time / 0.25)) / 1200);
  const partials = Math.min(24, Math.floor(5000 / hertz));
  for (let n = 1; n <= partials; n++) {
    const ratio = n * Math.sqrt((1 + stiffness * n * n) / (1 + stiffness));
    const size = (0.3 * Math.sin(Math.PI * n * 0.2) * (n === 1 ? weak : 1)) / n;
    const fall = Math.exp(-(1.2 + 0.25 * n) / rate);
    const begin = 2 * Math.PI * even();
    // A number that turns and shrinks from sample to sample is a tone that dies away.
    let [re, im, turn] = [size * Math.cos(begin), size * Math.sin(begin), (2 * Math.PI * hertz * ratio) / rate];
    let [c, s] = [fall * Math.cos(turn), fall * Math.sin(turn)];
    for (let at = 0; at < samples.length; at++) {
      if (glide && at % 16 === 0) {
        turn = (2 * Math.PI * truth(at / rate) * ratio) / rate;
        [c, s] = [fall * Math.cos(turn), fall * Math.sin(turn)];
      }
      const next = re * c - im * s;
      im = re * s + im * c;
      re = next;
      samples[at] += im;
    }
  }
  if (snr !== null) addNoise(samples, samples.subarray(0, rate), snr, even);
  return { samples, truth };
}

/** White noise by Box and Muller. */
function addNoise(samples, measured, snr, even) {
  const power = measured.reduce((sum, one) => sum + one * one, 0) / measured.length;
  const size = Math.sqrt(power / 10 ** (snr / 10));
  for (let at = 0; at < samples.length; at++) samples[at] += size * Math.sqrt(-2 * Math.log(even() + 1e-12)) * Math.cos(2 * Math.PI * even());
}
