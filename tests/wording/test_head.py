"""A head told back to its owner."""

from crankwise.files.head_toml import read_head
from crankwise.wording.head import described
from tests.gear import BENCH_HEAD


def test_an_odd_head_is_told_in_full() -> None:
    head = read_head("""
name = "Odd"
[worm]
ratio = "45/2"
clockwise = "decreases"
[dial]
marks = 125
read_to = "1/2"
vernier = 10
numbered_every = 0
clockwise = "decreases"
[ring]
graduations = 400
full_circle = 400
read_to = "1/4"
[[plates]]
circles = [15, 16]
[[notched_wheels]]
notches = 7
detent_on = "worm"
[change_gears]
teeth = [48, 24, 24]
[stepper]
steps = 200
""")
    assert described(head) == (
        "worm: 22.5 turns of the crank for one of the spindle; one turn is 16°",
        (
            "direction: the crank is turned anticlockwise, the way the dial's numbers grow "
            "(a clockwise turn decreases them)"
        ),
        "dial: 125 marks, without numerals; one mark is 7'40.8\" at the spindle",
        (
            "reading limit: the dial is read to 1/10 of a mark by a vernier of 10, so the reading alone can put "
            "the work out by up to 23.0\"; the head's own error comes on top"
        ),
        "hole plate 1: circles of 15, 16",
        "finest plate setting: 1 hole of the 16 circle is 1°",
        "ring: 400 graduations numbered to 400, read to 13'30.0\"",
        "the ring tells which turn of the crank this is: one turn moves it 16°",
        "notched wheel: 7 notches; one is 51°25'42.9\"; its detent goes round with the worm's wheel",
        "change gears: 24, 24, 48 teeth",
        "stepper: 200 steps in a turn of the crank; one is 4'48.0\" at the spindle",
    )


def test_a_ring_that_cannot_tell_the_turns_apart_is_not_said_to() -> None:
    head = read_head('name = "x"\n[worm]\nratio = 72\n[dial]\nmarks = 100\n[ring]\ngraduations = 60\n')
    assert not any("tells which turn" in line for line in described(head))


def test_a_notched_wheel_alone_has_no_crank() -> None:
    head = read_head('name = "x"\n[[notched_wheels]]\nnotches = 60\n')
    assert described(head) == ("notched wheel: 60 notches; one is 6°",)


def test_what_was_measured_is_told_with_its_date() -> None:
    text = BENCH_HEAD + (
        '[[calibrations]]\ndate = "2026-03-14"\n'
        'harmonics = [{ of = "worm", order = 1, cosine_arcsec = 30, sine_arcsec = 40 }]\n'
        "covariance = [[1], [0, 1]]\n"
    )
    assert described(read_head(text))[-1].startswith(
        "measured on 2026-03-14: the wheel's error goes over 0\" in all, the worm's over 100\";"
    )
