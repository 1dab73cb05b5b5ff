// Judges the HTML sheets with tools that are not ours, in a browser that is not ours.
// usage: node check_sheets.mjs PROGRAM FIXTURE [--write]
// PROGRAM writes the sheets of the demonstration into a folder; FIXTURE is the text that the phone sheet must
// make of the ticks below (--write makes it anew). Exit codes: 0 good, 1 not, 77 where the packages or a
// browser are not installed.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

function skip(why) {
  console.log(`skipped: ${why}`);
  process.exit(77);
}

const browserPath = ["chromium", "chromium-browser", "google-chrome"].map((name) => `/usr/bin/${name}`).find(existsSync);
let HtmlValidate;
let chromium;
let axeSource;
try {
  ({ HtmlValidate } = await import("html-validate"));
  ({ chromium } = await import("playwright-core"));
  axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
} catch (error) {
  if (!["ERR_MODULE_NOT_FOUND", "MODULE_NOT_FOUND"].includes(error.code)) throw error;
  skip("html-validate, axe-core or playwright-core is not installed; run `npm ci` in tests/tools");
}
if (!browserPath) skip("no Chromium in /usr/bin");

const [program, fixture, mode] = process.argv.slice(2);
const largest = 200_000;
let checks = 0;
let failures = 0;
function expect(good, what, details = "") {
  checks += 1;
  if (good) return;
  failures += 1;
  console.log(`FAILED: ${what}${details ? `\n  ${details}` : ""}`);
}

const folder = mkdtempSync(join(tmpdir(), "sheets-"));
let browser;
try {
  execFileSync(program, [folder]);
  const files = readdirSync(folder).filter((name) => name.endsWith(".html")).sort();
  expect(files.length >= 14, "the program writes every sheet", files.join(" "));

  const validator = new HtmlValidate({
    extends: ["html-validate:recommended", "html-validate:a11y"],
    // Written by hand or by a program, not the rule's business: lines may end in spaces within text.
    rules: { "no-trailing-whitespace": "off", "long-title": "off" },
  });
  browser = await chromium.launch({
    executablePath: browserPath,
    args: ["--no-sandbox", "--disable-background-networking"],
  });

  for (const name of files) {
    const path = join(folder, name);
    expect(statSync(path).size < largest, `${name} is under ${largest} bytes`, `${statSync(path).size}`);
    const report = await validator.validateFile(path);
    expect(report.valid, `${name} is valid HTML`,
      report.results.flatMap((r) => r.messages.map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`)).join("\n  "));
    for (const filled of name.startsWith("phone") ? [false, true] : [false]) await judge(path, name, filled);
    // One of each sort that leaves the house on paper or by mail.
    if (/^(days|invoice|quote|customer|record|record-for-customer|day|phone-1)\./.test(name)) await wide(path, name);
  }
  await ticks(join(folder, "phone-ticks.html"));
} finally {
  if (browser) await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
console.log(`${checks} checks, ${failures} failures`);
process.exit(failures === 0 ? 0 : 1);

async function open(path, requests) {
  // A context of its own: what one page keeps another must not find.
  const context = await browser.newContext({
    viewport: { width: 360, height: 780 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true, timezoneId: "Europe/London",
  });
  const page = await context.newPage();
  // The browser's own pictures of a field for times come from inside it, as data.
  page.on("request", (request) => { if (!request.url().startsWith("data:")) requests.push(request.url()); });
  page.on("pageerror", (error) => expect(false, `${path} runs without an error`, error.message));
  page.on("console", (message) => expect(false, `${path} says nothing on the console`, message.text()));
  await page.goto(pathToFileURL(path).href);
  return page;
}

// Every rule of axe-core up to WCAG 2.2 AA, and enhanced contrast; at 360 px; nothing asked of anywhere.
async function judge(path, name, filled) {
  const requests = [];
  const page = await open(path, requests);
  const state = filled ? `${name} with boxes ticked` : name;
  if (filled) {
    await page.evaluate(() => {
      document.querySelectorAll("input[data-key]").forEach((box, i) => { if (i % 2 === 0) box.click(); });
      document.querySelectorAll("details").forEach((part) => { part.open = true; });
    });
  }
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  expect(wide <= 360, `${state} fits into 360 px`, `${wide} px`);
  const small = await page.evaluate(() => [...document.querySelectorAll("input, button, select, summary, nav a")]
    .map((one) => one.closest("label") ?? one).filter((one) => one.getClientRects().length > 0)
    .filter((one) => one.getBoundingClientRect().height < 44 || one.getBoundingClientRect().width < 24)
    .map((one) => one.outerHTML.slice(0, 80)));
  expect(small.length === 0, `${state} has targets for gloves, 44 px high`, small.join("\n  "));
  // The policy of the page would not let a script tag in; this runs it in the page's world by itself.
  await page.evaluate(axeSource);
  const result = await page.evaluate(() => globalThis.axe.run(document, {
    runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
    rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } },
  }));
  expect(result.passes.length > 5, `${state}: axe-core looked at it`);
  expect(result.passes.some((rule) => rule.id === "color-contrast-enhanced"), `${state}: enhanced contrast was judged`);
  expect(result.violations.length === 0, `${state}: axe-core objects to nothing`,
    result.violations.map((v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).join("; ")}`).join("\n  "));
  // axe-core cannot see what lies behind letters of a drawing; a test of ours holds those to black on white.
  const unsettled = result.incomplete.filter((v) => v.nodes.some((n) => !n.html.startsWith("<text ")));
  expect(unsettled.length === 0, `${state}: axe-core leaves nothing open`,
    unsettled.map((v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.any.map((a) => a.message)}`).join(" ")}`).join("\n  "));
  expect(requests.length === 1, `${state} makes no request`, requests.join(" "));
  await page.close();
}

// The same at the width of a screen and as it is printed: it fits, and axe-core objects to nothing.
async function wide(path, name) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  await page.goto(pathToFileURL(path).href);
  await page.evaluate(axeSource);
  for (const media of ["screen", "print"]) {
    await page.emulateMedia({ media });
    const across = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(across <= 1280, `${name} fits into 1280 px, ${media}`, `${across} px`);
    const result = await page.evaluate((tapped) => globalThis.axe.run(document, {
      runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
      // Nobody taps on paper.
      rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: tapped } },
    }), media === "screen");
    expect(result.violations.length === 0, `${name}, 1280 px, ${media}: axe-core objects to nothing`,
      result.violations.map((v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).join("; ")}`).join("\n  "));
  }
  await context.close();
}

// Ticks as a day makes them, read back after a reload; their text is the fixture that the tests of the site
// book read.
async function ticks(path) {
  const requests = [];
  const page = await open(path, requests);
  const at = (time) => page.evaluate((iso) => {
    const Real = Date;
    globalThis.Date = class extends Real {
      constructor(...words) { super(...(words.length ? words : [iso])); }
    };
  }, `2026-02-10T${time}:00`);
  const click = (key) => page.evaluate((wanted) => {
    const box = [...document.querySelectorAll("input[data-key]")].find((one) => one.dataset.key === wanted);
    if (!box) throw new Error(`no box ${wanted}`);
    box.click();
  }, key);
  const keys = await page.evaluate(() => [...document.querySelectorAll("input[data-key]")].map((b) => b.dataset.key));
  const text = () => page.$eval("#text", (area) => area.value);
  const pick = (start) => keys.filter((key) => key.startsWith(start));

  await at("07:05");
  await click("began bed-dig at ");
  await at("08:10");
  await click("did all of bed-dig at ");
  await click(keys.find((key) => key.startsWith("took ")));
  await at("11:30");
  // Courses done in one minute are entries of their own, not one said twice.
  const courses = pick("did 1 course of shelter-below");
  expect(courses.length === 4, "each course has a box", keys.join("\n  "));
  for (const key of courses.slice(0, 3)) await click(key);
  await click(pick("did 1 course of steps-build")[0]);
  await click(pick("canopy up")[0]);
  await at("13:15");
  await click(pick("canopy down")[0]);
  await click(pick("covered ")[0]);
  await page.evaluate(() => {
    const button = [...document.querySelectorAll("button[data-amount]")]
      .find((one) => one.dataset.between.includes("bed-dig"));
    document.getElementById(button.dataset.amount).value = "0,25";
    button.click();
    button.click();
    document.getElementById("stood-from").value = "13:20";
    document.getElementById("stood-to").value = "14:05";
    document.getElementById("put-stood").click();
    document.getElementById("note").value = "  Gate latch broken,\n at 9 \"she\" knows; 3 courses left.";
    document.getElementById("put-note").click();
  });
  expect(/How much/.test(await page.$eval("#status", (one) => one.textContent)) === false, "a note is said to be taken");
  // One ticked in error and taken back; one whose time is put right, to a minute that is taken already.
  await click("began shelter-lay at ");
  await click("began shelter-lay at ");
  await page.evaluate(() => {
    const field = document.querySelector("#list input[type=time]");
    field.value = "06:55";
    field.dispatchEvent(new Event("change"));
  });
  const before = await text();
  const lines = before.split("\n");
  expect(new Set(lines).size === lines.length, "no two lines are the same", before);
  expect(lines.length >= 9, "every tick is a line", before);
  expect(before.includes("06:55"), "a time can be put right", before);

  await page.reload();
  expect((await text()) === before, "ticks survive a reload", `${before}\n  but after it\n${await text()}`);
  const checked = await page.$$eval("input[data-key]:checked", (all) => all.length);
  expect(checked === lines.filter((one) => !/^(note|stood|did 0\.25)/.test(one)).length, "boxes are ticked after a reload");

  await page.$eval("#copy", (button) => button.click());
  await page.waitForFunction(() => /Copied|marked/.test(document.getElementById("status").textContent), null, { timeout: 5000 });
  expect((await text()) === before, "handing over changes no line");
  expect(await page.$$eval("#list input[type=time]", (all) => all.length) === 0, "what was handed over keeps its time");
  await at("11:30");
  await click(courses[3]);
  const after = (await text()).split("\n");
  expect(lines.every((one) => after.includes(one)), "a later text holds every line of the earlier one");
  expect(new Set(after).size === after.length && after.length === lines.length + 1, "and one more, like none of them", after.join("\n  "));
  expect(requests.length === 2, "ticking makes no request", requests.join(" "));
  await page.close();

  const whole = after.join("\n") + "\n";
  if (mode === "--write") writeFileSync(fixture, whole);
  const expected = existsSync(fixture) ? readFileSync(fixture, "utf8") : "";
  expect(expected === whole, `${fixture} is what the sheet makes; write it anew with --write`, whole);

  // Where nothing is kept the sheet says so and still makes its text.
  const bare = await (await browser.newContext()).newPage();
  await bare.addInitScript(() => {
    Object.defineProperty(globalThis, "localStorage", { get() { throw new Error("refused"); } });
  });
  await bare.goto(pathToFileURL(path).href);
  expect(await bare.$eval("#unkept", (one) => !one.hidden), "a phone that keeps nothing is told of");
  await bare.$eval("input[data-key]", (box) => box.click());
  expect((await bare.$eval("#text", (area) => area.value)).length > 0, "and its ticks make a text");
  await bare.close();

  const still = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
  await still.goto(pathToFileURL(path).href);
  expect(await still.locator("fieldset").count() > 3, "without script it can be read");
  expect(await still.locator("noscript").isVisible(), "and says that nothing is kept");
  expect(await still.locator("button:visible, select:visible, textarea:visible").count() === 0,
    "and shows nothing that does nothing");
  await still.close();
}
