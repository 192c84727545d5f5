import json
from pathlib import Path

import pytest

from crankwise.cli import main
from crankwise.tasks.workshop import open_workshop


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    (tmp_path / "shed").mkdir()
    open_workshop(str(tmp_path / "shed"), demo=True).close()
    return tmp_path / "shed"


def test_it_says_what_the_copy_holds(shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "shed.sqlite"
    assert main(["backup", "--data", str(shed), "--out", str(out)]) == 0
    told = capsys.readouterr()
    assert told.out == f"{out}: 6 heads, 8 jobs, 1 run, 178 taps; {out.stat().st_size:,} bytes\n"
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
    }


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
