"""The watch command called wrongly."""

import socket
from pathlib import Path

import pytest

from foldproof.cli import main

SOUND = Path(__file__).parent / "bad_input" / "sound.yaml"


@pytest.mark.parametrize(("arguments", "said"), [
    pytest.param(["nowhere.yaml"], "no file nowhere.yaml", id="no such recipe"),
    pytest.param([str(SOUND), "--port", "70000"], "70000 is no port", id="no port"),
])
def test_a_wrong_call_is_said_in_one_line(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["watch", *arguments]) == 2
    error = capsys.readouterr().err
    assert said in error and error.count("\n") == 1


def test_a_port_that_is_taken_names_a_way_out(capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        assert main(["watch", str(SOUND), "--port", str(taken.getsockname()[1])]) == 2
    assert "--port 0" in capsys.readouterr().err
