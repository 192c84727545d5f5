// Going back to the first line or space: the question, what was found, and what to do, on a phone by itself.
// What is due and what it leaves open is worked out as in crankwise/run/first_line.py; the tests hold both
// sides to each other.

import { isAtFirst, isFinished, lastReturn, returnDue, workedSinceMet } from "./run_engine.js";
import { isWithin } from "./run_ring.js";

/** Whether the tool met the first line on a return, as near as that can be seen. */
export function meets(entry, first) {
  const means = entry.means ?? first.means;
  if (entry.off_mm !== undefined) return isWithin(entry.off_mm, first.near_mm[means]);
  return entry.angle !== undefined && isWithin(entry.angle, first.near_turns[means]);
}

/** The row before which a return is due now; null when none is. */
export const dueNow = (run) => returnDue(run.state, run.told.first.rows);

/** The last return when the tool did not meet the first line, and nothing was done since; null when it did. */
export function missedFirst(run) {
  const entry = lastReturn(run.state);
  return entry === null || meets(entry, run.told.first) ? null : entry;
}

/** The return that ended a closing row, where that row is the last that was done: reopening it takes that back too. */
export function returnThatClosed(run) {
  const { trail, facts } = run.state;
  const last = trail.at(-1);
  if (last?.kind !== "done" || !run.row(last.row).closing) return null;
  const there = ({ entry, steps }) => entry.kind === "returned" && entry.row === last.row && steps === trail.length - 1;
  return facts.findLast((fact) => there(fact) && meets(fact.entry, run.told.first))?.entry ?? null;
}

/**
 * What is asked, or what to do where the tool is off; empty where nothing is. `button` and `safe` write buttons and
 * text; `closes` says whether meeting the first one ends the row.
 */
export function firstSection(run, { button, safe, closes = false }) {
  const also = closes ? ' data-also="done"' : "";
  const met = (row, label) =>
    button("returned", row, `${safe(label)}${closes ? ": done" : ""}`, "yes", ` data-angle="0" data-means="${run.told.first.means}"${also}`);
  const missed = missedFirst(run);
  if (missed) return offSection(run, missed, { button, safe, met });
  const due = dueNow(run);
  return due === null ? "" : askedSection(run, due, { button, safe, met });
}

/**
 * What is turned now, as a row: the row in hand, or the first one while the tool is to be brought to it. `isInOrder`
 * says whether the machine stands at the row before; else only what counts from the zero is true.
 *
 * is      "row", or "first" on the way there
 * isStep  whether its move is the one to make from where the machine stands
 */
export function turnedNow(run, isInOrder) {
  const { state, told } = run;
  const row = run.row(state.at_row);
  const moves = told.first.moves[row.row];
  const isMissed = missedFirst(run) !== null;
  if (!row.closing && (isMissed || dueNow(run) !== null)) {
    const there = isInOrder && !isMissed && moves ? moves.there : (moves?.place ?? told.first.place);
    const next = moves?.on.repeat ? `${moves.on.short}. ${moves.on.repeat}` : (moves?.on.short ?? "");
    return { is: "first", isStep: true, row: { ...run.row(0), pass_text: "", mark: "", numeral: "", is_long: false, ...there }, next };
  }
  if (moves && isAtFirst(state)) return { is: "row", isStep: true, row: { ...row, ...moves.on } };
  return { is: "row", isStep: isInOrder, row };
}

/** What of it is said aloud: `alone`, in place of the setting, `before` it, or `after` it. */
export function firstSentence(run) {
  const { first } = run.told;
  const missed = missedFirst(run);
  if (missed) return { alone: `${missedText(missed, first)} Do not cut.` };
  const due = dueNow(run);
  if (due === null) return {};
  return run.row(due).closing ? { after: first.ask } : { before: first.before, after: first.ask };
}

function askedSection(run, due, { button, safe, met }) {
  const { told, state } = run;
  const { first } = told;
  const isAgain = state.paused || state.at_row === state.rows;
  const row = run.row(due);
  const how = row.closing && !isAgain ? "" : row.return_to_first || first.how;
  const option = (means, words) => `<option value="${means}"${means === first.means ? " selected" : ""}>${words}</option>`;
  return `<section class="attend first-line" aria-label="Back to the first ${safe(first.what)}">
${isAgain ? `<p class="small">${safe(first.again)}</p>${placeText(run, safe)}` : how ? `<p>${safe(first.before)}</p>` : ""}<p class="large">${safe(first.ask)}</p>
<div class="ask">${met(due, first.meets)}
${isAgain ? "" : button("returned", due, safe(first.not_now), "not-now", ' data-put-off="1"')}</div>
<details class="off-by"><summary>It does not: it is off by</summary><div class="typed stacked"><div class="pair">
<div class="field"><label for="first-far">How far, in ${safe(first.unit)}</label><input id="first-far" inputmode="decimal" autocomplete="off"></div>
<div class="field"><label for="first-side">It stands</label><select id="first-side" name="side"><option value="ahead">ahead</option><option value="behind">behind</option></select></div>
<div class="field"><label for="first-means">Looked at with</label><select id="first-means" name="means">${option("loupe", "a loupe")}${option("indicator", "an indicator")}</select></div></div>
<p class="small">${safe(first.ahead)}</p>${button("returned", due, "Keep", "", ' data-typed="1"')}</div></details>${how ? `<p>${safe(how)}</p>` : ""}</section>`;
}

/** Where the first one is set, for where no figures stand large; empty where the tool stands there already. */
function placeText({ state, told }, safe) {
  const { lead, reading, unit } = told.first.place;
  const isThere = isAtFirst(state) || (isFinished(state) && told.first.rows.includes(state.rows - 1));
  return isThere ? "" : `<p>${safe(`${lead} ${reading} ${unit}`)}.</p>`;
}

function offSection(run, entry, { button, safe, met }) {
  const { first } = run.told;
  const doubtful = workedSinceMet(run.state, (one) => meets(one, first)).map((row) => run.row(row).position);
  const looked = doubtful.length > 6 ? `${doubtful[0]} to ${doubtful.at(-1)}, ${doubtful.length} of them` : doubtful.join(", ");
  const row = Math.min(run.state.at_row, run.state.rows - 1);
  return `<section class="attend bad" aria-label="The first ${safe(first.what)} is not met">
<p class="large">${safe(missedText(entry, first))} Do not cut.</p>
${doubtful.length ? `<p>To be looked at, worked since it was last met: ${safe(looked)}.</p>` : ""}
<div class="ask">${met(row, `Mended: ${first.meets.toLowerCase()}`)}
${button("undone", null, "I looked wrong: look again", "yes", ` data-of="${safe(entry.tap)}"`)}</div>
<p>Something may have slipped, too little for the ring to show. Find what moved and make it fast; “Where am I?” on the workshop’s page names the fault, and takes the slip in from here on.</p></section>`;
}

function missedText(entry, first) {
  const off = entry.off_mm ?? entry.angle;
  return `The first ${first.what} stands ${farText(off, entry)} ${off.startsWith("-") ? "behind" : "ahead of"} the tool.`;
}

/** A length as it was typed; an angle in degrees, which is what was typed too. */
function farText(off, entry) {
  const plain = off.replace("-", "");
  if (entry.off_mm !== undefined) return `${rounded(plain, 1, 4)} mm`;
  return `${rounded(plain, 360, 4)} degrees`;
}

function rounded(text, by, places) {
  const [top, bottom = "1"] = text.split("/");
  return String(Number(((Number(top) / Number(bottom)) * by).toFixed(places)));
}
