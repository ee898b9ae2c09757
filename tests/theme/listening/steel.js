// A guitar that is not ours, to try the listening on: strings as sums of partials (modal synthesis), each with its own
// stiffness, place of plucking, decay and tuning; a body with resonances; a room with noise; a telephone that hears no bass.
// Nothing of it is shared with theme/js/sound, on which the listening was set.

/** @typedef {{midi: number, muted?: boolean}} Plucked muted: a finger lies on the string; it only thuds */

/** A repeatable chance (mulberry32, from memory). @param {number} seed */
export function chances(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/**
 * A strum, lowest string first.
 * @param {Plucked[]} strings @param {() => number} chance @param {number} rate samples a second @param {number} seconds
 * @returns {Float32Array}
 */
export function strum(strings, chance, rate, seconds = 1.6) {
  const out = new Float32Array(Math.round(seconds * rate));
  const between = (/** @type {number} */ low, /** @type {number} */ high) => low + (high - low) * chance();
  const spread = between(0.008, 0.03);
  const plucked = between(0.1, 0.28);
  const brightness = between(0.9, 1.6);
  const body = [between(95, 120), between(190, 230), between(380, 450)].map((hertz) => ({ hertz, width: hertz / between(6, 14), gain: between(0.3, 1.6) }));
  strings.forEach(({ midi, muted }, at) => {
    const onset = 0.12 + at * spread * between(0.7, 1.3);
    const level = 10 ** (between(-7, 0) / 20);
    const hertz = 440 * 2 ** ((midi - 69 + between(-0.08, 0.08)) / 12);
    const stiffness = 10 ** between(-4.9, -3.9);
    const ringing = muted ? between(0.03, 0.07) : between(2, 6) * (hertz / 110) ** -0.4;
    for (let n = 1; n <= 24; n += 1) {
      const at_ = n * hertz * Math.sqrt((1 + stiffness * n * n) / (1 + stiffness));
      if (at_ > 9000) break;
      const excited = Math.abs(Math.sin(Math.PI * n * plucked)) / n ** brightness;
      const coloured = 1 + body.reduce((sum, { hertz: middle, width, gain }) => sum + gain / (1 + ((at_ - middle) / width) ** 2), 0);
      const loss = 6.9 / (ringing / (1 + 0.1 * n ** 1.3));
      sine(out, rate, onset, at_, level * excited * coloured * (muted ? 0.5 : 1), loss, 2 * Math.PI * chance());
    }
    thud(out, rate, onset, level * between(0.05, 0.25), chance);
  });
  return heard(out, rate, between, chance);
}

/** @param {Float32Array} out */
function sine(out, rate, onset, hertz, level, loss, phase) {
  const from = Math.round(onset * rate);
  for (let at = from; at < out.length; at += 1) {
    const t = (at - from) / rate;
    const fallen = level * Math.exp(-loss * t);
    if (fallen < 1e-5) break;
    out[at] += fallen * Math.min(1, t / 0.002) * Math.sin(2 * Math.PI * hertz * t + phase);
  }
}

/** The plectrum's own noise. @param {Float32Array} out */
function thud(out, rate, onset, level, chance) {
  const from = Math.round(onset * rate);
  for (let at = 0; at < 0.02 * rate && from + at < out.length; at += 1) out[from + at] += level * (2 * chance() - 1) * Math.exp(-at / (0.004 * rate));
}

/** A telephone's microphone: a first-order fall below 100 to 180 Hz, a room's noise 35 to 55 dB below. */
function heard(sound, rate, between, chance) {
  const k = Math.exp((-2 * Math.PI * between(100, 180)) / rate);
  const peak = sound.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const noise = (10 ** (-between(35, 55) / 20)) * 0.3;
  let before = 0;
  let low = 0;
  return sound.map((one) => {
    const now = one / peak;
    low = k * (low + now - before);
    before = now;
    return low + noise * (2 * chance() - 1);
  });
}
