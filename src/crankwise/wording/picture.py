"""The words on a print at full size."""

CHECK_BAR = "Measure these bars before you trust the print."
IF_OFF = (
    "If 100 mm does not measure 100 mm, print at 100 % (not “fit to page”); if it still does not, give what it "
    "measures, as 99.6mm, and print again."
)
JOIN = "Cut along the dashed edges and lay the crosses of neighbouring sheets over one another."


def sheet_text(name: str, row: int, rows: int, column: int, columns: int) -> str:
    """Return what stands at the head of one sheet: the part, full size, and which sheet of how many.

    row, column  from 1
    """
    told = f"{name}, full size"
    if rows * columns == 1:
        return told
    number = (row - 1) * columns + column
    return f"{told}: sheet {number} of {rows * columns}, row {row} of {rows} from the top, column {column} of {columns}"


def corrected_text(across: float, down: float) -> str:
    """Return the sentence of a print that was corrected for its printer; empty where it was not.

    across, down  what the printer made of 100 mm, in mm
    """
    if across == down == 100:
        return ""
    return f"Corrected for a printer that makes {across:.6g} mm across and {down:.6g} mm down of 100 mm."


def written_text(path: str, form: str, sheets: int, paper: str) -> str:
    """Return what was written: which file, and on how many sheets of which paper."""
    if form == "dxf":
        return f"{path}: full size, in millimetres"
    if form == "svg":
        return f"{path}: full size, one sheet; print it at 100 %"
    told = "one sheet" if sheets == 1 else f"{sheets} sheets to join"
    return f"{path}: full size, {told} of {paper}; print at 100 % and measure the bars"
