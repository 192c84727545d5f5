"""Taps of a device that was away: looked over, and made one with the run's own journal."""

from collections.abc import Sequence
from dataclasses import replace

from crankwise.errors import BadTap, Fault, FaultsFound
from crankwise.head.ring import Ring
from crankwise.run.journal import Entry, RunState, after, counts
from crankwise.run.merge import Merged, merged
from crankwise.tasks.tap import check_tap

MOST_TAPS = 5000
"""Taps at once: more than a day's work; a longer journal comes in several."""


def check_batch(
    taps: Sequence[Entry],
    rows: int,
    ring: Ring | None,
    identity: str,
    identity_here: str,
    most: int = MOST_TAPS,
) -> None:
    """Look over the taps that a device sends, for a run of so many rows on a head with this ring.

    identity  of the run that they were made for; empty where the device does not say
    most      taps at once

    Raises BadTap when they belong to another run or are too many at once, FaultsFound with every tap
    that makes no sense, each by its place.
    """
    if identity and identity != identity_here:
        raise BadTap(
            "schedule: these taps were made for another run, and nothing was taken in; open the run that the "
            "phone was given, or hand it this one afresh"
        )
    if len(taps) > most:
        raise BadTap(f"taps: {len(taps):,} at once; {most:,} at most, so send them in several parts")
    faults = []
    for number, entry in enumerate(taps):
        try:
            check_tap(entry, rows, ring)
        except BadTap as error:
            faults.append(Fault(f"taps[{number}]", str(error)))
    if faults:
        raise FaultsFound(faults)


def taken(
    start: RunState, state: RunState, journal: Sequence[Entry], taps: Sequence[Entry], seen: int
) -> Merged:
    """Return what comes of taps that were made on top of the first `seen` entries of a journal.

    start  the run before its first entry; state: as it stands now

    Raises BadTap when the journal has fewer entries than the device says it has seen.
    """
    if seen > len(journal):
        raise BadTap(
            f"seen: {seen}; this run has {len(journal)} entries, so the phone was not given this one; "
            "nothing was taken in"
        )
    if seen == len(journal):
        added = _straight_on(state, {entry.tap for entry in journal}, taps)
        if added is not None:
            return Merged(added, (), ())
    return merged(start, journal, (*journal[:seen], *taps))


def _straight_on(state: RunState, known: set[str], taps: Sequence[Entry]) -> tuple[Entry, ...] | None:
    """Return the taps as they follow on, nothing having come between; None when one of them does not."""
    added = []
    for entry in taps:
        here = replace(entry, seen=None)
        if entry.tap in known or not counts(state, here):
            return None
        known.add(entry.tap)
        added.append(here)
        state = after(state, here)
    return tuple(added)
