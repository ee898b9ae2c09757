// The service worker's modules that need no browser: what its list may hold, which files are wanted, stretches of a file.
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressOf, listIn, pathOf, sizeOf, wanted } from "../../theme/worker/list.js";
import { ranged } from "../../theme/worker/ranged.js";

const SCOPE = new URL("https://host.example/north/");
const DIGEST = "0".repeat(64);
/** @param {string} path @param {object} [more] */
const file = (path, more = {}) => ({ path, size: 10, sha256: DIGEST, ...more });
const LIST = {
  version: 1,
  build: DIGEST,
  files: [
    file("css/look.css", { frame: true }), file("index.html", { frame: true, needs: ["hill.svg"] }), file("fog/index.html", { needs: ["lamp.svg"] }),
    file("gate/index.html"), file("hill.svg"), file("lamp.svg"), file("song.ogg"),
  ],
};

test("a list is taken only where it is one", () => {
  assert.deepEqual(listIn(LIST), { build: LIST.build, files: LIST.files });
  assert.equal(listIn({ version: 1, serving: true }), "serving");
  for (const wrong of [null, [], {}, { ...LIST, version: 2 }, { ...LIST, build: "x" }, { ...LIST, files: [{}] }, { ...LIST, files: [file("a", { size: "1" })] }]) {
    assert.equal(listIn(wrong), null);
  }
});

test("a page brings what it needs and what every page needs, in the order of the list", () => {
  const list = { build: LIST.build, files: LIST.files };
  const paths = (/** @type {{whole: boolean, pages: string[]}} */ wish) => wanted(list, wish).map(({ path }) => path);
  assert.deepEqual(paths({ whole: false, pages: ["fog/index.html"] }), ["css/look.css", "index.html", "fog/index.html", "hill.svg", "lamp.svg"]);
  assert.deepEqual(paths({ whole: false, pages: ["gone/index.html"] }), ["css/look.css", "index.html", "hill.svg"]);
  assert.equal(sizeOf(wanted(list, { whole: true, pages: [] })), 70);
});

test("a folder's address shows its index, whatever the names hold", () => {
  for (const [path, address] of [
    ["index.html", ""], ["fog/index.html", "fog/"], ["css/look.css", "css/look.css"], ["né #1?/index.html", "n%C3%A9%20%231%3F/"], ["my-index.html", "my-index.html"],
  ]) {
    assert.equal(addressOf(path, SCOPE), SCOPE.href + address);
    assert.equal(pathOf(new URL(SCOPE.href + address), SCOPE), path);
  }
  assert.equal(pathOf(new URL("fog/index.html?x#y", SCOPE), SCOPE), "fog/index.html");
  assert.equal(pathOf(new URL("100%/", SCOPE), SCOPE), "100%/index.html");
});

test("a stretch of a file is given as RFC 9110 says", async () => {
  const whole = () => new Response("0123456789", { headers: { "Content-Type": "audio/ogg" } });
  for (const [asked, text, said] of [
    ["bytes=2-4", "234", "bytes 2-4/10"], ["bytes=7-", "789", "bytes 7-9/10"], ["bytes=-3", "789", "bytes 7-9/10"], ["bytes=0-99", "0123456789", "bytes 0-9/10"],
    ["bytes=-99", "0123456789", "bytes 0-9/10"],
  ]) {
    const answer = await ranged(whole(), asked);
    assert.deepEqual([answer.status, await answer.text(), answer.headers.get("Content-Range")], [206, text, said], asked);
    assert.equal(answer.headers.get("Content-Type"), "audio/ogg");
  }
  for (const asked of ["bytes=10-", "bytes=5-4"]) assert.equal((await ranged(whole(), asked)).status, 416);
  for (const asked of [null, "bytes=1-2,4-5", "lines=1-2", "bytes=-"]) assert.equal((await ranged(whole(), asked)).status, 200);
});
