"""The chosen way, made concrete: one plan, and its schedule, one row a position.

Terms: a *row* is one position of a schedule; the *closing row* is the first position met again
after the full circle; the *ring check* is what the ring must show when the setting is reached.
"""
