"""A server of our own in a process of its own, which can be killed as the power would."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple


class Server(NamedTuple):
    """A running server."""

    process: "subprocess.Popen[str]"
    address: str

    @property
    def port(self) -> int:
        return int(self.address.rpartition(":")[2])

    def kill(self) -> None:
        """End it at once, as a power cut would."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait(10)


@contextmanager
def served(data: Path, *options: str, port: int = 0) -> Iterator[Server]:
    """Serve the store in a folder; stopped, and its pipes closed, at the end."""
    command = [sys.executable, "-m", "crankwise", "serve", "--data", str(data), "--port", str(port), *options]
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "src")}
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environment
    )
    assert process.stdout is not None
    assert process.stderr is not None
    try:
        told = process.stdout.readline()
        found = re.search(r"http://\S+", told)
        assert found, f"no address: {told!r} {process.stderr.read()}"
        yield Server(process, found[0])
    finally:
        if process.poll() is None:
            process.terminate()
            process.wait(10)
        process.stdout.close()
        process.stderr.close()
