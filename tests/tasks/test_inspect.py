from fractions import Fraction
from math import cos, pi, sin
from pathlib import Path
from random import Random

import pytest

from crankwise.accuracy.inspected_part import Inspection
from crankwise.errors import BadDivisions, FaultsFound
from crankwise.files.readings_csv import read_sheet
from crankwise.tasks.inspect import inspect_sheet, inspected, inspection_answer
from crankwise.tasks.measure_part import part_sheet
from crankwise.wording.inspection import inspection_lines


def inspect(path: str, teeth: str = "", module: str = "", rim: str = "", wanted: str = "") -> Inspection:
    return inspect_sheet(part_sheet(path), teeth, module, rim=rim, wanted=wanted)


def file_of(folder: Path, column: str, values: list[float]) -> str:
    path = folder / "part.csv"
    path.write_text(f"{column}\n" + "".join(f"{value:.4f}\n" for value in values), encoding="utf-8")
    return str(path)


def pitches(count: int, off: float, seed: int = 3) -> list[float]:
    """Comparator readings in micrometres of a gear off centre, from a zero of its own."""
    chance = Random(seed)
    places = [off * cos(2 * pi * k / count) + chance.gauss(0, 0.5) for k in range(count)]
    return [40 + after - before for before, after in zip(places, [*places[1:], places[0]], strict=True)]


def test_a_gear_off_centre(tmp_path: Path) -> None:
    found = inspect(file_of(tmp_path, "pitch_um", pitches(50, 20.0)), "50", "2")
    answer = inspection_answer(found)
    assert answer["cumulative_pitch_um"] == pytest.approx(40, abs=3)
    assert answer["single_pitch_um"] == pytest.approx(20 * 2 * pi / 50, abs=2)
    assert [cause["name"] for cause in answer["causes"]] == ["off-centre"]
    assert answer["causes"][0]["size_um"] == pytest.approx(20, abs=1)
    assert answer["class"] == 8  # 2013 edition, m 2, d 100: class 8 allows 57 in all, class 7 allows 40
    lines = "\n".join(inspection_lines(found))
    assert "50 pitches" in lines
    assert "once per turn, ±" in lines
    assert "class 8" in lines


def test_a_helical_gear_reaches_a_class_by_its_normal_module_and_its_own_diameter(tmp_path: Path) -> None:
    # d = 50 x 2 / cos 45 = 141.42; class 8 allows (0.2828 + 0.55 x 11.892 + 13.4) x 2 root 2 = 57.2 in all and
    # (0.1414 + 0.8 + 5) x 2 root 2 = 16.8 of one pitch; a spur gear's 54.0 would have made this one a class 9
    path = file_of(tmp_path, "pitch_um", [value - 40 for value in pitches(50, 28.0)])
    found = inspect_sheet(part_sheet(path), "50", "2", helix="45")
    answer = inspection_answer(found)
    assert 54.1 < answer["cumulative_pitch_um"] < 57.2
    assert answer["single_pitch_um"] < 16.8
    assert answer["class"] == 8
    assert inspection_answer(inspect_sheet(part_sheet(path), "50", "2"))["class"] == 9
    assert "across its shaft, half-way along the face" in "\n".join(inspection_lines(found))


def test_holes_by_their_chords(tmp_path: Path) -> None:
    chords = [80 * sin(pi / 12)] * 12
    found = inspect(file_of(tmp_path, "chord_mm", chords))
    answer = inspection_answer(found)
    assert answer["circle_mm"] == pytest.approx(80, abs=1e-3)
    assert answer["single_pitch_um"] == pytest.approx(0, abs=1e-6)
    assert answer["class"] is None
    assert "a circle of 80.000 mm" in "\n".join(inspection_lines(found))


def test_lines_measured_as_angles(tmp_path: Path) -> None:
    angles = [30.0 * k + (0.01 if k == 5 else 0) for k in range(12)]
    answer = inspection_answer(inspect(file_of(tmp_path, "position_deg", angles), rim="150mm"))
    assert answer["cumulative_um"][5] == pytest.approx(0.01 / 360 * pi * 150_000)
    assert [(one["name"], one["position"]) for one in answer["causes"]] in ([], [("bad-setting", 5)])


def test_sizes(tmp_path: Path) -> None:
    path = file_of(tmp_path, "size_mm", [33.98, 34.02, 34.0])
    found = inspect(path, wanted="34.05mm")
    assert inspection_answer(found) == {
        "format": 1,
        "measured": "size_mm",
        "mean_mm": "34",
        "spread_mm": "0.04",
        "off_mm": "-0.05",
        "beyond": [],
    }
    assert inspection_lines(found) == [
        "Mean 34.000 mm (1.3386 in), from least to greatest 0.040 mm (0.0016 in).",
        "That is 0.050 mm (0.0020 in) less than wanted.",
    ]


def test_a_chord_out_of_all_proportion_is_named(tmp_path: Path) -> None:
    with pytest.raises(FaultsFound, match=r"chord_mm \(part.csv, line 6\): 207055.2"):
        inspect(file_of(tmp_path, "chord_mm", [20.7055] * 4 + [207055.2] + [20.7055] * 7))


def test_what_does_not_fit_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadDivisions, match="49 readings, and the gear has 50 teeth; closure needs every one"):
        inspect(file_of(tmp_path, "pitch_um", pitches(50, 5.0)[:-1]), "50", "2")
    with pytest.raises(BadDivisions, match="rim: nothing given"):
        inspect(file_of(tmp_path, "position_deg", [0, 120, 240]))
    with pytest.raises(FaultsFound, match="the columns a; one of them is pitch_um, pitch_mm"):
        inspect(file_of(tmp_path, "a", [1, 2, 3]))


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ("0 60.002 480.001 180 240.003 300", "measured 480.001: 1 turn of the spindle too far; mistyped"),
        ("0 3600 7200 10800 14400 18000", "these look like minutes of arc; write degrees"),
        ("0 -60.002 -120.01 -180 -240 -300.01", "the readings fall as the settings rise"),
    ],
)
def test_angles_in_another_unit_or_a_turn_out_are_named_as_that(readings: str, told: str) -> None:
    text = "position_deg\n" + "\n".join(readings.split()) + "\n"
    with pytest.raises(FaultsFound, match=told) as found:
        inspected(read_sheet(text, "angles.csv"), rim_mm=Fraction(100))
    assert len(found.value.faults) == 1


def test_an_instrument_that_begins_anywhere_is_sound() -> None:
    text = "position_deg\n200\n260\n320\n20\n80.001\n140\n"
    found = inspected(read_sheet(text, "angles.csv"), rim_mm=Fraction(100))
    assert found.part is not None
    assert found.part.single_pitch < 2


def test_pitches_finer_than_any_shop_measures_are_in_another_unit() -> None:
    text = "pitch_um\n0\n0.012\n-0.008\n0.004\n"
    with pytest.raises(FaultsFound, match=r"these look like millimetres \(pitch_mm\) or inches \(pitch_in\)"):
        inspected(read_sheet(text, "pitches.csv"))
    assert inspected(read_sheet(text.replace("um", "mm"), "pitches.csv")).part is not None
