"""Readings of a reference run that were mistyped: a turn out, in the wrong unit, written twice, or a row left out."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from crankwise.accuracy.mistyped import GROSS_DEG, MANY, middle_of, written_twice
from crankwise.errors import Fault
from crankwise.exact.number import PI, as_text

LIKELY_TURNS = (1, 2, 3)
"""Turns of the crank that are lost by miscounting; more of them are rather another unit."""

_UNITS: Sequence[tuple[Fraction, str]] = (
    (Fraction(60), "minutes of arc"),
    (Fraction(3600), "seconds of arc"),
    (Fraction(1, 360), "turns"),
    (PI / 180, "radians"),
    (Fraction(10, 9), "gon"),
)


class Place(NamedTuple):
    """One row of a reference run: its line, what was set and what was measured, in degrees; turned back or not."""

    line: int
    setting: Fraction
    measured: Fraction
    back: bool = False

    @property
    def out(self) -> Fraction:
        """Measured less set, in degrees."""
        return self.measured - self.setting


def in_reference_run(
    rows: Sequence[Place],
    ratio: Fraction | None,
    gaps_are_meant: bool = False,
    owners_gaps: Sequence[Place] = (),
) -> list[Fault]:
    """Return what was mistyped in a reference run, a fault each.

    ratio           crank turns for one turn of the spindle, to know one turn of the crank; None without a worm
    gaps_are_meant  whether a gap in otherwise even settings was left on purpose
    owners_gaps     rows that their owner left out: no row is missing there
    """
    if whole := _whole_file(rows):
        return [whole]
    return [
        *written_twice([(row.line, (row.setting, row.measured, row.back)) for row in rows]),
        *(_shifted(rows) or _gross(rows, ratio)),
        *([] if gaps_are_meant else _missing(sorted([*rows, *owners_gaps]))),
    ]


def without_whole_turns(rows: Sequence[Place]) -> list[Fraction]:
    """Return measured less set of every row, in degrees, whole turns of the spindle taken off.

    An instrument begins again at 360. What is left lies within half a turn of the first row's.
    """
    offset = _offset(rows)
    return [(row.out - offset + 180) % 360 - 180 + offset for row in rows]


def _offset(rows: Sequence[Place]) -> Fraction:
    """How far on the instrument stood at the start: the middle of all rows, or 0 where it was zeroed."""
    first = rows[0].out
    middle = middle_of([(row.out - first + 180) % 360 - 180 for row in rows]) + first
    nearest = (middle + 180) % 360 - 180
    return Fraction(0) if abs(nearest) < 5 else nearest


def turns_out(rows: Sequence[Place]) -> list[Fault]:
    """Return the rows that were mistyped by whole turns of the spindle, a fault each."""
    offset = _offset(rows)
    signed = all(-181 <= row.measured <= 181 for row in rows)
    faults = []
    for row in rows:
        turns = round((row.measured - row.setting - offset) / 360)
        if turns and not _begins_again(row.setting + offset, row.measured, signed):
            shown = (
                f"should be {as_text(round(row.setting, 4))} from the first, measured {as_text(row.measured)}"
            )
            faults.append(_one_turn(row, shown, turns, "the spindle"))
    return faults


def in_all_rows(rows: Sequence[Place]) -> Fault | None:
    """Return what is wrong with most rows alike: another unit, or falling where they should rise; None for nothing."""
    turned = [row for row in rows if 1 <= row.setting <= 359]
    if _follow(rows, turned):
        return None
    quotient = middle_of([row.measured / row.setting for row in turned])
    for unit, name in _UNITS:
        if abs(quotient / unit - 1) < Fraction(1, 50):
            return Fault("measured_deg", f"these look like {name}; write degrees", turned[0].line)
    mirrored = sum(abs((row.measured + row.setting + 180) % 360 - 180) <= 2 for row in turned)
    if 2 * mirrored > len(turned):
        return Fault(
            "measured_deg",
            "the readings fall as the settings rise; write them positive the way the work advances, 360 less each",
            turned[0].line,
        )
    return None


def _follow(rows: Sequence[Place], turned: Sequence[Place]) -> bool:
    """Whether most of those that were turned away from the start were measured where they were set, or are too few."""
    offset = _offset(rows)
    followed = sum(abs((row.out - offset + 180) % 360 - 180) <= 2 for row in turned)
    return len(turned) < 3 or 2 * followed > len(turned)


def _whole_file(rows: Sequence[Place]) -> Fault | None:
    turned = [row for row in rows if 1 <= row.setting <= 359]
    if _follow(rows, turned):
        return None
    return in_all_rows(rows) or Fault(
        "measured_deg",
        "the readings do not follow the settings; write where the spindle was measured to be, in degrees",
        turned[0].line,
    )


def _gross(rows: Sequence[Place], ratio: Fraction | None) -> list[Fault]:
    outs = without_whole_turns(rows)
    middle = middle_of(outs)
    usual = max(middle_of([abs(out - middle) for out in outs]), Fraction(1, 3600))
    signed = all(-181 <= row.measured <= 181 for row in rows)
    offset = _offset(rows)
    faults = []
    for row, out in zip(rows, outs, strict=True):
        away, expected = out - middle, row.setting + offset
        shown = f"set {as_text(row.setting)}, measured {as_text(row.measured)}"
        turns = round((row.measured - expected) / 360)
        of_crank = _crank_turns(away, ratio, usual) if ratio else 0
        is_near = abs(away) <= max(GROSS_DEG, MANY * usual)
        if abs(of_crank) in LIKELY_TURNS or (is_near and not of_crank):
            unit = None
        else:
            unit = _unit_of(row.measured, expected)
        if of_crank and not unit:
            faults.append(_one_turn(row, shown, of_crank, "the crank"))
        elif is_near:
            if turns and not _begins_again(expected, row.measured, signed):
                faults.append(_one_turn(row, shown, turns, "the spindle"))
        elif unit:
            faults.append(Fault("measured_deg", f"{shown}; this looks like {unit}; write degrees", row.line))
        else:
            degrees = f"{float(abs(away)):.3g} degrees {'more' if away > 0 else 'less'} than the others"
            faults.append(Fault("measured_deg", f"{shown}: {degrees}; mistyped? look it up again", row.line))
    return faults


_SHIFTED = 4
"""Rows in a row that a value left out or written twice has moved, from where it is told as that."""


def _shifted(rows: Sequence[Place]) -> list[Fault]:
    """Return the one mistake that moved the measured values of many rows: one left out, or written twice.

    It moves all that were written down after it, so the first row stands as it was.
    """
    usual = rows[0].out
    wrong = [abs(_from(row, row.setting, usual)) > GROSS_DEG for row in rows]
    if sum(wrong) < _SHIFTED:
        return []
    for by, told in (
        (1, "the row below: one measured value was left out here, and those after it have moved up"),
        (
            -1,
            "the row above: one measured value was written twice before it, and those after it have moved down",
        ),
    ):
        moved = [
            is_wrong
            and 0 <= index + by < len(rows)
            and abs(_from(row, rows[index + by].setting, usual)) < GROSS_DEG
            for index, (row, is_wrong) in enumerate(zip(rows, wrong, strict=True))
        ]
        if sum(moved) < _SHIFTED or 4 * sum(moved) < 3 * sum(wrong):
            continue
        first = rows[moved.index(True)]
        last = rows[len(wrong) - 1 - wrong[::-1].index(True)]
        return [
            Fault("measured_deg", f"from here to line {last.line} each value belongs to {told}", first.line)
        ]
    return []


def _from(row: Place, setting: Fraction, usual: Fraction) -> Fraction:
    """Return how far what was measured stands from a setting, in degrees, less what is usual: within half a turn."""
    return (row.measured - setting - usual + 180) % 360 - 180


def _missing(rows: Sequence[Place]) -> list[Fault]:
    """Rows that are not there, by the steps of a run, or else by the other way of a run there and back."""
    return _left_out(rows) or _not_turned_back_to(rows)


def _not_turned_back_to(rows: Sequence[Place]) -> list[Fault]:
    """Settings of a run there and back that were set one way only, where nearly all were set both ways."""
    ways = {back: {row.setting % 360: row for row in rows if row.back is back} for back in (False, True)}
    both = len(set(ways[False]) & set(ways[True]))
    # The far end of the run is set once, where it turns.
    ends = (rows[0], max(rows, key=lambda one: one.setting))
    faults = []
    for back, name, other in ((False, "forward", "back"), (True, "back", "forward")):
        alone = [row for setting, row in ways[back].items() if setting not in ways[not back]]
        alone = [row for row in alone if row not in ends]
        if alone and len(alone) <= both / 10:
            faults += [
                Fault(
                    "setting_deg",
                    f"{as_text(row.setting)} was set going {name} and not going {other}; is a row missing? measure it, "
                    "or say that gaps are meant (--gaps)",
                    row.line,
                )
                for row in alone
            ]
    return faults


def _begins_again(expected: Fraction, measured: Fraction, signed: bool) -> bool:
    """Whether an instrument may show this one turn away: where it begins again at 360, or at half a turn."""
    if signed:
        return not -179 < expected < 179
    return -1 <= measured <= 361 and not 1 < expected < 359


def _one_turn(row: Place, shown: str, turns: int, of_what: str) -> Fault:
    count = f"{abs(turns)} turn{'' if abs(turns) == 1 else 's'} of {of_what}"
    return Fault(
        "measured_deg",
        f"{shown}: {count} too {'far' if turns > 0 else 'little'}; mistyped, or set a turn out?",
        row.line,
    )


def _crank_turns(away: Fraction, ratio: Fraction, usual: Fraction) -> int:
    """Return the whole turns of the crank that a reading is out by; 0 where it is none."""
    turns = away * ratio / 360
    near = round(turns)
    out = abs(turns - near)
    return near if near and out < Fraction(1, 10) and abs(away) > MANY * usual else 0


def _unit_of(value: Fraction, expected: Fraction) -> str | None:
    if not expected or not value:
        return None
    return next((name for unit, name in _UNITS if abs(value / expected / unit - 1) < Fraction(1, 100)), None)


def _left_out(rows: Sequence[Place]) -> list[Fault]:
    """A gap of whole steps in settings that are otherwise even; each direction by itself."""
    faults = []
    for back in (False, True):
        run = [row for row in rows if row.back is back]
        steps = Counter(abs(after.setting - before.setting) for before, after in pairwise(run))
        if not steps:
            continue
        step, often = steps.most_common(1)[0]
        if not step or often < 0.7 * (len(run) - 1) or often < 4:
            continue
        for before, after in pairwise(run):
            gone = (after.setting - before.setting) / step
            if gone.denominator == 1 and 2 <= abs(gone) <= 3:
                missing = before.setting + (step if gone > 0 else -step)
                faults.append(
                    Fault(
                        "setting_deg",
                        f"from {as_text(before.setting)} to {as_text(after.setting)} while the others are "
                        f"{as_text(step)} apart; the row of {as_text(missing)} is missing: measure it, or say that "
                        "gaps are meant (--gaps)",
                        after.line,
                    )
                )
    return faults
