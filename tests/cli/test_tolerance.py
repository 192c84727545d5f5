"""crankwise tolerance: the promised answer, its exit codes, and what it says to a wrong question."""

import json
from typing import Any

import pytest

from tests.cli.conftest import Typed

SPUR = ("--module", "2", "--teeth", "50")


def answer(typed: Typed, *words: str, code: int = 0) -> dict[str, Any]:
    ran = typed("tolerance", *words, "--json")
    assert ran.code == code, ran.err
    found: dict[str, Any] = json.loads(ran.out)
    return found


def test_class_8_of_module_2_and_50_teeth(typed: Typed) -> None:
    found = answer(typed, *SPUR, "--class", "8")
    assert found["single_pitch_um"] == pytest.approx(16.688, abs=0.001)
    assert found["cumulative_pitch_um"] == pytest.approx(54.023, abs=0.001)
    assert (found["single_pitch_printed_um"], found["cumulative_pitch_printed_um"]) == (17, 54)
    assert found["adjacent_pitch_um"] == pytest.approx(23.6, abs=0.01)
    assert found["runout_um"] == pytest.approx(48.62, abs=0.01)
    assert "recalled, not read" in found["source"]
    assert found["warnings"] == []
    assert (found["module_mm"], found["diameter_mm"], found["class"]) == ("2", "100", 8)


def test_a_measured_gear_reaches_the_rougher_of_its_two_classes(typed: Typed) -> None:
    found = answer(typed, *SPUR, "--measured-single", "18", "--measured-cumulative", "0.05mm")
    assert found["class_reached"] == 9
    assert found["measured"] == {
        "single_pitch_um": 18,
        "cumulative_pitch_um": 50,
        "single_pitch_class": 9,
        "cumulative_pitch_class": 8,
    }
    assert "single_pitch_um" not in found


def test_the_answer_is_no_where_a_class_is_not_kept(typed: Typed) -> None:
    measured = ("--measured-single", "18um", "--measured-cumulative", "50um")
    assert answer(typed, *SPUR, "--class", "8", *measured, code=1)["class_reached"] == 9
    assert answer(typed, *SPUR, "--class", "9", *measured)["class_reached"] == 9
    assert (
        answer(typed, *SPUR, "--measured-single", "1mm", "--measured-cumulative", "1mm")["class_reached"]
        is None
    )


def test_inches_are_read_and_told(typed: Typed) -> None:
    found = answer(typed, "--dp", "24", "--teeth", "36", "--class", "9")
    assert found["module_mm"] == "127/120"
    ran = typed(
        "tolerance",
        "--dp",
        "24",
        "--teeth",
        "36",
        "--measured-single",
        "1thou",
        "--measured-cumulative",
        "2thou",
    )
    assert "25.4 µm (1.00 thou)" in ran.out


def test_outside_the_range_it_warns_and_goes_on(typed: Typed) -> None:
    ran = typed("tolerance", "--module", "0.3", "--teeth", "40", "--class", "8")
    assert ran.code == 0
    assert "module 0.3 mm is outside ISO 1328-1:2013, which holds from 0.5 to 70 mm" in ran.err
    assert answer(typed, "--module", "0.3", "--teeth", "40", "--class", "8")["warnings"]


def test_the_older_standards(typed: Typed) -> None:
    assert answer(typed, *SPUR, "--class", "0", "--standard", "iso-1995")["standard"] == "ISO 1328-1:1995"
    found = answer(typed, "--module", "2", "--teeth", "30", "--class", "5", "--standard", "jis-1976")
    assert found["single_pitch_printed_um"] == 22.6


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (SPUR, "class: nothing given; write a class, as 8, or what was measured"),
        (
            (*SPUR, "--class", "12"),
            "class: 12; ISO 1328-1:2013 has the classes 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11",
        ),
        (("--teeth", "50", "--class", "8"), "module: nothing given; write the module in mm, as 1.5, or the"),
        (
            (*SPUR, "--dp", "24", "--class", "8"),
            "module: given beside the diametral pitch; give one or the other",
        ),
        (
            ("--module", "-1", "--teeth", "50", "--class", "8"),
            "module: -1; a module is above 0: pitch diameter over teeth",
        ),
        (("--module", "1", "--teeth", "2", "--class", "8"), "teeth: 2; a gear has 3 or more"),
        (("--module", "1", "--class", "8"), "teeth: nothing given; write a whole number, as 127"),
        ((*SPUR, "--measured-single", "5"), "measured cumulative: nothing given; a class needs both"),
        (
            (*SPUR, "--class", "8", "--standard", "own"),
            "standard: 'own'; the standards are iso-2013, iso-1995, jis-1976",
        ),
        (
            (*SPUR, "--measured-single", "5kg", "--measured-cumulative", "5"),
            "measured single: '5kg' is not a length",
        ),
    ],
)
def test_a_wrong_question_earns_its_sentence(typed: Typed, words: tuple[str, ...], sentence: str) -> None:
    ran = typed("tolerance", *words)
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err


def test_a_helical_gear_is_told_by_its_normal_module(typed: Typed) -> None:
    found = answer(typed, *SPUR, "--helix", "30", "--class", "8")
    assert (found["helix_deg"], found["diameter_mm"]) == ("30", "115.470053838")
    assert found["single_pitch_um"] == pytest.approx(16.7315, abs=0.001)
    said = typed("tolerance", *SPUR, "--helix", "30", "--class", "8").out
    assert said.startswith("50 teeth, normal module 2 mm, helix 30°, reference diameter about 115.4701 mm\n")
    assert "across its shaft" in said


@pytest.mark.parametrize(
    ("helix", "told"),
    [
        ("90", "helix: 90 degrees; a helical gear winds by 0 to 60 degrees"),
        ("-5", "helix: -5 degrees; give it above 0, and the hand as right or left"),
        ("steep", "helix: 'steep' is not an angle"),
    ],
)
def test_a_helix_that_no_gear_has_is_refused(typed: Typed, helix: str, told: str) -> None:
    ran = typed("tolerance", *SPUR, f"--helix={helix}", "--class", "8")
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err
