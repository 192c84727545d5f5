"""Lines that stand on the cards of several kinds of part, in the same words."""

from crankwise.part.card import CardLine

TRACE = CardLine("trace", note="a faint nick at every position; count them, and look at the last space")
CENTRE = CardLine(
    "cutter on centre",
    note="at the height of the head's centre, by height gauge, or by two trial cuts half a turn apart on scrap; by eye "
    "is not good enough",
)
CLOSING = CardLine(
    "closing",
    note="on to position N, which is 0 again: the cutter falls into the first cut and takes nothing off",
)
