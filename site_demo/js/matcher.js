// Finds places of the course by words: exact chord names first, then words, then beginnings of words. Pure: no page, no net.

/**
 * @typedef {{location: string, title: string, text: string}} Entry one place of the built index (a page or a heading)
 * @typedef {{entry: Entry, page: string, score: number}} Found page: the title of the page that the place is on
 */

/** What a kind of match is worth. Title before text; whole before part; letters as typed (Am) before any case (am). */
const WORTH = { titleIs: 100, titleIsAnyCase: 90, titleWord: 60, titleWordAnyCase: 50, titleStart: 30, word: 20, wordAnyCase: 12, start: 5 };
/** A place in the chord index comes before a lesson's heading of the same words. */
const CHORD_INDEX_WORTH = 8;
/** Characters of text shown around the first match. */
const EXCERPT = 110;

/** @type {Record<string, string>} */
const ACCIDENTALS = { "♯": "#", "♭": "b", "𝄪": "##", "𝄫": "bb", "♮": "" };

/** Accidentals as people type them, no accents over letters; letters keep their case. @param {string} text */
export function fold(text) {
  return text.replace(/[♯♭♮]|𝄪|𝄫/gu, (sign) => ACCIDENTALS[sign]).normalize("NFD").replace(/\p{Mn}/gu, "").normalize("NFC");
}

/** Words of a text; a chord name with all its signs (F#m7b5, C6/9, Cmaj9(#11)) is one word. @param {string} text */
export function words(text) {
  const found = fold(text).match(/[\p{L}\p{N}][\p{L}\p{N}#+/°()-]*/gu) ?? [];
  return found.map((word) => withoutStrayBrackets(word.replace(/[-/(]+$/u, "")));
}

/** Closing brackets of the sentence around a word go, its own stay. @param {string} word @returns {string} */
function withoutStrayBrackets(word) {
  const stray = word.split(")").length - word.split("(").length;
  return stray > 0 && word.endsWith(")") ? withoutStrayBrackets(word.slice(0, -1)) : word;
}

/** @typedef {ReturnType<typeof prepare>[number]} Place an entry made ready to be searched */

/**
 * Prepares an index once, so that each key press is cheap.
 * @param {{docs: Entry[]}} index the built search/search_index.json
 * @param {string} chordIndex address of the chord index, from the site's folder
 */
export function prepare(index, chordIndex = "") {
  const pages = new Map();
  for (const entry of index.docs) {
    if (!entry.location.includes("#")) pages.set(entry.location, decode(entry.title));
  }
  return index.docs.map((entry) => {
    const clean = { ...entry, title: decode(entry.title), text: decode(entry.text) };
    const [page] = entry.location.split("#");
    return {
      entry: clean,
      address: page,
      page: pages.get(page) ?? "",
      inChordIndex: chordIndex !== "" && page === chordIndex && entry.location.includes("#"),
      title: fold(clean.title).trim(),
      titleWords: words(clean.title),
      textWords: new Set(words(clean.text)),
    };
  });
}

/**
 * The places that hold every word asked for, best first.
 * @param {Place[]} prepared
 * @param {string} asked
 * @returns {Found[]}
 */
export function find(prepared, asked) {
  const query = words(asked);
  if (!query.length) return [];
  const whole = fold(asked).trim().replace(/\s+/gu, " ");
  const best = prepared
    .map((place) => ({ place, score: scoreOf(place, whole, query) }))
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || a.place.title.length - b.place.title.length);
  return oncePerPage(best).map(({ place, score }) => ({ entry: place.entry, page: place.page, score }));
}

/**
 * A lesson comes back to a chord many times: its first step of that name stands for all.
 * @template {{place: Place}} T @param {T[]} found @returns {T[]}
 */
function oncePerPage(found) {
  const seen = new Set();
  return found.filter(({ place }) => {
    const key = `${place.address} ${place.title}`;
    return !seen.has(key) && Boolean(seen.add(key));
  });
}

/** @param {Place} place @param {string} whole @param {string[]} query @returns {number} */
function scoreOf(place, whole, query) {
  const bonus = place.inChordIndex ? CHORD_INDEX_WORTH : 0;
  if (place.title === whole) return WORTH.titleIs + bonus;
  if (place.title.toLowerCase() === whole.toLowerCase()) return WORTH.titleIsAnyCase + bonus;
  const each = query.map((word) => wordScore(place, word));
  return each.includes(0) ? 0 : each.reduce((sum, one) => sum + one, 0) / each.length;
}

/** @param {Place} place @param {string} word @returns {number} */
function wordScore(place, word) {
  const lower = word.toLowerCase();
  const is = (/** @type {string} */ other) => other.toLowerCase() === lower;
  // A single letter begins half of all words: it is asked for as a chord, so only the whole word counts.
  const begins = (/** @type {string} */ other) => lower.length > 1 && other.toLowerCase().startsWith(lower);
  if (place.titleWords.includes(word)) return WORTH.titleWord;
  if (place.titleWords.some(is)) return WORTH.titleWordAnyCase;
  if (place.titleWords.some(begins)) return WORTH.titleStart;
  if (place.textWords.has(word)) return WORTH.word;
  const texts = [...place.textWords];
  if (texts.some(is)) return WORTH.wordAnyCase;
  return texts.some(begins) ? WORTH.start : 0;
}

/**
 * A stretch of text around the first match, cut at blanks, in pieces that say which part was asked for.
 * @param {string} text
 * @param {string} asked
 * @returns {Array<{text: string, hit: boolean}>}
 */
export function excerpt(text, asked) {
  const query = words(asked);
  const plain = text.replace(/\s+/gu, " ").trim();
  const pattern = query.map((word) => escape(word).replace(/#/gu, "[#♯]").replace(/b/gu, "[b♭]")).join("|");
  const hit = new RegExp(`(?<![\\p{L}\\p{N}])(?:${pattern})`, "iu").exec(plain);
  const from = hit ? Math.max(0, plain.lastIndexOf(" ", Math.max(0, hit.index - EXCERPT / 3)) + 1) : 0;
  const cut = plain.indexOf(" ", from + EXCERPT);
  const shown = (from > 0 ? "… " : "") + (cut < 0 ? plain.slice(from) : `${plain.slice(from, cut)} …`);
  return shown.split(new RegExp(`(?<![\\p{L}\\p{N}])(${pattern})`, "iu")).map((part, at) => ({ text: part, hit: at % 2 === 1 })).filter((part) => part.text);
}

/** @param {string} text */
function escape(text) {
  return text.replace(/[.*+?^${}()|[\]\\/-]/gu, "\\$&");
}

/** The index holds titles as they stand in HTML. @param {string} text */
function decode(text) {
  /** @type {Record<string, string>} */
  const named = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };
  return text.replace(/&(amp|lt|gt|quot|#39);/gu, (_, name) => named[name] ?? "");
}
