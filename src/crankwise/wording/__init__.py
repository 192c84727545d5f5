"""The only room that rounds: exact values turned into what a person reads.

Rounding is half away from zero, once, at the last step. The words of methods, settings, readings
and cautions live here, so that page, sheet and command say the same.

Figures
    figures, angle, times              decimals, degrees and minutes, a time
    settings, leadscrew, along         a setting that cannot be misread; along a slide
    fields                             a command's sentence as a page says it
The gear, and dividing
    head, error_sizes, calibration     the head told back, its errors, what it was measured to be
    ways, division, traps              a way and its working, the answer, what to beware of
    chart, wall_chart, trains          charts and change gears
Parts
    card, part_text, part_names        cards, and a sized part as text
    gear, graduate, hole_circle,
    flats, own_list, picture           what is told of each kind alone
    cautions                           the usual ones
On paper and at the machine
    sheet, sheet_cells, passes         the run sheet
    run, run_row, run_page             a row, and the page round it
    run_checks, run_first, to_first    checks, and the return to the first line
    run_where, run_faults              where the machine stands, and what went wrong
How good
    accuracy, cures, job_accuracy,
    computer_cut, tolerance            predicted
    measure, inspection, learning      measured, and learnt
"""
