// What every row of a run shows on every scale, and how well readings agree with it: as crankwise/run/evidence.py
// and crankwise/run/weighing.py. Whole numbers without end, so that the odds come out to the last digit.

import { commonPart, exactOf, figure, isMore, minus, plus, size, times, whole } from "./run_ring.js";

export const RING = "ring";
const MEASURED = "measured";
const NONE = { likely: 0n, misread: null, shown: "", near: true, turned: [0n, 0n] };

/** What holds from a row on, of `[row, value]` wherever it changes. */
export const from = (changes, row) => changes.findLast(([first]) => first <= row)[1];

const multipleOf = (...all) => all.reduce((one, other) => (one / commonPart(one, other)) * other, 1n);
export const within1 = (one) => figure(((one.top % one.bottom) + one.bottom) % one.bottom, one.bottom);

/**
 * The rows unpacked from what crankwise/tasks/where_told.py packs.
 *
 * moved  turns of the spindle by which the ring stands ahead of where it stood when the rows were told: exact text
 */
export class Evidence {
  constructor(told, moved = "0") {
    this.told = told;
    this.scales = told.scales.map((scale, column) => ({ ...scale, column, within: exactOf(scale.within) }));
    const grows = told.grows ? 1 : -1;
    this.ratio = told.ratio === null ? null : exactOf(told.ratio);
    this.work = exactOf(told.anchor.work);
    this.ring = plus(exactOf(told.anchor.ring), exactOf(moved));
    this.grows = whole(grows);
    this.unpack(moved);
    this.aTurnOff = told.has_turns ? this.besides() : [];
  }

  unpack(moved) {
    const { told, scales } = this;
    this.bottoms = told.bottoms.map(BigInt);
    const wraps = this.bottoms.map((bottom, column) => bottom * BigInt(scales[column]?.full ?? 1));
    const steps = told.steps.map((step) => step.split(",").map((by) => (by === "" ? null : BigInt(by))));
    const at = wraps.map(() => 0n);
    this.columns = wraps.map(() => []);
    for (const number of told.rows) {
      steps[number].forEach((by, column) => {
        if (by !== null) at[column] = (at[column] + by) % wraps[column];
        this.columns[column].push(by === null ? null : at[column]);
      });
    }
    this.places = this.columns.pop();
    this.around = this.bottoms.pop();
    const ring = scales.find(({ name }) => name === RING);
    if (!ring || moved === "0") return;
    const shift = times(exactOf(moved), times(this.grows, whole(ring.full)));
    const bottom = multipleOf(this.bottoms[ring.column], shift.bottom);
    const [by, on, wrap] = [bottom / this.bottoms[ring.column], shift.top * (bottom / shift.bottom), bottom * BigInt(ring.full)];
    this.bottoms[ring.column] = bottom;
    this.columns[ring.column] = this.columns[ring.column].map((one) => one === null ? null : (((one * by + on) % wrap) + wrap) % wrap);
  }

  /** For each row the rows a whole turn of the crank further on and short of it, as the ring's reading rises. */
  besides() {
    const { places, around, ratio, grows } = this;
    const turn = (around * ratio.bottom * grows.top) / ratio.top;
    const rows = new Map();
    places.forEach((place, row) => rows.has(place) || rows.set(place, row));
    return places.map((place) => [turn, -turn].map((by) => rows.get((((place + by) % around) + around) % around) ?? null));
  }

  get count() {
    return this.places.length;
  }

  /** What a row shows on a scale; null where it shows none. */
  shown(scale, row) {
    const value = this.columns[scale.column][row];
    return value === null ? null : figure(value, this.bottoms[scale.column]);
  }

  /** What the dial or the ring shows where a row is set by it; null where holes or notches are counted. */
  setReading(row) {
    const by = from(this.told.set_by, row);
    return by && this.shown(this.scales.find(({ name }) => name === by), row);
  }

  place(row) {
    return figure(this.places[row], this.around);
  }

  /** A reading as it is weighed: `value` and `within` exact, in the units of the scale; `within` null for as near as usual. */
  reading(name, value, within = null) {
    const scale = this.scales.find((one) => one.name === name);
    const near = within ?? scale.within;
    const apart = near.top ? times(whole(scale.full), figure(near.bottom, 2n * near.top)) : whole(scale.full);
    const full = whole(scale.full);
    return {
      scale: { ...scale, within: near },
      value: times(within1(times(value, figure(1n, full.top))), full),
      apart: isMore(whole(1), apart) ? whole(1) : apart, // how many readings can be told apart all round
    };
  }
}

export const showsTurn = ({ scale }) => [RING, MEASURED].includes(scale.name);

/** How far the first reading is past the second on a scale, the short way round. */
export function apart({ full }, one, other) {
  const around = whole(full);
  const ahead = times(within1(times(plus(one, minus(other)), figure(1n, around.top))), around);
  return 2n * ahead.top > around.top * ahead.bottom ? plus(ahead, minus(around)) : ahead;
}

export const isNothing = (off, near) => !isMore(size(off), near);

/**
 * How likely one reading is at every row: `likely` over `bottom`, how it would have been misread, what the row shows,
 * whether it is a small slip away, and how likely it is a whole turn of the crank away, either way.
 */
export function weighedOn(evidence, { scale, value, apart: told }) {
  const { odds } = evidence.told;
  const ratio = scale.name === RING ? evidence.ratio : null;
  const small = exactOf(evidence.told.small_slip);
  const own = evidence.bottoms[scale.column];
  const common = multipleOf(own, value.bottom, scale.within.bottom, small.bottom, ratio?.top ?? 1n);
  const whole_way = BigInt(scale.full) * common;
  const interval = BigInt(scale.numbered_every || (scale.within.top ? 0 : 1)) * common;
  const read = value.top * (common / value.bottom);
  const within = scale.within.top * (common / scale.within.bottom);
  const near = (whole_way * small.top) / small.bottom;
  const byEye = scale.numbered_every > 0;
  const clean = odds.clean + (byEye ? 0 : odds.backwards) + (interval ? 0 : odds.interval);
  const ahead = (mark) => (((read - mark) % whole_way) + whole_way) % whole_way;
  const isBy = (mark, by) => ahead(mark) <= by || whole_way - ahead(mark) <= by;
  const agrees = (mark) => isBy(mark, within);
  const turn = ratio ? (whole_way * ratio.bottom) / ratio.top : 0n;
  const bottom = 1000n * told.top;
  const unsaid = scale.name.startsWith("hole of") ? 0n : 1000n * told.bottom;
  const of = (count) => BigInt(count) * told.top;
  const marks = evidence.columns[scale.column].map((shows) => {
    if (shows === null) return { ...NONE, likely: unsaid };
    const mark = shows * (common / own);
    const isClean = agrees(mark);
    let [likely, how] = [isClean ? clean : 0, null];
    if (interval) {
      const out = agrees(mark + interval) + agrees(mark - interval);
      likely += Math.floor((odds.interval * out) / 2);
      if (out) how = "interval";
      if (byEye && agrees(2n * (mark / interval) * interval + interval - mark)) {
        likely += odds.backwards;
        how ??= "backwards";
      }
    }
    return {
      likely: of(likely),
      misread: how && !isClean ? { scale: scale.name, how, shows: figure(mark, common) } : null,
      shown: String(mark),
      near: isBy(mark, near),
      turned: turn ? [mark + turn, mark - turn].map((one) => (agrees(one) ? of(clean) : 0n)) : [0n, 0n],
    };
  });
  return { isRing: scale.name === RING, bottom, chance: 1000n * told.bottom, marks };
}
