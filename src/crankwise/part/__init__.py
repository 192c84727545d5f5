"""The part you want: which positions its work falls on, and how big its rim is.

It does not know the head. Terms: a *position* is one place to reach, numbered from 0 at the start;
its *target* is its exact angle from the start, in turns.

A kind of work says what it is in its own file (`gear`, `bevel`, ...), with what follows from it: its
positions as a `Part`, and two cards, what to prepare and what to measure.
"""
