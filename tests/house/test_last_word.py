"""Where Chromium is missing, the test run says so at its very end; in CI it fails."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tracked import HOUSE

TWO_TESTS = """
import pytest

def test_plain():
    assert 1 + 1 == 2

@pytest.mark.browser
def test_page(chromium):
    raise RuntimeError("this must not run")
"""


def run_without_chromium(tmp_path: Path, *, ci: str) -> subprocess.CompletedProcess[str]:
    tests = tmp_path / "test_two.py"
    tests.write_text(TWO_TESTS, encoding="utf-8")
    (tmp_path / "bin").mkdir()
    plugins = ["-p", "tests.conftest", "-p", "no:cacheprovider"]
    return subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            "-c",
            HOUSE / "pyproject.toml",
            "--rootdir",
            tmp_path,
            *plugins,
            tests,
        ],
        cwd=HOUSE,
        env={**os.environ, "PATH": str(tmp_path / "bin"), "PYTHONPATH": str(HOUSE), "CI": ci},
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_last_word_is_what_did_not_run(tmp_path: Path) -> None:
    run = run_without_chromium(tmp_path, ci="")
    assert run.returncode == 0, run.stdout
    assert "1 passed, 1 skipped" in run.stdout
    assert run.stderr.strip().startswith("THE BROWSER TESTS DID NOT RUN (1 of them)")


def test_in_ci_a_missing_chromium_is_a_failure(tmp_path: Path) -> None:
    run = run_without_chromium(tmp_path, ci="true")
    assert run.returncode == pytest.ExitCode.USAGE_ERROR
    assert "1 browser tests cannot run" in run.stderr
