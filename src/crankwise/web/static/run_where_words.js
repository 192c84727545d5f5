// Where the machine stands, in words: the sentences of crankwise/wording/run_where.py and run_faults.py, with the
// long ones handed over by the workshop. The tests hold both sides to each other.

import { from } from "./run_evidence.js";
import { exactOf, figure, isMore, minus, plus, size, textOf, times, whole } from "./run_ring.js";

const MOST_TOLD = 6;
const MOST_FAULTS = 2;
const FINEST_PART = 60n;
const SECONDS = 1_296_000n;
const INCH = figure(127n, 5n);

const filled = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);

/** A figure that is not below zero, to so many decimals, halves up. */
function decimal(one, places) {
  const unit = 10n ** BigInt(places);
  const count = String((2n * one.top * unit + one.bottom) / (2n * one.bottom)).padStart(places + 1, "0");
  return places ? `${count.slice(0, -places)}.${count.slice(-places)}` : count;
}

function angleText(turns) {
  const tenths = BigInt(decimal(times(turns, whole(SECONDS * 10n)), 0));
  const [minutes, rest] = [tenths / 600n, tenths % 600n];
  return `${decimal(times(turns, whole(360)), 2)} degrees (${minutes / 60n}°${minutes % 60n}'${decimal(figure(rest, 10n), 1)}")`;
}

/** What a scale shows, as it is read. */
function showsText(name, value) {
  if (name === "ring") return decimal(value, 2);
  const text = textOf(value);
  if (!text.includes("/") && (text.split(".")[1] ?? "").length <= 3) return text;
  const [count, part] = [value.top / value.bottom, figure(value.top % value.bottom, value.bottom)];
  if (part.bottom > FINEST_PART) return decimal(value, 2);
  return `${count ? `${count} ` : ""}${part.top}/${part.bottom}`;
}

function surelyText(odds) {
  if (isMore(odds, figure(99n, 100n))) return "over 99 in 100";
  if (isMore(figure(1n, 100n), odds)) return "under 1 in 100";
  return `${decimal(times(odds, whole(100)), 0)} in 100`;
}

const isByEye = ({ scale }) => scale.startsWith("ring") || scale.startsWith("dial");
const isAhead = ({ top }) => top > 0n;
const plural = (count, one) => `${count} ${one}${count === 1 ? "" : "s"}`;

/** What is said of a run: `run` has its rows, `words` the workshop's sentences, `told` what it packed. */
export class WhereWords {
  constructor(run, words, told) {
    Object.assign(this, { run, words, told });
  }

  /** A position's bare number; that of a closing row is the one met again. */
  number(row) {
    return this.run.row(row).position.split(" = ").at(-1);
  }

  shows(scale, value) {
    return showsText(scale, value);
  }

  far(turns) {
    if (!this.told.straight_mm) return angleText(size(turns));
    const length = times(size(turns), whole(this.told.straight_mm));
    return `${decimal(length, 3)} mm (${decimal(times(length, figure(INCH.bottom, INCH.top)), 4)} in)`;
  }

  /** How far along a slide a position lies from the first. */
  fromFirst(row) {
    const numbers = Array.from({ length: this.run.told.row_count }, (_, one) => Number(this.number(one)));
    return this.far(times(exactOf(this.told.gears[0].part), whole(numbers[row] - Math.min(...numbers))));
  }

  /** The answer in sentences, the plainest first; for what has slipped, without what to do. */
  sentences(found) {
    const said = this.said(found);
    const { words } = this;
    if (this.told.straight_mm && !found.turn_shown && found.candidates.length) {
      const told = found.row === null ? found.candidates.slice(0, MOST_TOLD) : found.candidates.slice(0, 1);
      const place = ({ row }) => `position ${this.number(row)} is ${this.fromFirst(row)}`;
      said.push(filled(words.measure_the_turn, { places: told.map(place).join(", ") }));
    } else if (!found.turn_shown && found.row !== null) said.push(words.read_the_turn);
    return said;
  }

  said(found) {
    const [first] = found.candidates;
    switch (found.verdict) {
      case "here":
        return [`You are at position ${this.number(found.row)}.`];
      case "misread":
        return [`You are at position ${this.number(found.row)}, if one reading was wrong.`, ...first.misread.map((one) => `${this.misread(one)} ${isByEye(one) ? this.words.re_read : this.words.count_again}`)];
      case "off a row":
        return [this.offARow(found.off_a_row)];
      case "slipped":
        return [this.slip(found.slips[0]), this.suspect(found.slips[0])];
      default:
        return this.undecided(found);
    }
  }

  undecided(found) {
    const lines = found.candidates.slice(0, MOST_TOLD).map((one) => this.candidate(one));
    const sum = (several) => several.reduce((all, { odds }) => plus(all, odds), whole(0));
    const isWorth = (odds) => !isMore(exactOf(this.told.slip_worth_telling), odds);
    const more = found.candidates.slice(MOST_TOLD);
    if (more.length) lines.push(`And ${more.length} more: ${surelyText(sum(more))} for all of them.`);
    const off = found.off_a_row && isWorth(found.off_a_row.odds) ? found.off_a_row : null;
    if (off) lines.push(`At no position, ${this.offBy(off)}, and nothing has slipped: ${surelyText(off.odds)}.`);
    const slips = found.slips.slice(0, MOST_TOLD);
    lines.push(...slips.map((one) => this.slip(one)));
    const rest = plus(whole(1), minus(sum([...found.candidates, ...slips, ...(off ? [off] : [])])));
    if (isWorth(rest)) lines.push(`The rest, ${surelyText(rest)}: ${off ? this.words.rest_told : this.words.rest_between}`);
    lines.push(...found.beside.map((one) => this.beside(one)));
    if (found.candidates.every(({ misread }) => misread.length)) return ["No position agrees with what was read.", this.words.stop, ...lines];
    return ["These readings do not decide it.", ...lines, "Read one more scale, or read these more nearly."];
  }

  candidate({ row, odds, misread }) {
    const told = `Position ${this.number(row)}: ${surelyText(odds)}`;
    return misread.length ? `${told}, if misread. ${misread.map((one) => this.misread(one)).join(" ")}` : `${told}.`;
  }

  beside({ row, shows }) {
    return `Position ${this.number(row)}, near where the journal stands, shows ${showsText("dial", shows)} on the dial, about a mark from what was read: it is not among these. Read the dial again.`;
  }

  misread({ scale, how, shows }) {
    const told = !isByEye({ scale }) ? "by one in counting" : how === "interval" ? "by one numbered interval" : "backwards, from the wrong numeral";
    return `The ${scale} would show ${showsText(scale, shows)}, and was read wrongly ${told}.`;
  }

  offARow(off) {
    const back = isAhead(off.ahead) ? "Go back past it, half a turn or more, and come up" : "Go on";
    return `You are ${this.offBy(off)}, at no position. Nothing has slipped: the scales agree with each other. ${back} to the reading of the position you want.`;
  }

  offBy({ ahead, turns, row }) {
    const far = turns ? `${plural(Math.abs(turns), "whole turn")} of the ${this.told.straight_mm ? "screw" : "crank"}` : this.far(ahead);
    return `${far} ${isAhead(ahead) ? "past" : "short of"} position ${this.number(row)}`;
  }

  slip({ joint, row, angle, within, odds }) {
    const { set_by, lost_steps } = this.words;
    const { set_on } = this.run.row(row);
    const [far, surely, at] = [angleText(size(angle)), surelyText(odds), this.number(row)];
    if (joint === "dial") {
      const hasDial = this.told.scales.some(({ name }) => name === "dial");
      const what = (hasDial ? null : set_by[set_on]) ?? set_by.dial;
      return `The ring agrees with position ${at} and the setting does not: it shows ${far} ${isAhead(angle) ? "less" : "more"} than it should. ${what}; ${surely}.`;
    }
    const minutes = times(within, whole(SECONDS / 60n));
    const near = isMore(whole(2), minutes) ? "to 2 minutes of arc or less" : `give or take ${decimal(minutes, 0)} minutes of arc`;
    return `The setting agrees with position ${at} and the ring does not: the work stands ${far} ${isAhead(angle) ? "ahead of" : "behind"} its setting, ${near}. The wheel has slipped on its spindle, or the ring on it${set_on === "steps" ? lost_steps : ""}; ${surely}.`;
  }

  suspect({ suspect }) {
    if (!suspect.length) return "Nothing was worked since the ring last agreed.";
    const looked = suspect.length === 1 ? "look at it" : `look at positions ${this.listed(suspect).join("")}`;
    return `It slipped at position ${this.number(suspect[0])} at the earliest: ${looked}.`;
  }

  /** The positions of two rows or more in their order, and how many: `["4 to 6", ", 3 of them"]`, or `["8, 1, 6", ""]`. */
  listed(rows) {
    const numbers = rows.map((row) => Number(this.number(row)));
    const inTurn = numbers.every((one, place) => !place || one - numbers[place - 1] === 1);
    if (!inTurn && numbers.length <= MOST_TOLD) return [numbers.join(", "), ""];
    return [`${numbers[0]} to ${numbers.at(-1)}${inTurn ? "" : " in the order worked"}`, `, ${numbers.length} of them`];
  }

  /** What standing off a row may come of: each as what it is, why, and what to do. */
  faults(found, row) {
    const { kinds, units } = this.words;
    const { position, set_on } = this.run.row(row);
    return found.slice(0, MOST_FAULTS).map(({ kind, size: by, times: count }) => {
      const [what, why, todo] = kinds[kind];
      const [one, several] = units[kind] ?? ["", ""];
      const counted = Math.abs(count);
      const isByArms = kind === "wrong arms";
      const values = {
        size: `${this.far(by)}${isByArms ? "" : isAhead(by) ? " ahead" : " behind"}`,
        times: `${counted} ${counted === 1 ? one : several} too ${count > 0 ? "many" : "few"}`,
        scale: set_on === "ring" ? "ring" : "dial",
      };
      const since = isByArms ? "" : ` Seen from position ${position}${from(this.told.passes, row)} on.`;
      return [`${filled(what, values)}${since}`, filled(why, values), todo];
    });
  }

  /** What it takes for the run to stand at the row where the machine stands, when that is another than the one to do. */
  bring(row, at) {
    const number = this.number(row);
    if (row === at + 1) return `If position ${this.number(at)} is done, tick it: the run then stands at ${number}.`;
    if (row > at) {
      const those = Array.from({ length: row - at }, (_, place) => at + place);
      const [span, count] = this.listed(those);
      return `If positions ${span} are done${count}, tick them: the run then stands at ${number}. Look at each first.`;
    }
    return `The run is further on than the machine. Come up to the position in hand; or reopen those from ${number} on, if they are not done.`;
  }

  /** What every scale shows at a row: dial 33.5, ring 252.43. */
  shownAt(evidence, row) {
    return evidence.scales
      .map((scale) => [scale.name, evidence.shown(scale, row)])
      .filter(([name, value]) => value !== null && name !== "measured")
      .map(([name, value]) => `${name} ${showsText(name, value)}`)
      .join(", ");
  }
}
