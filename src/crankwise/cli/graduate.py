"""Lay out graduated work: lines, classes, numerals, what touches, stop pieces, order of work, direction.

examples:
  crankwise graduate 149 --on ring --across 150mm --classes "1=3mm, 6=4.5mm, 12=6.5mm" --height 2.4mm
      149 equal lines on a flat ring, with numerals at every 10th line
  crankwise graduate --lead 1.5mm --per-line 0.01mm --on drum --across 60mm --numeral-step 0.01
      the dial of a screw with a lead of 1.5 mm; the numerals say millimetres
  crankwise graduate --period 12h25m --per-line 5m --on ring --across 150mm --face 10mm
      a ring of hours: an hour numeral every 12th line, the last hour shorter
  crankwise graduate --vernier 12 --over 23 --main-part 1deg --on ring --across 120mm
      a vernier of 12 on 23 parts of one degree, which reads to 5 minutes
  crankwise graduate --law log --values 1:2:0.1,2:5:0.2,5:10:0.5 --on ring --across 200mm
      a logarithmic scale once round; a formula of your own goes too: --law "arc * sin(x)"
  crankwise graduate --points "0=0, 10=31.5, 20=64d30m" --values 0:20:2 --on ring --across 90mm
      lines between calibrated points; without --values, the points alone
  crankwise graduate --thread-dial 16 --lead 4tpi --threads 4tpi,8tpi,11tpi --on ring --across 40mm
      a thread dial: its lines, and where the half nuts may be closed for each thread
  crankwise graduate 100 --on drum --across 50mm --job dial.toml
      all that, and a job file with which it can be divided, printed and done again
  crankwise graduate 100 --on drum --across 50mm --json
      for a program: every line, and what touches
"""

import argparse
import json
import sys
from collections.abc import Iterable

from crankwise.cli.asking import job_head_argument, job_out_argument, json_argument, keep_job, named_head
from crankwise.tasks.asked_graduate import WorkTyped
from crankwise.tasks.asked_scale import ScaleTyped
from crankwise.tasks.graduate import Graduation, graduate

_SCALE = {
    "--arc": (
        "A",
        "angle that the lines cover, in degrees: N parts of it have N + 1 lines (default: the circle)",
    ),
    "--start": ("A", "angle of line 0 from the start, in degrees (default 0)"),
    "--lead": ("LENGTH", "dial of a screw: what a turn is worth, as 1.5mm, 1/8in or 8tpi"),
    "--period": ("TIME", "ring of hours: how long a turn lasts, as 12h25m"),
    "--per-line": ("VALUE", "what one line is worth: 0.01mm or 0.001in; with --period 5m"),
    "--vernier": ("N", "parts of a vernier, as 10 or 12"),
    "--over": (
        "M",
        "parts of the main scale that the vernier covers: N - 1 (default), N + 1, 2N - 1, 2N + 1",
    ),
    "--main-part": ("A", "one part of the main scale, in degrees, as 1deg or 3'"),
    "--form": ("FORM", "form of the vernier: direct, folded or double (default direct)"),
    "--law": (
        "FORMULA",
        "log, sine, tangent, or your own: degrees from x, arc, first and last, as arc * sin(x)",
    ),
    "--values": ("LIST", "values that have a line: FIRST:LAST:STEP, as 1:2:0.1,2:10:0.5; or one by one"),
    "--points": ("LIST", "table: value = angle in degrees, as 0=0, 10=31.5, 20=64d30m"),
    "--points-file": ("FILE", "the same from a text file, a point a line"),
    "--thread-dial": ("TEETH", "teeth of a thread dial's gear; with --lead of the leadscrew and --threads"),
    "--threads": ("LIST", "threads that the dial is for, as 4tpi,8tpi,1.5mm"),
}
_SURFACE = {
    "--on": ("SURFACE", "ring (flat), drum or cone (default ring)"),
    "--across": ("DIAMETER", "diameter of the reading edge, where lines begin, as 150mm or 3in (bare: mm)"),
    "--face": (
        "LENGTH",
        "room from the reading edge the way the lines run, as 10mm; the last 0.5 mm stay free",
    ),
    "--cone-angle": ("A", "with --on cone: between slant and axis, in degrees (default 45)"),
    "--lines-run": ("WAY", "from the reading edge in (to the axis) or out (default in)"),
}
_LINES = {
    "--classes": (
        "LIST",
        "every so many counts, and length, as 1=3mm, 5=4.5mm, 10=6mm; or 1,5,10 in usual lengths",
    ),
    "--width": ("LENGTH", "width of all lines (default a tenth of the spacing, 0.1 to 0.25 mm)"),
    "--tool-angle": ("A", "included angle of the V tool in degrees (default 60): gives the depth"),
}
_NUMERALS = {
    "--numeral-every": ("K", "numerals at every K-th count (default: with the longest lines)"),
    "--numeral-first": ("V", "what the numeral at count 0 says (default 0)"),
    "--numeral-step": ("V", "how much one count more adds, as 0.01 (default 1; hours with --period)"),
    "--texts": (
        "LIST",
        "instead of numbers: texts of the numbered lines in order, as N,E,S,W; or of lines of your own, as 0=N,25=E",
    ),
    "--height": (
        "LENGTH",
        "height of the figures, as 2.4mm or 3/32in (default: the largest stamp to 3.2 mm that clears)",
    ),
    "--widths": (
        "LIST",
        "real widths of your figures, as 0=1.6mm,1=0.9mm (default 0.65 of the height, 1 less)",
    ),
    "--burr": ("LENGTH", "raised metal round a stamped figure (default 0.15 mm)"),
    "--shank": ("LENGTH", "side of a stamp's square shank (default 6 mm)"),
    "--stand": (
        "HOW",
        "upright (along their lines), radial (read along them) or level (as on a clock; default upright)",
    ),
    "--feet": (
        "WAY",
        "feet of upright numerals: usual (to a ring's axis, to a drum's reading edge), edge or away",
    ),
    "--numerals": (
        "SIDE",
        "past the lines' ends or behind the reading edge; on a ring also inside or outside",
    ),
    "--middle": ("LENGTH", "from the reading edge to the numerals' middle (default: as near as is clear)"),
}
_DIRECTION = {
    "--moves": ("WHAT", "what moves when the handle is turned: scale or pointer (default scale)"),
    "--turns": (
        "WAY",
        "which way that goes, watched from the handle, when the reading must grow (default clockwise)",
    ),
    "--faces": ("SIDE", "the scale faces the one at the handle, front, or away, rear (default front)"),
    "--work-turns": ("WAY", "which way your work turns when you crank forward, looking at its face"),
}
_GROUPS = (
    ("scale", _SCALE),
    ("surface", _SURFACE),
    ("lines", _LINES),
    ("numerals", _NUMERALS),
    ("direction", _DIRECTION),
)
_FLAGS = {
    "scale": (
        ("--diameter", "with --lead: the dial reads a diameter, twice the travel"),
        ("--short-last", "where the lines do not come out whole, let the last space be shorter"),
    ),
    "surface": (("--shoulder", "the face ends at a wall that a stamp's shank can hit"),),
    "numerals": (
        ("--engraved", "engraved figures: no burr, no shank"),
        ("--no-numerals", "lines alone"),
    ),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "lines", nargs="?", metavar="N", default="", help="number of equal parts, 1 to 20,000"
    )
    for title, options in _GROUPS:
        group = command.add_argument_group(title)
        for option, (metavar, told) in options.items():
            group.add_argument(option, metavar=metavar, default="", help=told)
        for option, told in _FLAGS.get(title, ()):
            group.add_argument(option, action="store_true", help=told)
    command.add_argument("--list", action="store_true", help="list every line")
    command.add_argument("--inch", action="store_true", help="tell lengths in inches first")
    job_out_argument(command)
    job_head_argument(command)
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the answer; 1 when something touches."""
    work = _typed(arguments, _SURFACE, _LINES, _NUMERALS, _DIRECTION)
    work["side"] = work.pop("numerals")
    scale_typed = ScaleTyped(
        lines=arguments.lines,
        diameter=arguments.diameter,
        short_last=arguments.short_last,
        **_typed(arguments, _SCALE),
    )
    work_typed = WorkTyped(
        shoulder=arguments.shoulder,
        engraved=arguments.engraved,
        no_numerals=arguments.no_numerals,
        **work,
    )
    head = named_head(arguments)
    answer = graduate(scale_typed, work_typed)
    if arguments.job:
        _keep_job(arguments.job, head, scale_typed, work_typed, answer)
    if arguments.json:
        from crankwise.tasks.graduate_json import graduate_object

        print(json.dumps(graduate_object(answer), ensure_ascii=False))
    else:
        _tell(answer, arguments.list, arguments.inch)
    if not answer.collisions:
        return 0
    from crankwise.wording.graduate import trouble_text

    print(f"crankwise: {trouble_text(answer.collisions, answer.fixes, answer.lines)}", file=sys.stderr)
    return 1


def _keep_job(path: str, head: str, scale: ScaleTyped, work: WorkTyped, answer: Graduation) -> None:
    from dataclasses import asdict

    from crankwise.files.job_toml import asked_part
    from crankwise.tasks.asked_scale import with_points
    from crankwise.tasks.part_kinds import graduated_name

    typed = asdict(with_points(scale)) | asdict(work)
    part = asked_part("graduated", typed | {"numerals": work.side})
    keep_job(path, part, graduated_name(answer.work), head)


def _typed(arguments: argparse.Namespace, *groups: Iterable[str]) -> dict[str, str]:
    names = [option.lstrip("-").replace("-", "_") for group in groups for option in group]
    return {name: getattr(arguments, name) for name in names}


def _tell(answer: Graduation, listed: bool, inch_first: bool) -> None:
    from crankwise.cli.tables import printed
    from crankwise.wording import graduate as words

    work, asked = answer.work, answer.asked
    print(words.work_name(work, inch_first))
    print(f"  {words.spacing_text(work, inch_first)}")
    if work.scale.note:
        print(f"  {work.scale.note}")
    if asked.scale.vernier:
        print(f"  {words.vernier_text(asked.scale.vernier)}")
    if not work.scale.is_exact:
        print(f"  {words.FLOATS}")
    if answer.threads:
        print(f"\n{printed(*words.threads_table(answer.threads))}")
    if answer.collisions:
        print("\nTouching")
        for found in answer.collisions[: words.MOST_TOLD]:
            print(f"  {words.collision_text(found, answer.lines)}")
        if len(answer.collisions) > words.MOST_TOLD:
            print(f"  and {len(answer.collisions) - words.MOST_TOLD} more")
        for fix in answer.fixes:
            print(f"  what works: {words.fix_text(fix)}")
    elif answer.largest_height_mm is not None:
        print(f"  nothing touches; {words.largest_text(answer.largest_height_mm, answer.largest_stamp)}")
    for finding in answer.findings:
        print(f"  Look again: {words.finding_text(finding)}.")
    print("\nDirection")
    for line in words.direction_lines(asked.direction, work.surface.kind == "drum", asked.is_turned_round):
        print(f"  {line}")
    print(f"\n{words.cards_text(answer.cards, inch_first)}\n")
    print("\n".join(words.graduate_cautions(work)))
    if listed:
        print(f"\n{printed(*words.lines_table(answer.lines, answer.figure_offsets))}")
