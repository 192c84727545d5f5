from fractions import Fraction
from io import BytesIO

import pytest
from openpyxl import load_workbook
from openpyxl.cell.cell import Cell

from crankwise.exact.angle import ARCSECONDS
from crankwise.plan.passes import ONE_PASS
from crankwise.plan.schedule import schedule
from crankwise.plan.side_by_side import own_targets
from crankwise.sheets.run_workbook import run_workbook_bytes
from tests.sheets.plans import every_run, tide_ring

NASTY = '=HYPERLINK("http://x.invalid","<script>")'


def table(content: bytes) -> tuple[list[str], list[dict[str, Cell]]]:
    sheet = load_workbook(BytesIO(content)).worksheets[0]
    headings, *rows = (list(row) for row in sheet.iter_rows())
    names = [str(cell.value) for cell in headings]
    return names, [dict(zip(names, row, strict=True)) for row in rows]  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", every_run())
def test_every_figure_of_the_run_is_read_back_as_a_number(kind: str) -> None:
    plan, passes = every_run()[kind]
    names, rows = table(run_workbook_bytes(plan, "Tide ring", passes))
    told = schedule(plan, passes)
    rounds = [
        row.reached.target - target
        for row, target in zip(told, own_targets(plan, told).values(), strict=True)
    ]
    assert passes != ONE_PASS or not any(rounds)
    assert all(turns.denominator == 1 for turns in rounds)

    assert len(rows) == len(told)
    for row, cells in zip(told, rows, strict=True):
        assert cells["position"].value == row.reached.position
        own = (row.reached.target - rounds[row.index]) * 360
        assert cells["target (degrees)"].value == pytest.approx(float(own), abs=1e-8)
        error = cells["error (arc seconds)"].value
        assert error == pytest.approx(float(row.reached.error * ARCSECONDS), abs=1e-4)
        for name in names:
            numeric = name.startswith(("position", "target (", "error", "whole", "dial", "ring", "holes"))
            assert cells[name].data_type in ("n" if numeric else "sn"), (name, cells[name].value)


def test_the_exact_target_loses_nothing() -> None:
    _, rows = table(run_workbook_bytes(tide_ring(), "Tide ring"))
    exact = [Fraction(str(cells["target exact (degrees)"].value).rstrip("°")) for cells in rows]

    assert exact == [Fraction(360 * index, 149) for index in range(150)]


def test_what_a_person_typed_is_never_a_formula() -> None:
    content = run_workbook_bytes(tide_ring(), NASTY)
    _, rows = table(content)

    assert {(cells["job"].value, cells["job"].data_type) for cells in rows} == {(NASTY, "s")}
    assert all(cell.data_type != "f" for cells in rows for cell in cells.values())


def test_headings_stay_in_sight_and_name_their_units() -> None:
    book = load_workbook(BytesIO(run_workbook_bytes(tide_ring(), "Tide ring")))
    names, _ = table(run_workbook_bytes(tide_ring(), "Tide ring"))

    assert book.worksheets[0].freeze_panes == "A2"
    assert {"dial reading (marks)", "ring check (degrees)", "error (arc seconds)"} <= set(names)
