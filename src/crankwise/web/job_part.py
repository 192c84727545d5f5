"""What a job's page shows of a part of some kind: its cards, what to beware of, its figures, its cautions."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from crankwise.part.card import Card
from crankwise.sheets.full_size import FULL_SIZE_PAPERS
from crankwise.tasks.gear_json import card_object
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.picture import MOST_DRAWN
from crankwise.tasks.workshop import Asked, KeptJob, KeptRun
from crankwise.web.job_again import again_address
from crankwise.web.part_picture import part_picture, row_under_the_tool
from crankwise.wording.card import limits_text, value_text
from crankwise.wording.cautions import plan_cautions
from crankwise.wording.sheet_cells import position_label


@dataclass(frozen=True, slots=True)
class CardRow:
    """One line of a card as it is shown; an empty text where there is nothing to say.

    what    what it is
    value   in both systems of units
    limits  of the value
    rest    what it is made or measured with, and why
    """

    what: str
    value: str
    limits: str
    rest: str


def part_values(job: KeptJob, inch_first: bool, runs: Iterable[KeptRun] = ()) -> dict[str, Any]:
    """Return what the job's page is filled with, beside its ways and its runs.

    inch_first  whether the visitor reads inches before millimetres
    runs        the runs of the job, the newest first: where they stand the tool is drawn
    """
    made = job_made(job.asked)
    part = job.plan.part
    row = row_under_the_tool(runs)
    return {
        "made": made,
        "again": again_address(job),
        "cards": [(card.title, card_rows(card, inch_first)) for card in made.cards],
        "picture": _picture(job.asked, row.reached.position if row else None),
        "under_tool": position_label(row, part.divisions.numbers[0]) if row else "",
        "papers": [(paper, paper) for paper in FULL_SIZE_PAPERS],
        "cautions": plan_cautions(job.plan, made.cautions),
    }


def _picture(asked: Asked, position: int | None) -> str:
    """Return the part's picture, empty for bare divisions and for more positions than can be told apart."""
    made = job_made(asked)
    if not made.name or len(made.part.divisions) > MOST_DRAWN:
        return ""
    return part_picture(asked, position)


def card_rows(card: Card, inch_first: bool) -> list[CardRow]:
    """Return the lines of a card in words."""
    return [
        CardRow(
            line.what,
            value_text(line, inch_first),
            limits_text(line, inch_first),
            "; ".join(filter(None, (line.using, line.note))),
        )
        for line in card.lines
    ]


def part_object(job: KeptJob) -> dict[str, Any] | None:
    """Return the same for a program; None for bare divisions."""
    if not job.asked.part:
        return None
    made = job_made(job.asked)
    return {
        "name": made.name,
        "cards": [card_object(card) for card in made.cards],
        "warnings": [{"code": code, "text": text} for code, text in made.warnings],
        "notes": list(made.notes),
        "marks": [
            {"line_class": mark.line_class, "numeral": mark.numeral, "note": mark.note}
            for mark in job.plan.part.marks
        ],
    }
