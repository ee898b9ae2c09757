// A trial of the listening: every shape strummed clean, and with each string silent or on another fret; what was named.
import { covered, fault } from "../../../theme/js/listening/fault.js";

/** Standard tuning, string 1 first (MIDI). */
const OPEN = [64, 59, 55, 50, 45, 40];

/** @param {string} shape `x32010`, the lowest string first @returns {import("../../../theme/js/listening/fault.js").Held[]} */
export function chordOf(shape) {
  const frets = shape.includes("-") ? shape.split("-") : [...shape];
  return frets.flatMap((fret, at) => (fret === "x" ? [] : [{ string: 6 - at, midi: OPEN[5 - at] + Number(fret), open: OPEN[5 - at] }]));
}

/**
 * @param {string[]} shapes @param {(strings: {midi: number, muted?: boolean}[], chance: () => number, rate: number) => Float32Array} strum
 * @param {() => number} chance @param {number} times @param {number} rate
 */
export function trial(shapes, strum, chance, times, rate = 22050) {
  const table = { clean: count(), silent: count(), other: count() };
  /** @type {Record<number, ReturnType<typeof count>>} */
  const strings = {};
  for (const shape of shapes) {
    const chord = chordOf(shape);
    const hidden = covered(chord);
    for (let time = 0; time < times; time += 1) {
      note(table.clean, fault(strum(chord, chance, rate), rate, chord), null);
      for (const one of chord) {
        strings[one.string] ??= count();
        const silent = chord.map((other) => (other === one ? { midi: one.midi, muted: true } : other));
        const found = fault(strum(silent, chance, rate), rate, chord);
        for (const tally of [table.silent, strings[one.string]]) note(tally, found, { string: one.string, fault: "silent" }, hidden.includes(one.string));
        const least = one.open;
        const wrong = [one.midi - 1, one.midi + 1, one.midi - 2, least].filter((midi) => midi >= least && midi !== one.midi);
        if (one.midi === least || !wrong.length) continue;
        const midi = wrong[Math.floor(chance() * wrong.length)];
        const off = chord.map((other) => (other === one ? { midi } : other));
        const named = fault(strum(off, chance, rate), rate, chord);
        for (const tally of [table.other, strings[one.string]]) note(tally, named, { string: one.string, fault: "other", midi }, hidden.includes(one.string));
      }
    }
  }
  return { ...table, strings };
}

function count() {
  return { tries: 0, right: 0, wrong: 0, silent: 0, covered: 0 };
}

function note(tally, found, truth, hidden = false) {
  tally.tries += 1;
  if (hidden) tally.covered += 1;
  if (!found) tally.silent += 1;
  else if (truth && found.string === truth.string && found.fault === truth.fault && found.midi === truth.midi) tally.right += 1;
  else tally.wrong += 1;
}
