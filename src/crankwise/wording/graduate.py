"""Graduated work in words: what touches what, what cures it, how it reads, which way it runs."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.card import Card
from crankwise.part.collisions import Collision
from crankwise.part.graduated import Graduated, Line
from crankwise.part.legibility import ScaleFinding, read_to
from crankwise.part.numeral_fixes import MOST_HEIGHT_MM, Fix
from crankwise.part.scale_direction import ScaleDirection
from crankwise.part.vernier_scale import Vernier
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.card import angle_text, card_text, length_text
from crankwise.wording.cautions import cautions
from crankwise.wording.figures import decimal

MOST_TOLD = 8
FLOATS = (
    "Angles come from a formula: kept to 1e-12 turn (0.0000013 seconds of arc), which floats are good to."
)
_SURFACES = {"ring": "a flat ring", "drum": "a drum", "cone": "a cone"}

Table = tuple[list[str], list[list[str]]]


def work_name(work: Graduated, inch_first: bool = False) -> str:
    """Return what it is: 149 equal lines on a flat ring, 150.000 mm (5.9055 in) across the reading edge."""
    across = length_text(work.surface.diameter_mm, inch_first)
    return f"{work.scale.name} on {_SURFACES[work.surface.kind]}, {across} across the reading edge"


def spacing_text(work: Graduated, inch_first: bool = False) -> str:
    """Return the least spacing, and what can be read between two lines."""
    spacing = work.least_spacing_mm
    return (
        f"least spacing {length_text(spacing, inch_first)}: by eye a space can be told to {read_to(spacing)}"
    )


def largest_text(height_mm: Fraction, stamp: tuple[str, Fraction] | None) -> str:
    """Return the largest numeral that fits, and the largest usual stamp."""
    usual = f"the largest usual stamp is {stamp[0]}" if stamp else "no usual stamp is so small"
    if height_mm >= MOST_HEIGHT_MM:
        return f"there is room for numerals of any usual size, {usual}"
    return f"numerals up to {_at_most(height_mm)} fit, {usual}"


def collision_text(found: Collision, lines: Sequence[Line]) -> str:
    """Return what touches what, and how far apart they are or should be."""
    by_position = {line.position: line for line in lines}
    subject = f"line {found.position}"
    if found.thing != "line":
        of = "numeral" if found.thing == "numeral" else "the stamp's shank at numeral"
        subject = f"{of} {found.text} at line {found.position}"
    other = f"the {found.other}" if found.other == "shoulder" else "the edge of the face"
    if found.other_position is not None:
        line = by_position[found.other_position]
        if found.other == "line":
            other = f"the {line.line_class.name} line {line.position}"
        else:
            other = f"numeral {line.numeral} at line {line.position}"
    if found.overlaps:
        return f"{subject} overlaps {other} by {_both(-found.gap_mm)}"
    return f"{subject} stands {_both(found.gap_mm)} from {other}, {_both(found.needed_mm)} are needed"


def fix_text(fix: Fix) -> str:
    """Return what a fix changes, all else as it is."""
    note = f" ({fix.note})" if fix.note else ""
    if fix.kind == "smaller-numerals":
        return f"numerals of {_at_most(fix.value)} or less{note}"
    if fix.kind == "shorter-lines":
        return f"lines of which the longest is {_at_most(fix.value)} or less{note}"
    if fix.kind == "narrower-lines":
        return f"lines of {_at_most(fix.value)} or less in width"
    return f"numerals at every {as_text(fix.value)} only{note}"


def trouble_text(found: Sequence[Collision], fixes: Sequence[Fix], lines: Sequence[Line]) -> str:
    """Return the one sentence that says no: how much touches, the first of it, and what would work."""
    cure = "; or ".join(map(fix_text, fixes)) or "no one change does: fewer lines, or a larger reading edge"
    count = "1 collision" if len(found) == 1 else f"{len(found)} collisions, the first"
    return f"{count}: {collision_text(found[0], lines)}; what works: {cure}"


def finding_text(found: ScaleFinding) -> str:
    """Return what is worth a second look."""
    value = decimal(Fraction(found.value), 2)
    every = as_text(Fraction(found.value).limit_denominator(1000))
    return {
        "spacing-hard-to-read": f"lines {value} mm apart are hard to read; from 0.8 mm on it goes, 1 to 2 mm is good",
        "spacing-wide": f"lines {value} mm apart are more than is useful, unless tenths are to be told by eye",
        "lines-wide": f"a line takes {decimal(Fraction(found.value) * 100, 0)} % of a space; 8 to 15 % reads best",
        "widths-differ": "lines of different widths: centre each on its position, or the dial is read at an edge",
        "lines-of-no-class": f"lines stand between those of every {every}, "
        "the finest class, and are cut as long as these: give the others a class too, as 1=3mm",
        "many-lengths": f"{decimal(Fraction(found.value), 0)} lengths of line; more than three are not told apart",
        "many-between-numerals": f"{decimal(Fraction(found.value), 0)} lines between two numerals; nine at most "
        "are usual",
        "numerals-near": f"two numerals stand only {value} heights of a figure apart, much nearer than the others: "
        "they can be read as one; leave one of the two out, or make the figures smaller",
        "counts-oddly": f"numerals count by {every}; by 1, 2 or 5 is read without thinking",
    }[found.code]


def direction_lines(direction: ScaleDirection, is_drum: bool, is_turned_round: bool) -> Iterator[str]:
    """Yield the physical test, what follows from it, and how it is seen from either side."""
    mover = "the scale" if direction.moves == "scale" else "the pointer"
    yield (
        f"Turn the handle so that the reading must grow, and watch {mover} from the handle: it goes {direction.turns}. "
        "If it does not, all below is the other way round."
    )
    if direction.side == "rear":
        yield (
            f"The scale faces away from the handle: from the handle its numbers run "
            f"{direction.numbers_run_from_the_handle}, mirrored."
        )
    yield f"Looking straight at the face that is engraved, the numbers run {direction.numbers_run}."
    if is_drum:
        yield (
            f"On a drum that is its end; on the strip laid flat with that end at the bottom they run to the "
            f"{direction.on_the_strip}."
        )
    if is_turned_round:
        yield f"Your work does not turn {direction.work_turns}, so the positions below are numbered backwards."
    else:
        yield (
            f"To cut them rising, crank forward and look at the face: the work must turn {direction.work_turns} under "
            "the tool. If it turns the other way, tell which way your work turns when you describe the scale: the "
            "positions are then numbered backwards."
        )


def arrow_text(direction: ScaleDirection) -> str:
    """Return what the arrow on a picture shows, in one sentence, with how it is seen from the handle."""
    told = (
        f"The arrow shows which way the {direction.moves} goes as the reading grows, seen as drawn: "
        f"{direction.seen_at_the_face}"
    )
    if direction.side == "rear":
        return f"{told}; from the handle, which is behind it, that is {direction.turns}."
    return f"{told}, as from the handle."


def vernier_text(vernier: Vernier) -> str:
    """Return what a vernier reads to, how long it is, and where its zero is."""
    way = "the way the main scale is" if vernier.runs_with else "against the main scale"
    return (
        f"reads to {degrees_minutes_seconds(vernier.least_count)} ({decimal_degrees(vernier.least_count, 6)}); covers "
        f"{angle_text(vernier.arc)}; numbered {way}; its zero is {angle_text(vernier.zero)} from its first line"
    )


def threads_table(rows: Sequence[tuple[Fraction, Fraction, int]]) -> Table:
    """Return a row a thread: its lead, how many places a turn of the dial has, and at which lines.

    rows  lead in mm, places in a turn, lines of the dial
    """
    table = []
    for lead, places, lines in rows:
        step = Fraction(lines) / places
        if places.denominator != 1:
            at = f"none: the places come round every {places.denominator} turns, keep the half nuts closed"
        else:
            at = "any line" if step == 1 else f"every {as_text(step)} lines, from the one it was closed at"
        table.append([_thread_text(lead), as_text(places), at])
    return ["thread", "places in a turn", "close the half nuts at"], table


def _thread_text(lead: Fraction) -> str:
    """Return a thread by its threads to an inch where they are whole or a half, else by its lead."""
    to_an_inch = INCH / lead
    if to_an_inch.denominator <= 2:
        return f"{as_text(to_an_inch)} tpi ({decimal(lead, 3)} mm)"
    return length_text(lead)


def lines_table(lines: Sequence[Line], offsets: Callable[[Line], Sequence[float]]) -> Table:
    """Return a row a line: its position, its angle both ways, its class, its length, its numeral, how to stamp it.

    offsets  how far to turn on from a line for each figure of its numeral, in turns; empty where it needs none
    """
    headings = ["position", "angle", "degrees", "line", "length, mm", "numeral", "figures, degrees on"]
    table = [
        [
            str(line.position),
            degrees_minutes_seconds(line.angle),
            decimal_degrees(line.angle, 5),
            line.line_class.name,
            decimal(line.line_class.length_mm, 2),
            line.numeral,
            ", ".join(f"{offset * 360:+.3f}" for offset in offsets(line)),
        ]
        for line in lines
    ]
    if not any(row[-1] for row in table):
        return headings[:-1], [row[:-1] for row in table]
    return headings, table


def graduate_cautions(work: Graduated) -> tuple[str, ...]:
    """Return the cautions for planing lines, and for stamping where there are stamps."""
    stamping = "Stamping: glasses on; a hardened punch chips; hold the guide, not the tip."
    told = cautions("line", len(work.scale.counts))
    has_stamps = work.numerals is not None and work.numerals.lettering.shank_mm > 0
    return (*told[:-1], stamping, told[-1]) if has_stamps else told


def cards_text(cards: Sequence[Card], inch_first: bool) -> str:
    """Return the cards, an empty line between."""
    return "\n\n".join(card_text(card, inch_first) for card in cards)


def _both(length_mm: float) -> str:
    return length_text(length_mm, places=2)


def _at_most(length_mm: Fraction) -> str:
    """A largest length in both units, cut and not rounded, so that as shown it still does."""
    inches = Fraction(int(length_mm / INCH * 10_000), 10_000)
    return f"{as_text(length_mm)} mm ({decimal(inches, 4)} in)"
