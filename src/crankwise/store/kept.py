"""The things that are kept, as values."""

from dataclasses import dataclass

from crankwise.head.head import Head
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.guide import Guide
from crankwise.run.journal import RunState
from crankwise.run.watch import Watch


@dataclass(frozen=True, slots=True)
class KeptHead:
    """A head owned.

    is_demo  whether it came with the demo workshop
    """

    id: int
    head: Head
    is_demo: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed for a job, as it was typed; an empty text where nothing was.

    count                divisions; empty with a list of angles
    angles               a list of angles instead of a count
    start                angle of position 0 from the start
    first, last, every   which of the positions are worked
    rim                  diameter at which errors are told as lengths
    within               the tolerance
    work                 what is made at each position: one of `crankwise.part.part.WORKS`
    part                 a part of some kind instead of all but the tolerance, as the text of a job file
    """

    count: str = ""
    angles: str = ""
    start: str = ""
    first: str = ""
    last: str = ""
    every: str = ""
    rim: str = ""
    within: str = ""
    work: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True)
class KeptJob:
    """A job: what is to be made, and the way chosen to divide it.

    head_id  the head it was planned on; None once that head is dropped. The plan has its own copy
    asked    what was typed, to fill the form again
    run_ids  its runs, the oldest first
    """

    id: int
    name: str
    head_id: int | None
    plan: Plan
    asked: Asked
    is_demo: bool
    run_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class TypedMeasurement:
    """What was measured of a part, as it was typed; an empty text where nothing was.

    column    what the readings are where they name nothing themselves: pitch_um, size_in ...
    readings  below one another, in order round the part, or the text of a CSV file
    of        the line of the measuring card that was measured
    rim       diameter at which errors are told as lengths, of a part that names none
    pins      diameter of the pins over which distances of holes were measured
    wanted    what sizes should be
    piece     number or mark of the piece that was measured, where a job makes several
    """

    column: str = ""
    readings: str = ""
    of: str = ""
    rim: str = ""
    pins: str = ""
    wanted: str = ""
    piece: str = ""


@dataclass(frozen=True, slots=True)
class KeptMeasurement:
    """A finished part as it was measured.

    run_id  the run that made it; None where that was not said, or the run is gone
    plan    how it was divided, as it was when it was kept
    date    of the measurement, as 2026-03-14
    """

    id: int
    job_id: int
    run_id: int | None
    plan: Plan
    typed: TypedMeasurement
    date: str
    note: str


@dataclass(frozen=True, slots=True)
class KeptRun:
    """A run of a job.

    plan      as it was when the run was made: editing the head or the job later never changes it
    rows      its schedule, over all passes of the run
    state     where the run stands: the fold of its journal
    guide     what to show now
    identity  names this run, its plan and every setting of it, among all runs of all stores
    watch     what its scales show, and where it asks for a reading
    """

    id: int
    job_id: int
    job_name: str
    plan: Plan
    rows: tuple[Row, ...]
    state: RunState
    guide: Guide
    is_demo: bool
    identity: str
    watch: Watch
