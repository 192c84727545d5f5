from crankwise.files.head_toml import read_head
from crankwise.ways.chart import chart
from crankwise.ways.missing import Help
from crankwise.wording.wall_chart import chart_entry, chart_error, missing_lines

HEAD = read_head(
    """
    name = "Plate head"
    [worm]
    wheel_teeth = 40
    [[plates]]
    circles = [15, 16, 17, 18, 19, 20]
    [[plates]]
    circles = [21, 23, 27, 29, 31, 33]
    [[plates]]
    circles = [37, 39, 41, 43, 47, 49]
    [change_gears]
    teeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
    """
)


def entry(number: int) -> str:
    (row,) = chart(HEAD, number, number)
    return chart_entry(row.best)


def test_plain_is_its_circle_turns_and_holes() -> None:
    assert (entry(7), entry(20)) == ("21: 5 + 15", "2 turns")


def test_compound_names_the_crank_circle_first() -> None:
    assert entry(69) == "21: 14, then 23: -2"


def test_differential_names_its_gears_and_the_way_the_plate_turns() -> None:
    assert entry(59) == "15: 0 + 10; 32 / 48 with, 1 idl."


def test_every_number_has_an_entry_and_only_those_out_have_an_error() -> None:
    for row in chart(HEAD, 2, 400):
        assert chart_entry(row.best)
        assert (chart_error(row.best) == "") is (row.best_exact is not None), row.divisions


def test_no_way_is_told_as_none() -> None:
    assert (chart_entry(None), chart_error(None)) == ("none", "–")


def test_the_missing_numbers_are_drawn_together_and_the_circles_told() -> None:
    lines = missing_lines([51, 53, 57, 58, 59], [Help(51, (51,)), Help(57, (57, 58))])

    assert lines == (
        "No exact way on this head for 5 of these numbers: 51, 53, 57–59.",
        "One more circle of 51 would make 1 of the 5 missing numbers exact: 51.",
        "One more circle of 57 would make 2 of the 5 missing numbers exact: 57, 58.",
    )
