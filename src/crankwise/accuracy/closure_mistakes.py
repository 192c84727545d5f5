"""Readings of a closure run that were mistyped: a step left out or begun elsewhere, the gauge in another unit."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from crankwise.accuracy.mistyped import GROSS_DEG, MANY, middle_of, written_twice
from crankwise.errors import Fault
from crankwise.exact.number import as_text


class Step(NamedTuple):
    """One row of a closure run: its line, its number, where it began in degrees, the gauge in seconds of arc."""

    line: int
    number: int
    start: Fraction
    gauge: Fraction


def in_closure_run(rows: Sequence[Step]) -> list[Fault]:
    """Return what was mistyped in a closure run, a fault each."""
    faults = written_twice([(row.line, (row.number, row.start, row.gauge)) for row in rows])
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
    middle = middle_of([value for _, value in rows])
    usual = max(middle_of([abs(value - middle) for _, value in rows]), Fraction(1, 10))
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
