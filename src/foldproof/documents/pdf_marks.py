"""What stands on the pages of a finished PDF and how large: the sizes of its text, its strokes, and where they lie.

Pages are walked as they are inked (ISO 32000-1, 8.3 and 9.4): each mark goes through the matrices that hold for it,
also inside forms. Lengths are points from the bottom left corner of the page.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

from pypdf import PdfReader

_TOKEN = re.compile(
    rb"(?P<number>[-+]?(?:\d+\.?\d*|\.\d+))(?=[\s/\[\]<>()]|$)|/(?P<name>[^\s/\[\]<>(){}%]+)|(?P<dict><<|>>)"
    rb"|(?P<text><[0-9A-Fa-f\s]*>|\((?:\\.|[^\\()])*\))|(?P<operator>[A-Za-z'\"*]+)|[\[\]]")
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


def marks_of(data: bytes | PdfReader) -> tuple[Marks, ...]:
    """What stands on each page."""
    found = []
    for page in (data if isinstance(data, PdfReader) else PdfReader(BytesIO(data))).pages:
        walk = _Walk()
        contents = page.get_contents()
        if contents is not None:
            walk.content(contents.get_data(), page["/Resources"], _PLAIN)
        box = page.mediabox
        found.append(Marks(
            width=float(box.width), height=float(box.height), letters=tuple(walk.letters), strokes=tuple(walk.strokes)))
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
        numbers: list[float] = []
        name = ""
        for kind, token in _tokens(data):
            if kind == "number":
                numbers.append(float(token))
                continue
            if kind == "name":
                name = token
                continue
            if kind != "operator":
                continue
            match token:
                case "q":
                    kept.append((matrix, line))
                case "Q" if kept:
                    matrix, line = kept.pop()
                case "cm":
                    matrix = _times(_six(numbers), matrix)
                case "w":
                    line = numbers[-1]
                case "BT":
                    text = _PLAIN
                case "Tm":
                    text = _six(numbers)
                case "Td" | "TD":
                    text = _times((1, 0, 0, 1, numbers[-2], numbers[-1]), text)
                case "Tf":
                    size = numbers[-1]
                case "Tj" | "TJ":
                    whole = _times(text, matrix)
                    self.letters.append((size * _scale(whole), whole[4], whole[5]))
                case "m":
                    begun = [_at(matrix, numbers[-2], numbers[-1])]  # counts only when a line follows
                case "l" | "c" | "v" | "y":
                    path += [*begun, _at(matrix, numbers[-2], numbers[-1])]
                    begun = []
                case "re":
                    x, y, wide, high = numbers[-4:]
                    path += [_at(matrix, *p) for p in ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))]
                case "S" | "s" | "B" | "b" | "B*" | "b*":
                    self._stroke(path, line * _scale(matrix))
                    path = []
                case "f" | "f*" | "F" | "n":
                    path = []
                case "Do":
                    self._form(name, resources, matrix)
                case _:
                    pass
            numbers = []

    def _stroke(self, path: list[tuple[float, float]], line: float) -> None:
        if path:
            xs, ys = [x for x, _ in path], [y for _, y in path]
            self.strokes.append(Stroke(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys), line=line))

    def _form(self, name: str, resources: Any, matrix: Matrix) -> None:
        form = resources.get_object().get("/XObject", {}).get(f"/{name}")
        form = form.get_object() if form is not None else None
        if form is None or form.get("/Subtype") != "/Form":
            return
        own = _six([float(n) for n in form["/Matrix"]]) if "/Matrix" in form else _PLAIN
        self.content(form.get_data(), form.get("/Resources", resources), _times(own, matrix))


def _six(numbers: list[float]) -> Matrix:
    a, b, c, d, e, f = numbers[-6:]
    return (a, b, c, d, e, f)


def _tokens(data: bytes) -> Iterator[tuple[str, str]]:
    for match in _TOKEN.finditer(data):
        if match.lastgroup:
            yield match.lastgroup, match[match.lastgroup].decode("latin-1")
