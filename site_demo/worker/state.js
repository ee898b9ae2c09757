// What the worker remembers between its runs: which build is shown, what is to be kept, and which page began with which build.

/**
 * @typedef {object} State
 * @property {string | null} current the build that kept pages are shown of
 * @property {boolean} whole whether the whole course is to be kept
 * @property {string[]} pages paths of the pages that were opened
 * @property {number} missed since when the host has had no list, in milliseconds since 1970; 0: it has one
 */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

/** The folder of the course: all that the worker answers for. */
export const SCOPE = new URL(worker.registration.scope);
/** Several courses on one host share one store; the blank keeps a course apart from one in a folder of its folder. */
const PREFIX = `fingerpost ${SCOPE.pathname} `;
const STATE = `${PREFIX}state`;

/** @type {State} */
const NOTHING = { current: null, whole: false, pages: [], missed: 0 };

/** @returns {Promise<State>} */
export async function readState() {
  return { ...NOTHING, ...(await readEntry("state")) };
}

/** @param {Partial<State>} change */
export async function changeState(change) {
  await writeEntry("state", { ...(await readState()), ...change });
}

/** @typedef {{build: string, since: number}} Pin since: milliseconds since 1970 */

/** Pins of this run, for a device that has no room for another word. @type {Map<string, Pin>} */
const pinned = new Map();
/** A page that is being opened has its pin before it is among the open ones; it is given so long. */
const OPENING = 60_000;

/** Holds an open page to a build, whatever comes to be shown to others. @param {string} client @param {string} build */
export async function pin(client, build) {
  if (!client) return;
  const made = { build, since: Date.now() };
  pinned.set(client, made);
  await writeEntry(`client=${client}`, made).catch(() => undefined);
}

/** @param {string} client @returns {Promise<string | null>} the build that an open page began with; null: none that is kept */
export async function pinOf(client) {
  return (await readPin(client))?.build ?? null;
}

/** @param {string} client @returns {Promise<Pin | null>} */
async function readPin(client) {
  if (!client) return null;
  const found = pinned.get(client) ?? (await readEntry(`client=${client}`));
  return found.build ? found : null;
}

/** A build's files. @param {string} build */
export function openBuild(build) {
  return caches.open(PREFIX + build);
}

/** Deletes what no open page shows any more. @param {string[]} wanted builds to leave */
export async function sweep(wanted) {
  const open = new Set((await worker.clients.matchAll({ includeUncontrolled: true })).map(({ id }) => id));
  const state = await caches.open(STATE);
  const shown = new Set(wanted);
  const noted = (await state.keys()).map(({ url }) => new URL(url).searchParams.get("client") ?? "");
  for (const client of new Set([...noted, ...pinned.keys()])) {
    const held = await readPin(client);
    if (held && (open.has(client) || Date.now() - held.since < OPENING)) shown.add(held.build);
    else if (client) {
      pinned.delete(client);
      await state.delete(addressOf(`client=${client}`));
    }
  }
  for (const name of await ownCaches()) {
    if (name !== STATE && !shown.has(name.slice(PREFIX.length))) await caches.delete(name);
  }
}

/** Forgets everything of this course. */
export async function forget() {
  pinned.clear();
  for (const name of await ownCaches()) await caches.delete(name);
}

async function ownCaches() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX));
}

/** @param {string} name */
async function readEntry(name) {
  const found = await (await caches.open(STATE)).match(addressOf(name));
  return found ? found.json() : {};
}

/** @param {string} name @param {unknown} value */
async function writeEntry(name, value) {
  await (await caches.open(STATE)).put(addressOf(name), Response.json(value));
}

/** @param {string} name */
function addressOf(name) {
  return new URL(`?${name}`, SCOPE).href;
}
