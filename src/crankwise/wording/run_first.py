"""Going back to the first line or space, in words: the question, what was found, what to do."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.part.part import Part, Work
from crankwise.plan.plan import Plan
from crankwise.run.entry import Entry, is_put_off
from crankwise.run.first_line import meets, turns_off
from crankwise.wording.card import length_text
from crankwise.wording.run_where import size_text

NAMES: dict[Work, str] = {
    "space": "space",
    "line": "line",
    "hole": "hole",
    "flat": "flat",
    "position": "position",
}
ASK: dict[Work, str] = {
    "space": "Does the cutter fall into the first space and touch neither flank?",
    "line": "Does the tool fall into the first line?",
    "hole": "Does the drill fall into the first hole?",
    "flat": "Does the cutter meet the first flat all over?",
    "position": "Does the tool meet the first position?",
}
MEETS: dict[Work, str] = {
    "space": "It falls in",
    "line": "It falls in",
    "hole": "It falls in",
    "flat": "It meets it",
    "position": "It meets it",
}
MOST_BY_NAME = 6
NOT_NOW = "Not now"
BEFORE = "Before the next one go back to the first {first}, machine off."
ASKED_AGAIN = "Put off earlier, and asked again now."
AHEAD = "Seen from the tool. Ahead is the way the work moves on."
NO_RIM = (
    "How much of a turn that is, is not known: the job has no rim. Measure it in degrees, and take the slip in by "
    "“Where am I?”."
)


def first_name(part: Part) -> str:
    """Return what the first one of a part is: line, space, hole, flat or position."""
    return NAMES[part.work]


def first_words(part: Part) -> dict[str, str]:
    """Return what every question about the first one says, by what it is for; `unit` is mm or degrees."""
    return {
        "what": first_name(part),
        "ask": ASK[part.work],
        "meets": MEETS[part.work],
        "not_now": NOT_NOW,
        "again": ASKED_AGAIN,
        "before": BEFORE.format(first=first_name(part)),
        "ahead": AHEAD,
        "unit": "mm" if part.is_straight or part.rim_mm is not None else "degrees",
    }


def missed_text(plan: Plan, entry: Entry) -> str:
    """Return how far the first one stands off the tool, and which way, as it was measured."""
    off = entry.angle if entry.off_mm is None else entry.off_mm
    far = size_text(plan, off or Fraction(0)) if entry.off_mm is None else length_text(abs(entry.off_mm))
    side = "ahead of" if (off or 0) > 0 else "behind"
    return f"The first {first_name(plan.part)} stands {far} {side} the tool."


def return_entry_text(plan: Plan, entry: Entry, number: str) -> str:
    """Return one return of the journal in words.

    number  of the position before which it was asked for
    """
    first = f"the first {first_name(plan.part)}"
    if is_put_off(entry):
        return f"Before position {number}: going back to {first} was put off."
    by = f", by {entry.means}" if entry.means else ""
    if meets(plan.part, entry):
        return f"Before position {number}: the tool met {first}{by}."
    off = entry.angle if entry.off_mm is None else entry.off_mm
    side = "ahead of" if (off or 0) > 0 else "behind"
    return f"Before position {number}: {first} stood {_far(plan, entry)} {side} the tool{by}."


def since_met_text(positions: Sequence[str]) -> str:
    """Return which positions were worked since the first one was last met; empty where none was.

    >>> since_met_text([str(one) for one in range(75)])
    'To be looked at, worked since it was last met: 0 to 74, 75 of them.'
    """
    if not positions:
        return ""
    told = ", ".join(positions)
    if len(positions) > MOST_BY_NAME:
        told = f"{positions[0]} to {positions[-1]}, {len(positions)} of them"
    return f"To be looked at, worked since it was last met: {told}."


def _far(plan: Plan, entry: Entry) -> str:
    turns = turns_off(plan.part, entry)
    if entry.off_mm is None:
        return size_text(plan, turns or Fraction(0))
    length = length_text(abs(entry.off_mm))
    return length if turns is None or plan.part.is_straight else f"{length}, {size_text(plan, turns)},"
