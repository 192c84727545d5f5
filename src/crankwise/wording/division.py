"""The answer to a division as tables of text: the ways side by side, and the positions of one."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import schedule
from crankwise.ways.choosing import on_the_front, work
from crankwise.ways.ranking import is_within
from crankwise.ways.way import Way
from crankwise.wording.along import NOT_ROUND, NOT_STRAIGHT, error_text, place_text, signed_error
from crankwise.wording.angle import degrees_minutes_seconds
from crankwise.wording.figures import arcseconds, at_the_rim, decimal
from crankwise.wording.settings import holes_cell, notches_cell, reading_text, ring_reading_text
from crankwise.wording.ways import method_name, setup_text

Table = tuple[list[str], list[list[str]]]


def way_table(ways: Iterable[Way], part: Part, tolerance: Fraction | None) -> Table:
    """Return headings and a row a way: method, set-up, worst error, at the rim, what it costs.

    A way is unbeaten when no other is as good in error, set-up, turning and mistakes and better in one.
    """
    ways = list(ways)
    headings = ["way", "worst error"]
    turned = "turns of the screw" if part.is_straight else "crank turns"
    headings += ["at the rim"] if part.rim_mm else []
    headings += ["within"] if tolerance is not None else []
    headings += ["on a line", turned, "mistakes to expect", "unbeaten", "set-up"]
    rows = []
    costs = [work(way) for way in ways]
    for way, cost, unbeaten in zip(ways, costs, on_the_front(ways, costs), strict=True):
        row = [method_name(way), worst_error_text(way)]
        row += [at_the_rim(way.worst_error, part.rim_mm)] if part.rim_mm else []
        row += ["yes" if is_within(way, tolerance) else "no"] if tolerance is not None else []
        row += [f"{way.settings_on_lines()} of {len(way.divisions)}", decimal(cost.crank_turns, 0)]
        rows.append([*row, decimal(cost.mistakes, 2), "yes" if unbeaten else "", setup_text(way)])
    return headings, rows


def worst_error_text(way: Way) -> str:
    """Return how far out the worst position is: exact, or a bound either way."""
    if way.exact:
        return "exact"
    return f"±{error_text(way.worst_error) if way.divisions.is_straight else arcseconds(way.worst_error)}"


def position_table(plan: Plan) -> Table:
    """Return headings and a row a position: the setting from the start, ring check, target and error."""
    rows = schedule(plan)
    first = rows[0].reached.setting
    ring = plan.head.ring
    ring_unit = "°" if ring and ring.full_circle == 360 else ""
    headings = ["position"]
    headings += ["notches"] if first.notches is not None else []
    headings += ["turns"] if first.turns is not None else []
    headings += ["holes"] if first.holes is not None else []
    headings += ["reading"] if first.reading is not None else []
    headings += ["steps"] if first.steps is not None else []
    headings += ["ring"] if ring else []
    headings += ["target", "error"]
    table = []
    for row in rows:
        setting = row.reached.setting
        number = row.reached.position
        cells = [f"{number} = {rows[0].reached.position}" if row.closing else str(number)]
        cells += [notches_cell(setting)] if setting.notches is not None else []
        cells += [str(setting.turns)] if setting.turns is not None else []
        cells += [holes_cell(setting)] if setting.holes is not None else []
        cells += [reading_text(setting.reading)] if setting.reading is not None else []
        cells += [str(setting.steps)] if setting.steps is not None else []
        cells += (
            [ring_reading_text(ring, row.ring_check) + ring_unit]
            if ring and row.ring_check is not None
            else []
        )
        if plan.part.is_straight:
            cells += [place_text(row.reached.target), signed_error(row.reached.error)]
        else:
            cells += [degrees_minutes_seconds(row.reached.target), arcseconds(row.reached.error)]
        table.append(cells)
    return headings, table


def refusal_text(
    head: Head, ways: Sequence[Way], part: Part, tolerance: Fraction | None, why: str = ""
) -> str:
    """Return why the answer is no, with the nearest way there is.

    why  why the work leaves none of the head's ways, where it is the work that does
    """
    if not ways:
        return f"no way: {why or _no_way(head, part)}"
    nearest = ways[0]
    within = (
        error_text(tolerance or Fraction(0)) if part.is_straight else arcseconds(tolerance or Fraction(0))
    )
    found = (
        f"the nearest is {method_name(nearest).lower()} ({setup_text(nearest)}), {worst_error_text(nearest)}"
    )
    at_rim = f", {at_the_rim(nearest.worst_error, part.rim_mm)} at the rim" if part.rim_mm else ""
    return f"no way within {within}; {found}{at_rim}"


def no_way_text(
    head: Head, ways: Sequence[Way], named: str | None, part: Part, tolerance: Fraction | None, why: str = ""
) -> str:
    """Return why the answer is no: as `refusal_text`, and of the way that was named where another would do."""
    if named and any(is_within(way, tolerance) for way in ways):
        ways = [way for way in ways if named in (way.key, way.method)]
    return refusal_text(head, ways, part, tolerance, why)


def _no_way(head: Head, part: Part) -> str:
    """Notched wheels alone cut what divides their notches; any other scale serves unless it does not close."""
    if part.is_straight != head.is_straight:
        return (NOT_ROUND if part.is_straight else NOT_STRAIGHT).format(name=head.name)
    on_crank = head.ratio is not None and (head.dial or head.plates or head.stepper)
    if on_crank or not head.notched_wheels:
        return "on no scale of this head does a full circle come out in whole places"
    wheels = sorted(wheel.notches for wheel in head.notched_wheels)
    named = f"{'the wheel' if len(wheels) == 1 else 'the wheels'} of {_listed(wheels)} notches"
    divisions = part.divisions
    if not isinstance(divisions, EqualDivisions) or not all(notches % divisions.count for notches in wheels):
        return f"not every position falls on a notch of {named}"
    cut = {count for notches in wheels for count in range(1, notches + 1) if notches % count == 0}
    below = max(count for count in cut if count < divisions.count)
    above = min((count for count in cut if count > divisions.count), default=None)
    nearest = _listed([below] if above is None else [below, above])
    return f"{divisions.count:,} parts are no whole number of notches on {named}; the nearest that are: {nearest}"


def _listed(counts: Sequence[int]) -> str:
    *most, last = map(str, counts)
    return f"{', '.join(most)} and {last}" if most else last
