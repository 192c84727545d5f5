"""The passes of a run on paper: what each is called, what is ticked in it, what is counted."""

from collections.abc import Sequence

from crankwise.part.part import Part
from crankwise.plan.passes import Pass, PassName
from crankwise.plan.side_by_side import SideBySide
from crankwise.wording.run_checks import pass_text
from crankwise.wording.sheet import TODO, WORK_NOUNS

TICKED: dict[PassName, str] = {"work": "done", "trace": "trace", "rough": "rough", "finish": "finish"}
COUNTED_HERE = "ticked on this page: count them in each pass"
ROUND_AGAIN = "round again"
BACK_FIRST = "first back past zero"
TURNS_BEGIN_AGAIN = (
    "Passes side by side on one list are made one after the other, each over all its lines; "
    "each begins again at the first line of the list, and counts from there."
)


def pass_name(one: Pass, part: Part) -> str:
    """Return what a pass is called: Trace; Roughing, 1.50 mm deep; Long lines; else what it makes: Spaces."""
    name = pass_text(one, 0, 1) or WORK_NOUNS[part.work][1]
    return f"{name[:1].upper()}{name[1:]}"


def passes_text(passes: Sequence[Pass], part: Part) -> str:
    """Return the passes in their order: 1 trace; 2 roughing, 1.50 mm deep; 3 finishing, 1.80 mm deep."""
    told = (pass_name(one, part) for one in passes)
    return "; ".join(f"{number} {text[:1].lower()}{text[1:]}" for number, text in enumerate(told, 1))


def list_title(shared: SideBySide, of: int, part: Part) -> str:
    """Return what a list is headed with: its passes, and how many positions; empty where it is the only one.

    of  how many passes the run has
    """
    if len(shared.passes) == of:
        return ""
    names = [pass_text(one, shared.number + index, of) for index, one in enumerate(shared.passes)]
    names = [name if index == 0 else f"{name[:1].lower()}{name[1:]}" for index, name in enumerate(names)]
    return f"{'; '.join(names)}: {_positions(wanted(shared), part)}"


def wanted(shared: SideBySide) -> int:
    """Return how many positions a pass of a list goes over: what its marks must count to."""
    return sum(not row.closing for row in shared.rows)


def where_in(shared: SideBySide, of: int) -> str:
    """Return which passes a list is of, in the fewest words, for the end of a page; empty where it is the only one."""
    first, last = shared.number + 1, shared.number + len(shared.passes)
    if last - first + 1 == of:
        return ""
    return f"pass {first}" if first == last else f"passes {first} to {last}"


def count_here(count: int, passes: int, closes: bool) -> str:
    """Return what the ticks of one page must count to, beside the boxes to write it in.

    closes  whether the page has the line on which the first position is met again, which is not counted
    """
    each = " in each pass" if passes > 1 else ""
    but = ", the last line left out" if closes else ""
    return f"ticked on this page: count them. Wanted: {count}{each}{but}."


def count_in_all(count: int, part: Part, ticks: Sequence[str]) -> str:
    """Return what is counted at the end of a list: the marks on the work itself."""
    blanks = ", ".join(f"{name} ______" for name in ticks)
    return f"Counted on the work: {blanks} (wanted: {_positions(count, part)})."


def todo_text(part: Part, one: Pass) -> str:
    """Return what is done at a position in one pass, for a table: lock, a faint mark only."""
    how = {"rough": " (rough)", "finish": " (finish)", "trace": "lock, a faint mark only"}.get(one.name, "")
    told = how if one.name == "trace" else f"{TODO[part.work]}{how}"
    return told.replace("lock,", "pin home,", 1) if part.is_geared else told


DISTANCE_TO_HEIGHT = 200
"""From how many times its height a figure is read. Source: common practice, no source."""


def wall_reads_from(
    figure_mm: float, lesser_mm: float, word_mm: float, has_ring: bool, has_marks: bool
) -> str:
    """Return from how far a sheet on the wall is read, by the height of its figures in mm.

    figure_mm  of what is set;  lesser_mm  of the ring's check and of numerals;  word_mm  of the words for lines
    """
    far, less_far, near = (
        f"{height * DISTANCE_TO_HEIGHT / 1000:.1f} m" for height in (figure_mm, lesser_mm, word_mm)
    )
    told = [f"Figures {figure_mm:.1f} mm high, to be read from {far}"]
    if has_ring:
        told.append(f"the ring's check from {less_far}")
    if has_marks:
        told.append(f"numerals from {less_far} and lines from {near}")
    box = " A box: read the ring there, and write it on the clipboard." if has_ring else ""
    return f"{'; '.join(told)}.{box}"


def _positions(count: int, part: Part) -> str:
    return f"{count} {WORK_NOUNS[part.work][count != 1]}"
