"""What a way is called, and its set-up in the operator's words."""

import pytest

from crankwise.exact.angle import read_angles
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import planned
from crankwise.wording.ways import METHODS, method_name, setup_text
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head
from tests.ways.test_registry import METHODS as ALL_METHODS


@pytest.mark.parametrize(
    ("toml", "count", "key", "name", "setup"),
    [
        (BULL_WHEEL, 60, None, "Direct indexing", "60-notch wheel, 1 notch each move"),
        (
            BENCH_HEAD,
            360,
            "direct:ring=360:graduations=1",
            "Direct indexing",
            "ring of 360, 1 graduation each move",
        ),
        (
            PLATE_HEAD,
            7,
            "plain:circle=49:turns=5:holes=35",
            "Plain indexing",
            "49 circle, 5 turns and 35 holes each move",
        ),
        (
            PLATE_HEAD,
            41,
            "plain:circle=41:turns=0:holes=40",
            "Plain indexing",
            "41 circle, 40 holes each move",
        ),
        (
            PLATE_HEAD,
            38,
            "plain:circle=19:turns=1:holes=1",
            "Plain indexing",
            "19 circle, 1 turn and 1 hole each move",
        ),
        (PLATE_HEAD, 40, None, "Plain indexing", "any circle, 1 whole turn each move"),
        (PLATE_HEAD, 127, "nearest-hole:circle=49", "Nearest hole of one circle", "49 circle"),
        (
            BENCH_HEAD,
            127,
            "dial",
            "Dial, nearest reading",
            "from the list, each reading counted from the start",
        ),
        (BENCH_HEAD, 127, "ring:ring=360", "Ring, nearest reading", "ring of 360"),
    ],
)
def test_a_way_is_told_in_the_operators_words(
    toml: str, count: int, key: str | None, name: str, setup: str
) -> None:
    plan = planned(head(toml), Part(EqualDivisions(count)), key)
    assert plan is not None
    assert (method_name(plan.way), setup_text(plan.way)) == (name, setup)


def test_a_list_has_no_move_to_tell() -> None:
    plan = planned(head(BULL_WHEEL), Part(AngleList(read_angles("0, 6, 18"))))
    assert plan is not None
    assert setup_text(plan.way) == "60-notch wheel"


def test_every_method_that_is_found_has_its_name() -> None:
    methods = {
        vars(module_class)["method"]
        for method in ALL_METHODS
        for module_class in vars(method).values()
        if isinstance(module_class, type) and "method" in vars(module_class)
    }
    assert methods <= METHODS.keys()
    assert {"direct", "plain", "dial", "nearest-hole", "ring"} <= methods
