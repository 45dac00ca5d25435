"""Which versions of the system's libraries print documents: asked of the libraries themselves, printer not loaded.

They are looked for by the names under which the printer opens them, so the system's loader finds the same files.
"""

import ctypes
import os
from collections.abc import Callable, Iterator

_NAMES = ("{}.so.{}", "{}.{}.dylib", "{}.dylib", "{}-{}.dll")
"""Of a library and the number of its interface: Linux, macOS, Windows."""


def _text(function: str) -> Callable[[ctypes.CDLL], str]:
    def asked(library: ctypes.CDLL) -> str:
        version = getattr(library, function)
        version.restype = ctypes.c_char_p
        told = version()
        return told.decode("ascii", "replace") if isinstance(told, bytes) else ""

    return asked


LIBRARIES: tuple[tuple[str, str, Callable[[ctypes.CDLL], str]], ...] = (
    ("libpango-1.0", "0", _text("pango_version_string")),
    ("libharfbuzz", "0", _text("hb_version_string")),
    ("libharfbuzz-subset", "0", _text("hb_version_string")),
    ("libfontconfig", "1", lambda library: str(library.FcGetVersion())),
)
"""Name, number of the interface, and how the version is asked for."""


def versions() -> Iterator[tuple[str, str]]:
    """Each library with its version; an empty one where it is not there, or does not tell it."""
    for name, number, ask in LIBRARIES:
        yield name, _version(name, number, ask)


def _version(name: str, number: str, ask: Callable[[ctypes.CDLL], str]) -> str:
    for pattern in _NAMES:
        if pattern.endswith(".dll") != (os.name == "nt"):
            continue
        try:
            return ask(ctypes.CDLL(pattern.format(name, number)))
        except (OSError, AttributeError):  # not here by this name, or it has no such function
            continue
    return ""
