"""What a correction does, as a plain object."""

from typing import Any

from crankwise.accuracy.chances import t_limit
from crankwise.exact.angle import ARCSECONDS
from crankwise.plan.corrected import compared, correction_of
from crankwise.ways.way import Way


def correction_answer(way: Way, curve: bool) -> dict[str, Any]:
    """Return a correction ready for JSON: the worst position before and after, how surely, the curve if asked.

    All in seconds of arc, as floats; `bound` and `u` are of what is known of the head, beside what is left.
    """
    scale, rows = correction_of(way), compared(way)
    unsure = max(row.uncertainty for row in rows)
    return {
        "date": scale.errors.date,
        "before_arcsec": max(abs(float(row.before * ARCSECONDS)) for row in rows),
        "after_arcsec": max(abs(float(row.after * ARCSECONDS)) for row in rows),
        "u_arcsec": unsure,
        "bound_arcsec": unsure * t_limit(scale.errors.freedom),
        "residual_arcsec": float(scale.errors.residual),
        "curve": [
            {
                "position": row.position,
                "before_arcsec": float(row.before * ARCSECONDS),
                "after_arcsec": float(row.after * ARCSECONDS),
                "u_arcsec": row.uncertainty,
            }
            for row in rows
        ]
        if curve
        else None,
    }
