"""To-scale pictures of the gear, as SVG text.

A picture is a function from the trade's values to one `<svg>` element, with a label that says in
words what it shows. Colours and line widths are the page's: shapes carry class names only, so the
same picture is right in light, in dark and on paper. Coordinates are floats, good to a hundredth of
a unit, which is finer than any screen; nothing here is measured from.

Terms: *face* is a whole dial, ring, plate or wheel seen from the operator's side; *window* is the
part of a scale round its index line; the *index line* is drawn at the top.
"""
