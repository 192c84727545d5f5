"""How good: predict the finished part, measure the head, judge the part.

Three figures are always kept apart: the way's own rounding, known exactly; the head's error, unknown
until it is measured; the finished part at the rim, which is both and the work on top. What an error is
called, how to measure it and how to cure it in words lives in `wording`.

Predicting: `sources` says which errors a plan meets and how large they are; `pitch_law` puts them together
position by position; `bounds` gives deviations that 19 gears in 20 keep, `simulate` the same by cutting
many gears, `one_part` shows one of them; `tolerance` judges by a published standard; `budget` is the whole answer.

Measuring the head: `measuring_plan` says which settings to take, `closure` and `calibration` find the waves of
worm and wheel in the readings, `calibration_doubt` how surely, and `calibrated` what that changes in a budget.
`mistakes` and `closure_mistakes` name what was mistyped, before anything is fitted.

Judging the part: `inspection` makes deviations of readings, `part_causes` says what they point to (`part_steps`: the
faults that stand at one place, found by their `step_signatures`), and both make
an `inspected_part`; `learning` tells from several parts what their head is really like, by the waves that
`waves_of_part` finds on each.

Floats are right in this room: errors are statistics, good to a few per cent at best. The exact settings
they start from stay exact in `plan`.
"""
