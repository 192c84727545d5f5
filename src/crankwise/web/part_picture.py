"""The picture of a job's part, drawn once for each position under the tool; and where the newest run has the tool."""

from collections.abc import Iterable
from functools import lru_cache

from crankwise.plan.schedule import Row
from crankwise.run.in_hand import in_hand
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.picture import picture_of
from crankwise.tasks.workshop import Asked, KeptRun


@lru_cache(32)
def part_picture(asked: Asked, position: int | None = None) -> str:
    """Return the picture of what was asked for. Raises BadDivisions.

    position  the one under the tool, as it is numbered in a run; None for no tool
    """
    made = job_made(asked)
    divisions = made.part.divisions
    # The closing row meets the first position again, under a number of its own.
    return picture_of(made, divisions.numbers[0] if position == divisions.closing_number else position)


def row_under_the_tool(runs: Iterable[KeptRun]) -> Row | None:
    """Return the row in hand of the first of these runs that is begun and not finished; None where none is."""
    for run in runs:
        now = in_hand(run.plan, run.rows, run.state) if run.state.began else None
        if now is not None:
            return now.row
    return None
