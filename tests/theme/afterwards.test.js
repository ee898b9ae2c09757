// What is put off until a tap has been answered: done after the second frame, once, or before the page goes.
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { Afterwards } from "../../theme/js/afterwards.js";

/** @type {Map<number, () => void>} what the next frame is to run */
let frames = new Map();
/** @type {string[]} */
let done = [];
let page = new EventTarget();
let hidden = false;

/** Shows a frame, as a browser does: what is asked for within it belongs to the next. */
const frame = () => [...frames].forEach(([id, run]) => { if (frames.delete(id)) run(); });

beforeEach(() => {
  frames = new Map();
  done = [];
  page = new EventTarget();
  hidden = false;
  let next = 1;
  Object.assign(globalThis, {
    requestAnimationFrame: (/** @type {() => void} */ run) => { frames.set(next, run); return next++; },
    cancelAnimationFrame: (/** @type {number} */ id) => frames.delete(id),
    addEventListener: page.addEventListener.bind(page),
    removeEventListener: page.removeEventListener.bind(page),
    document: { get hidden() { return hidden; } },
  });
});

test("the frame that answers comes first, what was put off with the next, and only once", () => {
  new Afterwards().put(() => done.push("later"));
  assert.deepEqual(done, []);
  frame();
  assert.deepEqual(done, []);
  frame();
  frame();
  assert.deepEqual(done, ["later"]);
});

test("of several things each has a frame of its own and leaves one free, and all that is left comes at once to who needs it", () => {
  const later = new Afterwards();
  const three = ["one", "two", "three"].map((word) => () => { done.push(word); });
  later.put(...three);
  frame();
  frame();
  assert.deepEqual(done, ["one"]);
  frame();
  assert.deepEqual(done, ["one"]);
  frame();
  assert.deepEqual(done, ["one", "two"]);
  later.catchUp();
  assert.deepEqual(done, ["one", "two", "three"]);
  frame();
  frame();
  assert.equal(frames.size, 0);
  assert.deepEqual(done, ["one", "two", "three"]);
});

test("a second tap takes the place of what the first put off, also between the two frames", () => {
  const later = new Afterwards();
  later.put(() => done.push("first"));
  frame();
  later.put(() => done.push("second"));
  frame();
  assert.deepEqual(done, []);
  frame();
  assert.deepEqual(done, ["second"]);
});

test("who needs it now gets it now, and it is not done again", () => {
  const later = new Afterwards();
  later.put(() => done.push("later"));
  later.catchUp();
  assert.deepEqual(done, ["later"]);
  frame();
  frame();
  later.catchUp();
  assert.deepEqual(done, ["later"]);
});

test("what is dropped never is done", () => {
  const later = new Afterwards();
  later.put(() => done.push("later"));
  later.drop();
  frame();
  frame();
  page.dispatchEvent(new Event("pagehide"));
  assert.deepEqual(done, []);
});

test("a page that goes does first what was put off, and one that nobody sees puts nothing off", () => {
  for (const event of ["pagehide", "visibilitychange"]) {
    new Afterwards().put(() => done.push(event));
    page.dispatchEvent(new Event(event));
    page.dispatchEvent(new Event(event));
  }
  hidden = true;
  new Afterwards().put(() => done.push("unseen"));
  assert.deepEqual(done, ["pagehide", "visibilitychange", "unseen"]);
});
