"""How the folding stage speaks to the author: findings, names that were meant, points and distances in words."""

from collections.abc import Iterable
from fractions import Fraction
from math import isqrt

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.vector import Point


def error(
    name: str, message: str, place: Place | None, mend: str | None = None, asides: tuple[Aside, ...] = (),
) -> Finding:
    """A finding that stops the build."""
    return Finding(name=name, severity=Severity.ERROR, message=message, place=place, mend=mend, asides=asides)


def list_of(names: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    words = list(names)
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def root(square: Fraction) -> Fraction:
    """The square root: exact where it is rational, otherwise the nearest below by less than 1/4096."""
    above, below = isqrt(square.numerator), isqrt(square.denominator)
    if above * above == square.numerator and below * below == square.denominator:
        return Fraction(above, below)
    return Fraction(isqrt(square.numerator * 4096 * 4096 // square.denominator), 4096)


def is_square(value: Fraction) -> bool:
    """Whether a number has a rational root."""
    return root(value) ** 2 == value


def distance(square: Fraction, unit: Unit) -> str:
    """A distance by its square: exact where it is rational, otherwise `about` and to 1/64 in or 0.1 mm."""
    if is_square(square):
        return with_unit(root(square), unit)
    grain = {Unit.INCH: 64, Unit.MM: 10, Unit.CM: 100}[unit]
    return f"about {with_unit(Fraction(round(root(square) * grain), grain), unit)}"


def point_in_words(p: Point, unit: Unit) -> str:
    """A point by its distances from the left and the bottom."""
    return f"{with_unit(p.x, unit)} from the left and {with_unit(p.y, unit)} up"
