// The page's one audio context: made when a tap or a key first asks for sound, and put to sleep when no one uses it.

/** Milliseconds that a browser may take to let sound begin; and of disuse before the device's audio may sleep. */
const PATIENCE = 1500;
const IDLE = 20000;

/** @type {AudioContext | null} */
let context = null;
/** Who needs the clock to go on. @type {Set<object>} */
const users = new Set();
/** @type {ReturnType<typeof setTimeout> | undefined} */
let sleeping;

/** Whether this browser has what sounds are made with. Makes nothing. @returns {boolean} */
export function hasAudio() {
  return typeof AudioContext === "function" && typeof AudioContext.prototype.resume === "function";
}

/** @returns {AudioContext} @throws where the device has no audio */
export function audio() {
  context ??= new AudioContext({ latencyHint: "interactive" });
  return context;
}

/**
 * Lets sound begin. Call it within the tap or key itself, before anything is waited for: some browsers allow it only there.
 * @returns {Promise<void>}
 * @throws {Error} (rejects) where the browser lets no sound begin
 */
export async function wake() {
  clearTimeout(sleeping);
  if (audio().state !== "running") await Promise.race([audio().resume(), tooLong()]);
}

/** The audio stays awake while anyone uses it, and sleeps some time after, to spare the battery. @param {object} user */
export function use(user) {
  users.add(user);
  clearTimeout(sleeping);
}

/** @param {object} user */
export function release(user) {
  users.delete(user);
  clearTimeout(sleeping);
  if (users.size === 0) sleeping = setTimeout(() => context?.suspend(), IDLE);
}

/** @returns {Promise<never>} */
function tooLong() {
  return new Promise((_, reject) => setTimeout(() => reject(new Error("No sound began")), PATIENCE));
}
