// The run page. With the workshop in reach a tap is kept by the server, then the next position is painted in
// place; out of reach it is kept on this phone, and the page goes on from the rows it has. A tap keeps its
// name through every retry, so that it can never count twice.

import { askedIn, handsFree, SecondTap } from "./run_hands.js";
import { RunInHand } from "./run_journal.js";
import { newName, openKeep } from "./run_keep.js";
import { alsoOf, enterTaps, entryOfButton, panelOf, returnAs, sentenceOf } from "./run_panel.js";
import { typedReading } from "./run_ring.js";

const panel = document.getElementById("panel");
const said = document.getElementById("said");
const line = document.getElementById("line");
const address = panel.dataset.address;

const LOOK_MS = 3000;
const PATIENCE_MS = 3000; // nobody waits longer at the machine: the tap is then kept here
const AWAY_KINDS = ["done", "back", "skipped", "bad", "good", "paused", "resumed", "overshot", "note", "ring", "returned", "undone"];

const hands = handsFree(panel.parentElement);
const second = new SecondTap(panel);

let mark = panel.dataset.mark;
let run = null; // the run as this phone has it; null until the workshop has told it once
let waiting = false;
let away = false;
let looking = false;
let words = readWords({ rhythm: [], overshoot: "", finished: "All positions are done." });

document.documentElement.classList.add("scripted");

// What is shown

function tellLine(sentence) {
  line.hidden = !sentence;
  if (line.textContent !== sentence) line.textContent = sentence;
}

function readWords(known) {
  const beats = [...panel.querySelectorAll(".rhythm li")].map((beat) => beat.textContent);
  const overshoot = panel.querySelector(".overshoot")?.textContent;
  return { ...known, rhythm: beats.length ? beats : known.rhythm, overshoot: overshoot ?? known.overshoot };
}

function paint(html, newMark) {
  const hadFocus = panel.contains(document.activeElement);
  const before = panel.querySelector("#position")?.textContent;
  const asked = askedIn(panel);
  panel.innerHTML = html;
  mark = newMark ?? "";
  if (mark) words = readWords(words);
  const now = panel.querySelector("#position")?.textContent;
  const sentence =
    panel.querySelector("#say")?.textContent ??
    ((away && run && sentenceOf(run)) || panel.querySelector("h2")?.textContent || "");
  if (said.textContent !== sentence) said.textContent = sentence;
  if (before !== now) {
    second.came();
    if (now !== undefined) hands.came(sentence, run?.row(rowShown())?.is_long === true);
  } else if (now !== undefined && askedIn(panel) !== asked) {
    hands.told(sentence);
  }
  if (hadFocus) (panel.querySelector("#done") ?? panel.querySelector("button, a"))?.focus({ preventScroll: true });
}

function rowShown() {
  const button = panel.querySelector("#done");
  return Number(button?.dataset.row ?? button?.closest("form")?.elements.row?.value ?? NaN);
}

function paintAway() {
  away = true;
  paint(panelOf(run, words), "");
  tellAway();
}

function tellAway(more = "") {
  const count = run?.pending.length ?? 0;
  if (!count) return tellLine(more || "The workshop is out of reach: what is shown may be old.");
  const where = run.keep.lasts ? "Kept on this phone" : "Held by this page only, so leave it open";
  tellLine(`${where}, not yet with the workshop: ${count} ${count === 1 ? "tap" : "taps"}. ${more}`.trim());
}

function wordsIn(html) {
  return new DOMParser().parseFromString(html, "text/html").body.textContent.trim().replace(/\s+/g, " ");
}

// The workshop

function ask(url, options = {}) {
  return fetch(url, {
    cache: "no-store",
    credentials: "same-origin",
    redirect: "error",
    signal: AbortSignal.timeout(PATIENCE_MS),
    ...options,
    headers: { "X-Fragment": "1", Accept: "text/html", ...options.headers },
  });
}

async function askJson(url, options = {}) {
  const answer = await ask(url, { ...options, headers: { Accept: "application/json", ...options.headers } });
  return { ok: answer.ok, status: answer.status, told: await answer.json() };
}

/** Hear the whole run once, then only what is new in its journal; all of it again when the settings have changed. */
async function hear() {
  const since = run ? run.journal.length : 0;
  const { ok, told } = await askJson(`${address}.json${run ? `?rows=no&since=${since}` : ""}`);
  if (!ok) return;
  if (run && JSON.stringify(told.state.anchor) === JSON.stringify(run.told.state.anchor)) {
    run.hear([...run.journal.slice(0, since), ...told.journal]);
    panel.dataset.heard = run.journal.length;
    return;
  }
  const whole = run ? (await askJson(`${address}.json`)).told : told;
  const keep = run?.keep ?? (await openKeep(`${whole.run} ${whole.schedule}`));
  run = new RunInHand(whole, keep, await keep.records());
  panel.dataset.heard = run.journal.length;
}

async function hearQuietly() {
  try {
    await hear();
  } catch {
    // Out of reach: the next look says so.
  }
}

/** Hand in what was kept here. Only what the workshop has, or a person has given up, is forgotten. */
async function catchUp() {
  const sent = [...run.pending]; // more may be tapped while these are on their way
  const { ok, status, told } = await askJson(`${address}/taps`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ taps: sent, seen: run.base, schedule: run.told.schedule }),
  });
  if (!ok) {
    if (status >= 500) throw new Error(told.error?.message);
    tellAway(`The workshop does not take them: ${told.error?.message ?? status}`);
    return;
  }
  const disputed = told.conflicts.flatMap((conflict) => conflict.theirs);
  const names = new Set(disputed.map((entry) => entry.tap));
  run.setAside(names);
  run.hear([...run.journal.slice(0, run.base), ...told.journal]);
  const ours = new Set(sent.map((entry) => entry.tap));
  await run.forget(new Set([...ours].filter((tap) => !names.has(tap))));
  // Taps made meanwhile were made without what others wrote: they stay based on what was known then.
  if (!run.pending.length || told.journal.every((entry) => ours.has(entry.tap))) run.base = run.journal.length;
  if (told.conflicts.length) showConflicts(told.conflicts, names);
  if (run.pending.length) return;
  away = false;
  tellLine("");
  await paintFresh();
}

/** Conflicts are shown, not guessed: the workshop's journal stands, and this phone keeps its taps until they are given up. */
function showConflicts(conflicts, names) {
  document.getElementById("conflicts")?.remove();
  const box = document.createElement("section");
  box.id = "conflicts";
  box.className = "conflicts";
  box.setAttribute("role", "alert");
  const heading = document.createElement("h2");
  heading.textContent = "Two devices do not agree";
  const list = document.createElement("ul");
  for (const conflict of conflicts) {
    const item = document.createElement("li");
    const count = conflict.theirs.length;
    item.textContent = `${conflict.text} Not taken: ${count} ${count === 1 ? "tap" : "taps"} of this phone.`;
    list.append(item);
  }
  const told = document.createElement("p");
  told.textContent = "Look at the work before the next cut. Below is where the run stands as the workshop has it.";
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "I have looked: give up this phone's taps";
  button.addEventListener("click", async () => {
    await run.keep.drop(names);
    box.remove();
  });
  box.append(heading, list, told, button);
  panel.before(box);
}

async function paintFresh() {
  const answer = await ask(address);
  const html = await answer.text();
  if (answer.ok && !run.pending.length) paint(html, answer.headers.get("ETag"));
}

// Taps

function entryOf(form) {
  const entry = { at: Date.now() / 1000 };
  for (const [name, value] of new FormData(form)) {
    if (value === "" || ["seen", "at", "also", "also_of"].includes(name)) continue;
    entry[name] = ["row", "since"].includes(name) ? Number(value) : value;
  }
  return entry;
}

/** What a form says besides, as crankwise/web/typed_tap.py reads it. */
function alsoOfForm(form, entry) {
  const [also, of] = ["also", "also_of"].map((name) => form.elements[name]?.value);
  return alsoOf({ also, alsoOf: of }, entry, `${entry.tap}-${also}`);
}

async function send(form) {
  const body = new URLSearchParams(new FormData(form));
  body.set("at", String(Date.now() / 1000));
  const entry = entryOf(form);
  const also = alsoOfForm(form, entry);
  waiting = true;
  panel.classList.add("is-waiting");
  try {
    if (run && (away || run.pending.length)) {
      await tapAway(entry, "", also);
      return;
    }
    const answer = await ask(form.action, { method: "POST", body });
    const html = await answer.text();
    if (answer.ok) {
      away = false;
      paint(html, answer.headers.get("ETag"));
      tellLine("");
      hands.kept();
      hearQuietly();
    } else if (answer.status < 500 || answer.status === 501) {
      tellLine(wordsIn(html));
    } else {
      await tapAway(entry, wordsIn(html), also);
    }
  } catch {
    await tapAway(entry, "", also);
  } finally {
    waiting = false;
    panel.classList.remove("is-waiting");
  }
}

async function tapAway(entry, why, also = null) {
  if (run && entry.kind === "ring") {
    const { reading, fault } = typedReading(entry.reading ?? "", run.told.scales.ring);
    if (fault) {
      tellLine(`${fault} It is not kept.`);
      return;
    }
    entry.reading = reading;
  }
  if (run && entry.kind === "returned") {
    const { mm, degrees, side, means, put_off: _, ...said } = entry;
    const typed = mm ?? degrees;
    const { entry: read, fault } = typed === undefined ? { entry: { ...said, means } } : returnAs(said, { typed, side, means }, run.told.first);
    if (fault) {
      tellLine(`${fault} It is not kept.`);
      return;
    }
    entry = read;
  }
  if (!run || !AWAY_KINDS.includes(entry.kind)) {
    tellLine(`No answer. This tap is not kept: tap again when the workshop is in reach. ${why}`.trim());
    return;
  }
  let counted;
  try {
    counted = await run.tap(entry);
    if (counted && also) await run.tap(also);
  } catch {
    tellLine("This tap is not kept: the phone has no room left for it. It does not count. Free some room, and tap again.");
    return;
  }
  paintAway();
  if (counted) hands.kept();
  if (why) tellAway(why);
}

function mayGo(target) {
  if (waiting) return false;
  if (!target) return !second.isSettling();
  const verdict = second.verdict();
  if (verdict === "ask") target.innerHTML = 'So soon? <span class="small">Tap again if the cut is made</span>';
  return verdict === "go";
}

panel.addEventListener("submit", (event) => {
  const form = event.target.closest("form.tap");
  if (!form) return;
  event.preventDefault();
  if (mayGo(form.querySelector("#done"))) send(form);
});

enterTaps(panel);
panel.addEventListener("click", async (event) => {
  const button = event.target.closest("button[data-kind]");
  if (!button || !mayGo(button.id === "done" ? button : null)) return;
  const { entry, fault } = entryOfButton(button, `away-${newName()}`, run);
  if (fault) {
    tellLine(fault);
    return;
  }
  waiting = true;
  await tapAway(entry, "", alsoOf(button.dataset, entry, `away-${newName()}`));
  waiting = false;
  look();
});

async function look() {
  if (waiting || looking || document.hidden) return;
  looking = true;
  try {
    if (run?.pending.length) {
      await catchUp();
      return;
    }
    const answer = await ask(address, { headers: mark ? { "If-None-Match": mark } : {} });
    const html = answer.status === 200 ? await answer.text() : "";
    if (waiting || run?.pending.length) return;
    if (answer.status === 200) paint(html, answer.headers.get("ETag"));
    if (answer.status === 200 || answer.status === 304) {
      away = false;
      tellLine("");
    }
    if (answer.status === 200 || run === null) await hear();
  } catch {
    away = true;
    if (!waiting) tellAway();
  } finally {
    looking = false;
  }
}

document.addEventListener("visibilitychange", look);
window.addEventListener("pageshow", look);
setInterval(look, LOOK_MS);
second.settle();
