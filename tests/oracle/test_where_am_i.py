"""Where am I, against the exhaustive answer: the same odds to the last digit, and the truth when it can be known."""

from collections import Counter
from fractions import Fraction
from random import Random

import pytest

from crankwise.run.odds import SURE
from crankwise.run.where_am_i import WhereAmI, where_am_i
from tests.oracle import where_am_i as oracle
from tests.oracle.simulated_run import Told, question, random_job

JOBS, QUESTIONS = 120, 3


def exhaustive(told: Told) -> oracle.Answer:
    read = {reading.scale.name: reading.value for reading in told.readings}
    scales = {name: told.job.scales[name] for name in read}
    return oracle.posterior(scales, told.job.shown, read, told.journal, told.job.places)


def check(told: Told) -> str:
    """Hold one answer against the exhaustive one and against the truth; return what it came to."""
    job = told.job
    found = where_am_i(job.evidence, told.readings, told.state)
    listed = exhaustive(told)
    surest = _by_place(told, listed.rows)
    for candidate in found.candidates:
        assert candidate.odds == surest[job.rows[candidate.row].reached.achieved % 1]
    assert sum(candidate.odds for candidate in found.candidates if candidate.agrees) <= 1
    if found.off_a_row:
        assert found.off_a_row.odds == listed.off_a_row
    for slip in found.slips:
        odds = listed.spindle if slip.joint == "spindle" else listed.dial
        alike = [row for row, shown in enumerate(job.shown) if _read_alike(told, shown, job.shown[slip.row])]
        assert slip.odds == sum(odds[row] for row in alike)
    best_place, best = max(surest.items(), key=lambda item: item[1])
    # The position is named exactly when the readings allow it to be known.
    assert (found.row is not None) == (best >= SURE)
    if found.row is not None:
        assert job.rows[found.row].reached.achieved % 1 == best_place
    agree = {
        row.index
        for row in job.rows
        if all(
            oracle.distance(job.scales[one.scale.name], one.value, job.shown[row.index][one.scale.name])
            <= one.scale.within
            for one in told.readings
        )
    }
    # Every position that agrees is told, and no other is said to agree.
    assert {row for one in found.candidates if one.agrees for row in one.alike} == agree
    assert found.none_agrees == (not agree)
    return _held_against_the_truth(told, found)


def _read_alike(told: Told, one: dict[str, Fraction], other: dict[str, Fraction]) -> bool:
    return all(one[reading.scale.name] == other[reading.scale.name] for reading in told.readings)


def _by_place(told: Told, odds: list[Fraction]) -> dict[Fraction, Fraction]:
    places: dict[Fraction, Fraction] = {}
    for row in told.job.rows:
        place = row.reached.achieved % 1
        places[place] = places.get(place, Fraction(0)) + odds[row.index]
    return places


def _held_against_the_truth(told: Told, found: WhereAmI) -> str:
    if found.row is None:
        return found.verdict
    rows = told.job.rows
    stands = told.stands_at if found.turn_shown else told.set_to
    if stands is not None and rows[stands].reached.achieved % 1 == rows[found.row].reached.achieved % 1:
        return "named right"
    return f"named wrong: {told.event}"


@pytest.mark.parametrize("seed", range(4))
def test_the_position_is_named_when_it_can_be_known_and_only_then(seed: int) -> None:
    random = Random(seed)
    came_to: Counter[str] = Counter()
    for _ in range(JOBS // 4):
        job = random_job(random)
        came_to.update(check(question(job, random)) for _ in range(QUESTIONS))
    wrong = {what: count for what, count in came_to.items() if what.startswith("named wrong")}
    assert sum(wrong.values()) <= came_to["named right"] * (1 - SURE) + 1, wrong
    assert came_to["named right"] > 30
    assert came_to["cannot tell"] > 0
