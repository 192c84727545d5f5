"""Chart every number of parts in a range: the best way of each, and its true error.

examples:
  crankwise chart --head bench-head.toml --from 2 --to 400
      for each number from 2 to 400 the best way, its set-up and its worst error
  crankwise chart --head plate-head.toml --from 2 --to 100 --within 1arcmin
      the simplest way within a minute of arc, and beside it the best exact one
  crankwise chart --head bench-head.toml --from 50 --to 60 --rim 150mm --within 20um
      the same by the error at a 150 mm rim
  crankwise chart --head plate-head.toml --from 2 --to 400 --out chart.pdf
      printed for the workshop wall, with what the head cannot do and the circle that would help most
  crankwise chart --head bench-head.toml --from 2 --to 400 --out chart.xlsx
      written for a spreadsheet (or chart.csv)
"""

import argparse
import json
import sys

from crankwise.cli.asking import head_argument, json_argument, rim_argument, within_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    head_argument(command)
    command.add_argument(
        "--from", dest="first", required=True, metavar="N", help="first number of equal parts, 1 or more"
    )
    command.add_argument(
        "--to", dest="last", required=True, metavar="N", help="last number; 10,000 rows at most"
    )
    rim_argument(command)
    within_argument(command)
    form = command.add_mutually_exclusive_group()
    json_argument(form)
    form.add_argument("--csv", action="store_true", help="answer as CSV; errors in seconds of arc")
    form.add_argument(
        "--out", metavar="FILE", help="write it to this file: chart.pdf for the wall, chart.xlsx or chart.csv"
    )
    command.add_argument(
        "--paper", metavar="SIZE", default="A4", help="paper of the PDF: A4 or letter (default A4)"
    )


def run(arguments: argparse.Namespace) -> int:
    """Print or write the chart; 1 when the head can divide none of the numbers."""
    from crankwise.tasks.chart import asked_chart, chart_answer, chart_csv, write_chart
    from crankwise.tasks.heads import load_head
    from crankwise.tasks.sheet import read_paper

    head = load_head(arguments.head)
    charted = asked_chart(head, arguments.first, arguments.last, arguments.within, arguments.rim)
    if arguments.json:
        print(json.dumps(chart_answer(charted), ensure_ascii=False))
    elif arguments.csv:
        sys.stdout.write(chart_csv(charted).replace("\r\n", "\n"))
    elif arguments.out:
        write_chart(charted, arguments.out, read_paper(arguments.paper))
        print(f"{len(charted.rows)} rows written to {arguments.out}")
    else:
        from crankwise.cli.tables import printed
        from crankwise.wording.chart import chart_table
        from crankwise.wording.wall_chart import missing_lines

        print(printed(*chart_table(charted.rows, charted.rim_mm, charted.tolerance)))
        print("\n" + "\n".join(missing_lines(charted.missing, charted.helps)))
    if charted.is_answered:
        return 0
    print("crankwise: this head can divide none of these numbers", file=sys.stderr)
    return 1
