"""Work along a slide in words: lengths, in both systems of units, and no angle anywhere."""

import re
from fractions import Fraction

from crankwise.exact.length import INCH, STRAIGHT_MM
from crankwise.exact.number import PI
from crankwise.part.divisions import EqualSteps
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import schedule
from crankwise.run.check_points import Return
from crankwise.run.entry import Entry
from crankwise.sheets.html_page import html_bytes
from crankwise.sheets.sheet import sheet_of
from crankwise.wording import along
from crankwise.wording.cautions import part_cautions
from crankwise.wording.division import position_table, refusal_text, way_table
from crankwise.wording.head import described
from crankwise.wording.run import told, trace_text
from crankwise.wording.run_checks import return_text
from crankwise.wording.run_page import entry_text, joints_of
from tests.gear import BENCH_HEAD, MILL_TABLE, head


def rack_plan(count: int = 40) -> Plan:
    plan = planned(head(MILL_TABLE), Part(EqualSteps(count, PI), work="space"))
    assert plan is not None
    return plan


PLAN = rack_plan()
ANGLE = re.compile(r"\d\s*[°\"′″]|degree|second|spindle|crank|circle|rim", re.IGNORECASE)


def test_a_place_is_told_in_both_units() -> None:
    inch = INCH / STRAIGHT_MM
    assert along.place_text(inch) == "25.400 mm (1.0000 in)"
    assert along.place_text(inch, inch_first=True) == "1.0000 in (25.400 mm)"
    assert (along.place_mm(inch), along.place_in(inch)) == ("25.400 mm", "1.0000 in")
    assert along.target_text(PLAN, inch) == "25.400 mm"


def test_an_error_has_its_sign_and_is_never_nought_unless_it_is() -> None:
    thou = INCH / 1000 / STRAIGHT_MM
    assert (along.signed_error(thou), along.signed_thou(thou)) == ("+25.4 µm", "+1.00 thou")
    assert (along.signed_error(-thou), along.signed_thou(-thou)) == (
        "\N{MINUS SIGN}25.4 µm",
        "\N{MINUS SIGN}1.00 thou",
    )
    assert (along.signed_error(Fraction(0)), along.signed_thou(Fraction(0))) == ("0", "")
    assert along.signed_error(thou / 10**9) == "+under 0.0001 µm"


def test_the_answer_is_in_lengths() -> None:
    headings, rows = way_table([PLAN.way], PLAN.part, None)
    assert headings[1:4] == ["worst error", "on a line", "turns of the screw"]
    assert rows[0][1] == "±11.1 µm (4.4 tenths of a thou)"
    _, places = position_table(PLAN)
    assert places[39] == ["39", "24", "50.5", "122.522 mm (4.8237 in)", "+2.9 µm"]
    assert refusal_text(PLAN.head, [PLAN.way], PLAN.part, Fraction(1, 100) / STRAIGHT_MM).startswith(
        "no way within 10.0 µm (3.9 tenths of a thou); the nearest is dial, nearest reading"
    )
    assert "Bench head turns the work" in refusal_text(head(BENCH_HEAD), [], PLAN.part, None)


def test_no_angle_and_no_crank_stands_on_the_sheet_of_a_rack() -> None:
    sheet = sheet_of(PLAN, "Rack")
    words = [sheet.summary, sheet.ending, *sheet.before, *sheet.cautions]
    words += [text for fact in sheet.facts for text in fact]
    words += [heading for column in sheet.columns for heading in column.heading]
    words += [text for line in sheet.lines for cell in line.cells for text in (cell.text, cell.small)]
    assert [word for word in words if ANGLE.search(word)] == []
    assert "122.522 mm" in html_bytes(sheet).decode()


def test_no_angle_and_no_crank_stands_on_the_run_of_a_rack() -> None:
    for row in schedule(PLAN):
        one = told(PLAN, row)
        words = [
            one.position,
            one.come_up_to.value,
            one.come_up_to.unit,
            one.detail,
            one.since_zero,
            one.work,
        ]
        assert [word for word in words if ANGLE.search(word)] == []
    slipped = Entry("slipped", "t", 0.0, 4, angle=Fraction(-3, 10) / STRAIGHT_MM, joint="work")
    assert entry_text(slipped, schedule(PLAN), PLAN) == (
        "From position 4 on: the work on the table has slipped, and the work stands 0.300 mm (0.0118 in) behind."
    )
    assert list(joints_of(PLAN)) == ["work", "dial"]
    assert trace_text(PLAN).startswith("Go once along")
    assert return_text(Return(20, None), PLAN).startswith("Go back past the first space, machine off")
    assert [word for word in part_cautions(PLAN.part) if ANGLE.search(word)] == []


def test_a_slide_is_told_back_in_lengths() -> None:
    lines = described(PLAN.head)
    assert lines[0] == "slide: one turn of its screw moves it 5 mm (about 0.19685 in)"
    assert [line for line in lines if ANGLE.search(line)] == []
