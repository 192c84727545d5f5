"""The order of the ways: for any head and any tolerance."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways import dial, direct, nearest_hole, plain, ring
from crankwise.ways.ranking import is_within, ranked
from crankwise.ways.way import Way
from tests.laws.gear import divisions, heads

tolerances = st.one_of(st.none(), st.fractions(0, Fraction(1, 100), max_denominator=10**6))


def basic_ways(head: Head, wanted: Divisions) -> list[Way]:
    return [way for ways in (direct, plain, dial, nearest_hole, ring) for way in ways.ways(head, wanted)]


@given(heads(), divisions, tolerances)
def test_the_order_of_the_ways(head: Head, wanted: Divisions, tolerance: Fraction | None) -> None:
    found = basic_ways(head, wanted)
    order = ranked(found, tolerance)
    assert sorted(map(id, order)) == sorted(map(id, found))  # none lost, none twice
    for better, worse in pairwise(order):
        # those within the tolerance come first ...
        assert is_within(better, tolerance) or not is_within(worse, tolerance)
        if is_within(better, tolerance) and is_within(worse, tolerance):
            # ... the simplest of them first, and of equally simple ones the truest
            assert better.burden.total <= worse.burden.total
            if better.burden.total == worse.burden.total:
                assert better.worst_error <= worse.worst_error
        elif not is_within(better, tolerance):
            # and outside it the truest, and of equally true ones the simplest
            assert better.worst_error <= worse.worst_error
            if better.worst_error == worse.worst_error:
                assert better.burden.total <= worse.burden.total


@given(heads(), divisions, tolerances)
def test_the_order_does_not_hang_on_how_they_were_found(
    head: Head, wanted: Divisions, tolerance: Fraction | None
) -> None:
    found = basic_ways(head, wanted)
    onward, back = ranked(found, tolerance), ranked(found[::-1], tolerance)
    assert [(way.burden.total, way.worst_error) for way in onward] == [
        (way.burden.total, way.worst_error) for way in back
    ]


@given(heads(), divisions)
def test_a_wider_tolerance_loses_none_that_was_within(head: Head, wanted: Divisions) -> None:
    for way in basic_ways(head, wanted):
        assert is_within(way, way.worst_error)
        assert not is_within(way, way.worst_error - Fraction(1, 10**9)) or way.exact
        assert is_within(way, None) == way.exact


@given(heads(), divisions)
def test_every_way_has_a_key_of_its_own(head: Head, wanted: Divisions) -> None:
    keys = [way.key for way in basic_ways(head, wanted)]
    assert len(set(keys)) == len(keys)
