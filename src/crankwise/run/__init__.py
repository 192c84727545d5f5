"""At the machine: the journal of a run, and the guide that reads it.

A run's state is a fold over its journal: nothing else is kept, so a run can be replayed. There is
no clock here; a tap brings its time with it, as data.
"""
