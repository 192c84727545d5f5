from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.run.journal import Entry, Kind, RunState, after, counts, replayed
from crankwise.run.merge import Merged, merged

ROWS = 8
START = RunState(ROWS, gates=(7,))
BEGAN = Entry("began", "began", 0.0, numbers_grow=True)


class Device:
    """One device with its own journal, which only ever holds entries that counted."""

    def __init__(self, name: str, journal: list[Entry]) -> None:
        self.name = name
        self.journal = list(journal)
        self.state = replayed(START, journal)

    def tap(self, kind: Kind, row: int | None = None, **more: object) -> "Device":
        tap = str(more.pop("name", f"{self.name}{len(self.journal)}"))
        entry = Entry(kind, tap, 0.0, row, seen=self.state.entries, **more)  # type: ignore[arg-type]
        if counts(self.state, entry):
            self.journal.append(entry)
            self.state = after(self.state, entry)
        return self

    def done(self, *rows: int) -> "Device":
        for row in rows:
            self.tap("done", row)
        return self


@pytest.fixture
def server() -> Device:
    return Device("s", [BEGAN]).done(0, 1)


@pytest.fixture
def phone(server: Device) -> Device:
    return Device("p", server.journal)


def together(server: Device, phone: Device) -> tuple[Merged, RunState]:
    found = merged(START, server.journal, phone.journal)
    return found, replayed(START, [*server.journal, *found.added])


def test_what_the_phone_did_while_away_is_added(server: Device, phone: Device) -> None:
    phone.done(2, 3).tap("skipped", 4).done(5).tap("bad", 1, note="torn")
    found, state = together(server, phone)
    assert found.conflicts == ()
    assert (state.at_row, state.skipped, state.bad) == (6, (4,), {1: "torn"})


def test_nothing_new_on_the_phone_changes_nothing(server: Device, phone: Device) -> None:
    server.done(2, 3)
    assert together(server, phone)[0] == Merged((), (), ())


def test_rows_done_on_both_are_done_once(server: Device, phone: Device) -> None:
    server.done(2, 3)
    phone.done(2, 3, 4)
    found, state = together(server, phone)
    assert found.conflicts == ()
    assert [entry.row for entry in found.said_twice] == [2, 3]
    assert (state.at_row, [step.row for step in state.trail]) == (5, [0, 1, 2, 3, 4])


def test_a_row_reopened_here_and_worked_on_from_there_is_shown_with_all_that_rests_on_it(
    server: Device, phone: Device
) -> None:
    server.tap("back", 1)
    phone.done(2, 3).tap("note", note="a burr")
    found, state = together(server, phone)
    (conflict,) = found.conflicts
    assert (conflict.reason, conflict.row) == ("order", 2)
    assert [entry.row for entry in conflict.theirs] == [2, 3]
    assert state.at_row == 1
    assert [entry.note for entry in state.of_kind("note")] == ["a burr"]


def test_a_row_done_here_and_reopened_there_is_shown(server: Device, phone: Device) -> None:
    server.done(2)
    phone.tap("back", 1).done(1, 2)
    (conflict,) = together(server, phone)[0].conflicts
    assert (conflict.reason, conflict.row) == ("reopened", 1)
    assert [entry.kind for entry in conflict.ours] == ["done"]
    assert [entry.kind for entry in conflict.theirs] == ["back", "done", "done"]


def test_a_row_reopened_and_done_again_here_but_done_there_is_shown(server: Device, phone: Device) -> None:
    server.done(2).tap("back", 2)
    phone.done(2)
    (conflict,) = together(server, phone)[0].conflicts
    assert (conflict.reason, conflict.row) == ("reopened", 2)


def test_passed_over_here_and_done_there_is_shown(server: Device, phone: Device) -> None:
    server.tap("skipped", 2)
    phone.done(2, 3)
    (conflict,) = together(server, phone)[0].conflicts
    assert (conflict.reason, conflict.row) == ("reopened", 2)


def test_bad_here_and_good_there_is_shown(server: Device, phone: Device) -> None:
    server.tap("bad", 1)
    phone.tap("good", 1)
    assert [conflict.reason for conflict in together(server, phone)[0].conflicts] == ["judged"]


def test_a_slip_here_puts_rows_worked_there_without_it_in_doubt(server: Device, phone: Device) -> None:
    server.tap("slipped", 2, angle=Fraction(1, 720), joint="spindle")
    phone.done(2)
    (conflict,) = together(server, phone)[0].conflicts
    assert conflict.reason == "slipped"


def test_the_same_slip_written_down_twice_is_not_taken_off_twice(server: Device, phone: Device) -> None:
    for device in (server, phone):
        device.tap("slipped", 2, angle=Fraction(1, 720), joint="spindle")
    found, state = together(server, phone)
    assert [conflict.reason for conflict in found.conflicts] == ["slipped"]
    assert state.anchor.work == Fraction(1, 720)


def test_two_readings_of_the_ring_at_one_row_are_shown_when_they_differ(
    server: Device, phone: Device
) -> None:
    server.tap("ring", 2, reading=Fraction(90))
    phone.tap("ring", 2, reading=Fraction(90))
    assert together(server, phone)[0].conflicts == ()
    phone.tap("ring", 2, reading=Fraction(91))
    assert [conflict.reason for conflict in together(server, phone)[0].conflicts] == ["read"]


def test_two_answers_about_the_first_line_at_one_row_are_shown_when_they_differ(
    server: Device, phone: Device
) -> None:
    server.tap("returned", 2, angle=Fraction(0), means="loupe")
    phone.tap("returned", 2, angle=Fraction(0), means="loupe")
    found, state = together(server, phone)
    assert (found.conflicts, found.added) == ((), ())
    phone.tap("returned", 2, off_mm=Fraction("0.3"), means="loupe")
    found, state = together(server, phone)
    assert [(one.reason, one.row) for one in found.conflicts] == [("returned", 2)]
    assert [entry.off_mm for entry in state.of_kind("returned")] == [None], "the server's stays"


def test_a_return_put_off_on_one_side_and_answered_on_the_other_is_answered(
    server: Device, phone: Device
) -> None:
    server.tap("returned", 2)
    phone.tap("returned", 2, off_mm=Fraction("0.3"))
    found, state = together(server, phone)
    assert (found.conflicts, len(found.added)) == ((), 1)
    found, state = together(phone, server)
    assert (found.conflicts, found.added, len(found.said_twice)) == ((), (), 1)
    assert state.of_kind("returned")[-1].off_mm == Fraction("0.3")


def test_two_answers_on_the_direction_are_shown() -> None:
    server = Device("s", []).tap("began", numbers_grow=True).done(0)
    phone = Device("p", []).tap("began", numbers_grow=False).done(0, 1)
    found, state = together(server, phone)
    assert [conflict.reason for conflict in found.conflicts] == ["direction"]
    assert state.at_row == 1
    same = Device("q", []).tap("began", numbers_grow=True).done(0, 1)
    found, state = together(server, same)
    assert (found.conflicts, state.at_row) == ((), 2)


def test_steps_made_while_the_server_has_a_break_are_shown(server: Device, phone: Device) -> None:
    server.tap("paused")
    phone.done(2)
    (conflict,) = together(server, phone)[0].conflicts
    assert (conflict.reason, [entry.kind for entry in conflict.ours]) == ("order", ["paused"])


def test_undoing_what_the_server_undid_too_is_no_conflict(server: Device, phone: Device) -> None:
    server.tap("note", name="n", note="x")
    away = Device("p", server.journal)
    server.tap("undone", of="n")
    away.tap("undone", of="n")
    assert together(server, away)[0].conflicts == ()
    away.tap("note", name="m", note="y").tap("undone", of="m")
    found, state = together(server, away)
    assert (found.conflicts, state.of_kind("note")) == ((), ())


STEPS = st.lists(
    st.sampled_from(
        [
            "done",
            "done",
            "done",
            "back",
            "skipped",
            "bad",
            "good",
            "ring",
            "returned",
            "slipped",
            "paused",
            "resumed",
        ]
    ),
    max_size=9,
)


def tapped(device: Device, kinds: list[Kind]) -> Device:
    for kind in kinds:
        state = device.state
        row = state.trail[-1].row if kind == "back" and state.trail else state.at_row
        if kind in ("paused", "resumed"):
            device.tap(kind)
        elif row < ROWS:
            device.tap(kind, row, reading=Fraction(row), angle=Fraction(1, 720), joint="spindle")
    return device


@given(STEPS, STEPS, STEPS)
def test_no_merge_doubles_a_row_loses_what_the_server_had_or_guesses(
    before: list[Kind], here: list[Kind], there: list[Kind]
) -> None:
    common = tapped(Device("s", [BEGAN]), before)
    server = tapped(Device("h", common.journal), here)
    phone = tapped(Device("p", common.journal), there)
    found, state = together(server, phone)
    done = Counter(step.row for step in state.trail if step.kind == "done")
    assert max(done.values(), default=1) == 1
    new = [entry.tap for entry in phone.journal if entry not in common.journal]
    told = [
        *found.added,
        *found.said_twice,
        *(one for conflict in found.conflicts for one in conflict.theirs),
    ]
    assert sorted(entry.tap for entry in told) == sorted(new)
    for row in range(ROWS):  # what is done after merging was done on one of the two
        undecided = any(entry.row == row for one in found.conflicts for entry in one.theirs)
        if state.is_done(row) and not undecided:
            assert server.state.is_done(row) or phone.state.is_done(row)
        if server.state.is_done(row) and not any(entry.kind == "back" for entry in found.added):
            assert state.is_done(row)
    again = merged(START, [*server.journal, *found.added], phone.journal)
    assert again.added == ()


@given(STEPS, STEPS, STEPS)
def test_two_journals_that_go_together_do_so_whichever_takes_the_other_in(
    before: list[Kind], here: list[Kind], there: list[Kind]
) -> None:
    common = tapped(Device("s", [BEGAN]), before)
    one, other = tapped(Device("h", common.journal), here), tapped(Device("p", common.journal), there)
    (found, state), (back, mirrored) = together(one, other), together(other, one)
    if not found.conflicts and not back.conflicts:
        assert (state.at_row, state.skipped, state.bad) == (mirrored.at_row, mirrored.skipped, mirrored.bad)
