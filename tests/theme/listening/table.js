// Prints the table of a long trial: node table.js SEED TIMES SHAPE...
import { chances, strum } from "./steel.js";
import { trial } from "./trial.js";

const [seed, times, ...shapes] = process.argv.slice(2);
const found = trial(shapes, strum, chances(Number(seed)), Number(times));
const per = (/** @type {number} */ part, /** @type {number} */ of) => (of ? `${((100 * part) / of).toFixed(1)} %` : "-");
const row = (/** @type {string} */ name, /** @type {ReturnType<typeof trial>["clean"]} */ { tries, right, wrong, silent, covered }) =>
  `${name.padEnd(16)}${[tries, right, wrong, silent, covered].map((n) => String(n).padStart(8)).join("")}   right of named ${per(right, right + wrong)}`;

console.log(`${"".padEnd(16)}${["tries", "right", "wrong", "silent", "covered"].map((name) => name.padStart(8)).join("")}`);
console.log(`${row("clean strums", found.clean).split("   right")[0]}   false alarms ${per(found.clean.wrong, found.clean.tries)}`);
console.log(row("silent string", found.silent));
console.log(row("another note", found.other));
for (const [string, tally] of Object.entries(found.strings)) console.log(row(`  string ${string}`, tally));
