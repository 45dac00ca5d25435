"""What stands on the pages of a finished PDF and how large: the sizes of its text, its strokes, and where they lie.

Pages are walked as they are inked (ISO 32000-1, 8.3 and 9.4): each mark goes through the matrices that hold for it,
also inside forms. Lengths are points from the bottom left corner of the page.
"""

import re
from dataclasses import dataclass, field
from typing import Any

from pikepdf import Dictionary, Pdf, Stream

from foldproof.documents.pdf_text import inked, opened

_NUMBER = rb"[-+]?(?:\d+\.?\d*|\.\d+)"
_NAME = rb"[^\s/\[\]<>(){}%]+"
_OPERATION = re.compile(
    rb"<[0-9A-Fa-f\s]*>|\((?:\\.|[^\\()])*\)|(?:/(?P<name>" + _NAME + rb")\s*)?(?P<numbers>(?:" + _NUMBER
    + rb"\s+)*)(?P<operator>[A-Za-z'\"*]+)|/" + _NAME)
"""An operator with the name or the numbers before it; text and names that no operator follows are passed over."""
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
    pdf = data if isinstance(data, Pdf) else opened(data)
    for page in pdf.pages:
        walk = _Walk()
        walk.content(inked(page), page.obj.get("/Resources", Dictionary()), _PLAIN)
        left, bottom, right, top = map(float, page.mediabox)
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
        path: list[tuple[float, float]] = []
        begun: list[tuple[float, float]] = []
        for found in _OPERATION.finditer(data):
            match found["operator"]:
                case None:
                    pass
                case b"q":
                    kept.append((matrix, line))
                case b"Q" if kept:
                    matrix, line = kept.pop()
                case b"cm":
                    matrix = _times(_six(_numbers(found)), matrix)
                case b"w":
                    line = _numbers(found)[-1]
                case b"BT":
                    text = _PLAIN
                case b"Tm":
                    text = _six(_numbers(found))
                case b"Td" | b"TD":
                    x, y = _numbers(found)[-2:]
                    text = _times((1, 0, 0, 1, x, y), text)
                case b"Tf":
                    size = _numbers(found)[-1]
                case b"Tj" | b"TJ":
                    whole = _times(text, matrix)
                    self.letters.append((size * _scale(whole), whole[4], whole[5]))
                case b"m":
                    x, y = _numbers(found)[-2:]
                    begun = [_at(matrix, x, y)]  # counts only when a line follows
                case b"l" | b"c" | b"v" | b"y":
                    x, y = _numbers(found)[-2:]
                    path += [*begun, _at(matrix, x, y)]
                    begun = []
                case b"re":
                    x, y, wide, high = _numbers(found)[-4:]
                    path += [_at(matrix, *p) for p in ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))]
                case b"S" | b"s" | b"B" | b"b" | b"B*" | b"b*":
                    self._stroke(path, line * _scale(matrix))
                    path = []
                case b"f" | b"f*" | b"F" | b"n":
                    path = []
                case b"Do":
                    self._form(found["name"].decode("latin-1"), resources, matrix)
                case _:
                    pass

    def _stroke(self, path: list[tuple[float, float]], line: float) -> None:
        if path:
            xs, ys = [x for x, _ in path], [y for _, y in path]
            self.strokes.append(Stroke(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys), line=line))

    def _form(self, name: str, resources: Any, matrix: Matrix) -> None:
        form = resources.get("/XObject", Dictionary()).get(f"/{name}")
        if not isinstance(form, Stream) or form.get("/Subtype") != "/Form":
            return
        own = _six([float(n) for n in form["/Matrix"]]) if "/Matrix" in form else _PLAIN
        self.content(form.read_bytes(), form.get("/Resources", resources), _times(own, matrix))


def _six(numbers: list[float]) -> Matrix:
    a, b, c, d, e, f = numbers[-6:]
    return (a, b, c, d, e, f)


def _numbers(found: re.Match[bytes]) -> list[float]:
    return [float(number) for number in found["numbers"].split()]
