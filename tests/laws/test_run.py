"""Laws of the journal: repeats and late taps never skip a row, whoever taps and in whatever order."""

from dataclasses import dataclass, field

from hypothesis import given
from hypothesis import strategies as st

from crankwise.run.journal import Entry, RunState, after, counts, replayed

ROWS = st.integers(1, 6)


@dataclass
class Phone:
    """One device: it shows the run as it last saw it, and its taps may arrive late, or twice."""

    name: str
    shows: RunState
    taps: int = 0
    under_way: list[Entry] = field(default_factory=list)

    def tap(self, kind: str) -> Entry:
        self.taps += 1
        tap, at, seen = f"{self.name}{self.taps}", float(self.taps), self.shows.entries
        if kind == "done":
            return Entry("done", tap, at, row=self.shows.at_row, seen=seen)
        if kind == "back":
            return Entry("back", tap, at, row=self.shows.at_row - 1, seen=seen)
        return Entry("began", tap, at, numbers_grow=True, seen=seen)


def checked_step(state: RunState, entry: Entry, came_in: set[str]) -> RunState:
    """One entry reaches the run: what it may change, and what it may never."""
    now = after(state, entry)
    if not counts(state, entry):
        assert now == state
        return now
    assert entry.tap not in came_in  # a tap counts once
    came_in.add(entry.tap)
    assert now.entries == state.entries + 1
    assert now.last_at == entry.at
    if entry.kind == "done":
        assert entry.row == state.at_row  # the very row that its page showed, and no other
        assert now.at_row == state.at_row + 1
    elif entry.kind == "back":
        assert now.at_row == entry.row == state.at_row - 1
    else:
        assert now.began
        assert now.at_row == state.at_row
    return now


@given(ROWS, st.data())
def test_two_phones_in_any_order_never_skip_a_row(rows: int, data: st.DataObject) -> None:
    state, journal, came_in = RunState(rows), [], set[str]()
    phones = [Phone("a", state), Phone("b", state)]
    for _ in range(data.draw(st.integers(0, 40), label="events")):
        phone = data.draw(st.sampled_from(phones), label="phone")
        what = data.draw(st.sampled_from(["look", "began", "done", "done", "back", "arrive", "arrive"]))
        if what == "look":
            phone.shows = state
        elif what != "arrive":
            phone.under_way.append(phone.tap(what))
        elif phone.under_way:
            entry = data.draw(st.sampled_from(phone.under_way), label="arrives, and may again")
            state = checked_step(state, entry, came_in)
            journal.append(entry)
    assert 0 <= state.at_row <= rows
    assert replayed(rows, journal) == state
    done = [entry for entry in journal if entry.tap in came_in and entry.kind == "done"]
    back = [entry for entry in journal if entry.tap in came_in and entry.kind == "back"]
    assert state.at_row <= len({entry.row for entry in done})
    assert len(done) - state.at_row >= len({entry.tap for entry in back}) >= 0


@given(ROWS, st.lists(st.integers(0, 5), max_size=30), st.integers(1, 3))
def test_a_journal_with_every_line_repeated_comes_to_the_same(
    rows: int, wanted: list[int], times: int
) -> None:
    state = RunState(rows)
    journal = [Entry("began", "t", 0.0, numbers_grow=True, seen=0)]
    state = after(state, journal[0])
    for number, choice in enumerate(wanted):
        kind, row = ("back", state.at_row - 1) if choice == 0 else ("done", state.at_row)
        entry = Entry(kind, f"t{number}", float(number), row=row, seen=state.entries)  # type: ignore[arg-type]
        journal.append(entry)
        state = after(state, entry)
    repeated = [entry for entry in journal for _ in range(times)]
    assert replayed(rows, journal) == replayed(rows, repeated) == state
    assert replayed(rows, journal + journal) == state


@given(ROWS)
def test_a_tap_delayed_until_its_row_was_reopened_does_not_complete_it(rows: int) -> None:
    """Two phones show row 0; one completes it and takes it back; the other's tap then comes in."""
    began = after(RunState(rows), Entry("began", "a0", 0.0, numbers_grow=True))
    late = Entry("done", "b1", 1.0, row=0, seen=began.entries)
    done = after(began, Entry("done", "a1", 1.0, row=0, seen=began.entries))
    reopened = after(done, Entry("back", "a2", 2.0, row=0, seen=done.entries))
    assert reopened.at_row == 0
    assert not counts(reopened, late)


@given(ROWS)
def test_tapping_done_on_each_row_finishes_the_run_and_no_sooner(rows: int) -> None:
    state = after(RunState(rows), Entry("began", "t", 0.0, numbers_grow=True))
    for row in range(rows):
        assert not state.finished
        state = after(state, Entry("done", f"t{row}", 1.0, row=row, seen=state.entries))
    assert state.finished
    assert after(state, Entry("done", "more", 2.0, row=rows, seen=state.entries)) == state


@given(ROWS, st.integers(0, 6), st.integers(-1, 8))
def test_a_tap_that_does_not_say_what_it_saw_counts_only_at_its_own_row(
    rows: int, done: int, row: int
) -> None:
    state = after(RunState(rows), Entry("began", "t", 0.0, numbers_grow=True))
    for number in range(min(done, rows)):
        state = after(state, Entry("done", f"t{number}", 1.0, row=number))
    assert counts(state, Entry("done", "more", 2.0, row=row)) == (row == state.at_row < rows)
    assert counts(state, Entry("back", "less", 2.0, row=row)) == (row == state.at_row - 1 >= 0)
