"use strict";
// Sends what is said here, one line at a time and each under its own id: as long as no answer has
// come it is sent again, and the program hears it once. Shows what all say, and what is asked.
const byId = (id) => document.getElementById(id);
const LATE_S = 10;
const AGAIN_MS = 1500;
// A glove bounces, and a thumb may be on its way when another question comes up.
const BOUNCE_MS = 800;
const SHOWN = 12;
const UNPAIRED = "This device is not paired any more: scan the code in the terminal.";
const UNREACHED = "No connection to the program.";
const KEPT = "leadsman-unanswered";
let stream = null;
let heard = 0;
let standing = null;
let unanswered = kept();
let restUntil = 0;
let trouble = "";
let othersSpoke = false;
const shownLines = new Set();

// --- what comes ---------------------------------------------------------------------

function open() {
  if (stream) stream.close();
  const after = standing ? "?after=" + encodeURIComponent(standing.mark) : "";
  stream = new EventSource("/talk-events" + after);
  stream.addEventListener("told", (event) => {
    note();
    const told = JSON.parse(event.data);
    // The answer to what is said here comes to who said it, with the line's own id.
    if (told.line && (shownLines.has(told.line) || (unanswered && unanswered.id === told.line))) return;
    othersSpoke = true;
    tell(told);
  });
  stream.addEventListener("stands", (event) => {
    note();
    stands(JSON.parse(event.data));
    if (othersSpoke && standing.question) aloud(standing.question);
    othersSpoke = false;
  });
  stream.addEventListener("beat", note);
  stream.onerror = () => {
    // Some browsers give up for good; we never do.
    if (stream.readyState !== EventSource.CLOSED) return;
    setTimeout(open, 2000);
    fetch("/talk", { method: "HEAD" }).then((answer) => {
      if (answer.status === 403) trouble = UNPAIRED;
    }, () => { trouble = UNREACHED; });
  };
}

function stands(now) {
  const sameRun = standing && run(standing.mark) === run(now.mark);
  if (sameRun && now.number < standing.number) return;
  if (now.question !== (standing ? standing.question : null)) rest();
  standing = now;
  show();
}

function run(mark) {
  return mark.split("-")[0];
}

function note() {
  heard = Date.now();
  trouble = "";
  tick();
}

function tell(told) {
  const item = document.createElement("li");
  if (told.said) {
    const said = document.createElement("div");
    said.className = "said";
    said.textContent = told.who + ": " + told.said;
    item.append(said);
  }
  const answer = document.createElement("pre");
  answer.className = "answer";
  answer.textContent = told.lines.join("\n");
  item.append(answer);
  const log = byId("log");
  log.prepend(item);
  log.scrollTop = 0;
  while (log.children.length > SHOWN) log.lastChild.remove();
  // Others' answers are theirs; what nobody said is for all.
  if (!told.said || told.own) aloud(told.say);
}

// --- what is shown -------------------------------------------------------------------

function show() {
  document.title = standing.job;
  byId("job").textContent = standing.job;
  byId("you").textContent = standing.you;
  const question = byId("question");
  question.hidden = !standing.question;
  byId("asked").textContent = standing.question || "";
  const answers = byId("answers");
  answers.replaceChildren();
  for (const words of standing.answers) {
    // These two have keys of their own.
    if (words === "confirm" || words === "cancel that") continue;
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.dataset.say = words;
    answers.append(button);
  }
  tick();
}

function tick() {
  const age = heard ? Math.round((Date.now() - heard) / 1000) : null;
  const late = age === null || age >= LATE_S;
  const where = byId("where");
  if (late) {
    where.textContent = trouble || (age === null ? "not yet reached" : "as of " + age + " s ago");
  } else {
    const next = standing && standing.next ? "Next: " + standing.next : "";
    const count = standing && standing.points ? standing.read + " of " + standing.points : "";
    where.textContent = [next, count].filter(Boolean).join(" · ") || "here";
  }
  byId("state").className = late ? "late" : "";
  enable();
}

function enable() {
  const waits = unanswered !== null || !standing;
  const empty = !byId("line").value.trim();
  byId("send").disabled = byId("go").disabled = waits || empty;
  const resting = Date.now() < restUntil;
  for (const button of document.querySelectorAll("[data-say]")) {
    const answers = "answer" in button.dataset;
    const taken = standing && standing.answers.includes(button.dataset.say);
    button.disabled = waits || resting || (answers && !taken);
  }
  byId("unsent").hidden = !unanswered || Date.now() - unanswered.tried < AGAIN_MS;
  byId("untold").textContent = unanswered
    ? "No answer yet to “" + unanswered.text + "”; sent again till there is one. It counts once."
    : "";
}

function rest() {
  restUntil = Date.now() + BOUNCE_MS;
  setTimeout(enable, BOUNCE_MS + 20);
}

// --- what is said ----------------------------------------------------------------------

function say(text) {
  if (!text.trim() || unanswered || !standing) return;
  // crypto.randomUUID is not there over plain http.
  const signs = crypto.getRandomValues(new Uint8Array(16));
  const id = Array.from(signs, (sign) => sign.toString(16).padStart(2, "0")).join("");
  unanswered = { id, text, seen: standing.mark, tried: Date.now() };
  keep();
  enable();
  send();
}

async function send() {
  const line = unanswered;
  if (!line) return;
  try {
    const answer = await fetch("/say", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ id: line.id, text: line.text, seen: line.seen }),
    });
    if (answer.status === 200) return answered(line, await answer.json());
    if (answer.status === 403) {
      trouble = UNPAIRED;
    } else if (answer.status >= 400 && answer.status < 500) {
      const why = (await answer.json().catch(() => ({}))).told || "Not taken; nothing recorded.";
      return answered(line, { said: line.text, ok: false, lines: [why], say: why });
    }
  } catch {
    trouble = UNREACHED;
  }
  if (unanswered === line) setTimeout(send, AGAIN_MS);
  enable();
}

function answered(line, told) {
  if (unanswered !== line) return;
  unanswered = null;
  trouble = "";
  keep();
  // The question that it led to is there with it. What others said comes with the stream, so the
  // mark stays: it says up to where this page was told.
  if (told.stands && standing) stands({ ...told.stands, mark: standing.mark });
  if (told.ok && byId("line").value.trim() === line.text.trim()) byId("line").value = "";
  if (!shownLines.has(line.id)) {
    shownLines.add(line.id);
    tell({ ...told, who: standing ? standing.you : "you", own: true });
  }
  enable();
}

function kept() {
  try {
    return JSON.parse(localStorage.getItem(KEPT)) || null;
  } catch {
    return null;
  }
}

function keep() {
  try {
    if (unanswered) localStorage.setItem(KEPT, JSON.stringify(unanswered));
    else localStorage.removeItem(KEPT);
  } catch {
    // Then a line outlives the network, but not the page.
  }
}

function aloud(words) {
  if (!words || byId("aloud").getAttribute("aria-pressed") !== "true") return;
  speechSynthesis.cancel();
  const spoken = new SpeechSynthesisUtterance(words);
  spoken.lang = "en";
  speechSynthesis.speak(spoken);
}

// --- keys -----------------------------------------------------------------------------

byId("form").addEventListener("submit", (event) => {
  event.preventDefault();
  say(byId("line").value);
});
byId("go").addEventListener("click", () => say(byId("line").value));
byId("back").addEventListener("click", () => {
  byId("line").value = byId("line").value.slice(0, -1);
  enable();
});
document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (!button || button.disabled) return;
  if ("key" in button.dataset) {
    byId("line").value += button.dataset.key;
    enable();
  } else if ("say" in button.dataset) {
    rest();
    say(button.dataset.say);
  }
});
byId("line").addEventListener("input", enable);
// The phone's own keyboard takes the place of ours.
byId("line").addEventListener("focus", () => document.body.classList.toggle("typing", matchMedia("(pointer: coarse)").matches));
byId("line").addEventListener("blur", () => setTimeout(() => document.body.classList.remove("typing"), 200));
byId("aloud").hidden = !("speechSynthesis" in window);
byId("aloud").addEventListener("click", () => {
  const on = byId("aloud").getAttribute("aria-pressed") !== "true";
  byId("aloud").setAttribute("aria-pressed", String(on));
  // Phones let a page speak once it has spoken at a touch.
  if (on) aloud("Aloud.");
  else speechSynthesis.cancel();
});

// --- staying awake ----------------------------------------------------------------------

function wake() {
  if (document.visibilityState === "visible" && Date.now() - heard > 6000) open();
}
document.addEventListener("visibilitychange", wake);
window.addEventListener("pageshow", wake);
window.addEventListener("online", open);
setInterval(tick, 1000);
setInterval(wake, 7000);
open();
if (unanswered) {
  // Left by this page when it was closed; as it may have been heard, it keeps its id.
  unanswered.tried = Date.now();
  send();
}
