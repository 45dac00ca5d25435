"""What a finished PDF says, read through its own structure: headings, text and figures in reading order.

Reading order comes from the tags (ISO 32000-1, 14.7 and 14.8), not from where ink stands on the sheet. Page headers and
footers are no part of it.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby
from struct import unpack
from typing import Any

from pikepdf import Array, Dictionary, Object, Page, Pdf, Stream

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


def opened(data: bytes) -> Pdf:
    """A finished PDF opened to be read, once for all that is asked of it."""
    return Pdf.open(BytesIO(data))


def inked(page: Page) -> bytes:
    """The content of a page: the operators that ink it."""
    contents = page.obj.get("/Contents")
    if isinstance(contents, Array):
        return b"\n".join(part.read_bytes() for part in contents)
    return contents.read_bytes() if isinstance(contents, Stream) else b""


def read_pdf(data: bytes | Pdf) -> Told:
    """Read a tagged PDF."""
    pdf = data if isinstance(data, Pdf) else opened(data)
    marked: dict[tuple[int, int], str] = {}
    sheets, loose = [], set()
    numbers: dict[int, int] = {}
    known: dict[tuple[int, int], Mapping[int, str]] = {}
    for number, page in enumerate(pdf.pages):
        by_mark, everything = _texts(page, known)
        marked.update({(number, mark): text for mark, text in by_mark.items()})
        sheets.append(everything)
        loose |= set(_loose_fonts(page))
        numbers[int(page.objgen[0])] = number
    root = pdf.Root
    parts = _Tree(numbers, marked).walk(root["/StructTreeRoot"], "", 0, 0) if "/StructTreeRoot" in root else ()
    return Told(
        said=_blocks(parts), sheets=tuple(sheets), loose_fonts=tuple(sorted(loose)),
        title=str(pdf.docinfo.get("/Title", "")), language=str(root.get("/Lang", "")),
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
        if isinstance(node, Array):
            for kid in node:
                yield from self.walk(kid, tag, block, page)
        elif not isinstance(node, Dictionary):
            if text := self.marked.get((page, int(node)), ""):
                yield block, tag, text, page
        else:
            if "/Pg" in node:
                page = self.numbers[int(node["/Pg"].objgen[0])]
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


def _texts(page: Page, known: dict[tuple[int, int], Mapping[int, str]]) -> tuple[dict[int, str], str]:
    """The text of each marked part of a page, and all its text in the order of its ink; `known` keeps fonts' codes."""
    fonts = {name: _once(font, known) for name, font in _fonts(page).items()}
    found: dict[int, list[str]] = {}
    everything: list[str] = []
    marks: list[int | None] = []
    characters: Mapping[int, str] = {}
    for match in _OPERATORS.finditer(inked(page).decode("latin-1")):
        if match["shown"] is not None:
            text = _decode("".join(_CODES.findall(match["shown"])), characters)
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
    pairs = bytes.fromhex(codes)
    return "".join([characters.get(code, "\ufffd") for code in unpack(f">{len(pairs) // 2}H", pairs)])


def _once(font: Object, known: dict[tuple[int, int], Mapping[int, str]]) -> Mapping[int, str]:
    if not font.is_indirect:
        return _characters(font)
    if font.objgen not in known:
        known[font.objgen] = _characters(font)
    return known[font.objgen]


def _characters(font: Object) -> Mapping[int, str]:
    """A font's codes as text, from its ToUnicode table (ISO 32000-1, 9.10.3)."""
    stream = font.get("/ToUnicode")
    table = stream.read_bytes().decode("latin-1") if isinstance(stream, Stream) else ""
    found: dict[int, str] = {}
    for block in re.findall(r"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for first, last, to in _BF_RANGE.findall(block):
            base = int(to, 16)
            found.update({code: chr(base + code - int(first, 16)) for code in range(int(first, 16), int(last, 16) + 1)})
    for block in re.findall(r"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for code, to in _BF_CHAR.findall(block + "\n"):
            found[int(code, 16)] = bytes.fromhex(to).decode("utf-16-be", "replace")
    return found


def _fonts(page: Page) -> Mapping[str, Object]:
    fonts: Any = page.obj["/Resources"].get("/Font", Dictionary())
    return {name.removeprefix("/"): font for name, font in fonts.items()}


def _loose_fonts(page: Page) -> Iterator[str]:
    for font in _fonts(page).values():
        descendants: Any = font.get("/DescendantFonts")
        inner = descendants[0] if descendants is not None else font
        descriptor: Any = inner.get("/FontDescriptor", Dictionary())
        if not any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")):
            yield str(font.get("/BaseFont", "?"))
