"""Every command's help has examples that the program takes, and says its exit status."""

import re
import shlex

import pytest

from foldproof.cli import COMMANDS, _parser, main


def help_of(words: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    with pytest.raises(SystemExit) as ended:
        main([*words, "--help"])
    assert ended.value.code == 0
    return capsys.readouterr().out


def examples(text: str) -> list[list[str]]:
    """The examples of a help text as words: what follows two blanks or more, or `>`, explains it."""
    shown = text.split("examples:\n")[1].split("\n\n")[0].split("\n")
    lines = [re.split(r"\s{2,}| > ", line.strip())[0] for line in shown if line.startswith("  foldproof ")]
    return [shlex.split(line)[1:] for line in lines]


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_has_examples_that_the_program_takes(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    text = help_of([command] if command else [], capsys)
    assert "exit status: 0 when" in text
    found = examples(text)
    assert found
    for words in found:
        if words[-1] != "--help":
            assert _parser(words).parse_args(words).command == words[0]
        assert not command or words[0] == command


@pytest.mark.parametrize("command", COMMANDS)
def test_the_first_help_names_every_command(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert re.search(rf"^    {command} +[a-z]", help_of([], capsys), flags=re.M)
