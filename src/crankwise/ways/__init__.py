"""Every way to divide: one file, one method.

A `Way` (way.py) is a method with its set-up. It gives for each position the setting, where that
really puts the work, and its working. Most ways are a `Scale` (scale.py) read in the operator's
terms. A new method is one file with a function `ways(head, divisions)` and one line in
`registry.py`; `search.py` asks them all, `ranking.py` puts the answers in order and says why.

Terms: *places* are the settings that can be told apart; *error* is where the work is minus the
target, positive the way the work advances; a way *closes* when a full circle is a whole number of
places, so that the last move meets the first position.
"""
