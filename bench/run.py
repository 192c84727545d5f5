"""Ten thousand runs that go wrong: where the machine stands is named right, and no fault outlives the promise.

A proof more than a speed: the first ratios are of what went wrong to what may, and must be 0 or within
the odds that are promised. The last is what one answer takes beside one schedule of the same run.
"""

from collections import Counter
from random import Random
from time import process_time

from bench.measured import Measured
from crankwise.plan.schedule import schedule
from crankwise.run.odds import SURE
from crankwise.run.where_am_i import where_am_i
from tests.oracle.hidden_faults import hidden_fault
from tests.oracle.simulated_run import question, random_job
from tests.oracle.test_where_am_i import check

QUESTIONS = 10_000
QUESTIONS_A_JOB = 10
SEED = 20_260


def measure() -> list[Measured]:
    """Return how often the position was named wrong, and how often a fault outlived the promise."""
    random = Random(SEED)
    came_to: Counter[str] = Counter()
    hidden = outlived = 0
    asked = planned = 0.0
    started = process_time()
    for _ in range(QUESTIONS // QUESTIONS_A_JOB):
        job = random_job(random)
        told = [question(job, random) for _ in range(QUESTIONS_A_JOB)]
        came_to.update(map(check, told))
        begun = process_time()
        where_am_i(job.evidence, told[0].readings, told[0].state)
        asked += process_time() - begun
        begun = process_time()
        schedule(job.plan)
        planned += process_time() - begun
        fault = hidden_fault(job, random)
        if fault is not None:
            hidden += 1
            outlived += fault.worked is None or fault.worked > fault.promised or fault.alarms > 0
    right = came_to["named right"]
    wrong = sum(count for what, count in came_to.items() if what.startswith("named wrong"))
    spent = process_time() - started
    return [
        Measured(
            "positions named wrong, of those named",
            wrong / (right + wrong),
            float(1 - SURE),
            f"{QUESTIONS} questions, all with the odds of the exhaustive answer; {right} named right, {wrong} wrong; "
            f"{spent:.0f} s",
        ),
        Measured(
            "faults that outlived the promise, of those promised", outlived / hidden, 0.0, f"{hidden} faults"
        ),
        Measured(
            "where am I, against the schedule of the same run", asked / planned, 10.0, "CPU time, in sum"
        ),
    ]
