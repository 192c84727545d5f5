"""crankwise divide: the promised answer, to the letter."""

import json
from fractions import Fraction
from typing import Any

import pytest

from tests.cli.conftest import Typed

BENCH = ("--head", "examples/bench-head.toml")


def answer(typed: Typed, *words: str, code: int = 0) -> dict[str, Any]:
    ran = typed("divide", *words, "--json")
    assert ran.code == code, ran.err
    found: dict[str, Any] = json.loads(ran.out)
    return found


def test_127_on_the_bench_head_is_as_worked_by_hand(typed: Typed) -> None:
    """72/127 of a turn is 56.69 marks, set to 56.5; the error is -0.193 mark of 180 seconds each."""
    found = answer(typed, "127", *BENCH)
    assert (found["divisions"], found["ratio"]) == (127, "72")
    [dial] = [way for way in found["ways"] if way["method"] == "dial"]
    assert (dial["exact"], dial["setup"]) == (False, {})
    first = dial["positions"][1]
    error = first.pop("error_arcsec")
    promised = {
        "position": 1,
        "turns": 0,
        "reading": "56.5",
        "holes": None,
        "notches": None,
        "ring": "2.83",
        "target_deg": "360/127",
        "achieved_deg": "2.825",
    }
    assert first | promised == first
    assert error == pytest.approx(-34.72, abs=0.005)
    assert error == pytest.approx(float((Fraction("2.825") - Fraction(360, 127)) * 3600), rel=1e-15)


def test_exact_values_are_texts_and_counts_are_whole_numbers(typed: Typed) -> None:
    found = answer(typed, "127", *BENCH)
    for position in found["ways"][0]["positions"]:
        assert type(position["position"]) is int
        assert type(position["turns"]) is int
        assert type(position["reading"]) is str
        assert type(position["ring"]) is str
        assert type(position["target_deg"]) is str
        assert type(position["error_arcsec"]) is float
        assert "." not in position["reading"] or Fraction(position["reading"]) * 2 % 1 == 0


@pytest.mark.parametrize(
    ("count", "head", "method", "setup"),
    [
        ("120", "plate-head", "plain", {"circle": 39, "turns": 0, "holes": 13}),
        ("28", "plate-head", "plain", {"circle": 49, "turns": 1, "holes": 21}),
        ("30", "bull-wheel", "direct", {"wheel": 60, "notches": 2}),
        ("53", "plate-head", "nearest-hole", {"circle": 49}),
        ("127", "bench-head", "dial", {}),
    ],
)
def test_the_set_up_has_the_promised_keys(
    typed: Typed, count: str, head: str, method: str, setup: dict[str, int]
) -> None:
    found = answer(typed, count, "--head", f"examples/{head}.toml")
    assert setup in [way["setup"] for way in found["ways"] if way["method"] == method]


def test_the_run_closes_on_its_first_position(typed: Typed) -> None:
    best = answer(typed, "127", *BENCH)["ways"][0]
    assert len(best["positions"]) == 127
    assert (best["closure"]["position"], best["closure"]["turns"], best["closure"]["reading"]) == (
        127,
        72,
        "0",
    )
    assert best["closure"]["achieved_deg"] == "360"


def test_positions_are_listed_for_the_best_way_and_for_all_when_asked(typed: Typed) -> None:
    listed = [
        way["positions"] is not None
        for way in answer(typed, "53", "--head", "examples/plate-head.toml")["ways"]
    ]
    assert listed[0]
    assert not any(listed[1:])
    asked = answer(typed, "53", "--head", "examples/plate-head.toml", "--positions")
    assert all(way["positions"] for way in asked["ways"])


def test_no_way_within_the_tolerance_is_1_with_the_nearest_one_told(typed: Typed) -> None:
    ran = typed("divide", "127", *BENCH, "--rim", "200mm", "--within", "20um")
    assert ran.code == 1
    assert ran.err == (
        'crankwise: no way within 41.3"; the nearest is dial, nearest reading (from the list, each reading counted '
        'from the start), ±44.6", 21.6 µm (8.5 tenths of a thou) at the rim\n'
    )
    assert "Dial, nearest reading" in ran.out


def test_the_same_refusal_as_json_still_holds_the_ways(typed: Typed) -> None:
    found = answer(typed, "127", *BENCH, "--within", "10arcsec", code=1)
    assert [way["method"] for way in found["ways"]] == ["dial", "ring"]


def test_a_way_within_the_tolerance_is_0(typed: Typed) -> None:
    assert typed("divide", "127", *BENCH, "--rim", "8in", "--within", "2thou").code == 0


def test_a_list_of_angles_is_divided_too(typed: Typed) -> None:
    found = answer(typed, "--angles", "0, 12.5, 30d15m, 1/7 turn", *BENCH)
    assert found["divisions"] == 4
    assert [row["target_deg"] for row in found["ways"][0]["positions"]] == ["0", "12.5", "30.25", "360/7"]


def test_the_working_is_shown_as_it_would_be_written_on_paper(typed: Typed) -> None:
    ran = typed("divide", "28", "--head", "examples/plate-head.toml", "--working")
    assert ran.out.split("\n\n")[-1].splitlines() == [
        "Working: Plain indexing, 21 circle, 1 turn and 9 holes each move",
        "  turns of the crank for one move: 40 x 1 / 28 = about 1.4286 turns",
        "  its part of a turn, on the 21 circle: 3/7 x 21 = 9 holes",
        "  check: all moves of a full circle: (1 + 9/21) x 28 / 1 = 40 turns",
    ]
    found = answer(typed, "28", "--head", "examples/plate-head.toml", "--working")
    assert found["ways"][0]["working"][1] == {
        "what": "its part of a turn, on the 21 circle",
        "arithmetic": "3/7 x 21",
        "value": "9",
        "unit": "holes",
    }


def test_a_part_of_a_circle_starts_where_it_is_told(typed: Typed) -> None:
    found = answer(typed, "72", *BENCH, "--start", "2.5", "--first", "3", "--last", "11", "--every", "4")
    rows = found["ways"][0]["positions"]
    assert [(row["position"], row["target_deg"]) for row in rows] == [(3, "17.5"), (7, "37.5"), (11, "57.5")]
    assert found["ways"][0]["closure"] is None


def test_the_table_shows_ways_then_the_reason_then_the_positions(typed: Typed) -> None:
    ran = typed("divide", "7", "--head", "examples/plate-head.toml", "--positions")
    ways, reason, positions = ran.out.split("\n\n")
    assert ways.splitlines()[1].startswith("Plain indexing")
    assert reason.startswith(
        "First is Plain indexing (21 circle, 5 turns and 15 holes each move): exact, and the least"
    )
    assert [line.split()[0] for line in positions.splitlines()] == ["position", *map(str, range(7)), "7"]
