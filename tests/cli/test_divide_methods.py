"""crankwise divide: the promised shapes of the further methods, and the warnings beside them."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Typed


def answer(typed: Typed, tmp_path: Path, toml: str, *asked: str) -> dict[str, Any]:
    path = tmp_path / "head.toml"
    path.write_text(f'name = "Trial"\n{toml}', encoding="utf-8")
    ran = typed("divide", *asked, "--head", str(path), "--json", "--positions")
    assert ran.code == 0, ran.err
    found: dict[str, Any] = json.loads(ran.out)
    return found


def way(found: dict[str, Any], method: str) -> dict[str, Any]:
    chosen: dict[str, Any] = next(way for way in found["ways"] if way["method"] == method)
    return chosen


PLATE = "[worm]\nratio = 40\n[[plates]]\ncircles = [23, 33]\n"
DIAL_AND_PLATE = "[worm]\nratio = 40\n[dial]\nmarks = 300\n[[plates]]\ncircles = [19]\n"
WHEEL = '[worm]\nratio = 60\n[dial]\nmarks = 100\n[[notched_wheels]]\nnotches = 60\ndetent_on = "worm"\n'
VERNIER = '[[notched_wheels]]\nnotches = 24\n[[notched_wheels]]\nnotches = 25\ndetent_on = "wheel"\n'


@pytest.mark.parametrize(
    ("toml", "asked", "method", "setup", "second"),
    [
        (
            PLATE,
            "69",
            "compound",
            {"circles": [23, 33], "holes": [21, -11]},
            {"turns": 0, "holes": [21, -11]},
        ),
        (PLATE, "127", "two-circle", {"circles": [23, 33]}, {"turns": 0, "holes": [17, -14]}),
        (
            "[worm]\nratio = 60\n[stepper]\nsteps = 3200\n",
            "127",
            "stepper",
            {"steps": 3200, "per_turn_of": "crank"},
            {"steps": 1512, "turns": None, "notches": None},
        ),
        (
            WHEEL,
            "96",
            "wheel-and-worm",
            {"wheel": 60, "dial": 100, "worm_settings": 8},
            {"position": 8, "notches": 5, "turns": 0, "reading": "0"},
        ),
        (VERNIER, "150", "two-wheels", {"wheels": [25, 24]}, {"notches": [21, -20]}),
        (
            DIAL_AND_PLATE,
            "57",
            "dial-and-plate",
            {"circle": 19, "dial": 300},
            {"turns": 0, "holes": 7, "reading": "100"},
        ),
        (
            "[worm]\nratio = 40\n[[plates]]\ncircles = [15]\n",
            "50",
            "block",
            {"circle": 15, "turns": 7, "holes": 3, "parts_at_once": 9},
            {"position": 9, "turns": 7, "holes": 3, "target_deg": "64.8"},
        ),
    ],
)
def test_the_set_up_and_a_position_have_the_promised_shape(
    typed: Typed,
    tmp_path: Path,
    toml: str,
    asked: str,
    method: str,
    setup: dict[str, Any],
    second: dict[str, Any],
) -> None:
    told = [way for way in answer(typed, tmp_path, toml, asked)["ways"] if way["method"] == method]
    chosen = next(way for way in told if way["setup"] == setup)
    assert chosen["positions"][1] | second == chosen["positions"][1]


def test_a_list_names_the_circle_of_each_angle(typed: Typed, tmp_path: Path) -> None:
    toml = "[worm]\nratio = 40\n[[plates]]\ncircles = [15, 17]\n"
    found = way(answer(typed, tmp_path, toml, "--angles", "0, 1/17 turn, 2/15 turn"), "circles")
    assert found["setup"] == {"circles": [15, 17], "changes": 1}
    assert [(row["circle"], row["turns"], row["holes"]) for row in found["positions"]] == [
        (17, 0, 0),
        (17, 2, 6),
        (15, 5, 5),
    ]


def test_warnings_carry_a_code_and_a_sentence(typed: Typed, tmp_path: Path) -> None:
    toml = "[worm]\nratio = 40\n[[plates]]\ncircles = [19, 33]\n"
    warnings = answer(typed, tmp_path, toml, "57")["warnings"]
    assert [warning["code"] for warning in warnings] == ["missing-factor", "row-needs-gears"]
    assert "60 by 22/33" in warnings[1]["text"]
    assert answer(typed, tmp_path, "[worm]\nratio = 40\n[dial]\nmarks = 100\n", "57")["warnings"] == []


def test_warnings_stand_last_in_the_text_and_nowhere_where_there_are_none(typed: Typed) -> None:
    warned = typed("divide", "57", "--head", "examples/plate-head.toml")
    assert "57 is 3 x 19, no prime." in warned.out.partition("\nBeware:\n")[2]
    assert "Beware" not in typed("divide", "127", "--head", "examples/bench-head.toml").out
