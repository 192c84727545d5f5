"""What is worth a second look, each found where it is and nowhere else."""

import pytest

from crankwise.files.head_toml import read_head
from crankwise.head.findings import findings
from crankwise.tasks.heads import load_head
from tests.house.tracked import HOUSE

WORM = 'name = "x"\n[worm]\nwheel_teeth = 72\n'
RING = "[ring]\ngraduations = 360\n"


def found(toml: str) -> list[tuple[str, str]]:
    return [(finding.code, finding.place) for finding in findings(read_head(toml))]


@pytest.mark.parametrize("path", sorted((HOUSE / "examples").glob("*.toml")), ids=lambda path: path.stem)
def test_a_usual_head_has_no_findings(path: object) -> None:
    assert findings(load_head(str(path))) == ()


@pytest.mark.parametrize(
    ("toml", "code", "place"),
    [
        (
            f"{WORM}starts = 2\n[dial]\nmarks = 100\n{RING}".replace("72", "40"),
            "ratio-is-half-a-usual-one",
            "worm",
        ),
        (
            f'name = "x"\n[worm]\nratio = "45/2"\n[dial]\nmarks = 25\nnumbered_every = 5\n{RING}',
            "full-circle-not-whole",
            "dial",
        ),
        (f"{WORM}[dial]\nmarks = 96\nnumbered_every = 12\n{RING}", "numerals-unusual", "dial.numbered_every"),
        (
            f"{WORM}[dial]\nmarks = 125\nnumbered_every = 10\n{RING}",
            "last-interval-short",
            "dial.numbered_every",
        ),
        (f'{WORM}[dial]\nmarks = 100\nread_to = "1/20"\n{RING}', "read-finer-than-a-tenth", "dial.read_to"),
        (
            f'{WORM}[dial]\nmarks = 100\nread_to = "1/10"\nvernier = 5\n{RING}',
            "vernier-coarser-than-the-eye",
            "dial.vernier",
        ),
        (f"{WORM}[dial]\nmarks = 100\nsettable = false\n{RING}", "dial-not-settable", "dial.settable"),
        (
            f'{WORM}[dial]\nmarks = 100\nclockwise = "decreases"\n{RING}',
            "dial-and-ring-run-opposite-ways",
            "dial.clockwise",
        ),
        (
            f"{WORM}[[plates]]\ncircles = [15, 16]\n[[plates]]\ncircles = [17, 16]\n{RING}",
            "circle-on-two-plates",
            "plates[1].circles[1]",
        ),
        (f"{WORM}[dial]\nmarks = 100\n", "no-ring", "ring"),
        (f"{WORM}[dial]\nmarks = 100\n[ring]\ngraduations = 72\n", "ring-too-coarse", "ring.read_to"),
    ],
)
def test_a_trap_is_found_where_it_is(toml: str, code: str, place: str) -> None:
    assert found(toml) == [(code, place)]


def test_a_ring_that_just_tells_the_turns_apart_is_no_finding() -> None:
    assert found(f"{WORM}[dial]\nmarks = 100\n[ring]\ngraduations = 73\n") == []
    assert found(f'{WORM}[dial]\nmarks = 100\n[ring]\ngraduations = 72\nread_to = "1/2"\n') == []


def test_every_code_is_told_on_the_page() -> None:
    page = (HOUSE / "docs/head-file.md").read_text(encoding="utf-8")
    source = (HOUSE / "src/crankwise/head/findings.py").read_text(encoding="utf-8")
    codes = [
        line.strip().strip('",')
        for line in source.splitlines()
        if line.strip().endswith('",') and "-" in line
    ]
    codes = [code for code in codes if code.replace("-", "").isalpha()]
    assert len(codes) == 11
    assert [code for code in codes if f"| `{code}` |" not in page] == []
