"""No fault that a run promises to show outlives the promise, and no check finds fault where there is none."""

from collections import Counter
from random import Random

from tests.oracle.hidden_faults import hidden_fault
from tests.oracle.simulated_run import random_job


def test_no_fault_outlives_the_promise_and_none_is_invented() -> None:
    random = Random(1)
    seen: Counter[str] = Counter()
    for _ in range(150):
        found = hidden_fault(random_job(random), random)
        if found is not None:
            assert found.alarms == 0
            assert found.worked is not None, found.event
            assert found.worked <= found.promised
            seen[found.event] += 1
    assert set(seen) == {"one short", "one over", "turn short", "turn over", "slip"}
