"""The passes of a run, from what was typed when it was begun."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from crankwise.errors import BadDivisions
from crankwise.exact.length import read_length
from crankwise.exact.number import as_text
from crankwise.plan.passes import (
    ONE_PASS,
    Pass,
    Passes,
    long_lines_first,
    one_class_after_another,
    rough_then_finish,
    with_trace,
)
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import line_classes

MOST_CIRCUITS = 100

ORDERS: Mapping[str, str] = {
    "straight": "straight round",
    "spread": "spread, in several circuits",
    "lengths": "long lines first",
}

CUTS: Mapping[str, str] = {
    "one": "one",
    "two": "roughing, then finishing",
}


@dataclass(frozen=True, slots=True)
class AskedPasses:
    """What was typed for the passes of a run; an empty text where nothing was.

    trace                   whether a faint mark at every position comes first
    cuts                    one of CUTS; empty for one
    rough_depth, finish_depth  depth of each, as a length
    order                   one of ORDERS; the usual is straight round
    circuits                how many circuits a spread order makes
    lengths                 every how many positions a longer line stands, the longest first: 10, 5. Empty
                            where the part itself tells lines apart
    """

    trace: bool = False
    cuts: str = ""
    rough_depth: str = ""
    finish_depth: str = ""
    order: str = ""
    circuits: str = ""
    lengths: str = ""


def asked_passes(plan: Plan, asked: AskedPasses) -> Passes:
    """Return the passes that were asked for. Raises Mendable when they cannot be read, or not be made."""
    _check_belongs(asked)
    passes = _cuts(asked)
    if asked.order == "spread":
        circuits = _count(asked.circuits, "circuits", MOST_CIRCUITS)
        passes = tuple(replace(one, spread=circuits) for one in passes)
    elif asked.order == "lengths":
        passes = tuple(
            replace(by_length, name=cut.name, depth_mm=cut.depth_mm)
            for cut in passes
            for by_length in _by_length(plan, asked.lengths)
        )
    elif asked.order not in ("", "straight"):
        raise BadDivisions("order", f"{asked.order!r}; an order is one of {', '.join(ORDERS)}")
    return with_trace(passes) if asked.trace else passes


def passes_answer(plan: Plan, passes: Passes) -> list[dict[str, object]]:
    """Return the passes for a program: what each is, which positions in which order, how deep."""
    classes = line_classes(plan)
    return [
        {
            "name": one.name,
            "each": one.each,
            "but_not": one.but_not,
            "circuits": one.spread,
            "line_class": one.line_class,
            "depth_mm": None if one.depth_mm is None else as_text(one.depth_mm),
            "positions": len(one.order(len(plan.part.divisions), classes)),
        }
        for one in passes
    ]


def _check_belongs(asked: AskedPasses) -> None:
    """Refuse what would be passed over in silence."""
    if asked.cuts not in ("", *CUTS):
        raise BadDivisions("cuts", f"{asked.cuts[:20]!r}; cuts are one of {', '.join(CUTS)}")
    if asked.rough_depth.strip() and asked.cuts != "two":
        raise BadDivisions(
            "roughing depth", "given, but only one cut is asked for; ask for two cuts, or leave it out"
        )
    for what, typed, order in (("circuits", asked.circuits, "spread"), ("lengths", asked.lengths, "lengths")):
        if typed.strip() and asked.order != order:
            raise BadDivisions(
                what, f"given, but the order is not {ORDERS[order]}; choose it, or leave it out"
            )


def _cuts(asked: AskedPasses) -> Passes:
    rough, finish = _depth(asked.rough_depth, "roughing"), _depth(asked.finish_depth, "finishing")
    if asked.cuts == "two":
        if rough is not None and finish is not None and finish <= rough:
            raise BadDivisions(
                "finishing", "its depth is counted from the rim, as that of roughing is, so it is the larger"
            )
        return rough_then_finish(rough, finish)
    return ONE_PASS if finish is None else (Pass(depth_mm=finish),)


def _depth(typed: str, what: str) -> Fraction | None:
    return read_length(typed, what) if typed.strip() else None


def _by_length(plan: Plan, typed: str) -> Passes:
    if not typed.strip():
        classes = line_classes(plan)
        if not classes:
            raise BadDivisions(
                "lengths", "this job does not tell lines apart; say where longer ones stand: 10, 5"
            )
        return one_class_after_another(classes)
    lengths = [_count(part, "lengths", len(plan.part.divisions)) for part in typed.split(",")]
    for longer, shorter in pairwise(lengths):
        if longer % shorter or longer == shorter:
            raise BadDivisions(
                "lengths",
                f"{longer}, {shorter}; each is a multiple of the next, the longest lines first: 10, 5",
            )
    return long_lines_first(*lengths)


def _count(typed: str, what: str, most: int) -> int:
    text = typed.strip()
    if not text.isascii() or not text.isdecimal() or len(text) > 6 or not 2 <= int(text) <= most:
        raise BadDivisions(what, f"{text[:20]!r}; a whole number from 2 to {most}")
    return int(text)
