"""Readings that were mistyped: out by one turn, in the wrong unit, written twice, or a row left out.

They are named with their line and not fitted: least squares would spread one gross mistake over every
wave. What is only a little out is no matter for here: it is fitted and shown as standing out.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from statistics import median
from typing import NamedTuple

from crankwise.errors import Fault
from crankwise.exact.number import PI, as_text

GROSS_DEG = Fraction(1)
"""No head that works at all is a degree out at one place; a reading that is was mistyped."""
MANY = 20
"""Times the usual spread of the others, from where a reading may be called gross."""

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
        *_twice([(row.line, (row.setting, row.measured, row.back)) for row in rows]),
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
    middle = _middle([(row.out - first + 180) % 360 - 180 for row in rows]) + first
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
    quotient = _middle([row.measured / row.setting for row in turned])
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


def _twice(rows: Sequence[tuple[int, object]]) -> list[Fault]:
    """Rows that say the very same, where most others stand once: a row pasted or typed twice."""
    times = Counter(said for _, said in rows)
    again = [said for said, count in times.items() if count > 1]
    if 4 * len(again) > len(times):
        return []  # a run made twice over with a coarse instrument may well say the same
    faults = []
    for said in again:
        lines = [line for line, other in rows if other == said]
        faults += [
            Fault("", f"the same as line {lines[0]}; written twice? leave one out", line)
            for line in lines[1:]
        ]
    return faults


def _gross(rows: Sequence[Place], ratio: Fraction | None) -> list[Fault]:
    outs = without_whole_turns(rows)
    middle = _middle(outs)
    usual = max(_middle([abs(out - middle) for out in outs]), Fraction(1, 3600))
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


def _middle(values: Sequence[Fraction]) -> Fraction:
    return Fraction(median(values))


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


class Step(NamedTuple):
    """One row of a closure run: its line, its number, where it began in degrees, the gauge in seconds of arc."""

    line: int
    number: int
    start: Fraction
    gauge: Fraction


def in_closure_run(rows: Sequence[Step]) -> list[Fault]:
    """Return what was mistyped in a closure run, a fault each."""
    faults = _twice([(row.line, (row.number, row.start, row.gauge)) for row in rows])
    if faults:
        return faults
    if faults := _steps_left_out(rows):
        return faults
    return [*_starts(rows), *odd_gauge([(row.line, row.gauge) for row in rows], "gauge_arcsec")]


def rounds(rows: Sequence[Step]) -> list[list[Step]]:
    """Return the rows of each round: a new one begins where the step's number falls."""
    found: list[list[Step]] = []
    for row in rows:
        if not found or row.number <= found[-1][-1].number:
            found.append([])
        found[-1].append(row)
    return found


def _steps_left_out(rows: Sequence[Step]) -> list[Fault]:
    numbers = {row.number for row in rows}
    least, most = min(numbers), max(numbers)
    faults = []
    for one in rounds(rows):
        here = {row.number for row in one}
        gone = [number for number in range(least, most + 1) if number not in here]
        if gone:
            told = f"step{'' if len(gone) == 1 else 's'} {', '.join(map(str, gone[:8]))}"
            later = next((row.line for row in one if row.number > gone[0]), one[-1].line)
            faults.append(
                Fault(
                    "step",
                    f"{told} missing in this round of {most - least + 1}; closure needs every one",
                    later,
                )
            )
    return faults


def _starts(rows: Sequence[Step]) -> list[Fault]:
    """Each step begins where the one before ended, to a tenth of a step."""
    faults = []
    for one in rounds(rows):
        angle = Fraction(360, len(one))
        wanted = [one[0].start + index * angle for index in range(len(one))]
        wrong = [
            (row, there)
            for row, there in zip(one, wanted, strict=True)
            if abs((row.start - there + 180) % 360 - 180) > angle / 10
        ]
        if 2 * len(wrong) > len(one):
            faults.append(
                Fault(
                    "start_deg",
                    f"{len(one)} steps, and they do not begin {float(angle):.6g} degrees apart; closure is one fixed "
                    "angle stepped once round",
                    wrong[0][0].line,
                )
            )
            continue
        for row, there in wrong:
            faults.append(
                Fault(
                    "start_deg",
                    f"{as_text(row.start)}; step {row.number} begins at {float(there):.6g}",
                    row.line,
                )
            )
        for row, there in zip(one, wanted, strict=True):
            turns = round((row.start - there) / 360)
            if turns and not (0 <= row.start < 360):
                faults.append(
                    Fault(
                        "start_deg",
                        f"{as_text(row.start)}: {abs(turns)} turn too {'far' if turns > 0 else 'little'}; step "
                        f"{row.number} begins at {float(there):.6g}",
                        row.line,
                    )
                )
    return faults


def odd_gauge(rows: Sequence[tuple[int, Fraction]], column: str) -> list[Fault]:
    """Return the gauge readings, in seconds of arc, that were written in another unit or are a turn out."""
    middle = _middle([value for _, value in rows])
    usual = max(_middle([abs(value - middle) for _, value in rows]), Fraction(1, 10))
    faults = []
    for line, value in rows:
        away = value - middle
        if abs(away) <= MANY * usual:
            continue
        unit = next(
            (
                name
                for times, name in (
                    (60, "minutes of arc"),
                    (3600, "degrees"),
                    (Fraction(1, 60), "60 times too much"),
                )
                if abs(value * times - middle) < 6 * usual
            ),
            None,
        )
        turn = round(away / 1_296_000)
        if turn and abs(away - turn * 1_296_000) <= MANY * usual:
            told = f"{abs(turn)} turn too {'far' if turn > 0 else 'little'}; mistyped?"
        elif unit:
            told = f"this looks like {unit}; write seconds of arc"
        elif abs(away) > GROSS_DEG * 3600:
            told = f"the others are about {float(middle):.4g}; mistyped, or in the wrong unit? write seconds of arc"
        else:
            continue
        faults.append(Fault(column, f"{as_text(value)}; {told}", line))
    return faults
