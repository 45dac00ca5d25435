"""A bench as it runs, for tests: `foldproof watch` in a process of its own."""

import http.client
import json
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TextIO

PATIENCE = 120
"""Seconds."""


@dataclass
class Running:
    recipe: Path
    process: "subprocess.Popen[str]"
    port: int
    errors: TextIO

    def ask(self, path: str, method: str = "GET", **headers: str) -> tuple[int, bytes, http.client.HTTPMessage]:
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        line.putrequest(method, path, skip_host="Host" in headers, skip_accept_encoding=True)
        for name, value in headers.items():
            line.putheader(name.replace("_", "-"), value)
        line.endheaders()
        answer = line.getresponse()
        found = (answer.status, answer.read(), answer.headers)
        line.close()
        return found

    def told(self, enough: Any) -> dict[str, Any]:
        """What the bench tells, once it is enough."""
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        line.request("GET", "/told")
        answer = line.getresponse()
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            text = answer.readline().decode()
            if text.startswith("data: ") and enough(told := json.loads(text[6:])):
                line.close()
                return dict(told)
        raise AssertionError("the bench never told it")


@contextmanager
def running(recipe: Path, errors: TextIO) -> Iterator[Running]:
    """The bench of a recipe, ended at the end; what it says of trouble goes to a file."""
    process = subprocess.Popen(
        [sys.executable, "-m", "foldproof", "watch", str(recipe), "--port", "0"], stdout=subprocess.PIPE, text=True,
        stderr=errors, start_new_session=True)
    assert process.stdout is not None
    found = re.search(r"http://127\.0\.0\.1:(\d+)/", process.stdout.readline())
    assert found is not None
    try:
        yield Running(recipe, process, int(found[1]), errors)
    finally:
        if process.poll() is None:
            process.send_signal(signal.SIGINT)
            process.wait(30)
        process.stdout.close()
