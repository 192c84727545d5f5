// “Where am I?” on the phone itself: what the machine shows is typed, and answered with no workshop in reach.

import { isAtFirst, lastDone } from "./run_engine.js";
import { Evidence } from "./run_evidence.js";
import { asTyped, figure, isMore, minus, textOf, times, turnsBetween, typedLength, typedNumber, whole } from "./run_ring.js";
import { faultsOf, stepsTo, whereAmI } from "./run_where.js";
import { WhereWords } from "./run_where_words.js";

const LETTERS = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
const safe = (text) => String(text).replace(/[&<>"']/g, (letter) => LETTERS[letter]);
const half = figure(1n, 2n);
const LONGEST_NOTE = 500;

/** What is typed for one scale: `{ reading }`, `{ fault }`, a sentence, or nothing where it was not read. */
function typedOn(evidence, scale, typed, near) {
  if (!typed.trim()) return {};
  const isLength = scale.name === "measured";
  const [read, like] = isLength ? [typedLength, "122.5, 122.5 mm or 4.82 in"] : [typedNumber, "12, 12.5 or 45/2"];
  const of = isLength ? "What was measured" : scale.name === "step" ? "The drive’s count" : `The ${scale.name}’s reading`;
  const against = scale.least < 0 && /^[-−]/.test(typed.trim());
  const counted = read(against ? typed.trim().slice(1) : typed);
  const value = counted && against ? minus(counted) : counted;
  const within = near.trim() ? read(near) : null;
  if (!value) return { fault: `${of} is a number, as ${like}; what is typed is ${asTyped(typed)}.` };
  if (near.trim() && !within) return { fault: `What the ${scale.name} is read to is a number, as ${like}; what is typed is ${asTyped(near)}.` };
  if (isMore(value, whole(scale.most)) || isMore(whole(scale.least), value)) return { fault: `The ${scale.name} shows from ${scale.least} to ${isLength ? "" : "below "}${scale.most}, and not ${typed.trim()}.` };
  if (!scale.within.top && value.bottom !== 1n) return { fault: `A ${scale.name} is counted in whole numbers, and is not ${typed.trim()}.` };
  if (within && !isMore(whole(2 * scale.full), within)) return { fault: `The ${scale.name} is read to less than that: it has ${scale.full} all round.` };
  return { reading: evidence.reading(scale.name, value, within && times(within, half)) };
}

/** The scales to type, with how near each is read. */
function asking(words, evidence, left) {
  const asked = evidence.scales.map(({ name, asks, hint, within }, place) => {
    const usual = textOf(times(within, whole(2)));
    const toWhat = name === "measured" ? "It was measured to" : `The ${safe(name)} is read to`;
    const less = within.top
      ? `<details><summary>Read less nearly</summary><div class="field"><label for="where-near${place}">${toWhat}</label><input id="where-near${place}" inputmode="decimal" autocomplete="off" placeholder="${usual}"></div></details>`
      : "";
    return `<div class="field"><label for="where-scale${place}">${safe(asks)}</label><input id="where-scale${place}" inputmode="decimal" autocomplete="off" aria-describedby="where-hint${place}"><p class="hint" id="where-hint${place}">${safe(hint)} Leave it empty if it was not read.</p>${less}</div>`;
  });
  return `<p><strong>${safe(words.stop)}</strong></p>${left ? `<p>As this card has it, the machine was left at ${safe(left)}.</p>` : ""}
${asked.join("")}<button type="button" class="strong" data-where="ask">Where am I?</button>`;
}

/** What brings the run to where the machine stands, when it surely stands at a row. */
function bringing(run, found, saying) {
  const { state } = run;
  if (found.row === null || !state.began || state.paused) return { told: "" };
  const { alike } = found.candidates[0];
  const left = isAtFirst(state) ? 0 : lastDone(state);
  if (alike.includes(state.at_row)) return { told: "This is the position in hand. Look whether its work is done: if it is, tap Done; if not, go on with it." };
  if (left !== null && alike.includes(left)) {
    const which = isAtFirst(state) ? "the first one, where the tool was brought" : "the one done last";
    return { told: `It is ${which}, so nothing is lost: turn on to the position in hand.` };
  }
  const steps = stepsTo(state, found.row, String, 0);
  if (!steps) return { told: "" };
  const isBack = steps[0].kind === "back";
  return { told: saying.bring(found.row, state.at_row), row: found.row, does: isBack ? `Reopen ${steps.length}` : `Tick ${steps.length} as done`, isBack };
}

/** What to do about a slip with no workshop in reach. */
function mending({ joint, row }, words, saying, evidence) {
  const told = evidence.scales.filter(({ name }) => name !== "ring" && name !== "measured").map((scale) => [scale.name, evidence.shown(scale, row)]);
  const shows = told.filter(([, value]) => value !== null).map(([name, value]) => `${name} ${saying.shows(name, value)}`).join(", ");
  return [words.put_back[joint].replace("{shows}", shows), words.or_home];
}

function answerOf(run, words, evidence, readings) {
  const saying = new WhereWords(run, words, run.told.where);
  const found = whereAmI(evidence, readings, run.state);
  const [first, ...more] = saying.sentences(found);
  const off = found.verdict === "off a row" ? found.off_a_row : null;
  const faults = off ? saying.faults(faultsOf(evidence, off), off.row) : [];
  const bring = bringing(run, found, saying);
  const [slip] = found.slips;
  const isOver = (one) => one && isMore(one.odds, slip.odds);
  const isLikely = slip && ["slipped", "cannot tell"].includes(found.verdict) && !isOver(found.candidates[0]) && !isOver(found.off_a_row);
  const again = isLikely && found.verdict === "cannot tell" ? [`${words.if_again} ${saying.suspect(slip)}`] : [];
  const mend = isLikely ? [...again, ...mending(slip, words, saying, evidence)] : [];
  const read = readings.map(({ scale, value }) => `${scale.name} ${saying.shows(scale.name, value)}`).join(", ");
  const note = `Where am I? Read: ${read}. ${[first, ...more, ...faults.map(([what]) => what)].join(" ")}`;
  return { found, first, more, faults, bring, mend, note: [...note].slice(0, LONGEST_NOTE).join("") };
}

function answered({ found, first, more, faults, bring, mend }, canNote) {
  const brings = bring.does ? `<button type="button" class="${bring.isBack ? "" : "strong"}" data-where="bring">${safe(bring.does)}</button>` : "";
  const writes = canNote && found.verdict !== "here" ? '<button type="button" data-where="note">Write this down</button>' : "";
  const [heading] = /^.*?[.](?= |$)/.exec(first);
  const lines = [first.slice(heading.length).trim(), ...more, ...mend].filter(Boolean);
  return `<section class="answer is-${found.verdict.replaceAll(" ", "-")}"><h2 tabindex="-1">${safe(heading)}</h2>
${lines.map((line) => `<p>${safe(line)}</p>`).join("")}
${faults.map(([what, why, todo]) => `<p><strong>${safe(what)}</strong> ${safe(why)} ${safe(todo)}</p>`).join("")}
${bring.told ? `<p>${safe(bring.told)}</p>` : ""}${brings || writes ? `<p class="actions">${brings}${writes}</p>` : ""}</section>`;
}

/**
 * Ask in `place`, a details element, where the machine stands.
 *
 * runNow  gives the run as it now is; its `told.where` is what crankwise/tasks/where_told.py packed
 * keep    keeps taps, given as what makes them of the run: all of them or none
 */
export function askWhere(place, words, runNow, keep) {
  place.hidden = !runNow().told.where; // nothing can be read on this head
  const [asks, says] = ["asks", "says"].map((name) => place.querySelector(`.where-${name}`));
  let answer = null;
  let painted = null;

  function evidenceNow(run) {
    const moved = turnsBetween(run.state.ring_zero, run.ringTold);
    return new Evidence(run.told.where, moved);
  }

  function paint() {
    const run = runNow();
    const { state } = run;
    if (!place.open) return;
    const facts = state.facts.filter(({ entry }) => entry.kind !== "note"); // a note moves nothing: the answer still holds
    const stands = [state.began, state.paused, state.at_row, state.trail.length, facts.length, state.ring_zero].join();
    if (painted === stands) return;
    painted = stands;
    answer = null;
    says.innerHTML = "";
    const evidence = evidenceNow(run);
    const left = isAtFirst(state) ? 0 : lastDone(state);
    const saying = new WhereWords(run, words, run.told.where);
    asks.innerHTML = asking(words, evidence, left === null ? "" : `position ${saying.number(left)}: ${saying.shownAt(evidence, left)}`);
  }

  function ask() {
    const run = runNow();
    const evidence = evidenceNow(run);
    const typed = evidence.scales.map((scale, at) => {
      const [value, near] = [`where-scale${at}`, `where-near${at}`].map((id) => document.getElementById(id)?.value ?? "");
      return typedOn(evidence, scale, value, near);
    });
    const faults = typed.map(({ fault }) => fault).filter(Boolean);
    const readings = typed.map(({ reading }) => reading).filter(Boolean);
    if (!faults.length && !readings.length) faults.push("Nothing is typed: type what one of the scales shows, or more of them.");
    answer = faults.length ? null : answerOf(run, words, evidence, readings);
    says.innerHTML = answer
      ? answered(answer, run.state.began)
      : `<section class="answer is-misread">${faults.map((fault) => `<p>${safe(fault)}</p>`).join("")}</section>`;
    const section = says.firstElementChild;
    section.querySelector("h2")?.focus({ preventScroll: true });
    section.scrollIntoView();
  }

  async function bring() {
    const { bring: to } = answer;
    if (!(await keep(({ state }, nameOf, at) => stepsTo(state, to.row, nameOf, at)))) return;
    place.open = false;
  }

  async function note() {
    const { note: text } = answer;
    const kept = await keep(({ state }, nameOf, at) => [{ kind: "note", tap: nameOf(0), at, row: Math.min(state.at_row, state.rows - 1), note: text }]);
    const button = kept && says.querySelector("[data-where=note]");
    if (button) button.replaceWith("Written down.");
  }

  place.addEventListener("click", (event) => {
    const wanted = event.target.closest("button[data-where]")?.dataset.where;
    if (wanted === "ask") ask();
    else if (wanted && answer) ({ bring, note })[wanted]();
  });
  place.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.closest("input")) return;
    event.preventDefault();
    ask();
  });
  place.addEventListener("toggle", paint);

  /** Open it; `ring` is what the ring was read to show just now, where it was. */
  function open(ring) {
    place.open = true;
    paint();
    const at = runNow().told.where.scales.findIndex(({ name }) => name === "ring");
    if (ring !== undefined && at >= 0) document.getElementById(`where-scale${at}`).value = ring;
    place.scrollIntoView();
  }
  return { paint, open };
}
