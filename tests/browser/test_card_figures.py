"""What the phone works out and draws by itself, held to what the workshop works out and draws."""

import random
import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from crankwise.draw.move import hole_move, turning_arrow
from crankwise.draw.scale_window import dial_window, ring_window
from crankwise.exact.number import as_text
from crankwise.head.dial import Dial
from crankwise.head.ring import Ring
from crankwise.plan.passes import with_trace
from crankwise.run.check_points import answer
from crankwise.run.guide import Turn
from crankwise.run.journal import Entry
from crankwise.run.pace import Pace
from crankwise.tasks.run_answer import run_answer
from crankwise.tasks.workshop import Asked, KeptRun, Workshop, open_workshop
from crankwise.wording.run_checks import pace_text
from crankwise.wording.run_page import GO_BACK_FIRST
from crankwise.wording.settings import reading_text
from tests.browser.conftest import Opened
from tests.browser.serving import Server
from tests.gear import BENCH_HEAD, PLATE_HEAD, ROUND_TABLE

pytestmark = pytest.mark.browser

DIRECT_RING = """
name = "Ring alone"
[ring]
graduations = 360
read_to = "1/2"
numbered = "anticlockwise"
"""
FALLING_RING = """
name = "Ring that falls"
[worm]
wheel_teeth = 40
clockwise = "decreases"
[dial]
marks = 36
read_to = "1/3"
numbered_every = 6
[ring]
graduations = 800
read_to = "1/2"
full_circle = 400
"""
TURNS: tuple[Turn, Turn] = ("clockwise", "anticlockwise")


@pytest.fixture
def page(demo_server: Server, opened: Opened) -> Page:
    page = opened()
    page.goto(f"{demo_server.address}/about")
    return page


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(str(tmp_path)) as opened:
        yield opened


def begun(workshop: Workshop, head: str, count: str, ring_zero: Fraction | None) -> tuple[KeptRun, Any]:
    """Return a run begun with the ring so far ahead, and what a card tells that was made before."""
    job = workshop.new_job(workshop.keep_head(head).id, Asked(count=count, work="line"))
    run = workshop.begin_run(job.id)
    told = run_answer(run, ())
    began = Entry("began", "card-1", 1.0, numbers_grow=True, angle=ring_zero)
    return workshop.tap(run.id, began)[0], told


ROWS = """
async ([told, journal]) => {
  const { RunInHand } = await import("/static/run_journal.js");
  const run = new RunInHand(told, null, journal.map((entry) => ({ base: 0, entry })));
  return told.rows.map((_, index) => run.row(index));
}
"""


@pytest.mark.parametrize(
    ("head", "count", "ring_zero"),
    [
        (BENCH_HEAD, "149", Fraction(5, 144)),
        (BENCH_HEAD, "127", Fraction(-1, 3)),
        (ROUND_TABLE, "97", Fraction(359, 360)),
        (FALLING_RING, "77", Fraction(-37, 800)),
        (PLATE_HEAD, "13", None),
        (BENCH_HEAD, "60", None),
    ],
)
def test_a_card_tells_of_the_ring_what_the_workshop_tells(
    page: Page, workshop: Workshop, head: str, count: str, ring_zero: Fraction | None
) -> None:
    run, told = begun(workshop, head, count, ring_zero)
    ours = run_answer(run, workshop.journal(run.id))
    began = {"kind": "began", "tap": "card-1", "at": 1, "numbers_grow": True}
    began |= {} if ring_zero is None else {"angle": as_text(ring_zero)}
    rows = page.evaluate(ROWS, [told, [began]])

    for index, row in enumerate(rows):
        expected = ours["usual"] | ours["rows"][index]
        for key in ("ring", "ring_exact", "check_ring"):
            assert row[key] == expected[key], (index, key)
        # rounded up to the full circle the card says 0.00, as beside the row
        assert [line.replace("360.00", "0.00") for line in expected["check"]] == row["check"]
    assert (ring_zero is None) == (run_answer(run, ())["rows"] == told["rows"])


SAID = """
async ([told, journal]) => {
  const { RunInHand } = await import("/static/run_journal.js");
  const { sentenceOf } = await import("/static/run_panel.js");
  const run = new RunInHand(told, null, journal.map((entry) => ({ base: 0, entry })));
  return sentenceOf(run);
}
"""


def test_a_card_says_what_is_gone_back_first(page: Page, workshop: Workshop) -> None:
    job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, Asked(count="61", last="13", work="line"))
    told = run_answer(workshop.begin_run(job.id, with_trace()), ())
    taps: list[dict[str, Any]] = [{"kind": "began", "tap": "c-1", "at": 1, "numbers_grow": True}]
    taps += [{"kind": "done", "tap": f"c-{row + 2}", "at": row + 2, "row": row} for row in range(14)]
    said = page.evaluate(SAID, [told, taps])
    assert said.startswith(
        f"Position 0. {GO_BACK_FIRST.rstrip('.')}. 0 whole turns, then come up to 0 on the dial"
    )
    assert GO_BACK_FIRST not in page.evaluate(SAID, [told, taps[:-1]])


def test_away_the_time_left_is_told_as_in_the_workshop(page: Page) -> None:
    seconds = [0, 0.4, 59.9, 60, 61, 80, 3540, 3541, 3600, 3601, 6600, 7200, 86_399.5]
    told = page.evaluate(
        """async (seconds) => {
          const { timeLeftText } = await import("/static/run_panel.js");
          return seconds.map(timeLeftText);
        }""",
        seconds,
    )
    assert told == [pace_text(Pace(1, left)) for left in seconds]


def readings(ring: Ring, chance: random.Random) -> list[Fraction]:
    full = ring.full_circle
    step = Fraction(full, ring.places)
    near = [Fraction(0), step / 2, step / 2 + Fraction(1, 10**6), step, Fraction(full), full - step / 2]
    return near + [Fraction(chance.randrange(10**6 * full), 10**6) for _ in range(20)]


COMPARE = """
async ([ring, pairs]) => {
  const { agrees, offBy } = await import("/static/run_ring.js");
  return pairs.map(([read, shown]) => [agrees(read, shown, ring), offBy(read, shown, ring).isAhead]);
}
"""


@pytest.mark.parametrize("head", [BENCH_HEAD, ROUND_TABLE, FALLING_RING])
def test_a_reading_agrees_on_the_card_as_in_the_workshop(page: Page, workshop: Workshop, head: str) -> None:
    run, told = begun(workshop, head, "127", None)
    ring = run.plan.head.ring
    assert ring is not None
    evidence = run.watch.evidence()
    chance = random.Random(251)
    pairs, expected = [], []
    for row in range(0, len(run.rows), 5):
        shown = evidence.shown[row]["ring"]
        for off in readings(ring, chance):
            read = (shown + off) % ring.full_circle
            found = answer(evidence, Entry("ring", "r", 1.0, row, reading=read))
            assert found is not None
            pairs.append([as_text(read), as_text(shown)])
            expected.append(found)
    compared = page.evaluate(COMPARE, [told["scales"]["ring"], pairs])

    assert [agreed for agreed, _ in compared] == [agreed for agreed, _ in expected]
    assert {True, False} <= {agreed for agreed, _ in compared}
    for (_, is_ahead), (agreed, off) in zip(compared, expected, strict=True):
        assert agreed or is_ahead == (off > 0)


TYPE = """
async ([ring, typed]) => {
  const { typedReading } = await import("/static/run_ring.js");
  return typed.map((text) => typedReading(text, ring));
}
"""


def test_a_reading_is_read_as_it_is_typed_or_refused_with_a_sentence(page: Page, workshop: Workshop) -> None:
    _, told = begun(workshop, BENCH_HEAD, "60", None)
    good = {
        "12": "12",
        " 57,98 ": "57.98",
        "45/2": "22.5",
        "2 1/2": "2.5",
        "7200/127": "7200/127",
        "12.": "12",
        "0": "0",
        "360": "360",
        "00012.500": "12.5",
    }
    bad = [
        "",
        "-1",
        "361",
        "360.001",
        "1e2",
        "1/0",
        "12 5",
        "12.3456789",
        "<b>",
        "\N{ARABIC-INDIC DIGIT ONE}",
        "NaN",
    ]
    found = page.evaluate(TYPE, [told["scales"]["ring"], [*good, *bad]])

    assert [one.get("reading") for one in found[: len(good)]] == list(good.values())
    for one in found[len(good) :]:
        assert re.match("The ring(’s reading is a number| shows from 0 to below 360)", one["fault"])


DRAW = """
async (asked) => {
  const drawing = await import("/static/run_picture.js");
  const { exactOf } = await import("/static/run_ring.js");
  return asked.map(([name, ...given]) => drawing[name](...given));
}
"""


def same_picture(drawn: str, expected: str) -> None:
    """Compare two pictures: the same but for the last decimal of a coordinate, where a half is rounded otherwise."""
    figure = re.compile(r"-?\d+(?:\.\d+)?")
    assert figure.sub("#", drawn) == figure.sub("#", expected)
    for ours, theirs in zip(figure.findall(drawn), figure.findall(expected), strict=True):
        assert float(ours) == pytest.approx(float(theirs), abs=0.0101)


def test_the_dial_is_drawn_as_the_workshop_draws_it(page: Page) -> None:
    dials = [
        Dial(100, Fraction(1, 2)),
        Dial(240, numbered_every=60),
        Dial(36, Fraction(1, 3), 6),
        Dial(72, numbered_every=0),
        Dial(125, Fraction(1, 5), 25),
        Dial(20, numbered_every=20),
    ]
    cases = [
        (dial, Fraction(place, dial.places_per_mark), grows)
        for dial in dials
        for place in range(0, dial.places, 7)
        for grows in (True, False)
    ]
    drawn = page.evaluate(
        """async (cases) => {
          const { dialWindow, numberOf } = await import("/static/run_picture.js");
          return cases.map(([dial, reading, grows]) => dialWindow(dial, numberOf(reading), grows));
        }""",
        [
            [{"marks": dial.marks, "numbered_every": dial.numbered_every}, reading_text(reading), grows]
            for dial, reading, grows in cases
        ],
    )
    for picture, case in zip(drawn, cases, strict=True):
        same_picture(picture, dial_window(*case))


def test_the_ring_the_holes_and_the_arrow_are_drawn_as_the_workshop_draws_them(page: Page) -> None:
    rings = [
        Ring(360),
        Ring(720, numbered="anticlockwise"),
        Ring(800, full_circle=400),
        Ring(24, full_circle=24),
        Ring(180),
        Ring(90),
        Ring(54),
    ]
    asked: list[list[object]] = []
    expected = []
    for ring in rings:
        told = {"graduations": ring.graduations, "full_circle": ring.full_circle, "numbered": ring.numbered}
        for part in range(40):
            reading = Fraction(part * ring.full_circle, 40)
            asked.append(["ringWindow", told, float(reading)])
            expected.append(ring_window(ring, reading))
    for turn in TURNS:
        asked.append(["turningArrow", turn])
        expected.append(turning_arrow(turn))
        for places, start, end in ((15, 0, 4), (49, 40, 3), (240, 7, 7), (39, 13, 26), (241, 1, 2)):
            asked.append(["holeMove", places, start, end, turn])
            expected.append(hole_move(places, start, end, turn, "holes"))
    for picture, ours in zip(page.evaluate(DRAW, asked), expected, strict=True):
        same_picture(picture, ours)
