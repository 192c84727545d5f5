"""A sized part in words: what it is, what to beware of, its tables and cards, and the cautions for the work."""

from collections.abc import Sequence

from crankwise.part.card import Card
from crankwise.part.part import Work
from crankwise.wording.card import card_text
from crankwise.wording.cautions import cautions

Warned = tuple[str, str]
"""A warning: its code, which is promised, and its sentence, which is not."""


def part_text(
    name: str,
    cards: Sequence[Card],
    *,
    tables: Sequence[str] = (),
    warnings: Sequence[Warned] = (),
    work: Work = "space",
    positions: int = 0,
    kind: str = "",
    inch_first: bool = False,
) -> str:
    """Return the whole answer about one part, a blank line between its pieces.

    tables     lined-up tables that stand between what it is and its cards
    work       what is made at each position: the cautions are for it
    positions  how many there are; a long run advises breaks
    kind       of part, as in a job file; some add a caution of their own
    """
    blocks = [f"{name[:1].upper()}{name[1:]}"]
    if warnings:
        blocks.append("\n".join(f"Beware: {sentence}." for _, sentence in warnings))
    blocks += tables
    blocks += [card_text(card, inch_first) for card in cards]
    blocks.append("\n".join(cautions(work, positions, kind)))
    return "\n\n".join(blocks)


def runs_told(runs: int, done: int) -> str:
    """Return how far a part is that takes several runs: 6 runs of one part, 2 done."""
    told = "all done" if done == runs else f"{done} done" if done else "none done"
    return f"{runs} runs of one part, {told}"
