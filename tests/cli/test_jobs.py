"""Every command that sizes a part writes a job file, and divide, sheet and picture read it."""

import json
from html import unescape
from pathlib import Path

import pytest

from crankwise.files.job_toml import read_job
from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

BENCH, PLATE = (str(HOUSE / f"examples/{name}.toml") for name in ("bench-head", "plate-head"))
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
    "ratchet": ("ratchet", "24", "--outside", "50mm", "--depth", "3mm"),
    "splines": ("splines", "6x23x26"),
    "sprocket": ("sprocket", "17", "--chain", "08B"),
    "clock-wheel": ("clock-wheel", "64", "--pinion", "8", "--module", "1"),
}


@pytest.mark.parametrize("kind", list(COMMANDS))
def test_a_command_writes_what_divide_reads(typed: Typed, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "part.toml"
    wrote = typed(*COMMANDS[kind], "--json", "--job", str(path))
    assert (wrote.code, wrote.err) == (0, f"crankwise: job kept in {path}\n")
    json.loads(wrote.out)
    job = read_job(path.read_bytes())
    assert job.part.kind == kind
    divided = typed("divide", "--job", str(path), "--head", PLATE, "--json")
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
    assert typed(*COMMANDS[kind], "--head", PLATE, "--job", str(path)).code == 0
    assert str(read_job(path.read_bytes()).head).endswith("plate-head.toml")
    alone = typed(*COMMANDS[kind], "--head", PLATE)
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


def test_a_rack_is_not_divided_on_a_head_and_takes_no_job(typed: Typed) -> None:
    ran = typed("rack", "20", "--module", "1", "--job", "rack.toml")
    assert (ran.code, ran.err) == (
        2,
        "crankwise: --job rack.toml: this is not known here; see crankwise rack --help\n",
    )


def test_a_sheet_carries_the_cautions_of_its_kind(typed: Typed, tmp_path: Path) -> None:
    job, out = tmp_path / "gear.toml", tmp_path / "gear.html"
    typed(*COMMANDS["helical"], "--job", str(job))
    assert typed("sheet", "--job", str(job), "--head", PLATE, "--out", str(out)).code == 0
    assert "Change gears turn while the table feeds" in out.read_text(encoding="utf-8")
    assert typed("sheet", "30", "--work", "space", "--head", PLATE, "--out", str(out)).code == 0
    assert "Change gears" not in out.read_text(encoding="utf-8")
