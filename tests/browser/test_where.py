"""Where a phone says that the machine stands, held to where the workshop says: the same verdict, odds and words."""

import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import pytest

from crankwise.exact.number import as_text
from crankwise.part.divisions import MOST_ALONG_MM, EqualDivisions, EqualSteps
from crankwise.part.part import Part
from crankwise.plan.passes import Passes, rough_then_finish
from crankwise.plan.plan import Plan
from crankwise.run.catch_up import steps_to
from crankwise.run.evidence import Evidence, Readable, Reading
from crankwise.run.faults import Explanation, explain
from crankwise.run.gear_at_hand import gear_at
from crankwise.run.journal import RunState
from crankwise.run.set_on import set_on
from crankwise.run.slips import residue_of, turns_a_unit
from crankwise.run.state import NO_SLIP
from crankwise.run.watch import Watch
from crankwise.run.where_am_i import WhereAmI, where_am_i
from crankwise.tasks.run_answer import entry_answer
from crankwise.tasks.where_told import where_told, where_words
from crankwise.ways.search import find_ways
from crankwise.wording.run_faults import fault_text
from crankwise.wording.run_page import left_at
from crankwise.wording.run_where import RE_ANCHOR, START_OVER, where_text
from crankwise.wording.sheet_cells import row_label
from tests.browser.conftest import Opened
from tests.browser.serving import Server
from tests.browser.test_card_figures import FALLING_RING
from tests.gear import MILL_TABLE, head
from tests.run.machine import AtTheMachine
from tests.run.test_evidence import HEADS, first_of_each_method

pytestmark = pytest.mark.browser

QUESTIONS = 16
MOST_FAULTS = 2
MOST = Fraction(MOST_ALONG_MM)
TWO_PASSES = rough_then_finish(Fraction(1), Fraction(3, 2))
ONE: Passes = TWO_PASSES[:1]

ASK = """
async (jobs) => {
  const { freshState, replayed } = await import("/static/run_engine.js");
  const { Evidence } = await import("/static/run_evidence.js");
  const { exactOf, textOf } = await import("/static/run_ring.js");
  const { faultsOf, stepsTo, whereAmI } = await import("/static/run_where.js");
  const { WhereWords } = await import("/static/run_where_words.js");
  const plain = (one) => one === null || typeof one !== "object" ? one
    : typeof one.top === "bigint" ? textOf(one)
    : Array.isArray(one) ? one.map(plain)
    : Object.fromEntries(Object.entries(one).map(([key, value]) => [key, plain(value)]));
  return jobs.map(({ told, words, rows, gates, questions }) => {
    const saying = new WhereWords({ told: { row_count: rows.length }, row: (index) => rows[index] }, words, told);
    return questions.map(({ journal, moved, read }) => {
      const evidence = new Evidence(told, moved);
      const state = replayed(freshState(rows.length, gates), journal);
      const readings = read.map(([name, value, near]) => evidence.reading(name, exactOf(value), near && exactOf(near)));
      const found = whereAmI(evidence, readings, state);
      const off = found.verdict === "off a row" ? found.off_a_row : null;
      const faults = off ? faultsOf(evidence, off) : [];
      const steps = found.row === null ? null : stepsTo(state, found.row, String, 0);
      return plain({
        ...found,
        said: saying.sentences(found),
        faults,
        faults_said: off ? saying.faults(faults, off.row) : [],
        steps: steps && steps.map(({ kind, row }) => [kind, row]),
        shown: saying.shownAt(evidence, rows.length - 1),
      });
    });
  });
}
"""


@dataclass
class Job:
    """A run, as a card was told of it, and what is asked on the card since: journals, and what was read."""

    told: dict[str, Any]
    run: AtTheMachine
    watch: Watch
    asked: list[tuple[RunState, list[dict[str, Any]], list[Reading]]] = field(default_factory=list)

    def given(self) -> dict[str, Any]:
        """Return the job as the browser takes it."""
        part, zero = self.run.plan.part, Fraction(self.told["anchor"]["ring"])
        return {
            "told": self.told,
            "words": where_words(self.run.plan),
            "gates": list(self.run.start.gates),
            "rows": [
                {"position": row_label(part, row), "set_on": set_on(row.reached.setting)}
                for row in self.run.rows
            ],
            "questions": [
                {
                    "journal": journal,
                    "moved": as_text(state.anchor.ring - zero),
                    "read": [
                        [one.scale.name, as_text(one.value), as_text(one.scale.within)] for one in readings
                    ],
                }
                for state, journal, readings in self.asked
            ],
        }


def plans() -> Iterator[tuple[Plan, Passes]]:
    """Yield a run of every way there is, some of two passes, and along a slide."""
    for name, one in HEADS.items():
        for plan in first_of_each_method(one):
            yield plan, ONE
        if name != "stepper":
            first = first_of_each_method(one)[0]
            yield first, TWO_PASSES
    steps = EqualSteps(40, Fraction("3.1416"))
    yield Plan(Part(steps), next(iter(find_ways(head(MILL_TABLE), steps)))), ONE
    seventy_seven = EqualDivisions(77)
    for way in find_ways(head(FALLING_RING), seventy_seven):
        yield Plan(Part(seventy_seven), way), ONE


def worked(chance: random.Random, run: AtTheMachine, is_told: bool) -> None:
    """Work a run to some row: rings read, rows passed over and come back to, a return, and before a card a slip."""
    last = len(run.rows)
    if not run.state.began:
        ahead = chance.choice([None, None, Fraction(chance.randint(-359, 359), 360)])
        run.tap("began", numbers_grow=True, angle=ahead)
    for _ in range(chance.choice([0, 1, 2, 5, 20, last])):
        row = run.state.at_row
        if row >= last:
            return
        kind = chance.random()
        shown = run.evidence.shown[row].get("ring") if kind < 0.1 else None
        if shown is not None:
            run.tap("ring", row, reading=shown + chance.choice([0, 0, 5]))
        elif kind < 0.15:
            run.tap("skipped", row)
        elif kind < 0.2 and run.state.trail:
            run.tap("back", run.state.trail[-1].row)
        elif kind < 0.23:
            run.tap("returned", row, angle=Fraction(0))
        elif kind < 0.25 and is_told:
            run.tap("slipped", row, angle=Fraction(1, 777), joint=chance.choice(["spindle", "work"]))
        run.tap("done", run.state.at_row)


def read(chance: random.Random, evidence: Evidence, state: RunState) -> list[Reading]:
    """Return what may be read of a run that goes well or wrong, each scale out by what it can be read to."""
    row = chance.randrange(len(evidence.rows))
    if chance.random() < 0.8:
        row = min(state.at_row + chance.choice([-1, -1, 0, 0, 1]), len(evidence.rows) - 1) % len(
            evidence.rows
        )
    wrong = chance.choice(
        ["", "", "turn", "set", "set", "set", "slip", "scale", "numeral", "backwards", "any"]
    )
    ahead = _out(chance, evidence, row) if wrong == "set" else Fraction(0)
    ratio = evidence.plan.way.crank_ratio
    if wrong == "turn" and ratio:
        ahead = Fraction(chance.choice([-2, -1, 1, 1])) / ratio
    slip = Fraction(chance.randint(-400, 400), 36000) if wrong == "slip" else Fraction(0)
    found = []
    for scale in evidence.readable:
        value = evidence.shown[row].get(scale.name, Fraction(chance.randrange(scale.full)))
        unit = turns_a_unit(evidence, scale.name, scale.full)
        if scale.name == "measured":
            value += ahead * scale.full
        elif unit and (wrong != "turn" or scale.name == "ring"):
            value += (ahead + slip * (scale.name == "ring")) / unit
        if wrong == "scale" and scale.name != "ring":
            value += chance.randint(1, scale.full)
        if wrong == "numeral" and chance.random() < 0.5:
            value += (scale.numbered_every or 1) * chance.choice([-1, 1])
        if wrong == "backwards" and scale.numbered_every:
            value = 2 * (value // scale.numbered_every * scale.numbered_every) + scale.numbered_every - value
        if wrong == "any":
            value = Fraction(chance.randrange(scale.full if scale.name != "measured" else 500))
        within = _near(chance, scale)
        value = value + within * chance.randint(-50, 50) / 50 if scale.within else Fraction(round(value))
        if chance.random() < 0.9:
            value = min(max(Fraction(0), value), MOST) if scale.name == "measured" else value % scale.full
            found.append(evidence.reading(scale.name, value, within))
    return found


def _out(chance: random.Random, evidence: Evidence, row: int) -> Fraction:
    """Return how far the machine may be set off a row by a blunder of which nothing has slipped."""
    gear = gear_at(evidence.plan, evidence.rows, row)
    sizes = [gear.part, gear.move, *gear.holes, *(times * row for times in gear.holes), *gear.notches]
    sizes += [gear.mark * gear.interval * 3 if gear.mark and gear.interval else None]
    sizes += [gear.mark * gear.interval if gear.mark and gear.interval else None]
    return chance.choice([-1, 1]) * (chance.choice([one for one in sizes if one] or [Fraction(1, 360)]))


def _near(chance: random.Random, scale: Readable) -> Fraction:
    factors = [Fraction(2), Fraction(4), Fraction(1, 3)]
    return scale.within * chance.choice(factors) if chance.random() < 0.2 else scale.within


def jobs(chance: random.Random) -> Iterator[Job]:
    for number, (plan, passes) in enumerate(plans()):
        before = AtTheMachine(plan, passes)
        if number % 3:
            worked(chance, before, True)
        watch = Watch(plan, before.rows)
        at = before.state.anchor if before.state.began else NO_SLIP
        one = Job(where_told(watch, at), before, watch)
        for _ in range(QUESTIONS):
            run = AtTheMachine(plan, passes)
            run.journal, run.state, run.at = list(before.journal), before.state, before.at
            worked(chance, run, False)
            evidence = watch.evidence(run.state.anchor)
            journal = [entry_answer(entry) for entry in run.journal]
            one.asked.append((run.state, journal, read(chance, evidence, run.state)))
        yield one


def expected(job: Job, state: RunState, readings: list[Reading]) -> tuple[WhereAmI, dict[str, Any]]:
    plan, rows = job.run.plan, job.run.rows
    evidence = job.watch.evidence(state.anchor)
    found = where_am_i(evidence, readings, state)
    off = found.off_a_row if found.verdict == "off a row" else None
    faults: list[Explanation] = []
    if off:
        named = explain((residue_of(off, evidence),), gear_at(plan, rows, off.row))
        faults = [fault for fault in named if fault.kind != "slip"]
    steps = None if found.row is None else steps_to(state, found.row, "", 0.0)
    said = where_text(found, rows, plan.part.is_straight)
    return found, {
        "verdict": found.verdict,
        "row": found.row,
        "turn_shown": found.turn_shown,
        "candidates": [
            {
                "row": one.row,
                "alike": list(one.alike),
                "odds": as_text(one.odds),
                "misread": [{"scale": m.scale, "how": m.how, "shows": as_text(m.shows)} for m in one.misread],
            }
            for one in found.candidates
        ],
        "off_a_row": None
        if found.off_a_row is None
        else {
            "row": found.off_a_row.row,
            "turns": found.off_a_row.turns,
            **{
                name: as_text(getattr(found.off_a_row, name)) for name in ("angle", "within", "ahead", "odds")
            },
        },
        "slips": [
            {
                "joint": slip.joint,
                "row": slip.row,
                "since": slip.since,
                "suspect": list(slip.suspect),
                **{name: as_text(getattr(slip, name)) for name in ("angle", "within", "odds")},
            }
            for slip in found.slips
        ],
        "beside": [{"row": one.row, "shows": as_text(one.shows)} for one in found.beside],
        "said": [line for line in said if line not in (RE_ANCHOR, START_OVER)],
        "faults": [
            {"kind": fault.kind, "size": as_text(fault.size), "times": fault.times} for fault in faults
        ],
        "faults_said": [list(fault_text(fault, rows, plan.part)) for fault in faults[:MOST_FAULTS]],
        "steps": None if steps is None else [[step.kind, step.row] for step in steps],
        "shown": left_at(evidence, len(rows) - 1),
    }


def test_a_phone_says_where_the_machine_stands_as_the_workshop_does(
    demo_server: Server, opened: Opened
) -> None:
    asked = list(jobs(random.Random(2207)))
    page = opened()
    page.goto(f"{demo_server.address}/about")
    answers = page.evaluate(ASK, [job.given() for job in asked])
    verdicts: Counter[str] = Counter()
    kinds: Counter[str] = Counter()
    besides = 0
    for job, told in zip(asked, answers, strict=True):
        for (state, _, readings), answer in zip(job.asked, told, strict=True):
            found, ours = expected(job, state, readings)
            assert answer == ours, (job.run.plan.way.key, readings)
            verdicts[found.verdict] += 1
            besides += found.verdict == "cannot tell" and bool(found.beside)
            kinds.update(fault["kind"] for fault in ours["faults"])
    assert len(asked) * QUESTIONS > 2000
    assert set(verdicts) == {"here", "misread", "cannot tell", "off a row", "slipped"}
    assert besides
    assert set(kinds) >= {"miscount", "miscount of holes", "misread numeral", "whole turn", "wrong arms"}
