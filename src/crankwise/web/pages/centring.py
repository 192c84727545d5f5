"""Centring: how far off, which way, how much at each screw; from an indicator or from two opposite pointers."""

from fractions import Fraction
from typing import Any

from crankwise.accuracy.centring import OffCentre
from crankwise.draw.centring import centring
from crankwise.errors import BadNumber, Mendable
from crankwise.exact.length import read_diameter
from crankwise.tasks.centre import (
    IN_INCHES,
    UNITS,
    both_pointers,
    centre,
    centre_answer,
    pointers_answer,
    screw_angles,
)
from crankwise.web.answers import Page
from crankwise.web.errors import sentences_of
from crankwise.web.visit import Visit
from crankwise.wording.measure import NOT_YET_CENTRED, centre_lines, pointer_table

_FIELDS = ("by", "readings", "unit", "pointers", "diameter", "screws")
_BY = {"indicator": "an indicator, as the work is turned", "pointers": "two opposite pointers on a scale"}


def show(visit: Visit) -> Page:
    """Show the form, and what its readings say; nothing is kept."""
    typed = {name: visit.query.get(name, "").strip() for name in _FIELDS}
    typed["unit"] = typed["unit"] or ("thou" if visit.preferences.inch_first else "mm")
    typed["by"] = typed["by"] if typed["by"] in _BY else "indicator"
    if not (typed["readings"] or typed["pointers"]) and "by" not in visit.query:
        return _page(typed, {}, None)
    try:
        told, as_json = _told(typed, visit.preferences.inch_first)
    except Mendable as error:
        return _page(typed, {}, None, error)
    return _page(typed, told, as_json)


def _told(typed: dict[str, str], inch_first: bool) -> tuple[dict[str, Any], dict[str, Any]]:
    diameter = read_diameter(typed["diameter"], "diameter") if typed["diameter"] else None
    screws = screw_angles(typed["screws"])
    if typed["by"] == "pointers":
        both = both_pointers(typed["pointers"], diameter)
        table = pointer_table(both.rows, both.told)
        answer = pointers_answer(both, screws, diameter)
        if both.found is None:
            return {"table": table, "lines": [NOT_YET_CENTRED], "picture": ""}, answer
        return _off(both.found, screws, diameter, inch_first, by_pointers=True) | {"table": table}, answer
    if not typed["readings"]:
        raise BadNumber("readings", "none; write 3 or more, as 0:0.00, 120:0.03, 240:0.05")
    found = centre(typed["readings"], unit=typed["unit"])
    return _off(found, screws, diameter, typed["unit"] in IN_INCHES), centre_answer(found, screws, diameter)


def _off(
    found: OffCentre,
    screws: tuple[Fraction, ...],
    diameter: Fraction | None,
    inch_first: bool,
    by_pointers: bool = False,
) -> dict[str, Any]:
    return {
        "lines": centre_lines(found, screws, diameter, by_pointers, inch_first),
        "picture": centring(found, found.screws(screws)),
        "table": None,
    }


def _page(
    typed: dict[str, str], told: dict[str, Any], as_json: object, error: Mendable | None = None
) -> Page:
    values = {
        "filled": typed,
        "by": list(_BY.items()),
        "units": [(unit, unit) for unit in UNITS],
        "told": told,
        "sentences": sentences_of(error),
    }
    return Page("centring.html", values, as_json, error=error)
