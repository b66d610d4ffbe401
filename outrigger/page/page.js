// The page of `outrigger show`. It holds the text of the case file with the answers typed so far;
// each change is sent with it, and what comes back replaces all that the page says of the case.
"use strict";

const body = document.body;
const verdict = document.getElementById("verdict");
const answer = document.getElementById("answer");
const said = document.getElementById("said");
const form = document.getElementById("form");
const button = (id) => document.getElementById(id);
const fields = new Map([...form.querySelectorAll("[data-key]")].map((one) => [one.dataset.key, one]));

let text = body.dataset.text; // of the file, with the answers that could be read
let stamp = body.dataset.stamp; // of the file on the disk, as it was read
let token = body.dataset.token; // of the answer that is shown; empty: none is
let seen = stamp; // of the disk, as it was last asked for
let changed = body.dataset.changed === "true";
const typed = new Map(); // what is not yet in the text: not sent, or it cannot be read
const before = []; // texts to go back to
let lastKey = "";
let version = 0; // of what is typed
let shown = 0; // the version that was answered last
let sending = false; // one request at a time; what is typed meanwhile goes with the next
let waiting = 0;

function say(words) {
  said.textContent = words;
}

function setVerdict(status, words) {
  verdict.className = status;
  if (verdict.firstElementChild.textContent !== words) verdict.firstElementChild.textContent = words;
}

// A verdict never outlives its inputs: as soon as one changes, it goes.
function outdated() {
  token = "";
  setVerdict("stale", "Working it out again: no verdict yet.");
  answer.classList.add("stale");
  answer.setAttribute("aria-busy", "true");
  setButtons();
}

function setButtons() {
  button("save").disabled = !changed && typed.size === 0;
  button("undo").disabled = before.length === 0 || sending;
  button("ask").disabled = button("summary").disabled = !token;
}

function setField(field, value) {
  if (field.tagName === "SELECT" && ![...field.options].some((one) => one.value === value)) {
    field.append(new Option(value, value)); // the file says what no list has
  }
  if (field.value !== value) field.value = value;
}

function setFields(values) {
  for (const [key, field] of fields) {
    const value = values[key] ?? "";
    field.dataset.said = value;
    if (!typed.has(key) && field !== document.activeElement) setField(field, value);
  }
}

function setFaults(faults) {
  for (const [key, field] of fields) {
    const line = document.getElementById(`${field.id}-fault`);
    if (!line) continue;
    const words = faults[key] ?? "";
    const needed = words && field.value === "";
    line.textContent = words && `${needed ? "Needed" : "Not right"}: ${words}`;
    line.hidden = !words;
    line.className = needed ? "fault needed" : "fault";
    field.toggleAttribute("aria-invalid", Boolean(words) && !needed);
    if (words && !needed) field.setAttribute("aria-invalid", "true");
  }
}

// Where a value stands, of a file that has a base.
function setStands(stands) {
  for (const [key, field] of fields) {
    const line = document.getElementById(`${field.id}-stands`);
    line.textContent = stands[key] ?? "";
    line.hidden = !stands[key];
  }
}

function setHidden(hidden) {
  for (const group of form.querySelectorAll("[data-group]")) {
    group.hidden = hidden.includes(Number(group.dataset.group)) && !group.contains(document.activeElement);
  }
}

// What is said of an answer beside its verdict: of the disk first.
function toldOf(found, words = "") {
  return [found.elsewhere, found.back, words].filter(Boolean).join(" ");
}

function show(found) {
  text = found.text;
  token = found.token;
  changed = found.changed;
  stamp = found.stamp;
  for (const key of [...typed.keys()]) {
    if (!(key in found.faults)) typed.delete(key);
  }
  setFields(found.values);
  setStands(found.stands);
  setFaults(found.faults);
  setHidden(found.hidden);
  answer.innerHTML = found.html; // made of a template that escapes every text
  answer.classList.remove("stale");
  answer.removeAttribute("aria-busy");
  setVerdict(found.status, found.verdict);
  say(toldOf(found));
  body.dataset.ms = found.ms;
  body.dataset.answered = String(Number(body.dataset.answered ?? 0) + 1);
  setButtons();
  more();
}

function failed(words) {
  token = "";
  answer.replaceChildren();
  answer.classList.remove("stale");
  answer.removeAttribute("aria-busy");
  setVerdict("none", `No verdict: ${words}`);
  setButtons();
}

async function post(where, sent) {
  const reply = await fetch(where, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ text, stamp, ...sent }),
  });
  const found = await reply.json();
  if (!reply.ok) throw new Error(found.error);
  return found;
}

function wordsOf(error) {
  return error instanceof TypeError ? "the program has ended. Start outrigger show again." : error.message;
}

// Sends the text with what was typed; of an answer that is late only the text is kept.
async function send(where = "answer", more = {}) {
  clearTimeout(waiting);
  if (sending) return null;
  sending = true;
  setButtons();
  const sent = version;
  const pieces = Object.fromEntries(typed);
  let found = null;
  try {
    found = await post(where, where === "answer" ? { typed: pieces, ...more } : more);
  } catch (error) {
    sending = false;
    if (sent !== version) send();
    if (where === "save") throw error;
    if (sent !== version) return null;
    shown = sent;
    failed(wordsOf(error));
    return null;
  }
  sending = false;
  if (sent === version) {
    shown = sent;
    show(found);
    return found;
  }
  text = found.text;
  stamp = found.stamp;
  for (const [key, value] of Object.entries(pieces)) {
    if (typed.get(key) === value && !(key in found.faults)) typed.delete(key);
  }
  send();
  return found;
}

// When all that was typed is answered.
async function settled() {
  if (version !== shown) await send();
  while (sending || version !== shown) await new Promise((done) => setTimeout(done, 20));
}

function edited(field, wait) {
  if (field.readOnly) return;
  const key = field.dataset.key;
  if (typed.get(key) === field.value) return;
  if (!typed.has(key) && field.value === (field.dataset.said ?? "")) return;
  if (key !== lastKey) before.push(text);
  lastKey = key;
  typed.set(key, field.value);
  version += 1;
  say("");
  outdated();
  clearTimeout(waiting);
  waiting = setTimeout(send, wait);
}

form.addEventListener("input", (event) => edited(event.target, event.target.tagName === "SELECT" ? 0 : 250));
form.addEventListener("change", (event) => {
  edited(event.target, 0);
  if (version !== shown) send();
});
form.addEventListener("focusout", (event) => {
  const field = event.target;
  if (field.dataset.key && !typed.has(field.dataset.key)) setField(field, field.dataset.said ?? "");
});
form.addEventListener("submit", (event) => event.preventDefault());

// Cures and marks take longer than the answer, and come after it.
async function more() {
  const of = token;
  if (!of) return;
  const cures = document.getElementById("cures");
  if (verdict.className !== "pass") cures.textContent = "Looking for what cures it ...";
  try {
    const reply = await fetch(`more?of=${of}`);
    const found = await reply.json();
    if (of !== token) return;
    cures.replaceChildren();
    if (!reply.ok) throw new Error(found.error);
    const parts = document.createElement("template");
    parts.innerHTML = found.html; // as above
    for (const part of parts.content.querySelectorAll("[data-for]")) {
      document.getElementById(part.dataset.for)?.replaceChildren(...part.childNodes);
    }
    body.dataset.more = of;
  } catch {
    if (of === token) cures.textContent = "What cures it, and the marks, could not be worked out.";
  }
}

async function whole(where, more, words) {
  outdated();
  version += 1;
  const found = await send(where, more);
  if (found) say(toldOf(found, words));
}

answer.addEventListener("click", (event) => {
  const cure = event.target.closest("button.cure");
  const link = event.target.closest('a[href^="#f-"]');
  if (cure && token) {
    before.push(text);
    lastKey = "";
    whole("cure", { settings: JSON.parse(cure.dataset.settings) }, `Done: ${cure.textContent}. Undo takes it back.`);
    answer.focus();
  } else if (link) {
    event.preventDefault();
    goTo(document.getElementById(link.hash.slice(1)));
  }
});

function goTo(field) {
  for (let up = field; up; up = up.parentElement) {
    if (up.tagName === "DETAILS") up.open = true;
    if (up.tagName === "FIELDSET") up.hidden = false;
  }
  field.focus();
  field.scrollIntoView({ block: "center" });
}

button("undo").addEventListener("click", () => {
  if (sending || before.length === 0) return;
  text = before.pop();
  lastKey = "";
  typed.clear();
  whole("answer", { typed: {} }, "Taken back.");
});

button("save").addEventListener("click", async () => {
  await settled();
  if (typed.size) {
    say("Not saved: a field cannot be read yet. Put it right, or empty it.");
    return;
  }
  try {
    const found = await send("save");
    if (!found) return;
    before.length = 0;
    lastKey = "";
    setButtons();
    say(toldOf(found, found.told));
  } catch (error) {
    setButtons();
    say(`Not saved. ${wordsOf(error)}`);
  }
});

// A file or a base that is changed elsewhere is answered anew at once: its verdict is no longer so.
async function watch() {
  if (document.hidden || sending || version !== shown) return;
  let now = seen;
  try {
    now = (await (await fetch("stamp")).json()).stamp ?? "";
  } catch {
    return; // the program has ended; the next answer says so
  }
  if (now === seen || sending || version !== shown) return;
  seen = now;
  if (now !== stamp) whole("answer", {}, "");
}
setInterval(watch, 2000);
window.addEventListener("focus", watch);

button("reload").addEventListener("click", () => location.reload());

async function paper(where) {
  say("Making it ...");
  try {
    const reply = await fetch(`${where}?of=${token}`);
    if (!reply.ok) throw new Error((await reply.json()).error);
    const link = document.createElement("a");
    link.href = URL.createObjectURL(await reply.blob());
    link.download = /filename="([^"]+)"/.exec(reply.headers.get("Content-Disposition"))[1];
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    say(`${link.download} is among your downloads.`);
  } catch (error) {
    say(wordsOf(error));
  }
}
button("ask").addEventListener("click", () => paper("ask.pdf"));
button("summary").addEventListener("click", () => paper("summary.pdf"));

window.addEventListener("beforeunload", (event) => {
  if (changed || typed.size) event.preventDefault();
});

setFields(JSON.parse(body.dataset.values));
setStands(JSON.parse(body.dataset.stands));
setFaults(JSON.parse(body.dataset.faults));
setHidden(JSON.parse(body.dataset.hidden));
body.dataset.answered = "1";
setButtons();
more();
