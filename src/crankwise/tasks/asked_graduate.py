"""Read the graduated work that was typed: its surface, its classes of lines, its numerals, its direction."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from crankwise.errors import BadAngle, BadDivisions, BadLength
from crankwise.exact.angle import read_angle
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.listed import listed
from crankwise.exact.number import PI, read_number, shown
from crankwise.part.graduated import Graduated
from crankwise.part.line_classes import V_TOOL, LineClass, LineClasses, default_classes, depth_for, names
from crankwise.part.numeral_fixes import is_clear
from crankwise.part.numerals import BURR_MM, SHANK_MM, STAMPS_MM, STANDS, Lettering, Numerals, Stand
from crankwise.part.scale_direction import MOVERS, SENSES, SIDES, ScaleDirection, Sense, the_other
from crankwise.part.surface import SURFACE_KINDS, Surface
from crankwise.tasks.asked_scale import AskedScale, ScaleTyped, asked_scale

Word = TypeVar("Word", bound=str)

LARGEST_UNASKED_MM = Fraction(16, 5)
SMALLEST_UNASKED = "2 mm"


@dataclass(frozen=True, slots=True)
class WorkTyped:
    """What was typed for the work, all texts; empty where nothing was. Lengths bare in mm, angles in degrees.

    on, across, face, cone_angle, lines_run, shoulder  the surface
    classes, width, tool_angle                         the lines
    numeral_every, numeral_first, numeral_step, texts, height, widths, burr, shank,
    stand, side, feet, middle, engraved, no_numerals   the numerals
    moves, turns, faces, work_turns                    the direction, as it was seen
    """

    on: str = ""
    across: str = ""
    face: str = ""
    cone_angle: str = ""
    lines_run: str = ""
    shoulder: bool = False
    classes: str = ""
    width: str = ""
    tool_angle: str = ""
    numeral_every: str = ""
    numeral_first: str = ""
    numeral_step: str = ""
    texts: str = ""
    height: str = ""
    widths: str = ""
    burr: str = ""
    shank: str = ""
    stand: str = ""
    side: str = ""
    feet: str = ""
    middle: str = ""
    engraved: bool = False
    no_numerals: bool = False
    moves: str = ""
    turns: str = ""
    faces: str = ""
    work_turns: str = ""


@dataclass(frozen=True, slots=True)
class AskedWork:
    """The graduated work that was typed, with what belongs to its kind of scale.

    is_turned_round  whether the positions were put in the other order, since the work turns the other way
    """

    work: Graduated
    scale: AskedScale
    direction: ScaleDirection
    is_turned_round: bool

    @property
    def positions_run(self) -> Sense:
        """Which way the positions follow one another, looking straight at the face that is engraved."""
        run = self.direction.numbers_run
        return the_other(run) if self.is_turned_round else run


def asked_work(scale_typed: ScaleTyped, typed: WorkTyped) -> AskedWork:
    """Return the graduated work that was typed. Raises Mendable."""
    asked = asked_scale(scale_typed)
    direction = ScaleDirection(
        _choice(typed.moves, "moves", MOVERS),
        _choice(typed.turns, "turns", SENSES),
        _choice(typed.faces, "faces", SIDES),
    )
    turned = (
        bool(typed.work_turns) and _choice(typed.work_turns, "work-turns", SENSES) != direction.work_turns
    )
    scale = asked.scale.the_other_way() if turned else asked.scale
    surface = _surface(typed)
    spacing = min(scale.gaps(), default=Fraction(1)) * PI * surface.diameter_mm
    work = Graduated(scale, surface, _classes(typed, asked, spacing))
    if not typed.no_numerals:
        work = _numbered(work, typed, asked)
    return AskedWork(work, asked, direction, turned)


def _surface(typed: WorkTyped) -> Surface:
    kind = _choice(typed.on, "on", SURFACE_KINDS)
    if not typed.across:
        raise BadLength("across", "missing; say the diameter of the reading edge, as --across 150mm or 3in")
    if typed.cone_angle and kind != "cone":
        raise BadAngle("cone-angle", "goes with a cone; say --on cone too, or leave it out")
    return Surface(
        kind,
        read_diameter(typed.across, "across"),
        _choice(typed.lines_run, "lines-run", ("in", "out")),
        read_diameter(typed.face, "face") if typed.face else None,
        typed.shoulder,
        read_angle(typed.cone_angle, "cone-angle") if typed.cone_angle else Fraction(1, 8),
    )


def _classes(typed: WorkTyped, asked: AskedScale, spacing_mm: Fraction) -> LineClasses:
    tool = read_angle(typed.tool_angle, "tool-angle") if typed.tool_angle else V_TOOL
    width = read_diameter(typed.width, "width") if typed.width else None
    pieces = listed(typed.classes, "classes")
    if not pieces or not any("=" in piece for piece in pieces):
        every = [read_number(piece, "classes") for piece in pieces] or [*asked.every]
        if any(each <= 0 for each in every):
            raise BadDivisions(
                "classes", "every 0 or less; a class stands at every 1, 5 or 10 lines, above 0"
            )
        made = default_classes(every, spacing_mm, width)
        return LineClasses(
            tuple(replace(one, depth_mm=depth_for(one.width_mm, tool)) for one in made.classes)
        )
    usual = default_classes((1,), spacing_mm, width).classes[0].width_mm
    found = [_class(piece, name, usual, tool) for piece, name in zip(pieces, names(len(pieces)), strict=True)]
    return LineClasses(tuple(found))


def _class(piece: str, name: str, usual_mm: Fraction, tool: Fraction) -> LineClass:
    every, equals, sizes = piece.partition("=")
    told = [size.strip() for size in sizes.split(":")]
    if not equals or not told[0] or len(told) > 3:
        raise BadLength(
            "classes",
            f"{shown(piece)} is no class; write every = length, as 5=4.5mm, or with width and depth, "
            "as 5=4.5mm:0.2mm:0.15mm",
        )
    width = read_diameter(told[1], "classes, width") if len(told) > 1 else usual_mm
    depth = read_diameter(told[2], "classes, depth") if len(told) > 2 else depth_for(width, tool)
    return LineClass(name, read_number(every, "classes"), read_diameter(told[0], "classes"), width, depth)


def _numbered(work: Graduated, typed: WorkTyped, asked: AskedScale) -> Graduated:
    texts, own = _texts(typed)

    def numerals(height_mm: Fraction) -> Numerals:
        return Numerals(
            read_number(typed.numeral_every, "numeral-every") if typed.numeral_every else asked.numbered,
            _lettering(typed, height_mm),
            read_number(typed.numeral_first, "numeral-first") if typed.numeral_first else Fraction(0),
            read_number(typed.numeral_step, "numeral-step") if typed.numeral_step else asked.per_count,
            texts,
            own,
            _stand(typed, work),
            _are_feet_out(typed, work),
            _is_behind(typed, work),
            read_diameter(typed.middle, "middle") if typed.middle else None,
        )

    if typed.height:
        return replace(work, numerals=numerals(read_diameter(typed.height, "height")))
    # Nothing was asked: the largest usual stamp up to 3.2 mm that is clear, or a small one to tell what it touches.
    for height in sorted(STAMPS_MM.values(), reverse=True):
        if height <= LARGEST_UNASKED_MM:
            try:
                numbered = replace(work, numerals=numerals(height))
            except BadLength:
                continue
            if is_clear(numbered):
                return numbered
    return replace(work, numerals=numerals(STAMPS_MM[SMALLEST_UNASKED]))


def _texts(typed: WorkTyped) -> tuple[tuple[str, ...], tuple[tuple[Fraction, str], ...]]:
    """Return the texts in the order of the numbered lines, or those of lines of their own: 0=N, 25=E."""
    pieces = [piece.strip() for piece in typed.texts.split(",")] if typed.texts.strip() else []
    if not any("=" in piece for piece in pieces):
        return tuple(pieces), ()
    if typed.numeral_every:
        raise BadDivisions(
            "texts", "they name their own lines, so numeral-every has nothing to say; leave it out"
        )
    own = []
    for piece in pieces:
        count, equals, text = piece.partition("=")
        if not equals or not count.strip() or not text.strip():
            raise BadDivisions(
                "texts",
                f"{shown(piece)}; write every text with its line, as 0=N, 25=E, 50=S, or none of them",
            )
        own.append((read_number(count, "texts, line"), text.strip()))
    return (), tuple(own)


def _lettering(typed: WorkTyped, height_mm: Fraction) -> Lettering:
    if typed.engraved and (typed.burr or typed.shank):
        raise BadLength("engraved", "an engraved figure has no burr and no shank; leave those out")
    burr, shank = (Fraction(0), Fraction(0)) if typed.engraved else (BURR_MM, SHANK_MM)
    return Lettering(
        height_mm,
        read_length(typed.burr, "burr") if typed.burr else burr,
        read_length(typed.shank, "shank") if typed.shank else shank,
        dict(_width(piece) for piece in listed(typed.widths, "widths")),
    )


def _width(piece: str) -> tuple[str, Fraction]:
    figure, equals, width = piece.strip().partition("=")
    if not equals or len(figure.strip()) != 1:
        raise BadLength("widths", f"{shown(piece)}; write each figure and its width, as 0=1.6mm, 1=0.9mm")
    return figure.strip(), read_diameter(width, "widths")


def _stand(typed: WorkTyped, work: Graduated) -> Stand:
    stand = _choice(typed.stand, "stand", STANDS)
    if stand == "level" and work.surface.kind != "ring":
        raise BadDivisions(
            "stand", "numerals stand level on a flat ring only; on a drum or a cone upright or radial"
        )
    return stand


def _is_behind(typed: WorkTyped, work: Graduated) -> bool:
    side = _choice(typed.side, "numerals", ("past", "inside", "outside", "behind"))
    if side in ("past", "behind"):
        return side == "behind"
    if work.surface.kind == "drum":
        raise BadDivisions(
            "numerals", "a drum has no inside and outside; say past (the lines' ends) or behind"
        )
    return (side == "inside") != (work.surface.lines_run == "in")


def _are_feet_out(typed: WorkTyped, work: Graduated) -> bool:
    """Usually figures on a ring or a cone stand with their feet to the axis, on a drum to the reading edge."""
    feet = _choice(typed.feet, "feet", ("usual", "edge", "away"))
    if feet != "usual":
        return feet == "away"
    is_inward = (work.surface.lines_run == "in") != _is_behind(typed, work)
    return work.surface.kind != "drum" and is_inward


def _choice(text: str, what: str, words: tuple[Word, ...]) -> Word:
    """Return the word that was typed; the first one where nothing was."""
    plain = text.strip().lower()
    found = next((word for word in words if word == plain), None)
    if plain and found is None:
        raise BadDivisions(what, f"{shown(text)} is not known; it is {' or '.join(words)}")
    return found or words[0]
