"""The errors of a part's pitch: each pitch as a bar, and below it the curve that they add up to."""

from collections.abc import Sequence
from html import escape

from crankwise.draw.svg import element, number, picture

WIDTH, HEIGHT = 320.0, 90.0
"""Of one of the two charts."""

_GAP, _EDGE = 30.0, 8.0
_TITLE = 6.0
"""How far a title stands above its chart."""

MOST_BARS = 400
"""More pitches are drawn as one path of thin lines, so that the picture stays small."""


def pitch_errors(
    errors: Sequence[float],
    goes_round: bool,
    single_limit: float = 0.0,
    cumulative_limit: float = 0.0,
    wrong: int | None = None,
    titles: tuple[str, str] = ("", ""),
) -> str:
    """Return the two charts, one above the other, each to its own scale.

    errors                          error of each position along the rim, in micrometres, 2 or more
    goes_round                      whether the last pitch leads back to the first position
    single_limit, cumulative_limit  tolerances, drawn as a band about nought and about the curve's
                                    middle; 0 for none
    wrong                           place in `errors` of a position that was set wrongly: its two
                                    pitches stand out, one long and one short
    titles                          what stands above each chart; empty for nothing
    """
    after = [*errors[1:], errors[0]] if goes_round else list(errors[1:])
    pitches = [end - start for start, end in zip(errors, after, strict=False)]
    singled_out = set() if wrong is None else {wrong - 1 if wrong else len(errors) - 1, wrong}
    body = [
        *_bars(pitches, max(single_limit, *map(abs, pitches)) or 1.0, single_limit, singled_out),
        *_curve([*errors, errors[0]] if goes_round else errors, cumulative_limit, wrong),
        *(
            element("text", escape(title), x=0.0, y=top - _TITLE, class_="title")
            for title, top in zip(titles, (0.0, HEIGHT + _GAP), strict=True)
            if title
        ),
    ]
    label = (
        f"{len(pitches)} pitches, the worst {max(map(abs, pitches)):.1f} micrometres out; below, the cumulative "
        f"curve, {max(errors) - min(errors):.1f} micrometres high"
    )
    above = _GAP - _EDGE if any(titles) else _EDGE
    box = (-_EDGE, -above, WIDTH + 2 * _EDGE, 2 * HEIGHT + _GAP + above + _EDGE)
    return picture(label, box, body, "pitch-errors")


def _bars(pitches: Sequence[float], full: float, limit: float, singled_out: set[int]) -> list[str]:
    middle, scale, width = HEIGHT / 2, HEIGHT / 2 / full, WIDTH / len(pitches)
    body = [_band(middle - limit * scale, 2 * limit * scale)] if limit else []
    if len(pitches) > MOST_BARS:
        lines = [
            f"M{number((index + 0.5) * width)} {number(middle)}v{number(-pitch * scale)}"
            for index, pitch in enumerate(pitches)
        ]
        body.append(element("path", d="".join(lines), class_="pitches"))
    for index, pitch in enumerate(pitches):
        if len(pitches) > MOST_BARS and index not in singled_out:
            continue
        top = middle - max(pitch, 0) * scale
        class_ = "pitch wrong" if index in singled_out else "pitch"
        x, wide = (index + 0.1) * width, 0.8 * width
        body.append(element("rect", x=x, y=top, width=wide, height=abs(pitch) * scale, class_=class_))
    return [*body, _line(middle)]


def _curve(errors: Sequence[float], limit: float, wrong: int | None) -> list[str]:
    low, high = min(errors), max(errors)
    centre, full = (low + high) / 2, max(high - low, limit) or 1.0
    top, scale = HEIGHT + _GAP, HEIGHT / full

    def place(index: int) -> tuple[float, float]:
        x = WIDTH * index / max(len(errors) - 1, 1)
        return x, top + HEIGHT / 2 - (errors[index] - centre) * scale

    points = [" ".join(map(number, place(index))) for index in range(len(errors))]
    body = [_band(top + HEIGHT / 2 - limit * scale / 2, limit * scale)] if limit else []
    body.append(_line(top + HEIGHT / 2))
    body.append(element("path", d="M" + "L".join(points), class_="cumulative"))
    if wrong is not None:
        x, y = place(wrong)
        body.append(element("circle", cx=x, cy=y, r=3.0, class_="wrong"))
    return body


def _band(top: float, height: float) -> str:
    return element("rect", x=0.0, y=top, width=WIDTH, height=height, class_="tolerance")


def _line(y: float) -> str:
    return element("path", d=f"M0 {number(y)}H{number(WIDTH)}", class_="nought")
