"""Gears in words: which cutter, which pins, how much deeper, and what to beware of."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import PI, as_text
from crankwise.head.train import Train
from crankwise.part.bevel import BevelGear
from crankwise.part.card import Card, Quantity
from crankwise.part.cutters import FormCutter, OwnedCutter
from crankwise.part.gear import Gear
from crankwise.part.gear_system import STUB
from crankwise.wording.angle import decimal_degrees
from crankwise.wording.card import card_text, length_text
from crankwise.wording.cautions import cautions
from crankwise.wording.division import Table
from crankwise.wording.figures import decimal, short
from crankwise.wording.trains import train_text

Warned = tuple[str, str]
"""A warning: its code, which is promised, and its sentence, which is not."""


def cutter_note(cutter: FormCutter | None, teeth: Quantity) -> str:
    """Return the cutter's number in both orders, or why there is none."""
    if cutter is None:
        least = decimal(Fraction(teeth), 1)
        return f"sets of form cutters begin at 12 teeth, and this is {least}: generate it with a hob"
    if not cutter.number:
        return "of a range that the usual sets do not have"
    rack, twelve = (number_text(cutter.number_where(order)) for order in ("rack", "12"))
    return f"No. {rack} where No. 1 cuts 135 to a rack, No. {twelve} where No. 1 cuts 12 and 13"


def number_text(number: Fraction) -> str:
    """Return a cutter's number as it is engraved: 5, 5 1/2."""
    whole, rest = divmod(number, 1)
    return f"{whole} {rest}" if rest else str(whole)


def owned_note(owned: Sequence[OwnedCutter], fits: FormCutter | None) -> str:
    """Return whether a cutter of the list does it, and which the list has of this module and pressure angle.

    owned  the cutters of the right module and pressure angle
    fits   the one of them that cuts these teeth
    """
    if fits is not None:
        return "you own it"
    if not owned:
        return "your list has no cutter of this module and pressure angle"
    ranges = ", ".join(one.cutter.tooth_range for one in sorted(owned, key=lambda one: one.cutter.least))
    return f"your list has none for it; of this module and pressure angle it has {ranges}"


def gear_name(gear: Gear, pitch: Fraction | None = None) -> str:
    """Return what a gear is: spur gear, 127 teeth, module 1, 20 degrees.

    pitch  the diametral pitch it was asked by, if it was
    """
    kind = f"{gear.hand}-hand helical gear" if gear.is_helical else "spur gear"
    parts = [
        kind,
        f"{gear.teeth} teeth",
        size_text(gear.module_mm, pitch, gear.is_helical and gear.is_transverse),
    ]
    parts.append(f"{short(gear.pressure_angle * 360)}°")
    parts += [f"helix {short(gear.helix * 360)}°"] if gear.is_helical else []
    parts += [f"shift {as_text(gear.shift)}"] if gear.shift else []
    parts += ["stub teeth"] if gear.system == STUB else []
    return ", ".join(parts)


def size_text(module_mm: Fraction, pitch: Fraction | None, transverse: bool = False) -> str:
    """Return module 1, or DP 24, and transverse where it is.

    pitch  the diametral pitch it was asked by, if it was
    """
    size = f"DP {as_text(pitch)}" if pitch else _module_text(module_mm)
    return f"transverse {size}" if transverse else size


def drawn_size_text(module_mm: Fraction) -> str:
    """Return DP 24 where that is a whole or half number, else as `size_text`: for a drawing, which knows only sizes."""
    pitch = INCH / module_mm
    return size_text(module_mm, pitch if pitch.denominator <= 2 else None)


def _module_text(module_mm: Fraction) -> str:
    """Return the module, or the pitch where that alone is short, as of a rack of 1/8 in; never a long fraction."""
    if "/" not in as_text(module_mm):
        return f"module {as_text(module_mm)}"
    pitch_mm = module_mm * PI
    return f"module {decimal(module_mm, 4)}" if "/" in as_text(pitch_mm) else f"pitch {length_text(pitch_mm)}"


def pin_trouble(pin_mm: Fraction, trouble: str, best_mm: float, limits_mm: tuple[float, float]) -> str:
    """Return why a pin cannot be used, and which could; limits_mm both 0 where none could."""
    why = {
        "deep": "it lies too deep, at the bottom of the space or below the involute",
        "high": "it rides on the tips of the teeth",
        "sunk": "it does not stand proud of the outside diameter",
    }[trouble]
    least, most = (decimal(Fraction(limit), 3) for limit in limits_mm)
    told = f"a pin of {as_text(pin_mm)} mm cannot be used: {why}; "
    if not limits_mm[1]:
        return f"{told}no pin stands proud here: use the span or a tooth calliper"
    return f"{told}the best is {length_text(best_mm)}, well between {least} and {most} mm"


def infeed_text(what: str, read_mm: Fraction, meant_mm: float, deeper_mm: float, inch_first: bool) -> str:
    """Return what a reading asks for: you read 0.120 mm over: go 0.175 mm deeper."""
    over = float(read_mm) - meant_mm
    if abs(over) < 5e-4:
        return f"{what}: as it should be"
    told = f"{what}: you read {length_text(abs(over), inch_first)} {'over' if over > 0 else 'under'}"
    if over > 0:
        return f"{told}: go {length_text(deeper_mm, inch_first)} deeper"
    return f"{told}: already {length_text(-deeper_mm, inch_first)} too deep; it can only be used with more backlash"


def gear_warnings(gear: Gear, cutter: FormCutter | None, pitch: Fraction | None = None) -> Iterator[Warned]:
    """Yield what to beware of before this gear is cut.

    pitch  the diametral pitch it was asked by, if it was
    """
    if gear.module_mm > COARSE_MODULE_MM:
        asked, other = (
            (f"DP {as_text(pitch)}", "a module")
            if pitch
            else (f"module {as_text(gear.module_mm)}", "a diametral pitch")
        )
        deep = length_text(gear.whole_depth_mm)
        yield "coarse", f"teeth of {asked} are {deep} deep; if that number is {other}, give it as one"
    if gear.is_undercut:
        cure = decimal(_up(gear.least_shift_without_undercut), 3)
        told = (
            f"a rack or hob undercuts {gear.teeth} teeth: at this shift {gear.least_teeth_without_undercut} are the "
            f"least without it, and a shift of {cure} modules cures it; a form cutter leaves the root full instead, "
            "and that may foul the mate's tips"
        )
        yield "undercut", told
    if cutter is None:
        yield "no-cutter", "no set of form cutters goes below 12 teeth"
    elif gear.shift:
        yield (
            "shifted-form",
            "a form cutter has the flank of a gear without shift: here it comes near, no more",
        )
    if gear.tip_thickness_mm < 0.25 * float(gear.transverse_module_mm):
        top = length_text(gear.tip_thickness_mm)
        yield (
            "thin-tip",
            f"the tops of the teeth are {top} wide, under a quarter of a module: they chip and wear fast",
        )


COARSE_MODULE_MM = 10
"""Above this a module may well be a diametral pitch typed in the wrong place. Judgement: home work is finer."""
LEAD_OFF_MM, LEAD_OFF_TURNS = 0.05, 0.1 / 360
"""How far out over the face, or in the helix where no face is told, a train may leave the teeth. Judgement."""


def transverse_cutter_text(gear: Gear) -> str:
    """Return which cutter a gear told across its shaft takes, and what to do where there is none."""
    module = short(round(Fraction(gear.normal_module_mm), 6))
    angle = decimal_degrees(Fraction(gear.normal_pressure_angle) / (2 * PI), 3)
    return (
        f"told across its shaft, it takes a cutter of module {module} and {angle}, which is hardly made: form cutters "
        "go by the section square to the teeth; tell it in that one if it is to be cut so"
    )


def narrow_face_text(face_mm: Fraction, needed_mm: float) -> str:
    """Return that a helical gear is too narrow for its span, and what to do instead."""
    return (
        f"a face of {length_text(face_mm)} is too narrow for the span, whose jaws need {length_text(needed_mm)} and "
        "more: read over balls or by tooth calliper"
    )


def lead_off_text(cut: float, wanted: Fraction, error_mm: float | None) -> str:
    """Return that a train leaves the teeth too far out; empty where it does not.

    cut, wanted  the helix angle that it cuts, and the gear's, in turns
    error_mm     how far a tooth is out at the far end of its face; None where no face was told
    """
    told = f"the change gears cut a helix of {decimal_degrees(Fraction(cut), 3)} instead of {short(wanted * 360)}°"
    cure = "other gears come nearer, or give both gears of the pair a helix that these do cut"
    if error_mm is None:
        return f"{told}: {cure}" if abs(cut - float(wanted)) > LEAD_OFF_TURNS else ""
    if abs(error_mm) <= LEAD_OFF_MM:
        return ""
    return f"{told}, and the teeth are {length_text(abs(error_mm))} out at the far end of the face: {cure}"


HELIX_BY_TRIAL = (
    "idlers fill the gap; one more or less turns the hand of the helix round: try it, cutter clear"
)
IDLERS_BY_TRIAL = (
    "An idler more or less turns the hand of the helix round: crank the table with the cutter clear, and look which "
    "way the work turns."
)
DIFFERENTIAL_EXCLUDED = (
    "Differential indexing cannot be used: the change gears are taken up between the table's screw and the head, and "
    "the plate turns with them while a tooth is cut. Divide between cuts, with the cutter clear and the table run back "
    "past its start to take up backlash, by moving the pin on the plate."
)


PIN_NEEDS_A_PLATE = (
    "while a tooth is cut the change gears turn this head's worm from the table's screw, so that it is divided by "
    "moving the pin on a hole plate, and {name} has none; choose a head with hole plates"
)


def swing_text(gear: Gear) -> str:
    """Return how the table stands for a helical gear: swung 30°, right hand."""
    return (
        f"swung {decimal_degrees(gear.helix, 4)}, {gear.hand} hand: the {gear.hand} end pushed away from you"
    )


def _up(value: float) -> Fraction:
    """Return a value rounded up in the third place, so that a shift as shown does cure."""
    return Fraction(-int(-value * 1000 // 1), 1000)


def bevel_name(gear: BevelGear, pitch: Fraction | None = None) -> str:
    """Return what a bevel gear is: straight bevel gear, 24 teeth to 36, DP 10, 14.5 degrees, shafts at 90."""
    return (
        f"straight bevel gear, {gear.teeth} teeth to {gear.mate_teeth}, {size_text(gear.module_mm, pitch)}, "
        f"{short(gear.pressure_angle * 360)}°, shafts at {short(gear.shaft_angle * 360)}°"
    )


def gear_text(
    name: str, cards: Sequence[Card], warnings: Sequence[Warned], inch_first: bool, kind: str = "spur"
) -> str:
    """Return the whole answer: what it is, what to beware of, the cards, and the cautions for the work.

    kind  spur, helical or bevel: the last two have a caution of their own
    """
    blocks = [f"{name[0].upper()}{name[1:]}"]
    if warnings:
        blocks.append("\n".join(f"Beware: {sentence}." for _, sentence in warnings))
    blocks += [card_text(card, inch_first) for card in cards]
    blocks.append("\n".join(cautions("space", kind=kind)))
    return "\n\n".join(blocks)


def helix_table(rows: Iterable[tuple[Train, Fraction, float, float | None]]) -> Table:
    """Return headings and a row a train: drivers over driven, the lead it cuts, the helix, the error over the face.

    rows  each train with the lead it cuts in mm, the helix angle in turns, and the error in mm where a face was told
    """
    headings = ["train", "lead, mm", "lead, in", "helix", "error over the face"]
    table = []
    for train, lead, helix, error in rows:
        told = "no face told" if error is None else f"{decimal(Fraction(error) * 1000, 1)} µm"
        table.append(
            [
                train_text(train),
                decimal(lead, 4),
                decimal(lead / INCH, 5),
                decimal_degrees(Fraction(helix), 5),
                told,
            ]
        )
    return headings, table
