"""Quiet for system libraries that write to the terminal past Python (fontconfig, GLib)."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def hushed() -> Iterator[None]:
    """Send file descriptor 2 nowhere while the block runs. Exceptions still come out, and are shown afterwards."""
    sys.stderr.flush()
    try:
        kept = os.dup(2)
    except OSError:
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 2)
    os.close(nowhere)
    try:
        yield
    finally:
        sys.stderr.flush()
        os.dup2(kept, 2)
        os.close(kept)
