"""What the post of the United States makes of a piece of mail."""

from fractions import Fraction

from foldproof.facts.mail import Feature, MailPiece, Reason, Verdict, because, from_inches, grams, inches, over_inches
from foldproof.facts.paper_weights import GRAMS_IN_OUNCE
from foldproof.facts.source import Mark, Source
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_length

_UNIFORM_RULES = "flexible, even in thickness and rectangular"
DMM = Source(text="USPS Domestic Mail Manual 101", mark=Mark.PUBLISHER, date="January 2021")
DMM_2010 = Source(text="USPS Domestic Mail Manual 101, older text", mark=Mark.SECONDARY)
USPS_FLATS = Source(text="USPS Business Mail 101, flats", mark=Mark.PUBLISHER)
USPS_TIPS = Source(text="USPS, how to measure letters", mark=Mark.PUBLISHER)
USPS_FLAT_WEIGHT = Source(text="USPS, weight of flats, from memory", mark=Mark.MEMORY)
USPS_ABROAD = Source(text="USPS Postal Bulletin 22230a", mark=Mark.PUBLISHER, date="2008")


def united_states(piece: MailPiece) -> Verdict:
    """Sort a piece by USPS rules for single domestic pieces, from not mailable by way of letter and flat to parcel."""
    small = _too_small_for_us(piece, Fraction(5))
    if small:
        return Verdict(post="United States", what="not mailable", plain=False, refused=True, reasons=small, source=DMM)
    over = over_inches(piece, "letter", (from_inches("11.5"), from_inches("6.125"), from_inches("0.25")), DMM)
    if over:
        return _us_flat(piece, over)
    extra = _nonmachinable(piece)
    ounces = -(-piece.mass_g // GRAMS_IN_OUNCE)
    if piece.mass_g > Fraction("3.5") * GRAMS_IN_OUNCE:
        heavy = because(
            f"it weighs {grams(piece.mass_g)}, more than the 3.5 oz of a letter: a letter this heavy pays the price "
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
    steps = because(f"priced by the ounce: it needs {ounces} oz", DMM_2010) if ounces > 1 else None
    within = because("within 11 1/2 x 6 1/8 x 1/4 in and at least 5 x 3 1/2 in", DMM)
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


def _too_small_for_us(piece: MailPiece, least_length: Fraction, source: Source = DMM) -> tuple[Reason, ...]:
    if piece.thickness_mm > from_inches("0.25"):
        return ()
    reasons = []
    if piece.longer < least_length * Unit.INCH.millimetres:
        least = write_length(least_length, Unit.INCH)
        reasons.append(because(f"it is {inches(piece.longer)} in long, less than {least} in", source))
    if piece.shorter < from_inches("3.5"):
        reasons.append(because(f"it is {inches(piece.shorter)} in high, less than 3 1/2 in", source))
    if piece.thickness_mm < from_inches("0.007"):
        reasons.append(because("it is thinner than 0.007 in", source))
    if Feature.NOT_RECTANGULAR in piece.features:
        reasons.append(because("a piece of 1/4 in or less must be rectangular", source))
    return tuple(reasons)


def _us_flat(piece: MailPiece, over: tuple[Reason, ...]) -> Verdict:
    beyond = over_inches(piece, "flat", (from_inches("15"), from_inches("12"), from_inches("0.75")), USPS_FLATS)
    if piece.mass_g > 13 * GRAMS_IN_OUNCE:
        beyond += (because("it weighs more than the 13 oz of a flat", USPS_FLAT_WEIGHT),)
    if piece.features & {Feature.RIGID, Feature.UNEVEN, Feature.NOT_RECTANGULAR}:
        beyond += (because(f"a flat must be {_UNIFORM_RULES}", USPS_FLATS),)
    what = "parcel" if beyond else "flat"
    return Verdict(post="United States", what=what, plain=False, refused=False, reasons=(*over, *beyond), source=DMM)


def _nonmachinable(piece: MailPiece) -> tuple[Reason, ...]:
    """Whatever makes a letter pay the nonmachinable surcharge (DMM 101.1.2)."""
    reasons = []
    ratio = piece.longer / piece.shorter
    if not Fraction("1.3") <= ratio <= Fraction("2.5"):
        square = "it is square" if ratio == 1 else f"its length is {float(ratio):.2f} times its height"
        reasons.append(because(f"{square}; 1.3 to 2.5 is wanted", DMM))
    if piece.length_mm < piece.height_mm:
        reasons.append(because("the address runs along the short side", USPS_TIPS))
    if piece.thickness_mm < from_inches("0.009") and (
        piece.longer > from_inches("6") or piece.shorter > from_inches("4.25")
    ):
        reasons.append(because("over 6 in long or 4 1/4 in high it must be 0.009 in thick", DMM))
    told = {
        Feature.NOT_PAPER: ("its outside is not paper", DMM),
        Feature.CLASP: ("it has a clasp, string or button", DMM),
        Feature.UNEVEN: ("its thickness is uneven", DMM),
        Feature.LOOSE: ("something lies loose in it", DMM),
        Feature.RIGID: ("it is too rigid to bend round the machine's belts", DMM_2010),
    }
    reasons += [because(*told[feature]) for feature in Feature if feature in piece.features and feature in told]
    return tuple(reasons)
