#include "phone_ticks.h"

namespace weatherstruck::render::phone {
namespace {

// An entry is {k, before, at, after, words, sent}: its line is before + the sheet's day and `at` + after.
// Lines are kept different from each other, since the book takes equal lines for one entry sent twice; one
// that was handed over keeps its time for the same reason.
constexpr std::string_view script_text = R"js(
"use strict";
(function () {
  var sheet = document.getElementById("sheet");
  var day = sheet.dataset.day;
  var place = sheet.dataset.store;
  var list = document.getElementById("list");
  var text = document.getElementById("text");
  var status = document.getElementById("status");
  var boxes = Array.prototype.slice.call(document.querySelectorAll("input[data-key]"));
  var entries = [];
  var kept = true;

  function two(n) { return (n < 10 ? "0" : "") + n; }
  function clock(minutes) { return two(Math.floor(minutes / 60)) + ":" + two(minutes % 60); }
  function minutes(at) { return Number(at.slice(0, 2)) * 60 + Number(at.slice(3, 5)); }
  function isClock(at) { return /^([01][0-9]|2[0-3]):[0-5][0-9]$/.test(at); }
  function isToday() {
    var now = new Date();
    return day === now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
  }
  function clockNow() {
    var now = new Date();
    return clock(now.getHours() * 60 + now.getMinutes());
  }
  function say(words) { status.textContent = words; }
  function line(entry) { return entry.before + day + "T" + entry.at + entry.after; }
  function find(key) {
    return entries.filter(function (entry) { return entry.k === key; })[0];
  }

  // The nearest earlier minute at which no other entry has the same line; before midnight there is always
  // room later.
  function settle(entry) {
    function taken() {
      return entries.some(function (other) { return other !== entry && line(other) === line(entry); });
    }
    var wanted = minutes(entry.at);
    for (var back = 0; taken() && back <= wanted; back += 1) entry.at = clock(wanted - back);
    for (var on = wanted + 1; taken() && on < 1440; on += 1) entry.at = clock(on);
  }

  function load() {
    try {
      var found = JSON.parse(localStorage.getItem(place) || "[]");
      entries = (Array.isArray(found) ? found : []).filter(function (entry) {
        return entry && isClock(entry.at) && ["k", "before", "after", "words"].every(function (name) {
          return typeof entry[name] === "string";
        });
      });
    } catch (error) {
      kept = false;
    }
  }
  function save() {
    try {
      localStorage.setItem(place, JSON.stringify(entries));
    } catch (error) {
      kept = false;
    }
  }

  function inOrder() {
    return entries.map(function (entry, i) { return { entry: entry, i: i }; }).sort(function (a, b) {
      return minutes(a.entry.at) - minutes(b.entry.at) || a.i - b.i;
    }).map(function (pair) { return pair.entry; });
  }

  function row(entry, number) {
    var item = document.createElement("li");
    var words = document.createElement("p");
    words.textContent = entry.words;
    item.appendChild(words);
    var controls = document.createElement("div");
    controls.className = "controls";
    if (entry.sent) {
      var sent = document.createElement("p");
      sent.textContent = entry.at + ", handed over " + entry.sent;
      controls.appendChild(sent);
    } else {
      var label = document.createElement("label");
      label.textContent = "at ";
      var at = document.createElement("input");
      at.type = "time";
      at.value = entry.at;
      at.id = "at-" + number;
      at.setAttribute("aria-label", "Time of: " + entry.words);
      at.addEventListener("change", function () {
        if (!isClock(at.value)) { at.value = entry.at; return; }
        entry.at = at.value;
        settle(entry);
        if (entry.at !== at.value) say("Another line says the same at that minute, so this one is at " + entry.at + ".");
        show();
      });
      label.appendChild(at);
      controls.appendChild(label);
    }
    var out = document.createElement("button");
    out.type = "button";
    out.textContent = "Take out";
    out.setAttribute("aria-label", "Take out: " + entry.words);
    out.addEventListener("click", function () { remove(entry); });
    controls.appendChild(out);
    item.appendChild(controls);
    return item;
  }

  function show() {
    save();
    boxes.forEach(function (box) {
      var entry = find(box.dataset.key);
      box.checked = Boolean(entry);
      var time = box.parentNode.querySelector("[data-time]");
      if (time) time.textContent = entry ? " " + entry.at : "";
    });
    var ordered = inOrder();
    var focused = document.activeElement ? document.activeElement.id : "";
    list.textContent = "";
    ordered.forEach(function (entry, i) { list.appendChild(row(entry, i)); });
    var again = focused ? document.getElementById(focused) : null;
    if (again && again !== document.activeElement) again.focus();
    document.getElementById("nothing").hidden = ordered.length > 0;
    document.getElementById("full").hidden = ordered.length === 0;
    document.getElementById("unkept").hidden = kept;
    text.value = ordered.map(line).join("\n");
    text.rows = Math.max(2, Math.min(12, ordered.length * 2));
  }

  function add(entry) {
    entry.sent = "";
    entries.push(entry);
    settle(entry);
    show();
  }
  function remove(entry) {
    entries = entries.filter(function (other) { return other !== entry; });
    say(entry.sent
      ? "That was handed over " + entry.sent + ". The laptop may have it: strike it out there too."
      : "Taken out.");
    show();
  }

  boxes.forEach(function (box) {
    box.addEventListener("change", function () {
      var entry = find(box.dataset.key);
      if (!box.checked) {
        if (entry) remove(entry);
        return;
      }
      say("");
      if (!isToday()) say("This is the sheet of another day: the time is the planned one. Put it right below.");
      add({
        k: box.dataset.key,
        before: box.dataset.before,
        after: box.dataset.after || "",
        words: box.dataset.words,
        at: isToday() ? clockNow() : box.dataset.plan
      });
    });
  });

  function put(id, act) {
    Array.prototype.forEach.call(document.querySelectorAll(id), function (button) {
      button.addEventListener("click", function () { act(button); });
    });
  }
  function fresh(base) {
    var n = 1;
    while (find(base + "#" + n)) n += 1;
    return base + "#" + n;
  }

  put("button[data-amount]", function (button) {
    var field = document.getElementById(button.dataset.amount);
    var amount = field.value.trim().replace(",", ".");
    if (!/^[0-9]{1,5}(\.[0-9]{1,4})?$/.test(amount) || Number(amount) <= 0) {
      say("How much? A number above 0, such as 0.5.");
      field.focus();
      return;
    }
    add({
      k: fresh(button.dataset.before),
      before: button.dataset.before + amount + button.dataset.between,
      after: button.dataset.after || "",
      words: button.dataset.words + amount + " " + button.dataset.unit,
      at: isToday() ? clockNow() : button.dataset.plan
    });
    field.value = "";
    say("Added below.");
  });

  put("#put-note", function (button) {
    var field = document.getElementById("note");
    var words = field.value.replace(/\s+/g, " ").replace(/[ ,.;]+$/, "").replace(/^[ ,.;*]+/, "");
    if (!words) {
      say("The note is empty.");
      field.focus();
      return;
    }
    add({
      k: fresh("note"),
      before: button.dataset.before,
      after: button.dataset.between + words,
      words: "Note: " + words,
      at: isToday() ? clockNow() : "12:00"
    });
    field.value = "";
    say("Added below.");
  });

  put("#put-stood", function (button) {
    var from = document.getElementById("stood-from");
    var to = document.getElementById("stood-to");
    var cause = document.getElementById("stood-cause").value;
    if (!isClock(from.value) || !isClock(to.value) || from.value >= to.value) {
      say("From when until when? The second time must be later than the first.");
      from.focus();
      return;
    }
    add({
      k: fresh("stood"),
      before: button.dataset.before,
      after: button.dataset.to + day + "T" + to.value + button.dataset.cause + cause,
      words: "Stood down until " + to.value + ": " + cause,
      at: from.value
    });
    from.value = "";
    to.value = "";
    say("Added below.");
  });

  function handedOver(how) {
    var now = new Date();
    var when = (isToday() ? "" : two(now.getDate()) + "." + two(now.getMonth() + 1) + ". ") + clockNow();
    entries.forEach(function (entry) { if (!entry.sent) entry.sent = when; });
    show();
    say(how);
  }
  function copyOldWay() {
    text.focus();
    text.select();
    var done = false;
    try { done = document.execCommand("copy"); } catch (error) { done = false; }
    handedOver(done ? "Copied." : "The text is marked: copy it from there.");
    text.focus();
    text.select();
  }
  put("#copy", function () {
    if (navigator.clipboard && navigator.clipboard.writeText) {
      navigator.clipboard.writeText(text.value).then(function () { handedOver("Copied."); }, copyOldWay);
    } else {
      copyOldWay();
    }
  });
  var share = document.getElementById("share");
  if (navigator.share) {
    share.hidden = false;
    put("#share", function () {
      navigator.share({ text: text.value }).then(function () { handedOver("Handed over."); }, function () {
        say("Not handed over.");
      });
    });
  }

  load();
  Array.prototype.forEach.call(document.querySelectorAll(".scripted"), function (part) { part.hidden = false; });
  show();
}());
)js";

constexpr std::string_view style_text = R"css(
nav ul { display: flex; flex-wrap: wrap; gap: 0 1.25rem; padding: 0; margin: .75rem 0 0; list-style: none; }
nav a { display: block; padding: .6rem 0; color: #111; font-weight: 700; }
.tasks, .care, #list { list-style: none; padding: 0; }
.tasks > li { padding: 0 0 1rem; }
.tasks > li + li { border-top: .06rem solid #666; padding-top: .8rem; }
fieldset { border: 0; margin: 0; padding: 0; min-width: 0; }
legend { padding: 0 0 .4rem; width: 100%; }
.letter { font-weight: 800; padding-right: .5rem; }
.legend-time { width: auto; font-weight: 800; padding-right: .5rem; }
.ticks { display: flex; flex-wrap: wrap; gap: .75rem; margin: 0 0 .75rem; }
.tick { display: flex; align-items: center; gap: .6rem; flex: 1 1 8rem; min-height: 3.5rem; padding: .4rem .75rem;
  border: .125rem solid #111; font-weight: 700; }
.courses .tick { flex: 0 0 auto; min-width: 4.2rem; justify-content: center; padding: .4rem .5rem; }
.care .tick { margin-bottom: .75rem; font-weight: 500; }
.tick input { width: 1.6rem; height: 1.6rem; margin: 0; flex: none; accent-color: #111; }
.tick:has(:checked) { background: #111; color: #fff; }
.tick:has(:checked) input { accent-color: #fff; }
.row-label { font-weight: 700; flex-basis: 100%; margin: 0; }
.part { display: flex; flex-wrap: wrap; gap: .5rem .75rem; align-items: end; margin: 0 0 .75rem; }
.part > div { flex: 1 1 8rem; }
.part > .wide { flex-basis: 100%; }
summary { padding: .8rem 0; font-weight: 700; }
.part label { display: block; font-weight: 700; }
input[type="text"], input[type="time"], select, textarea { font: inherit; color: inherit; background: #fff;
  border: .125rem solid #111; border-radius: 0; min-height: 3.5rem; padding: .4rem .6rem; width: 100%; }
#list input[type="time"] { width: auto; min-width: 8rem; }
button { font: inherit; font-weight: 700; color: #111; background: #fff; border: .125rem solid #111;
  border-radius: 0; min-height: 3.5rem; padding: .4rem 1rem; flex: 1 1 8rem; }
button:active { background: #111; color: #fff; }
:focus-visible { outline: .25rem solid #111; outline-offset: .15rem; }
#list > li { border-top: .06rem solid #666; padding: .6rem 0; }
#list p { margin: 0; }
.controls { display: flex; flex-wrap: wrap; gap: .5rem .75rem; align-items: center; margin-top: .4rem; }
.controls > p { flex: 1 1 8rem; }
.controls button { flex: 0 1 auto; }
#status { min-height: 1.5em; font-weight: 700; }
textarea { font-size: 1rem; }
.gauge { display: grid; grid-template-columns: repeat(auto-fill, minmax(7.5rem, 1fr)); gap: 0 1rem; padding: 0;
  list-style: none; font-variant-numeric: tabular-nums; }
.gauge b { display: inline-block; min-width: 1.6rem; }
[hidden] { display: none; }
@media print {
  nav, .scripted, #hand-back { display: none; }
  .tasks > li { padding-bottom: 1.2mm; break-inside: avoid; }
  .tasks > li + li { padding-top: 1mm; }
  .tasks > li { display: flow-root; }
  legend { padding: 0; float: left; width: calc(100% - 40mm); }
  .ticks { gap: 0 4mm; margin: 0; float: right; }
  .ticks.courses { float: none; clear: both; gap: 0 3mm; padding-left: 5mm; }
  .tick, .courses .tick, .care .tick { border: 0; padding: 0; min-height: 0; min-width: 0; flex: 0 0 auto;
    gap: 1mm; font-weight: 500; margin: 0; }
  .tick:has(:checked) { background: none; color: #111; font-weight: 700; }
  .tick input { width: 3mm; height: 3mm; }
  .row-label { flex-basis: auto; }
}
)css";

}  // namespace

std::string_view script() {
  return script_text;
}
std::string_view style() {
  return style_text;
}

}  // namespace weatherstruck::render::phone
