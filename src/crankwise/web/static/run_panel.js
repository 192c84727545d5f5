// The run page painted by the phone itself, from the rows it has: away from the workshop, and on a pocket
// card. The words are the workshop's own; only where the run stands is worked out here.

import { badRows, doneCount, following, isFinished, lastDone, pace, suspectRows } from "./run_engine.js";

const LETTERS = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
const safe = (text) => String(text).replace(/[&<>"']/g, (letter) => LETTERS[letter]);

/** What is shown for a run in the hand. `words` are those that do not change from row to row. */
export function panelOf(run, words, doubted) {
  const { state } = run;
  if (!state.began) return doubted === undefined ? beginning(words) : doubting(words, doubted);
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
  const set = isInOrder(state) ? `${moveOf(row)} ${row.lead} ${row.reading} ${row.unit}` : `Counted from zero: ${row.since_zero}`;
  return [`Position ${row.position}`, set, row.between, row.numeral && `numeral ${row.numeral}`, row.mark, row.work]
    .filter(Boolean)
    .join(". ");
}

/** What a button of the panel taps. */
export function entryOfButton(button, tap) {
  const { kind, row, reading, answer } = button.dataset;
  const note = button.closest(".line")?.querySelector("input").value.trim();
  const entry = { kind, tap, at: Math.round(Date.now() / 100) / 10 };
  if (row !== undefined) entry.row = Number(row);
  if (reading !== undefined) entry.reading = reading;
  if (note) entry.note = note;
  if (kind === "began") entry.numbers_grow = { yes: true, no: false }[answer] ?? null;
  return entry;
}

const moveOf = (row) => (row.turns ? `${row.turns} ${row.turns_unit},` : "");
const button = (kind, row, inner, style = "", more = "") =>
  `<button type="button" class="${style}" data-kind="${kind}"${row === null ? "" : ` data-row="${row}"`}${more}>${inner}</button>`;

/** Whether the machine stands at the row before, so that the move told in the schedule is the move to make. */
export function isInOrder(state) {
  const last = lastDone(state);
  return last === null ? state.at_row === 0 : last === state.at_row - 1;
}

function beginning(words) {
  const asks = words.watched === "work";
  const answers = asks
    ? button("began", null, "Marked: begin", "big strong", ' data-answer=""')
    : button("began", null, "No, it falls", "big", ' data-answer="no"') +
      button("began", null, "Yes, it grows", "big strong", ' data-answer="yes"');
  return `<section class="begin"><h2>Before the first one</h2><ol class="steps">
<li><strong>Witness marks.</strong> ${safe(words.witness)}</li><li><strong>Zero.</strong> ${safe(words.zero)}</li>
<li><strong>Trace first.</strong> ${safe(words.trace)}</li>
<li><strong>Direction.</strong> <span class="question">${safe(words.question)}</span></li></ol>
<div class="answers">${answers}</div>
<details class="cautions"><summary>Cautions</summary><ul>${words.cautions.map((line) => `<li>${safe(line)}</li>`).join("")}</ul></details></section>`;
}

function doubting(words, doubted) {
  return `<section class="begin"><h2>The other way round?</h2><p class="question">${safe(words.disagreement)}</p>
<div class="answers">${button("again", null, "Try the test again", "big")}${button("began", null, "I am sure: begin", "big strong", ` data-answer="${doubted ? "yes" : "no"}" data-sure="1"`)}</div></section>`;
}

function resting(run) {
  const last = lastDone(run.state);
  const stands = last === null ? "at the zero" : `at position ${run.row(last).position}: ${run.row(last).since_zero}`;
  return `<section class="begin paused"><h2>Paused</h2><p class="question">Before going on: see that the machine still stands where it was left.</p>
<p class="left-at">${safe(stands)}</p><div class="answers">${button("resumed", null, "It agrees: go on", "big strong")}</div></section>`;
}

function finished(run, words) {
  const last = run.state.trail.at(-1);
  return `<section class="finished"><p class="seal" aria-hidden="true"><svg viewBox="-50 -50 100 100"><circle r="44"/><path d="M-20 2L-6 16L22 -16"/></svg></p>
<h2>${safe(words.finished)}</h2>${notes(run)}
<p>Measure on the arbor, before anything is taken down: then it can still be corrected.</p>
<div class="answers">${last ? button("back", last.row, "Back: reopen the last", "big") : ""}</div></section>`;
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
  const next = run.row(following(state));
  const inOrder = isInOrder(state);
  const last = state.trail.at(-1);
  const asking = row.check_ring !== "" && ringRead(state, row) === undefined;
  const names = ["position", row.closing && "closing", !row.ring && "no-ring", row.is_long && "is-long"];
  return `<section class="${names.filter(Boolean).join(" ")}" aria-label="Position ${safe(row.position)}">
<div class="where"><p class="which"><span class="small">position</span> <b id="position">${safe(row.position)}</b>${row.pass_text ? ` <span class="pass">${safe(row.pass_text)}</span>` : ""}</p>
<p class="done"><b>${doneCount(state)}</b> of ${state.rows} done${timeLeft(state)}</p>
<progress max="${state.rows}" value="${doneCount(state)}" aria-label="rows done"></progress></div>
<div class="move">${(inOrder ? stepwise : fromZero)(row, turnOf(state, inOrder && row.turns_back))}</div>
<div class="beside${asking ? " is-asking" : ""}">${stopPiece(row)}${asking ? ringAsked(row) : attend(state, row, words)}
<p class="between">${safe(row.between)}</p>
<dl class="facts">${row.ring ? fact("ring shows", row.ring) : ""}${fact("since zero", row.since_zero)}${fact("target", row.target)}</dl>
<p class="work">${safe(row.work)}</p>
<p class="next">${next ? `<span class="small">next</span> ${safe(next.short)}` : '<span class="small">this is the last</span>'}</p>
<p class="overshoot">${safe(words.overshoot)}</p>
<ol class="rhythm" aria-label="The rhythm of each position">${words.rhythm.map((beat) => `<li>${safe(beat)}</li>`).join("")}</ol></div>
<div class="buttons with-more">${last ? button("back", last.row, "Back", "back-button", ' aria-label="Back: reopen the row before"') : "<span></span>"}
${asking ? '<p class="first-check">First the check</p>' : button("done", row.row, "Done", "done-button", ' id="done"')}${more(run, row)}</div></section>`;
}

const line = (kind, row, label, words) =>
  `<div class="tap line"><label class="unseen" for="${kind}-words">${words}</label><input id="${kind}-words" maxlength="500" autocomplete="off" placeholder="${words}">${button(kind, row, label)}</div>`;

function more(run, row) {
  const { state } = run;
  const canSkip = state.at_row === state.front && !state.gates.includes(row.row);
  return `<details class="more-menu"><summary>More</summary><div class="more-sheet"><div class="more-grid">
${button("skipped", row.row, "Skip, come back", "", canSkip ? "" : " disabled")}${button("overshot", row.row, "Overshot")}${button("paused", null, "Pause")}</div>
${line("bad", row.row, "Bad, note", "what is wrong here")}${line("note", row.row, "Note", "worth knowing later")}${notes(run)}</div></details>`;
}

/** The ring reading written down since the last step, if there is one. */
function ringRead(state, row) {
  return state.facts.find(
    ({ entry, steps }) => entry.kind === "ring" && entry.row === row.row && steps === state.trail.length,
  );
}

function ringAsked(row) {
  return `<section class="attend" aria-label="Check">${row.check.map((told) => `<p class="large">${safe(told)}</p>`).join("")}
<div class="ask">${button("ring", row.row, `Yes, ${safe(row.ring)}`, "yes", ` data-reading="${safe(row.check_ring)}"`)}</div>
<details><summary>It shows something else</summary><p><strong>Do not cut.</strong> Back off, come up to the setting once more, and read again. If it still differs, write down what dial and ring show; “Where am I?” on the workshop's page tells what happened.</p></details></section>`;
}

function attend(state, row, words) {
  const last = state.facts.at(-1)?.entry;
  const told = [];
  if (last?.kind === "overshot" && last.row === row.row) told.push(["attend large", words.overshoot]);
  if (row.row !== state.front) told.push(["attend", "This one was passed over."]);
  if (row.return_to_first) told.push(["attend", `Before this one: ${row.return_to_first}`]);
  if (row.check.length && row.check_ring === "") row.check.forEach((check) => told.push(["attend", check]));
  return told.map(([name, text]) => `<p class="${name}">${safe(text)}</p>`).join("");
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
  return `<div class="turns"><span class="arrow-box">${arrow(turn)}</span>${turns}</div>
<div class="reading"><p class="lead-up">${safe(row.lead)}</p><p class="value len-${[...row.reading].length}" id="reading">${safe(row.reading)}</p><p class="unit">${safe(row.unit)}</p></div>`;
}

/** The row before was not the one done last: only what counts from the zero is true from wherever the machine stands. */
function fromZero(row, turn) {
  return `<div class="turns"><span class="arrow-box">${arrow(turn)}</span><span class="turns-unit alone">come up ${turn}</span></div>
<div class="reading"><p class="lead-up">Counted from zero, wherever it stands:</p><p class="value len-9" id="reading">${safe(row.since_zero)}</p><p class="unit">${safe(row.between)}</p></div>`;
}

function timeLeft(state) {
  const own = pace(state);
  if (own === null) return "";
  const minutes = Math.max(1, Math.round(own.left / 60));
  return ` <span class="pace">about ${minutes < 90 ? `${minutes} min` : `${Math.round(minutes / 6) / 10} h`} left</span>`;
}

/** The same arrow as in crankwise/draw/move.py. */
function arrow(turn) {
  const way = turn === "clockwise" ? 1 : -1;
  const at = (turns, radius) =>
    [radius * Math.sin(2 * Math.PI * turns), -radius * Math.cos(2 * Math.PI * turns)]
      .map((value) => value.toFixed(2))
      .join(" ");
  const neck = way * 0.28;
  return `<svg viewBox="-56 -56 112 112" class="arrow" role="img" aria-label="${turn}"><path class="sweep" d="M${at(-way * 0.36, 36)}A36 36 0 1 ${way > 0 ? 1 : 0} ${at(neck, 36)}"/><path class="tip" d="M${at(neck, 18)}L${at(neck + way * 0.11, 47)}L${at(neck, 54)}Z"/></svg>`;
}
