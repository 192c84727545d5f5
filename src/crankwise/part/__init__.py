"""The part you want: which positions its work falls on, and how big its rim is.

It does not know the head. Terms: a *position* is one place to reach, numbered from 0 at the start;
its *target* is its exact angle from the start, in turns.
"""
