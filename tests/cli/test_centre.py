import json

import pytest

from tests.cli.conftest import Typed

FOUR = "0:0.00,90:0.03,180:0.05,270:0.02"


def test_how_far_which_way_and_what_to_do(typed: Typed) -> None:
    ran = typed("centre", "--readings", FOUR)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0].startswith("Off centre by 0.025 mm ±0.004 mm")
    assert "  at 180°: 0.025 mm in" in ran.out


def test_json_has_the_promised_keys(typed: Typed) -> None:
    answer = json.loads(typed("centre", "--readings", FOUR, "--unit", "mm", "--json").out)
    assert {"offset_mm", "direction_deg", "u_mm", "move"} <= set(answer)
    assert answer["offset_mm"] == pytest.approx(0.0254951)


def test_three_screws_in_thousandths_of_an_inch(typed: Typed) -> None:
    ran = typed("centre", "--readings", "0:0,120:1.5,240:0.5", "--unit", "thou", "--screws", "0,120,240")
    assert "  at 120°: 0.83 thou (0.021 mm) in" in ran.out
    assert ran.code == 0


def test_nothing_to_see_says_so(typed: Typed) -> None:
    ran = typed("centre", "--readings", "0:0.01,90:0.01,180:0.01,270:0.02")
    assert "no more than the readings can tell" in ran.out


def test_too_few_is_wrong_input(typed: Typed) -> None:
    ran = typed("centre", "--readings", "0:0.00,90:0.03")
    assert (ran.code, ran.out) == (2, "")
    assert "at 2 different angles; 3 at least" in ran.err


SIX = "359.96:180.04,60:240,120.04:299.96,180.04:359.96,240:60,299.96:120.04"


def test_two_opposite_pointers(typed: Typed) -> None:
    ran = typed("centre", "--pointers", SIX, "--diameter", "120mm")
    assert (ran.code, ran.err) == (0, "")
    assert "Off centre by 0.048 mm" in ran.out
    assert "It stands out most at 60°" in ran.out
    assert "120°0'0.0\"" in ran.out
    answer = json.loads(typed("centre", "--pointers", SIX, "--diameter", "120mm", "--json").out)
    assert answer["direction_deg"] == pytest.approx(60)
    assert len(answer["settings"]) == 6


def test_pointers_without_a_diameter_and_beside_readings(typed: Typed) -> None:
    assert "with its diameter" in typed("centre", "--pointers", SIX).out
    ran = typed("centre", "--pointers", SIX, "--readings", FOUR)
    assert (ran.code, ran.out) == (2, "")
    assert "give one or the other" in ran.err
