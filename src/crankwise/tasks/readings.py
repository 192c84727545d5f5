"""Readings of a head, from the file they were written down in to what is fitted; mistakes named, not fitted."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

from crankwise.accuracy.closure import Closed, close
from crankwise.accuracy.closure_mistakes import Step, in_closure_run, odd_gauge, rounds
from crankwise.accuracy.harmonics import Reading
from crankwise.accuracy.mistakes import Place, in_reference_run, without_whole_turns
from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.files.readings_csv import MOST_BYTES, Line, Sheet, number_in, read_sheet
from crankwise.files.typed_file import typed_bytes

MOST_READINGS = 5000
_FORWARD = ("", "forward", "up", "on", "+", "f")
_BACK = ("back", "reverse", "down", "-", "r", "b")


@dataclass(frozen=True, slots=True)
class Read:
    """What a file of readings holds.

    readings  as they are fitted
    left_out  lines that were left out because their owner said so
    closed    each round of a closure run, exactly; none of other runs
    """

    readings: tuple[Reading, ...]
    left_out: tuple[int, ...]
    closed: tuple[Closed, ...] = ()


def open_readings(path: str) -> Sheet:
    """Return the lines of a file of readings. Raises BadFile, and FaultsFound with all that is wrong."""
    content = typed_bytes(path, "a file of readings", " (CSV)", MOST_BYTES, "a few pages of text")
    return read_sheet(content, Path(path).name)


def head_readings(
    sheet: Sheet, ratio: Fraction | None, without: Sequence[int] = (), gaps_are_meant: bool = False
) -> Read:
    """Return the readings of a head.

    sheet    columns setting_deg and measured_deg (or error_arcsec), and direction where some were come to by
             turning back; or step, start_deg and gauge_arcsec of a closure run
    ratio    crank turns for one turn of the spindle
    without  lines to leave out

    Raises FaultsFound with everything that was mistyped.
    """
    if len(sheet.lines) > MOST_READINGS:
        raise FaultsFound(
            [Fault("", f"{len(sheet.lines):,} readings; at most {MOST_READINGS:,} are fitted")], sheet.source
        )
    absent = sorted(set(without) - {line.number for line in sheet.lines})
    if absent:
        raise BadNumber("without", f"line {absent[0]} of {sheet.source} holds no reading")
    kept = [line for line in sheet.lines if line.number not in without]
    faults: list[Fault] = []
    read = _kind(sheet)(sheet, kept, ratio, gaps_are_meant, faults)
    if faults:
        raise FaultsFound(faults, sheet.source)
    return Read(read.readings, tuple(sorted(without)), read.closed)


_Reader = Callable[[Sheet, list[Line], Fraction | None, bool, list[Fault]], Read]


def _kind(sheet: Sheet) -> _Reader:
    names = set(sheet.columns)
    if {"start_deg", "gauge_arcsec"} <= names:
        return _closure
    if "setting_deg" in names and names & {"measured_deg", "error_arcsec"}:
        return _reference
    raise FaultsFound(
        [
            Fault(
                "",
                f"the columns {', '.join(sheet.columns)}; a reference run has setting_deg and measured_deg, "
                "a closure run step, start_deg and gauge_arcsec",
                1,
            )
        ],
        sheet.source,
    )


def _reference(
    sheet: Sheet, lines: list[Line], ratio: Fraction | None, gaps_are_meant: bool, faults: list[Fault]
) -> Read:
    by_error = "measured_deg" not in sheet.columns
    rows: list[Place] = []
    for line in lines:
        setting = number_in(line, "setting_deg", faults, angle=True)
        value = number_in(line, "error_arcsec" if by_error else "measured_deg", faults, angle=not by_error)
        back = _is_back(line, faults)
        if setting is not None and value is not None:
            rows.append(Place(line.number, setting, setting + value / 3600 if by_error else value, back))
    if faults or not rows:
        faults += [] if faults else [Fault("", "no readings are left")]
        return Read((), ())
    if "direction" not in sheet.columns:
        rows = _with_the_way_back(rows)
    faults += in_reference_run(rows, ratio, gaps_are_meant, _owners_gaps(sheet, lines))
    if by_error and not faults:
        faults += odd_gauge([(row.line, row.out * 3600) for row in rows], "error_arcsec")
    outs = without_whole_turns(rows)
    return Read(
        tuple(
            Reading(row.line, row.setting / 360, float(out * 3600), None, row.back)
            for row, out in zip(rows, outs, strict=True)
        ),
        (),
    )


def _owners_gaps(sheet: Sheet, kept: Sequence[Line]) -> list[Place]:
    """Return where rows stood that their owner left out, as far as their setting can be read."""
    numbers = {line.number for line in kept}
    rows = []
    for line in sheet.lines:
        unread: list[Fault] = []
        if line.number not in numbers:
            setting = number_in(line, "setting_deg", unread, angle=True)
            back = _is_back(line, unread)
            if setting is not None and not unread:
                rows.append(Place(line.number, setting, setting, back))
    return rows


def _is_back(line: Line, faults: list[Fault]) -> bool:
    typed = line.cells.get("direction", "").lower()
    if typed not in (*_FORWARD, *_BACK):
        faults.append(
            Fault(
                "direction",
                f"{typed!r}; write forward, or back where it was come to by turning back",
                line.number,
            )
        )
    return typed in _BACK


def _with_the_way_back(rows: list[Place]) -> list[Place]:
    """Rows that rise to the last setting and then fall were measured there and back."""
    top = max(range(len(rows)), key=lambda index: (rows[index].setting, -index))
    there, back = rows[: top + 1], rows[top + 1 :]
    rises = all(before.setting <= after.setting for before, after in pairwise(there))
    falls = all(before.setting >= after.setting for before, after in pairwise(back))
    if not (rises and falls and len(there) >= 3 and len(back) >= 3):
        return rows
    return [*there, *(row._replace(back=True) for row in back)]


def _closure(
    sheet: Sheet, lines: list[Line], ratio: Fraction | None, gaps_are_meant: bool, faults: list[Fault]
) -> Read:
    rows: list[Step] = []
    for index, line in enumerate(lines, 1):
        step = number_in(line, "step", faults) if "step" in sheet.columns else Fraction(index)
        start = number_in(line, "start_deg", faults, angle=True)
        gauge = number_in(line, "gauge_arcsec", faults)
        if step is not None and not (step.denominator == 1 and 0 <= step <= MOST_READINGS):
            faults.append(
                Fault("step", f"{as_text(step)}; the steps of a round are numbered 1, 2, 3 ...", line.number)
            )
        elif step is not None and start is not None and gauge is not None:
            rows.append(Step(line.number, int(step), start, gauge))
    if faults or not rows:
        faults += [] if faults else [Fault("", "no readings are left")]
        return Read((), ())
    faults += in_closure_run(rows)
    if not faults and min(map(len, rounds(rows))) < 2:
        faults.append(
            Fault("step", "a round of one step; closure steps one angle round the circle", rows[0].line)
        )
    if faults:
        return Read((), ())
    readings: list[Reading] = []
    closed = []
    for one in rounds(rows):
        ends, gauges = _round(one)
        closed.append(close(gauges))
        readings += [
            Reading(step.line, end / 360, float(gauge), start / 360)
            for step, (start, end), gauge in zip(one, ends, gauges, strict=True)
        ]
    return Read(tuple(readings), (), tuple(closed))


def _round(steps: Sequence[Step]) -> tuple[list[tuple[Fraction, Fraction]], list[Fraction]]:
    """Where each step of a round begins and ends, in degrees, and its gauge reading for an equal step.

    A start typed with few decimals is the exact one; one that differs by more stands as it was set, to the
    nearest mark, and the gauge saw that too.
    """
    angle = Fraction(360, len(steps))
    starts = []
    for index, step in enumerate(steps):
        exact = steps[0].start + index * angle
        away = (step.start - exact + 180) % 360 - 180
        starts.append(exact + (0 if abs(away) <= _half_a_digit(step.start) else away))
    ends = list(zip(starts, [*starts[1:], starts[0] + 360], strict=True))
    return ends, [
        step.gauge - (end - start - angle) * 3600 for step, (start, end) in zip(steps, ends, strict=True)
    ]


def _half_a_digit(value: Fraction) -> Fraction:
    """Half of the last decimal that a number was typed with."""
    for places in range(8):
        if 10**places % value.denominator == 0:
            return Fraction(1, 2 * 10**places)
    return Fraction(0)
