"""The passes of a run as text, kept beside its plan and frozen with it."""

import json
from fractions import Fraction

from crankwise.errors import Mendable, StoreTrouble
from crankwise.plan.passes import ONE_PASS, Pass, Passes


def passes_text(passes: Passes) -> str:
    """Return the passes as text; reading it gives the same. Empty for one pass straight round.

    >>> read_passes(passes_text((Pass("trace"), Pass(spread=3)))) == (Pass("trace"), Pass(spread=3))
    True
    """
    if passes == ONE_PASS:
        return ""
    return json.dumps(
        [
            [
                one.name,
                one.each,
                one.but_not,
                one.spread,
                one.line_class,
                None if one.depth_mm is None else str(one.depth_mm),
            ]
            for one in passes
        ],
        ensure_ascii=False,
    )


def read_passes(text: str) -> Passes:
    """Return the passes that a text holds. Raises StoreTrouble when this version cannot follow it."""
    if not text:
        return ONE_PASS
    try:
        return tuple(
            Pass(name, each, but_not, spread, line_class, None if depth is None else Fraction(depth))
            for name, each, but_not, spread, line_class, depth in json.loads(text)
        )
    except (Mendable, ValueError, TypeError) as error:
        raise StoreTrouble(
            f"the passes of a run cannot be followed ({error}); use the version that kept them"
        ) from error
