"""A time as a device said it, in words."""

from datetime import UTC, datetime


def time_text(at: float) -> str:
    """Return a time as 2026-03-14 09:26; a clock that was plainly wrong is told as such.

    at  in seconds since 1970, UTC

    >>> time_text(1_773_480_360.0), time_text(-1e11)
    ('2026-03-14 09:26', 'no sensible time')
    """
    try:
        told = datetime.fromtimestamp(at, UTC)
    except (OverflowError, ValueError, OSError):
        return "no sensible time"
    return f"{told:%Y-%m-%d %H:%M}"
