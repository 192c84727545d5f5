"""A slip too small for the ring is always seen at the next return to the first line; nothing else alarms."""

from random import Random

from tests.oracle.hidden_slips import hidden_slip

RUNS = 400


def test_a_slip_too_small_for_the_ring_is_seen_at_the_next_return_that_is_looked_at() -> None:
    random = Random(251)
    found = [hidden_slip(random) for _ in range(RUNS)]

    assert sum(one.alarms for one in found) == 0, "as near as it is seen, a good line is never said to be off"
    assert sum(one.rings for one in found) == 0, "the ring sees none of it"
    assert all(one.worked is not None for one in found), "no slip outlives its run"
    assert all(one.returned == 1 for one in found), "the first look after it shows it"
    for one in found:
        assert one.worked is not None
        assert set(one.worked) <= set(one.suspect), "every row worked after it is in doubt"
        assert one.suspect == tuple(range(one.suspect[0], one.suspect[-1] + 1)), "and they are told in order"
