"""A run to take along on a phone with no server, and its journal brought home again."""

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from crankwise.errors import BadTap, Mendable
from crankwise.files.journal_text import EDITED, LONGEST, PocketJournal, read_journal_text
from crankwise.files.typed_file import typed_text
from crankwise.run.guide import direction_test
from crankwise.run.journal import Entry, after, fresh_state, replayed
from crankwise.run.merge import Merged
from crankwise.sheets.pocket_card import card_bytes
from crankwise.store.kept import KeptRun
from crankwise.tasks.batch import check_batch
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.run_answer import TellTarget, run_answer
from crankwise.tasks.where_told import where_told, where_words
from crankwise.tasks.workshop import Workshop
from crankwise.wording.along import target_text
from crankwise.wording.cautions import plan_cautions
from crankwise.wording.run import (
    OVERSHOOT,
    OVERSHOOT_BY_HAND,
    direction_question,
    disagreement,
    finished_text,
    rhythm,
    trace_text,
)
from crankwise.wording.run_checks import conflict_text, witness_text
from crankwise.wording.sheet import zero_text

_SITE = re.compile(r"https?://[^\s/?#\"<>]+")


class BadSite(Mendable):
    """What is given as the workshop's address is none."""


@dataclass(frozen=True, slots=True)
class BroughtHome:
    """What came of a card's journal: the run as it now stands, and how many taps were taken or known already."""

    run: KeptRun
    merged: Merged
    conflicts: tuple[str, ...]

    @property
    def counted(self) -> int:
        """Taps that were added to the run."""
        return len(self.merged.added)


def pocket_card(
    workshop: Workshop, run_id: int, site: str = "", tell_target: TellTarget = target_text
) -> bytes:
    """Return a run as one HTML file for a phone. Raises UnknownThing, BadSite.

    site         where the workshop is found from the phone; empty where that is not known
    tell_target  how its targets are written
    """
    if site and _SITE.fullmatch(site) is None:
        raise BadSite(
            f"site: {site[:60]!r} is no address that a phone opens; it looks like http://shed.local:8127"
        )
    run = workshop.run(run_id)
    journal = workshop.journal(run_id)[: run.state.entries]
    told = run_answer(run, journal, tell_target=tell_target)
    if run.watch.evidence(run.state.anchor).readable:
        told["where"] = where_told(run.watch, run.state.anchor)
    usual = job_made(workshop.job(run.job_id).asked).cautions
    return card_bytes(told, _words(run, usual), site)


def _words(run: KeptRun, usual: tuple[str, ...]) -> dict[str, Any]:
    """Return the sentences of a card; `usual` are the cautions of its kind of part."""
    test, plan = direction_test(run.plan.head), run.plan
    closes = run.rows[-1].closing
    return {
        "witness": witness_text(run.watch.checks.witness_marks),
        "zero": zero_text(plan, run.rows[0].reached.setting, on_paper=False),
        "trace": "" if run.rows[0].work.name == "trace" else trace_text(plan),
        "question": direction_question(test),
        "watched": test.watched,
        "expected": test.expected,
        "disagreement": disagreement(test) if test.expected is not None else "",
        "cautions": list(plan_cautions(plan, usual)),
        "rhythm": list(rhythm(plan.part)),
        "overshoot": OVERSHOOT if plan.head.ratio else OVERSHOOT_BY_HAND,
        "where": where_words(plan),
        "finished": finished_text(plan, len(plan.part.divisions) + closes, closes),
    }


def bring_home(workshop: Workshop, run_id: int, text: str) -> BroughtHome:
    """Take a card's journal into its run; what the run has already is not doubled, nothing is guessed.

    All that was taken is kept durably, or none of it. Raises UnknownThing for the run, BadTap when the
    text is no journal, was changed, or belongs to another run, FaultsFound with every tap that makes no
    sense in it.
    """
    brought = looked_over(workshop, run_id, text)
    entries = brought.entries
    run, merged = workshop.take_in(run_id, entries, brought.seen, brought.identity, most=len(entries))
    return BroughtHome(run, merged, tuple(conflict_text(conflict, run.rows) for conflict in merged.conflicts))


def read_brought(path: str) -> str:
    """Return the text of a file that a card saved. Raises BadFile."""
    length = "a line or a few pages of text"
    return typed_text(path, "the journal of a pocket card", ", as the card saved it", LONGEST, length)


def looked_over(workshop: Workshop, run_id: int, text: str) -> PocketJournal:
    """Return a card's journal when it can be this run's, and changes nothing. Raises as `bring_home` does."""
    brought = read_journal_text(text)
    run = workshop.run(run_id)
    if brought.run != run_id or brought.identity != run.identity:
        raise BadTap(
            f"journal: it is of another run than {run.job_name!r}, run {run_id}; open the run that the card was "
            "made for, in the workshop that made it. Nothing was taken in"
        )
    journal = workshop.journal(run_id)
    if brought.seen > len(journal):
        raise BadTap(
            f"journal: the card was made when the run had {brought.seen} entries, and here it has {len(journal)}: "
            "this is not the workshop that it was made in. Nothing was taken in"
        )
    _check_that_it_follows(run, journal[: brought.seen], brought.entries)
    most = len(brought.entries)  # a card has one journal, and hands it in whole
    check_batch(brought.entries, len(run.rows), run.plan.head.ring, brought.identity, run.identity, most)
    return brought


def _check_that_it_follows(run: KeptRun, before: tuple[Entry, ...], entries: tuple[Entry, ...]) -> None:
    """A card keeps only taps that count, so one that does not count was never tapped there."""
    state = replayed(fresh_state(run.rows), before)
    states = [state]
    for entry in entries:
        state = after(state, entry)
        states.append(state)
    if any(earlier is later for earlier, later in pairwise(states)):
        raise BadTap(EDITED)
