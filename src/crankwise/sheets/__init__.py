"""Printed and exported things: the run sheet as a table (CSV), as pages (PDF) and as one page (HTML).

`sheet.py` makes a plan into a `Sheet`, all its words and lines in order; `html_page.py` and
`pdf_pages.py` only lay it out, `wall_sheet.py` in figures to be read from the wall. `csv_table.py`
takes the plan itself, since a table for a program holds numbers, not words. Everything here returns
bytes; writing them to a disk is a task's.

`pocket_card.py` makes a run into one HTML file that a phone works with no server: the run page's own
scripts and styles, and the rows, packed by `pocket_rows.py`.

Terms: a *line* of a sheet is one row of the schedule as it is printed; a *list* is the lines of one
pass, or of several that share them, a tick a pass; a *check line* is one where
the ring is read and written down; a *recap* tells where a page ends and where the next one begins,
so that each page can be used alone.
"""
