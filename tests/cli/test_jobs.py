"""Every command that sizes a part writes a job file, and divide, sheet and picture read it."""

import json
from fractions import Fraction
from html import unescape
from pathlib import Path

import pytest

from crankwise.exact.number import PI
from crankwise.files.job_toml import read_job
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.slide import Slide
from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

BENCH, PLATE, TABLE = (
    str(HOUSE / f"examples/{name}.toml") for name in ("bench-head", "plate-head", "mill-table")
)
COMMANDS = {
    "spur": ("gear", "--teeth", "60", "--module", "1", "--pin", "1.7mm, 2mm"),
    "helical": ("gear", "--teeth", "30", "--module", "2", "--helix", "30", "--hand", "left", "--transverse"),
    "bevel": ("gear", "--bevel", "--teeth", "24", "--dp", "10", "--mate", "36", "--face", "3/4in"),
    "graduated": (
        "graduate",
        "--period",
        "12h25m",
        "--per-line",
        "5m",
        "--across",
        "150mm",
        "--numerals",
        "behind",
    ),
    "holes": ("holes", "7", "--circle", "60mm", "--hole", "6mm", "--clockwise"),
    "flats": ("flats", "6", "--across-flats", "17mm"),
    "list": ("angles", "0: open; 90: shut", "--rim", "50mm"),
    "worm-wheel": ("worm-wheel", "40", "--module", "1", "--worm", "16mm"),
    "rack": ("rack", "40", "--module", "1", "--travel", "400mm"),
    "ratchet": ("ratchet", "24", "--outside", "50mm", "--depth", "3mm"),
    "splines": ("splines", "6x23x26"),
    "sprocket": ("sprocket", "17", "--chain", "08B"),
    "clock-wheel": ("clock-wheel", "64", "--pinion", "8", "--module", "1"),
}


def head_for(kind: str) -> str:
    return TABLE if kind == "rack" else PLATE


@pytest.mark.parametrize("kind", list(COMMANDS))
def test_a_command_writes_what_divide_reads(typed: Typed, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "part.toml"
    wrote = typed(*COMMANDS[kind], "--json", "--job", str(path))
    assert wrote.code == 0
    assert wrote.err.splitlines()[0] == f"crankwise: job kept in {path}"
    json.loads(wrote.out)
    job = read_job(path.read_bytes())
    assert job.part.kind == kind
    assert job.name[0] == job.name[0].upper()
    divided = typed("divide", "--job", str(path), "--head", head_for(kind), "--json")
    assert json.loads(divided.out)["ways"]
    # Written again it is the same, so it may be kept in version control.
    before = path.read_bytes()
    typed(*COMMANDS[kind], "--json", "--job", str(path))
    assert path.read_bytes() == before


def test_what_was_typed_is_kept_and_readings_are_not(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "wheel.toml"
    typed(*COMMANDS["spur"], "--blank", "61.9mm", "--read-span", "20.1mm", "--job", str(path))
    values = read_job(path.read_bytes()).part.values
    assert values == {"teeth": "60", "module": "1", "pin": "1.7mm, 2mm", "blank": "61.9mm"}


def test_points_of_a_file_are_written_out(typed: Typed, tmp_path: Path) -> None:
    (tmp_path / "points.txt").write_text("# measured\n0 = 0\n10 = 31.5\n20 = 64d30m\n", encoding="utf-8")
    path = tmp_path / "scale.toml"
    typed(
        "graduate",
        "--points-file",
        str(tmp_path / "points.txt"),
        "--across",
        "90mm",
        "--job",
        str(path),
        "--no-numerals",
    )
    (tmp_path / "points.txt").unlink()
    divided = typed("divide", "--job", str(path), "--head", BENCH, "--json")
    assert json.loads(divided.out)["divisions"] == 3


def test_the_head_is_named_from_the_jobs_folder(typed: Typed, tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "head.toml").write_bytes(Path(PLATE).read_bytes())
    path = tmp_path / "jobs/helical.toml"
    ran = typed(
        *("gear", "--teeth", "30", "--module", "2", "--helix", "30", "--leadscrew", "5mm"),
        *("--head", str(tmp_path / "head.toml"), "--job", str(path)),
    )
    assert ran.code == 0
    assert 'head = "../head.toml"' in path.read_text(encoding="utf-8")
    assert typed("divide", "--job", str(path)).code == 0


@pytest.mark.parametrize("kind", list(COMMANDS))
def test_every_command_names_the_head_and_only_in_a_job(typed: Typed, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "part.toml"
    head = head_for(kind)
    assert typed(*COMMANDS[kind], "--head", head, "--job", str(path)).code == 0
    assert str(read_job(path.read_bytes()).head).endswith(Path(head).name)
    alone = typed(*COMMANDS[kind], "--head", head)
    if kind == "rack":  # its slide tells where the dial must stand, job or not
        assert (alone.code, alone.err) == (0, "")
    else:
        assert (alone.code, alone.out) == (2, "")
        assert "--head: it is named in a job file" in alone.err
    none = typed(*COMMANDS[kind], "--head", "none.toml", "--job", str(tmp_path / "other.toml"))
    assert (none.code, (tmp_path / "other.toml").exists()) == (2, False)


HELICAL = ("gear", "--teeth", "30", "--module", "2", "--helix", "30", "--face", "20mm", "--leadscrew", "5mm")


def test_a_helix_is_done_again_from_its_job_with_the_same_change_gears(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "helical.toml"
    asked = typed(*HELICAL, "--head", PLATE, "--json", "--job", str(path))
    best = json.loads(asked.out)["lead_trains"][0]
    values = read_job(path.read_bytes()).part.values
    assert values["train"] == " x ".join(
        f"{driver}/{driven}" for driver, driven in zip(best["drivers"], best["driven"], strict=True)
    )
    assert (values["leadscrew"], values["head_ratio"]) == ("5mm", "40")
    out = tmp_path / "sheet.html"
    assert typed("sheet", "--job", str(path), "--out", str(out)).code == 0
    page = out.read_text(encoding="utf-8")
    assert f"{best['drivers'][0]} on the table's screw" in unescape(page)
    assert "swung 30.0000°, right hand" in page


def test_a_train_of_ones_own_tells_what_it_cuts(typed: Typed) -> None:
    own = (*HELICAL, "--head-ratio", "40", "--train", "40/48 × 28/44")
    told = json.loads(typed(*own, "--json").out)["lead_trains"]
    assert [(one["drivers"], one["driven"]) for one in told] == [([40, 28], [48, 44])]
    assert told[0]["lead_mm"] == pytest.approx(200 * 48 * 44 / (40 * 28))
    card = next(
        card
        for card in json.loads(typed(*own, "--json").out)["cards"]
        if card["title"] == "Change gears for the lead"
    )
    assert any("40 on the table's screw" in (line["using"] or "") for line in card["lines"])


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ("--gears", ",".join(map(str, range(20, 151)))),
            "gears: 131 of them; a lead is sought among 130 at most",
        ),
        (("--train", "40-48"), "train: '40-48'; write one to three pairs in mesh"),
        (("--train", "9/48"), "a change gear has 10 teeth or more"),
        (("--train", "40/48", "--head-ratio", "0"), "head-ratio: 0; turns of the worm"),
    ],
)
def test_a_bad_train_is_told(typed: Typed, words: tuple[str, ...], sentence: str) -> None:
    ran = typed(*HELICAL, "--head-ratio", "40", *words)
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err


def test_a_sheet_of_a_job_has_its_name_its_way_and_its_marks(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "ring.csv"
    ran = typed("sheet", "--job", str(HOUSE / "examples/jobs/tide-ring.toml"), "--out", str(out), "--json")
    answer = json.loads(ran.out)
    assert (answer["title"], answer["positions"]) == ("Tide ring", 149)
    rows = out.read_text(encoding="utf-8-sig").splitlines()
    assert "long line, numeral 1" in rows[13]
    assert len(rows) == 1 + 149 + 1


def test_what_is_typed_beside_a_job_goes_before_it(typed: Typed, tmp_path: Path) -> None:
    job = str(HOUSE / "examples/jobs/wheel-127.toml")
    assert typed("divide", "--job", job).code == 0
    assert typed("divide", "--job", job, "--within", "1um").code == 1
    ways = json.loads(typed("divide", "--job", job, "--head", PLATE, "--json").out)["ways"]
    assert "dial" not in {way["method"] for way in ways}
    sheet = typed(
        "sheet", "--job", job, "--title", "Mine", "--rim", "5in", "--out", str(tmp_path / "a.csv"), "--json"
    )
    assert json.loads(sheet.out)["title"] == "Mine"


def test_a_rack_takes_its_slide_into_the_job(typed: Typed, tmp_path: Path) -> None:
    path, out = tmp_path / "rack.toml", tmp_path / "rack.csv"
    ran = typed(
        *("rack", "40", "--module", "1", "--leadscrew", "1/10in", "--marks", "100", "--read-to", "1/2"),
        *("--job", str(path)),
    )
    assert ran.code == 0
    head = read_job(path.read_bytes()).head
    assert isinstance(head, Head)
    assert head == Head(
        "Slide, 2.54 mm to a turn, 100 marks", dial=Dial(100, Fraction(1, 2)), slide=Slide(Fraction("2.54"))
    )
    divided = json.loads(typed("divide", "--job", str(path), "--json").out)
    assert (divided["ratio"], divided["lead_mm"], divided["divisions"]) == (None, "2.54", 40)
    (way,) = divided["ways"]
    assert way["worst_error_um"] <= 25.4 / 4
    assert (way["worst_error_arcsec"], way["worst_error_turns"]) == (None, None)
    last = way["positions"][39]
    assert abs(Fraction(last["target_mm"]) - PI * 39) == 0
    assert (Fraction(last["achieved_mm"]) - PI * 39) * 1000 == pytest.approx(last["error_um"])
    assert Fraction(last["achieved_mm"]) == (last["turns"] + Fraction(last["reading"]) / 100) * Fraction(
        "2.54"
    )
    assert typed("sheet", "--job", str(path), "--out", str(out)).code == 0
    assert "target (mm),target (in),error (µm),error (thou)" in out.read_text(encoding="utf-8-sig")


def test_a_rack_and_a_head_that_turns_refuse_each_other(typed: Typed, tmp_path: Path) -> None:
    job = str(HOUSE / "examples/jobs/rack.toml")
    on_a_head = typed("divide", "--job", job, "--head", BENCH)
    assert on_a_head.code == 1
    assert "this is cut along a slide, and Bench head turns the work" in on_a_head.err
    on_a_slide = typed("divide", "40", "--head", TABLE)
    assert on_a_slide.code == 1
    assert "this goes round, and Mill table is a slide" in on_a_slide.err
    written = typed("rack", "40", "--module", "1", "--head", BENCH, "--job", str(tmp_path / "a.toml"))
    assert (written.code, list(tmp_path.iterdir())) == (2, [])


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ("--within", "20arcsec"),
            "within: an angle, and this is cut along a slide; give a length, as 20um or 1thou",
        ),
        (("--rim", "50mm"), "rim: 50mm; this is cut along a slide and has no rim"),
    ],
)
def test_a_rack_is_told_in_lengths(typed: Typed, words: tuple[str, ...], sentence: str) -> None:
    ran = typed("divide", "--job", str(HOUSE / "examples/jobs/rack.toml"), *words)
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err


def test_a_sheet_carries_the_cautions_of_its_kind(typed: Typed, tmp_path: Path) -> None:
    job, out = tmp_path / "gear.toml", tmp_path / "gear.html"
    typed(*COMMANDS["helical"], "--job", str(job))
    assert typed("sheet", "--job", str(job), "--head", PLATE, "--out", str(out)).code == 0
    assert "Change gears turn while the table feeds" in out.read_text(encoding="utf-8")
    assert typed("sheet", "30", "--work", "space", "--head", PLATE, "--out", str(out)).code == 0
    assert "Change gears" not in out.read_text(encoding="utf-8")


def test_a_hole_plate_is_kept_whole_and_each_of_its_circles_is_a_run(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "plate.toml"
    words = ("holes", "--plate", "15, 20,18", "--circle", "100mm", "--hole", "2.5mm", "--apart", "7mm")
    told = json.loads(typed(*words, "--json", "--job", str(path)).out)
    assert [(one["holes"], one["circle_mm"]) for one in told["circles"]] == [
        (20, 100.0),
        (18, 86.0),
        (15, 72.0),
    ]
    assert read_job(path.read_bytes()).part.values["plate"] == "15, 20,18"
    for which, holes in (("", 20), ("2", 18), ("3", 15)):
        one = tmp_path / "one.toml"
        one.write_text(
            path.read_text(encoding="utf-8") + (f"which = {which}\n" if which else ""), encoding="utf-8"
        )
        divided = typed("divide", "--job", str(one), "--head", PLATE, "--json")
        assert json.loads(divided.out)["divisions"] == holes


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--plate", "15,20"), "apart: not told; say how far one circle is from the next"),
        (("--plate", "15", "--apart", "7mm"), "plate: it has two circles or more"),
        (("--plate", "15,,20", "--apart", "7mm"), "plate: nothing stands between two commas after '15'"),
        (
            ("--plate", "15,16,17,18,19,20", "--apart", "30mm"),
            "apart: 6 circles 30 mm apart do not go inside 100 mm",
        ),
        (
            ("7", "--plate", "15,20", "--apart", "7mm"),
            "plate: it says the holes of every circle; leave N out",
        ),
        (("7", "--apart", "7mm"), "apart: goes with a hole plate"),
    ],
)
def test_what_is_wrong_with_a_hole_plate_is_told(typed: Typed, words: tuple[str, ...], sentence: str) -> None:
    ran = typed("holes", *words, "--circle", "100mm")
    assert (ran.code, ran.out) == (2, "")
    assert sentence in ran.err
