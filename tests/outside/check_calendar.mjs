// Has our calendar read by ical.js and by node-ical, two readers written apart, before and after a new plan.
// usage: node check_calendar.mjs PROGRAM; exit codes: 0 good, 1 not, 77 where a package is not installed.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";

let ICAL;
let nodeIcal;
try {
  // The packages of all the tools lie in one place.
  const tools = createRequire(new URL("../tools/package.json", import.meta.url));
  ICAL = tools("ical.js");
  ICAL = ICAL.default ?? ICAL;
  nodeIcal = tools("node-ical");
} catch (error) {
  if (error.code !== "MODULE_NOT_FOUND") throw error;
  console.log("skipped: ical.js and node-ical are not installed; run `npm ci` in tests/tools");
  process.exit(77);
}

// Of every event what a calendar shows: uid, sequence, start, end, words, state, minutes of warning.
function byIcalJs(text) {
  const component = new ICAL.Component(ICAL.parse(text));
  return component.getAllSubcomponents("vevent").map((vevent) => {
    const event = new ICAL.Event(vevent);
    const alarm = vevent.getFirstSubcomponent("valarm");
    return {
      uid: event.uid,
      sequence: event.sequence,
      start: event.startDate.toJSDate().toISOString(),
      end: event.endDate.toJSDate().toISOString(),
      summary: event.summary,
      description: event.description ?? "",
      status: vevent.getFirstPropertyValue("status"),
      warning: alarm ? -alarm.getFirstPropertyValue("trigger").toSeconds() / 60 : 0,
    };
  });
}

function byNodeIcal(text) {
  return Object.values(nodeIcal.sync.parseICS(text))
    .filter((entry) => entry.type === "VEVENT")
    .map((event) => {
      const trigger = event.alarms?.[0]?.trigger;
      return {
        uid: event.uid,
        sequence: Number(event.sequence),
        start: event.start.toISOString(),
        end: event.end.toISOString(),
        summary: event.summary,
        description: event.description ?? "",
        status: event.status,
        warning: trigger ? Number(/^-PT(\d+)M$/.exec(trigger)[1]) : 0,
      };
    });
}

const by = (list) => new Map(list.map((event) => [event.uid, event]));
const texts = Object.fromEntries(
  ["first", "second"].map((word) => [word, execFileSync(process.argv[2], [word], { encoding: "utf8" })]),
);
for (const [reader, read] of [["ical.js", byIcalJs], ["node-ical", byNodeIcal]]) {
  const first = by(read(texts.first));
  const second = by(read(texts.second));
  assert.equal(first.size, 6, reader);
  const dig = first.get("work-dig-1.00c0ffee@weatherstruck");
  assert.equal(dig.summary, "Dig the footings; 0.9 m3, by hand", reader);
  assert.equal(
    dig.description,
    "Ty'r Odyn — the ground is wet, so the spoil goes on boards und zwar über Bohlen, 木の板の上に置く, \\ and " +
      "not on the grass",
    reader,
  );
  // 08:00 by a London clock before the change is 08:00 UTC, 09:00 after it too.
  assert.equal(dig.start, "2026-03-28T08:00:00.000Z", reader);
  assert.equal(first.get("leave-1.00c0ffee@weatherstruck").end, "2026-03-29T20:00:00.000Z", reader);
  const warnings = [...first.values()].map((event) => event.warning).sort((a, b) => a - b);
  assert.deepEqual(warnings, [0, 0, 20, 20, 30, 60], reader);
  // After the new plan: the same six, one moved, one given up, the rest untouched.
  assert.deepEqual([...second.keys()].sort(), [...first.keys()].sort(), reader);
  for (const [uid, after] of second) {
    const before = first.get(uid);
    if (uid.startsWith("work-lay")) {
      assert.equal(after.sequence, before.sequence + 1, reader);
      assert.equal(after.start, "2026-03-29T10:00:00.000Z", reader);
    } else if (uid.startsWith("merchant-sand")) {
      assert.equal(after.sequence, before.sequence + 1, reader);
      assert.equal(after.status, "CANCELLED", reader);
    } else {
      assert.deepEqual(after, before, reader);
    }
  }
  console.log(`${reader}: ${first.size} events, read as they were meant, before and after a new plan`);
}
