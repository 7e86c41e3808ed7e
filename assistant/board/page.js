"use strict";
// Shows what the program sends, and how old it is: a phone that slept shows its age, not the past.
const byId = (id) => document.getElementById(id);
const LATE_S = 10;
let stream = null;
let last = "";
let heard = 0;
let board = null;
let boardAt = 0;

function open() {
  if (stream) stream.close();
  stream = new EventSource(last ? "/events?after=" + encodeURIComponent(last) : "/events");
  stream.addEventListener("board", (event) => {
    note(event);
    board = JSON.parse(event.data);
    boardAt = Date.now();
    show();
  });
  stream.addEventListener("said", (event) => {
    note(event);
    byId("last").textContent = "Last: " + JSON.parse(event.data).words;
  });
  stream.addEventListener("beat", note);
  stream.onerror = () => {
    // Some browsers give up for good; we never do.
    if (stream.readyState === EventSource.CLOSED) setTimeout(open, 2000);
  };
}

function note(event) {
  heard = Date.now();
  if (event.lastEventId) last = event.lastEventId;
  tick();
}

function show() {
  document.title = board.job;
  byId("job").textContent = board.job;
  byId("headline").textContent = board.fault || board.headline;
  byId("headline").className = board.fault || board.short ? "late" : "";
  const rows = byId("rows");
  rows.replaceChildren();
  for (const [what, shown] of board.rows) {
    const name = document.createElement("dt");
    const value = document.createElement("dd");
    name.textContent = what;
    value.textContent = shown;
    rows.append(name, value);
  }
  const plan = byId("plan");
  plan.onload = () => { plan.hidden = false; };
  plan.onerror = () => { plan.hidden = true; };
  plan.src = "/plan.svg?" + encodeURIComponent(last);
  tick();
}

function tick() {
  const age = heard ? Math.round((Date.now() - heard) / 1000) : null;
  const shown = byId("age");
  shown.textContent = age === null ? "not yet reached" : "as of " + age + " s ago";
  shown.className = age === null || age >= LATE_S ? "late" : "";
  const edge = byId("edge");
  edge.hidden = !board || board.edge_s === null;
  if (!edge.hidden) {
    const left = board.edge_s - Math.round((Date.now() - boardAt) / 1000);
    const minutes = Math.floor(Math.abs(left) / 60) + " min " + (Math.abs(left) % 60) + " s";
    edge.textContent = left < 0 ? "Wet edge: over by " + minutes : "Wet edge: " + minutes;
    edge.className = left < 120 ? "late" : "";
  }
}

function wake() {
  if (document.visibilityState === "visible" && Date.now() - heard > 6000) open();
}
document.addEventListener("visibilitychange", wake);
window.addEventListener("pageshow", wake);
window.addEventListener("online", open);
setInterval(tick, 1000);
setInterval(wake, 7000);
open();
