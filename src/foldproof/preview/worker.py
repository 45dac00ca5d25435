"""A process that is kept warm for the work after a save, so that the bench goes on answering meanwhile."""

import os
import signal
import threading
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection
from typing import Any

from foldproof.documents.trouble import DocumentsError
from foldproof.preview.task import AT_ONCE, StaleError, Task
from foldproof.shell import seldom_collected

Told = Callable[[int, str, Any], None]
"""Called in a thread of its own with the number of the save, the kind of result, and the result."""
_CONTEXT = get_context("spawn")
LATER = 5
"""How much what can wait gives way where processors are few (Unix niceness)."""
MOST_DEATHS = 3
"""How often in a row a process is begun anew for the same save."""


class Newest:
    """The number of the newest save, known to all processes."""

    def __init__(self) -> None:
        self.shared = _CONTEXT.Value("q", 0)

    @property
    def number(self) -> int:
        """The number, from 1; 0 before the first."""
        return int(self.shared.value)

    def now(self, number: int) -> None:
        """There is a newer save: work on older ones is dropped as soon as a part of it is done."""
        self.shared.value = number


class Worker:
    """One such process: asked for the work on a save by its number, it tells results as they come."""

    def __init__(self, work: str, task: Task, newest: Newest, told: Told) -> None:
        self._work, self._task, self._newest, self._told = work, task, newest, told
        self._stopping, self._asked, self._deaths = False, 0, 0
        self._begin()

    def _begin(self) -> None:
        self._line, theirs = _CONTEXT.Pipe()
        self._process = _CONTEXT.Process(
            target=_attend, args=(theirs, self._newest.shared, self._work, self._task), daemon=True)
        with _undisturbed():
            self._process.start()
        theirs.close()
        threading.Thread(target=self._listen, args=(self._line,), daemon=True).start()

    def ask(self, number: int) -> None:
        """Ask for the work on a save."""
        self._asked = number
        with suppress(OSError):  # it is gone; the listener begins another and asks again
            self._line.send(number)

    def stop(self) -> None:
        """End the process."""
        self._stopping = True
        with suppress(OSError):
            self._line.send(None)
        self._process.join(0.3)
        if self._process.is_alive():
            self._process.terminate()
            self._process.join(2)

    def _listen(self, line: "Connection[Any, Any]") -> None:
        try:
            while True:
                number, kind, result = line.recv()
                self._deaths = 0 if kind == "done" else self._deaths
                self._told(number, kind, result)
        except (EOFError, OSError):
            if not self._stopping:
                self._again()

    def _again(self) -> None:
        self._deaths += 1
        if self._deaths >= MOST_DEATHS:
            self._told(self._asked, "trouble", f"Work on the {self._work} has ended its process each time.")
            self._told(self._asked, "done", self._work)
            self._deaths = 0
            self._begin()
            return
        self._begin()
        self.ask(self._asked)


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Keep a Ctrl-C at the terminal, which reaches all processes, from those that are begun meanwhile."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _attend(line: "Connection[Any, Any]", newest: Any, work: str, task: Task) -> None:
    """Wait for numbers of saves, and work on the newest."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the bench ends its workers itself
    if hasattr(os, "nice"):
        os.nice(0 if work in AT_ONCE else LATER)
    seldom_collected()
    try:
        while (number := line.recv()) is not None:
            while line.poll():
                number = line.recv()
                if number is None:
                    return
            _attend_to(number, line, newest, work, task)
    except (EOFError, BrokenPipeError):
        return


def _attend_to(number: int, line: "Connection[Any, Any]", newest: Any, work: str, task: Task) -> None:
    from foldproof.preview.work import WORK  # here, for the bench itself needs nothing of what it imports

    def going() -> None:
        if newest.value != number:
            raise StaleError

    try:
        going()
        for kind, result in WORK[work](task, going):
            line.send((number, kind, result))
    except StaleError:
        return
    except DocumentsError as error:
        line.send((number, "trouble", str(error)))
    except (EOFError, BrokenPipeError):
        raise
    except Exception as error:
        traceback.print_exc()
        line.send((number, "trouble", f"Foldproof itself failed ({type(error).__name__}); the terminal says where."))
    line.send((number, "done", work))
