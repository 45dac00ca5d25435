"""Documents as sheets to look at: what a save does not reach is neither printed nor pictured again."""

import hashlib
import io
from collections.abc import Mapping
from typing import Any

from foldproof.documents.hush import hushed
from foldproof.documents.printing import to_pdf
from foldproof.frozen import dataclass

DOTS = 1.6
"""Dots to a point of a sheet's picture: about 115 to an inch."""
Materials = Mapping[str, tuple[str, bytes]]
"""Everything that a document may ask for, as `documents.printing.materials` gives it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet as PNG, its width and height in points."""

    png: bytes
    width: int
    height: int
    dots: bytes
    """A digest of what the picture shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """A document, what it was printed from, and its sheets."""

    html: str
    materials: Materials
    pdf: bytes
    sheets: tuple[Sheet, ...]


class Prints:
    """The last print of each document, by its file's name."""

    def __init__(self) -> None:
        self._last: dict[str, Printed] = {}

    def of(self, file: str, html: str, materials: Materials) -> Printed:
        """The document printed, or as it lies there if nothing of it has changed."""
        last = self._last.get(file)
        if last is None or (last.html, last.materials) != (html, materials):
            with hushed():
                pdf = to_pdf(html, materials)
            known = {sheet.dots: sheet for sheet in last.sheets} if last else {}
            self._last[file] = Printed(html=html, materials=materials, pdf=pdf, sheets=sheets(pdf, known))
        return self._last[file]


def sheets(pdf: bytes, known: Mapping[bytes, Sheet]) -> tuple[Sheet, ...]:
    """The sheets of a PDF; one that looks as a known sheet does is that one."""
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        return tuple(_sheet(sheet.get_size(), sheet.render(scale=DOTS).to_pil(), known) for sheet in document)


def _sheet(size: tuple[float, float], picture: Any, known: Mapping[bytes, Sheet]) -> Sheet:
    width, height = map(round, size)
    dots = hashlib.sha256(f"{width} {height} {picture.size} ".encode() + picture.tobytes()).digest()
    if dots in known:
        return known[dots]
    written = io.BytesIO()
    picture.save(written, "PNG", compress_level=3)
    return Sheet(png=written.getvalue(), width=width, height=height, dots=dots)
