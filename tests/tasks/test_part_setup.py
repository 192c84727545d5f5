"""What is set on the machine for a kind of part stands at the head of its sheet."""

import pytest

from crankwise.tasks.part_kinds import made_of

PLATE = {"plate": "15,16,17", "circle": "110mm", "hole": "2.5mm", "apart": "7mm"}


@pytest.mark.parametrize(
    ("kind", "typed", "setup"),
    [
        (
            "splines",
            {"size": "6x23x26"},
            {
                "circuit 1, side of the cutter off centre": "3.000 mm (0.1181 in); cutter to the right of the key, "
                "its left side set so; all positions",
                "circuit 2, side of the cutter off centre": "3.000 mm (0.1181 in); cutter to the left of the key, "
                "its right side set so; all positions",
                "infeed for the sides": "1.898 mm (0.0747 in); from a touch on the top of the shaft",
            },
        ),
        (
            "splines",
            {"size": "6x23x26", "which": "2"},
            {
                "circuit 3, the floors": "30.0000° (30°0'0\"); half a division on, cutter on centre",
                "infeed for the floors": "1.500 mm (0.0591 in); from a touch on the top of the shaft",
            },
        ),
        (
            "holes",
            PLATE | {"which": "2"},
            {
                "circle 2 (16 holes)": "offset from the centre: 48.000 mm (1.8898 in); move the table so far along "
                "one slide, and lock it",
                "all circles": "hole: 2.500 mm (0.0984 in)",
            },
        ),
        ("spur", {"teeth": "20", "module": "1"}, {}),
    ],
)
def test_the_head_of_the_sheet_has_what_this_run_is_set_to(
    kind: str, typed: dict[str, str], setup: dict[str, str]
) -> None:
    made = made_of(kind, typed).setup
    assert dict(text.split(": ", 1) for _, text in made) == setup
    assert [name for name, _ in made] == ["Set up", *[""] * (len(setup) - 1)][: len(setup)]


@pytest.mark.parametrize(
    ("kind", "typed", "names"),
    [
        ("worm-wheel", {"teeth": "72", "dp": "24", "worm": "5/8in"}, ["tilt of the head", "gash depth"]),
        (
            "ratchet",
            {"teeth": "24", "outside": "50mm", "depth": "3mm", "undercut": "5"},
            ["cutter", "straight side past the centre", "infeed"],
        ),
        (
            "bevel",
            {"teeth": "24", "mate": "36", "dp": "10", "face": "0.7in"},
            [
                "root cone angle",
                "second circuit, table off centre by",
                "and the blank rolled by",
                "third circuit",
            ],
        ),
        ("holes", {"count": "7", "circle": "60mm"}, ["offset from the centre"]),
    ],
)
def test_what_is_set_is_told_in_the_order_of_work(kind: str, typed: dict[str, str], names: list[str]) -> None:
    assert [text.split(":")[0] for _, text in made_of(kind, typed).setup] == names


def test_a_wheel_asked_in_inches_has_its_inches_first() -> None:
    typed = {"teeth": "72", "dp": "24", "worm": "5/8in"}
    assert "gash depth: 0.0825 in (2.096 mm)" in made_of("worm-wheel", typed).setup[1][1]
