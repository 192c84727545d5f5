"""The run sheet as one page for a browser, which prints by itself: no script, no other file."""

from collections.abc import Iterator
from html import escape

from crankwise.draw.code import code_picture
from crankwise.sheets.sheet import Line, List, Sheet
from crankwise.wording.passes import COUNTED_HERE
from crankwise.wording.sheet import CODE_LEADS, FILL_IN

_STYLE = """
@page { margin: 14mm 10mm 12mm 14mm }
* { box-sizing: border-box }
body { font: 15px/1.35 system-ui, sans-serif; color: #000; background: #fff }
body { margin: 0 auto; padding: 1rem; max-width: 62rem }
h1 { font-size: 1.5rem; margin: 0 0 .5rem; overflow-wrap: anywhere }
h2 { font-size: 1rem; margin: .8rem 0 .2rem; break-after: avoid }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem .8rem; margin: 0 }
dt { font-weight: 600 } dd { margin: 0 }
.ticks { list-style: none; padding: 0; margin: .2rem 0 }
.box { display: inline-block; width: 1.05em; height: 1.05em; border: 1.5px solid #000 }
.box { vertical-align: -.15em; margin-right: .5em }
.cautions { margin: 0; padding: .4rem .6rem .4rem 1.6rem; border: 1.5px solid #000 }
.rhythm { font-weight: 600; margin: .8rem 0 }
.fill span { display: inline-block; min-width: 11rem; border-bottom: 1px solid #000 }
.fill span { margin: .3rem .8rem .3rem 0; padding-bottom: .2rem }
.table { overflow-x: auto }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums }
caption { text-align: left; font-weight: 600; padding: .2rem 0 }
thead { display: table-header-group }
th { text-align: right; font-size: .8rem; vertical-align: bottom; border-bottom: 2px solid #000; padding: .2rem .5rem }
td { text-align: right; padding: .12rem .5rem; border-bottom: 1px solid #bbb; white-space: nowrap }
td small { display: block; font-size: .72rem; line-height: 1.1 }
tr { break-inside: avoid }
tr.fifth td { background: #e4e4e4; print-color-adjust: exact; -webkit-print-color-adjust: exact }
tr.tenth td { border-top: 2px solid #000 }
td.position, td.turns.change { font-weight: 700 }
td.notches, td.hole, td.back-pin, td.second-wheel, td.dial, td.ring, td.steps { font-weight: 700 }
td.notches, td.hole, td.dial, td.ring, td.steps { font-size: 1.5rem; font-weight: 700; line-height: 1.2 }
td.ring-check.check { border: 2.5px solid #000 }
th.remark, td.remark { text-align: left; min-width: 7rem }
tr.closing td { border-top: 3px double #000 }
th.tick, td.tick { text-align: left }
td.tick::before { content: ""; display: inline-block; width: 1em; height: 1em; border: 1.5px solid #000 }
tfoot { display: table-footer-group }
tfoot td { border-bottom: 0; text-align: left }
tfoot td.count { border: 1px solid #000; height: 1.6em; min-width: 1.9em }
.in-all { font-weight: 600; margin: .2rem 0 1rem }
.code { float: right; margin: 0 0 .5rem 1rem; text-align: center; font-size: .75rem }
.code svg { display: block; width: 27mm; height: 27mm }
.ending { font-weight: 700; border: 2px solid #000; padding: .4rem .6rem }
@media print {
body { padding: 0; max-width: none; font-size: 11px }
.table { overflow: visible }
th, td { padding: .1rem .3rem }
th { font-size: 8.5px; white-space: nowrap }
td.notches, td.hole, td.dial, td.ring, td.steps { font-size: 1.25rem }
th.remark, td.remark { min-width: 5rem }
}
"""


def html_bytes(sheet: Sheet) -> bytes:
    """Return the sheet as one HTML page; every text that a person typed stands in it as text."""
    return "\n".join(_page(sheet)).encode("utf-8", errors="replace")


def _page(sheet: Sheet) -> Iterator[str]:
    title = escape(sheet.title)
    yield '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n<body><main>"
    yield f"<h1><bdi>{title}</bdi></h1>\n{_code(sheet.link)}<dl>"
    for name, text in sheet.facts:
        yield f"<dt>{escape(name)}</dt><dd>{escape(text)}</dd>"
    yield '</dl>\n<p class="fill">' + "".join(f"<span>{escape(name)}</span>" for name in FILL_IN) + "</p>"
    yield '<h2>Cautions</h2>\n<ul class="cautions">'
    yield from (f"<li>{escape(caution)}</li>" for caution in sheet.cautions)
    yield '</ul>\n<h2>Before the first cut</h2>\n<ul class="ticks">'
    yield from (f'<li><span class="box"></span>{escape(todo)}</li>' for todo in sheet.before)
    yield f'</ul>\n<p class="rhythm">{escape(sheet.rhythm)}</p>'
    for one in sheet.lists:
        yield from _table(sheet, one)
    yield f'<p class="ending">{escape(sheet.ending)}</p>\n</main>\n</body>\n</html>\n'


def _table(sheet: Sheet, one: List) -> Iterator[str]:
    if one.title:
        yield f"<h2>{escape(one.title)}</h2>"
    name = escape(one.title or "Positions")
    yield f'<div class="table" role="region" aria-label="{name}" tabindex="0"><table>'
    yield f"<caption><bdi>{escape(sheet.summary)}</bdi></caption>"
    yield "<thead><tr>"
    yield from (f'<th scope="col" class="tick">{escape(tick)}</th>' for tick in one.ticks)
    for column in sheet.columns:
        heading = "<br>".join(escape(text) for text in column.heading if text)
        yield f'<th scope="col" class="{column.role.replace(" ", "-")}">{heading}</th>'
    yield "</tr></thead>"
    if one.counts:
        # A browser prints the foot of a table again on each page.
        boxes = '<td class="count"></td>' * len(one.ticks)
        yield f'<tfoot><tr>{boxes}<td colspan="{len(sheet.columns)}">{escape(COUNTED_HERE)}</td></tr></tfoot>'
    yield "<tbody>"
    yield from (_row(sheet, one, line) for line in one.lines)
    yield "</tbody>\n</table></div>"
    if one.counts:
        yield f'<p class="in-all">{escape(one.in_all)}</p>'


def _code(link: str) -> str:
    if not link:
        return ""
    return f'<figure class="code">{code_picture(link, link)}<figcaption>{escape(CODE_LEADS)}</figcaption></figure>\n'


def _row(sheet: Sheet, one: List, line: Line) -> str:
    marked = {"fifth": line.tally % 5 == 0, "tenth": line.tally % 10 == 0, "closing": line.closing}
    names = " ".join(name for name, holds in marked.items() if holds)
    cells = ['<td class="tick"></td>' for _ in one.ticks]
    for column, cell in zip(sheet.columns, line.cells, strict=True):
        name = column.role.replace(" ", "-")
        name += " change" if column.role == "turns" and line.turns_change else ""
        name += " check" if column.role == "ring check" and line.is_check else ""
        small = f"<small>{escape(cell.small)}</small>" if cell.small else ""
        cells.append(f'<td class="{name}">{escape(cell.text)}{small}</td>')
    return f'<tr class="{names}">{"".join(cells)}</tr>' if names else f"<tr>{''.join(cells)}</tr>"
