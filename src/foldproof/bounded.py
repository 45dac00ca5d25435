"""Files read within bounds: what lies on a disk may have grown, be a pipe, or come from somebody else.

Whatever was written earlier or by others is read here, so that it can neither fill the memory nor be waited for
without end. Every refusal is an `OSError` that says why in `strerror`, as the system's own do.
"""

import errno
import stat
from pathlib import Path
from typing import Any

MOST_FACTS = 5_000_000
"""Bytes of what Foldproof keeps beside its documents, facts of a card and lists of files: they have some thousand."""
MOST_DOCUMENT = 100_000_000
"""Bytes of a document that Foldproof made; photographs make them large."""


class TooLargeError(OSError):
    """A file holds more than it may."""

    def __init__(self, path: Path, size: int, most: int) -> None:
        """Bytes that it holds, and that it may hold."""
        much, may = size / 1_000_000, most / 1_000_000
        super().__init__(errno.EFBIG, f"it holds {much:.1f} million bytes, and {may:g} million are the most", str(path))
        self.size = size


class NoOrdinaryFileError(OSError):
    """A folder, a pipe or a device."""

    def __init__(self, path: Path, folder: bool) -> None:
        """Where it is, and whether it is a folder."""
        super().__init__(errno.EINVAL, "it is a folder" if folder else "it is no ordinary file", str(path))
        self.folder = folder


def read_within(path: Path, most: int) -> bytes:
    """The bytes of a file. Its kind and size are looked at before it is opened, for a pipe is waited for already then.

    Raises OSError: what the system says, TooLargeError above so many bytes, or NoOrdinaryFileError.
    """
    size = _ordinary(path)
    if size > most:
        raise TooLargeError(path, size, most)
    with path.open("rb") as stream:
        data = stream.read(most + 1)
    if len(data) > most:
        raise TooLargeError(path, len(data), most)
    return data


def beginning(path: Path, count: int) -> bytes:
    """The first bytes of a file, however much it holds. Raises OSError."""
    _ordinary(path)
    with path.open("rb") as stream:
        return stream.read(count)


def _ordinary(path: Path) -> int:
    """The size of a file in bytes; raises NoOrdinaryFileError where it is none."""
    state = path.stat()
    if not stat.S_ISREG(state.st_mode):
        raise NoOrdinaryFileError(path, stat.S_ISDIR(state.st_mode))
    return state.st_size


def read_json(path: Path, most: int = MOST_FACTS) -> Any:
    """What a JSON file says. Raises OSError, or ValueError where it is no JSON in UTF-8 or nested without end."""
    import json  # here, for a check has no need of it

    try:
        return json.loads(read_within(path, most).decode("utf-8"))
    except RecursionError:
        raise ValueError("nested too deeply") from None
