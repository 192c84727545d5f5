"""`crankwise gear`, as it is typed: the promised keys, the cards, and a list of cutters."""

import json
from math import cos, pi, radians, tan
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Typed


def answer(typed: Typed, *words: str) -> dict[str, Any]:
    ran = typed("gear", *words, "--json")
    assert ran.code == 0, ran.err
    assert ran.err == ""
    told: dict[str, Any] = json.loads(ran.out)
    return told


def test_the_promised_keys_of_a_spur_gear(typed: Typed) -> None:
    """127 teeth of module 1: every figure from the printed formulas, worked here by hand."""
    told = answer(typed, "--teeth", "127", "--module", "1", "--pin", "1.728mm", "--span", "15")
    inv = tan(radians(20)) - radians(20)
    assert told["outside_diameter_mm"] == 129
    assert told["pitch_diameter_mm"] == 127
    assert told["whole_depth_mm"] == 2.25
    assert told["cutter_number"] == 7
    assert told["cutter"]["from_teeth"] == 55
    assert told["cutter"]["to_teeth"] == 134
    assert told["cutter"]["number_where_1_cuts_rack"] == 2
    assert told["virtual_teeth"] == 127
    assert told["span"]["teeth"] == 15
    assert told["span"]["mm"] == pytest.approx(cos(radians(20)) * (pi * 14.5 + 127 * inv), abs=1e-9)
    assert told["over_pins"]["pin_mm"] == 1.728
    assert told["chordal"]["thickness_mm"] == pytest.approx(1.5707562772, abs=1e-9)
    assert told["least_teeth_without_undercut"] == 18
    assert told["undercut_limit_teeth"] == pytest.approx(17.0973, abs=5e-5)
    assert told["warnings"] == []


def test_a_gear_by_diametral_pitch_has_the_inch_depth_and_numbers(typed: Typed) -> None:
    told = answer(typed, "--teeth", "40", "--dp", "24", "--pressure-angle", "14.5")
    assert told["outside_diameter_mm"] == pytest.approx(42 / 24 * 25.4, abs=1e-12)
    assert told["whole_depth_mm"] == pytest.approx(2.157 / 24 * 25.4, abs=1e-12)
    assert told["cutter_number"] == 3
    assert told["least_teeth_without_undercut"] == 32


@pytest.mark.parametrize(
    ("cutters", "order", "number"),
    [("8", "rack", 2), ("8", "12", 7), ("15", "rack", 1.5), ("15", "12", 7.5)],
)
def test_the_cutter_in_either_order_with_half_numbers_or_without(
    typed: Typed, cutters: str, order: str, number: float
) -> None:
    told = answer(typed, "--teeth", "127", "--module", "1", "--cutters", cutters, "--number-one", order)
    assert told["cutter_number"] == number


def test_eleven_teeth_have_no_cutter(typed: Typed) -> None:
    told = answer(typed, "--teeth", "11", "--module", "1")
    assert told["cutter"] is None
    assert told["cutter_number"] is None
    assert [one["code"] for one in told["warnings"]] == ["undercut", "no-cutter"]


@pytest.mark.parametrize(
    ("teeth", "owned", "least"),
    [("127", True, 55), ("18", True, 17), ("22", False, 21)],
)
def test_the_cutters_listed_are_looked_through(typed: Typed, teeth: str, owned: bool, least: int) -> None:
    told = answer(typed, "--teeth", teeth, "--module", "1", "--cutters", "examples/cutters/drawer.toml")
    assert told["cutter"]["owned"] is owned
    assert told["cutter"]["from_teeth"] == least


def test_a_cutter_known_by_its_number_is_found_by_its_range(typed: Typed) -> None:
    words = ["--teeth", "19", "--dp", "24", "--pressure-angle", "14.5"]
    told = answer(typed, *words, "--cutters", "examples/cutters/drawer.toml")
    assert told["cutter"] | {"owned": None} == {
        "from_teeth": 19,
        "to_teeth": 20,
        "number_where_1_cuts_rack": 5.5,
        "number_where_1_cuts_12": 3.5,
        "owned": None,
    }
    assert told["cutter"]["owned"] is True
    card = typed(
        "gear", *words[:3], "24", "--pressure-angle", "20", "--cutters", "examples/cutters/drawer.toml"
    ).out
    assert "your list has no cutter of this module and pressure angle" in " ".join(card.split())


def test_a_range_of_its_own_is_taken_as_engraved(typed: Typed, tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text('[[cutters]]\nmodule = 1\nteeth = ["120-130", "127"]\n', encoding="utf-8")
    told = answer(typed, "--teeth", "127", "--module", "1", "--cutters", str(own))
    assert (told["cutter"]["from_teeth"], told["cutter"]["to_teeth"]) == (127, 127)
    assert told["cutter_number"] is None


@pytest.mark.parametrize(
    ("engraved", "teeth", "rack", "twelve"),
    [("55-79", "60", 2, 7), ("14", "14", 7, 2), ("26-29", "27", 4, 5)],
)
def test_the_narrower_ranges_of_a_set_of_15_have_the_whole_numbers(
    typed: Typed, tmp_path: Path, engraved: str, teeth: str, rack: int, twelve: int
) -> None:
    own = tmp_path / "own.toml"
    own.write_text(f'[[cutters]]\nmodule = 1\nteeth = ["{engraved}"]\n', encoding="utf-8")
    cutter = answer(typed, "--teeth", teeth, "--module", "1", "--cutters", str(own))["cutter"]
    assert cutter["owned"]
    assert (cutter["number_where_1_cuts_rack"], cutter["number_where_1_cuts_12"]) == (rack, twelve)


def test_a_reading_over_pins_names_the_pins_that_it_is_taken_for(typed: Typed) -> None:
    ran = typed("gear", "--teeth", "40", "--module", "1", "--pin", "2mm, 1.75mm", "--read-pins", "42.6mm")
    assert "over pins of 1.750 mm (0.0689 in): you read" in ran.out


def test_pins_owned_the_better_first_and_the_useless_named(typed: Typed) -> None:
    told = answer(typed, "--teeth", "40", "--module", "1", "--pin", "2mm, 0.068in, 1.75, 0.6mm")
    assert [pin["pin_mm"] for pin in told["pins"]] == [1.7272, 1.75, 2]
    assert told["over_pins"] == told["pins"][0]
    assert [one["code"] for one in told["warnings"]] == ["unusable-pin"]


def test_readings_ask_for_an_infeed(typed: Typed) -> None:
    words = ["--teeth", "40", "--module", "2", "--pin", "3.5mm"]
    plain = answer(typed, *words)
    span, pins = plain["span"]["mm"] + 0.12, plain["over_pins"]["mm"] + 0.12
    chord = plain["chordal"]["thickness_mm"] + 0.12
    told = answer(
        typed,
        *words,
        "--read-span",
        f"{span:.6f}",
        "--read-pins",
        f"{pins:.6f}",
        "--read-chord",
        f"{chord:.6f}",
    )
    deeper = {one["what"]: round(one["deeper_mm"], 3) for one in told["infeeds"]}
    assert deeper["span over 5"] == 0.175
    assert deeper["chord"] == 0.165
    assert 0.06 < deeper["over pins"] < 0.12
    assert [one["pin_mm"] for one in told["infeeds"]] == [None, 3.5, None]
    text = typed("gear", *words, "--read-chord", f"{chord:.6f}").out
    assert "you read 0.120 mm (0.0047 in) over: go 0.165 mm (0.0065 in) deeper" in text


def test_the_depth_on_the_blank_as_measured(typed: Typed) -> None:
    told = answer(typed, "--teeth", "127", "--module", "1", "--blank", "128.9mm", "--deepest-cut", "0.5mm")
    assert told["depth_mm"] == pytest.approx(2.2)
    assert [cut["name"] for cut in told["passes"]] == ["rough"] * 4 + ["finish"]
    assert told["passes"][-1]["depth_mm"] == pytest.approx(2.2)


def test_a_helical_gear_with_its_train_and_the_ways_left(typed: Typed) -> None:
    words = ["--teeth", "30", "--module", "2", "--helix", "30", "--face", "20mm"]
    told = answer(typed, *words, "--leadscrew", "5mm", "--head", "examples/plate-head.toml")
    assert told["kind"] == "helical"
    assert told["virtual_teeth"] == pytest.approx(46.188022, abs=1e-6)
    assert told["helix"]["lead_mm"] == pytest.approx(376.99112, abs=1e-5)
    best = told["lead_trains"][0]
    drivers, driven = best["drivers"], best["driven"]
    assert 5 * 40 * driven[0] * driven[1] / (drivers[0] * drivers[1]) == pytest.approx(best["lead_mm"])
    wound = 20 * pi * told["pitch_diameter_mm"]
    assert best["error_over_face_mm"] == pytest.approx(wound / best["lead_mm"] - 20 * tan(radians(30)))
    assert {key.split(":")[0] for key in told["ways_left"]} <= {"plain", "block", "nearest-hole"}
    text = typed("gear", *words, "--leadscrew", "5mm", "--head", "examples/plate-head.toml").out
    assert "Differential indexing cannot be used" in text
    assert "Plain indexing: 15 circle" in text


def test_a_head_without_plates_leaves_no_way(typed: Typed) -> None:
    words = ["--teeth", "30", "--module", "2", "--helix", "30", "--leadscrew", "5mm", "--gears", "24,48,64"]
    ran = typed("gear", *words, "--head", "examples/bench-head.toml")
    assert ran.code == 0, ran.err
    assert "none: it has no hole plate that divides so" in ran.out
    assert "no face told" in ran.out


def test_a_pair(typed: Typed) -> None:
    told = answer(
        typed, "--teeth", "12", "--module", "3", "--shift", "0.6", "--mate", "24", "--mate-shift", "0.36"
    )
    assert told["pair"]["centres_mm"] == pytest.approx(56.4999, abs=5e-5)
    assert told["pair"]["interference"] == []
    assert [card["title"] for card in told["cards"]] == [
        "Preparation",
        "Measuring",
        "Pair of 12 and 24 teeth",
    ]
    set_wider = answer(typed, "--teeth", "20", "--module", "1", "--mate", "40", "--centres", "30.05")
    assert set_wider["pair"]["backlash_mm"] == pytest.approx(0.1 * tan(radians(20)), rel=0.02)


def test_a_bevel_gear_says_that_it_is_an_approximation(typed: Typed) -> None:
    words = ["--teeth", "24", "--dp", "10", "--bevel", "--mate", "36", "--face", "5/8in"]
    told = answer(typed, *words)
    assert told["approximate"] is True
    assert told["pitch_cone_deg"] == pytest.approx(33.690068)
    assert told["head_tilt_deg"] == told["root_cone_deg"] < told["pitch_cone_deg"]
    assert told["cutter"]["from_teeth"] == 26
    assert told["finishing"]["roll_deg"] > 0
    assert typed("gear", *words).out.startswith(
        "Straight bevel gear, 24 teeth to 36, DP 10, 20°, shafts at 90°"
    )


def test_the_text_is_both_cards_in_both_units_inches_first_where_asked_by_pitch(typed: Typed) -> None:
    metric = typed("gear", "--teeth", "127", "--module", "1").out
    assert "outside diameter  129.000 mm (5.0787 in)" in metric
    assert "\nPreparation\n" in metric
    assert "\nMeasuring\n" in metric
    assert "the one for 55-134 teeth; No. 2 where No. 1 cuts 135 to a rack, No. 7 where" in metric
    inch = typed("gear", "--teeth", "40", "--dp", "24").out
    assert "outside diameter  1.7500 in (44.450 mm)" in inch
    assert all(len(line) <= 180 for line in metric.splitlines())


def test_a_helical_gear_without_a_leadscrew_still_says_which_ways_are_excluded(typed: Typed) -> None:
    ran = typed("gear", "--teeth", "31", "--module", "2", "--helix", "50", "--hand", "left", "--transverse")
    assert ran.code == 0, ran.err
    assert "Differential indexing cannot be used" in ran.out
    assert "more than most tables swing" in " ".join(ran.out.split())
    assert "standing before the table, push its left end away from you" in " ".join(ran.out.split())
    assert "balls of" in ran.out


def test_a_bevel_gear_that_is_hardly_worth_cutting_is_warned_of(typed: Typed) -> None:
    words = ["--teeth", "8", "--module", "2", "--bevel", "--mate", "40"]
    told = answer(typed, *words, "--face", "18mm")
    assert [one["code"] for one in told["warnings"]] == ["approximation", "no-cutter", "long-face"]
    assert told["finishing"] is None
    assert typed("gear", *words, "--face", "10mm").code == 0


def test_what_is_as_it_should_be_and_what_is_already_too_deep(typed: Typed) -> None:
    words = ["--teeth", "40", "--module", "2"]
    span = answer(typed, *words)["span"]["mm"]
    assert "span over 5: as it should be" in typed("gear", *words, "--read-span", f"{span:.4f}").out
    assert (
        "already 0.146 mm (0.0058 in) too deep"
        in typed("gear", *words, "--read-span", f"{span - 0.1:.4f}").out
    )


def test_stub_teeth_are_part_of_the_name_for_their_cutter_is_another(typed: Typed) -> None:
    words = ["gear", "--teeth", "20", "--dp", "10", "--system", "stub", "--json"]
    assert json.loads(typed(*words).out)["name"] == "spur gear, 20 teeth, DP 10, 20°, stub teeth"


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        ("--module 24", "coarse", "if that number is a diametral pitch, give it as one"),
        ("--dp 1.5", "coarse", "if that number is a module, give it as one"),
        ("--module 1 --helix 20 --face 3mm", "narrow-face", "whose jaws need 3.482 mm (0.1371 in) and more"),
        (
            "--module 1 --helix 30 --leadscrew 5mm --head-ratio 40 --train 24/24 --face 20mm",
            "lead-off",
            "a helix of 28.552° instead of 30°, and the teeth are 0.664 mm (0.0261 in) out at the far end",
        ),
        (
            "--module 1 --helix 30 --leadscrew 5mm --head-ratio 40 --train 24/72",
            "lead-off",
            "a helix of 10.281° instead of 30°: other gears come nearer",
        ),
    ],
)
def test_what_was_hardly_meant_or_cannot_be_measured_is_warned_of(
    typed: Typed, words: str, code: str, told: str
) -> None:
    found = json.loads(typed("gear", "--teeth", "30", *words.split(), "--json").out)["warnings"]
    (warning,) = (one for one in found if one["code"] == code)
    assert told in warning["text"]


def test_a_train_that_serves_and_a_face_that_is_wide_enough_are_not_warned_of(typed: Typed) -> None:
    words = (
        "--teeth 30 --module 2 --helix 30 --face 20mm --leadscrew 5mm --head examples/plate-head.toml --json"
    )
    assert json.loads(typed("gear", *words.split()).out)["warnings"] == []


def test_an_angle_that_is_no_round_figure_is_named_shortly(typed: Typed) -> None:
    found = json.loads(
        typed("gear", "--teeth", "127", "--module", "1", "--pressure-angle", "0.349rad", "--json").out
    )
    assert found["name"] == "spur gear, 127 teeth, module 1, about 19.9962°"


def test_two_balls_of_an_odd_helical_gear_are_held_level(typed: Typed) -> None:
    odd, even = (
        " ".join(typed("gear", "--teeth", teeth, "--module", "2", "--helix", "30").out.split())
        for teeth in ("31", "30")
    )
    assert "both balls equally far from one face of the gear" in odd
    assert "equally far" not in even


@pytest.mark.parametrize(("module", "allowed"), [("0.2", 0.01), ("0.5", 0.025), ("1", 0.05), ("6", 0.05)])
def test_what_a_fine_tooth_may_be_out_follows_its_module(typed: Typed, module: str, allowed: float) -> None:
    cards = answer(typed, "--teeth", "40", "--module", module)["cards"]
    lines = {line["what"]: line for card in cards for line in card["lines"]}
    for what in ("outside diameter", "chord of a tooth"):
        assert lines[what]["high"] - lines[what]["low"] == pytest.approx(allowed, abs=1e-9)


def test_a_helical_gear_told_across_its_shaft_is_told_its_cutter(typed: Typed) -> None:
    words = ("--teeth", "30", "--module", "2", "--helix", "30", "--transverse")
    told = answer(typed, *words)
    (warning,) = [one for one in told["warnings"] if one["code"] == "transverse-cutter"]
    # 2 x cos 30 = 1.7321; tan 20 x cos 30 = 0.31521, of which the angle is 17.495 degrees
    assert "a cutter of module about 1.7321 and 17.495°, which is hardly made" in warning["text"]
    lines = {line["what"]: line["value"] for card in told["cards"] for line in card["lines"]}
    assert lines["module of the cutter"] == pytest.approx(1.7320508)
    assert lines["pressure angle of the cutter"] * 360 == pytest.approx(17.495241, abs=1e-5)
    assert answer(typed, *words[:-1])["warnings"] == []
