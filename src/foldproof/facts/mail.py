"""A piece of mail, what a post makes of it, and why. Lengths in millimetres, masses in grams, compared exactly."""

from enum import StrEnum
from fractions import Fraction

from foldproof.facts.source import Source
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_length

GUIDANCE = "Guidance only: rules change, and your post office has the last word."
_INCH = Unit.INCH.millimetres


class Feature(StrEnum):
    """What else a post office looks at."""

    UNEVEN = "uneven thickness"
    RIGID = "too rigid to bend"
    CLASP = "clasp, string or button"
    NOT_PAPER = "outside not paper"
    NOT_RECTANGULAR = "not rectangular"
    LOOSE = "loose object inside"


@dataclass(frozen=True, slots=True, kw_only=True)
class MailPiece:
    """What is handed in, in its envelope."""

    length_mm: Fraction
    """The side parallel to the lines of the address."""
    height_mm: Fraction
    thickness_mm: Fraction
    mass_g: Fraction
    features: frozenset[Feature] = frozenset()

    @property
    def longer(self) -> Fraction:
        """The longer side."""
        return max(self.length_mm, self.height_mm)

    @property
    def shorter(self) -> Fraction:
        """The shorter side."""
        return min(self.length_mm, self.height_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a piece is what it is."""

    text: str
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What a piece is to one post."""

    post: str
    what: str
    """`letter`, `nonmachinable letter`, `flat`, `parcel`, `not mailable`, `Large Letter`, ..."""
    plain: bool
    """Whether it goes as an ordinary letter with nothing more to pay for its shape."""
    refused: bool
    reasons: tuple[Reason, ...]
    source: Source
    guidance: str = GUIDANCE


def over_inches(
    piece: MailPiece, name: str, most: tuple[Fraction, Fraction, Fraction], source: Source
) -> tuple[Reason, ...]:
    """Say by which of length, height and thickness a piece passes the limits (in millimetres), in inches."""
    pairs = ((piece.longer, "long"), (piece.shorter, "high"), (piece.thickness_mm, "thick"))
    return tuple(
        because(f"it is {inches(value)} in {way}, more than the {inches(limit)} in of a {name}", source)
        for (value, way), limit in zip(pairs, most, strict=True)
        if value > limit
    )


def over_metric(piece: MailPiece, name: str, most: tuple[int, ...], source: Source) -> tuple[Reason, ...]:
    """Say by which of length, width and thickness a piece passes the limits, in millimetres."""
    pairs = ((piece.longer, "long"), (piece.shorter, "wide"), (piece.thickness_mm, "thick"))
    return tuple(
        because(f"it is {millimetres(value)} mm {way}, more than the {limit} mm of a {name}", source)
        for (value, way), limit in zip(pairs, most, strict=False)
        if value > limit
    )


def over_thick(piece: MailPiece, name: str, most: int, source: Source) -> tuple[Reason, ...]:
    """Say whether a piece is thicker than a limit in millimetres."""
    if piece.thickness_mm <= most:
        return ()
    return (because(f"it is {millimetres(piece.thickness_mm)} mm thick, more than the {most} mm of a {name}", source),)


def over_heavy(piece: MailPiece, name: str, most: int, source: Source) -> tuple[Reason, ...]:
    """Say whether a piece is heavier than a limit in grams."""
    if piece.mass_g <= most:
        return ()
    return (because(f"it weighs {grams(piece.mass_g)}, more than the {most} g of a {name}", source),)


def because(text: str, source: Source) -> Reason:
    """Make a reason."""
    return Reason(text=text, source=source)


def from_inches(inches: str) -> Fraction:
    """Give inches, written as a decimal, in millimetres."""
    return Fraction(inches) * _INCH


def inches(mm: Fraction) -> str:
    """Write millimetres as inches."""
    return write_length(mm / _INCH, Unit.INCH)


def millimetres(mm: Fraction) -> str:
    """Write millimetres."""
    return write_length(mm, Unit.MM)


def face(piece: MailPiece) -> str:
    """Write a piece's face, longer side first, in millimetres."""
    return f"{millimetres(piece.longer)} x {millimetres(piece.shorter)}"


def grams(grams: Fraction) -> str:
    """Write a mass in grams, to a tenth."""
    return f"{float(grams):.1f} g"
