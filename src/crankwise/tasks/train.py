"""Find trains of change gears: read what was typed, search, and give the answer with its proof."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.length import read_length
from crankwise.exact.number import as_text, read_number
from crankwise.head.change_gears import ChangeGears
from crankwise.head.train import Teeth, Train
from crankwise.head.train_search import MOST_GEARS, Watch, check_asked, nearest_trains, products_counted

FORMAT = 1
SIZES = (2, 4, 6)
MOST_TRAINS = 1000
_USUAL_SIZES = (2, 4)
_NO_FRACTION = re.compile(r"pi|π|tau|τ|e|phi|φ|√.*|sqrt.*|.*\bpi\b.*|.*π.*", re.IGNORECASE)
_PARTS_OF = {"ppm": Fraction(1, 10**6), "%": Fraction(1, 100)}


@dataclass(frozen=True, slots=True)
class LeadAsked:
    """A lead to cut, with the machine that cuts it; lengths in mm.

    lead      travel of the table for one turn of the work
    leadscrew travel of the table for one turn of its screw
    ratio     turns of the worm for one turn of the work
    """

    lead: Fraction
    leadscrew: Fraction
    ratio: Fraction

    @property
    def target(self) -> Fraction:
        """Turns of the worm for one turn of the leadscrew: lead of the machine / lead.

        Source: one turn of the work takes `ratio` turns of the worm and lead / leadscrew turns of the
        screw; every milling handbook writes it upside down, driven over drivers = lead / lead of the machine.
        """
        return self.leadscrew * self.ratio / self.lead

    def lead_of(self, train: Train) -> Fraction:
        """Return the lead that a train cuts, in mm."""
        return self.leadscrew * self.ratio / train.value


@dataclass(frozen=True, slots=True)
class TrainsAsked:
    """What trains are sought.

    target       turns of the last shaft for one turn of the first
    teeth        the gears owned
    sizes        how many gears a train may have
    most         how many trains to tell
    within       how far from the target a value may be, either way; None when not asked
    change_gears how the gears are mounted, when a head file says so
    lead         the lead to cut, when the target comes from one
    """

    target: Fraction
    teeth: Teeth
    sizes: tuple[int, ...]
    most: int
    within: Fraction | None
    change_gears: ChangeGears | None = None
    lead: LeadAsked | None = None

    @property
    def length(self) -> int:
        """How long the search is: the most products of one size that it goes through."""
        return max(products_counted(self.teeth, size) for size in self.sizes)


@dataclass(frozen=True, slots=True)
class Trains:
    """The answer: the nearest trains, the best first; nothing nearer exists with those gears.

    dropped  nearer trains that cannot be mounted, each with the reasons; empty without a head file
    """

    asked: TrainsAsked
    trains: tuple[Train, ...]
    dropped: tuple[tuple[Train, tuple[str, ...]], ...] = ()

    def is_within(self, train: Train) -> bool:
        """Return whether a train is as near as was asked."""
        return self.asked.within is None or abs(train.value - self.asked.target) <= self.asked.within

    @property
    def is_answered(self) -> bool:
        """Whether there is a train, and it is as near as was asked."""
        return bool(self.trains) and self.is_within(self.trains[0])


def asked_trains(
    ratio: str | None,
    gears: str | None,
    *,
    size: str | None = None,
    most: str | None = None,
    within: str | None = None,
    change_gears: ChangeGears | None = None,
    lead: tuple[str | None, str | None, str | None] = (None, None, None),
) -> TrainsAsked:
    """Return the search that was typed; all are texts, None or empty where nothing was.

    change_gears  the gears of a head file, used where no gears were typed
    lead          lead, leadscrew and head ratio, in place of a ratio

    Raises BadNumber, BadLength or FaultsFound.
    """
    for_lead = _read_lead(*lead) if any(lead) else None
    if for_lead and ratio:
        raise BadNumber("ratio", "given beside a lead; the ratio follows from the lead, so leave it out")
    target = for_lead.target if for_lead else read_ratio(ratio or "")
    if gears:
        teeth = read_gears(gears)
    elif change_gears is not None:
        teeth = change_gears.teeth
    else:
        raise FaultsFound([Fault("gears", "none given; write the gears owned, as --gears 24,24,28,32")])
    check_asked(target, teeth)
    asked = TrainsAsked(
        target,
        teeth,
        _read_sizes(size, len(teeth)),
        _read_most(most),
        _read_within(within, target) if within else None,
        change_gears,
        for_lead,
    )
    assert asked.length
    return asked


def find_trains(asked: TrainsAsked, watch: Watch | None = None, tell_dropped: bool = False) -> Trains:
    """Return the nearest trains, the best first.

    watch         told how far the search is; it may raise to end it
    tell_dropped  whether to tell the nearer trains that cannot be mounted
    """
    gears = asked.change_gears

    def mounted(train: Train) -> Train | None:
        return (gears.mounted(train, 0) or gears.mounted(train, 1)) if gears else train

    def search(able: bool) -> list[Train]:
        return nearest_trains(
            asked.target, asked.teeth, asked.sizes, asked.most, mounted if able and gears else None, watch
        )

    found = search(able=True)
    if gears is None or not tell_dropped:
        return Trains(asked, tuple(found))
    unable = [train for train in search(able=False) if mounted(train) is None]
    return Trains(asked, tuple(found), tuple((train, gears.hindrances(train, 0)) for train in unable))


def trains_answer(found: Trains) -> dict[str, Any]:
    """Return the answer as a plain object, ready for JSON; the keys are promised, more may be added."""
    asked = found.asked
    answer: dict[str, Any] = {
        "format": FORMAT,
        "target": str(asked.target),
        "trains": [_train_answer(found, train) for train in found.trains],
    }
    if found.dropped:
        answer["dropped"] = [
            _train_answer(found, train) | {"reasons": list(reasons)} for train, reasons in found.dropped
        ]
    return answer


def _train_answer(found: Trains, train: Train) -> dict[str, Any]:
    target, lead = found.asked.target, found.asked.lead
    answer: dict[str, Any] = {
        "drivers": list(train.drivers),
        "driven": list(train.driven),
        "value": str(train.value),
        "error_ppm": float((train.value - target) / target * 10**6),
    }
    if found.asked.within is not None:
        answer["within"] = found.is_within(train)
    if lead:
        answer["lead_mm"] = as_text(lead.lead_of(train))
    return answer


def read_ratio(text: str) -> Fraction:
    """Return a ratio typed as 40/127, 2.5 or 1 1/3. Raises BadNumber, also for what is no fraction at all."""
    if _NO_FRACTION.fullmatch(text.strip()):
        raise BadNumber(
            "ratio",
            f"{text.strip()!r} is no fraction of whole numbers, so no train makes it exactly; "
            "write it as near as you need, as 3.14159265 or 355/113",
        )
    return read_number(text, "ratio")


def read_gears(text: str) -> Teeth:
    """Return the gears typed as 24, 24, 28 or 20-60: whole numbers of teeth, with commas or spaces between.

    20-60 stands for one gear of every size from 20 to 60. Raises FaultsFound with every piece that cannot
    be read.
    """
    teeth: list[int] = []
    faults: list[Fault] = []
    for number, piece in enumerate(re.split(r"[,;\s]+", text.strip(" ,;\n")), 1):
        match = re.fullmatch(r"(-?\d{1,9})(?:-(\d{1,9}))?", piece)
        if match is None:
            told = f"{piece[:40]!r} is no whole number of teeth; write the gears as 24, 24, 28 or 20-60"
            faults.append(Fault(f"gear {number} of the list", told if piece else "nothing given"))
            continue
        first, last = int(match[1]), int(match[2] or match[1])
        if last < first or last - first >= MOST_GEARS:
            told = f"{piece}; a row of gears rises from its first to its last, at most {MOST_GEARS} of them"
            faults.append(Fault(f"gear {number} of the list", told))
            continue
        teeth += range(first, last + 1)
    if faults:
        raise FaultsFound(faults)
    return tuple(teeth)


def _read_sizes(text: str | None, owned: int) -> tuple[int, ...]:
    if not text:
        return tuple(size for size in _USUAL_SIZES if size <= owned)
    if text.strip() not in map(str, SIZES):
        raise BadNumber("size", f"{text.strip()!r}; a train has 2, 4 or 6 gears")
    size = int(text)
    if size > owned:
        raise FaultsFound([Fault("gears", f"{owned} of them; a train of {size} needs {size}")])
    return (size,)


def _read_most(text: str | None) -> int:
    most = read_number(text, "most") if text else Fraction(10)
    if most.denominator != 1 or not 1 <= most <= MOST_TRAINS:
        raise BadNumber(
            "most", f"{as_text(most)}; how many trains to tell is a whole number from 1 to {MOST_TRAINS}"
        )
    return int(most)


def _read_within(text: str, target: Fraction) -> Fraction:
    """Return how far from the target a value may be: 10ppm and 0.001% of the target, or a bare difference."""
    match = re.fullmatch(r"(.*?)\s*(ppm|%)?", text.strip(), re.IGNORECASE)
    number, unit = (match[1], (match[2] or "").lower()) if match else (text, "")
    try:
        within = read_number(number, "within") * (_PARTS_OF[unit] * target if unit else 1)
    except BadNumber:
        raise BadNumber(
            "within",
            f"{text.strip()!r} cannot be read; write 10ppm, 0.001% or a bare difference of the ratio, as 0.0001",
        ) from None
    if within < 0:
        raise BadNumber("within", f"{text.strip()} is below 0; a tolerance is 0 or more, to either side")
    return within


def _read_lead(lead: str | None, leadscrew: str | None, ratio: str | None) -> LeadAsked:
    given = {"lead": lead, "leadscrew": leadscrew, "head-ratio": ratio}
    if missing := [name for name, text in given.items() if not text]:
        raise BadNumber(
            " and ".join(missing), "missing; a lead needs lead, leadscrew and head-ratio together"
        )
    lengths = read_length(lead or "", "lead"), read_length(leadscrew or "", "leadscrew")
    turns = read_number(ratio or "", "head-ratio")
    for name, value in zip(given, (*lengths, turns), strict=True):
        if value <= 0:
            raise BadNumber(name, f"{as_text(value)}; this is above 0")
    return LeadAsked(*lengths, turns)


def no_change_gears(path: str) -> FaultsFound:
    """Return the fault of a head file that owns no change gears."""
    return FaultsFound(
        [Fault("change_gears", f"{path} has none; add [change_gears] with teeth = [24, 24, 28]")]
    )
