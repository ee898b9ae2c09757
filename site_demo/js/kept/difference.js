// What two shapes do differently, string by string; shapes as text, as course/teachers/shapes.md describes them. Pure.

/**
 * @typedef {{fret: number | null, finger: string}} Stopped fret null: not struck, 0: open; finger "": none
 * @typedef {{string: number, was: Stopped, now: Stopped}} Difference string: 1 is the highest
 */

/**
 * @param {string} was
 * @param {string} now
 * @returns {Difference[]} from the lowest string on
 */
export function differences(was, now) {
  const [before, after] = [stringsOf(was), stringsOf(now)];
  return after.flatMap((there, at) => {
    const here = before[at] ?? { fret: null, finger: "" };
    const same = here.fret === there.fret && here.finger === there.finger;
    return same ? [] : [{ string: after.length - at, was: here, now: there }];
  });
}

/** @param {string} shape @returns {Stopped[]} the lowest string first */
function stringsOf(shape) {
  const [frets, fingers = ""] = shape.split("/");
  const each = frets.includes("-") ? frets.split("-") : [...frets];
  return each.map((fret, at) => {
    const finger = fingers[at] ?? "-";
    return { fret: fret === "x" ? null : Number(fret), finger: "-x".includes(finger) ? "" : finger };
  });
}
