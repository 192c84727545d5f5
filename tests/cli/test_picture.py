"""`crankwise picture`, as it is typed: from a job file that another command wrote to a print."""

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Typed
from tests.house.tracked import HOUSE

RING = str(HOUSE / "examples/jobs/tide-ring.toml")


def test_from_a_gear_to_its_print(typed: Typed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert typed("gear", "--teeth", "400", "--module", "1", "--job", "wheel.toml").code == 0
    ran = typed("picture", "wheel.toml", "--out", "wheel.pdf")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == (
        "gear of 400 teeth, module 1\n"
        "wheel.pdf: full size, 6 sheets to join of A4; print at 100 % and measure the bars\n"
    )
    assert Path("wheel.pdf").read_bytes().startswith(b"%PDF")


def test_the_answer_for_a_program(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "ring.svg"
    ran = typed("picture", RING, "--out", str(out), "--position", "12", "--json")
    assert json.loads(ran.out) == {
        "format": 1,
        "out": str(out),
        "form": "svg",
        "bytes": out.stat().st_size,
        "name": "ring, 149 equal lines, 150 mm across",
        "sheets": 1,
        "paper": None,
    }
    assert b'class="tool"' in out.read_bytes()


@pytest.mark.parametrize(
    ("ending", "told"), [("svg", "one sheet; print it at 100 %"), ("dxf", "in millimetres")]
)
def test_what_was_written_is_told(typed: Typed, tmp_path: Path, ending: str, told: str) -> None:
    ran = typed("picture", RING, "--out", str(tmp_path / f"ring.{ending}"))
    assert ran.out.endswith(f"full size, {told}\n")
