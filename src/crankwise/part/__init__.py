"""The part you want: which positions its work falls on, and how big its rim is.

It does not know the head. Terms: a *position* is one place to reach, numbered from 0 at the start;
its *target* is its exact angle from the start, in turns.

A kind of work says what it is in its own file (`gear`, `bevel`, ...), with what follows from it: its
positions as a `Part`, and two cards, what to prepare and what to measure.

What all kinds share
    part, divisions, kinds             the part, its positions, and the list of kinds
    card, usual_lines, pass_lines      the cards, and lines that stand on several
    suggestion                         a length to suggest, rounded to the side that works
    polar, box                         points and rectangles in the plane
Toothed work
    gear, gear_cards, gear_system      spur and helical gears
    involute, tooth_form               the flank, and the whole outline of a tooth
    span, over_pins, chordal,
    measured_tooth, depth              how a tooth is measured, and how deep to cut
    cutters, helical                   form cutters; what a helix asks of the mill
    pair, pair_card                    two gears in mesh
    bevel, bevel_cards, bevel_form     bevel gears
    worm_wheel, rack, ratchet,
    splines, sprocket                  each its own
    clock_wheel, clock_pinion,
    clock_pinion_cards                 clockwork
Graduated work
    graduated, graduated_cards,
    surface, order_of_work             the whole, what it is engraved on, and in what order
    scale_lines, scale_law,
    dial_lines, vernier_scale          where lines stand
    scale_direction                    which way the numbers run
    line_classes, stop_pieces          short and long lines
    numerals, figure_offsets           what is engraved beside them
    collisions, numeral_fixes,
    legibility                         what touches, what cures it, how well it reads
Other work
    hole_circle, hole_circle_cards     holes
    flats, flats_cards                 flats
    own_list                           a list of one's own
"""
