// The run page painted by the phone itself, from the rows it has: away from the workshop, and on a pocket
// card. The words are the workshop's own; only where the run stands is worked out here.

import { badRows, doneCount, following, isAtFirst, isFinished, lastDone, pace, suspectRows } from "./run_engine.js";
import { firstSection, firstSentence, missedFirst, returnThatClosed, turnedNow } from "./run_first.js";
import { dialWindow, holeMove, numberOf, ringWindow, turningArrow } from "./run_picture.js";
import { agrees, aheadOf, exactOf, offBy, ringText, typedOff, typedReading } from "./run_ring.js";

const LETTERS = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
const safe = (text) => String(text).replace(/[&<>"']/g, (letter) => LETTERS[letter]);

/**
 * What is shown for a run in the hand.
 *
 * words  those that do not change from row to row
 * asked  what was answered before the run begins: `doubted`, an answer to the direction test that goes against
 *        the head's description, and `ringZero`, what a ring that cannot be set shows at zero
 */
export function panelOf(run, words, asked = {}) {
  const { state } = run;
  if (!state.began) return asked.doubted === undefined ? beginning(run, words, asked) : doubting(run, words, asked);
  if (state.paused) return resting(run);
  if (isFinished(state)) return finished(run, words);
  return position(run, words);
}

/** The one sentence to be spoken when a position comes. */
export function sentenceOf(run) {
  const { state } = run;
  if (!state.began || state.paused) return "";
  if (isFinished(state)) return "All done.";
  const row = run.row(state.at_row);
  const off = disagreement(run, row);
  if (off) return `${ringOff(run, row, off)} Do not cut.`;
  const first = firstSentence(run);
  if (first.alone) return first.alone;
  const now = turnedNow(run, isInOrder(run));
  const shown = now.row;
  const set = now.isStep ? `${moveOf(shown)} ${shown.lead} ${shown.reading} ${shown.unit}` : `Counted from zero: ${shown.since_zero}`;
  if (now.is === "first") return [first.before, set.trim(), shown.repeat, first.after].filter(Boolean).map(sentence).join(" ");
  const asked = ringAskedNow(state, row) ? row.check : first.after ? [first.after] : row.check_ring === "" ? row.check : [];
  const [before, after] = shown.goes_back ? [shown.repeat, ""] : ["", shown.repeat];
  return [`Position ${row.position}`, before, set, after, row.between, row.numeral && `numeral ${row.numeral}`, row.mark, row.work, ...asked]
    .filter(Boolean)
    .map((piece) => piece.replace(/\.$/, ""))
    .join(". ");
}

/** What the same tap says besides, to be kept right after its entry, under a name of its own; null where it says no more. */
export function alsoOf({ also, alsoOf: of }, { row, at }, tap) {
  if (!also) return null;
  return also === "done" ? { kind: also, tap, at, row } : { kind: also, tap, at, of };
}

/** What a button of the panel taps: `{ entry }`; or `{ fault }`, a sentence on what is typed beside it. */
export function entryOfButton(button, tap, run) {
  const { kind, row, reading, answer, angle, of, means } = button.dataset;
  const entry = { kind, tap, at: Math.round(Date.now() / 100) / 10 };
  if (row !== undefined) entry.row = Number(row);
  if (of !== undefined) entry.of = of;
  if (angle) entry.angle = angle;
  if (kind === "began") entry.numbers_grow = { yes: true, no: false }[answer] ?? null;
  if (kind === "ring") {
    const read = reading === undefined ? typedReading(typedBeside(button), run.told.scales.ring) : { reading };
    if (read.fault) return read;
    return { entry: { ...entry, ...read } };
  }
  if (means) entry.means = means;
  if (kind === "returned") return button.dataset.typed ? typedReturn(button, entry, run.told.first) : { entry };
  const note = typedBeside(button);
  if (kind === "note" && !note) return { fault: "Nothing is written: write what is worth knowing later." };
  if (note) entry.note = note.toWellFormed?.() ?? note;
  return { entry };
}

/** How far the first line is off, as typed beside a button, put into its entry. */
function typedReturn(button, entry, first) {
  const [side, means] = ["side", "means"].map((name) => button.closest(".typed").querySelector(`[name=${name}]`).value);
  return returnAs(entry, { typed: typedBeside(button), side, means }, first);
}

/** A return to the first line, with how far it is off as typed: `{ entry }`, or `{ fault }`, a sentence. */
export function returnAs(entry, { typed, side, means }, first) {
  const { off, fault } = typedOff(typed, side, first.unit);
  if (fault) return { fault };
  return { entry: { ...entry, [first.unit === "mm" ? "off_mm" : "angle"]: off, means } };
}

/** Enter, where something is typed in the panel, taps the button beside it. */
export function enterTaps(panel) {
  panel.addEventListener("keydown", (event) => {
    const button = event.key === "Enter" && event.target.closest("input") && event.target.closest(".line, .typed")?.querySelector("button[data-kind]");
    if (!button) return;
    event.preventDefault();
    button.click();
  });
}

/** What is typed beside a button of the panel; empty where there is nothing to type. */
export function typedBeside(button) {
  return (button.closest(".line, .typed")?.querySelector("input")?.value ?? "").trim();
}

const sentence = (text) => `${text[0].toUpperCase()}${text.slice(1).replace(/[.]$/, "")}${/[?]$/.test(text) ? "" : "."}`;
const ringAskedNow = (state, row) => row.check_ring !== "" && ringRead(state, row) === null;
const moveOf = (row) => (row.turns ? `${row.turns} ${row.turns_unit},` : "");
const button = (kind, row, inner, style = "", more = "") =>
  `<button type="button" class="${style}" data-kind="${kind}"${row === null ? "" : ` data-row="${row}"`}${more}>${inner}</button>`;

/** What Back takes back with the row: on a closing row what was found of the first one there, which was the same tap. */
function takenBack(run) {
  const closed = returnThatClosed(run);
  return closed ? ` data-also="undone" data-also-of="${safe(closed.tap)}"` : "";
}

/**
 * Whether the machine stands at the row before, so that the move told in the schedule is the move to make; not
 * after a return to the first line, but for a closing row, which is that return.
 */
function isInOrder(run) {
  const { state } = run;
  const last = lastDone(state);
  // Once a row is reopened the machine stands there already, or further on, until a row is done.
  if (state.reopened !== null && (state.at_row || run.row(0).turns !== "")) return false;
  if (isAtFirst(state) && !run.row(state.at_row).closing) return false;
  return last === null ? state.at_row === 0 : last === state.at_row - 1;
}

function beginning(run, words, asked) {
  const angle = asked.ringZero === undefined ? "" : ` data-angle="${safe(aheadOf(asked.ringZero, run.told.scales.ring))}"`;
  const answers = words.watched === "work"
    ? button("began", null, "Marked: begin", "big strong", ` data-answer=""${angle}`)
    : button("began", null, "No, it falls", "big", ` data-answer="no"${angle}`) +
      button("began", null, "Yes, it grows", "big strong", ` data-answer="yes"${angle}`);
  const trace = words.trace ? `<li><strong>Trace first.</strong> ${safe(words.trace)}</li>` : "";
  const promise = run.told.promise.length
    ? `<details><summary>Checks as you go</summary><p>At some positions the run asks for a check, before the work.</p><ul>${list(run.told.promise)}</ul></details>`
    : "";
  return `<section class="begin"><h2>Before the first one</h2><ol class="steps">
<li><strong>Witness marks.</strong> ${safe(words.witness)} A broken mark tells of a slip that no scale shows.</li><li><strong>Zero.</strong> ${safe(words.zero)}${ringAtZero(run, asked)}</li>
${trace}<li><strong>Direction.</strong> <span class="question">${safe(words.question)}</span></li></ol>
<div class="answers">${answers}</div>${promise}
<details class="cautions"><summary>Cautions</summary><ul>${list(words.cautions)}</ul></details></section>`;
}

const list = (lines) => lines.map((line) => `<li>${safe(line)}</li>`).join("");

function ringAtZero(run, { ringZero }) {
  const { ring } = run.told.scales;
  if (!ring || ring.is_set) return "";
  const told = ringZero === undefined ? "" : `<p>Every ring check counts from ${safe(ringZero)}. Go on below.</p>`;
  return `<details${told && " open"}><summary>The ring cannot be set to 0</summary><div class="inline typed"><label for="ring-zero">It shows, at zero</label>
<input id="ring-zero" value="${safe(ringZero ?? "")}" inputmode="decimal" autocomplete="off">${button("ring-zero", null, "Use this")}</div>${told}</details>`;
}

function doubting(run, words, { doubted, ringZero }) {
  const angle = ringZero === undefined ? "" : ` data-angle="${safe(aheadOf(ringZero, run.told.scales.ring))}"`;
  return `<section class="begin"><h2>The other way round?</h2><p class="question">${safe(words.disagreement)}</p>
<div class="answers">${button("again", null, "Try the test again", "big")}${button("began", null, "I am sure: begin", "big strong", ` data-answer="${doubted ? "yes" : "no"}" data-sure="1"${angle}`)}</div></section>`;
}

function resting(run) {
  const last = isAtFirst(run.state) ? 0 : lastDone(run.state);
  const stands = last === null ? "at the zero" : leftAt(run.row(last));
  return `<section class="begin paused"><h2>Paused</h2><p class="question">Before going on: see that the machine still stands where it was left.</p>
<p class="left-at">${safe(stands)}</p>${firstSection(run, { button, safe })}<div class="answers">${button("resumed", null, "It agrees: go on", "big strong")}</div></section>`;
}

const leftAt = (row) => `at position ${row.position}: ${row.since_zero}${row.ring ? `, ring ${row.ring}` : ""}`;

function finished(run, words) {
  const last = run.state.trail.at(-1);
  return `<section class="finished"><p class="seal" aria-hidden="true"><svg viewBox="-50 -50 100 100"><circle r="44"/><path d="M-20 2L-6 16L22 -16"/></svg></p>
<h2>${safe(words.finished)}</h2>${firstSection(run, { button, safe })}${notes(run)}
<p>Measure on the arbor, before anything is taken down: then it can still be corrected.</p>
<div class="answers">${last ? button("back", last.row, "Back: reopen the last", "big", takenBack(run)) : ""}</div></section>`;
}

function notes(run) {
  const told = [];
  const bad = [...badRows(run.state)].map(([row, note]) => run.row(row).position + (note ? ` (${note})` : ""));
  if (bad.length) told.push(`Bad: ${bad.join(", ")}.`);
  const doubtful = suspectRows(run.state).map((row) => run.row(row).position);
  if (doubtful.length) told.push(`To be looked at: ${doubtful.join(", ")}.`);
  return told.map((line) => `<p class="small">${safe(line)}</p>`).join("");
}

function position(run, words) {
  const { state } = run;
  const row = run.row(state.at_row);
  const now = turnedNow(run, isInOrder(run));
  const shown = now.row;
  const isBack = now.is === "first";
  const next = isBack ? { short: now.next } : nextOf(run, row);
  const last = state.trail.at(-1);
  const turn = turnOf(state, now.isStep && shown.turns_back);
  const off = disagreement(run, row);
  const isRing = ringAskedNow(state, row);
  // On the closing row the ring comes first: what is found of the first line then ends the row.
  const first = off !== null || (isRing && row.closing && missedFirst(run) === null) ? "" : firstSection(run, { button, safe, closes: row.closing && !isRing });
  const asking = off !== null || first !== "" || isRing;
  const names = ["position", `by-${shown.set_on}`, row.closing && "closing", !shown.ring && "no-ring", shown.is_long && "is-long"];
  const heading = isBack ? `first ${run.told.first.what}` : "position";
  const then = isBack ? `before ${row.position}` : row.pass_text;
  return `<section class="${names.filter(Boolean).join(" ")}" aria-label="${safe(heading[0].toUpperCase() + heading.slice(1))} ${safe(shown.position)}">
<div class="where"><p class="which"><span class="small">${safe(heading)}</span> <b id="position">${safe(shown.position)}</b>${then ? ` <span class="pass">${safe(then)}</span>` : ""}</p>
<p class="done"><b>${doneCount(state)}</b> of ${state.rows} done${timeLeft(state)}</p>
<progress max="${state.rows}" value="${doneCount(state)}" aria-label="rows done"></progress></div>
<div class="move">${(now.isStep ? stepwise : fromZero)(shown, turn)}</div>
<div class="beside${asking ? " is-asking" : ""}">${stopPiece(shown)}${off ? offSection(run, row, off) : first ? overshotText(run, row, words) + repeatText(shown) + first : asking ? repeatText(shown, "") + ringAsked(row) : attend(run, row, words, shown)}
<p class="between">${safe(shown.between)}</p>
<dl class="facts">${shown.ring ? fact("ring shows", shown.ring) : ""}${fact("since zero", shown.since_zero)}${fact("target", shown.target)}</dl>
<p class="work">${safe(shown.work)}</p>
<p class="next">${next ? `<span class="small">next</span> ${safe(next.short)}` : '<span class="small">this is the last</span>'}</p>
<p class="overshoot">${safe(words.overshoot)}</p>
<ol class="rhythm" aria-label="The rhythm of each position">${list(words.rhythm)}</ol></div>
<div class="buttons with-more">${last ? button("back", last.row, "Back", "back-button", ` aria-label="Back: reopen the row before"${takenBack(run)}`) : "<span></span>"}
${asking ? '<p class="first-check">First the check</p>' : button("done", row.row, "Done", "done-button", ' id="done"')}${more(run, row)}</div></section>`;
}

/** The row after this one; its move is told where it is made from this one, else what it is set to since zero. */
function nextOf(run, row) {
  const next = run.row(following(run.state));
  if (!next || next.row === row.row + 1) return next;
  return { short: `${next.position}: ${next.since_zero}${next.since_zero === "zero" ? "" : " since zero"}` };
}

const line = (kind, row, label, words) =>
  `<div class="tap line"><label class="unseen" for="${kind}-words">${words}</label><input id="${kind}-words" maxlength="500" autocomplete="off" placeholder="${words}">${button(kind, row, label)}</div>`;

function more(run, row) {
  const { state } = run;
  const canSkip = state.at_row === state.front && !state.gates.includes(row.row);
  return `<details class="more-menu"><summary>More</summary><div class="more-sheet"><div class="more-grid">
${button("skipped", row.row, "Skip, come back", "", canSkip ? "" : " disabled")}${button("overshot", row.row, "Overshot")}${button("paused", null, "Pause")}${run.told.where ? button("where", null, "Where am I?") : ""}</div>
${line("bad", row.row, "Bad, note", "what is wrong here")}${line("note", row.row, "Note", "worth knowing later")}${undoing(run)}${notes(run)}</div></details>`;
}

const FACT_WORDS = { overshot: "gone past", ring: "ring read", returned: "gone back to the first", bad: "bad", good: "looked at, and good", note: "note" };

/** The last thing written down, to be taken back. */
function undoing(run) {
  const entry = run.state.facts.at(-1)?.entry;
  if (!entry || !(entry.kind in FACT_WORDS)) return "";
  const at = entry.row === undefined ? "" : `Position ${run.row(entry.row).position}: `;
  const told = `${at}${FACT_WORDS[entry.kind]}${entry.reading ? ` ${entry.reading}` : ""}${entry.note ? `: ${entry.note}` : ""}`;
  return `<div class="tap line"><span class="small"><bdi>${safe(told)}</bdi></span>${button("undone", null, "Undo", "", ` data-of="${safe(entry.tap)}"`)}</div>`;
}

/** The last ring reading at a row that was written down since the last step; null when there is none. */
function ringRead(state, row) {
  const found = state.facts.findLast(
    ({ entry, steps }) => entry.kind === "ring" && entry.row === row.row && steps === state.trail.length,
  );
  return found?.entry ?? null;
}

/** A reading at the row in hand that does not agree, and is not made good; null when there is none. */
function disagreement(run, row) {
  const last = run.state.facts.findLast(({ entry }) => ["ring", "slipped"].includes(entry.kind));
  const entry = ringRead(run.state, row);
  if (!entry || last.entry !== entry || row.ring_exact === "") return null;
  return agrees(entry.reading, row.ring_exact, run.told.scales.ring) ? null : entry;
}

function ringAsked(row) {
  return `<section class="attend" aria-label="Check">${row.check.map((told) => `<p class="large">${safe(told)}</p>`).join("")}
<p class="small">${safe(row.check_why)}</p>
<div class="ask">${button("ring", row.row, `Yes, ${safe(row.ring)}`, "yes", ` data-reading="${safe(row.check_ring)}"`)}
<div class="typed"><label for="ring-shows">It shows</label><input id="ring-shows" inputmode="decimal" autocomplete="off">${button("ring", row.row, "Keep")}</div></div></section>`;
}

const ringOff = (run, row, entry) =>
  `You read ${ringText(exactOf(entry.reading), run.told.scales.ring)}; the ring should show ${row.ring}.`;

function offSection(run, row, entry) {
  const { ring } = run.told.scales;
  const off = offBy(entry.reading, row.ring_exact, ring);
  return `<section class="attend bad" aria-label="The ring does not agree">
<p class="large">${safe(ringOff(run, row, entry))} Do not cut.</p>
<div class="ask">${button("ring", row.row, `Mended: it shows ${safe(row.ring)}`, "yes", ` data-reading="${safe(row.ring_exact)}"`)}
${button("undone", null, "I misread: read again", "yes", ` data-of="${safe(entry.tap)}"`)}</div>
<p>The ring stands ${off.degrees} degrees ${off.isAhead ? "ahead of" : "behind"} what it should show. ${safe(shownAt(run, entry.reading))}</p>
<p>Go back past the setting, come up to it once more, and read again. ${run.told.where ? "If it shows the same, read every scale, and ask:" : "“Where am I?” on the workshop’s page names the fault."}</p>
${run.told.where ? button("where", null, "Where am I?", "", ` data-reading="${safe(entry.reading)}"`) : ""}</section>`;
}

/** At which positions the ring shows a reading: what it shows there is certain, why it does so now is not. */
function shownAt(run, reading) {
  const { ring } = run.told.scales;
  const found = new Set();
  for (let index = 0; index < run.told.row_count && found.size < 4; index += 1) {
    const row = run.row(index);
    if (!row.closing && row.ring_exact !== "" && agrees(reading, row.ring_exact, ring)) found.add(row.position);
  }
  if (!found.size) return "It shows that at no position of this run.";
  if (found.size > 3) return "";
  return `It shows that at position ${[...found].join(" and ")}.`;
}

const repeatText = (shown, size = " large") => (shown.repeat ? `<p class="attend${size}">${safe(shown.repeat)}</p>` : "");
const isOvershot = ({ facts }, row) => facts.at(-1)?.entry.kind === "overshot" && facts.at(-1).entry.row === row.row;
const overshotText = ({ state }, row, words) => (isOvershot(state, row) ? `<p class="attend large">${safe(words.overshoot)}</p>` : "");

function attend(run, row, words, shown) {
  const { state } = run;
  const told = [];
  if (row.row !== state.front) told.push("This one was passed over.");
  if (row.check_ring === "") told.push(...row.check);
  const picture = isOvershot(state, row) ? "" : window(run, row);
  const lines = told.map((text) => `<p class="attend">${safe(text)}</p>`).join("");
  return overshotText(run, row, words) + lines + repeatText(shown) + (picture && `<div class="picture">${picture}</div>`);
}

/** The picture of what is set, as it should be seen; empty where a picture would say nothing. */
function window(run, row) {
  const { dial, ring, circle } = run.told.scales;
  const turn = turnOf(run.state, false);
  if (row.hole !== null) {
    const last = isAtFirst(run.state) ? 0 : lastDone(run.state);
    return holeMove(circle, last === null ? 0 : run.row(last).hole, row.hole, turn);
  }
  if (row.set_on === "dial" && dial) return dialWindow(dial, numberOf(row.reading), turn === "clockwise");
  if (row.set_on === "ring" && ring) return ringWindow(ring, numberOf(row.ring_exact));
  return "";
}

function stopPiece(row) {
  if (!row.mark && !row.numeral) return "";
  const numeral = row.numeral ? ` <span>stamp <b><bdi>${safe(row.numeral)}</bdi></b></span>` : "";
  return `<p class="stop-piece">${row.mark ? `<b>${safe(row.mark)}</b>` : ""}${numeral}</p>`;
}

const fact = (name, value) => `<div><dt>${name}</dt><dd>${safe(value)}</dd></div>`;

function turnOf(state, back) {
  const clockwise = state.numbers_grow !== false;
  return clockwise === !back ? "clockwise" : "anticlockwise";
}

function stepwise(row, turn) {
  const turns = row.turns
    ? `<span class="turns-value${row.turns === "0" ? " none" : ""}">${safe(row.turns)}</span><span class="turns-unit">${safe(row.turns_unit)}<br><span class="small">${turn}</span></span>`
    : `<span class="turns-unit alone">${turn}</span>`;
  return `<div class="turns"><span class="arrow-box">${turningArrow(turn)}</span>${turns}</div>
<div class="reading"><p class="lead-up">${safe(row.lead)}</p><p class="value len-${Math.min(9, [...row.reading].length)}" id="reading">${safe(row.reading)}</p><p class="unit">${safe(row.unit)}</p></div>`;
}

/** The row before was not the one done last: only what counts from the zero is true from wherever the machine stands. */
function fromZero(row, turn) {
  return `<div class="turns"><span class="arrow-box">${turningArrow(turn)}</span><span class="turns-unit alone">come up ${turn}</span></div>
<div class="reading"><p class="lead-up">Counted from zero, wherever it stands:</p><p class="value len-9" id="reading">${safe(row.since_zero)}</p><p class="unit">${safe(row.between)}</p></div>`;
}

function timeLeft(state) {
  const own = pace(state);
  return own === null ? "" : ` <span class="pace">${timeLeftText(own.left)}</span>`;
}

/** The time left, in seconds, as in crankwise/wording/run_checks.py. */
export function timeLeftText(left) {
  const minutes = Math.max(1, Math.ceil(Math.trunc(left) / 60));
  const hours = Math.floor(minutes / 60);
  const told = [hours ? `${hours} h` : "", minutes % 60 ? `${minutes % 60} min` : ""].filter(Boolean).join(" ");
  return `about ${told} left`;
}
