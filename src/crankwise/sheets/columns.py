"""The columns of a run sheet, and what stands in each of them at a row: the same on paper and on a page."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.wording import along
from crankwise.wording import sheet_cells as cells
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.sheet_cells import SetHere

Role = SetHere | Literal["position", "numeral", "ring check", "target", "error", "remark"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: what it holds, and its heading in two lines."""

    role: Role
    heading: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one column of a line: the figure, and a smaller one under it."""

    text: str
    small: str = ""


def columns_of(plan: Plan, first: Row) -> Iterator[Column]:
    """Return what each line holds, in order; first is any row of the schedule."""
    setting = first.reached.setting
    unit = cells.ring_unit(plan.head)
    yield Column("position", ("position", ""))
    for name in cells.set_here(setting):
        yield Column(name, cells.set_heading(name, plan.way, setting, unit))
        if name == "dial" and plan.head.dial and plan.head.dial.numbered_every:
            yield Column("numeral", ("numeral", "+ marks past it"))
    if first.ring_check is not None and "ring" not in cells.set_here(setting):
        yield Column("ring check", ("ring check", unit))
    yield Column("target", ("target", "from the start"))
    yield Column(
        "error", ("error", "at the rim" if plan.part.rim_mm else "along" if plan.part.is_straight else "")
    )
    yield Column("remark", ("remark", ""))


def beyond_here(row: Row, beyond: Mapping[int, str]) -> str:
    """Return what is done at a row beyond the cut; nothing on a closing row, where all is made already.

    beyond  what is done at each position
    """
    return "" if row.closing else beyond.get(row.reached.position, "")


def cell_of(plan: Plan, row: Row, role: Role, target: Fraction, remark: str = "") -> Cell:
    """Return what stands in one column of a row.

    target  of its position, as its list tells it
    """
    reached = row.reached
    match role:
        case "position":
            return Cell(cells.row_label(plan.part, row))
        case "numeral":
            return Cell(cells.past_numeral(plan.head, reached.setting.reading or Fraction(0)))
        case "ring check":
            return Cell(cells.ring_check_text(plan.head, row.ring_check))
        case "target" if plan.part.is_straight:
            return Cell(along.place_mm(reached.target), along.place_in(reached.target))
        case "target":
            return Cell(degrees_minutes_seconds(target), decimal_degrees(target))
        case "error" if plan.part.is_straight:
            return Cell(along.signed_error(reached.error), along.signed_thou(reached.error))
        case "error":
            rim = plan.part.rim_mm
            at_rim = " ".join(cells.signed_rim(reached.error, rim)) if rim and reached.error else ""
            return Cell(cells.signed_arcseconds(reached.error), at_rim)
        case "remark":
            return Cell(remark)
        case _:
            return Cell(cells.set_here(cells.in_its_notch(plan.way, reached.setting))[role])
