import json
from pathlib import Path

import pytest

from crankwise.cli import main
from crankwise.store.kept import TypedMeasurement
from crankwise.tasks.workshop import open_workshop

HOLDS = "6 heads (1 calibration), 8 jobs, 1 run, 178 taps, 1 measurement of parts"


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    (tmp_path / "shed").mkdir()
    with open_workshop(str(tmp_path / "shed"), demo=True) as workshop:
        workshop.keep_measurement(1, TypedMeasurement("size_mm", "44.5"), "2026-03-14")
    return tmp_path / "shed"


def test_it_says_what_the_copy_holds(shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "shed.sqlite"
    assert main(["backup", "--data", str(shed), "--out", str(out)]) == 0
    told = capsys.readouterr()
    assert told.out == f"{out}: {HOLDS}; {out.stat().st_size:,} bytes\n"
    assert told.err == ""


def test_it_says_so_as_json(shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "shed.sqlite"
    assert main(["backup", "--data", str(shed), "--out", str(out), "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {
        "format": 1,
        "backup": str(out),
        "bytes": out.stat().st_size,
        "heads": 6,
        "jobs": 8,
        "runs": 1,
        "taps": 178,
        "calibrations": 1,
        "measurements": 1,
    }


def test_a_backup_says_what_it_holds_before_anybody_goes_back_to_it(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "shed.sqlite"
    main(["backup", "--data", str(shed), "--out", str(out)])
    before = out.read_bytes()
    capsys.readouterr()
    assert main(["backup", "--look", str(out)]) == 0
    assert capsys.readouterr().out == f"{out}: {HOLDS}; {out.stat().st_size:,} bytes\n"
    assert out.read_bytes() == before
    assert main(["backup", "--look", str(tmp_path / "none.sqlite")]) == 2
    assert "there is no backup here" in capsys.readouterr().err
    (tmp_path / "note.sqlite").write_text("no workshop at all, but long enough to be looked at\n" * 9)
    assert main(["backup", "--look", str(tmp_path / "note.sqlite")]) == 2
    assert "this is not a workshop file of Crankwise" in capsys.readouterr().err


def test_a_copy_can_be_used_as_a_workshop(shed: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    main(["backup", "--data", str(shed), "--out", str(tmp_path / "other" / "workshop.sqlite")])
    with open_workshop(str(shed)) as workshop, open_workshop(str(tmp_path / "other")) as copy:
        assert copy.jobs() == workshop.jobs()


def test_a_place_that_cannot_be_written_is_one_sentence(
    shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "nowhere" / "shed.sqlite"
    assert main(["backup", "--data", str(shed), "--out", str(out)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err == (
        f"crankwise: {out}: the backup cannot be written here (No such file or directory); nothing was changed\n"
    )


def test_a_workshop_that_is_not_there_is_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["backup", "--data", str(tmp_path), "--out", str(tmp_path / "a.sqlite")]) == 2
    assert capsys.readouterr().err == (
        f"crankwise: {tmp_path / 'workshop.sqlite'}: there is no workshop here yet; "
        "name the folder that holds one\n"
    )
    assert list(tmp_path.iterdir()) == []
