"""Heads and divisions as hypothesis thinks of them, written as a person would write the head file."""

from fractions import Fraction

from hypothesis import strategies as st

from crankwise.exact.number import as_text
from crankwise.files.head_toml import read_head
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, EqualDivisions

growth = st.sampled_from(["increases", "decreases"])
ratios = st.one_of(
    st.sampled_from(["40", "72", "90", "5", "45/2", "40/3", "1/2"]),
    st.fractions(Fraction(1, 12), 400, max_denominator=12).map(as_text),
)


@st.composite
def worms(draw: st.DrawFn) -> str:
    return f'[worm]\nratio = "{draw(ratios)}"\nclockwise = "{draw(growth)}"\n'


@st.composite
def dials(draw: st.DrawFn) -> str:
    marks = draw(st.integers(2, 250))
    every = draw(st.integers(0, marks))
    vernier = draw(st.one_of(st.just(0), st.integers(2, 20)))
    lines = [
        "[dial]",
        f"marks = {marks}",
        f'read_to = "1/{draw(st.integers(1, 10))}"',
        f"numbered_every = {every}",
        f'clockwise = "{draw(growth)}"',
    ]
    if 2 <= vernier <= marks:
        lines.append(f"vernier = {vernier}")
    return "\n".join(lines) + "\n"


@st.composite
def rings(draw: st.DrawFn) -> str:
    return (
        f"[ring]\ngraduations = {draw(st.integers(2, 720))}\n"
        f'read_to = "1/{draw(st.integers(1, 5))}"\n'
        f"full_circle = {draw(st.sampled_from([360, 400, 24]))}\n"
    )


plate_circles = st.lists(st.integers(2, 70), min_size=1, max_size=4, unique=True)


@st.composite
def heads(draw: st.DrawFn) -> Head:
    """Any head: some of a dial, plates, a ring and notched wheels, with a worm where the crank needs one."""
    of_the_crank = draw(st.sampled_from(["dial", "plates", "both", "neither"]))
    parts = []
    if of_the_crank != "neither" or draw(st.booleans()):
        parts.append(draw(worms()))
    if of_the_crank in ("dial", "both"):
        parts.append(draw(dials()))
    if draw(st.booleans()):
        parts.append(draw(rings()))
    if of_the_crank in ("plates", "both"):
        parts += [f"[[plates]]\ncircles = {draw(plate_circles)}\n" for _ in range(draw(st.integers(1, 2)))]
    wheels = draw(st.lists(st.integers(2, 80), max_size=2))
    if of_the_crank == "neither" and "[ring]" not in "".join(parts) and not wheels:
        wheels = [draw(st.integers(2, 80))]
    parts += [f"[[notched_wheels]]\nnotches = {notches}\n" for notches in wheels]
    return read_head('name = "Any head"\n' + "".join(parts))


@st.composite
def equal_divisions(draw: st.DrawFn, most: int = 150) -> EqualDivisions:
    """Equal parts: all, or every so many, or from one position to another; from any start."""
    count = draw(st.integers(1, most))
    start = draw(st.one_of(st.just(Fraction(0)), st.fractions(0, Fraction(719, 720), max_denominator=720)))
    first = draw(st.one_of(st.just(0), st.integers(0, count - 1)))
    last = draw(st.one_of(st.none(), st.integers(first, count - 1)))
    every = draw(st.one_of(st.just(1), st.integers(1, count)))
    return EqualDivisions(count, start, first, last, every)


@st.composite
def angle_lists(draw: st.DrawFn) -> AngleList:
    """A rising list within one turn of its first angle."""
    first = draw(st.fractions(0, 1, max_denominator=360))
    more = draw(
        st.lists(
            st.fractions(Fraction(1, 720), Fraction(719, 720), max_denominator=720), unique=True, max_size=12
        )
    )
    return AngleList((first, *(first + angle for angle in sorted(more))))


full_circles = st.builds(EqualDivisions, st.integers(1, 300))
divisions = st.one_of(full_circles, equal_divisions(), angle_lists())
