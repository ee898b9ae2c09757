// What is kept of one change: how often it was tried and how often clean, when, and both shapes as they were. Pure.

/**
 * @typedef {{id: string, block: string, ordinal: number, kind: string, shape: string, written: string, named: string}} Stop
 *   what is asked of a step
 *
 * @typedef {object} Change
 * @property {string} page address of the lesson, from the site's folder
 * @property {string} title the lesson's title
 * @property {string} block id of its block
 * @property {number} ordinal which step of the block is changed to, from 0
 * @property {string} from stable id of the step that is changed from
 * @property {string} to stable id of the step that is changed to
 * @property {string} fromShape
 * @property {string} toShape
 * @property {string} fromName what the step was called, as the course wrote it
 * @property {string} toName
 * @property {number} [fromOrdinal] which step of the block is changed from; this and what follows was not kept by earlier versions
 * @property {string} [fromNamed] which name that is (data-name), so that it can be written as the reader chose
 * @property {string} [toNamed]
 *
 * @typedef {object} Practised
 * @property {number} clean tries that were clean, of all
 * @property {number} tries
 * @property {number} last when it was last tried or ticked, in milliseconds since 1970
 * @property {boolean} done ticked in the lesson's practice list
 * @property {boolean} gone whether the lesson, when last opened, had nothing in its place
 * @property {number} rung how many days of practice before the last were clean one after another: says the next gap
 * @property {{number: number, clean: number, tries: number}} day the last day of practice, and its tries
 *
 * @typedef {Change & Practised} Kept
 */

/** What a change's own fields are. @type {{[name in keyof Change]?: string}} */
const FIELDS = {
  page: "string", title: "string", block: "string", ordinal: "number", from: "string", to: "string",
  fromShape: "string", toShape: "string", fromName: "string", toName: "string",
};

/** What later versions keep besides. @type {{[name in keyof Change]?: (value: unknown) => boolean}} */
const LATER = { fromOrdinal: isCount, fromNamed: isText, toNamed: isText };

/** Nothing done yet. @type {Practised} */
const UNTRIED = { clean: 0, tries: 0, last: 0, done: false, gone: false, rung: 0, day: { number: 0, clean: 0, tries: 0 } };

/** A name for a change that no other of the course has. @param {Change} change */
export function keyOf({ page, from, to }) {
  return JSON.stringify([page, from, to]);
}

/** A change that nothing is kept of yet. @param {Change} change @returns {Kept} */
export function untried(change) {
  return { ...changeOf(change), ...UNTRIED };
}

/** The fields of a change alone. @param {Change} change @returns {Change} */
export function changeOf(change) {
  const fields = Object.entries(change).filter(([name, value]) => name in FIELDS || LATER[/** @type {keyof Change} */ (name)]?.(value));
  return /** @type {Change} */ (Object.fromEntries(fields));
}

/** The change from one step to another. @param {{page: string, title: string}} lesson @param {Stop} from @param {Stop} to @returns {Change} */
export function between({ page, title }, from, to) {
  return {
    page, title, block: to.block, ordinal: to.ordinal, from: from.id, to: to.id,
    fromShape: from.shape, toShape: to.shape, fromName: from.written, toName: to.written, fromNamed: from.named, toNamed: to.named,
    ...(from.block === to.block ? { fromOrdinal: from.ordinal } : {}),
  };
}

/**
 * A record as it stands in a store or a file, made sure of; null where it is none.
 * @param {unknown} found
 * @returns {Kept | null}
 */
export function recordIn(found) {
  const given = /** @type {Partial<Kept>} */ (Object(found));
  if (Object.entries(FIELDS).some(([name, kind]) => typeof given[/** @type {keyof Change} */ (name)] !== kind)) return null;
  const { clean, tries, last, done, gone, rung, day } = { ...UNTRIED, ...given };
  const shares = [{ clean, tries }, Object(day)];
  const sound = isCount(last) && isCount(rung) && isCount(given.ordinal) && isCount(Object(day).number) && shares.every(isShare);
  if (!sound || !isAddress(given.page)) return null;
  const kept = { clean, tries, last, done: done === true, gone: gone === true, rung };
  return { ...changeOf(/** @type {Change} */ (given)), ...kept, day: { number: day.number, clean: day.clean, tries: day.tries } };
}

/** @param {{clean: unknown, tries: unknown}} share */
function isShare({ clean, tries }) {
  return isCount(clean) && isCount(tries) && Number(clean) <= Number(tries);
}

/** @param {unknown} value */
function isText(value) {
  return typeof value === "string";
}

/** @param {unknown} value */
function isCount(value) {
  return Number.isSafeInteger(value) && Number(value) >= 0;
}

/** A page within the site's folder, and nothing that leads elsewhere. @param {string | undefined} page */
function isAddress(page = "/") {
  return !/^[/\\]|[:\\?#]|(^|\/)\.\.(\/|$)/u.test(page);
}
