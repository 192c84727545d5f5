"""The scale that is watched last as a setting is made: a page lays itself out for it."""

from typing import Literal

from crankwise.ways.way import Setting

SetOn = Literal["holes", "ring", "dial", "notches", "steps"]


def set_on(setting: Setting) -> SetOn:
    """Return the scale that a setting is made on; of several, the one that is come up to last.

    >>> set_on(Setting(turns=1, holes=(13,))), set_on(Setting(notches=5))
    ('holes', 'notches')
    """
    if setting.holes is not None:
        return "holes"
    if setting.reading is not None:
        return "ring" if setting.turns is None else "dial"
    return "notches" if setting.steps is None else "steps"
