"""Every kind of slip of the pen is named with its line; what is only a rough reading is not."""

from fractions import Fraction

import pytest

from crankwise.accuracy.mistakes import Place, in_reference_run, without_whole_turns

RATIO = Fraction(72)
WAVE = (0, 20, 35, 41, 35, 20, 0, -20, -35, -41, -35, -20)


def run(offset: int = 0) -> list[Place]:
    """36 settings of 10 degrees, errors of up to 41 seconds; lines from 2."""
    return [
        Place(k + 2, Fraction(10 * k), Fraction((10 * k + offset) % 360) + Fraction(WAVE[k % 12], 3600))
        for k in range(36)
    ]


def changed(index: int, measured: Fraction) -> list[Place]:
    rows = run()
    rows[index] = rows[index]._replace(measured=measured)
    return rows


def told(rows: list[Place], gaps: bool = False) -> list[tuple[int | None, str]]:
    return [(fault.line, fault.message) for fault in in_reference_run(rows, RATIO, gaps)]


def test_a_sound_run_has_no_mistakes() -> None:
    assert told(run()) == []


def test_an_instrument_that_begins_again_at_360_is_sound() -> None:
    for offset in (0, 90, 200):
        rows = run(offset)
        rows.append(Place(38, Fraction(360), Fraction(offset) + Fraction(3, 3600)))
        assert told(rows) == []
        outs = without_whole_turns(rows)
        assert max(outs) - min(outs) < Fraction(1, 36)


def test_an_instrument_that_reads_to_either_side_is_sound() -> None:
    rows = [row._replace(measured=(row.measured + 180) % 360 - 180) for row in run()]
    assert told(rows) == []


def test_a_rough_reading_is_no_mistake() -> None:
    assert told(changed(9, Fraction(90) + Fraction(300, 3600))) == []


@pytest.mark.parametrize(
    ("index", "measured", "message"),
    [
        (
            12,
            "480.01",
            "set 120, measured 480.01: 1 turn of the spindle too far; mistyped, or set a turn out?",
        ),
        (
            12,
            "-240",
            "set 120, measured -240: 1 turn of the spindle too little; mistyped, or set a turn out?",
        ),
        (12, "125.01", "set 120, measured 125.01: 1 turn of the crank too far; mistyped, or set a turn out?"),
        (
            12,
            "109.995",
            "set 120, measured 109.995: 2 turns of the crank too little; mistyped, or set a turn out?",
        ),
        (12, "7200.4", "set 120, measured 7200.4; this looks like minutes of arc; write degrees"),
        (12, "2.0944", "set 120, measured 2.0944; this looks like radians; write degrees"),
        (12, "133.34", "set 120, measured 133.34; this looks like gon; write degrees"),
        (
            12,
            "121.7",
            "set 120, measured 121.7: 1.7 degrees more than the others; mistyped? look it up again",
        ),
    ],
)
def test_one_reading_mistyped_is_named(index: int, measured: str, message: str) -> None:
    assert told(changed(index, Fraction(measured))) == [(index + 2, message)]


@pytest.mark.parametrize(
    ("times", "unit"),
    [("60", "minutes of arc"), ("3600", "seconds of arc"), ("1/360", "turns"), ("10/9", "gon")],
)
def test_a_whole_file_in_another_unit_is_named_once(times: str, unit: str) -> None:
    rows = [row._replace(measured=row.measured * Fraction(times)) for row in run()]
    assert told(rows) == [(3, f"these look like {unit}; write degrees")]


def test_readings_that_fall_as_the_settings_rise_are_named() -> None:
    rows = [row._replace(measured=-row.measured % 360) for row in run()]
    assert [message.partition(";")[0] for _, message in told(rows)] == [
        "the readings fall as the settings rise"
    ]


def test_readings_that_follow_nothing_are_named() -> None:
    rows = [row._replace(measured=Fraction(k * k * 77 % 360)) for k, row in enumerate(run())]
    assert [message.partition(";")[0] for _, message in told(rows)] == [
        "the readings do not follow the settings"
    ]


def test_a_row_written_twice_is_named() -> None:
    rows = run()
    rows.insert(6, rows[5]._replace(line=100))
    assert told(rows) == [(100, "the same as line 7; written twice? leave one out")]


def test_a_run_made_twice_over_is_no_row_written_twice() -> None:
    rows = run()
    assert told(rows + [row._replace(line=row.line + 100) for row in rows]) == []


def test_a_row_left_out_is_named_unless_the_gap_is_meant() -> None:
    rows = run()
    gone = rows.pop(20)
    assert told(rows)[0][0] == 23
    assert f"the row of {gone.setting} is missing" in told(rows)[0][1]
    assert told(rows, gaps=True) == []


def test_settings_that_are_not_even_have_no_gaps() -> None:
    assert told([row for k, row in enumerate(run()) if k % 5 not in (1, 2)]) == []


def moved(by: int) -> list[Place]:
    """From the eleventh row on each value is that of the row below it, or above: one left out, or written twice."""
    rows = run()
    ends = (10, len(rows) - by) if by > 0 else (10, len(rows))
    return [
        row._replace(measured=rows[index + by].measured) if ends[0] <= index < ends[1] else row
        for index, row in enumerate(rows)
    ]


def test_a_value_left_out_that_moves_all_after_it_is_told_once() -> None:
    ((line, message),) = told(moved(1)[:-1])
    assert line == 12
    assert message.startswith(
        "from here to line 36 each value belongs to the row below: one measured value was left out"
    )
    ((line, message),) = told(moved(-1))
    assert line == 12
    assert message.startswith(
        "from here to line 37 each value belongs to the row above: one measured value was written"
    )


def there_and_back() -> list[Place]:
    """Uneven settings, each set going forward and going back."""
    settings = [
        Fraction(angle) for angle in (0, 7, 19, 40, 66, 81, 103, 140, 171, 200, 228, 251, 290, 311, 340)
    ]
    forward = [Place(2 + k, one, one, False) for k, one in enumerate(settings)]
    return forward + [Place(20 + k, one, one, True) for k, one in enumerate(reversed(settings))]


def test_a_setting_that_was_set_one_way_only_is_a_row_missing() -> None:
    rows = there_and_back()
    assert told(rows) == []
    gone = [row for row in rows if row.line != 6]
    ((line, message),) = told(gone)
    assert line == 30
    assert message.startswith("66 was set going back and not going forward; is a row missing?")
    assert told(gone, gaps=True) == []
    left_out = [row for row in rows if row.line == 6]
    assert in_reference_run(gone, RATIO, owners_gaps=left_out) == []


def test_the_far_end_of_a_run_is_set_once() -> None:
    assert told([row for row in there_and_back() if row.line != 20]) == []


def test_no_row_is_missing_where_its_owner_left_it_out() -> None:
    rows = run()
    assert in_reference_run([*rows[:9], *rows[10:]], RATIO, owners_gaps=[rows[9]]) == []
