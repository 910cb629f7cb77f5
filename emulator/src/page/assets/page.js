// The page: what is heard goes to where it is shown, what is pressed is asked.

import { ask, listen } from "/link.js";
import { showFront } from "/front.js";
import { showWeek } from "/week.js";
import { showLesson } from "/lesson.js";

const $ = (id) => document.getElementById(id);
const TOPICS = ["you", "shown", "site", "clock", "front", "audit", "why", "week", "lesson", "recording"];

let run = null;
let mayAct = false;
let site = null;
let serial = null;
let heardMore = false;

// ---- what is heard

const show = {
  you(you) {
    const restarted = run !== null && run !== you.run;
    run = you.run;
    mayAct = you.may_act;
    $("join").hidden = mayAct;
    say("live", restarted ? "The program was started anew: this is another lock." : "");
    enable();
  },
  // What is withheld from who watches is not sent: the server decides. What was heard
  // before is forgotten with the page.
  shown({ front_only: only }) {
    if (only && !mayAct && heardMore) return location.reload();
    $("front-only").checked = only;
    document.body.dataset.only = only ? "front" : "";
    document.body.dataset.withheld = String(only && !mayAct);
  },
  site(told) {
    site = told;
    $("site-name").textContent = told.site;
    document.title = `${told.site}: ${told.lock}`;
    options($("lock-pick"), told.locks.map((id) => [id, id]), told.lock);
    const holders = told.holders.map((h) => [h.number, `${String(h.number).padStart(2, "0")} ${h.name}, ${h.role}`]);
    options($("holder"), holders, told.chosen);
    options($("stick"), told.stick.map((name) => [name, name]), $("stick").value || told.stick[0]);
    const first = $("lesson-pick").options.length === 0;
    options($("lesson-pick"), told.lessons.map((l) => [l.id, l.title]), $("lesson-pick").value || told.lessons[0]?.id);
    if (first) handout();
    if (serial !== null && serial !== told.serial) say("live", "A new lock, as it comes from the workshop.");
    serial = told.serial;
    enable();
  },
  clock(clock) {
    heardMore = true;
    $("now").textContent = clock.local;
    $("now").dateTime = clock.iso;
    $("offset").textContent = `UTC${clock.offset}`;
    const chip = clock.chip === null ? "The clock chip has lost its time." : clock.chip === 0 ? "" : `The clock chip is ${Math.abs(clock.chip)} s ${clock.chip > 0 ? "ahead" : "behind"}.`;
    const believed = clock.believed ? "" : "The lock believes no clock.";
    const next = clock.next === null ? "Nothing happens by itself." : `Something happens by itself: ${clock.next}.`;
    $("chip").textContent = [chip, believed, next].filter((part) => part !== "").join(" ");
    for (const button of $("speeds").children) {
      button.setAttribute("aria-pressed", String(Number(button.dataset.speed) === clock.speed));
    }
    if (document.activeElement !== $("go-to")) $("go-to").value = clock.iso;
  },
  front: showFront,
  week: showWeek,
  lesson(lesson) {
    showLesson(lesson);
    if (lesson !== null && $("lesson-pick").value !== lesson.id && document.activeElement !== $("lesson-pick")) {
      $("lesson-pick").value = lesson.id;
      handout();
    }
  },
  recording(told) {
    $("recorded").textContent = told.acts === 0 ? "" : `\u00a0(${told.acts}${told.ended === null ? "" : `, ended: ${told.ended}`})`;
  },
  audit(told) {
    $("audit-note").textContent = told.rows.length === 0 ? "No record yet." : "The newest first. Names come from the site file; the lock knows numbers.";
    const rows = told.rows.map((record) => {
      const row = document.createElement("tr");
      for (const text of [record.seq, record.at ?? "no valid clock", record.kind, record.detail ?? ""]) {
        row.append(Object.assign(document.createElement("td"), { textContent: text }));
      }
      return row;
    });
    $("records").replaceChildren(...rows);
  },
  why(why) {
    $("why-says").textContent = why.says;
    $("why-says").dataset.opens = String(why.may_open);
    const signs = { for: "✓ permits", against: "✗ forbids", asks: "… asks for more" };
    const rows = why.rules.map((rule) => {
      const row = document.createElement("tr");
      row.className = rule.stands;
      const name = Object.assign(document.createElement("th"), { textContent: rule.rule, scope: "row" });
      const now = document.createElement("td");
      now.append(Object.assign(document.createElement("span"), { className: "sign", textContent: signs[rule.stands] }));
      now.append(` ${rule.says}`);
      row.append(name, now, Object.assign(document.createElement("td"), { textContent: rule.until ?? "" }));
      return row;
    });
    $("why-rules").tBodies[0].replaceChildren(...rows);
  },
};

function options(select, pairs, chosen) {
  const wanted = JSON.stringify(pairs);
  if (select.dataset.pairs !== wanted) {
    select.dataset.pairs = wanted;
    select.replaceChildren(...pairs.map(([value, text]) => Object.assign(document.createElement("option"), { value, textContent: text })));
  }
  select.value = chosen;
}

function say(link, text) {
  document.body.dataset.link = link;
  $("status").textContent = text;
  $("status").hidden = text === "";
}

/** Nothing can be done without a link, or by somebody who watches. */
function enable() {
  const live = document.body.dataset.link === "live";
  for (const control of document.querySelectorAll("[data-act], [data-key]")) {
    control.disabled = !live || !mayAct;
  }
  $("take-recording").hidden = !live || !mayAct;
  if (site === null) return;
  const holder = site.holders.find((h) => h.number === Number($("holder").value));
  for (const id of ["type-plain", "type-wrong", "type-duress"]) {
    $(id).disabled ||= !holder?.demo_code;
  }
}

const link = listen(
  TOPICS,
  (topic, value) => show[topic](value),
  () => {
    say("lost", "Disconnected. What is shown below is how it was, not how it is. Trying again…");
    enable();
  },
);

// ---- what is pressed

async function act(command) {
  if (document.body.dataset.link !== "live" || !mayAct) return;
  const why = await ask("/do", command);
  $("refused").hidden = why === null;
  $("refused").textContent = why ?? "";
}

const on = (id, command) => $(id).addEventListener("click", () => act(command($(id))));
const number = () => Number($("holder").value);

for (const button of document.querySelectorAll("[data-key]")) {
  button.addEventListener("click", () => act({ do: "key", key: button.dataset.key }));
}
const NAMED = { Enter: "ok", Backspace: "back", Escape: "back" };
$("front").addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey || event.target.closest("select, input")) return;
  // Enter on a button that is not of the keypad presses that button.
  const elsewhere = event.target.closest("button") && !event.target.closest("#keypad");
  const key = /^[0-9]$/.test(event.key) ? event.key : elsewhere ? undefined : NAMED[event.key];
  if (key === undefined) return;
  event.preventDefault();
  act({ do: "key", key });
  const pressed = document.querySelector(`[data-key="${key}"]`);
  pressed.classList.add("pressed");
  setTimeout(() => pressed.classList.remove("pressed"), 120);
});

on("handle", (button) => ({ do: "bolt", to: button.dataset.to }));
on("door-move", (button) => ({ do: "door", to: button.dataset.to }));
on("force", () => ({ do: "bolt", to: "force" }));
on("battery", (button) => ({ do: "power", to: button.dataset.on === "true" ? "restore" : "cut" }));
on("inhibit", (button) => ({ do: "inhibit", set: button.dataset.on !== "true" }));
on("switch", (button) => ({ do: "switch", on: button.dataset.on !== "true" }));
on("lose-clock", () => ({ do: "lose-clock" }));
on("type-plain", () => ({ do: "type", number: number(), code: "plain" }));
on("type-wrong", () => ({ do: "type", number: number(), code: "wrong" }));
on("type-duress", () => ({ do: "type", number: number(), code: "duress" }));
on("type-courier", () => ({ do: "courier", number: number() }));
on("next", () => ({ do: "next" }));
on("load", () => ({ do: "load", file: $("stick").value }));
on("collect", () => ({ do: "collect", scope: $("scope").value }));
on("lesson-start", () => ({ do: "lesson", id: $("lesson-pick").value }));
on("lesson-rejoin", () => ({ do: "rejoin" }));
on("lesson-again", () => ({ do: "rejoin", at: 0 }));
on("lesson-leave", () => ({ do: "leave" }));
$("lesson-step").addEventListener("click", () => {
  if ($("lesson-step").dataset.over !== "true") act({ do: "step" });
});

for (const button of document.querySelectorAll("[data-speed]")) {
  button.addEventListener("click", () => act({ do: "run", speed: Number(button.dataset.speed) }));
}
for (const button of document.querySelectorAll("[data-wait]")) {
  button.addEventListener("click", () => act({ do: "wait", seconds: Number(button.dataset.wait) }));
}
$("supply").addEventListener("change", () => act({ do: "supply", millivolts: Number($("supply").value) }));
$("supply").addEventListener("input", () => {
  $("supply-says").textContent = `${(Number($("supply").value) / 1000).toFixed(1)} V`;
});
$("holder").addEventListener("change", () => {
  enable();
  act({ do: "choose", number: number() });
});
$("lock-pick").addEventListener("change", () => act({ do: "lock", id: $("lock-pick").value }));
$("go").addEventListener("submit", (event) => {
  event.preventDefault();
  act({ do: "go", to: $("go-to").value });
});
$("lesson-pick").addEventListener("change", handout);
function handout() {
  $("handout").href = `/handout/${encodeURIComponent($("lesson-pick").value)}`;
}
$("join").addEventListener("submit", async (event) => {
  event.preventDefault();
  const why = await ask("/join", { code: $("join-code").value });
  $("refused").hidden = why === null;
  $("refused").textContent = why ?? "";
  if (why === null) link.again();
});

// The class sees the front alone: what a robber would see.
$("front-only").addEventListener("change", () => act({ do: "front-only", on: $("front-only").checked }));

// The trainer's own link: its secret leaves the address bar at once.
const own = /^#trainer=([0-9a-f]{32})$/.exec(location.hash);
if (own !== null) {
  history.replaceState(null, "", location.pathname);
  ask("/join", { link: own[1] }).then((why) => {
    $("refused").hidden = why === null;
    $("refused").textContent = why ?? "";
    if (why === null) link.again();
  });
}
enable();
