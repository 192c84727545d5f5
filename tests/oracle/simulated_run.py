"""Runs at a machine that goes wrong, played out in full: what really happened is known here.

A head and a number of parts are drawn, a run is worked up to some row, and one thing happens: a tap too
many or too few, a move made twice, a whole turn of the crank lost or made twice, a slip of the
spindle, the dial knocked, a power cut, a misreading. Then the scales are read, each out by a random
part of what it can be read to, and the question is put.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.worm import Worm
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.run.evidence import Evidence, Reading
from crankwise.run.journal import Entry, RunState, after, fresh_state
from crankwise.ways.dial import ways as dial_ways
from crankwise.ways.direct import ways as direct_ways
from crankwise.ways.plain import ways as plain_ways
from crankwise.ways.two_circle import ways as two_circle_ways
from crankwise.ways.way import ScaleWay, Way
from tests.oracle import where_am_i as oracle

EVENTS = (
    "nothing",
    "nothing",
    "moved on",
    "moved on",
    "a tap too many",
    "a move made twice",
    "a turn too few",
    "a turn too many",
    "slipped",
    "dial knocked",
    "misread",
    "elsewhere",
)


@dataclass
class Job:
    """A plan with its rows, ready to be run many times; and its scales as the oracle wants them."""

    plan: Plan
    rows: tuple[Row, ...]
    evidence: Evidence
    scales: dict[str, oracle.Scale]
    shown: list[dict[str, Fraction]]
    places: list[Fraction]
    past_the_end: dict[str, Fraction]


@dataclass
class Told:
    """One question at the machine, and what was really so."""

    job: Job
    event: str
    state: RunState
    journal: tuple[int | None, int | None, int | None]
    readings: list[Reading]
    set_to: int  # the row whose reading the crank was brought to
    stands_at: int | None  # the row at which it really stands; None between rows, by a whole turn out
    slip: Fraction  # how far the work stands ahead of what the head is set to
    misread: bool


def random_head(random: Random) -> Head:
    ring = None
    if random.random() < 0.85:
        graduations = random.choice([360, 360, 720, 180, 72])
        ring = Ring(graduations, Fraction(1, random.choice([1, 2, 4])))
    ratio = random.choice(
        [Fraction(40), Fraction(72), Fraction(90), Fraction(60), Fraction(45, 2), Fraction(5)]
    )
    kind = random.choice(["dial", "dial", "dial", "plates", "wheel"])
    falls = random.choice(["increases", "increases", "decreases"])
    if kind == "wheel":
        return Head("Trial", ring=ring, notched_wheels=(NotchedWheel(random.choice([24, 48, 60, 72, 96])),))
    if kind == "plates":
        return Head(
            "Trial",
            Worm(ratio),
            ring=ring,
            plates=(Plate((15, 16, 17, 18, 19, 20)), Plate((21, 23, 27, 29, 31))),
        )
    marks = random.choice([60, 100, 125, 240])
    dial = Dial(marks, Fraction(1, random.choice([1, 2, 5])), random.choice([0, 5, 10]))
    return Head(
        "Trial", Worm(ratio, clockwise="decreases" if falls == "decreases" else "increases"), dial, ring=ring
    )


def random_job(random: Random) -> Job:
    """Draw until a head can divide the number drawn; the way is any of the basic ones it has."""
    while True:
        head, divisions = random_head(random), EqualDivisions(random.randint(3, 60))
        found: list[Way] = [
            way for finder in (dial_ways, plain_ways, direct_ways) for way in finder(head, divisions)
        ]
        found = [way for way in found if way.method != "direct" or "wheel" in way.setup]
        if not found and head.plates:
            found = list[Way](two_circle_ways(head, divisions))[:3]
        if found:
            return job_of(Plan(Part(divisions), random.choice(found)))


def job_of(plan: Plan) -> Job:
    rows = schedule(plan)
    evidence = Evidence(plan, rows)
    head, way = plan.head, plan.way
    assert isinstance(way, ScaleWay)
    scales: dict[str, oracle.Scale] = {}
    past = way.again(rows[1].reached, 1)  # one move past the closing row, as the machine would stand
    assert past is not None
    met = [*(row.reached for row in rows), past]
    shown: list[dict[str, Fraction]] = [{} for _ in met]
    places = [reached.achieved for reached in met]
    if "wheel" in way.setup:
        notches = Fraction(way.scale.places)
        scales["notch"] = oracle.Scale(Fraction(1), notches, Fraction(0), 0)
        _show(shown, "notch", [place * notches % notches for place in places])
    elif "circles" in way.setup:
        circles = way.setup["circles"]
        assert isinstance(circles, tuple)
        for name, holes, which in zip(("hole", "back hole"), circles, (0, 1), strict=True):
            scales[name] = oracle.Scale(way.scale.ratio, Fraction(holes), Fraction(0), 0)
            _show(shown, name, [Fraction((one.setting.holes or ())[which]) % holes for one in met])
    else:
        dial = head.dial if way.method == "dial" else None
        full = Fraction(dial.marks if dial else way.scale.places)
        within = Fraction(1, 2 * dial.read_to.denominator) if dial else Fraction(0)
        name = "dial" if dial else "hole"
        scales[name] = oracle.Scale(way.scale.ratio, full, within, dial.numbered_every if dial else 0)
        _show(shown, name, [place * way.scale.ratio * full % full for place in places])
    if head.ring:
        sign = 1 if head.ring_grows else -1
        least = Fraction(head.ring.full_circle, head.ring.graduations) * head.ring.read_to
        full = Fraction(head.ring.full_circle)
        scales["ring"] = oracle.Scale(Fraction(sign), full, least / 2, 10)
        _show(shown, "ring", [sign * place * full % full for place in places])
    cranked = "wheel" not in way.setup
    return Job(plan, rows, evidence, scales, shown[:-1], places[:-1] if cranked else [], shown[-1])


def _show(shown: list[dict[str, Fraction]], name: str, values: list[Fraction]) -> None:
    for row, value in zip(shown, values, strict=True):
        row[name] = value


def questions(job: Job, random: Random, count: int) -> Iterator[Told]:
    """Play the run out several times."""
    for _ in range(count):
        yield question(job, random)


def question(job: Job, random: Random) -> Told:
    rows = len(job.rows)
    done = random.randint(1, rows - 1)
    state = after(fresh_state(job.rows), Entry("began", "began", 0.0))
    for row in range(done):
        shown = state
        state = after(state, Entry("done", f"d{row}", float(row), row, seen=shown.entries))
        if random.random() < 0.1:  # the same tap once more, or one from a page that is behind
            state = after(
                state, Entry("done", random.choice([f"d{row}", "late"]), 0.0, row, seen=shown.entries)
            )
    event = random.choice(EVENTS)
    at = done - 1  # the row done last, as the journal has it
    set_to = at
    slip, ahead, knocked = Fraction(0), Fraction(0), Fraction(0)
    ratio = job.plan.head.ratio
    if event == "moved on":
        set_to = at + 1
    elif event == "a tap too many":
        set_to = at - 1 if at else at
    elif event == "a move made twice":
        set_to = min(at + 2, rows - 1)
    elif event in ("a turn too few", "a turn too many") and ratio and job.places:
        set_to = at + 1
        ahead = (1 if event == "a turn too many" else -1) / ratio
    elif event == "slipped":
        slip = Fraction(random.choice([-1, 1]) * random.randint(1, 2000), 144_000)
        set_to = at + random.randint(0, 1)
    elif event == "dial knocked":
        knocked = Fraction(random.randint(1, 99), 100)
    elif event == "elsewhere":
        set_to = random.randrange(rows)
    misread = event == "misread"
    readings = _readings(job, random, set_to, ahead, slip, knocked, misread)
    stands: int | None = set_to
    if ahead:
        place = (job.rows[set_to].reached.achieved + ahead) % 1
        stands = next((row.index for row in job.rows if row.reached.achieved % 1 == place), None)
    to_do = state.at_row if state.at_row < rows else None
    journal = (state.last_done, to_do, done - 2 if done > 1 else None)
    return Told(job, event, state, journal, readings, set_to, stands, slip, misread)


def _readings(
    job: Job, random: Random, stands: int, ahead: Fraction, slip: Fraction, knocked: Fraction, misread: bool
) -> list[Reading]:
    names = list(job.scales)
    if "ring" in names and random.random() < 0.2:
        names.remove("ring")
    wrong = random.choice(names) if misread else None
    found = []
    for name in names:
        scale = job.scales[name]
        value = job.shown[stands][name]
        if name == "ring":
            value += scale.turns * scale.full * (ahead + slip)
        elif knocked:
            value += knocked * scale.full if scale.within else Fraction(int(knocked * scale.full))
        if name == wrong:
            value = _grossly(scale, value % scale.full, random)
        if scale.within:
            value += scale.within * Fraction(random.randint(-50, 50), 50)
        found.append(job.evidence.reading(name, value % scale.full))
    return found


def _grossly(scale: oracle.Scale, value: Fraction, random: Random) -> Fraction:
    interval = scale.numerals or (0 if scale.within else 1)
    if not interval:
        return value
    if scale.numerals and random.random() < 0.3:
        lower = value // interval * interval
        return 2 * lower + interval - value
    return value + random.choice([-1, 1]) * interval
