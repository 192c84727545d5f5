"""The worm and its wheel."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.worm import Worm, worm_from_teeth


@pytest.mark.parametrize(
    ("teeth", "starts", "ratio"), [(72, 1, "72"), (40, 2, "20"), (45, 2, "45/2"), (1, 1, "1")]
)
def test_the_ratio_is_teeth_over_starts(teeth: int, starts: int, ratio: str) -> None:
    assert worm_from_teeth(teeth, starts).ratio == Fraction(ratio)


@pytest.mark.parametrize(("ratio", "told"), [("0", "0"), ("-40", "-40"), ("1000001", "1000001")])
def test_a_ratio_is_above_nought_and_can_be_believed(ratio: str, told: str) -> None:
    with pytest.raises(FaultsFound) as found:
        Worm(Fraction(ratio))
    assert str(found.value) == f"ratio: {told}; a ratio is above 0 and at most 1,000,000, as 40 or 45/2"


def test_both_counts_are_told_when_both_are_wrong() -> None:
    with pytest.raises(FaultsFound) as found:
        worm_from_teeth(0, -1)
    assert found.value.lines() == (
        "wheel_teeth: 0; a worm wheel has 1 or more",
        "starts: -1 starts; a worm has 1 or more",
    )


def test_a_ratio_agrees_with_the_teeth_beside_it() -> None:
    with pytest.raises(FaultsFound) as found:
        Worm(Fraction(40), wheel_teeth=72, starts=1)
    assert str(found.value) == "ratio: 40; a wheel of 72 teeth and a worm of 1 start make 72"
