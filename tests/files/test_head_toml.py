"""A head file: read, written, read again the same; every fault told with its place and line."""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import BadFile, FaultsFound
from crankwise.files.head_toml import read_head, write_head
from crankwise.files.toml_text import MOST_BYTES
from crankwise.head.change_gears import ChangeGears
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.slide import Slide
from crankwise.head.worm import Worm, worm_from_teeth
from crankwise.tasks.heads import load_head

COUNTS = st.integers(2, 1000)
PARTS = st.integers(1, 20).map(lambda n: Fraction(1, n))
GROWTH = st.sampled_from(["increases", "decreases"])


@st.composite
def dials(draw: st.DrawFn) -> Dial:
    marks = draw(COUNTS)
    return Dial(
        marks,
        draw(PARTS),
        draw(st.integers(0, marks)),
        draw(st.none() | st.integers(2, marks)),
        draw(GROWTH),  # type: ignore[arg-type]
        draw(st.booleans()),
    )


HEADS = st.builds(
    Head,
    st.text(min_size=1, max_size=200).filter(lambda name: bool(name.strip())),
    st.builds(Worm, st.fractions(Fraction(1, 100), 1000, max_denominator=100), clockwise=GROWTH)
    | st.builds(worm_from_teeth, st.integers(1, 400), st.integers(1, 5), GROWTH),
    st.none() | dials(),
    st.lists(st.lists(COUNTS, min_size=1, max_size=9, unique=True).map(tuple).map(Plate), max_size=4).map(
        tuple
    ),
    st.builds(Ring, COUNTS, PARTS, st.integers(1, 6400), st.sampled_from(["clockwise", "anticlockwise"])),
    st.lists(st.builds(NotchedWheel, COUNTS), max_size=3).map(tuple),
    st.none() | st.builds(ChangeGears, st.lists(st.integers(6, 200), max_size=12).map(tuple)),
)


SLIDES = st.builds(
    lambda name, dial, slide: Head(name, dial=dial, slide=slide),
    st.just("Mill table"),
    dials(),
    st.builds(
        Slide,
        st.fractions(Fraction(1, 100), 100, max_denominator=360),
        st.none() | st.fractions(1, 50_000, max_denominator=360),
    ),
)


@given(head=HEADS | SLIDES)
def test_what_is_written_reads_the_same(head: Head) -> None:
    assert read_head(write_head(head)) == head
    assert read_head(write_head(head).encode()) == head


def test_a_file_as_a_person_writes_it() -> None:
    head = read_head("""
name = "Bench head"
[worm]
wheel_teeth = 72
starts = 1
clockwise = "increases"      # what a clockwise turn of the crank does to the ring's reading
[dial]
marks = 100
read_to = "1/2"              # of a mark
numbered_every = 10
# vernier = 10               # divisions, where there is one
[ring]
graduations = 360
read_to = "1/2"
[[plates]]
circles = [15, 16, 17, 18, 19, 20]
[[notched_wheels]]
notches = 60
[change_gears]
teeth = [24, 24, 28, 32]
""")
    assert head == Head(
        "Bench head",
        worm_from_teeth(72),
        Dial(100, Fraction(1, 2)),
        (Plate((15, 16, 17, 18, 19, 20)),),
        Ring(360, Fraction(1, 2)),
        (NotchedWheel(60),),
        ChangeGears((24, 24, 28, 32)),
    )


@pytest.mark.parametrize(
    ("written", "ratio"),
    [
        ("40", 40),
        ('"45/2"', Fraction(45, 2)),
        ("22.5", Fraction(45, 2)),
        ('"2 1/2"', Fraction(5, 2)),
        ("0.1", Fraction(1, 10)),
    ],
)
def test_a_ratio_is_read_without_loss(written: str, ratio: Fraction) -> None:
    head = read_head(f'name = "x"\n[worm]\nratio = {written}\n[dial]\nmarks = 10\n')
    assert head.ratio == ratio


@pytest.mark.parametrize(
    ("written", "lead"),
    [
        ('"5mm"', 5),
        ("5", 5),
        ("2.5", Fraction(5, 2)),
        ('"1/10in"', Fraction(127, 50)),
        ('"1/8 in"', Fraction(127, 40)),
    ],
)
def test_a_lead_is_read_without_loss(written: str, lead: Fraction) -> None:
    head = read_head(f'name = "x"\n[slide]\nlead = {written}\n[dial]\nmarks = 100\n')
    assert head.slide == Slide(Fraction(lead))


@pytest.mark.parametrize(("written", "travel"), [('"400mm"', "400"), ('"16in"', "406.4"), ("400", "400")])
def test_a_travel_is_read_without_loss(written: str, travel: str) -> None:
    head = read_head(f'name = "x"\n[slide]\nlead = 5\ntravel = {written}\n[dial]\nmarks = 100\n')
    assert head.slide == Slide(Fraction(5), Fraction(travel))


def test_a_dial_of_few_marks_is_taken_to_have_no_numerals() -> None:
    head = read_head('name = "x"\n[worm]\nratio = 40\n[dial]\nmarks = 9\n')
    assert head.dial
    assert head.dial.numbered_every == 0


def test_a_mark_at_the_front_from_a_word_processor_does_no_harm() -> None:
    assert read_head(b'\xef\xbb\xbfname = "x"\r\n[ring]\r\ngraduations = 360\r\n').name == "x"


def test_every_fault_is_told_at_once_in_the_order_of_the_parts() -> None:
    with pytest.raises(FaultsFound, match="worm") as told:
        read_head(
            "\n"
            "name = 5\n"
            "[worm]\n"
            "wheel_teeth = 0\n"
            "[dial]\n"
            "marks = 100\n"
            'read_to = "2/5"\n'
            'colour = "red"\n'
            "[[plates]]\n"
            "circles = [15, 1,\n"
            "  15]\n"
            "[[notched_wheels]]\n"
            "notches = 1\n",
            "my-head.toml",
        )
    places = [(fault.place, fault.line) for fault in told.value.faults]
    assert places == [
        ("name", 2),
        ("worm.wheel_teeth", 4),
        ("dial.colour", 8),
        ("dial.read_to", 7),
        ("plates[0].circles[1]", 10),
        ("plates[0].circles[2]", 11),
        ("notched_wheels[0].notches", 13),
    ]
    assert told.value.lines()[1] == "worm.wheel_teeth (my-head.toml, line 4): 0; a worm wheel has 1 or more"


def sentences_for(content: str | bytes) -> tuple[str, ...] | None:
    """Return what a wrong file earns, or None for a head."""
    try:
        read_head(content)
    except FaultsFound as told:
        return tuple(line for line in told.lines() if line.strip())
    return None


@given(text=st.text(max_size=300))
def test_any_text_is_a_head_or_earns_sentences(text: str) -> None:
    assert sentences_for(text) != ()


@given(content=st.binary(max_size=300))
def test_any_bytes_are_a_head_or_earn_sentences(content: bytes) -> None:
    assert sentences_for(content) != ()


@pytest.mark.parametrize("nested", ["a = " + "[" * 5000, "[" + "a." * 5000 + "a]\n", "a = " + "9" * 5000])
def test_a_nesting_or_a_number_beyond_belief_is_no_crash(nested: str) -> None:
    with pytest.raises(FaultsFound, match=r"TOML|not known"):
        read_head(nested)


def test_50_megabytes_are_not_read_at_all(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    with path.open("wb") as file:
        file.write(b'name = "x"\n')
        file.truncate(50_000_000)
    sentence = f"^huge.toml: 50,000,000 bytes; a head file is a page of text, {MOST_BYTES:,} bytes at most$"
    with pytest.raises(BadFile, match=sentence):
        load_head(str(path))


def test_a_text_too_long_is_told_without_being_read() -> None:
    with pytest.raises(FaultsFound, match=r"^1,000,001 bytes; a head file is a page of text"):
        read_head("#" * (MOST_BYTES + 1))
