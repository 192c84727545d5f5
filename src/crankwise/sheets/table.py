"""The run sheet as columns of values, units in their headings: what a CSV file and a workbook hold."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH, along, rim_length
from crankwise.exact.number import as_text
from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.plan.side_by_side import own_targets
from crankwise.wording import sheet as words
from crankwise.wording import sheet_cells as cells
from crankwise.wording.passes import pass_name, todo_text
from crankwise.wording.settings import between_numerals

Value = str | int | Fraction | None


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column.

    heading  what it holds, and its unit
    value    what stands in it at a row: a number as it is, a text as its owner typed it
    places   decimals that a number is written to, at most
    """

    heading: str
    value: Callable[[Row], Value]
    places: int = 0


def table_of(
    plan: Plan, title: str, passes: Passes = ONE_PASS
) -> tuple[tuple[TableColumn, ...], tuple[Row, ...]]:
    """Return the columns of a plan's run sheet, and its rows; the closing row last where it goes round.

    passes  once or more over the positions: all their rows in the order worked, each with its pass
    """
    rows = schedule(plan, passes)
    return tuple(_columns(plan, rows, title, passes)), rows


def _columns(plan: Plan, rows: Sequence[Row], title: str, passes: Passes) -> Iterator[TableColumn]:
    first, targets = rows[0], own_targets(plan, rows)
    if passes != ONE_PASS:
        yield TableColumn("pass", lambda row: row.pass_number + 1)
        yield TableColumn("pass name", lambda row: pass_name(row.work, plan.part))
        if any(one.depth_mm is not None for one in passes):
            begins = "top" if plan.part.is_straight else "rim"
            yield TableColumn(f"depth from the {begins} (mm)", lambda row: row.work.depth_mm, 4)
    yield TableColumn("position", lambda row: row.reached.position)
    yield from _setting_columns(plan, first)
    if first.ring_check is not None:
        yield TableColumn(f"ring check ({cells.ring_unit(plan.head)})", lambda row: row.ring_check, 4)
    yield from _along_the_slide() if plan.part.is_straight else _round_the_head(plan, targets)
    yield TableColumn("what to do", lambda row: _todo(plan, row))
    if beyond := cells.beyond_the_cut(plan.part):
        yield TableColumn(
            "beyond the cut", lambda row: "" if row.closing else beyond.get(row.reached.position, "")
        )
    # The same on every row, so that a row cut out of the table still says what it is of.
    yield TableColumn("job", lambda row: title)
    yield TableColumn("head", lambda row: plan.head.name)
    way = words.way_text(plan)
    yield TableColumn("way", lambda row: way)


def _along_the_slide() -> Iterator[TableColumn]:
    """No exact target: a pitch that holds pi to fifty decimals is no figure to read."""
    yield TableColumn("target (mm)", lambda row: along(row.reached.target), 6)
    yield TableColumn("target (in)", lambda row: along(row.reached.target) / INCH, 7)
    yield TableColumn("error (µm)", lambda row: along(row.reached.error) * 1000, 3)
    yield TableColumn("error (thou)", lambda row: along(row.reached.error) / INCH * 1000, 4)


def _round_the_head(plan: Plan, targets: Mapping[int, Fraction]) -> Iterator[TableColumn]:
    yield TableColumn("target exact (degrees)", lambda row: f"{as_text(targets[row.index] * 360)}°")
    yield TableColumn("target (degrees)", lambda row: targets[row.index] * 360, 8)
    yield TableColumn("error (arc seconds)", lambda row: row.reached.error * ARCSECONDS, 4)
    if (rim := plan.part.rim_mm) is not None:
        yield TableColumn("error at rim (µm)", lambda row: rim_length(row.reached.error, rim) * 1000, 3)
        yield TableColumn(
            "error at rim (thou)", lambda row: rim_length(row.reached.error, rim) / INCH * 1000, 4
        )


def _setting_columns(plan: Plan, first: Row) -> Iterator[TableColumn]:
    circles, wheels = cells.named(plan.way, "circle"), cells.named(plan.way, "wheel")
    setting = first.reached.setting
    for name in cells.set_here(setting):
        match name:
            case "notches":
                heading = f"notches since zero (wheel of {wheels[0]})"
                yield TableColumn(heading, lambda row: row.reached.setting.notches)
            case "second wheel":
                heading = f"notches of the carrying wheel (wheel of {wheels[1]})"
                yield TableColumn(heading, lambda row: row.reached.setting.second_notches)
            case "turns":
                yield TableColumn("whole turns since zero", lambda row: row.reached.setting.turns)
            case "hole":
                on = "" if setting.circle else f" ({circles[0]} circle)"
                yield TableColumn(f"holes past the whole turn{on}", lambda row: _holes(row)[0])
            case "back pin":
                heading = f"holes of the pin at the back ({circles[1]} circle)"
                yield TableColumn(heading, lambda row: _holes(row)[1])
            case "circle":
                yield TableColumn("circle", lambda row: row.reached.setting.circle)
            case "dial":
                yield TableColumn("dial reading (marks)", lambda row: row.reached.setting.reading, 6)
                yield TableColumn("between numerals", lambda row: _between(plan, row))
            case "ring":
                unit = cells.ring_unit(plan.head)
                yield TableColumn(f"ring reading ({unit})", lambda row: row.reached.setting.reading, 6)
            case "steps":
                yield TableColumn("steps since zero", lambda row: row.reached.setting.steps)


def _holes(row: Row) -> tuple[int, ...]:
    return row.reached.setting.holes or (0, 0)


def _between(plan: Plan, row: Row) -> str:
    return between_numerals(plan.head, row.reached.setting.reading or Fraction(0))


def _todo(plan: Plan, row: Row) -> str:
    if row.closing:
        return f"{cells.row_label(plan.part, row)}. {words.ending_text(plan, closes=True)}"
    return todo_text(plan.part, row.work)
