// Where a run stands: a fold over its journal, by the rules of crankwise/run/journal.py. The tests fold
// thousands of journals on both sides and compare. No screen, no clock and no storage here.

const INTERVALS_KEPT = 15;
const LEAST_ROWS = 3;
const A_BREAK = 5;

const STEPS = ["done", "back", "skipped"];
const FACTS = ["bad", "good", "overshot", "ring", "returned", "slipped", "note"];
const WHEREVER_IT_STANDS = ["bad", "good", "overshot", "ring", "returned", "note", "paused", "resumed"];

/** The run before its first entry. */
export function freshState(rows, gates) {
  return {
    rows,
    gates,
    began: false,
    numbers_grow: null,
    at_row: 0,
    last_at: null,
    entries: 0,
    front: 0,
    skipped: [],
    paused: false,
    trail: [],
    facts: [],
    begun_by: null,
    ring_zero: "0", // exact text, in turns of the spindle
    intervals: [],
    timed_from: null,
    reopened: null,
  };
}

const given = (value) => value !== undefined && value !== null;

/** Whether an entry changes the run as it stands; a repeat or a late one does not. */
export function counts(state, entry) {
  const { kind } = entry;
  const row = given(entry.row) ? entry.row : null;
  if (given(entry.seen) && entry.seen !== state.entries && !WHEREVER_IT_STANDS.includes(kind)) return false;
  if (kind === "began") return !state.began;
  if (!state.began) return false;
  if (FACTS.includes(kind)) return isNewFact(state, entry, row);
  if (kind === "paused") return !state.paused;
  if (kind === "resumed") return state.paused;
  if (kind === "undone") return given(entry.of) && canUndo(state, entry.of);
  if (state.paused || !STEPS.includes(kind)) return false;
  if (kind === "done") return row === state.at_row && row < state.rows;
  if (kind === "skipped") {
    return row === state.at_row && row === state.front && row < state.rows && !state.gates.includes(row);
  }
  return state.trail.length > 0 && row === state.trail.at(-1).row;
}

function isNewFact(state, entry, row) {
  if (state.facts.some((fact) => fact.entry.tap === entry.tap)) return false;
  if (entry.kind === "slipped" && !given(entry.angle)) return false;
  if (entry.kind === "ring" && !given(entry.reading)) return false;
  if (row === null) return entry.kind === "note";
  return row >= 0 && row < state.rows;
}

function canUndo(state, tap) {
  return (
    (tap === state.begun_by && state.trail.length === 0) || state.facts.some((fact) => fact.entry.tap === tap)
  );
}

/** The state after one entry; the same state when the entry does not count. */
export function after(state, entry) {
  if (!counts(state, entry)) return state;
  const changed = { ...state, ...change(state, entry) };
  changed.last_at = entry.at;
  changed.entries = state.entries + 1;
  changed.at_row = nextRow(changed);
  return changed;
}

function change(state, entry) {
  switch (entry.kind) {
    case "began":
      return {
        began: true,
        numbers_grow: entry.numbers_grow ?? null,
        begun_by: entry.tap,
        ring_zero: entry.angle ?? "0",
        timed_from: entry.at,
      };
    case "done":
      return done(state, entry);
    case "skipped":
      return { ...stepped(state, entry), skipped: [...state.skipped, state.at_row], front: state.front + 1 };
    case "back":
      return reopened(state);
    case "paused":
      return { paused: true, timed_from: null };
    case "resumed":
      return { paused: false, timed_from: null };
    case "undone":
      if (entry.of === state.begun_by && state.trail.length === 0) {
        return { began: false, numbers_grow: null, begun_by: null, ring_zero: "0", timed_from: null };
      }
      return { facts: state.facts.filter((fact) => fact.entry.tap !== entry.of) };
    default: {
      const suspect = entry.kind === "slipped" ? workedSince(state, entry.since) : [];
      return { facts: [...state.facts, { entry, steps: state.trail.length, suspect, is_left: false }] };
    }
  }
}

function done(state, entry) {
  let { intervals } = state;
  if (state.timed_from !== null && entry.at > state.timed_from) {
    intervals = [...intervals, entry.at - state.timed_from].slice(-INTERVALS_KEPT);
  }
  const step = stepped(state, entry);
  if (state.at_row === state.front) return { ...step, intervals, front: state.front + 1 };
  return { ...step, intervals, skipped: state.skipped.filter((row) => row !== state.at_row) };
}

function stepped(state, entry) {
  const came_back = entry.kind === "done" && state.at_row !== state.front;
  return {
    trail: [...state.trail, { row: state.at_row, kind: entry.kind, came_back }],
    timed_from: entry.at,
    reopened: entry.kind === "done" ? null : state.reopened,
  };
}

function reopened(state) {
  const { row, kind, came_back } = state.trail.at(-1);
  const left = state.trail.length - 1;
  return {
    skipped: came_back
      ? [...state.skipped, row].sort((one, other) => one - other)
      : state.skipped.filter((other) => other !== row),
    front: came_back ? state.front : state.front - 1,
    trail: state.trail.slice(0, -1),
    facts: state.facts.map(({ entry, steps, suspect, is_left }) => ({
      entry,
      steps: Math.min(steps, left),
      suspect: suspect.filter((other) => other !== row),
      is_left: is_left || (kind === "done" && steps <= left),
    })),
    timed_from: null,
    reopened: row,
  };
}

function workedSince(state, since) {
  const order = state.trail.filter((step) => step.kind === "done").map((step) => step.row);
  const first = given(since) ? order.indexOf(since) : -1;
  return first < 0 ? [] : order.slice(first);
}

function nextRow(state) {
  if (state.skipped.length && (state.front === state.rows || state.gates.includes(state.front))) {
    const bad = badRows(state);
    return state.skipped.find((row) => !bad.has(row)) ?? state.front;
  }
  return state.front;
}

/** The row that comes after the one in hand; `rows` when that is the last. */
export function following(state) {
  const at = state.at_row;
  if (at !== state.front) {
    return nextRow({ ...state, skipped: state.skipped.filter((row) => row !== at) });
  }
  return at < state.rows ? nextRow({ ...state, front: at + 1 }) : at;
}

/** The rows whose work is bad, each with what was written about it. */
export function badRows(state) {
  const found = new Map();
  for (const { entry } of state.facts) {
    if (!given(entry.row)) continue;
    if (entry.kind === "bad") found.set(entry.row, entry.note ?? "");
    else if (entry.kind === "good") found.delete(entry.row);
  }
  return found;
}

/** The rows done after a slip and before it was found, not yet looked at nor done again. */
export function suspectRows(state) {
  const doubtful = new Set();
  for (const { entry, suspect } of state.facts) {
    suspect.forEach((row) => doubtful.add(row));
    if (["good", "bad"].includes(entry.kind) && given(entry.row)) doubtful.delete(entry.row);
  }
  return [...doubtful].sort((one, other) => one - other);
}

export const isFinished = (state) => state.at_row === state.rows;
export const doneCount = (state) => state.front - state.skipped.length;

/** The row done last, where the machine was left; null before the first. */
export function lastDone(state) {
  return state.trail.findLast((step) => step.kind === "done")?.row ?? null;
}

/** Seconds that a row takes and that the rest will take, at the operator's own pace; null before enough are timed. */
export function pace(state) {
  const times = state.intervals;
  if (times.length < LEAST_ROWS) return null;
  const byLength = (one, other) => one - other;
  const middle = [...times].sort(byLength)[Math.floor(times.length / 2)];
  const unbroken = times.filter((time) => time <= A_BREAK * middle).sort(byLength);
  const row = unbroken[Math.floor(unbroken.length / 2)];
  const bad = badRows(state);
  const left = state.rows - state.front + state.skipped.filter((other) => !bad.has(other)).length;
  return { row, left: row * left };
}

/** Whether a return to the first line was put off: nothing was looked at. */
export const isPutOff = (entry) => entry.kind === "returned" && !given(entry.angle) && !given(entry.off_mm);

/**
 * The row before which the tool is to be brought to the first line now, as in crankwise/run/first_line.py;
 * null when it is not. `planned` are the rows at which the run asks for it.
 */
export function returnDue(state, planned) {
  const hasFirst = state.front > 0 && !state.skipped.includes(0) && !badRows(state).has(0);
  if (!state.began || !hasFirst) return null;
  const returns = state.facts.map(({ entry }) => entry).filter(({ kind }) => kind === "returned");
  if (state.paused || isFinished(state)) {
    return returns.length && isPutOff(returns.at(-1)) ? Math.min(state.at_row, state.rows - 1) : null;
  }
  if (!planned.includes(state.at_row)) return null;
  return returns.some(({ row }) => row === state.at_row) ? null : state.at_row;
}

/** The last return that was looked at, when nothing was done nor made good since; null when there is none. */
export function lastReturn(state) {
  const told = ({ entry }) => entry.kind === "slipped" || (entry.kind === "returned" && !isPutOff(entry));
  const last = state.facts.findLast(told);
  if (!last || last.entry.kind !== "returned" || last.steps !== state.trail.length) return null;
  return last.entry;
}

/** Whether the tool was brought to the first line or space since the last row was done: the machine stands there. */
export function isAtFirst(state) {
  return state.facts.some(
    ({ entry, steps, is_left }) =>
      entry.kind === "returned" && !isPutOff(entry) && !is_left && state.trail.slice(steps).every(({ kind }) => kind !== "done"),
  );
}

/** The rows worked since the first line was last met, in order; `meets` says of a return whether it was. */
export function workedSinceMet(state, meets) {
  let from = 0;
  let isOff = false;
  for (const { entry, steps } of state.facts) {
    if (entry.kind === "slipped" && isOff) [from, isOff] = [steps, false];
    else if (entry.kind === "returned" && !isPutOff(entry)) {
      isOff = !meets(entry);
      if (!isOff) from = steps;
    }
  }
  return state.trail.slice(from).filter((step) => step.kind === "done").map((step) => step.row);
}

/** The state that a journal comes to, from the state before it. */
export function replayed(start, entries) {
  return entries.reduce(after, start);
}
