"""A pocket card brought home: nothing doubled, nothing lost, nothing guessed, and nothing taken from elsewhere."""

import random
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.errors import BadFile, BadTap, FaultsFound, UnknownThing
from crankwise.files.job_toml import Job, asked_part
from crankwise.files.journal_text import EDITED, LONGEST
from crankwise.plan.passes import rough_then_finish
from crankwise.run.journal import Entry, Kind, RunState, after, counts, fresh_state, replayed
from crankwise.tasks.job_plan import asked_of
from crankwise.tasks.pocket import BadSite, BroughtHome, bring_home, looked_over, pocket_card, read_brought
from crankwise.tasks.workshop import Asked, KeptRun, Workshop, open_workshop
from crankwise.wording.cautions import DRILL
from tests.files.journal_writing import journal_text
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, ROUND_TABLE

AT = 1_764_000_000.0
BEGAN = Entry("began", "desk-b", AT, numbers_grow=True)
MOST_BYTES = 300_000


class Card:
    """A card with its own journal: as on the phone, only taps that count are kept."""

    def __init__(self, workshop: Workshop, run: KeptRun, device: str = "x7c2qa") -> None:
        self.run, self.device = run, device
        self.seen = run.state.entries
        self.state = replayed(fresh_state(run.rows), workshop.journal(run.id))
        self.entries: list[Entry] = []

    def tap(self, kind: Kind, row: int | None = None, **more: object) -> "Card":
        name, at = f"{self.device}-{len(self.entries) + 1}", AT + 60 * len(self.entries)
        entry = Entry(kind, name, at, row, **more)  # type: ignore[arg-type]
        if counts(self.state, entry):
            self.entries.append(entry)
            self.state = after(self.state, entry)
        return self

    def done(self, *rows: int) -> "Card":
        for row in rows:
            self.tap("done", row)
        return self

    def text(self) -> str:
        return journal_text(self.entries, self.run.id, self.run.identity, self.seen, self.device)


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(str(tmp_path / "here")) as opened:
        yield opened


def new_run(workshop: Workshop, count: str = "60", head: str = BENCH_HEAD, begun: bool = True) -> KeptRun:
    job = workshop.new_job(workshop.keep_head(head).id, Asked(count=count, work="line"))
    run = workshop.begin_run(job.id)
    return workshop.tap(run.id, BEGAN)[0] if begun else run


@pytest.fixture
def run(workshop: Workshop) -> KeptRun:
    return new_run(workshop)


def home(workshop: Workshop, card: Card) -> BroughtHome:
    return bring_home(workshop, card.run.id, card.text())


def done_rows(workshop: Workshop, run: KeptRun) -> list[int | None]:
    return [entry.row for entry in workshop.journal(run.id) if entry.kind == "done"]


def test_all_that_a_card_tapped_comes_home_in_its_order(workshop: Workshop, run: KeptRun) -> None:
    card = Card(workshop, run).done(0, 1)
    card.tap("skipped", 2).tap("overshot", 3).tap("ring", 3, reading=Fraction(18))
    card.tap("undone", of="x7c2qa-5").tap(
        "bad", 1, note="<script>alert(1)</script> \N{CRAB} \N{HEBREW LETTER ALEF}"
    )
    card.tap("good", 1).tap("note", 3, note="oil").tap("paused").tap("resumed").tap("back", 2)
    brought = home(workshop, card)

    assert (brought.counted, brought.conflicts) == (12, ())
    assert workshop.journal(run.id) == (BEGAN, *card.entries)
    assert brought.run.state == card.state


def test_a_journal_brought_twice_doubles_nothing(workshop: Workshop, run: KeptRun) -> None:
    card = Card(workshop, run).done(0, 1, 2)
    home(workshop, card)
    again = home(workshop, card)

    assert (again.counted, again.conflicts, done_rows(workshop, run)) == (0, (), [0, 1, 2])
    carried_on = home(workshop, card.done(3))
    assert (carried_on.counted, done_rows(workshop, run)) == (1, [0, 1, 2, 3])
    assert home(workshop, card).counted == 0


def test_a_card_that_begins_the_run_brings_its_beginning(workshop: Workshop) -> None:
    run = new_run(workshop, begun=False)
    card = Card(workshop, run).tap("began", numbers_grow=False, angle=Fraction(5, 144)).done(0)
    brought = home(workshop, card)

    assert brought.counted == 2
    assert (brought.run.state.numbers_grow, brought.run.state.ring_zero) == (False, Fraction(5, 144))


def test_what_both_did_counts_once(workshop: Workshop, run: KeptRun) -> None:
    card = Card(workshop, run).done(0, 1, 2)
    for row in (0, 1):
        workshop.tap(run.id, Entry("done", f"desk-{row}", AT, row))
    brought = home(workshop, card)

    assert (brought.counted, brought.conflicts, done_rows(workshop, run)) == (1, (), [0, 1, 2])


def test_what_the_run_had_when_the_card_was_made_is_not_held_against_it(
    workshop: Workshop, run: KeptRun
) -> None:
    for entry in (
        Entry("done", "desk-0", AT, 0),
        Entry("back", "desk-k", AT, 0),
        Entry("paused", "desk-p", AT),
        Entry("resumed", "desk-r", AT),
    ):
        run = workshop.tap(run.id, entry)[0]
    card = Card(workshop, run).done(0).tap("paused").tap("resumed")
    workshop.tap(run.id, Entry("note", "desk-n", AT, note="meanwhile"))
    brought = home(workshop, card)

    assert (brought.counted, brought.conflicts, brought.run.state.at_row) == (3, (), 1)


def test_two_cards_of_one_run_double_nothing(workshop: Workshop, run: KeptRun) -> None:
    one = Card(workshop, run, "aaaaaa").done(0, 1)
    other = Card(workshop, run, "bbbbbb").done(0, 1, 2, 3)
    home(workshop, one)
    brought = home(workshop, other)

    assert (brought.counted, brought.conflicts, done_rows(workshop, run)) == (2, (), [0, 1, 2, 3])


def test_what_does_not_agree_is_shown_and_nothing_is_guessed(workshop: Workshop, run: KeptRun) -> None:
    card = Card(workshop, run).done(0, 1)
    workshop.tap(run.id, Entry("done", "desk-0", AT, 0))
    workshop.tap(run.id, Entry("back", "desk-k", AT, 0))
    before = workshop.journal(run.id)
    brought = home(workshop, card)

    assert brought.counted == 0
    (conflict,) = brought.conflicts
    assert "A row was done on one side, and reopened" in conflict
    assert "2 entries of the phone are not taken in. Look at the work, and say which is right." in conflict
    assert (workshop.journal(run.id), brought.run.state.at_row) == (before, 0)


@pytest.mark.parametrize(
    ("grows", "angle", "says"),
    [
        (
            False,
            Fraction(5, 144),
            "The test of the direction came out one way here and the other way on the phone.",
        ),
        (True, None, "What the ring shows at zero was read one way here and another way on the phone."),
        (True, Fraction(5, 144), ""),
    ],
)
def test_a_run_begun_twice_otherwise_is_shown(
    workshop: Workshop, grows: bool, angle: Fraction | None, says: str
) -> None:
    run = new_run(workshop, begun=False)
    card = Card(workshop, run).tap("began", numbers_grow=grows, angle=angle).done(0)
    workshop.tap(run.id, replace(BEGAN, angle=Fraction(5, 144)))
    brought = home(workshop, card)

    assert [told.startswith(says) for told in brought.conflicts] == ([True] if says else [])
    assert done_rows(workshop, run) == ([] if says else [0])


def refused(workshop: Workshop, run: KeptRun, text: str, why: str) -> None:
    """Hold that a journal is refused, looked over or taken in, and that the run stays as it was."""
    before = workshop.journal(run.id)
    with pytest.raises(BadTap, match=re.escape(why)):
        looked_over(workshop, run.id, text)
    with pytest.raises(BadTap, match=re.escape(why)):
        bring_home(workshop, run.id, text)
    assert workshop.journal(run.id) == before


def test_a_card_of_another_run_is_refused(workshop: Workshop, run: KeptRun) -> None:
    other = new_run(workshop, "48")
    why = f"journal: it is of another run than '{run.job_name}', run {run.id}; open the run that the card was made for"

    refused(workshop, run, Card(workshop, other).done(0).text(), why)
    refused(workshop, run, journal_text(Card(workshop, run).done(0).entries, other.id, run.identity), why)


def test_a_card_of_another_workshop_is_refused_though_its_run_has_the_same_number(
    workshop: Workshop, run: KeptRun, tmp_path: Path
) -> None:
    with open_workshop(str(tmp_path / "there")) as elsewhere:
        theirs = new_run(elsewhere)
        text = Card(elsewhere, theirs).done(0).text()

    assert theirs.id == run.id
    refused(workshop, run, text, "open the run that the card was made for, in the workshop that made it")


def test_a_card_of_a_later_day_is_refused_by_an_older_copy(
    workshop: Workshop, run: KeptRun, tmp_path: Path
) -> None:
    workshop.backup(str(tmp_path / "copy.sqlite"))
    for row in range(3):
        run = workshop.tap(run.id, Entry("done", f"desk-{row}", AT, row))[0]
    text = Card(workshop, run).done(3).text()
    with open_workshop(str(tmp_path / "copy.sqlite")) as copy:
        why = "journal: the card was made when the run had 4 entries, and here it has 1"
        refused(copy, copy.run(run.id), text, why)


def test_half_a_journal_is_refused_wherever_it_breaks_off(workshop: Workshop, run: KeptRun) -> None:
    text = Card(workshop, run).done(*range(10)).text()
    for length in range(0, len(text), 3):
        refused(workshop, run, text[:length], "journal: ")


@pytest.mark.parametrize(
    "spoil",
    [
        lambda entries: entries[1:],  # a step left out
        lambda entries: [entries[0], *entries],  # a step twice
        lambda entries: [entries[1], entries[0], *entries[2:]],  # changed about
        lambda entries: [*entries, replace(entries[-1], row=59)],  # a row that is far ahead
        lambda entries: [*entries, Entry("done", "x", AT, 10**6)],  # a row that is not there
        lambda entries: [*entries, Entry("resumed", "x", AT)],  # it does not rest
        lambda entries: [*entries, Entry("undone", "x", AT, of="nobody-1")],
        lambda entries: [*entries, Entry("ring", "x", AT, 3)],  # a reading that was not read
    ],
)
def test_steps_that_no_card_makes_are_refused_though_the_check_figure_is_right(
    workshop: Workshop, run: KeptRun, spoil: "type[list[Entry]]"
) -> None:
    card = Card(workshop, run).done(0, 1, 2)
    card.entries = spoil(card.entries)

    refused(workshop, run, card.text(), EDITED)


def test_one_reading_beyond_the_ring_keeps_all_of_it_out(workshop: Workshop, run: KeptRun) -> None:
    card = Card(workshop, run).done(0, 1).tap("ring", 2, reading=Fraction(361)).done(2)
    with pytest.raises(FaultsFound, match=re.escape("taps[2]: ring: 361; it shows from 0 to below 360")):
        home(workshop, card)
    with pytest.raises(FaultsFound, match=re.escape("taps[2]: ring: 361")):
        looked_over(workshop, run.id, card.text())
    assert workshop.journal(run.id) == (BEGAN,)


def test_an_unknown_run_is_told(workshop: Workshop, run: KeptRun) -> None:
    with pytest.raises(UnknownThing, match="run 99"):
        bring_home(workshop, 99, Card(workshop, run).done(0).text())
    with pytest.raises(UnknownThing, match="run 99"):
        pocket_card(workshop, 99)


def test_ten_thousand_taps_come_home_at_once(workshop: Workshop, run: KeptRun) -> None:
    card = Card(workshop, run).done(0)
    for _ in range(5_000):
        card.tap("paused").tap("resumed")
    brought = home(workshop, card)

    assert (brought.counted, brought.run.state.at_row) == (10_001, 1)
    assert home(workshop, card).counted == 0


def likely(chance: random.Random, card: Card) -> None:
    """Tap what an operator may tap where the card stands."""
    state = card.state
    kind = chance.choice(
        ["done"] * 6 + ["back", "skipped", "bad", "good", "paused", "resumed", "ring", "note"]
    )
    row: int | None = state.at_row if kind in ("done", "skipped", "ring", "note") else None
    if kind == "back" and state.trail:
        row = state.trail[-1].row
    if kind in ("bad", "good"):
        row = chance.randrange(state.rows)
    card.tap(
        kind,  # type: ignore[arg-type]
        row,
        reading=Fraction(chance.randrange(720), 2) if kind == "ring" else None,
        note=chance.choice(["oil", "\N{CRAB}"]) if kind in ("bad", "note") else None,
    )


@pytest.mark.parametrize("seed", range(25))
def test_cards_of_any_journal_come_home_whole_or_are_shown(workshop: Workshop, seed: int) -> None:
    """Two phones and the desk go on from the same state by themselves; each is brought home, some twice."""
    chance = random.Random(seed)
    run = new_run(workshop, "12")
    cards = [Card(workshop, run, name) for name in ("aaaaaa", "bbbbbb")]
    desk = Card(workshop, run, "desk")
    for one in (*cards, desk):
        for _ in range(chance.randrange(1, 40)):
            likely(chance, one)
    if seed % 2:
        for entry in desk.entries:
            workshop.tap(run.id, entry)
    for number, card in enumerate(cards):
        brought = home(workshop, card)
        merged = brought.merged
        told = [
            entry.tap
            for entry in (
                *merged.added,
                *merged.said_twice,
                *(one for c in merged.conflicts for one in c.theirs),
            )
        ]
        assert sorted(told) == sorted(entry.tap for entry in card.entries), (
            "each tap is taken, known or shown"
        )
        if number == 0 and seed % 2 == 0:
            assert (brought.conflicts, brought.run.state) == ((), card.state)
        journal = workshop.journal(run.id)
        assert home(workshop, card).counted == 0
        assert workshop.journal(run.id) == journal
    assert_counted_once(fresh_state(run.rows), workshop.journal(run.id))


def assert_counted_once(state: RunState, journal: tuple[Entry, ...]) -> None:
    """Hold that every entry of a journal counts, has a name of its own, and no row is done while it is done."""
    assert Counter(entry.tap for entry in journal).most_common(1)[0][1] == 1
    for entry in journal:
        assert counts(state, replace(entry, seen=None)), entry
        if entry.kind == "done":
            assert entry.row is not None
            assert not state.is_done(entry.row)
        state = after(state, replace(entry, seen=None))


@pytest.mark.parametrize("head", [BENCH_HEAD, ROUND_TABLE, PLATE_HEAD])
def test_a_card_of_a_thousand_positions_is_under_300_kb(workshop: Workshop, head: str) -> None:
    name = "</script><b>\N{CRAB} \N{HEBREW LETTER ALEF}" * 3
    job = workshop.new_job(workshop.keep_head(head).id, Asked(count="1000", work="line"), name)
    run = workshop.begin_run(job.id)

    assert len(run.rows) == 1001
    assert len(pocket_card(workshop, run.id, "http://shed.test:8127")) < MOST_BYTES
    twice = workshop.begin_run(job.id, rough_then_finish(Fraction(1), Fraction(3, 2)))
    assert len(twice.rows) == 2002
    assert len(pocket_card(workshop, twice.id)) < MOST_BYTES


def test_a_card_tells_the_cautions_of_its_kind_of_part(workshop: Workshop) -> None:
    holes = Job(asked_part("holes", {"count": "7", "circle": "60mm", "hole": "6mm"}))
    job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, asked_of(holes))
    assert DRILL in pocket_card(workshop, workshop.begin_run(job.id).id).decode()
    assert DRILL not in pocket_card(workshop, new_run(workshop).id).decode()


def test_a_card_can_be_made_wherever_the_run_stands(workshop: Workshop) -> None:
    run = new_run(workshop, "4", BULL_WHEEL, begun=False)
    card = Card(workshop, run)
    sizes = [len(pocket_card(workshop, run.id))]
    card.tap("began").done(0, 1).tap("slipped", 2, angle=Fraction(1, 500), joint="work", since=1).tap(
        "paused"
    )
    for entry in [*card.entries, *Card(workshop, run).entries]:
        workshop.tap(run.id, entry)
        sizes.append(len(pocket_card(workshop, run.id)))
    workshop.tap(run.id, Entry("resumed", "r", AT))
    for row in (2, 3, 4):
        workshop.tap(run.id, Entry("done", f"d{row}", AT, row))
    assert workshop.run(run.id).state.finished
    assert b"pocket card" in pocket_card(workshop, run.id)
    assert len(sizes) == 6


@pytest.mark.parametrize(
    "site",
    [
        "shed.local:8127",
        "javascript:alert(1)",
        "http://",
        "http://shed test",
        "http://shed.test/x",
        'http://"<b>',
    ],
)
def test_an_address_that_no_phone_opens_is_told(workshop: Workshop, run: KeptRun, site: str) -> None:
    with pytest.raises(BadSite, match="is no address that a phone opens; it looks like http"):
        pocket_card(workshop, run.id, site)


def test_the_file_that_a_card_saved_is_read(tmp_path: Path) -> None:
    path = tmp_path / "run-3-x7c2qa.txt"
    path.write_text("\ufeffcw1~3~\n", encoding="utf-8")
    assert read_brought(str(path)) == "cw1~3~\n"


def test_a_file_that_is_none_is_told(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match="there is no such file; give the path of the journal of a pocket card"):
        read_brought(str(tmp_path / "nowhere.txt"))
    with pytest.raises(BadFile, match="this is a folder"):
        read_brought(str(tmp_path))
    picture = tmp_path / "code.png"
    picture.write_bytes(b"\x89PNG\r\n\x1a\n\xff\xfe")
    with pytest.raises(BadFile, match="this is not text in UTF-8"):
        read_brought(str(picture))
    picture.write_bytes(b"x" * (LONGEST + 1))
    with pytest.raises(BadFile, match="500,001 bytes"):
        read_brought(str(picture))
