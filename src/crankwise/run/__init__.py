"""At the machine: the journal of a run, what follows from it, and what to say when it went wrong.

A run's state is a fold over its journal: nothing else is kept, so a run can be replayed. There is
no clock here; a tap brings its time with it, as data.

    entry, state, journal    what was tapped, and where the run then stands
    merge                    two journals of one run made one
    guide, in_hand, set_on,
    pace                     what the operator needs to see now, and how long it will take
    proof, check_points      what each scale can prove, and where the run asks for a reading
    evidence                 what each row shows on every scale, for every way to divide
    watch                    all that the run is held against, kept from tap to tap
    catch_up                 the steps that bring the journal to where the machine stands
    odds, weighing, slips,
    where_am_i               where the machine stands, or what has slipped
    faults, gear_at_hand     the fault named from what is left over, by what is turned and counted
    to_first                 the move back to the first line, from where the machine stands
    ring_readings,
    first_line               what the ring and the returns to the first line leave over

Terms: a *row* is one position of the schedule in one of its passes; a *gate* is a row before which all
that was passed over is done; the *anchor* is what has slipped and been taken in as an offset.
"""
