"""Every basic way against brute force: the same ways are found, and none of their positions could be better."""

from dataclasses import dataclass
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.files.head_toml import read_head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways import dial, direct, nearest_hole, plain, ring
from crankwise.ways.way import Way
from tests.oracle.every_place import comes_round, constant_moves, least_distances


@dataclass
class Gear:
    """A small head, as plain numbers; zero where a part is missing."""

    ratio: Fraction
    marks: int
    mark_parts: int
    circles: list[int]
    graduations: int
    graduation_parts: int
    notches: list[int]

    def toml(self) -> str:
        lines = ['name = "Small head"', "[worm]", f'ratio = "{self.ratio}"']
        if self.marks:
            lines += [
                "[dial]",
                f"marks = {self.marks}",
                "numbered_every = 1",
                f'read_to = "1/{self.mark_parts}"',
            ]
        if self.graduations:
            lines += ["[ring]", f"graduations = {self.graduations}", f'read_to = "1/{self.graduation_parts}"']
        if self.circles:
            lines += ["[[plates]]", f"circles = {self.circles}"]
        for notches in self.notches:
            lines += ["[[notched_wheels]]", f"notches = {notches}"]
        return "\n".join(lines)


gears = st.builds(
    Gear,
    ratio=st.sampled_from([Fraction(x) for x in ("1", "2", "3", "5", "6", "3/2", "5/2", "7/3", "2/3")]),
    marks=st.sampled_from([0, 2, 3, 5, 8, 10]),
    mark_parts=st.integers(1, 3),
    circles=st.lists(st.integers(2, 12), max_size=3, unique=True),
    graduations=st.sampled_from([2, 6, 8, 12]),
    graduation_parts=st.integers(1, 2),
    notches=st.lists(st.integers(2, 14), max_size=2, unique=True),
)


def ways_of(gear: Gear, wanted: EqualDivisions | AngleList) -> list[Way]:
    head = read_head(gear.toml())
    return [way for ways in (direct, plain, dial, nearest_hole, ring) for way in ways.ways(head, wanted)]


def expected(gear: Gear, targets: list[Fraction], is_list: bool, goes_round: bool) -> dict[str, Fraction]:
    """The ways there are, by name, with their worst error."""
    found: dict[str, Fraction] = {}

    def worst(turns: Fraction, places: int) -> Fraction:
        return max(least_distances(turns, places, targets))

    def meets(turns: Fraction, places: int) -> bool:
        if is_list:
            return worst(turns, places) == 0
        return bool(constant_moves(turns, places, targets)) and (not goes_round or comes_round(turns, places))

    for notches in gear.notches:
        if meets(Fraction(1), notches):
            found[f"direct wheel {notches}"] = Fraction(0)
    if meets(Fraction(1), gear.graduations):
        found["direct ring"] = Fraction(0)
    else:
        found["ring"] = worst(Fraction(1), gear.graduations * gear.graduation_parts)
    places = gear.marks * gear.mark_parts
    if places and (comes_round(gear.ratio, places) or not goes_round):
        found["dial"] = worst(gear.ratio, places)
    for circle in gear.circles:
        if meets(gear.ratio, circle):
            found[f"plain {circle}"] = Fraction(0)
        elif comes_round(gear.ratio, circle) or not goes_round:
            found[f"nearest-hole {circle}"] = worst(gear.ratio, circle)
    return found


def name_of(way: Way) -> str:
    if way.method == "direct":
        return f"direct wheel {way.setup['wheel']}" if "wheel" in way.setup else "direct ring"
    return f"{way.method} {way.setup['circle']}" if "circle" in way.setup else way.method


def found_by(gear: Gear, wanted: EqualDivisions | AngleList) -> dict[str, Fraction]:
    ways = ways_of(gear, wanted)
    for way in ways:
        assert max(abs(reached.error) for reached in way.reached()) == way.worst_error
    return {name_of(way): way.worst_error for way in ways}


def without_whole_turns(
    ways: dict[str, Fraction], gear: Gear, targets: list[Fraction]
) -> dict[str, Fraction]:
    """Whole turns are told once, on the first circle: leave out plain ways when all positions are whole turns."""
    if all((target * gear.ratio).denominator == 1 for target in targets):
        return {name: worst for name, worst in ways.items() if not name.startswith("plain")}
    return ways


@given(
    gears, st.integers(2, 12), st.sampled_from([Fraction(0), Fraction(1, 12), Fraction(3, 7), Fraction(1, 2)])
)
def test_equal_parts_are_found_and_set_as_brute_force_says(gear: Gear, count: int, start: Fraction) -> None:
    targets = [start + Fraction(number, count) for number in range(count)]
    found = found_by(gear, EqualDivisions(count, start))
    wanted = expected(gear, targets, is_list=False, goes_round=True)
    assert without_whole_turns(found, gear, targets) == without_whole_turns(wanted, gear, targets)
    assert any(name.startswith("plain") for name in found) == any(name.startswith("plain") for name in wanted)


@given(gears, st.integers(3, 12), st.data())
def test_some_of_equal_parts_are_found_and_set_as_brute_force_says(
    gear: Gear, count: int, data: st.DataObject
) -> None:
    first = data.draw(st.integers(0, count - 2))
    last = data.draw(st.integers(first + 1, count - 1))
    numbers = list(range(first, last + 1))
    targets = [Fraction(number, count) for number in numbers]
    goes_round = len(numbers) == count
    found = found_by(gear, EqualDivisions(count, first=first, last=last))
    wanted = expected(gear, targets, is_list=False, goes_round=goes_round)
    assert without_whole_turns(found, gear, targets) == without_whole_turns(wanted, gear, targets)


@given(
    gears,
    st.lists(st.fractions(0, Fraction(23, 24), max_denominator=24), min_size=1, max_size=6, unique=True).map(
        sorted
    ),
)
def test_a_list_is_found_and_set_as_brute_force_says(gear: Gear, targets: list[Fraction]) -> None:
    found = found_by(gear, AngleList(tuple(targets)))
    wanted = expected(gear, targets, is_list=True, goes_round=False)
    assert found == wanted
