// What the ring should show and what it was read to show, exactly: figures as in crankwise/exact/number.py,
// compared as in crankwise/run/ring_readings.py. The tests hold both sides to each other. Figures are
// fractions of whole numbers without end: { top, bottom }, the bottom above 0.

const TYPED = /^(?:(\d{1,4}) +)?(\d{1,13})(?:[.,](\d{0,6}))?(?:\/(\d{1,6}))?$/;
const MOST_OFF_MM = 100;
const EXACT = /^(-?)(\d+)(?:\.(\d+)|\/(\d+))?$/;

export const commonPart = (one, other) => {
  while (other) [one, other] = [other, one % other];
  return one < 0n ? -one : one;
};

export function figure(top, bottom) {
  const common = commonPart(top, bottom) || 1n;
  return { top: top / common, bottom: bottom / common };
}

export const plus = (one, other) => figure(one.top * other.bottom + other.top * one.bottom, one.bottom * other.bottom);
export const times = (one, other) => figure(one.top * other.top, one.bottom * other.bottom);
export const whole = (count) => ({ top: BigInt(count), bottom: 1n });
export const minus = (one) => ({ top: -one.top, bottom: one.bottom });
export const size = (one) => (one.top < 0n ? minus(one) : one);
export const isMore = (one, other) => one.top * other.bottom > other.top * one.bottom;
const round = (one, full) => figure(((one.top % (one.bottom * full)) + one.bottom * full) % (one.bottom * full), one.bottom);

/** A figure from the text that the workshop tells it in: 12, -0.5 or 45/2. */
export function exactOf(text) {
  const [, sign, before, decimals, bottom] = EXACT.exec(text);
  const top = BigInt(before + (decimals ?? ""));
  return figure(sign ? -top : top, bottom ? BigInt(bottom) : 10n ** BigInt(decimals?.length ?? 0));
}

/** The shortest text that loses nothing: a whole number, a decimal, else a fraction. */
export function textOf(one) {
  if (one.bottom === 1n) return String(one.top);
  const most = 10n ** 12n;
  if (most % one.bottom) return `${one.top}/${one.bottom}`;
  const sign = one.top < 0n ? "-" : "";
  const digits = String((sign ? -one.top : one.top) * (most / one.bottom)).padStart(13, "0");
  return `${sign}${digits.slice(0, -12)}.${digits.slice(-12).replace(/0+$/, "")}`;
}

/** To two decimals, halves away from zero; for what is not below zero. */
export function twoDecimals(one) {
  const count = String((one.top * 200n + one.bottom) / (one.bottom * 2n)).padStart(3, "0");
  return `${count.slice(0, -2)}.${count.slice(-2)}`;
}

/** What a ring reading is told as: two decimals, and 0.00 where rounding would come to the full circle. */
export function ringText(one, ring) {
  const told = twoDecimals(one);
  return told === `${ring.full_circle}.00` ? "0.00" : told;
}

/** A number as typed, as 12, 12.5, 12,5, 45/2 or 2 1/2; null where it is none. */
export function typedNumber(typed) {
  const found = TYPED.exec(typed.trim());
  const [, before, top, decimals = "", below] = found ?? [];
  if (!found || (before && !below) || (below && !Number(below))) return null;
  const last = figure(BigInt(top + decimals), 10n ** BigInt(decimals.length) * BigInt(below ?? 1));
  return plus(last, whole(before ?? 0));
}

/** A length as typed, in mm, or in another unit that stands behind it; null where it is none. */
export function typedLength(typed) {
  const [, number, behind] = /^([\d.,/ ]*\d)\s*([a-zµ"]*)$/i.exec(typed.trim()) ?? [];
  const one = typedNumber(number ?? "");
  const factor = UNITS[(behind ?? "").toLowerCase()];
  return one && factor ? times(one, factor) : null;
}

/** What was typed, as a sentence repeats it. */
export const asTyped = (typed) => (typed.trim() ? `“${typed.trim().slice(0, 20)}”` : "nothing");

/** A reading of the ring as typed: `{ reading }`, exact, or `{ fault }`, a sentence. */
export function typedReading(typed, ring) {
  const one = typedNumber(typed);
  if (!one) return { fault: `The ring’s reading is a number, as 12, 12.5 or 45/2; what is typed is ${asTyped(typed)}.` };
  if (isMore(one, whole(ring.full_circle))) return { fault: `The ring shows from 0 to below ${ring.full_circle}, and not ${typed.trim()}.` };
  return { reading: textOf(one) };
}

/** How far the ring stands ahead where it shows `reading` at zero, in turns of the spindle: exact text. */
export function aheadOf(reading, ring) {
  const full = BigInt(ring.full_circle);
  const turns = times(round(exactOf(reading), full), { top: 1n, bottom: full });
  return textOf(ring.grows ? turns : minus(turns));
}

/** A row as the ring stands now, when that is `moved` turns further than the row was told for. */
export function withRing(row, ring, moved) {
  const shift = times(exactOf(moved), whole(ring.grows ? ring.full_circle : -ring.full_circle));
  const exact = round(plus(exactOf(row.ring_exact), shift), BigInt(ring.full_circle));
  const told = ringText(exact, ring);
  const changed = { ...row, ring_exact: textOf(exact), ring: row.ring.replace(/[\d.]+/, told) };
  if (row.check_ring === "") return changed;
  const [first, ...rest] = row.check;
  const asked = first.replace(twoDecimals(exactOf(row.check_ring)), told);
  return { ...changed, check_ring: changed.ring_exact, check: [asked, ...rest] };
}

export const turnsBetween = (later, earlier) => textOf(plus(exactOf(later), minus(exactOf(earlier))));

/** Whether `off` is no more than `near`, either way; exact texts. */
export const isWithin = (off, near) => !isMore(size(exactOf(off)), exactOf(near));

const UNITS = { "": whole(1), mm: whole(1), cm: whole(10), um: figure(1n, 1000n), "µm": figure(1n, 1000n), in: figure(127n, 5n), '"': figure(127n, 5n), thou: figure(127n, 5000n) };

/**
 * How far off as typed: `{ off }`, exact, or `{ fault }`, a sentence. In mm, or in another unit that stands behind it;
 * in degrees, it comes to turns. `side` is ahead or behind.
 */
export function typedOff(typed, side, unit) {
  const found = unit === "mm" ? typedLength(typed) : typedNumber(typed);
  if (!found) {
    const like = unit === "mm" ? "0.41, 0.41 mm or 0.016 in" : "0.31";
    return { fault: `How far off is a number, as ${like}; what is typed is ${asTyped(typed)}.` };
  }
  const far = unit === "mm" ? found : times(found, figure(1n, 360n));
  const most = unit === "mm" ? whole(MOST_OFF_MM) : figure(1n, 2n);
  if (isMore(far, most)) return { fault: `More than ${unit === "mm" ? `${MOST_OFF_MM} mm` : "half a turn"} off is not kept: this is another than the first.` };
  return { off: textOf(side === "behind" ? minus(far) : far) };
}

/** How far `reading` is past `shown`, the short way round. */
function apart(reading, shown, ring) {
  const full = BigInt(ring.full_circle);
  const ahead = round(plus(exactOf(reading), minus(exactOf(shown))), full);
  return 2n * ahead.top > full * ahead.bottom ? plus(ahead, whole(-ring.full_circle)) : ahead;
}

/** Whether a reading agrees with what should be shown, as near as this ring is read. */
export const agrees = (reading, shown, ring) => !isMore(size(apart(reading, shown, ring)), exactOf(ring.within));

/** How far off a reading is, in degrees of the spindle, and whether the work is ahead by it. */
export function offBy(reading, shown, ring) {
  const off = apart(reading, shown, ring);
  return {
    degrees: twoDecimals(times(size(off), figure(360n, BigInt(ring.full_circle)))),
    isAhead: off.top > 0n === ring.grows,
  };
}
