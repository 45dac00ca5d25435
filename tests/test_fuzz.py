"""The laws of `fuzz.py` on few examples, each in a process that may have 1 GB of memory."""

import subprocess
import sys
from pathlib import Path

import pytest

from fuzz import LAWS, TooSlowError, within_seconds

FUZZ = Path(__file__).parent / "fuzz.py"
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs limits of a process")


@pytest.mark.parametrize("laws", [
    pytest.param(tuple(name for name in LAWS if name != "checks"), id="all but whole checks"),
    pytest.param(("checks",), id="whole checks")])
def test_the_laws_hold(laws: tuple[str, ...]) -> None:
    done = subprocess.run(
        [sys.executable, str(FUZZ), "--here", "--examples", "12", "--only", *laws], capture_output=True, text=True,
        check=False, timeout=300)
    assert done.returncode == 0, done.stderr[-4000:]


def test_what_does_not_end_is_ended() -> None:
    """The watch over the laws is awake."""
    with pytest.raises(TooSlowError), within_seconds(1):
        while True:
            pass
