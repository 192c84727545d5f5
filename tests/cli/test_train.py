"""crankwise train: what it prints, its exit codes, and how a search is watched and stopped."""

import json
import signal
import subprocess
import sys
from pathlib import Path
from time import monotonic, sleep

import pytest

from tests.cli.conftest import Typed

GEARS = "24,24,28,32,40,44,48,56,64,72,86,100"


def test_an_exact_train_is_told_first_and_said_to_be_exact(typed: Typed) -> None:
    ran = typed("train", "7/3", "--gears", GEARS)
    assert ran.code == 0
    lines = ran.out.splitlines()
    assert lines[0].split() == ["train", "value", "error", "room,", "teeth"]
    assert lines[1].split() == ["56/24", "7/3", "exact"]
    assert lines[-1] == (
        "Of all exact trains of 2 or 4 of these gears the first has the fewest gears, and of those the fewest teeth."
    )


def test_the_answer_is_no_when_none_is_near_enough_and_the_nearest_is_told(typed: Typed) -> None:
    ran = typed("train", "40/127", "--gears", GEARS, "--within", "1ppm")
    assert ran.code == 1
    assert ran.err == (
        "crankwise: no train makes 40/127 within 1.000 ppm; the nearest is 72/64 x 28/100, +125.0 ppm out; "
        "the simplest ratio that would do is 40/127\n"
    )
    assert typed("train", "40/127", "--gears", GEARS, "--within", "200ppm").code == 0


def test_json_is_one_object_also_when_the_answer_is_no(typed: Typed) -> None:
    ran = typed("train", "40/127", "--gears", GEARS, "--within", "1ppm", "--most", "1", "--json")
    assert ran.code == 1
    answer = json.loads(ran.out)
    assert answer["target"] == "40/127"
    (train,) = answer["trains"]
    assert train.pop("error_ppm") == pytest.approx(125.0)
    assert train == {"drivers": [72, 28], "driven": [64, 100], "value": "63/200", "within": False}


def test_a_lead_is_told_in_both_units(typed: Typed) -> None:
    ran = typed(
        "train",
        "--lead",
        "27in",
        "--leadscrew",
        "1/4in",
        "--head-ratio",
        "40",
        "--gears",
        GEARS,
        "--most",
        "1",
    )
    assert "685.8000  27.00000" in ran.out
    assert ran.out.endswith(
        "The first stands: 40 on the leadscrew to 48, second on the stud; 32, first on the stud, to 72 on the worm.\n"
    )


def test_six_gears_are_told_stud_by_stud(typed: Typed) -> None:
    ran = typed(
        "train",
        "--lead",
        "27in",
        "--leadscrew",
        "1/4in",
        "--head-ratio",
        "40",
        "--gears",
        GEARS,
        "--size",
        "6",
    )
    assert ran.out.splitlines()[-1].count("then on its stud") == 2


def test_a_head_file_without_change_gears_is_told(typed: Typed) -> None:
    ran = typed("train", "7/3", "--head", "examples/bench-head.toml")
    assert ran.code == 2
    assert "change_gears: examples/bench-head.toml has none" in ran.err


def test_a_head_that_can_mount_none_answers_no(typed: Typed, tmp_path: Path) -> None:
    file = tmp_path / "tight.toml"
    file.write_text(
        'name = "Tight"\n[worm]\nwheel_teeth = 40\n[[plates]]\ncircles = [15]\n'
        "[change_gears]\nteeth = [24, 28, 32, 36]\nshaft_clearance = 60\n",
        encoding="utf-8",
    )
    ran = typed("train", "7/3", "--head", str(file), "--size", "4", "--dropped")
    assert (ran.code, ran.err) == (1, "crankwise: no train of these gears can be mounted\n")
    assert "dropped: " in ran.out
    assert "and 60 are needed" in ran.out


def _stoppable() -> None:
    """A shell starts a job in its background deaf to Ctrl-C, and whatever that job starts."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


def test_a_long_search_says_how_long_before_it_starts_and_is_stopped_without_harm() -> None:
    words = [sys.executable, "-m", "crankwise", "train", "1", "--gears", "20-219", "--size", "6", "--json"]
    with subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, preexec_fn=_stoppable
    ) as search:
        assert search.stderr is not None
        begun = monotonic()
        assert search.stderr.readline() == (
            "crankwise: 1,313,400 products of 3 gears to go through: about 4 to 13 s; Ctrl-C stops it\n"
        )
        assert monotonic() - begun < 5
        sleep(0.2)
        search.send_signal(signal.SIGINT)
        out, err = search.communicate(timeout=20)
    assert (search.returncode, out, err) == (130, "", "crankwise: stopped\n")


def test_past_a_second_a_terminal_sees_how_far_it_is(
    typed: Typed, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    clock = iter(range(0, 1000, 3))
    monkeypatch.setattr("time.monotonic", lambda: next(clock))
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    ran = typed("train", "355/113", "--gears", "20-40", "--size", "6")
    assert "100 %" in ran.err
    assert ran.err.endswith("\r")
    assert ran.code == 0
