"""Make the run sheet of a plan, as bytes or as a file."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

from crankwise.errors import BadDivisions, UnknownThing
from crankwise.files.whole_file import write_whole
from crankwise.part.part import WORKS, Part, Work
from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import line_classes
from crankwise.sheets.pdf_pages import PAPERS, Paper
from crankwise.tasks.divide import Division
from crankwise.tasks.print_forms import form_by_ending, paper_by_name
from crankwise.ways.ranking import is_within
from crankwise.ways.way import Way
from crankwise.wording.sheet import counted

Form = Literal["csv", "xlsx", "pdf", "html"]
Wall = Literal["far", "near"]
"""A PDF for the wall: to be read from two metres, or from one on a third of the paper."""

ENDINGS: tuple[Form, ...] = ("pdf", "html", "xlsx", "csv")
MOST_LINES: Mapping[Form, int] = {"csv": 200_000, "xlsx": 200_000, "pdf": 20_000, "html": 20_000}
"""A sheet of more lines than this is not for a clipboard, and would take a minute to make and a gigabyte to hold."""

WAYS_TOLD = 12


@dataclass(frozen=True, slots=True)
class WrittenSheet:
    """What was written: where, in which form, how large, on which paper (None where it has none), for which wall."""

    path: str
    form: Form
    size: int
    paper: Paper | None
    wall: Wall | None = None


def sheet_bytes(
    plan: Plan,
    title: str,
    form: Form,
    paper: Paper = "A4",
    usual: tuple[str, ...] = (),
    link: str = "",
    setup: tuple[tuple[str, str], ...] = (),
    passes: Passes = ONE_PASS,
    wall: Wall | None = None,
) -> bytes:
    """Return the run sheet of a plan.

    title  the job's name, as its owner typed it
    paper  what a PDF is laid out for
    usual  the cautions of this kind of part; those of its work where none are given
    link   where a phone finds the run, for the code on paper; empty where that is not known
    setup  what else is set on the machine for this kind of part: names and texts
    passes    once or more over the positions
    wall      from how far a PDF for the wall is to be read; None for one for the clipboard

    Raises MissingExtra when a PDF or a workbook is asked for and its package is not installed, BadDivisions when
    there are too many positions for this form, the way cannot make these passes, or the wall is asked for
    another form than a PDF.
    """
    if wall and form != "pdf":
        raise BadDivisions(
            "wall", f"the form for the wall is a PDF, not {form.upper()}; end the file in .pdf"
        )
    _check_room(plan, form, passes)
    if form == "csv":
        from crankwise.sheets.csv_table import csv_bytes

        return csv_bytes(plan, title, passes)
    if form == "xlsx":
        from crankwise.sheets.run_workbook import run_workbook_bytes

        return run_workbook_bytes(plan, title, passes)
    from crankwise.sheets.sheet import sheet_of

    sheet = sheet_of(plan, title, usual, link, setup, passes)
    if form == "html":
        from crankwise.sheets.html_page import html_bytes

        return html_bytes(sheet)
    if wall:
        from crankwise.sheets.wall_sheet import wall_sheet_bytes

        return wall_sheet_bytes(sheet, paper, near=wall == "near")
    from crankwise.sheets.pdf_pages import pdf_bytes

    return pdf_bytes(sheet, paper)


def _check_room(plan: Plan, form: Form, passes: Passes) -> None:
    positions = len(plan.part.divisions)
    classes = line_classes(plan)
    lines = sum(len(one.order(positions, classes)) for one in passes)
    if lines > MOST_LINES[form]:
        raise BadDivisions(
            "sheet",
            f"{lines:,} positions{' over all passes' if len(passes) > 1 else ''}; a {form.upper()} sheet "
            f"holds {MOST_LINES[form]:,} at most; make it in pieces, by the first and the last position",
        )


def write_sheet(
    plan: Plan,
    title: str,
    path: str,
    paper: Paper = "A4",
    usual: tuple[str, ...] = (),
    setup: tuple[tuple[str, str], ...] = (),
    passes: Passes = ONE_PASS,
    wall: Wall | None = None,
) -> WrittenSheet:
    """Write the run sheet whole or not at all; the path's ending says in which form.

    Raises BadFile when the ending is none of ours or the file cannot be written, and whatever
    `sheet_bytes` raises, before anything is written.
    """
    form = form_of(path)
    content = sheet_bytes(plan, title, form, paper, usual, "", setup, passes, wall)
    write_whole(path, content)
    return WrittenSheet(path, form, len(content), paper if form == "pdf" else None, wall)


def form_of(path: str) -> Form:
    """Return the form that a path's ending asks for. Raises BadFile."""
    return form_by_ending(path, ENDINGS, "a sheet")


def read_paper(typed: str) -> Paper:
    """Return the paper that was typed, in capitals or not. Raises UnknownThing."""
    return paper_by_name(typed, PAPERS, "a sheet")


def read_work(typed: str) -> Work:
    """Return the kind of work that was typed. Raises UnknownThing."""
    for work in WORKS:
        if work == typed.strip().lower():
            return work
    raise UnknownThing(f"work: {typed!r}; what is made at each position is one of {', '.join(WORKS)}")


def chosen_way(division: Division, named: str | None) -> Way | None:
    """Return the best way, or the best of those named by key or method; None when the answer is no.

    named  also "corrected", or a method with ":corrected" after it: settings that make good the head's known errors

    Raises UnknownThing, with the ways there are, when none has that name.
    """
    if not named:
        return division.ways[0] if division.is_answered else None
    if "corrected" in named:
        from crankwise.plan.corrected import corrected_ways

        ways = corrected_ways(division.head, division.part.divisions, division.tolerance)
        division, named = (
            replace(division, ways=division.left_of(ways)),
            named.removesuffix("corrected").rstrip(":"),
        )
        if not named:
            return division.ways[0] if division.is_answered else None
    for way in division.ways:
        if named in (way.key, way.method):
            return way if division.tolerance is None or is_within(way, division.tolerance) else None
    if not division.ways:
        return None
    keys = [way.key for way in division.ways]
    more = f" and {len(keys) - WAYS_TOLD} more" if len(keys) > WAYS_TOLD else ""
    raise UnknownThing(
        f"way: {named!r} is none of the ways to divide this; there are, the best first: "
        f"{', '.join(keys[:WAYS_TOLD])}{more}"
    )


def title_for(part: Part, head_name: str) -> str:
    """Return the name of a job that was given none: 149 lines on the Bench head."""
    return f"{counted(part)} on the {head_name}"
