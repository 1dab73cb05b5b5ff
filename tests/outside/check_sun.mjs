// Holds our sun against astronomy-engine, which npm carries.
// usage: node check_sun.mjs PROGRAM [WORDS...]; the program prints the cases with our answers.
// Exit codes: 0 good, 1 not, 77 where the package is not installed.
//
// What is compared, and how closely, is what check_sun.py beside this file says.
import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";

let astronomy;
try {
  // The packages of all the tools lie in one place.
  astronomy = createRequire(new URL("../tools/package.json", import.meta.url))("astronomy-engine");
} catch (error) {
  if (error.code !== "MODULE_NOT_FOUND") throw error;
  console.log("skipped: astronomy-engine is not installed; run `npm ci` in tests/tools");
  process.exit(77);
}
const { Body, Equator, Horizon, Observer, SearchAltitude } = astronomy;

const mark = -50 / 60;
const clear = 0.05;
const tolerance = 60;

function altitude(place, seconds) {
  const date = new Date(seconds * 1000);
  const { ra, dec } = Equator(Body.Sun, date, place, true, true);
  return Horizon(date, place, ra, dec).altitude;
}

// Rises (1) or sets (-1) of the library from start to end.
function events(place, start, end, direction) {
  const found = [];
  for (let at = start; ;) {
    const next = SearchAltitude(Body.Sun, place, direction, new Date(at * 1000), (end - at) / 86400, mark);
    if (!next) return found;
    found.push(next.date.getTime() / 1000);
    at = found.at(-1) + 600;
    if (at >= end) return found;
  }
}

// The lowest and the highest of the sun: every half hour, and close by around its passages.
function extremes(place, start, end) {
  const at = [];
  for (let t = start; t <= end; t += 1800) at.push(t);
  for (const passage of [start, (start + end) / 2, end]) {
    for (let t = passage - 1500; t <= passage + 1500; t += 150) if (t >= start && t <= end) at.push(t);
  }
  const heights = at.map((t) => altitude(place, t));
  return [Math.min(...heights), Math.max(...heights)];
}

let cases = 0;
let compared = 0;
let polar = 0;
let largest = 0;
const faults = [];
const [program, ...words] = process.argv.slice(2);
const printed = execFileSync(program, words, { encoding: "utf8", maxBuffer: 1 << 26 });
for (const line of printed.trim().split("\n")) {
  const [latitude, longitude, start, end, state, rises, sets] = line.split(" ")
    .map((word, i) => (i < 4 ? Number(word) : word));
  const place = new Observer(latitude, longitude, 0);
  cases += 1;
  if (Math.abs(latitude) < 65) {
    for (const [list, direction] of [[rises, 1], [sets, -1]]) {
      const ours = list === "-" ? [] : list.split(",").map(Number);
      const theirs = events(place, start - 600, end + 600, direction);
      const off = (t, others) => Math.min(Infinity, ...others.map((other) => Math.abs(t - other)));
      // At the span's ends the other's may lie beyond.
      const wrong = [...ours.filter((t) => off(t, theirs) > tolerance),
        ...theirs.filter((t) => t > start + tolerance && t < end - tolerance && off(t, ours) > tolerance)];
      wrong.forEach((t) => faults.push(`${line}\n    none of the other within ${tolerance} s of ${t}`));
      if (wrong.length === 0) {
        compared += ours.length;
        ours.forEach((t) => { largest = Math.max(largest, off(t, theirs)); });
      }
    }
  }
  if (Math.abs(latitude) < 60) {
    if (state !== "crosses") faults.push(`${line}\n    below 60 degrees the sun rises and sets every day`);
    continue;
  }
  const [low, high] = extremes(place, start, end);
  if (Math.min(Math.abs(low - mark), Math.abs(high - mark)) < clear) continue;
  const meant = low > mark ? "always" : high < mark ? "never" : "crosses";
  if (meant !== "crosses") polar += 1;
  if (state !== meant)
    faults.push(`${line}\n    the library's sun goes from ${low.toFixed(3)} to ${high.toFixed(3)} degrees: ${meant}`);
}

for (const fault of faults.slice(0, 20)) console.log(`FAILED: ${fault}`);
console.log(`astronomy-engine: ${cases} places and dates, ${compared} rises and sets, the worst `
  + `${largest.toFixed(1)} s off; ${polar} polar days and nights; ${faults.length} faults`);
const enough = cases >= 2000 && compared >= 2000 && polar >= 100;
if (!enough) console.log("FAILED: too little was compared");
process.exit(enough && faults.length === 0 ? 0 : 1);
