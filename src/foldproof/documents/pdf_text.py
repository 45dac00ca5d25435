"""What a finished PDF says, read through its own structure: headings, text and figures in reading order.

Reading order comes from the tags (ISO 32000-1, 14.7 and 14.8), not from where ink stands on the sheet. Page headers and
footers are no part of it.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby
from typing import Any

from pikepdf import Array, Dictionary, Object, Page, Pdf, Stream

_OPERATORS = re.compile(
    r"\[(?P<shown>[^\[\]]*)\]\s*TJ|/(?P<font>\S+)\s+[\d.]+\s+Tf\b|/MCID\s+(?P<mark>\d+)[^<>]*>>\s*BDC\b"
    r"|EMC(?<=\bEMC)\b|B[DM]C(?<=\bB[DM]C)\b")
"""What matters of a page's content as our printer writes it: marks, fonts, and text in hexadecimal. Each alternative
begins with a letter that is seldom met, so the search leaps from one to the next.
"""
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
    fonts = _Fonts()
    marked: dict[tuple[int, int], str] = {}
    sheets = []
    for number, page in enumerate(pdf.pages):
        by_mark, everything = _texts(inked(page).decode("latin-1"), fonts.of(page))
        marked.update({(number, mark): text for mark, text in by_mark.items()})
        sheets.append(everything)
    numbers = {page.obj.objgen: n for n, page in enumerate(pdf.pages)}
    root = pdf.Root
    parts = _Tree(numbers, marked).walk(root["/StructTreeRoot"]) if "/StructTreeRoot" in root else ()
    return Told(
        said=_blocks(parts), sheets=tuple(sheets), loose_fonts=tuple(sorted(fonts.loose)),
        title=str(pdf.docinfo.get("/Title", "")), language=str(root.get("/Lang", "")),
    )


_WITHIN_A_LINE = frozenset(["", "Span", "NonStruct", "Link"])
"""Tags that begin no block."""
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

    def __init__(self, numbers: Mapping[tuple[int, int], int], marked: Mapping[tuple[int, int], str]) -> None:
        self.numbers, self.marked, self.blocks = numbers, marked, 0
        self.parts: list[Part] = []

    def walk(self, node: Any, tag: str = "", block: int = 0, page: int = 0) -> Sequence[Part]:
        """The parts below a node of the structure, after those that were met before."""
        if isinstance(node, int):
            if text := self.marked.get((page, node), ""):
                self.parts.append((block, tag, text, page))
        elif isinstance(node, Array):
            for kid in node:
                self.walk(kid, tag, block, page)
        else:
            if (own := node.get("/Pg")) is not None:
                page = self.numbers[own.objgen]
            kind = str(node.get("/S", "")).removeprefix("/")
            if kind not in _WITHIN_A_LINE:
                self.blocks += 1
                tag, block = kind, self.blocks
            if kind == "Figure":
                self.parts.append((block, kind, str(node.get("/Alt", "")), page))
            elif (kids := node.get("/MCID", node.get("/K"))) is not None:
                self.walk(kids, tag, block, page)
        return self.parts


class _Characters(dict[str, str]):
    """What a font's codes say, by the hexadecimal in which content writes them: each way of writing is read once."""

    def __init__(self, codes: Mapping[int, str]) -> None:
        super().__init__()
        self.codes = codes

    def __missing__(self, written: str) -> str:
        """Two-byte codes (Identity-H) as text."""
        said = "".join(
            self.codes.get(int(written[at:at + 4], 16), "\ufffd") for at in range(0, len(written), 4))
        self[written] = said
        return said


def _texts(content: str, fonts: Mapping[str, _Characters]) -> tuple[dict[int, str], str]:
    """The text of each marked part of a page, and all its text in the order of its ink."""
    found: dict[int, list[str]] = {}
    everything: list[str] = []
    marks: list[int | None] = []
    """The innermost mark that has a number, for each that stands open."""
    no_font = characters = _Characters({})
    for match in _OPERATORS.finditer(content):
        shown, font, mark = match.groups()
        if shown is not None:
            text = "".join([characters[codes] for codes in _CODES.findall(shown)])
            everything.append(text)
            if marks and marks[-1] is not None:
                found.setdefault(marks[-1], []).append(text)
        elif font:
            characters = fonts.get(font, no_font)
        elif match[0] == "EMC":
            del marks[-1:]
        else:
            marks.append(int(mark) if mark else marks[-1] if marks else None)
    return {mark: "".join(texts) for mark, texts in found.items()}, " ".join(everything)


class _Fonts:
    """The fonts of a PDF, each read once, on whatever pages it stands."""

    def __init__(self) -> None:
        self.loose: set[str] = set()
        """Those that are not embedded, by name."""
        self._read: dict[tuple[int, int], _Characters] = {}

    def of(self, page: Page) -> Mapping[str, _Characters]:
        """The characters of each font of a page, by the name that its content calls it."""
        fonts = page.resources.get("/Font", Dictionary())
        return {name.removeprefix("/"): self._characters(font) for name, font in fonts.items()}

    def _characters(self, font: Object) -> _Characters:
        if font.is_indirect and (known := self._read.get(font.objgen)) is not None:
            return known
        if not _embedded(font):
            self.loose.add(str(font.get("/BaseFont", "?")))
        table = font.get("/ToUnicode")
        found = _Characters(_codes(table.read_bytes().decode("latin-1")) if isinstance(table, Stream) else {})
        self._read[font.objgen] = found
        return found


def _codes(table: str) -> Mapping[int, str]:
    """A font's codes as text, from its ToUnicode table (ISO 32000-1, 9.10.3)."""
    found: dict[int, str] = {}
    for block in re.findall(r"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for first, last, to in _BF_RANGE.findall(block):
            base = int(to, 16)
            found.update({code: chr(base + code - int(first, 16)) for code in range(int(first, 16), int(last, 16) + 1)})
    for block in re.findall(r"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for code, to in _BF_CHAR.findall(block + "\n"):
            found[int(code, 16)] = bytes.fromhex(to).decode("utf-16-be", "replace")
    return found


def _embedded(font: Object) -> bool:
    descendants = font.get("/DescendantFonts")
    inner = descendants[0] if descendants is not None else font
    descriptor = inner.get("/FontDescriptor", Dictionary())
    return any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
