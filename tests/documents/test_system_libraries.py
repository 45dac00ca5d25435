"""The versions of the system's libraries are those that the printer works with, or empty."""

import pytest

from foldproof.documents import system_libraries
from foldproof.documents.system_libraries import versions


def test_pango_is_the_printer_s_own() -> None:
    """Judge from outside: the library that WeasyPrint has opened, asked for its number (major, minor, micro)."""
    from weasyprint.text.ffi import ffi, pango

    ffi.cdef("int pango_version(void);", override=True)
    number = pango.pango_version()
    told = dict(versions())
    assert told["libpango-1.0"] == f"{number // 10_000}.{number // 100 % 100}.{number % 100}"
    assert all(told.values())


@pytest.mark.parametrize("change", [
    ("libnone-1.0", "0", system_libraries.LIBRARIES[0][2]), ("libpango-1.0", "0", system_libraries._text("no_such")),
], ids=["no such library", "no such function"])
def test_what_is_missing_has_no_version(
    change: tuple[str, str, object], monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(system_libraries, "LIBRARIES", (change,))
    assert list(versions()) == [(change[0], "")]
