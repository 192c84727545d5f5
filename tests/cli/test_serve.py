"""crankwise serve: says its address once it answers."""

import json
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from tests.cli.conftest import Typed


@pytest.mark.parametrize("as_json", [True, False])
def test_it_prints_its_address_when_it_answers_and_stops_when_told(tmp_path: Path, as_json: bool) -> None:
    words = ["serve", "--port", "0", "--data", str(tmp_path), *(["--json"] if as_json else [])]
    with subprocess.Popen(
        [sys.executable, "-m", "crankwise", *words], stdout=subprocess.PIPE, text=True
    ) as running:
        try:
            assert running.stdout is not None
            said = running.stdout.readline()
            address = json.loads(said)["address"] if as_json else said.split()[3]
            with urllib.request.urlopen(address, timeout=20) as page:
                assert page.status == 200
        finally:
            running.send_signal(signal.SIGINT)
        assert running.wait(timeout=20) == 0


def test_a_port_that_is_no_number_earns_a_sentence(typed: Typed) -> None:
    ran = typed("serve", "--port", "eighty")
    assert (ran.code, ran.err) == (
        2,
        "crankwise: --port: 'eighty' is not a whole number; see crankwise serve --help\n",
    )
