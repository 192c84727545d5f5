"""Try everything on a demo workshop in a fresh temporary store, and print its address.

examples:
  crankwise demo
      the Slipway Shed: heads, jobs, and a run that was stopped in the middle; gone when you stop it
  crankwise demo --port 0
      on any free port
"""

import argparse

from crankwise.cli.serve import address_arguments, serve


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    address_arguments(command)


def run(arguments: argparse.Namespace) -> int:
    """Serve the demo until interrupted; its store goes with it."""
    import os
    import tempfile

    with tempfile.TemporaryDirectory(prefix="crankwise-demo-", ignore_cleanup_errors=True) as folder:
        serve(arguments, os.path.join(folder, "demo.sqlite"), demo=True)  # noqa: PTH118
    return 0
