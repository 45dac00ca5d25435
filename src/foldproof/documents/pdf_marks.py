"""What stands on the pages of a finished PDF and how large: the sizes of its text, its strokes, and where they lie.

Pages are walked as they are inked (ISO 32000-1, 8.3 and 9.4): each mark goes through the matrices that hold for it,
also inside forms. Lengths are points from the bottom left corner of the page.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from pikepdf import Dictionary, Pdf, Stream

from foldproof.documents.pdf_text import inked, opened

_STEP = re.compile(
    rb"(?P<given>(?:[-+.\d\s]++|/[^\s/\[\]<>(){}%]++|\[[^\[\]()]*+\]|<<|>>|<[0-9A-Fa-f\s]*+>|\((?:\\.|[^\\()])*+\)"
    rb"|[\[\]])*+)(?P<operator>[A-Za-z'\"*]+)")
"""An operator with what is given to it: numbers, names, texts, lists."""
_PUT = frozenset((b"m", b"l", b"c", b"v", b"y", b"re"))
"""What lengthens a path; `h` adds no point to it."""
_STROKED = frozenset((b"S", b"s", b"B", b"b", b"B*", b"b*"))
_UNSTROKED = frozenset((b"f", b"f*", b"F", b"n"))
Matrix = tuple[float, float, float, float, float, float]
_PLAIN: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A path that is stroked: the rectangle round it and the width of the line, in points on paper."""

    left: float
    bottom: float
    right: float
    top: float
    line: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """One page."""

    width: float
    height: float
    letters: tuple[tuple[float, float, float], ...]
    """Each stretch of text: its size and where it begins."""
    strokes: tuple[Stroke, ...]


def marks_of(data: bytes | Pdf) -> tuple[Marks, ...]:
    """What stands on each page."""
    found = []
    pdf = data if isinstance(data, Pdf) else opened(data)  # held: pages of one that is closed have no content
    for page in pdf.pages:
        walk = _Walk()
        walk.content(inked(page), page.resources, _PLAIN)
        left, bottom, right, top = _numbers(page.mediabox)
        found.append(Marks(
            width=right - left, height=top - bottom, letters=tuple(walk.letters), strokes=tuple(walk.strokes)))
    return tuple(found)


def _times(inner: Matrix, outer: Matrix) -> Matrix:
    """First the inner, then the outer."""
    a, b, c, d, e, f = inner
    p, q, r, s, t, u = outer
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def _at(matrix: Matrix, x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e, b * x + d * y + f)


def _scale(matrix: Matrix) -> float:
    a, b, c, d, _, _ = matrix
    return float(abs(a * d - b * c) ** 0.5)


@dataclass(slots=True)
class _Walk:
    """A walk over what is inked."""

    letters: list[tuple[float, float, float]] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)

    def content(self, data: bytes, resources: Any, matrix: Matrix) -> None:
        """One stretch of content, and the forms that it calls."""
        kept: list[tuple[Matrix, float]] = []
        line, size, text = 1.0, 0.0, _PLAIN
        path: list[tuple[bytes, bytes]] = []
        for given, operator in _STEP.findall(data):
            if operator in _PUT:
                path.append((given, operator))
                continue
            if operator in _STROKED:
                self._stroke(path, matrix, line)
                path = []
                continue
            if operator in _UNSTROKED:
                path = []
                continue
            match operator:
                case b"q":
                    kept.append((matrix, line))
                case b"Q" if kept:
                    matrix, line = kept.pop()
                case b"cm":
                    matrix = _times(_six(given.split()), matrix)
                case b"w":
                    line = float(given)
                case b"BT":
                    text = _PLAIN
                case b"Tm":
                    text = _six(given.split())
                case b"Td" | b"TD":
                    right, up = _numbers(given.split())
                    text = _times((1, 0, 0, 1, right, up), text)
                case b"Tf":
                    size = float(given.split()[-1])
                case b"Tj" | b"TJ":
                    whole = _times(text, matrix)
                    self.letters.append((size * _scale(whole), whole[4], whole[5]))
                case b"Do":
                    self._form(given.decode("latin-1").strip(), resources, matrix)
                case _:
                    pass

    def _stroke(self, path: Sequence[tuple[bytes, bytes]], matrix: Matrix, line: float) -> None:
        points: list[tuple[float, float]] = []
        begun: list[tuple[float, float]] = []
        for given, operator in path:
            match operator:
                case b"m":
                    begun = [_last_point(given)]  # counts only when a line follows
                case b"re":
                    x, y, wide, high = _numbers(given.split())
                    points += (x, y), (x + wide, y), (x + wide, y + high), (x, y + high)
                case _:
                    points += (*begun, _last_point(given))
                    begun = []
        if points:
            xs, ys = zip(*(_at(matrix, x, y) for x, y in points), strict=True)
            self.strokes.append(Stroke(
                left=min(xs), bottom=min(ys), right=max(xs), top=max(ys), line=line * _scale(matrix)))

    def _form(self, name: str, resources: Any, matrix: Matrix) -> None:
        form = resources.get("/XObject", Dictionary()).get(name)
        if not isinstance(form, Stream) or form.get("/Subtype") != "/Form":
            return
        own = _six(form["/Matrix"]) if "/Matrix" in form else _PLAIN
        self.content(form.read_bytes(), form.get("/Resources", resources), _times(own, matrix))


def _last_point(given: bytes) -> tuple[float, float]:
    x, y = given.split()[-2:]
    return float(x), float(y)


def _numbers(written: Any) -> list[float]:
    return [float(number) for number in written]


def _six(written: Any) -> Matrix:
    a, b, c, d, e, f = _numbers(written)
    return (a, b, c, d, e, f)
