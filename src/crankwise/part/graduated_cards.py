"""The preparation card and the measuring card of graduated work.

Tolerances shown are typical and can be changed: judgement, for scales read by eye.
"""

from collections.abc import Iterator
from fractions import Fraction

from crankwise.part.card import Card, CardLine
from crankwise.part.graduated import Graduated
from crankwise.part.line_classes import LineClass
from crankwise.part.order_of_work import orders_of_work
from crankwise.part.scale_direction import ScaleDirection
from crankwise.part.stop_pieces import stop_pieces

RUNS_TRUE_MM = Fraction(1, 50)
"""How true the face must run before lines are cut. Typical, judgement: 0.05 mm shows in the width of V lines."""
LINE_TOLERANCE_MM = Fraction(3, 100)
"""How far out a line may be. Typical, judgement: about a fifth of a line's width looks perfect."""
_ORDERS = {"class-by-class": "class by class", "straight-round": "straight round"}


def preparation_card(work: Graduated, direction: ScaleDirection, is_vernier: bool = False) -> Card:
    """Return what to have ready before the first line, in the order of work.

    is_vernier  whether it is read against the lines of another piece, which must meet its own
    """
    return Card("Preparation", tuple(_preparation(work, direction, is_vernier)))


def _preparation(work: Graduated, direction: ScaleDirection, is_vernier: bool) -> Iterator[CardLine]:
    surface = work.surface
    yield CardLine("reading edge, across", surface.diameter_mm, "mm")
    if surface.face_mm is not None:
        yield CardLine("face", surface.face_mm, "mm", note="from the reading edge, the way the lines run")
    if surface.kind == "cone":
        yield CardLine("cone, slant to axis", surface.cone_angle, "turn", note="lines lie along the slant")
    if is_vernier:
        yield _mating(work)
    yield CardLine(
        "blank",
        note="face and turn it on its own mandrel at the same setting that it is graduated in; it must run true: "
        "60° V lines are 1.15 times as wide as deep, so a face out of true shows",
    )
    yield CardLine("must run true within", RUNS_TRUE_MM, "mm")
    yield CardLine(
        "material",
        note="brass or free-cutting steel without scale; lines in soft aluminium tear and show every burr",
    )
    yield CardLine(
        "tool",
        note="a V tool that does not turn, at centre height, square to the work; one grind for all lines of a scale; "
        "or a mill's quill with its spindle stopped and locked",
    )
    alike = len({(one.width_mm, one.depth_mm) for one in work.classes.classes}) == 1
    for one in work.classes.classes:
        what = f"{one.name} lines" if len(work.classes.classes) > 1 else "lines"
        yield CardLine(f"{what}, long", one.length_mm, "mm")
        if not alike:
            yield from _cut(what, one)
    if alike:
        yield from _cut("all lines" if len(work.classes.classes) > 1 else "lines", work.classes.classes[0])
    yield from _stops(work)
    yield CardLine(
        "end of the stroke",
        note="each stroke leaves a curl: run out into a groove turned there, or break it off and dress it flat",
    )
    yield CardLine(
        "trial",
        note="wrap or lay a 1:1 paper strip first: count the numerals, and see that they grow the right way",
    )
    yield CardLine(
        "direction",
        note=f"the numbers run {direction.numbers_run}, looking at the face; crank forward and look at it: "
        f"the work must turn {direction.work_turns} under the tool",
    )
    yield from _stamps(work)


def _mating(work: Graduated) -> CardLine:
    """Where the main scale that a vernier is read against lies, and which way its lines run from the gap."""
    run = work.surface.lines_run
    other = "out" if run == "in" else "in"
    note = f"lines of both meet at the reading edge: the vernier's run {run} from it, the main scale's must run {other}"
    if work.surface.kind == "ring":
        lies, elsewhere = ("outside", "inside") if run == "in" else ("inside", "outside")
        note += (
            f", so the main scale lies {lies} the vernier; where yours lies {elsewhere}, "
            f"cut this one with lines that run {other}"
        )
    else:
        note += (
            f", on the other side of the gap; where yours run {run}, cut this one with lines that run {other}"
        )
    return CardLine("main scale", note=note)


def _cut(what: str, one: LineClass) -> Iterator[CardLine]:
    yield CardLine(f"{what}, wide", one.width_mm, "mm")
    if one.depth_mm is not None:
        yield CardLine(f"{what}, deep", one.depth_mm, "mm", note="from one touch-off for all lines")


def _stops(work: Graduated) -> Iterator[CardLine]:
    if len(work.classes.classes) == 1:
        return
    for piece in stop_pieces(work.classes):
        if piece.thickness_mm:
            yield CardLine(f"stop piece for {piece.line_class.name} lines", piece.thickness_mm, "mm")
    yield CardLine("bare stop", note=f"for {work.classes.longest.name} lines")
    for order in orders_of_work(work):
        changes = "change" if order.stop_changes == 1 else "changes"
        strokes = ", ".join(f"{count} {name}" for name, count in order.strokes)
        yield CardLine(
            _ORDERS[order.name],
            note=f"{strokes} strokes, {order.stop_changes} {changes} of stop, "
            f"{float(order.spindle_turns):.2f} turns of the spindle",
        )


def _stamps(work: Graduated) -> Iterator[CardLine]:
    numerals = work.numerals
    if numerals is None:
        return
    yield CardLine("numerals, high", numerals.lettering.height_mm, "mm")
    yield CardLine("numerals, middle from the reading edge", abs(work.middle_mm), "mm")
    if not numerals.lettering.shank_mm:
        return
    yield CardLine("shank of a stamp", numerals.lettering.shank_mm, "mm")
    texts = [text for text in numerals.on(work.scale) if text]
    if any(len(text) > 1 for text in texts):
        yield CardLine(
            "numerals of two figures and more",
            note="the shanks are wider than the figures, so they never stand side by side: stamp one figure at a "
            "time in a guide on the middle, and turn the spindle by its offset; never butt the shanks",
        )
    yield CardLine(
        "stamping",
        note="back the ring fully, strike every figure equally deep; stamp before the last skim, which takes the "
        "raised metal off; glasses on, fingers on the guide and not on the tip",
    )


def measuring_card(work: Graduated) -> Card:
    """Return what to look at and measure afterwards, with what, and what to do if it is off."""
    return Card("Measuring", tuple(_measuring(work)))


def _measuring(work: Graduated) -> Iterator[CardLine]:
    lines = work.lines()
    yield CardLine("lines", Fraction(len(lines)), "count", note="count them on the trace pass, and again")
    if work.scale.divisions.goes_round:
        yield CardLine(
            "closing", note="on to position N, which is 0 again: the tool falls into the first line"
        )
    counts = {
        one.name: sum(line.line_class.name == one.name for line in lines) for one in work.classes.classes
    }
    for name, count in counts.items():
        if len(counts) > 1:
            yield CardLine(f"{name} lines", Fraction(count), "count")
    tolerance = float(LINE_TOLERANCE_MM)
    yield CardLine(
        "least spacing",
        work.least_spacing_mm,
        "mm",
        low=work.least_spacing_mm - 2 * tolerance,
        high=work.least_spacing_mm + 2 * tolerance,
        using="loupe with a scale, at the reading edge",
        note="the eye sees a jump between neighbours of a twentieth of the spacing",
    )
    yield CardLine(
        "width of a line",
        work.classes.classes[0].width_mm,
        "mm",
        using="loupe",
        note="the same all round, or the face did not run true; faint lines are deepened before anything is moved",
    )
    longest = work.classes.longest
    yield CardLine(
        f"{longest.name} lines" if len(counts) > 1 else "a line",
        longest.length_mm,
        "mm",
        using="calliper, on the first line",
        note="all lengths out by the same: move the fixed stop, not the pieces",
    )
