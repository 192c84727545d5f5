"""Starting and stopping: the address that is printed, and what is said when it cannot be had."""

import signal
import socket
import subprocess
import sys
from pathlib import Path
from urllib.request import urlopen

import pytest

from crankwise.cli import main
from crankwise.web import create_app
from crankwise.web.server import CannotListen, serve_app
from tests.browser.serving import served


def test_the_printed_address_answers(tmp_path: Path) -> None:
    with served(tmp_path) as server, urlopen(f"{server.address}/") as answer:
        assert answer.status == 200
        assert b"Describe your head" in answer.read()
    assert (tmp_path / "workshop.sqlite").exists()


def test_serve_loads_the_demo_only_when_asked(tmp_path: Path) -> None:
    with served(tmp_path, "--demo") as server, urlopen(f"{server.address}/") as answer:
        assert b"Slipway Shed" in answer.read()


def test_the_demo_command_starts_on_a_fresh_store_and_leaves_nothing(tmp_path: Path) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "crankwise", "demo", "--port", "0"],
        stdout=subprocess.PIPE,
        text=True,
        env={"PYTHONPATH": str(Path(__file__).parents[2] / "src"), "TMPDIR": str(tmp_path), "PATH": ""},
    )
    assert process.stdout is not None
    with process.stdout:
        told = process.stdout.readline()
        with urlopen(told.split()[3]) as answer:
            assert b"Slipway Shed" in answer.read()
        assert list(tmp_path.glob("crankwise-demo-*/demo.sqlite"))
        process.send_signal(signal.SIGINT)
        assert process.wait(20) == 0
    assert list(tmp_path.glob("crankwise-demo-*")) == []


def test_a_port_that_is_taken_is_told_in_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        assert main(["serve", "--data", str(tmp_path), "--port", port]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert f"crankwise: 127.0.0.1, port {port}: it cannot be listened at:" in said.err
    assert "name another with --port" in said.err


@pytest.mark.parametrize("port", [-1, 65_536])
def test_a_port_that_is_none(tmp_path: Path, port: int) -> None:
    app = create_app(tmp_path / "w.sqlite")
    with pytest.raises(CannotListen, match="a port is 1 to 65535, or 0 for any free one"):
        serve_app(app, "127.0.0.1", port, print)


def test_a_host_that_is_not_ours(tmp_path: Path) -> None:
    app = create_app(tmp_path / "w.sqlite")
    with pytest.raises(CannotListen, match="port 0: it cannot be listened at"):
        serve_app(app, "192.0.2.1", 0, print)


def test_a_store_that_cannot_be_opened_is_told_in_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "workshop.sqlite").write_text(
        "this is not a store, but it is long enough to look like one" * 50
    )
    assert main(["serve", "--data", str(tmp_path), "--port", "0"]) == 2
    assert capsys.readouterr().err.startswith("crankwise: ")
