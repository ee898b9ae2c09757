// When a change is offered again: tomorrow, then at growing gaps of days; the least clean first, mixed over blocks. Pure.
//
// What it rests on: practice spread over days is kept better than the same practice in one sitting (Simmons 2012, Journal of
// Research in Music Education 59: piano, gaps of a day; gaps of minutes did no better). The lengths below and the bound are
// common practice. A day is a day of the calendar where the student is.

/** @typedef {import("./record.js").Kept} Kept */

/** Days until the next time, after so many clean days one after another. */
export const GAPS = [1, 2, 4, 7, 14, 28];
/** A day was clean when at least this share of its tries was. */
const CLEAN_DAY = 0.8;
const DAY = 24 * 60 * 60 * 1000;

/** The number of a day, counted from 1 January 1970, on the student's own calendar. @param {number} now milliseconds since 1970 */
export function dayOf(now) {
  const date = new Date(now);
  return Math.round(Date.UTC(date.getFullYear(), date.getMonth(), date.getDate()) / DAY);
}

/**
 * The record after one more try.
 * @param {Kept} kept @param {boolean} clean @param {number} now
 * @returns {Kept}
 */
export function afterTry(kept, clean, now) {
  const number = dayOf(now);
  const sameDay = kept.day.number === number;
  const day = sameDay ? kept.day : { number, clean: 0, tries: 0 };
  const one = Number(clean);
  return {
    ...kept, clean: kept.clean + one, tries: kept.tries + 1, last: now, gone: false,
    rung: sameDay ? kept.rung : cleanDays(kept),
    day: { number, clean: day.clean + one, tries: day.tries + 1 },
  };
}

/** Clean days one after another, the last included. @param {Kept} kept */
function cleanDays({ rung, day }) {
  return day.tries > 0 && day.clean / day.tries >= CLEAN_DAY ? rung + 1 : 0;
}

/** The number of the day from which a change is due; never where it was not tried. @param {Kept} kept */
export function dueDay(kept) {
  if (!kept.day.tries) return Infinity;
  return kept.day.number + GAPS[Math.min(Math.max(cleanDays(kept) - 1, 0), GAPS.length - 1)];
}

/**
 * What is due, the least clean first, and where it can be helped no two of the same block one after the other.
 * @param {Kept[]} all @param {number} now @param {number} [most] so many of them: none is left out for a cleaner one
 * @returns {Kept[]}
 */
export function dueIn(all, now, most = Infinity) {
  const today = dayOf(now);
  const due = current(all).filter((kept) => dueDay(kept) <= today);
  const shares = [...new Set(due.map(share))].sort((one, other) => one - other);
  const ordered = shares.flatMap((clean) => mixed(due.filter((kept) => share(kept) === clean).sort((one, other) => one.last - other.last)));
  return mixed(ordered.slice(0, most));
}

/** Whether all tries of the last day were clean. @param {Kept} kept */
export function wasClean(kept) {
  return share(kept) === 1;
}

/** What is still in its lesson; what was practised since a step was edited takes the place of what was before. @param {Kept[]} all */
function current(all) {
  const there = all.filter((kept) => !kept.gone && kept.tries > 0);
  const latest = new Map();
  for (const kept of there) {
    if (!(latest.get(placeOf(kept))?.last > kept.last)) latest.set(placeOf(kept), kept);
  }
  return there.filter((kept) => kept.fromOrdinal === undefined || latest.get(placeOf(kept)) === kept);
}

/** @param {Kept} kept */
function placeOf({ page, block, ordinal, fromOrdinal }) {
  return JSON.stringify([page, block, fromOrdinal, ordinal]);
}

/** The share of the last day: an old slip doesn't count for ever. @param {Kept} kept */
function share({ day }) {
  return day.clean / day.tries;
}

/** @param {Kept[]} due in order @returns {Kept[]} */
function mixed(due) {
  const names = new Set(due.map(blockOf));
  const blocks = [...names].map((name) => due.filter((kept) => blockOf(kept) === name));
  const longest = Math.max(0, ...blocks.map((block) => block.length));
  return Array.from({ length: longest }, (_, turn) => blocks.flatMap((block) => block.slice(turn, turn + 1))).flat();
}

/** @param {Kept} kept */
function blockOf({ page, block }) {
  return `${page}#${block}`;
}
