"""The traps as they are read aloud."""

import pytest

from crankwise.part.divisions import EqualDivisions
from crankwise.ways.traps import traps
from crankwise.wording.traps import trap_text
from tests.gear import BENCH_HEAD, PLATE_HEAD, head, worm_head


def told(gear_toml: str, count: int) -> dict[str, str]:
    return {trap.code: trap_text(trap) for trap in traps(head(gear_toml), EqualDivisions(count))}


def test_57_on_the_plate_head() -> None:
    assert told(PLATE_HEAD, 57) == {
        "missing-factor": (
            "57 is 3 x 19, no prime. One part is 40/57 of a turn of the crank, so a circle must have 57 holes or a "
            "multiple of it; each of its factors is on some circle here, but no circle has them all."
        ),
        "row-needs-gears": (
            "A chart's row for 57 that names change gears must not be used without them. Used plain, such settings "
            "cut other numbers: 56 by 15/21 or 35/49; 58 by 20/29; 55 by 24/33; 54 by 20/27; "
            "60 by 10/15, 12/18, 14/21, 18/27, 22/33 or 26/39."
        ),
    }


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (127, "127 is a prime. One part is 40/127 of a turn of the crank, "),
        (127, "no circle here has the factor 127; 127 holes are more than a plate takes."),
        (
            106,
            "106 is 2 x 53, no prime. One part is 20/53 of a turn of the crank, so a circle must have 53 holes",
        ),
    ],
)
def test_a_missing_factor_is_named(count: int, words: str) -> None:
    assert words in told(PLATE_HEAD, count)["missing-factor"]


def test_a_hole_miscounted() -> None:
    assert told(PLATE_HEAD, 60)["near-miss"] == (
        "One hole miscounted makes another whole number: 15 holes on the 21 cut 56, not 60. "
        "Count the spaces; the hole that the pin stands in is nought."
    )
    assert "1 turn and 1 hole on the 19 cut 38" in told(PLATE_HEAD, 40)["near-miss"]


def test_a_worm_taken_for_another() -> None:
    two = 'name = "x"\n[worm]\nwheel_teeth = 40\nstarts = 2\n[dial]\nmarks = 100\n'
    assert told(two, 60)["worm-starts"] == (
        "This worm has 2 starts: the ratio is 20:1, not 40:1. A setting for 60 from a chart for 40:1 cuts 30 here. "
        "Turn the crank 20 times and see that the spindle comes round once."
    )
    (one,) = traps(worm_head("20", "[dial]\nmarks = 100\n"), EqualDivisions(60))
    assert "If this worm has one start after all, the settings here cut 120." in trap_text(one)


def test_a_ring_is_set_by_eye() -> None:
    assert told(BENCH_HEAD, 60)["set-by-eye"] == (
        "The ring's graduations meet every position, and the ring is set by eye: read to 30', it can leave each of "
        "them up to 15' out. The dial is read to 1'30.0\": for close work choose a way that sets by it."
    )
    assert told(f"{PLATE_HEAD}[ring]\ngraduations = 360\n", 60)["set-by-eye"].endswith(
        "read to 1°, it can leave each of them up to 30' out. A pin in a hole leaves that to no eye: "
        "for close work choose a way on a circle of holes."
    )
