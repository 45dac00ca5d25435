"""What a finished PDF says, read through its own structure: headings, text and figures in reading order.

Reading order comes from the tags (ISO 32000-1, 14.7 and 14.8), not from where ink stands on the sheet. Page headers and
footers are no part of it.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby
from typing import Any

from pypdf import PageObject, PdfReader
from pypdf.generic import ArrayObject, DictionaryObject, StreamObject

_OPERATORS = re.compile(
    r"\[(?P<shown>[^\[\]]*)\]\s*TJ|/(?P<font>\S+)\s+[\d.]+\s+Tf\b|(?P<end>\bEMC\b)"
    r"|(?:/MCID\s+(?P<mark>\d+)[^<>]*>>\s*)?\bB[DM]C\b")
"""What matters of a page's content as our printer writes it: marks, fonts, and text in hexadecimal."""
_CODES = re.compile(r"<([0-9A-Fa-f\s]*)>")
_BF_CHAR = re.compile(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*(?=[<e\n])")
_BF_RANGE = re.compile(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>")


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A block of a document (a heading, a paragraph, an item, a cell) or a figure, in reading order."""

    tag: str
    """`H1`, `P`, `LBody`, `TD`, `Figure`, ..."""
    text: str
    """What it says, on one line; the alternative text of a figure."""
    sheet: int = 1
    """The sheet on which it begins, from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A whole PDF."""

    said: tuple[Said, ...]
    sheets: tuple[str, ...]
    """All text on each sheet in the order of its ink, page headers and footers included."""
    loose_fonts: tuple[str, ...]
    """Fonts that are not embedded."""
    title: str
    language: str

    @property
    def figures(self) -> tuple[str, ...]:
        """The alternative texts of all figures."""
        return tuple(part.text for part in self.said if part.tag == "Figure")

    @property
    def text(self) -> str:
        """All text, without the figures."""
        return "\n".join(part.text for part in self.said if part.tag != "Figure")


def opened(data: bytes) -> PdfReader:
    """A finished PDF opened to be read, once for all that is asked of it."""
    return PdfReader(BytesIO(data))


def read_pdf(data: bytes | PdfReader) -> Told:
    """Read a tagged PDF."""
    reader = data if isinstance(data, PdfReader) else opened(data)
    marked: dict[tuple[int, int], str] = {}
    sheets, loose = [], set()
    for number, page in enumerate(reader.pages):
        by_mark, everything = _texts(page)
        marked.update({(number, mark): text for mark, text in by_mark.items()})
        sheets.append(everything)
        loose |= set(_loose_fonts(page))
    numbers = {page.indirect_reference.idnum: n for n, page in enumerate(reader.pages) if page.indirect_reference}
    root = reader.root_object
    parts = _Tree(numbers, marked).walk(root["/StructTreeRoot"], "", 0, 0) if "/StructTreeRoot" in root else ()
    return Told(
        said=_blocks(parts), sheets=tuple(sheets), loose_fonts=tuple(sorted(loose)),
        title=str(reader.metadata.title) if reader.metadata else "", language=str(root.get("/Lang", "")),
    )


Part = tuple[int, str, str, int]
"""A number that the parts of one block share, its tag, a stretch of its text, its page from 0."""


def _blocks(parts: Iterable[Part]) -> tuple[Said, ...]:
    """The parts of each block put together; a line ends where a part ends, so a space belongs there or does no harm."""
    blocks = [(tag, tuple(group)) for (_, tag), group in groupby(parts, key=lambda part: part[:2])]
    return tuple(
        Said(tag=tag, text=" ".join(" ".join(text for _, _, text, _ in group).split()), sheet=group[0][3] + 1)
        for tag, group in blocks
    )


class _Tree:
    """A walk over the structure that numbers the blocks as it meets them."""

    def __init__(self, numbers: Mapping[int, int], marked: Mapping[tuple[int, int], str]) -> None:
        self.numbers, self.marked, self.blocks = numbers, marked, 0

    def walk(self, node: Any, tag: str, block: int, page: int) -> Iterator[Part]:
        """The parts below a node of the structure."""
        node = node.get_object()
        if isinstance(node, ArrayObject):
            for kid in node:
                yield from self.walk(kid, tag, block, page)
        elif not isinstance(node, DictionaryObject):
            if text := self.marked.get((page, int(node)), ""):
                yield block, tag, text, page
        else:
            if "/Pg" in node:
                page = self.numbers[node.raw_get("/Pg").idnum]
            kind = str(node.get("/S", "")).removeprefix("/")
            if kind not in ("", "Span", "NonStruct", "Link"):
                self.blocks += 1
                tag, block = kind, self.blocks
            if kind == "Figure":
                yield block, kind, str(node.get("/Alt", "")), page
            elif "/MCID" in node:
                yield from self.walk(node["/MCID"], tag, block, page)
            elif "/K" in node:
                yield from self.walk(node["/K"], tag, block, page)


def _texts(page: PageObject) -> tuple[dict[int, str], str]:
    """The text of each marked part of a page, and all its text in the order of its ink."""
    contents = page.get_contents()
    if contents is None:
        return {}, ""
    fonts = {name: _characters(font) for name, font in _fonts(page).items()}
    found: dict[int, list[str]] = {}
    everything: list[str] = []
    marks: list[int | None] = []
    characters: Mapping[int, str] = {}
    for match in _OPERATORS.finditer(contents.get_data().decode("latin-1")):
        if match["shown"] is not None:
            text = "".join(_decode(codes, characters) for codes in _CODES.findall(match["shown"]))
            mark = next((mark for mark in reversed(marks) if mark is not None), None)
            everything.append(text)
            if mark is not None:
                found.setdefault(mark, []).append(text)
        elif match["font"]:
            characters = fonts.get(match["font"], {})
        elif match["end"]:
            del marks[-1:]
        else:
            marks.append(int(match["mark"]) if match["mark"] else None)
    return {mark: "".join(texts) for mark, texts in found.items()}, " ".join(everything)


def _decode(codes: str, characters: Mapping[int, str]) -> str:
    """Two-byte codes (Identity-H) in hexadecimal to text."""
    return "".join(characters.get(int(codes[at:at + 4], 16), "\ufffd") for at in range(0, len(codes), 4))


def _characters(font: DictionaryObject) -> Mapping[int, str]:
    """A font's codes as text, from its ToUnicode table (ISO 32000-1, 9.10.3)."""
    if "/ToUnicode" not in font:
        return {}
    stream = font["/ToUnicode"].get_object()
    table = stream.get_data().decode("latin-1") if isinstance(stream, StreamObject) else ""
    found: dict[int, str] = {}
    for block in re.findall(r"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for first, last, to in _BF_RANGE.findall(block):
            base = int(to, 16)
            found.update({code: chr(base + code - int(first, 16)) for code in range(int(first, 16), int(last, 16) + 1)})
    for block in re.findall(r"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for code, to in _BF_CHAR.findall(block + "\n"):
            found[int(code, 16)] = bytes.fromhex(to).decode("utf-16-be", "replace")
    return found


def _fonts(page: PageObject) -> Mapping[str, DictionaryObject]:
    resources: Any = page["/Resources"]
    return {name.removeprefix("/"): font.get_object() for name, font in resources.get("/Font", {}).items()}


def _loose_fonts(page: PageObject) -> Iterator[str]:
    for font in _fonts(page).values():
        descendants: Any = font.get("/DescendantFonts")
        inner = descendants[0].get_object() if descendants else font
        descriptor = inner.get("/FontDescriptor", DictionaryObject()).get_object()
        if not any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")):
            yield str(font.get("/BaseFont", "?"))
