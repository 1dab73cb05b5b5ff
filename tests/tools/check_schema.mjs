// Holds job documents against docs/job.schema.json with a validator that is not ours.
// usage: node check_schema.mjs SCHEMA DOCUMENT...
// The last document also serves as the ground for mistakes that the schema must refuse, so that a schema
// which takes everything fails here. Exit codes: 0 good, 1 not, 77 where the packages are not installed.
import { readFileSync } from "node:fs";

let Ajv;
try {
  ({ default: Ajv } = await import("ajv/dist/2020.js"));
} catch (error) {
  if (error.code !== "ERR_MODULE_NOT_FOUND") throw error;
  console.log("skipped: ajv is not installed; run `npm ci` in tests/tools");
  process.exit(77);
}

// The text without its comments; what stands between quotes stays.
function withoutComments(text) {
  return text.replace(/"(?:\\.|[^"\\])*"|\/\/[^\n]*|\/\*[\s\S]*?\*\//g, (part) => (part[0] === '"' ? part : " "));
}

const [schemaPath, ...documentPaths] = process.argv.slice(2);
const schema = JSON.parse(readFileSync(schemaPath, "utf8"));
const ajv = new Ajv({ strict: true, strictRequired: false, allErrors: true });
const validate = ajv.compile(schema);
let failures = 0;

function expect(good, what, details = "") {
  if (good) return;
  failures += 1;
  console.log(`FAILED: ${what}${details ? `\n  ${details}` : ""}`);
}

let ground;
for (const path of documentPaths) {
  ground = JSON.parse(withoutComments(readFileSync(path, "utf8")));
  expect(validate(ground), `${path} is a good document`, ajv.errorsText(validate.errors, { separator: "\n  " }));
}

const mistakes = [
  ["a key that is not known", (job) => { job.parts[0].lenght = 3; }],
  ["a section that is not known", (job) => { job.weather = {}; }],
  ["another version", (job) => { job.weatherstruck = 2; }],
  ["no site", (job) => { delete job.site; }],
  ["no place", (job) => { delete job.site.latitude; }],
  ["a latitude beyond the pole", (job) => { job.site.latitude = 91; }],
  ["a length in quotes", (job) => { job.parts[0].length = "3.6"; }],
  ["half a course", (job) => { job.parts[1].courses = 4.5; }],
  ["a word that is none", (job) => { job.parts[1].joints = "flush"; }],
  ["a kind that is none", (job) => { job.parts[0].kind = "tower"; }],
  ["a name with a space", (job) => { job.parts[0].name = "my wall"; }],
  ["a time without its day", (job) => { job.trip.leave_home = "05:30"; }],
  ["a stretch of the day with no end", (job) => { job.trip.working_day = "07:00"; }],
  ["minutes beyond the hour", (job) => { job.trip.drive_out = "1:75"; }],
  ["nobody on the job", (job) => { job.crew = []; }],
  ["a price without its currency", (job) => { job.fallbacks[0].price = "95.50"; }],
];
for (const [what, spoil] of mistakes) {
  const job = structuredClone(ground);
  spoil(job);
  expect(!validate(job), `${what} is refused`);
}

console.log(`${documentPaths.length} documents taken, ${mistakes.length} mistakes refused, ${failures} failures`);
process.exit(failures === 0 ? 0 : 1);
