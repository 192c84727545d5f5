"""Every kind of part, made from what was typed: the positions to divide, the cards, what to beware of.

One function a kind; a new kind is one more, and its keys in `crankwise.files.job_keys`.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeVar

from crankwise.part.card import Card
from crankwise.part.graduated import Graduated
from crankwise.part.part import Part
from crankwise.part.scale_direction import ScaleDirection, Sense

if TYPE_CHECKING:
    from crankwise.part.kinds import PartValue
    from crankwise.tasks.sized_part import SizedPart

Typed = Mapping[str, str]
Record = TypeVar("Record")
Table = tuple[str, list[str], list[list[str]]]


@dataclass(frozen=True, slots=True)
class MadePart:
    """A part of some kind, worked out.

    name      what it is: spur gear, 127 teeth, module 1, 20°
    part      the positions, and what is done at each
    cards     to prepare and to measure by; none for bare divisions
    tables    what stands beside them: a title, headings and rows of figures
    notes     what is to be known before the work is set up, as which way the numerals must rise
    cautions  the usual ones for this work; empty until the whole job is known
    warnings  what to beware of, each with its code
    value     the kind's own value, for its picture; None for bare divisions
    methods   the methods of dividing that this work leaves; None for all
    setup     what else is set on the machine, for the head of a sheet: names and texts
    advances  which way the positions follow one another on its picture
    direction what goes which way as the reading grows, of graduated work
    runs      what its runs are called where it takes several in one piece of work, each a job of its own; empty for
              one
    run       the one of its runs that this job is, from 1
    """

    name: str
    part: Part
    cards: tuple[Card, ...] = ()
    tables: tuple[Table, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    warnings: tuple[tuple[str, str], ...] = ()
    value: "PartValue | None" = None
    methods: tuple[str, ...] | None = None
    advances: Sense = "clockwise"
    setup: tuple[tuple[str, str], ...] = ()
    direction: ScaleDirection | None = None
    runs: tuple[str, ...] = ()
    run: int = 1


def made_of(kind: str, typed: Typed) -> MadePart:
    """Return the part of this kind that was typed. Raises Mendable; KeyError for a kind that there is not."""
    return MAKERS[kind](typed)


def record_of(kind: type[Record], typed: Typed) -> Record:
    """Return the record of what was typed, each field from the key of its name; a flag is set by any text."""
    values: dict[str, Any] = {}
    for field in fields(kind):  # type: ignore[arg-type]
        text = typed.get(field.name, "")
        values[field.name] = bool(text) if field.type in (bool, "bool") else text
    return kind(**values)


def _divisions(typed: Typed) -> MadePart:
    from crankwise.tasks.divide import asked_part

    part = asked_part(
        typed.get("count"),
        angles=typed.get("angles"),
        start=typed.get("start"),
        first=typed.get("first"),
        last=typed.get("last"),
        every=typed.get("every"),
    )
    return MadePart("", part)


def _gear(typed: Typed) -> MadePart:
    from crankwise.part.gear import part_of
    from crankwise.tasks.asked_gear import GearTyped
    from crankwise.tasks.gear import ShopTyped, gear_answer
    from crankwise.tasks.helix import WAYS_LEFT, HelixTyped, helix_setup
    from crankwise.wording.gear import DIFFERENTIAL_EXCLUDED

    answer = gear_answer(
        record_of(GearTyped, typed), record_of(ShopTyped, typed), record_of(HelixTyped, typed)
    )
    gear = answer.gear
    return MadePart(
        answer.name,
        part_of(gear),
        answer.cards,
        notes=(DIFFERENTIAL_EXCLUDED,) if gear.is_helical else (),
        warnings=answer.warnings,
        value=gear,
        methods=WAYS_LEFT if gear.is_helical else None,
        setup=helix_setup(answer.helix, gear) if gear.is_helical else (),
    )


def _helical(typed: Typed) -> MadePart:
    from crankwise.errors import Fault, FaultsFound
    from crankwise.tasks.asked_tooth import asked_angle

    if not typed.get("helix"):
        raise FaultsFound([Fault("helix", "missing; a helical gear has a helix angle in degrees, as 30")])
    if not asked_angle(typed["helix"], "helix", Fraction(0)):
        raise FaultsFound(
            [Fault("helix", "0 degrees; straight teeth are a spur gear's; give an angle, as 30")]
        )
    return _gear(typed)


def _bevel(typed: Typed) -> MadePart:
    from crankwise.part.bevel import part_of_bevel
    from crankwise.tasks.asked_gear import GearTyped
    from crankwise.tasks.bevel import bevel_answer
    from crankwise.tasks.gear import ShopTyped
    from crankwise.wording.card import setup_facts

    answer = bevel_answer(record_of(GearTyped, typed), record_of(ShopTyped, typed))
    return MadePart(
        answer.name,
        part_of_bevel(answer.gear),
        answer.cards,
        warnings=tuple(answer.warnings),
        value=answer.gear,
        setup=setup_facts(answer.cards, inch_first=answer.inch_first),
    )


def _graduated(typed: Typed) -> MadePart:
    from crankwise.tasks.asked_graduate import WorkTyped
    from crankwise.tasks.asked_scale import ScaleTyped
    from crankwise.tasks.graduate import graduate
    from crankwise.wording import graduate as words

    asked_work = {**typed, "side": typed.get("numerals", "")}
    found = graduate(record_of(ScaleTyped, typed), record_of(WorkTyped, asked_work))
    work, asked = found.work, found.asked
    notes = [*words.direction_lines(asked.direction, work.surface.kind == "drum", asked.is_turned_round)]
    notes.append(words.arrow_text(asked.direction))
    notes += [words.vernier_text(asked.scale.vernier)] if asked.scale.vernier else []
    notes += [] if work.scale.is_exact else [words.FLOATS]
    warnings = [
        ("touching", words.collision_text(one, found.lines)) for one in found.collisions[:MOST_TOUCHING]
    ]
    warnings += [("fix", f"what works: {words.fix_text(fix)}") for fix in found.fixes]
    warnings += [(finding.code, words.finding_text(finding)) for finding in found.findings]
    threads = (("Where the half nuts close", *words.threads_table(found.threads)),) if found.threads else ()
    return MadePart(
        graduated_name(work),
        work.part(),
        found.cards,
        threads,
        notes=tuple(notes),
        cautions=words.graduate_cautions(work),
        warnings=tuple(warnings),
        value=work,
        advances=asked.positions_run,
        direction=asked.direction,
    )


def _sized(answer: "SizedPart", which: str = "") -> MadePart:
    """Return a part that its command sizes.

    which  the run that this job is, from 1, as typed, where the part takes several
    """
    from crankwise.errors import BadDivisions
    from crankwise.tasks.divide import whole_number
    from crankwise.wording.card import setup_facts

    count = len(answer.parts)
    number = whole_number(which, "which") if which else 1
    if not 1 <= number <= count:
        raise BadDivisions("which", f"{number}; this part takes {count} runs, and the first one is 1")
    cards = answer.cards_of(number)
    made = MadePart(
        answer.name,
        answer.parts[number - 1],
        cards,
        answer.tables,
        warnings=answer.warnings,
        value=answer.value,
        setup=setup_facts(cards, number, answer.inch_first),
    )
    if count == 1:
        return made
    names = answer.runs
    taken = (
        f"This part takes {count} runs from the same zero"
        if answer.is_one_piece
        else f"{count} pieces of work"
    )
    told = (
        f"{taken}, each a job of its own: {', '.join(names)}. "
        f"This job is {names[number - 1]} (which = {number} in its job file)."
    )
    return replace(
        made,
        name=f"{names[number - 1]}: {made.name}",
        notes=(told,),
        runs=names if answer.is_one_piece else (),
        run=number,
    )


def _holes(typed: Typed) -> MadePart:
    from crankwise.tasks.holes import HolesTyped, holes_answer

    return _sized(holes_answer(record_of(HolesTyped, typed)), typed.get("which", ""))


def _flats(typed: Typed) -> MadePart:
    from crankwise.tasks.flats import FlatsTyped, flats_answer

    return _sized(flats_answer(record_of(FlatsTyped, typed)))


def _list(typed: Typed) -> MadePart:
    from crankwise.tasks.own_list import ListTyped, list_answer

    return _sized(list_answer(ListTyped(typed.get("angles", ""))))


def _worm_wheel(typed: Typed) -> MadePart:
    from crankwise.tasks.worm_wheel import WormWheelTyped, worm_wheel_answer

    return _sized(worm_wheel_answer(record_of(WormWheelTyped, typed)))


def _rack(typed: Typed) -> MadePart:
    from crankwise.errors import Fault, FaultsFound
    from crankwise.tasks.rack import RackTyped, rack_answer

    answer = rack_answer(record_of(RackTyped, typed))
    if not answer.parts:
        told = f"{answer.name} is longer than a slide is reckoned with, 50 m; cut it in pieces"
        raise FaultsFound([Fault("teeth", told)])
    return _sized(answer)


def _ratchet(typed: Typed) -> MadePart:
    from crankwise.tasks.ratchet import RatchetTyped, ratchet_answer

    return _sized(ratchet_answer(record_of(RatchetTyped, typed)))


def _splines(typed: Typed) -> MadePart:
    from crankwise.tasks.splines import SplinesTyped, splines_answer

    return _sized(splines_answer(record_of(SplinesTyped, typed)), typed.get("which", ""))


def _sprocket(typed: Typed) -> MadePart:
    from crankwise.tasks.sprocket import SprocketTyped, sprocket_answer

    return _sized(sprocket_answer(record_of(SprocketTyped, typed)))


def _clock_wheel(typed: Typed) -> MadePart:
    from crankwise.tasks.clock_wheel import ClockWheelTyped, clock_wheel_answer

    return _sized(clock_wheel_answer(record_of(ClockWheelTyped, typed)), typed.get("which", ""))


def graduated_name(work: Graduated) -> str:
    """Return what graduated work is, without its size: 149 equal lines on a flat ring; vernier, 12 on 11 on a drum."""
    from crankwise.wording.graduate import work_name

    return work_name(work).rpartition(",")[0]


MOST_TOUCHING = 4
"""Collisions told one by one; the rest have the same cure."""

MAKERS: dict[str, Callable[[Typed], MadePart]] = {
    "divisions": _divisions,
    "spur": _gear,
    "helical": _helical,
    "bevel": _bevel,
    "graduated": _graduated,
    "holes": _holes,
    "flats": _flats,
    "list": _list,
    "worm-wheel": _worm_wheel,
    "rack": _rack,
    "ratchet": _ratchet,
    "splines": _splines,
    "sprocket": _sprocket,
    "clock-wheel": _clock_wheel,
}
