"""One function for one thing a person does: the only floor where the trade meets the disk.

A task takes what a person typed, as text, and gives back the trade's values or writes a file. Both
the command line and the web call these, so that both give the same answer and the same sentence.

Dividing
    divide, chart, corrected           every way, and a correction by what the head was measured to be
    train                              trains of change gears
    answers                            ways, positions and warnings as plain objects
The gear owned
    heads, check_head, cutters         the head file, what was understood of it, the cutters
    calibrations                       those that a head keeps
    leadscrew                          a slide's screw and dial
Parts
    part_kinds                         every kind of part, made from what was typed
    gear, bevel, gear_json, helix,
    geared_part, infeed                toothed wheels, their change gears, and how much deeper to go
    asked_gear, asked_tooth            what was typed for them
    graduate, graduate_json,
    asked_graduate, asked_scale        graduated work
    sized_part, clock_wheel, flats,
    holes, own_list, rack, ratchet,
    splines, sprocket, worm_wheel      the others, with the answer that they share
    picture                            pictures, prints at full size, files to engrave by
Jobs, the workshop, and runs at the machine
    jobs, job_file, job_plan           a part with its head and way, in a file or kept
    runs_of_a_part                     a part that takes several runs in one piece of work
    workshop, runs_of_a_workshop,
    demo, backup                       all that is kept
    asked_passes, sheet, print_forms   the passes of a run, and the run sheet
    tap, read_taps, batch              taps: one, sent as JSON, and of a device that was away
    run_answer, first_answer,
    where_told                         what a device needs to carry a run on with no server
    pocket, joining                    the pocket card; phones let in
How good
    budget, what_if, job_accuracy,
    computer_cut, tolerance            predicted
    measure, readings, centre          the head measured; work centred
    measure_part, part_readings,
    inspect, judge_part, kept_parts,
    same_part, measuring_card,
    measurement_report                 the finished part measured
    learn_files, learn_head            what parts tell of their head
"""
