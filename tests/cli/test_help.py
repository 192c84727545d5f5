"""Every command has --json, worked examples, and says the unit of what it takes."""

import argparse
from collections.abc import Iterator

import pytest

from crankwise.cli.parser import COMMANDS, parser

WITHOUT_UNITS = {"help", "version"}


def commands_under(
    name: str, command: argparse.ArgumentParser
) -> Iterator[tuple[str, argparse.ArgumentParser]]:
    inner = [action for action in command._actions if isinstance(action, argparse._SubParsersAction)]
    if not inner:
        yield name, command
    for action in inner:
        for word, sub in action.choices.items():
            yield from commands_under(f"{name} {word}".strip(), sub)


ALL = dict(commands_under("", parser()))


def test_every_command_of_the_list_is_there() -> None:
    assert {name.split()[0] for name in ALL} == set(COMMANDS)


@pytest.mark.parametrize("name", ALL)
def test_a_command_answers_as_json(name: str) -> None:
    assert "--json" in ALL[name]._option_string_actions


@pytest.mark.parametrize("name", ALL)
def test_a_command_shows_worked_examples_with_what_each_does(name: str) -> None:
    told = ALL[name].epilog or ""
    lines = told[told.index("examples:") :].splitlines()[1:]
    examples = [line for line in lines if line.startswith("  crankwise ")]
    assert examples
    assert all(f"{line} ".startswith(f"  crankwise {name} ") for line in examples)
    said = [line for line in lines if line.startswith("      ")]
    assert len(said) >= len(examples)


@pytest.mark.parametrize("name", ALL)
def test_every_option_says_what_it_takes(name: str) -> None:
    for action in ALL[name]._actions:
        assert action.help, action.option_strings


def test_an_option_that_takes_a_measure_says_its_unit() -> None:
    units = {
        "--start": "degrees",
        "--rim": "mm",
        "--within": "arcsec",
        "--angles": "degrees",
        "--every": "K-th",
    }
    options = ALL["divide"]._option_string_actions
    for option, unit in units.items():
        assert unit in (options[option].help or "")
