"""Which parts are learnt from, and what their head takes over."""

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from crankwise.accuracy.inspected_part import Inspection
from crankwise.errors import BadNumber, UnknownThing
from crankwise.files.head_toml import read_head
from crankwise.head.head import Head
from crankwise.tasks.learn_head import SeenPart, check_mark, lesson_answer, lesson_of, with_learned
from tests.accuracy.made_parts import Hidden, made_part, plan_of
from tests.gear import BENCH_HEAD

HEAD = read_head(BENCH_HEAD)
HIDDEN = Hidden(wheel=30, worm=20, off_centre=0.01, scatter=8)


def seen(count: int = 97, seed: int = 1, date: str = "2026-03-14", head: str = BENCH_HEAD) -> SeenPart:
    plan = plan_of(count, head=head)
    part = made_part(HIDDEN, plan, Random(seed)).part
    return SeenPart(
        f"wheel of {count}", date, plan, Inspection("pitch_um", part, range(count)), Fraction(100)
    )


PARTS = [seen(60, 1), seen(97, 2, "2026-02-01"), seen(127, 3), seen(103, 4, "2026-05-02"), seen(59, 5)]


def test_parts_that_mislead_are_left_out_with_the_reason() -> None:
    good = PARTS[1]
    assert good.found is not None
    assert good.found.part is not None
    sized = replace(good, found=Inspection("size_mm", None), rim_mm=None)
    slipped_pitches = list(good.found.part.single)
    slipped_pitches[17] += 400
    slipped = replace(
        good, found=replace(good.found, part=replace(good.found.part, single=tuple(slipped_pitches)))
    )
    other = seen(97, head=BENCH_HEAD.replace("wheel_teeth = 72", "wheel_teeth = 90"))
    gone = replace(good, found=None, why="the card has changed")
    found = lesson_of(HEAD, [*PARTS, sized, slipped, other, gone])
    assert found.lesson.parts == len(PARTS)
    reasons = [why for _, why in found.left_out]
    assert reasons[0] == "a size was measured, and that says nothing of the dividing"
    assert reasons[1].startswith("the pitch after position 17 alone reads 39")
    assert "after position 17" in reasons[1]
    assert reasons[2:] == ["made while the head's worm was described otherwise", "the card has changed"]


def test_a_part_measured_twice_counts_once_by_the_mean() -> None:
    good = PARTS[1]
    assert good.found is not None
    assert good.found.part is not None
    shifted = replace(
        good.found.part,
        single=tuple(one + (0.5, -0.5)[k % 2] for k, one in enumerate(good.found.part.single[:-1]))
        + good.found.part.single[-1:],
    )
    first = replace(good, same="piece 2")
    again = replace(first, date="2026-02-03", found=replace(good.found, part=shifted))
    found = lesson_of(HEAD, [first, again, *PARTS[2:]])
    assert (found.lesson.parts, len(found.used), found.left_out) == (4, 5, ())
    assert found.source.startswith("4 measured parts (5 measurements)")
    assert lesson_answer(found)["measurements"] == 5
    twice = lesson_of(HEAD, [good, replace(again, same=""), *PARTS[2:]])
    assert twice.lesson.parts == 5
    mean = replace(
        good,
        found=replace(
            good.found,
            part=replace(
                shifted,
                single=tuple(
                    (a + b) / 2 for a, b in zip(good.found.part.single, shifted.single, strict=True)
                ),
            ),
        ),
    )
    assert found.lesson == lesson_of(HEAD, [mean, *PARTS[2:]]).lesson


def test_the_very_same_readings_are_one_part_whatever_they_are_called() -> None:
    found = lesson_of(HEAD, [*PARTS, replace(PARTS[1], name="copy.csv", date="2026-09-09")])
    assert found.lesson.parts == len(PARTS)
    ((_, why),) = found.left_out
    assert why == "the very readings of wheel of 97, 2026-02-01: one part, counted once"


def test_the_same_part_measured_at_another_diameter_is_left_out() -> None:
    one = replace(PARTS[1], same="piece 2")
    ((_, why),) = lesson_of(HEAD, [one, replace(seen(97, 9), same="piece 2", rim_mm=Fraction(90))]).left_out
    assert why.startswith("the part that is counted by wheel of 97, 2026-02-01 already")


def test_a_part_that_slipped_within_the_worms_pitches_is_left_out_too() -> None:
    """It would pass for scatter of all the others: a step of 80 µm over two thirds of one part in five."""
    good = PARTS[1]
    assert good.found is not None
    assert good.found.part is not None
    pitches = list(good.found.part.single)
    pitches[39] += 80
    pitches[-1] -= 80
    slipped = replace(good, found=replace(good.found, part=replace(good.found.part, single=tuple(pitches))))
    ((_, why),) = lesson_of(HEAD, [*PARTS, slipped]).left_out
    assert "after position 39 that stays" in why


def test_only_what_is_agreed_to_is_taken_over_and_says_where_it_is_from() -> None:
    found = lesson_of(HEAD, PARTS)
    now = with_learned(found, ["worm"])
    assert isinstance(now, Head)
    assert HEAD.error_sizes is None
    assert now.error_sizes is not None
    assert now.error_sizes.sources == (("worm_arcsec", "5 measured parts, 2026-02-01 to 2026-05-02"),)
    assert [name for name, _ in now.error_sizes.sizes] == ["worm_arcsec"]
    again = with_learned(lesson_of(now, PARTS), ["scatter"])
    assert again.error_sizes is not None
    assert again.error_sizes.of("worm_arcsec") == now.error_sizes.of("worm_arcsec")
    assert again.error_sizes.of("reading_marks") is not None
    assert lesson_answer(found)["head"] is None
    assert "[errors.from]" in lesson_answer(found, now)["head"]


def test_what_is_not_offered_cannot_be_taken() -> None:
    found = lesson_of(HEAD, PARTS)
    with pytest.raises(UnknownThing, match="take: 'backlash' is nothing that these parts offer"):
        with_learned(found, ["backlash"])
    with pytest.raises(BadNumber, match="nothing was chosen"):
        with_learned(found, [])
    few = lesson_of(HEAD, PARTS[:2])
    assert not few.lesson.is_enough
    with pytest.raises(UnknownThing, match="they offer nothing"):
        with_learned(few, ["worm"])


def test_another_part_meanwhile_is_told() -> None:
    found = lesson_of(HEAD, PARTS)
    check_mark(lesson_of(HEAD, PARTS), found.mark)
    with pytest.raises(BadNumber, match="have changed since this was shown"):
        check_mark(lesson_of(HEAD, PARTS[:4]), found.mark)


def test_a_head_that_was_changed_meanwhile_is_left_as_it_is() -> None:
    found = lesson_of(HEAD, PARTS)
    assert with_learned(found, ["worm"], HEAD) == with_learned(found, ["worm"])
    with pytest.raises(BadNumber, match="have changed since this was shown"):
        with_learned(found, ["worm"], replace(HEAD, name="Other"))
