"""Size circles of holes: what was typed becomes coordinates, chords, and cards."""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from crankwise.errors import BadAngle, BadLength
from crankwise.exact.angle import read_angle
from crankwise.exact.length import INCH, read_diameter, read_length
from crankwise.exact.listed import listed
from crankwise.exact.number import as_text, shown
from crankwise.part.divisions import EqualDivisions
from crankwise.part.hole_circle import HoleCircle, HolePattern, parts_of
from crankwise.part.hole_circle_cards import PLACE_TOLERANCE_MM, measuring_card, preparation_card
from crankwise.part.polar import Point
from crankwise.plan.leadscrew import Leadscrew, SlideSetting, slide_setting
from crankwise.tasks.divide import asked_part, whole_number
from crankwise.tasks.leadscrew import asked_leadscrew
from crankwise.tasks.sized_part import SizedPart, Table, is_in_inches, number, optional_length
from crankwise.wording.card import length_text
from crankwise.wording.hole_circle import coordinate_table, pattern_name, web_warnings

_SIDES = {"right": Fraction(0), "top": Fraction(1, 4), "left": Fraction(1, 2), "bottom": Fraction(3, 4)}
_ANOTHER = re.compile(
    r"\s*(?P<count>[^@]+?)\s*(?:\bon\b|@)\s*(?P<circle>.+?)\s*(?:\bhole\b\s*(?P<hole>.+))?", re.DOTALL
)


@dataclass(frozen=True, slots=True)
class HolesTyped:
    """What was typed for circles of holes, all texts; empty where nothing was. Lengths bare in mm.

    count, angles, first, last, every   which holes, as for a division
    circle, hole                        diameters
    first_at                            where the first hole lies: degrees from the right, or a side
    clockwise                           whether they go round clockwise
    centre                              what the dials read over the centre, x and y
    also, blank                         further circles in the same blank, and its diameter
    plate, apart                        holes of each circle of a hole plate, and how far apart the circles are
    tolerance                           how far a chord may be out
    leadscrew, marks, read_to           the mill's dials
    """

    count: str = ""
    angles: str = ""
    first: str = ""
    last: str = ""
    every: str = ""
    circle: str = ""
    hole: str = ""
    first_at: str = ""
    clockwise: bool = False
    centre: str = ""
    also: str = ""
    plate: str = ""
    apart: str = ""
    blank: str = ""
    tolerance: str = ""
    leadscrew: str = ""
    marks: str = ""
    read_to: str = ""


def asked_pattern(typed: HolesTyped) -> HolePattern:
    """Return the circles of holes that were typed. Raises Mendable."""
    if not typed.circle:
        raise BadLength(
            "circle", "not told; say the diameter of the circle through the holes, as --circle 60mm"
        )
    hole = optional_length(typed.hole, "hole")
    if typed.plate:
        typed = _plate(typed, hole)
    elif typed.apart:
        raise BadLength("apart", "goes with a hole plate; give its circles too, as --plate 15,16,17,18")
    divisions = asked_part(
        typed.count, angles=typed.angles, first=typed.first, last=typed.last, every=typed.every, work="hole"
    ).divisions
    step = divisions.step if isinstance(divisions, EqualDivisions) else Fraction(0)
    first_at = _first_at(typed.first_at, -step if typed.clockwise else step)
    circles = [HoleCircle(divisions, read_diameter(typed.circle, "circle"), hole, first_at, typed.clockwise)]
    further = listed(typed.also, "also", ",;", by_lines=True)
    circles += [_another(piece, hole, first_at, typed.clockwise) for piece in further]
    return HolePattern(tuple(circles), optional_length(typed.blank, "blank"))


def _plate(typed: HolesTyped, hole: Fraction | None) -> HolesTyped:
    """Return the same asked circle by circle: the most holes on the circle that was told, the others inward.

    Raises BadLength, BadNumber or FaultsFound.
    """
    for what in ("count", "angles", "first", "last", "every", "also"):
        if getattr(typed, what):
            raise BadLength(
                "plate", f"it says the holes of every circle; leave {_OPTIONS.get(what, what)} out"
            )
    counts = sorted(
        {whole_number(piece, "plate") for piece in listed(typed.plate, "plate", ",;")}, reverse=True
    )
    if len(counts) < 2:
        raise BadLength(
            "plate", "it has two circles or more, as 15,16,17,18,19,20; a single one needs only N"
        )
    if not typed.apart and hole is None:
        raise BadLength(
            "apart", "not told; say how far one circle is from the next, as --apart 6mm, or the hole"
        )
    apart = read_diameter(typed.apart, "apart") if typed.apart else 2 * (hole or Fraction(0))
    largest = read_diameter(typed.circle, "circle")
    least = largest - 2 * apart * (len(counts) - 1)
    if least <= 2 * apart:
        raise BadLength(
            "apart",
            f"{len(counts)} circles {as_text(apart)} mm apart do not go inside {as_text(largest)} mm; "
            f"less than {length_text(largest / (2 * len(counts)))} does",
        )
    inward = [f"{count} on {largest - 2 * apart * place} mm" for place, count in enumerate(counts) if place]
    return replace(typed, count=str(counts[0]), also=", ".join(inward), plate="", apart="")


_OPTIONS = {"count": "N"}


def holes_answer(typed: HolesTyped) -> SizedPart:
    """Return all that is known of the holes that were typed. Raises Mendable."""
    pattern = asked_pattern(typed)
    inch_first = is_in_inches(typed.circle)
    centre = _centre(typed.centre)
    tolerance = optional_length(typed.tolerance, "tolerance") or PLACE_TOLERANCE_MM
    screw = asked_leadscrew(typed.leadscrew, typed.marks, typed.read_to)
    tables: list[Table] = []
    told: list[dict[str, Any]] = []
    for index, circle in enumerate(pattern.circles, 1):
        points = circle.coordinates_mm(centre)
        settings = _settings(screw, points)
        title = "Coordinates" if len(pattern.circles) == 1 else f"Coordinates of circle {index}"
        tables.append((title, *coordinate_table(circle, points, settings, inch_first)))
        told.append(_circle_object(circle, points, settings))
    return SizedPart(
        "holes",
        pattern_name(pattern, inch_first),
        pattern,
        parts_of(pattern),
        (preparation_card(pattern), measuring_card(pattern, tolerance)),
        {**told[0], "circles": told, "blank_mm": number(pattern.blank_mm)},
        inch_first,
        tuple(web_warnings(pattern)),
        tuple(tables),
        runs=pattern.names,
    )


def _circle_object(
    circle: HoleCircle, points: list[Point], settings: list[tuple[SlideSetting, SlideSetting]]
) -> dict[str, Any]:
    full = circle.is_full_circle and len(circle.divisions) > 1
    told: dict[str, Any] = {
        "holes": len(circle.divisions),
        "circle_mm": float(circle.circle_mm),
        "hole_mm": number(circle.hole_mm),
        "chord_mm": circle.least_chord_mm,
        "chords_mm": list(circle.chords_mm),
        "opposite_mm": circle.across_mm(circle.opposite) if full else None,
        "web_mm": circle.web_mm,
        "angles_deg": [as_text(circle.angle_of(target) * 360) for _, target in circle.divisions.targets()],
        "coordinates_mm": [list(point) for point in points],
        "coordinates_in": [[x / float(INCH), y / float(INCH)] for x, y in points],
    }
    if settings:
        told["dials"] = [{"x": _dial_object(x), "y": _dial_object(y)} for x, y in settings]
    return told


def _dial_object(setting: SlideSetting) -> dict[str, Any]:
    return {
        "turns": setting.turns,
        "reading": as_text(setting.reading),
        "error_um": float(setting.error_mm * 1000),
    }


def _settings(screw: Leadscrew | None, points: list[Point]) -> list[tuple[SlideSetting, SlideSetting]]:
    if screw is None:
        return []
    return [
        (slide_setting(screw, Fraction(x), index), slide_setting(screw, Fraction(y), index))
        for index, (x, y) in enumerate(points)
    ]


def _another(piece: str, hole: Fraction | None, first_at: Fraction, clockwise: bool) -> HoleCircle:
    found = _ANOTHER.fullmatch(piece)
    if found is None:
        raise BadLength(
            "also",
            f"{shown(piece)} is not another circle; write its holes and its diameter, as 41 on 90mm, or "
            "41 on 90mm hole 3mm",
        )
    divisions = asked_part(found["count"], work="hole").divisions
    size = read_diameter(found["hole"], "also, hole") if found["hole"] else hole
    return HoleCircle(divisions, read_diameter(found["circle"], "also, circle"), size, first_at, clockwise)


def _first_at(typed: str, step: Fraction) -> Fraction:
    word = typed.strip().lower()
    if word == "straddle":
        return Fraction(1, 4) - step / 2
    if word in _SIDES or not word:
        return _SIDES.get(word, Fraction(0))
    try:
        return read_angle(word) % 1
    except BadAngle:
        raise BadAngle(
            "first-at",
            f"{shown(typed)} is no place for the first hole; say right, top, left, bottom, straddle (two "
            "holes either side of the top), or degrees anticlockwise from the right, as 15",
        ) from None


def _centre(typed: str) -> tuple[Fraction, Fraction]:
    if not typed.strip():
        return Fraction(0), Fraction(0)
    pieces = typed.split(",")
    if len(pieces) != 2:
        raise BadLength(
            "centre", f"{shown(typed)}; write what both dials read over the centre, x and y, as 40mm,25mm"
        )
    return read_length(pieces[0], "centre, x"), read_length(pieces[1], "centre, y")
