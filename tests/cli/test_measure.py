import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.cli.conftest import Typed
from tests.house.tracked import HOUSE

HEAD = str(HOUSE / "examples/bench-head.toml")
READINGS = str(HOUSE / "examples/bench-readings.csv")
MEASURED = str(HOUSE / "examples/measured-bench-head.toml")


def test_a_plan_as_a_table_a_file_and_json(typed: Typed) -> None:
    table = typed("measure", "plan", "--head", HEAD)
    assert (table.code, table.err) == (0, "")
    assert "0 turns and 10 marks" in table.out
    csv = typed("measure", "plan", "--head", HEAD, "--csv", "--reverse")
    assert csv.out.splitlines()[:2] == ["setting_deg,measured_deg,direction", "0,,forward"]
    assert len(csv.out.splitlines()) == 73
    answer = json.loads(typed("measure", "plan", "--head", HEAD, "--points", "36", "--json").out)
    assert len(answer["points"]) == 36
    closure = typed("measure", "plan", "--head", HEAD, "--reference", "closure", "--csv")
    assert closure.out.startswith("step,start_deg,gauge_arcsec\n1,0,\n")


def test_a_fit_writes_the_head_that_knows_its_errors(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "measured.toml"
    ran = typed("measure", "fit", READINGS, "--head", HEAD, "--date", "2026-03-14", "--out", str(out))
    assert (ran.code, ran.err) == (0, "")
    assert "Turned back, it stands 226.5" in ran.out
    assert out.read_text(encoding="utf-8") == Path(MEASURED).read_text(encoding="utf-8")
    answer = json.loads(
        typed("measure", "fit", READINGS, "--head", HEAD, "--date", "2026-03-14", "--json").out
    )
    assert answer["head"] == out.read_text(encoding="utf-8")
    assert {"harmonics", "residual_arcsec", "backlash_arcsec", "head", "outliers"} <= set(answer)


def test_corrected_settings_say_what_remains(typed: Typed) -> None:
    ran = typed("divide", "127", "--head", MEASURED, "--corrected")
    assert ran.code == 0
    assert 'the worst position was 185.1" out and is 45.3" out' in ran.out
    assert "ring at 0 and the crank at the dial's 0" in ran.out
    way = json.loads(typed("divide", "127", "--head", MEASURED, "--corrected", "--json").out)["ways"][0]
    correction = way["corrected"]
    assert correction["after_arcsec"] == pytest.approx(way["worst_error_arcsec"])
    assert correction["before_arcsec"] > 4 * correction["after_arcsec"]
    assert [row["position"] for row in correction["curve"]] == list(range(127))
    assert [row["after_arcsec"] for row in correction["curve"]] == pytest.approx(
        [position["error_arcsec"] for position in way["positions"]]
    )
    plain = json.loads(typed("divide", "127", "--head", MEASURED, "--json").out)["ways"]
    assert not any("corrected" in way for way in plain)


def test_a_head_never_measured_cannot_be_corrected(typed: Typed) -> None:
    ran = typed("divide", "127", "--head", HEAD, "--corrected")
    assert (ran.code, ran.out) == (2, "")
    assert "the errors of 'Bench head' are not known; measure it" in ran.err


def test_readings_that_cannot_tell_are_answered_no(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "even.csv"
    path.write_text(
        "setting_deg,measured_deg\n" + "".join(f"{10 * k},{10 * k + k % 5 / 3600:.5f}\n" for k in range(36)),
        encoding="utf-8",
    )
    ran = typed("measure", "fit", str(path), "--head", HEAD, "--json")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith("crankwise: every setting stops the crank at the same place of its turn")
    assert typed("measure", "fit", str(path), "--head", HEAD, "--only", "wheel").code == 0


def test_a_mistyped_reading_is_wrong_input(typed: Typed, tmp_path: Path) -> None:
    lines = Path(READINGS).read_text(encoding="utf-8").splitlines()
    setting, measured, way = lines[9].split(",")
    lines[9] = f"{setting},{float(measured) + 5:.5f},{way}"
    path = tmp_path / "typed.csv"
    path.write_text("\n".join(lines), encoding="utf-8")
    ran = typed("measure", "fit", str(path), "--head", HEAD)
    assert (ran.code, ran.out) == (2, "")
    assert "measured_deg (typed.csv, line 10): " in ran.err
    assert "1 turn of the crank too far" in ran.err


def test_a_finished_part(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "pitches.csv"
    path.write_text("pitch_um\n" + "".join(f"{k % 3}\n" for k in range(12)), encoding="utf-8")
    ran = typed("measure", "part", str(path), "--teeth", "12", "--module", "2")
    assert ran.code == 0
    assert "12 pitches: the largest deviation of one is 1.0 µm (0.04 thou)." in ran.out
    answer = json.loads(typed("measure", "part", str(path), "--json").out)
    assert answer["single_pitch_um"] == 1


def test_a_picture_of_the_errors(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "errors.svg"
    assert typed("measure", "fit", READINGS, "--head", HEAD, "--picture", str(path)).code == 0
    root = ElementTree.parse(path).getroot()
    assert len([one for one in root.iter() if one.get("class") == "reading"]) == 72
    ran = typed("measure", "fit", READINGS, "--head", HEAD, "--picture", str(tmp_path / "errors.png"))
    assert ran.code == 2
    assert "a picture is written as SVG" in ran.err


WHEEL = [str(HOUSE / "examples/wheel-pitches.csv"), "--job", str(HOUSE / "examples/jobs/wheel-127.toml")]


def test_a_part_is_held_against_its_job(typed: Typed, tmp_path: Path) -> None:
    report = tmp_path / "wheel.pdf"
    ran = typed("measure", "part", *WHEEL, "--report", str(report), "--date", "2026-03-14")
    assert (ran.code, ran.err) == (0, "")
    assert "predicted: as predicted." in ran.out
    assert "once per turn" in ran.out
    assert ran.out.endswith(f"Written: {report}.\n")
    assert report.read_bytes().startswith(b"%PDF")
    answer = json.loads(typed("measure", "part", *WHEEL, "--json").out)
    assert answer["predicted"]["kept"] is True
    assert (answer["part"], answer["head"], answer["class"]) == ("Wheel of 127", "Bench head", 11)
    assert [cause["name"] for cause in answer["causes"]] == ["off-centre"]


def test_a_size_of_the_measuring_card(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "spans.txt"
    path.write_text("44,57\n44.56 mm\n1.7560 in\n", encoding="utf-8")
    words = ["measure", "part", str(path), *WHEEL[1:], "--measured", "size_mm", "--of", "span over 15"]
    ran = typed(*words)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.endswith("Outside its limits at place 3.\n")
    assert json.loads(typed(*words, "--json").out)["beyond"] == [3]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--teeth", "50"], "teeth, module, dp, helix: given beside a job"),
        (["--of", "pin\u00e9"], "of: 'pin\u00e9' is not on the measuring card; it has: span over 15 teeth"),
        (["--of", "span over 15"], "these readings are none; use size_mm or size_in"),
        (["--measured", "chords"], "measured: 'chords'; one of pitch_um"),
        (["--report", "wheel.doc"], "a report is written as PDF"),
        (["--report", "wheel.pdf", "--date", "14.3.26"], "date: '14.3.26' is no day; write it as 2026-03-14"),
        (["--way", "by magic"], "way: 'by magic' is none of the ways"),
    ],
)
def test_what_a_part_cannot_be_measured_with(
    typed: Typed, words: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = typed("measure", "part", *WHEEL, *words)
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err
    assert not list(tmp_path.iterdir())


PARTS = [
    word
    for name in ("wheel-pitches", *(f"wheel-pitches-{number}" for number in range(2, 6)))
    for word in ("--part", str(HOUSE / "examples/jobs/wheel-127.toml"), str(HOUSE / f"examples/{name}.csv"))
]


def test_several_parts_tell_of_their_head(typed: Typed, tmp_path: Path) -> None:
    ran = typed("measure", "parts", "--head", HEAD, *PARTS)
    assert (ran.code, ran.err) == (0, "")
    assert "taken as typical 10 to 60" in ran.out
    out = tmp_path / "known.toml"
    ran = typed("measure", "parts", "--head", HEAD, *PARTS, "--take", "worm", "--out", str(out))
    assert ran.out.endswith(f"Written: {out}, with worm from 5 measured parts.\n")
    known = out.read_text(encoding="utf-8")
    assert 'worm_arcsec = "5 measured parts"' in known
    assert "reading_marks" not in known
    answer = json.loads(typed("measure", "parts", "--head", str(out), *PARTS, "--json").out)
    worm = next(one for one in answer["learned"] if one["name"] == "worm")
    assert (worm["from"], answer["parts"], answer["head"]) == ("head file", 5, None)
    assert worm["low"] < 22 < worm["high"]
    (taken,) = worm["takes"]
    assert taken == {"size": "worm_arcsec"} | {end: f"{worm[end]:.3g}" for end in ("low", "high")}


def test_few_parts_are_answered_no(typed: Typed, tmp_path: Path) -> None:
    ran = typed("measure", "parts", "--head", HEAD, *PARTS[:6], "--json")
    assert (ran.code, ran.out) == (1, "")
    assert "2 parts to learn from; measure 1 more. Fewer than 3 parts tell nothing of a head" in ran.err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--take", "worm"], "--take and --out go together"),
        (["--out", "known.toml"], "--take and --out go together"),
        (
            ["--take", "wurm", "--out", "known.toml"],
            "take: 'wurm' is nothing that these parts offer; they offer scatter",
        ),
        (["--measured", "x"], "measured: 'x'; one of pitch_um"),
    ],
)
def test_what_cannot_be_taken_over(
    typed: Typed, words: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = typed("measure", "parts", "--head", HEAD, *PARTS, *words)
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err
    assert not list(tmp_path.iterdir())


def test_the_calibrations_kept_and_one_put_in_force(typed: Typed, tmp_path: Path) -> None:
    twice, out = str(tmp_path / "twice.toml"), str(tmp_path / "back.toml")
    closure = str(HOUSE / "examples/bench-closure.csv")
    typed("measure", "fit", closure, "--head", MEASURED, "--date", "2026-06-01", "--out", twice)
    ran = typed("measure", "kept", "--head", twice)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == "1  2026-03-14  against a reference, 72 readings"
    assert "2  2026-06-01  by closure, one fixed angle stepped round, 35 readings; in force" in ran.out
    assert '     worm, once per turn of the crank 31.4"' in ran.out
    back = typed("measure", "kept", "--head", twice, "--in-force", "1", "--out", out)
    assert "72 readings; in force" in back.out
    answer = json.loads(typed("measure", "kept", "--head", out, "--json").out)
    assert [one["in_force"] for one in answer["calibrations"]] == [True, False]
    assert "errors measured on 2026-03-14" in typed("divide", "127", "--head", out, "--corrected").out
    assert "never measured" in typed("measure", "kept", "--head", HEAD).out


def test_a_calibration_is_dropped_into_a_new_file(typed: Typed, tmp_path: Path) -> None:
    twice, out = tmp_path / "twice.toml", str(tmp_path / "one.toml")
    closure = str(HOUSE / "examples/bench-closure.csv")
    typed("measure", "fit", closure, "--head", MEASURED, "--date", "2026-06-01", "--out", str(twice))
    before = twice.read_bytes()
    ran = typed("measure", "kept", "--head", str(twice), "--drop", "2", "--out", out)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == "1  2026-03-14  against a reference, 72 readings; in force"
    assert "2026-06-01" not in ran.out
    assert twice.read_bytes() == before
    itself = typed("measure", "kept", "--head", str(twice), "--drop", "2", "--out", str(twice))
    assert itself.code == 2
    assert "this is the file that has it, and its readings would be lost" in itself.err
    assert twice.read_bytes() == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--drop", "2", "--out", "x.toml"], "calibration 2: 'Bench head' has 1"),
        (["--drop", "1"], "drop: goes with --out"),
        (["--drop", "1", "--in-force", "1", "--out", "x.toml"], "in-force: one thing at a time"),
        (["--in-force", "2", "--out", "x.toml"], "calibration 2: 'Bench head' has 1"),
        (["--in-force", "x", "--out", "x.toml"], "calibration: 'x' is not a whole number"),
        (["--in-force", "1"], "in-force: goes with --out"),
        (["--out", "x.toml"], "in-force: goes with --out"),
    ],
)
def test_a_calibration_that_is_not_there_is_not_put_in_force(
    typed: Typed, words: list[str], told: str
) -> None:
    ran = typed("measure", "kept", "--head", MEASURED, *words)
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err
    assert not Path("x.toml").exists()
