"""A lock between processes: one builder at a time may switch sets in an output folder."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

PATIENCE = 60.0
"""Seconds to wait for another build before giving up."""


class LockedError(Exception):
    """Another process has held the lock for too long."""


if os.name == "nt":  # pragma: no cover
    import msvcrt

    def _take(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined, unused-ignore]
else:
    import fcntl

    def _take(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def held(path: Path, patience: float = PATIENCE) -> Iterator[None]:
    """Hold the lock file while the block runs. The system lets go of it when a process is killed."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        until = time.monotonic() + patience
        while True:
            try:
                _take(handle)
                break
            except OSError:
                if time.monotonic() > until:
                    raise LockedError(f"another build has held {path} for {patience:g} seconds") from None
                time.sleep(0.02)
        yield
    finally:
        os.close(handle)
