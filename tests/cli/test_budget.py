"""crankwise budget: the promised answer, what a person reads, and what it says to a wrong question."""

import json
import sys
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from crankwise.accuracy.simulate import simulate
from crankwise.tasks.budget import simulated
from tests.accuracy.test_simulate import PLANS, law_of
from tests.cli.conftest import Typed

BENCH = ("--head", "examples/bench-head.toml")
PLATE = ("--head", "examples/plate-head.toml")
SPUR = ("--teeth", "40", "--module", "2")


def answer(typed: Typed, *words: str, code: int = 0) -> dict[str, Any]:
    ran = typed("budget", *words, "--json")
    assert ran.code == code, ran.err
    found: dict[str, Any] = json.loads(ran.out)
    return found


def test_a_gear_has_its_two_deviations_its_class_and_its_sources(typed: Typed) -> None:
    found = answer(typed, "--teeth", "127", "--module", "1", *BENCH)
    assert found["single_pitch_um"] == found["closed_form"]["single_pitch_um"]
    assert found["cumulative_pitch_um"] == found["closed_form"]["cumulative_pitch_um"]
    cut = found["simulated"]
    assert found["single_pitch_um"] == pytest.approx(cut["single_pitch_um"], rel=0.03)
    assert found["cumulative_pitch_um"] == pytest.approx(cut["cumulative_pitch_um"], rel=0.03)
    assert (cut["gears"], cut["seed"], cut["generator"]) == (20_000, 1, "PCG64")
    names = [source["name"] for source in found["sources"]]
    assert names[0] == "work-off-centre"
    assert {"rounding", "worm", "wheel", "reading", "tool"} <= set(names)
    for source in found["sources"]:
        assert source["single_pitch_um"] >= 0
        assert source["cumulative_pitch_um"] < found["cumulative_pitch_um"]
    assert found["class"] is None
    assert "recalled, not read" in found["standard"]
    assert found["rounding_arcsec"] == pytest.approx(44.6, abs=0.05)
    assert found["rim_mm"] == 127


def test_a_class_is_predicted_and_what_would_help_is_told(typed: Typed) -> None:
    found = answer(typed, *SPUR, *PLATE, "--simulate", "0")
    assert found["simulated"] is None
    assert found["class"] == max(found["single_pitch_class"], found["cumulative_pitch_class"])
    first = found["advice"][0]
    assert first["name"] == "work-off-centre"
    assert first["class"] < found["class"]
    ran = typed("budget", *SPUR, *PLATE, "--simulate", "0")
    assert (
        f"centre the work to {first['size']} mm and class {found['class']} becomes {first['class']}"
        in ran.out
    )


def test_three_figures_are_told_apart_and_the_cautions_stand_below(typed: Typed) -> None:
    said = typed("budget", *SPUR, *PLATE, "--simulate", "500").out
    assert "the way's own rounding: none, every position is met exactly" in said
    assert "the head's own error: unknown until it is measured; typical sizes give" in said
    assert "the finished part at 80.0 mm: single pitch ±" in said
    assert "500 gears cut in the computer (seed 1)" in said
    assert "recalled, not read" in said
    assert "Resolution is not accuracy" in said
    assert "µm (" in said
    assert "thou)" in said


def test_a_ring_of_lines_has_spacing_and_positions_and_no_class(typed: Typed) -> None:
    words = ("149", "--rim", "150mm", "--work", "line", *BENCH, "--simulate", "0")
    found = answer(typed, *words)
    assert found["class"] is None
    assert found["standard"] is None
    assert found["position_um"] == found["cumulative_pitch_um"] / 2
    assert "turned to fit best, no line or hole is further from its place than" in typed("budget", *words).out


def test_a_coarse_way_is_told_of_the_way_that_would_do_far_better(typed: Typed) -> None:
    """Sixty lines straight off a ring that is read by eye: the dial of the same head does far better."""
    ring = ("60", "--rim", "150mm", "--work", "line", *BENCH, "--simulate", "500")
    by_ring, by_dial = answer(typed, *ring), answer(typed, *ring, "--way", "dial")
    other = by_ring["other_way"]
    assert (by_ring["method"], other["method"], other["class"]) == ("direct", "dial", None)
    assert other["cumulative_pitch_um"] == pytest.approx(by_dial["cumulative_pitch_um"], rel=0.03)
    assert other["cumulative_pitch_um"] < by_ring["cumulative_pitch_um"] / 2
    assert by_dial["other_way"] is None
    said = typed("budget", *ring).out
    helps = said.partition("What would help most:\n")[2]
    assert helps.startswith("  divide another way (way: Dial, nearest reading) and the part comes to about")
    assert "if this head's worm and wheel are as is typical" in helps
    assert "500 parts cut in the computer (seed 1): spacing" in helps


def test_a_measured_head_is_told_what_corrected_settings_come_to(typed: Typed) -> None:
    gear = (
        "--teeth",
        "127",
        "--module",
        "1",
        "--head",
        "examples/measured-bench-head.toml",
        "--simulate",
        "0",
    )
    plain, corrected = answer(typed, *gear), answer(typed, *gear, "--way", "corrected")
    assert plain["other_way"]["way"] == corrected["way"]
    assert plain["other_way"]["single_pitch_um"] == pytest.approx(corrected["single_pitch_um"], rel=0.05)
    said = typed("budget", *gear).out
    assert "correct the settings for the errors that were measured and the part comes to about" in said
    assert "as is typical" not in said
    assert '14.342"' not in said  # a thousandth of a second is nobody's knowledge


def test_so_near_the_centre_is_told_with_how_to_get_there(typed: Typed) -> None:
    said = typed("budget", "--teeth", "127", "--module", "1", *BENCH, "--simulate", "0").out
    assert "  centre the work to 0.0025 mm and the cumulative deviation comes down from 182 µm" in said
    assert (
        "      its size is only what is typical, so measure it first: an indicator on a turned rim or in the bore: "
        "half of what it swings; then turn the blank where it is cut and do not take it off, or clock it in"
    ) in said


def test_what_was_measured_and_how_the_work_is_held_count(typed: Typed) -> None:
    found = answer(
        typed,
        *SPUR,
        *PLATE,
        "--simulate",
        "0",
        "--holding",
        "arbor",
        "--size",
        "worm=20",
        "--size",
        "lock=1..2",
    )
    sources = {source["name"]: source for source in found["sources"]}
    assert (sources["work-off-centre"]["low"], sources["work-off-centre"]["high"]) == ("0.0025", "0.005")
    assert (sources["worm"]["low"], sources["worm"]["high"], sources["worm"]["from"]) == ("20", "20", "asked")
    assert (sources["lock"]["low"], sources["lock"]["high"]) == ("1", "2")
    assert sources["wheel"]["from"] == "typical"
    before = answer(typed, *SPUR, *PLATE, "--simulate", "0")
    assert found["cumulative_pitch_um"] < before["cumulative_pitch_um"]


def test_both_sides_bring_the_backlash_in(typed: Typed) -> None:
    found = answer(typed, *SPUR, *PLATE, "--simulate", "0", "--both-sides")
    assert "backlash" in [source["name"] for source in found["sources"]]


def test_a_way_can_be_chosen_and_a_tolerance_can_say_no(typed: Typed) -> None:
    assert answer(typed, *SPUR, *PLATE, "--simulate", "0", "--way", "direct")["method"] == "direct"
    ran = typed("budget", "127", "--rim", "100mm", "--within", "0.001arcsec", *BENCH)
    assert (ran.code, ran.out) == (1, "")
    assert 'no way within 0.0010"; the nearest is dial, nearest reading' in ran.err


def test_a_helical_gear_has_its_class_by_its_normal_module_and_only_the_ways_its_change_gears_leave(
    typed: Typed,
) -> None:
    helical = ("--teeth", "30", "--module", "2", "--helix", "30", "--simulate", "0")
    found = answer(typed, *helical, *PLATE)
    assert (found["method"], found["class"]) == ("plain", 11)
    assert found["rim_mm"] == pytest.approx(69.282032, abs=1e-6)
    assert "across its shaft, half-way along the face" in typed("budget", *helical, *PLATE).out
    ran = typed("budget", *helical, *BENCH)
    assert (ran.code, ran.out) == (1, "")
    assert "divided by moving the pin on a hole plate, and Bench head has none" in ran.err


def test_beyond_45_degrees_a_class_is_told_with_a_warning(typed: Typed) -> None:
    ran = typed("budget", "--teeth", "30", "--module", "2", "--helix", "46", *PLATE, "--simulate", "0")
    assert ran.code == 0
    assert "helix angle 46° is outside ISO 1328-1:2013, which holds from 0 to 45°" in ran.err


def test_a_bevel_gear_is_told_why_it_has_no_class(typed: Typed, tmp_path: Path) -> None:
    job = tmp_path / "bevel.toml"
    job.write_text(
        'format = 1\nname = "Bevel"\n[part]\nkind = "bevel"\nteeth = 24\ndp = 10\nmate = 36\nface = "3/4in"\n'
    )
    ran = typed("budget", str(job), *PLATE, "--simulate", "0")
    assert ran.code == 0
    assert "No class is told" in ran.out
    assert "bevel gears have their own in ISO 17485 (from memory" in ran.out
    assert "no line or hole" not in ran.out


def test_each_cause_is_explained_with_how_to_measure_it(typed: Typed) -> None:
    said = typed("budget", "--teeth", "127", "--module", "1", *BENCH, "--simulate", "0", "--explain").out
    assert "worm, once a turn: the thread runs out or floats" in said
    assert said.count("To measure it:") == len(
        answer(typed, "--teeth", "127", "--module", "1", *BENCH, "--simulate", "0")["sources"]
    )


def test_a_gear_outside_the_standard_is_warned_of(typed: Typed) -> None:
    ran = typed("budget", "--teeth", "40", "--module", "0.3", *PLATE, "--simulate", "0")
    assert ran.code == 0
    assert "module 0.3 mm is outside ISO 1328-1:2013" in ran.err


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ("127", *BENCH),
            "rim: nothing given; errors are told as lengths there: --rim 150mm, or --teeth and",
        ),
        (("127", *SPUR, *BENCH), "divisions: given beside the teeth; a gear is divided into its teeth"),
        (
            (*SPUR, *PLATE, "--holding", "glue"),
            "holding: 'glue'; work is held in or on chuck, collet, arbor,",
        ),
        ((*SPUR, *PLATE, "--size", "wurm=5"), "size: 'wurm' is no cause that is known; the causes are worm,"),
        ((*SPUR, *PLATE, "--size", "worm"), "size: 'worm' has no size; write it as worm=20 or worm=10..60"),
        ((*SPUR, *PLATE, "--size", "worm=5..1"), "size of worm: from 5 to 1; write the smaller one first"),
        ((*SPUR, *PLATE, "--size", "worm=-5"), "size of worm: -5; the size of an error is 0 or more"),
        ((*SPUR, *PLATE, "--size", "worm=1..2..3"), "a range has two ends, as 10..60"),
        ((*SPUR, *PLATE, "--size", "worm=1e9"), "size of worm: '1e9' is not a number"),
        ((*SPUR, *PLATE, "--size", "worm=99999999"), "size of worm: 99999999; at most 36,000 is believed"),
        ((*SPUR, *PLATE, "--simulate", "-1"), "simulate: -1 gears; from 1 to 10,000,000"),
        ((*SPUR, *PLATE, "--simulate", "99999999"), "simulate: 99,999,999 gears; from 1 to 10,000,000"),
        ((*SPUR, *PLATE, "--seed", "-1"), "seed: -1; a seed is 0 or more"),
        (("--teeth", "9000", "--module", "1", *BENCH), "budget: 9,000 positions; at most 5,000"),
        (("30", "--rim", "50mm", "--work", "knit", *BENCH), "work: 'knit'"),
    ],
)
def test_a_wrong_question_earns_its_sentence(typed: Typed, words: tuple[str, ...], sentence: str) -> None:
    ran = typed("budget", *words)
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err


def test_without_the_package_the_closed_form_answers_alone(
    typed: Typed, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "numpy", None)
    assert answer(typed, *SPUR, *PLATE)["simulated"] is None
    ran = typed("budget", *SPUR, *PLATE, "--simulate", "100")
    assert ran.code == 2
    assert "pip install 'crankwise[accuracy]'" in ran.err


def test_progress_is_told_and_an_interrupt_sums_up_what_has_been_cut() -> None:
    law = law_of(PLANS["12 by the dial"])
    told: list[tuple[int, int]] = []

    def stop_after_two(done: int, of: int) -> None:
        told.append((done, of))
        if len(told) == 2:
            raise KeyboardInterrupt

    cut = simulated(law, "100000", "1", stop_after_two)
    assert cut is not None
    assert told == [(5333, 100_000), (10_666, 100_000), (100_000, 100_000)]
    assert cut.gears == 10_666
    # Stopped early, it is what so many gears say.
    assert cut.bounds.single == pytest.approx(simulate(law, 10_666, 1).bounds.single, rel=1e-12)


def test_a_part_is_drawn_and_a_wrong_tooth_stands_out(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "errors.svg"
    words = (*SPUR, *PLATE, "--simulate", "0", "--picture", str(path))
    assert typed("budget", *words).code == 0
    plain = path.read_text(encoding="utf-8")
    assert ElementTree.fromstring(plain).tag == "{http://www.w3.org/2000/svg}svg"
    assert plain.count('class="pitch"') == 40
    assert plain.count('class="tolerance"') == 2
    assert typed("budget", *words, "--wrong", "17").code == 0
    wrong = path.read_text(encoding="utf-8")
    assert wrong.count('class="pitch wrong"') == 2
    # One hole of the circle of 15 on a 40:1 head: 80 x pi / 40 / 15 mm = 419 micrometres.
    worst = float(wrong.split("the worst ")[1].split()[0])
    assert worst == pytest.approx(419, abs=30)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--picture", "errors.png"), "errors.png: a picture is written as SVG; let the name end with .svg"),
        (("--picture", "e.svg", "--wrong", "40"), "wrong position: 40; positions run from 0 to 39"),
        (("--wrong", "3"), "--wrong: it goes with --picture, which shows it"),
    ],
)
def test_a_picture_that_cannot_be_is_refused(typed: Typed, words: tuple[str, ...], sentence: str) -> None:
    ran = typed("budget", *SPUR, *PLATE, "--simulate", "0", *words)
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err


def test_a_job_file_says_the_part_the_head_and_the_way(typed: Typed, tmp_path: Path) -> None:
    job = tmp_path / "gear.toml"
    head = Path("examples/plate-head.toml").resolve()
    job.write_text(
        f'head = "{head.as_posix()}"\nway = "direct"\n[part]\nkind = "spur"\nteeth = 40\nmodule = 2\n',
        encoding="utf-8",
    )
    found = answer(typed, str(job), "--simulate", "0")
    same = answer(typed, *SPUR, *PLATE, "--simulate", "0", "--way", "direct")
    assert found == same
    assert answer(typed, "--job", str(job), "--simulate", "0") == found
    plain = answer(typed, str(job), "--simulate", "0", "--way", "plain", "--holding", "arbor")
    assert plain["method"] == "plain"
    assert plain["cumulative_pitch_um"] < found["cumulative_pitch_um"]


def test_any_job_of_the_shed_has_its_budget(typed: Typed) -> None:
    ring = answer(typed, "examples/jobs/tide-ring.toml", "--simulate", "500")
    assert (ring["rim_mm"], ring["class"], ring["simulated"]["gears"]) == (150, None, 500)
    plate = answer(typed, "examples/jobs/hole-plate.toml", "--simulate", "0")
    tool = next(source for source in plate["sources"] if source["name"] == "tool")
    assert (tool["low"], tool["high"]) == ("0.01", "0.05")  # a drill's


def test_a_job_corrected_for_its_head_leaves_the_calibrations_doubt(typed: Typed, tmp_path: Path) -> None:
    job = tmp_path / "lines.toml"
    head = Path("examples/measured-bench-head.toml").resolve()
    job.write_text(
        f'head = "{head.as_posix()}"\nrim = "100mm"\nwork = "line"\n[part]\nkind = "divisions"\ncount = 59\n',
        encoding="utf-8",
    )
    plain = answer(typed, str(job), "--simulate", "0")
    corrected = answer(typed, str(job), "--simulate", "0", "--way", "corrected")
    names = [{source["name"] for source in found["sources"]} for found in (plain, corrected)]
    assert names[0] - names[1] == {"worm", "worm-twice", "wheel", "further-waves"}
    assert names[1] - names[0] == {"calibration"}
    assert corrected["cumulative_pitch_um"] < plain["cumulative_pitch_um"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("examples/jobs/tide-ring.toml", "--teeth", "40"), "--teeth: the job file says what is made"),
        (("127", "--job", "examples/jobs/tide-ring.toml"), "N: the job file says what is divided"),
        (("nowhere.toml",), "nowhere.toml: there is no such file"),
        (SPUR, "--head: missing; see crankwise budget --help"),
    ],
)
def test_a_job_that_cannot_be_read_earns_its_sentence(
    typed: Typed, words: tuple[str, ...], sentence: str
) -> None:
    ran = typed("budget", *words)
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err


def test_a_job_within_a_tolerance_that_no_way_keeps_is_answered_no(typed: Typed) -> None:
    ran = typed("budget", "examples/jobs/wheel-127.toml", "--within", "0.001arcsec")
    assert (ran.code, ran.out) == (1, "")
