"""Laws of taps: whatever phones and networks do, the run is what its journal says, and skips nothing."""

import tempfile
from contextlib import ExitStack
from dataclasses import dataclass

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, invariant, multiple, rule

from crankwise.run.journal import Entry, Kind, RunState, fresh_state, replayed
from crankwise.tasks.workshop import Asked, Workshop, open_workshop
from tests.gear import BULL_WHEEL

ROWS = 5

clocks = st.floats(-1e6, 2e9, allow_nan=False)


@dataclass(frozen=True)
class Page:
    """What a phone shows: the run as it stood when the page was made."""

    state: RunState


class TwoPhones(RuleBasedStateMachine):
    """Two servers on one file; taps that are sent at once, late, twice, from old pages, by wrong clocks."""

    pages = Bundle("pages")
    sent = Bundle("sent")

    def __init__(self) -> None:
        super().__init__()
        self.closing = ExitStack()
        self.folder = self.closing.enter_context(tempfile.TemporaryDirectory())
        self.servers = [self.open(), self.open()]
        job = self.servers[0].new_job(self.servers[0].keep_head(BULL_WHEEL).id, Asked(count=str(ROWS - 1)))
        run = self.servers[0].begin_run(job.id)
        self.run_id, self.fresh = run.id, fresh_state(run.rows)
        self.taps = 0
        self.acknowledged: list[Entry] = []
        self.state = self.fresh

    def open(self) -> Workshop:
        return open_workshop(self.folder)

    def teardown(self) -> None:
        for server in self.servers:
            server.close()
        self.closing.close()

    @rule(target=pages, server=st.sampled_from([0, 1]))
    def look(self, server: int) -> Page:
        return Page(self.servers[server].run(self.run_id).state)

    @rule(target=sent, page=pages, kind=st.sampled_from(["done", "done", "back"]), at=clocks)
    def press(self, page: Page, kind: Kind, at: float) -> object:
        """Press what the page offers; the tap is on its way, and not there yet."""
        self.taps += 1
        name, seen = f"tap {self.taps}", page.state.entries
        if not page.state.began:
            return (page, Entry("began", name, at, numbers_grow=True, seen=seen))
        row = page.state.at_row if kind == "done" else page.state.at_row - 1
        if not 0 <= row < ROWS:
            return multiple()
        return (page, Entry(kind, name, at, row, seen=seen))

    @rule(tap=sent, server=st.sampled_from([0, 1]))
    def arrive(self, tap: tuple[Page, Entry], server: int) -> None:
        """A tap arrives, now or late, once or again."""
        page, entry = tap
        before = self.state
        run, counted = self.servers[server].tap(self.run_id, entry)
        if counted:
            assert page.state == before, "a tap counted that was made on another state of the run"
            assert entry not in self.acknowledged
            self.acknowledged.append(entry)
            assert abs(run.state.at_row - before.at_row) == (entry.kind != "began")
        else:
            assert run.state == before
        self.state = run.state

    @rule(server=st.sampled_from([0, 1]))
    def restart(self, server: int) -> None:
        self.servers[server].close()
        self.servers[server] = self.open()

    @invariant()
    def the_run_is_what_its_journal_says(self) -> None:
        for server in self.servers:
            journal = server.journal(self.run_id)
            assert list(journal) == self.acknowledged
            assert server.run(self.run_id).state == replayed(self.fresh, journal) == self.state


TestTwoPhones = TwoPhones.TestCase
TestTwoPhones.settings = settings(max_examples=40, stateful_step_count=40, deadline=None)
