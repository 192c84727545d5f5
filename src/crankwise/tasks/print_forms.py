"""In which form, and on which paper, something is printed: read from a path's ending and a paper's name."""

from collections.abc import Iterable
from pathlib import PurePath
from typing import TypeVar

from crankwise.errors import BadFile, UnknownThing
from crankwise.exact.number import shown

Named = TypeVar("Named", bound=str)


def form_by_ending(path: str, forms: Iterable[Named], what: str) -> Named:
    """Return the form that a path's ending asks for. Raises BadFile with the endings there are.

    what  what is written: "a sheet"
    """
    forms = tuple(forms)
    ending = PurePath(path).suffix.lower().removeprefix(".")
    for form in forms:
        if form == ending:
            return form
    found = f"the ending .{ending} is" if ending else "a name without an ending is"
    endings = f"{', '.join(f'.{form}' for form in forms[:-1])} or .{forms[-1]}"
    raise BadFile(f"{path}: {found} no form of {what}; end it in {endings}")


def paper_by_name(typed: str, papers: Iterable[Named], what: str) -> Named:
    """Return the paper that was typed, in capitals or not. Raises UnknownThing with the papers there are."""
    papers = tuple(papers)
    for paper in papers:
        if paper.lower() == typed.strip().lower():
            return paper
    names = f"{', '.join(papers[:-1])} or {papers[-1]}"
    raise UnknownThing(f"paper: {shown(typed)}; {what} is laid out for {names}")
