"""Every cause has a line that says what to do in the shop; a size that is only thought is measured first."""

from fractions import Fraction

import pytest

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Advice
from crankwise.accuracy.cause_kinds import CALIBRATION, FURTHER_WAVES, KINDS, ROUNDING, size_of
from crankwise.accuracy.sources import SizedCause
from crankwise.wording.accuracy import CAUSES
from crankwise.wording.cures import DO, do_text, how_text


def advice(name: str, size: str, known_from: str = "head file") -> Advice:
    kind = KINDS[name]
    return Advice(SizedCause(kind, size_of(*kind.typical), known_from), Fraction(size), Bounds(1, 2), None)


def test_every_cause_has_its_line() -> None:
    assert set(DO) == set(CAUSES) == {ROUNDING, CALIBRATION.name, FURTHER_WAVES.name, *KINDS}
    for name in CAUSES:
        line = do_text(name)
        assert line[0].islower()
        assert not line.endswith(".")
        assert len(line) > len(CAUSES[name].cure)


def test_what_is_only_typical_is_measured_first() -> None:
    guessed = how_text(advice("worm", "5", "typical"), CAUSES["worm"].measure)
    assert guessed.startswith(
        "its size is only what is typical, so measure it first: eight or more points within one turn"
    )
    assert how_text(advice("worm", "5"), CAUSES["worm"].measure) == do_text("worm")
    assert how_text(advice("tool", "0.001", "typical"), CAUSES["tool"].measure) == do_text("tool")


@pytest.mark.parametrize(
    ("size", "told"),
    [
        ("0.02", "hold it in a collet, or clock it in the chuck"),
        ("0.01", "hold it on a true arbor"),
        ("0.005", "turn rim and bore on the arbor that it is cut on"),
        ("0.0025", "turn the blank where it is cut and do not take it off"),
    ],
)
def test_the_nearer_the_work_must_be_the_truer_it_is_held(size: str, told: str) -> None:
    assert how_text(advice("work-off-centre", size), "").startswith(told)
