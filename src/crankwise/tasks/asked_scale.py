"""Read the scale that was typed: equal lines, a dial, a vernier, a formula, a table, a thread dial."""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from crankwise.errors import BadAngle, BadDivisions, BadLength, BadNumber
from crankwise.exact.angle import read_angle
from crankwise.exact.length import INCH, read_diameter
from crankwise.exact.listed import listed
from crankwise.exact.number import as_text, read_number, shown
from crankwise.files.formula import read_formula
from crankwise.files.typed_file import typed_text
from crankwise.part.dial_lines import INCHES, MINUTES, MM, ThreadDial, Unit, dial_scale
from crankwise.part.scale_law import Stretch, between_points, scale_of_law, stretched
from crankwise.part.scale_lines import Scale, equal_lines, listed_lines
from crankwise.part.vernier_scale import FORMS, Vernier
from crankwise.tasks.divide import whole_number

NAMED_LAWS = {
    "log": "arc * log10(x / first) / log10(last / first)",
    "sine": "arc * sin(x)",
    "tangent": "arc * tan(x)",
}
"""Laws by name; angles in degrees. `first` and `last` are the first and the last of the values."""
MOST_BYTES = 200_000
_DURATION = re.compile(r"(?:([\d./ ]+)h)?\s*(?:([\d./ ]+)m(?:in)?)?\s*(?:([\d./ ]+)s)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ScaleTyped:
    """What was typed for the lines of a scale, all texts; empty where nothing was. Angles bare in degrees.

    lines, arc, start              equal lines, of an arc or the circle, and where line 0 stands
    lead, period, per_line         a dial: what a turn and a line are worth
    diameter, short_last           the dial reads a diameter; the last space may be short
    vernier, over, main_part, form a vernier
    law, values                    a formula or a law's name, and its values
    points, points_file            a table of values and angles, or a file with one
    thread_dial, threads           teeth of a thread dial's gear (with lead), and the threads it is for
    """

    lines: str = ""
    arc: str = ""
    start: str = ""
    lead: str = ""
    period: str = ""
    per_line: str = ""
    diameter: bool = False
    short_last: bool = False
    vernier: str = ""
    over: str = ""
    main_part: str = ""
    form: str = ""
    law: str = ""
    values: str = ""
    points: str = ""
    points_file: str = ""
    thread_dial: str = ""
    threads: str = ""


@dataclass(frozen=True, slots=True)
class AskedScale:
    """The scale that was typed, and what goes with its kind.

    every        classes that suit it where none are typed, the finest first
    numbered     numerals that suit it: every how many counts
    per_count    what one count more adds to a numeral
    vernier      the vernier, where it is one
    thread_dial  the thread dial and its threads in mm, where it is one
    """

    scale: Scale
    every: tuple[Fraction, ...]
    numbered: Fraction
    per_count: Fraction = Fraction(1)
    vernier: Vernier | None = None
    thread_dial: tuple[ThreadDial, tuple[Fraction, ...]] | None = None


def asked_scale(typed: ScaleTyped) -> AskedScale:
    """Return the scale that was typed. Raises Mendable."""
    kinds = {
        "lines": typed.lines,
        "thread-dial": typed.thread_dial,
        "lead": "" if typed.thread_dial else typed.lead,
        "period": typed.period,
        "vernier": typed.vernier,
        "law": typed.law,
        "points": "" if typed.law else typed.points or typed.points_file,
    }
    given = [name for name, text in kinds.items() if text]
    if len(given) != 1:
        told = f"{' and '.join(given)} given" if given else "nothing given"
        raise BadDivisions(
            "scale",
            f"{told}; say one of: a number of lines, lead, period, vernier, law, points or thread-dial",
        )
    _check_others(typed, given[0])
    return _KINDS[given[0]](typed)


_GO_WITH = {
    "arc": ("lines", "law"),
    "start": ("lines",),
    "per-line": ("lead", "period"),
    "diameter": ("lead",),
    "short-last": ("lead", "period"),
    "over": ("vernier",),
    "main-part": ("vernier",),
    "form": ("vernier",),
    "values": ("law", "points"),
    "threads": ("thread-dial",),
}


def _check_others(typed: ScaleTyped, kind: str) -> None:
    for name, kinds in _GO_WITH.items():
        if getattr(typed, name.replace("-", "_")) and kind not in kinds:
            raise BadDivisions(name, f"goes with {' or '.join(kinds)}, not with {kind}")


def _equal(typed: ScaleTyped) -> AskedScale:
    arc = read_angle(typed.arc, "arc") if typed.arc else None
    start = read_angle(typed.start, "start") if typed.start else Fraction(0)
    parts = whole_number(typed.lines, "lines")
    return AskedScale(equal_lines(parts, arc, start), _by_tens(parts), Fraction(10 if parts >= 10 else 1))


def _dial(typed: ScaleTyped) -> AskedScale:
    if not typed.per_line:
        raise BadLength("per-line", "missing; say what one line is worth, as 0.01mm or 0.001in")
    lead, line = _lead(typed.lead), read_diameter(typed.per_line, "per-line")
    unit: Unit = INCHES if re.search(r"in|thou", typed.per_line.lower()) else MM
    scale = dial_scale(lead * (2 if typed.diameter else 1), line, unit, typed.short_last)
    return AskedScale(scale, _by_tens(len(scale.counts)), Fraction(10 if len(scale.counts) >= 10 else 1))


def _hours(typed: ScaleTyped) -> AskedScale:
    if not typed.per_line:
        raise BadDivisions("per-line", "missing; say how long one line lasts, as 5m")
    period, line = _minutes(typed.period, "period"), _minutes(typed.per_line, "per-line")
    scale = dial_scale(period, line, MINUTES, typed.short_last)
    an_hour = 60 / line
    if an_hour.denominator != 1 or an_hour > len(scale.counts):
        return AskedScale(scale, _by_tens(len(scale.counts)), Fraction(10), line / 60)
    parts = [part for part in (1, an_hour / 4, an_hour / 2) if Fraction(part).denominator == 1]
    every = sorted({Fraction(part) for part in parts[:2]} | {an_hour})
    return AskedScale(scale, tuple(every), an_hour, line / 60)


def _vernier(typed: ScaleTyped) -> AskedScale:
    parts = whole_number(typed.vernier, "vernier")
    if not typed.main_part:
        raise BadAngle("main-part", "missing; say how large one part of the main scale is, as 1deg or 3'")
    over = whole_number(typed.over, "over") if typed.over else parts - 1
    form = next((form for form in FORMS if form == (typed.form or "direct")), None)
    if form is None:
        raise BadDivisions("form", f"{shown(typed.form)} is not known; there are {', '.join(FORMS)}")
    vernier = Vernier(parts, over, read_angle(typed.main_part, "main-part"), form)
    step = next((step for step in (10, 5, 3, 2) if parts % step == 0 and parts > step), 1)
    every = (Fraction(1), Fraction(step)) if step > 1 else (Fraction(1),)
    return AskedScale(vernier.scale(), every, Fraction(step), _numbered_in(vernier), vernier=vernier)


def _numbered_in(vernier: Vernier) -> Fraction:
    """What a line of a vernier is numbered as: minutes of arc where it reads to whole ones by 6, 12 or 30, else 1."""
    minutes = vernier.least_count * 360 * 60
    return minutes if minutes.denominator == 1 and vernier.parts % 6 == 0 else Fraction(1)


def _law(typed: ScaleTyped) -> AskedScale:
    if not typed.values:
        raise BadDivisions(
            "values", "missing; say which values have a line, as 1:10:0.5 or 1:2:0.1, 2:10:0.5"
        )
    values, step = read_values(typed.values)
    if typed.points or typed.points_file:
        raise BadDivisions("points", "go without a law; a scale follows a law or a table, not both")
    formula = read_formula(NAMED_LAWS.get(typed.law.strip(), typed.law), ("x", "arc", "first", "last"))
    arc = read_angle(typed.arc, "arc") if typed.arc else Fraction(1)

    def law(value: Fraction) -> Fraction | float:
        return formula(x=value, arc=arc * 360, first=values[0], last=values[-1]) / 360

    scale = scale_of_law(f"scale of {formula.text}", values, law)
    return AskedScale(scale, *_by_steps(step))


def _points(typed: ScaleTyped) -> AskedScale:
    points = read_points(_file(typed.points_file) if typed.points_file else typed.points)
    if not typed.values:
        return AskedScale(listed_lines(points), (Fraction(1),), Fraction(1))
    values, step = read_values(typed.values)
    known = [(read_number(text, "points"), angle) for text, angle in points]
    scale = scale_of_law("scale between calibrated points", values, between_points(known))
    return AskedScale(scale, *_by_steps(step))


def _threads(typed: ScaleTyped) -> AskedScale:
    if not typed.lead or not typed.threads:
        raise BadLength(
            "thread-dial",
            "it needs the leadscrew's lead and the threads to cut, as --lead 8tpi --threads 8tpi, 20tpi",
        )
    dial = ThreadDial(whole_number(typed.thread_dial, "thread-dial"), _lead(typed.lead))
    threads = tuple(_lead(piece, "threads") for piece in listed(typed.threads, "threads"))
    return AskedScale(dial.scale(threads), (Fraction(1),), Fraction(1), thread_dial=(dial, threads))


_KINDS = {
    "lines": _equal,
    "lead": _dial,
    "period": _hours,
    "vernier": _vernier,
    "law": _law,
    "points": _points,
    "thread-dial": _threads,
}


def read_values(text: str) -> tuple[tuple[Fraction, ...], Fraction]:
    """Return values typed as 1:2:0.1, 2:10:0.5 or one by one, and their least step. Raises Mendable."""
    pieces = listed(text, "values")
    if all(":" in piece for piece in pieces):
        stretches = [_stretch(piece) for piece in pieces]
        return stretched(stretches), min((abs(one.step) for one in stretches), default=Fraction(1))
    values = tuple(read_number(piece, "values") for piece in pieces)
    steps = [abs(after - before) for before, after in pairwise(values) if after != before]
    return values, min(steps, default=Fraction(1))


def _stretch(piece: str) -> Stretch:
    numbers = piece.split(":")
    if len(numbers) != 3:
        raise BadDivisions(
            "values", f"{shown(piece)} is not a stretch; write it as FIRST:LAST:STEP, as 1:10:0.5"
        )
    return Stretch(*(read_number(number, "values") for number in numbers))


def read_points(text: str) -> tuple[tuple[str, Fraction], ...]:
    """Return points typed as 0=0, 10=12.5, 20=24d30m, or one a line: a text and its angle in turns.

    Raises BadAngle naming the point that cannot be read.
    """
    pieces = listed(text, "points", ",;", by_lines=True)
    points = []
    for number, piece in enumerate(pieces, 1):
        value, equals, angle = piece.partition("=")
        if not equals:
            raise BadAngle("points", f"point {number} is {shown(piece)}; write value = angle, as 10 = 12.5")
        points.append((value.strip(), read_angle(angle, f"points: point {number}, {shown(value)}")))
    return tuple(points)


def with_points(typed: ScaleTyped) -> ScaleTyped:
    """Return the same with the points of a file written out, so that the file need not be kept. Raises BadFile."""
    if not typed.points_file:
        return typed
    return replace(typed, points=_file(typed.points_file), points_file="")


def _file(path: str) -> str:
    missing = "give one with a point on each line, as 10 = 12.5"
    return typed_text(path, "a file of points", "", MOST_BYTES, "a few pages of text", missing)


def _lead(text: str, what: str = "lead") -> Fraction:
    plain = text.strip().lower()
    if plain.endswith("tpi"):
        threads = read_number(plain.removesuffix("tpi"), what)
        if threads <= 0:
            raise BadNumber(what, f"{as_text(threads)} threads to the inch; there are more than 0, as 8tpi")
        return INCH / threads
    return read_diameter(text, what)


def _minutes(text: str, what: str) -> Fraction:
    match = _DURATION.fullmatch(text.strip())
    if match is None or not any(match.groups()):
        raise BadNumber(what, f"{shown(text)} is not a time; write it as 12h25m, 5m or 30s")
    hours, minutes, seconds = (read_number(part, what) if part else Fraction(0) for part in match.groups())
    return hours * 60 + minutes + seconds / 60


def _by_tens(lines: int) -> tuple[Fraction, ...]:
    return tuple(map(Fraction, (1, 5, 10) if lines >= 10 else (1,)))


def _by_steps(step: Fraction) -> tuple[tuple[Fraction, ...], Fraction]:
    return (step, step * 5, step * 10), step * 10
