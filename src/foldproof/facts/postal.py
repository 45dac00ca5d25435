"""What a piece of mail is, by country, and why. Guidance only: the post office has the last word.

Limits are compared exactly, in millimetres and grams. Rules change; each verdict carries the date of its source.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from foldproof.facts.paper_weights import GRAMS_IN_OUNCE
from foldproof.facts.source import Mark, Source
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_length

GUIDANCE = "Guidance only: rules change, and your post office has the last word."
_INCH = Unit.INCH.millimetres
_UNIFORM_RULES = "flexible, even in thickness and rectangular"


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


DMM = Source(text="USPS Domestic Mail Manual 101", mark=Mark.PUBLISHER, date="January 2021")
DMM_2010 = Source(text="USPS Domestic Mail Manual 101, older text", mark=Mark.SECONDARY)
USPS_FLATS = Source(text="USPS Business Mail 101, flats", mark=Mark.PUBLISHER)
USPS_TIPS = Source(text="USPS, how to measure letters", mark=Mark.PUBLISHER)
USPS_FLAT_WEIGHT = Source(text="USPS, weight of flats, from memory", mark=Mark.MEMORY)
USPS_ABROAD = Source(text="USPS Postal Bulletin 22230a", mark=Mark.PUBLISHER, date="2008")
OFCOM = Source(text="Ofcom, letter formats", mark=Mark.PUBLISHER)
UK_WEIGHT = Source(text="Ofcom letter formats, weights in a secondary page", mark=Mark.SECONDARY)
UPU = Source(text="UPU letter limits in two national copies", mark=Mark.SECONDARY)
CANADA = Source(text="Canada Post, letter sizes", mark=Mark.PUBLISHER)
CANADA_THICKNESS = Source(text="Canada Post, thickness in a secondary page", mark=Mark.SECONDARY)
GERMANY = Source(text="Deutsche Post formats in a secondary page", mark=Mark.SECONDARY)


def united_states(piece: MailPiece) -> Verdict:
    """Sort a piece by USPS rules for single domestic pieces, from not mailable by way of letter and flat to parcel."""
    small = _too_small_for_us(piece, Fraction(5))
    if small:
        return Verdict(post="United States", what="not mailable", plain=False, refused=True, reasons=small, source=DMM)
    over = _over(piece, "letter", (_in("11.5"), _in("6.125"), _in("0.25")), DMM)
    if over:
        return _us_flat(piece, over)
    extra = _nonmachinable(piece)
    ounces = -(-piece.mass_g // GRAMS_IN_OUNCE)
    if piece.mass_g > Fraction("3.5") * GRAMS_IN_OUNCE:
        heavy = _reason(
            f"it weighs {_grams(piece.mass_g)}, more than the 3.5 oz of a letter: a letter this heavy pays the price "
            "of a flat",
            DMM,
        )
        return Verdict(
            post="United States",
            what="letter at the price of a flat",
            plain=False,
            refused=False,
            reasons=(heavy, *extra),
            source=DMM,
        )
    steps = _reason(f"priced by the ounce: it needs {ounces} oz", DMM_2010) if ounces > 1 else None
    within = _reason("within 11 1/2 x 6 1/8 x 1/4 in and at least 5 x 3 1/2 in", DMM)
    if extra:
        reasons = (*extra, *((steps,) if steps else ()))
        return Verdict(
            post="United States", what="nonmachinable letter", plain=False, refused=False, reasons=reasons, source=DMM
        )
    return Verdict(
        post="United States",
        what="letter",
        plain=True,
        refused=False,
        reasons=(within, *((steps,) if steps else ())),
        source=DMM,
    )


def united_states_abroad(piece: MailPiece) -> Verdict:
    """Sort a letter from the United States to another country: as domestic, but at least 5 1/2 in long."""
    small = _too_small_for_us(piece, Fraction(11, 2), USPS_ABROAD)
    home = united_states(piece)
    if small:
        return Verdict(
            post="United States, abroad",
            what="not mailable",
            plain=False,
            refused=True,
            reasons=small,
            source=USPS_ABROAD,
        )
    return Verdict(
        post="United States, abroad",
        what=home.what,
        plain=home.plain,
        refused=home.refused,
        reasons=home.reasons,
        source=USPS_ABROAD,
    )


def united_kingdom(piece: MailPiece) -> Verdict:
    """Sort a piece into the UK's Letter, Large Letter or parcel; there is no rule of shape."""
    letter = _over_metric(piece, "Letter", (240, 165, 5), OFCOM) + _heavy(piece, "Letter", 100, UK_WEIGHT)
    if not letter:
        return Verdict(
            post="United Kingdom",
            what="Letter",
            plain=True,
            refused=False,
            source=OFCOM,
            reasons=(_reason("within 240 x 165 x 5 mm and 100 g", OFCOM),),
        )
    large = _over_metric(piece, "Large Letter", (353, 250, 25), OFCOM) + _heavy(piece, "Large Letter", 750, UK_WEIGHT)
    what = "parcel" if large else "Large Letter"
    return Verdict(post="United Kingdom", what=what, plain=False, refused=False, reasons=large or letter, source=OFCOM)


def universal_postal_union(piece: MailPiece) -> Verdict:
    """Check the least and greatest sizes of a letter between countries (the 2 mm of tolerance is not used up)."""
    reasons = []
    if piece.shorter < 90 or piece.longer < 140:
        reasons.append(_reason(f"its face is {_size(piece)} mm, less than 90 x 140 mm", UPU))
    if piece.longer > 600:
        reasons.append(_reason("it is longer than 600 mm", UPU))
    if piece.longer + piece.shorter + piece.thickness_mm > 900:
        reasons.append(_reason("length, width and depth together are more than 900 mm", UPU))
    if reasons:
        return Verdict(
            post="between countries",
            what="outside the limits",
            plain=False,
            refused=True,
            reasons=tuple(reasons),
            source=UPU,
        )
    return Verdict(
        post="between countries",
        what="within the limits",
        plain=True,
        refused=False,
        source=UPU,
        reasons=(_reason("its face is at least 90 x 140 mm", UPU),),
    )


def canada(piece: MailPiece) -> Verdict:
    """Sort a piece into Canada's standard or oversize letter (a rule of shape was not found and is not checked)."""
    small = []
    if piece.shorter < 90 or piece.longer < 140:
        small.append(_reason(f"its face is {_size(piece)} mm, less than the 140 x 90 mm of a standard letter", CANADA))
    if piece.thickness_mm < Fraction("0.18"):
        small.append(_reason("it is thinner than 0.18 mm", CANADA_THICKNESS))
    large = (
        _over_metric(piece, "standard letter", (245, 156), CANADA)
        + _thick(piece, "standard letter", 5, CANADA_THICKNESS)
        + _heavy(piece, "standard letter", 50, CANADA)
    )
    if not small and not large:
        return Verdict(
            post="Canada",
            what="standard letter",
            plain=True,
            refused=False,
            source=CANADA,
            reasons=(_reason("within 140 x 90 to 245 x 156 mm, 5 mm and 50 g", CANADA),),
        )
    beyond = (
        _over_metric(piece, "oversize letter", (380, 270), CANADA)
        + _thick(piece, "oversize letter", 20, CANADA_THICKNESS)
        + _heavy(piece, "oversize letter", 500, CANADA)
    )
    what = "parcel" if beyond else "smaller than a standard letter" if small else "oversize letter"
    return Verdict(
        post="Canada", what=what, plain=False, refused=False, reasons=beyond or (*small, *large), source=CANADA
    )


def germany(piece: MailPiece) -> Verdict:
    """Sort a piece into Germany's Standardbrief, Kompaktbrief, Grossbrief, or beyond."""
    standard = _german_faults(piece, "Standardbrief", (140, 90), (235, 125), 5, 20)
    if not standard:
        return Verdict(
            post="Germany",
            what="Standardbrief",
            plain=True,
            refused=False,
            source=GERMANY,
            reasons=(_reason("within 140-235 x 90-125 x 5 mm and 20 g, length at least 1.4 times width", GERMANY),),
        )
    if not _german_faults(piece, "Kompaktbrief", (100, 70), (235, 125), 10, 50):
        what = "Kompaktbrief"
    elif piece.longer < 100 or piece.shorter < 70:
        what = "smaller than a letter"
    elif not (_over_metric(piece, "Großbrief", (353, 250, 20), GERMANY) + _heavy(piece, "Großbrief", 500, GERMANY)):
        what = "Großbrief"
    else:
        what = "larger than a Großbrief"
    return Verdict(post="Germany", what=what, plain=False, refused=False, reasons=standard, source=GERMANY)


POSTS: dict[str, Callable[[MailPiece], Verdict]] = {
    "United States": united_states,
    "United States, abroad": united_states_abroad,
    "United Kingdom": united_kingdom,
    "between countries": universal_postal_union,
    "Canada": canada,
    "Germany": germany,
}
"""Every post that is known here, by name."""


def _too_small_for_us(piece: MailPiece, least_length: Fraction, source: Source = DMM) -> tuple[Reason, ...]:
    if piece.thickness_mm > _in("0.25"):
        return ()
    reasons = []
    if piece.longer < least_length * _INCH:
        least = write_length(least_length, Unit.INCH)
        reasons.append(_reason(f"it is {_inches(piece.longer)} in long, less than {least} in", source))
    if piece.shorter < _in("3.5"):
        reasons.append(_reason(f"it is {_inches(piece.shorter)} in high, less than 3 1/2 in", source))
    if piece.thickness_mm < _in("0.007"):
        reasons.append(_reason("it is thinner than 0.007 in", source))
    if Feature.NOT_RECTANGULAR in piece.features:
        reasons.append(_reason("a piece of 1/4 in or less must be rectangular", source))
    return tuple(reasons)


def _us_flat(piece: MailPiece, over: tuple[Reason, ...]) -> Verdict:
    beyond = _over(piece, "flat", (_in("15"), _in("12"), _in("0.75")), USPS_FLATS)
    if piece.mass_g > 13 * GRAMS_IN_OUNCE:
        beyond += (_reason("it weighs more than the 13 oz of a flat", USPS_FLAT_WEIGHT),)
    if piece.features & {Feature.RIGID, Feature.UNEVEN, Feature.NOT_RECTANGULAR}:
        beyond += (_reason(f"a flat must be {_UNIFORM_RULES}", USPS_FLATS),)
    what = "parcel" if beyond else "flat"
    return Verdict(post="United States", what=what, plain=False, refused=False, reasons=(*over, *beyond), source=DMM)


def _nonmachinable(piece: MailPiece) -> tuple[Reason, ...]:
    """Whatever makes a letter pay the nonmachinable surcharge (DMM 101.1.2)."""
    reasons = []
    ratio = piece.longer / piece.shorter
    if not Fraction("1.3") <= ratio <= Fraction("2.5"):
        square = "it is square" if ratio == 1 else f"its length is {float(ratio):.2f} times its height"
        reasons.append(_reason(f"{square}; 1.3 to 2.5 is wanted", DMM))
    if piece.length_mm < piece.height_mm:
        reasons.append(_reason("the address runs along the short side", USPS_TIPS))
    if piece.thickness_mm < _in("0.009") and (piece.longer > _in("6") or piece.shorter > _in("4.25")):
        reasons.append(_reason("over 6 in long or 4 1/4 in high it must be 0.009 in thick", DMM))
    told = {
        Feature.NOT_PAPER: ("its outside is not paper", DMM),
        Feature.CLASP: ("it has a clasp, string or button", DMM),
        Feature.UNEVEN: ("its thickness is uneven", DMM),
        Feature.LOOSE: ("something lies loose in it", DMM),
        Feature.RIGID: ("it is too rigid to bend round the machine's belts", DMM_2010),
    }
    reasons += [_reason(*told[feature]) for feature in Feature if feature in piece.features and feature in told]
    return tuple(reasons)


def _german_faults(
    piece: MailPiece, name: str, least: tuple[int, int], most: tuple[int, int], thick: int, grams: int
) -> tuple[Reason, ...]:
    reasons = (
        _over_metric(piece, name, most, GERMANY)
        + _thick(piece, name, thick, GERMANY)
        + _heavy(piece, name, grams, GERMANY)
    )
    if piece.longer < least[0] or piece.shorter < least[1]:
        reasons += (
            _reason(f"its face is {_size(piece)} mm, less than the {least[0]} x {least[1]} mm of a {name}", GERMANY),
        )
    if piece.longer < Fraction("1.4") * piece.shorter:
        reasons += (_reason(f"its length is less than 1.4 times its width, which a {name} needs", GERMANY),)
    return reasons


def _over(piece: MailPiece, name: str, most: tuple[Fraction, Fraction, Fraction], source: Source) -> tuple[Reason, ...]:
    pairs = ((piece.longer, "long"), (piece.shorter, "high"), (piece.thickness_mm, "thick"))
    return tuple(
        _reason(f"it is {_inches(value)} in {way}, more than the {_inches(limit)} in of a {name}", source)
        for (value, way), limit in zip(pairs, most, strict=True)
        if value > limit
    )


def _over_metric(piece: MailPiece, name: str, most: tuple[int, ...], source: Source) -> tuple[Reason, ...]:
    pairs = ((piece.longer, "long"), (piece.shorter, "wide"), (piece.thickness_mm, "thick"))
    return tuple(
        _reason(f"it is {_mm(value)} mm {way}, more than the {limit} mm of a {name}", source)
        for (value, way), limit in zip(pairs, most, strict=False)
        if value > limit
    )


def _thick(piece: MailPiece, name: str, most: int, source: Source) -> tuple[Reason, ...]:
    if piece.thickness_mm <= most:
        return ()
    return (_reason(f"it is {_mm(piece.thickness_mm)} mm thick, more than the {most} mm of a {name}", source),)


def _heavy(piece: MailPiece, name: str, most: int, source: Source) -> tuple[Reason, ...]:
    if piece.mass_g <= most:
        return ()
    return (_reason(f"it weighs {_grams(piece.mass_g)}, more than the {most} g of a {name}", source),)


def _reason(text: str, source: Source) -> Reason:
    return Reason(text=text, source=source)


def _in(inches: str) -> Fraction:
    return Fraction(inches) * _INCH


def _inches(mm: Fraction) -> str:
    return write_length(mm / _INCH, Unit.INCH)


def _mm(mm: Fraction) -> str:
    return write_length(mm, Unit.MM)


def _size(piece: MailPiece) -> str:
    return f"{_mm(piece.longer)} x {_mm(piece.shorter)}"


def _grams(grams: Fraction) -> str:
    return f"{float(grams):.0f} g"
