// Keeps the screen awake while practice goes on, and lets it go after.

/** Without a touch or a beat for so long, nobody practises: the screen may sleep. */
const IDLE_MINUTES = 10;

/**
 * @param {() => void} refused told once where the browser can't or won't
 * @returns {{keep: () => void, release: () => void}} keep: from now on, and again at each sign of life
 */
export function wakefulness(refused) {
  /** @type {WakeLockSentinel | null} */
  let lock = null;
  let wanted = false;
  let told = false;
  let idle = 0;
  const refuse = () => {
    if (!told && wanted) refused();
    told = true;
  };
  const take = async () => {
    if (!wanted || lock || document.visibilityState !== "visible") return;
    if (!navigator.wakeLock) { refuse(); return; }
    try {
      const taken = await navigator.wakeLock.request("screen");
      // A second request may have been quicker, or practice may be over.
      if (!wanted || lock) { await taken.release(); return; }
      lock = taken;
      taken.addEventListener("release", () => { lock = null; });
    } catch {
      refuse();
    }
  };
  const release = () => {
    wanted = false;
    clearTimeout(idle);
    document.removeEventListener("visibilitychange", take);
    lock?.release().catch(() => undefined);
    lock = null;
  };
  const keep = () => {
    clearTimeout(idle);
    idle = window.setTimeout(release, IDLE_MINUTES * 60000);
    if (!wanted) document.addEventListener("visibilitychange", take);
    wanted = true;
    take();
  };
  return { keep, release };
}
