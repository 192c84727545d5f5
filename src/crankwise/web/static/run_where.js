// Where the machine stands, from what can be read on it: as crankwise/run/where_am_i.py and crankwise/run/slips.py
// weigh it, and the fault named as crankwise/run/faults.py names it. The tests hold both sides to each other.

import { after, isAtFirst, isFinished, lastDone } from "./run_engine.js";
import { apart, from, isNothing, RING, showsTurn, weighedOn, within1 } from "./run_evidence.js";
import { exactOf, figure, isMore, minus, plus, size, times, whole } from "./run_ring.js";

const less = (one, other) => isMore(other, one);
const floor = ({ top, bottom }) => (top - (((top % bottom) + bottom) % bottom)) / bottom;
const half = figure(1n, 2n);
const over = (one) => figure(one.bottom, one.top); // of what is above 0

/** The rows that the journal speaks of: where it was left, the one to do, the one before the last, the one after. */
function rowsAbout(state) {
  const done = state.trail.slice(-3).filter(({ kind }) => kind === "done");
  const ahead = state.began && !isFinished(state) ? state.at_row : null;
  return [isAtFirst(state) ? 0 : lastDone(state), ahead, done.at(-2)?.row ?? null, ahead === null ? null : ahead + 1];
}

/** The odds of each row before anything is read: whole numbers over one `bottom`. */
function rowOdds(odds, count, about) {
  const known = new Map();
  const weights = [odds.here, odds.next, odds.one_back, odds.one_on];
  about.forEach((row, place) => row !== null && row < count && !known.has(row) && known.set(row, weights[place]));
  const others = count - known.size;
  const evenly = others ? 1000 - weights.reduce((sum, weight) => sum + weight) : 0;
  const total = [...known.values()].reduce((sum, weight) => sum + weight, evenly);
  const before = Array(count).fill(BigInt(evenly));
  for (const [row, weight] of known) before[row] = BigInt(weight * (others || 1));
  return { before, bottom: BigInt(total * (others || 1)) };
}

function weighed(columns, count) {
  return Array.from({ length: count }, (_, row) => {
    const marks = columns.map((column) => column.marks[row]);
    const times = (isRing) => columns.reduce((product, column, place) => (column.isRing === isRing ? product * marks[place].likely : product), 1n);
    const ring = marks[columns.findIndex(({ isRing }) => isRing)];
    return {
      row,
      ring: times(true),
      others: times(false),
      misread: marks.map(({ misread }) => misread).filter(Boolean),
      shown: marks.map(({ shown }) => shown).join(" "),
      near: ring?.near ?? true,
      turned: ring?.turned ?? [1n, 1n],
    };
  });
}

/** How likely each way to stand is after reading: whole numbers that come to `total`. */
function shares(evidence, readings, columns, seen, { before, bottom }) {
  const { odds, slip_chance } = evidence.told;
  const product = (which, isRing) => columns.reduce((one, column) => (column.isRing === isRing ? one * column[which] : one), 1n);
  const slips = columns.some(({ isRing }) => isRing) && columns.some(({ isRing }) => !isRing);
  const [ringChance, otherChance] = [product("chance", true), product("chance", false)];
  const read = product("bottom", true) * product("bottom", false);
  const [far, small] = slip_chance.map(exactOf);
  const slipped = far.bottom * small.bottom;
  const anywhere = chanceAnywhere(evidence, readings);
  const each = slipped * anywhere.bottom;
  const atRows = before.map((share) => BigInt(2 * odds.at_a_row) * share);
  let off = BigInt(2 * odds.off_a_row) * bottom * read * slipped * anywhere.top;
  evidence.aTurnOff.forEach((beside, row) =>
    beside.forEach((other, side) => {
      const share = BigInt(odds.a_turn_out) * before[row];
      if (other !== null) atRows[other] += share;
      else if (slips) off += share * seen[row].others * seen[row].turned[side] * each;
    }),
  );
  let total = off + BigInt(2 * odds.anything) * bottom * ringChance * otherChance * each;
  const at = seen.map(({ row, ring, others, near }) => {
    const chance = near ? small.top * far.bottom : far.top * small.bottom;
    const share = 2n * before[row];
    const found = {
      row: atRows[row] * ring * others * each,
      spindle: slips ? BigInt(odds.spindle) * share * others * ringChance * chance * anywhere.bottom : 0n,
      dial: slips ? BigInt(odds.dial) * share * ring * otherChance * each : 0n,
    };
    total += found.row + found.spindle + found.dial;
    return found;
  });
  return { at, off, total };
}

/** Where in so many rounds of the spindle the crank's reading and the ring's are both met; null where they cannot say. */
function windows(evidence, readings) {
  const { crank } = evidence.told;
  const ring = readings.find(showsTurn);
  const read = crank?.scales.map((name) => readings.find(({ scale }) => scale.name === name));
  if (!read || read.includes(undefined)) return null;
  const ratio = exactOf(crank.ratio);
  let [part, near] = [whole(0), half];
  for (const { scale, value } of read) {
    part = plus(part, times(value, figure(1n, BigInt(scale.full))));
    near = times(near, times(scale.within.top ? times(whole(2), scale.within) : whole(1), figure(1n, BigInt(scale.full))));
  }
  part = within1(part);
  // A wheel on the spindle, or a drive's count, says the whole angle by itself.
  if (!ring) return ratio.top === ratio.bottom ? { overlaps: [[plus(part, minus(near)), plus(part, near)]], rounds: 1n } : null;
  const around = figure(1n, BigInt(ring.scale.full));
  const stood = ring.scale.name === RING ? evidence.ring : evidence.work;
  const middle = plus(times(times(evidence.grows, ring.value), around), minus(stood));
  const ringNear = times(ring.scale.within, around);
  const overlaps = [];
  for (let round = 0n; round < ratio.bottom; round += 1n) {
    const low = plus(plus(middle, whole(round)), minus(ringNear));
    const high = plus(plus(middle, whole(round)), ringNear);
    const last = floor(plus(plus(times(high, ratio), minus(part)), near));
    for (let turn = -floor(minus(plus(times(low, ratio), minus(plus(part, near))))); turn <= last; turn += 1n) {
      const [from, to] = [minus(near), near].map((by) => times(plus(plus(whole(turn), part), by), over(ratio)));
      const [start, end] = [less(from, low) ? low : from, less(high, to) ? high : to];
      if (less(start, end)) overlaps.push([start, end]);
    }
  }
  return { overlaps, rounds: ratio.bottom };
}

function chanceAnywhere(evidence, readings) {
  const found = windows(evidence, readings);
  if (!found) return readings.reduce((chance, { apart: told }) => times(chance, over(told)), whole(1));
  const wide = found.overlaps.reduce((sum, [low, high]) => plus(sum, plus(high, minus(low))), whole(0));
  return times(wide, figure(1n, found.rounds));
}

function offARow(evidence, readings, state) {
  const wide = ([low, high]) => plus(high, minus(low));
  const { overlaps } = windows(evidence, readings) ?? {};
  if (!overlaps) return aTurnOff(evidence, readings, state);
  if (!overlaps.length) return null;
  const [low, high] = overlaps.reduce((most, one) => (isMore(wide(one), wide(most)) ? one : most));
  const [angle, within] = [times(plus(low, high), half), times(plus(high, minus(low)), half)];
  const found = rowsNear(evidence, state).map((row) => {
    let ahead = within1(plus(angle, minus(setAt(evidence, row))));
    if (isMore(ahead, half)) ahead = plus(ahead, whole(-1));
    return { angle: within1(angle), within, row, ahead, turns: wholeTurns(evidence, ahead, within) };
  });
  return found.find(({ turns }) => turns) ?? found.at(-1);
}

const rowsNear = (evidence, state) => [...rowsAbout(state), Math.min(state.at_row, evidence.count - 1)].filter((row) => row !== null && row < evidence.count);
const setAt = (evidence, row) => plus(evidence.place(row), minus(evidence.work));

/** The row near the one in hand that all scales agree with but the ring, which is a whole turn off. */
function aTurnOff(evidence, readings, state) {
  const ring = readings.find(({ scale }) => scale.name === RING);
  const { ratio } = evidence;
  if (!ring || readings.length === 1 || !ratio || !evidence.aTurnOff.length) return null;
  const turn = times(times(evidence.grows, whole(ring.scale.full)), over(ratio));
  for (const row of rowsNear(evidence, state)) {
    for (const turns of [1, -1]) {
      const agrees = ({ scale, value }) => {
        const shows = evidence.shown(scale, row);
        const wanted = shows && scale.name === RING ? plus(shows, times(whole(turns), turn)) : shows;
        return wanted !== null && isNothing(apart(scale, value, wanted), scale.within);
      };
      if (!readings.every(agrees)) continue;
      const ahead = times(whole(turns), over(ratio));
      const within = times(ring.scale.within, figure(1n, BigInt(ring.scale.full)));
      return { angle: within1(plus(setAt(evidence, row), ahead)), within, row, ahead, turns };
    }
  }
  return null;
}

function wholeTurns(evidence, ahead, within) {
  const { ratio, told } = evidence;
  if (!ratio || !evidence.aTurnOff.length) return 0;
  const made = times(ahead, ratio);
  let turns = floor(plus(made, half));
  if (made.bottom === 2n && turns % 2n) turns -= 1n; // halves go to the even count
  const isClose = isNothing(plus(ahead, minus(times(whole(turns), over(ratio)))), within);
  return isClose && Math.abs(Number(turns)) <= told.most_times ? Number(turns) : 0;
}

/** The rows worked since the ring last agreed, in order. */
function suspects(evidence, state) {
  const ring = evidence.scales.find(({ name }) => name === RING);
  let steps = 0;
  for (const { entry, steps: at } of ring ? state.facts : []) {
    if (entry.kind !== "ring") continue;
    const off = apart(ring, exactOf(entry.reading), evidence.shown(ring, entry.row));
    if (isNothing(off, ring.within)) steps = Math.max(steps, at);
  }
  return state.trail.slice(steps).filter(({ kind }) => kind === "done").map(({ row }) => row);
}

function slipAt(evidence, readings, state, row, joint) {
  for (const { scale, value } of readings) {
    const shows = evidence.shown(scale, row);
    if ((scale.name === RING) !== (joint === "spindle") || shows === null) continue;
    const off = apart(scale, value, shows);
    if (isNothing(off, scale.within)) continue;
    if (scale.turns === null) return null;
    const turns = exactOf(scale.turns);
    const angle = times(joint === "spindle" ? off : minus(off), turns);
    const suspect = suspects(evidence, state);
    return { joint, row, angle, within: times(scale.within.top ? scale.within : half, size(turns)), since: suspect[0] ?? null, suspect };
  }
  return null;
}

const most = (one, other) => (one.odds < other.odds ? 1 : one.odds > other.odds ? -1 : 0);
const isAtLeast = (odds, total, share) => odds * share.bottom >= total * share.top;

function slipsOf(evidence, readings, state, { before }, seen, { at, total }) {
  if (new Set(readings.map(({ scale }) => scale.name === RING)).size < 2) return [];
  const alike = new Map();
  for (const { row, shown, misread } of [...seen].sort((one, other) => Number(before[one.row] < before[other.row]) - Number(before[one.row] > before[other.row]))) {
    for (const joint of ["spindle", "dial"]) {
      const odds = at[row][joint];
      if (!odds || misread.some(({ scale }) => (scale === RING) === (joint === "dial"))) continue;
      const known = alike.get(`${joint} ${shown}`) ?? { row, joint, odds: 0n };
      alike.set(`${joint} ${shown}`, { ...known, odds: known.odds + odds });
    }
  }
  const least = exactOf(evidence.told.slip_worth_telling);
  return [...alike.values()]
    .filter(({ odds }) => isAtLeast(odds, total, least))
    .map(({ row, joint, odds }) => ({ slip: slipAt(evidence, readings, state, row, joint), odds }))
    .filter(({ slip }) => slip)
    .map(({ slip, odds }) => ({ ...slip, odds }))
    .sort((one, other) => most(one, other) || Number(isMore(size(one.angle), size(other.angle))) - Number(isMore(size(other.angle), size(one.angle))) || one.row - other.row);
}

function candidatesOf(evidence, { before }, seen, { at, total }) {
  const groups = new Map();
  for (const weight of seen) {
    if (!(weight.ring * weight.others)) continue;
    const key = `${evidence.places[weight.row]} ${weight.shown}`;
    groups.set(key, [...(groups.get(key) ?? []), weight]);
  }
  const least = exactOf(evidence.told.worth_telling);
  return [...groups.values()]
    .map((group) => {
      const alike = group.map(({ row }) => row);
      const row = alike.reduce((best, one) => (before[one] > before[best] ? one : best));
      return { row, alike, odds: alike.reduce((sum, one) => sum + at[one].row, 0n), misread: group[0].misread };
    })
    .filter(({ misread, odds }) => !misread.length || isAtLeast(odds, total, least))
    .sort((one, other) => most(one, other) || one.row - other.row);
}

/** The rows that the journal speaks of that are told nowhere else, and would agree were the dial read a mark out. */
function besideOf(evidence, readings, state, candidates) {
  const dial = readings.find(({ scale }) => scale.name === "dial")?.scale;
  if (!dial) return [];
  const told = new Set(candidates.flatMap(({ alike }) => alike));
  const near = ({ name, within }) => (name === "dial" ? plus(within, exactOf(evidence.told.a_mark)) : within);
  const isNear = (row) => ({ scale, value }) => {
    const shows = evidence.shown(scale, row);
    return shows === null || isNothing(apart(scale, value, shows), near(scale));
  };
  return [...new Set(rowsAbout(state))]
    .filter((row) => row !== null && row < evidence.count && !told.has(row))
    .sort((one, other) => one - other)
    .filter((row) => evidence.shown(dial, row) !== null && readings.every(isNear(row)))
    .map((row) => ({ row, shows: evidence.shown(dial, row) }));
}

/**
 * Where the machine stands: verdict, row, candidates, off_a_row, slips, turn_shown and beside, as WhereAmI of
 * crankwise/run/where_am_i.py; odds are figures.
 */
export function whereAmI(evidence, readings, state) {
  const before = rowOdds(evidence.told.odds, evidence.count, rowsAbout(state));
  const columns = readings.map((reading) => weighedOn(evidence, reading));
  const seen = weighed(columns, evidence.count);
  const share = shares(evidence, readings, columns, seen, before);
  const exact = (found) => ({ ...found, odds: figure(found.odds, share.total) });
  const candidates = candidatesOf(evidence, before, seen, share).map(exact);
  const slips = slipsOf(evidence, readings, state, before, seen, share).map(exact);
  const off = share.off ? offARow(evidence, readings, state) : null;
  const off_a_row = off && exact({ ...off, odds: share.off });
  const sure = exactOf(evidence.told.sure);
  const isSure = (found) => Boolean(found) && !isMore(sure, found.odds);
  let [verdict, row] = ["cannot tell", null];
  if (isSure(candidates[0])) [verdict, row] = [candidates[0].misread.length ? "misread" : "here", candidates[0].row];
  else if (isSure(off_a_row)) verdict = "off a row";
  else if (isSure(slips[0])) verdict = "slipped";
  const turn_shown = !evidence.aTurnOff.length || readings.some(showsTurn);
  return { verdict, row, candidates, off_a_row, slips, turn_shown, beside: besideOf(evidence, readings, state, candidates) };
}

/** How many of a unit lie between two bounds, the fewest; 0 where only none do. */
function multiple([low, high], unit, most_times) {
  const middle = times(plus(low, high), half);
  const far = (count) => size(plus(times(whole(count), unit), minus(middle)));
  let best = 0;
  for (let count = -most_times; count <= most_times; count += 1) {
    const made = times(whole(count), unit);
    if (!count || less(made, low) || isMore(made, high)) continue;
    const isFewer = Math.abs(count) < Math.abs(best) || (Math.abs(count) === Math.abs(best) && less(far(count), far(best)));
    if (!best || isFewer) best = count;
  }
  return best;
}

/** What standing off a row may come of, the plainest first: as crankwise/run/faults.py explains one residue. */
export function faultsOf(evidence, off) {
  const { gears, gear_from, most_times, arms_out } = evidence.told;
  if (isNothing(off.ahead, off.within)) return [];
  const gear = gears[from(gear_from, off.row)];
  const given = (text) => (text === null ? null : exactOf(text));
  const [mark, play] = [gear.mark, gear.backlash].map(given);
  const interval = mark && gear.interval ? whole(gear.interval) : null;
  const bounds = [plus(off.ahead, minus(off.within)), plus(off.ahead, off.within)];
  const rounded = exactOf(gear.rounded);
  const wider = [plus(bounds[0], minus(rounded)), plus(bounds[1], rounded)];
  const found = [];
  for (const [kind, several, within] of [
    ["miscount", [given(gear.part)], wider],
    ["miscount of moves", [gear.move === gear.part ? null : given(gear.move)], wider],
    ["whole turn", [given(gear.turn)], bounds],
    ["misread numeral", [interval && size(times(mark, interval))], bounds],
    ["miscount of holes", gear.holes.map(exactOf), bounds],
    ["miscount of notches", gear.notches.map(exactOf), bounds],
  ]) {
    const fits = several.filter((unit) => unit?.top).map((unit) => ({ unit, times: multiple(within, unit, most_times) })).filter((one) => one.times);
    if (!fits.length) continue;
    const fewest = fits.reduce((best, one) => (Math.abs(one.times) < Math.abs(best.times) ? one : best));
    found.push({ kind, size: times(whole(fewest.times), fewest.unit), times: fewest.times });
  }
  for (const one of play?.top ? [play, minus(play)] : []) {
    if (!less(one, bounds[0]) && !isMore(one, bounds[1])) found.push({ kind: "wrong approach", size: one, times: 0 });
  }
  const shows = evidence.setReading(off.row);
  if (shows && interval) {
    const lower = times(whole(floor(times(shows, over(interval)))), interval);
    const by = times(plus(plus(times(whole(2), lower), interval), times(whole(-2), shows)), mark);
    if (by.top && isNothing(plus(off.ahead, minus(by)), off.within)) found.push({ kind: "read backwards", size: off.ahead, times: 0 });
  }
  found.sort((one, other) => Math.max(1, Math.abs(one.times)) - Math.max(1, Math.abs(other.times)));
  const arms = gear.by_arms ? gear.holes.flatMap((hole) => arms_out.map((count) => ({ kind: "wrong arms", size: times(whole(count), exactOf(hole)), times: count }))) : [];
  arms.sort((one, other) => Number(isMore(size(one.size), size(other.size))) - Number(isMore(size(other.size), size(one.size))));
  const near = arms.find((one) => {
    const rest = within1(plus(off.ahead, minus(times(one.size, whole(off.row)))));
    return isNothing(rest, off.within) || isNothing(plus(rest, whole(-1)), off.within);
  });
  return near ? [...found, near] : found;
}

/** The taps that make a row the one to do: rows done that were not tapped, or rows reopened; null where none lead there. */
export function stepsTo(state, row, nameOf, at) {
  const steps = [];
  while (state.at_row !== row) {
    const isDone = row < state.front && !state.skipped.includes(row);
    if (isDone ? !state.trail.length : isFinished(state) || state.at_row > row) return null;
    const entry = { kind: isDone ? "back" : "done", tap: nameOf(steps.length), at, row: isDone ? state.trail.at(-1).row : state.at_row };
    const moved = after(state, entry);
    if (moved.entries === state.entries) return null;
    state = moved;
    steps.push(entry);
  }
  return steps;
}
