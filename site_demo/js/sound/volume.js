// How loud the course is: one control for all its sounds, remembered in this browser.
import { keep, recall } from "../store.js";

const STORE = "fingerpost:sound";
/** A modest level until another is chosen. */
const BUILT = 0.6;

/** @returns {number} from 0 to 1, as the control shows it */
export function volume() {
  /** @type {unknown} */
  const kept = Object(recall(STORE, {})).volume;
  return typeof kept === "number" && kept >= 0 && kept <= 1 ? kept : BUILT;
}

/** @param {number} value from 0 to 1 */
export function keepVolume(value) {
  keep(STORE, { volume: Math.min(1, Math.max(0, value)) });
}

/** The gain for a place of the control: the ear hears steps of its square as even ones (common practice). @param {number} value */
export function gainOf(value) {
  return value * value;
}
