// Where steps of this lesson stood when something was kept of them: changes that were practised, and where the reader stopped.
import { placeKept } from "../progress.js";
import { siteRoot } from "../store.js";
import { stood } from "./match.js";
import { records } from "./shelf.js";

/** @returns {import("./match.js").Stood[]} what is surest first */
export function placesKept() {
  const here = location.pathname.slice(siteRoot().length);
  const place = placeKept();
  const stops = place?.page === here ? [{ id: place.step, ...place }, ...(place.other ? [{ ...place, ...place.other }] : [])] : [];
  return [...stops.map(({ id, block, ordinal }) => ({ id, block, ordinal })), ...stood(records().filter(({ page }) => page === here))];
}
