"""What stands on a sheet, before it is laid out in any form."""

from dataclasses import replace
from itertools import pairwise

import pytest

from crankwise.part.part import Mark
from crankwise.plan.passes import Pass
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import schedule
from crankwise.run.check_points import checks
from crankwise.run.evidence import Evidence
from crankwise.sheets.sheet import Sheet, sheet_of
from crankwise.ways.search import find_ways
from crankwise.wording.sheet import READ_HERE, ending_text, rhythm_text
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD
from tests.sheets.plans import every_kind, every_run, plan, tide_ring


def fact(sheet: Sheet, name: str) -> str:
    return dict(sheet.facts)[name]


def column(sheet: Sheet, role: str) -> list[str]:
    index = [column.role for column in sheet.columns].index(role)  # type: ignore[arg-type]
    return [line.cells[index].text for line in sheet.lines]


def test_the_head_says_what_is_set_which_way_and_how_far_out() -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    assert fact(sheet, "Part") == "149 lines, 2°24'58.0\" (2.4161°) apart; rim Ø 150 mm (5.906 in)"
    assert fact(sheet, "Head") == "Bench head, ratio 72:1, one turn of the crank = 5°0'0.0\" (5°)"
    assert "Dial of 100 marks, numbered every 10, read to 1/2 of a mark; one mark = 0°3'0.0\"" in fact(
        sheet, "Set on"
    )
    assert fact(sheet, "Turn") == "↻ Turn the crank CLOCKWISE all through, the way the dial's numbers grow."
    assert "go back at least half a turn of the crank, and come up again" in fact(sheet, "Slack")
    assert fact(sheet, "Worst error") == '±44.7" (seconds of arc) = 16.3 µm (6.4 tenths of a thou) at the rim'
    assert (
        "",
        "This is the way's own rounding; the head's own error is not known until it is measured.",
    ) in sheet.facts


def test_a_dial_that_falls_clockwise_is_turned_the_other_way() -> None:
    backwards = BENCH_HEAD.replace("[ring]", 'clockwise = "decreases"\n[ring]')
    sheet = sheet_of(plan(backwards, "dial", "149"), "Tide ring")
    assert fact(sheet, "Turn") == (
        "↺ Turn the crank ANTICLOCKWISE all through, the way the dial's numbers grow; the ring's numbers fall."
    )
    assert column(sheet, "ring check")[1] == "357.58°"


def test_before_the_first_cut_there_is_a_direction_test_a_witness_mark_and_a_counted_trace_pass() -> None:
    direction, witness, trace = sheet_of(tide_ring(), "Tide ring").before
    assert direction.startswith("Direction tested: crank turned clockwise, and the dial's numbers grew.")
    assert "wheel and spindle, blank and arbor, dial and shaft" in witness
    assert (
        trace
        == "Trace pass: a faint mark at every position, all round. Counted: ________ (wanted: 149 lines)"
    )


def test_lines_are_planed_with_the_power_off_and_spaces_are_not_for_lifting_gear() -> None:
    assert sheet_of(tide_ring(), "").cautions[0].startswith("POWER OFF")
    spaces = sheet_of(plan(BENCH_HEAD, "dial", "59", work="space"), "").cautions
    assert not any("POWER OFF" in caution for caution in spaces)
    assert any("carry or lift people" in caution for caution in spaces)
    assert spaces[-1].startswith("The rules of your workshop")


def test_the_ring_is_checked_where_the_run_asks_for_it_with_the_same_promise() -> None:
    planned = tide_ring()
    sheet = sheet_of(planned, "Tide ring")
    asked = checks(Evidence(planned, schedule(planned)))
    assert [place for place, line in enumerate(sheet.lines) if line.is_check] == [
        point.row for point in asked.points
    ]
    boxes = [0, *(place for place, line in enumerate(sheet.lines) if line.is_check)]
    assert max(after - before for before, after in pairwise(boxes)) == asked.promise.positions == 25
    assert fact(sheet, "Checks") == (
        "Where a line says “read:”, read the ring before the work, and write it down: a lost or doubled move that the "
        "ring can show stays hidden for 25 positions at most."
    )
    read = column(sheet, "remark")
    assert all(READ_HERE in told for told, line in zip(read, sheet.lines, strict=True) if line.is_check)


def test_holes_are_drilled_and_not_cut() -> None:
    holes = plan(BENCH_HEAD, "dial", "7", work="hole")
    assert "lock – drill – tick. The tick comes after the drill." in rhythm_text(holes.part)
    assert ending_text(holes, closes=True).endswith("stop and find out why before any more is drilled.")
    assert "lock – cut – tick" in rhythm_text(tide_ring().part)
    assert ending_text(tide_ring(), closes=True).endswith("before any deeper cut.")


def test_each_list_of_a_run_of_several_passes_keeps_the_promise() -> None:
    _, passes = every_run()["trace, then spread"]
    sheet = sheet_of(tide_ring(), "Spread", passes=passes)
    assert len(sheet.lists) > 1
    most = int(fact(sheet, "Checks").split("hidden for ")[1].split()[0])
    for one in sheet.lists:
        boxes = [0, *(place for place, line in enumerate(one.lines) if line.is_check)]
        assert boxes[-1] == len(one.lines) - 1
        assert max(after - before for before, after in pairwise(boxes)) <= most


def test_where_the_ring_shows_no_lost_move_the_quarters_are_asked_and_nothing_is_promised() -> None:
    sheet = sheet_of(plan(BENCH_HEAD, "ring", "3600"), "Fine")
    assert [place for place, line in enumerate(sheet.lines) if line.is_check] == [900, 1800, 2700, 3600]
    assert "Checks" not in dict(sheet.facts)


def test_a_list_too_long_to_weigh_is_asked_at_its_quarters() -> None:
    sheet = sheet_of(plan(BENCH_HEAD, "dial", "4400"), "Long")
    assert [place for place, line in enumerate(sheet.lines) if line.is_check] == [1100, 2200, 3300, 4400]
    assert "they are its quarters and its end alone" in fact(sheet, "Checks")
    assert "at most" not in fact(sheet, "Checks"), "no number of positions is promised"


def test_a_head_without_a_ring_has_no_ring_checks() -> None:
    sheet = sheet_of(plan(PLATE_HEAD, "plain", "48"), "Wheel")
    assert "Checks" not in dict(sheet.facts)
    assert not any(line.is_check for line in sheet.lines)
    assert "ring check" not in [column.role for column in sheet.columns]


def test_a_dial_reading_stands_beside_the_numeral_last_passed() -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    assert column(sheet, "dial")[:7] == ["0", "48.5", "96.5", "45", "93.5", "41.5", "90"]
    assert column(sheet, "numeral")[:7] == [
        "on 0",
        "40 + 8.5",
        "90 + 6.5",
        "40 + 5",
        "90 + 3.5",
        "40 + 1.5",
        "on 90",
    ]


def test_a_reading_of_the_ring_is_not_told_by_the_numerals_of_the_dial() -> None:
    roles = [column.role for column in sheet_of(plan(BENCH_HEAD, "ring", "149"), "").columns]
    assert "numeral" not in roles
    assert "turns" not in roles


def test_whole_turns_stand_out_where_they_change() -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    turns = column(sheet, "turns")
    changes = [line.turns_change for line in sheet.lines]
    assert changes[0]
    assert changes[1:] == [one != other for one, other in pairwise(turns)]


def test_a_notched_wheel_is_not_cranked() -> None:
    sheet = sheet_of(plan(BULL_WHEEL, "direct", "12"), "Hub")
    assert fact(sheet, "Turn") == "Turn the spindle one way all through."
    assert len(sheet.before) == 2
    assert column(sheet, "notches") == [*(str(5 * position) for position in range(12)), "0"]


def test_some_positions_of_many_end_with_a_return_to_the_first() -> None:
    sheet = sheet_of(plan(BENCH_HEAD, "dial", "720", first="100", last="160", every="5"), "Part of a dial")
    assert fact(sheet, "Part").endswith("(of 720 parts in the circle)")
    assert not sheet.lines[-1].closing
    assert sheet.ending.startswith("The run does not go round.")
    assert [line.tally for line in sheet.lines] == list(range(20, 33))


def test_every_k_th_position_from_another_than_the_first_closes_on_its_own_number() -> None:
    sheet = sheet_of(plan(BENCH_HEAD, "dial", "60", first="2", every="5"), "Twelve")
    assert sheet.lines[-1].label == "2 = 62"


def test_what_is_done_beyond_the_cut_stands_in_the_remark() -> None:
    bare = plan(BENCH_HEAD, "dial", "4", work="line")
    marks = (Mark("long", "0"), Mark("short"), Mark(), Mark("middle", note="mind the clamp"))
    sheet = sheet_of(Plan(replace(bare.part, marks=marks), bare.way), "Dial")
    assert column(sheet, "remark") == [
        "long line, numeral 0",
        "short line; read:",
        "",
        "middle line, mind the clamp",
        "read:",
    ]


def test_positions_visited_out_of_order_are_tallied_by_visits() -> None:
    one = plan(PLATE_HEAD, "compound", "106")
    ways = find_ways(one.head, one.part.divisions)
    several = next(way for way in ways if way.method == "compound" and "parts_at_once" in way.setup)
    sheet = sheet_of(Plan(one.part, several), "Wheel")
    assert sheet.lines[1].label == str(several.setup["parts_at_once"])
    assert [line.tally for line in sheet.lines] == list(range(107))


@pytest.mark.parametrize("kind", every_kind())
def test_every_line_has_a_cell_for_every_column(kind: str) -> None:
    sheet = sheet_of(every_kind()[kind], kind)
    assert {len(line.cells) for line in sheet.lines} == {len(sheet.columns)}
    assert all(text for _, text in sheet.facts)


@pytest.mark.parametrize("kind", every_kind())
def test_all_that_is_set_has_a_column_and_is_told_at_the_head(kind: str) -> None:
    planned = every_kind()[kind]
    setting = next(planned.way.reached()).setting
    sheet = sheet_of(planned, kind)
    roles = {column.role for column in sheet.columns}
    assert ("turns" in roles) == (setting.turns is not None)
    assert ("hole" in roles) == (setting.holes is not None)
    assert ("back pin" in roles) == (setting.holes is not None and len(setting.holes) > 1)
    assert ("notches" in roles) == (setting.notches is not None)
    assert ("second wheel" in roles) == (setting.second_notches is not None)
    assert ("steps" in roles) == (setting.steps is not None)
    assert bool({"dial", "ring"} & roles) == (setting.reading is not None)
    told = fact(sheet, "Set on").lower()
    words = {
        "hole": "circle of",
        "notches": "notched wheel",
        "steps": "stepper drive",
        "dial": "dial of",
        "ring": "ring of",
    }
    assert all((word in told) == (role in roles) for role, word in words.items())


def test_a_ring_that_is_nearly_round_is_told_as_nought() -> None:
    fine = BENCH_HEAD.replace("wheel_teeth = 72", "ratio = 10000")
    sheet = sheet_of(plan(fine, "dial", None, angles="359.99, 359.996"), "Two holes")
    assert column(sheet, "ring check") == ["359.99°", "0.00°", "359.99°"]


def test_an_arc_says_on_paper_where_the_crank_is_first_gone_back_with() -> None:
    arc = plan(BENCH_HEAD, "dial", "60", last="13")
    told = [line.cells[-1].text for line in sheet_of(arc, "Arc", passes=(Pass(spread=3),)).lines]
    back = [row for row, text in enumerate(told) if "first back past zero" in text]
    assert back == [5, 10], "14 positions are 5, 5 and 4 of them"
    assert not any("round again" in text for text in told)
