"""What a piece of mail is, by country, and why. Guidance only: the post office has the last word.

Limits are compared exactly, in millimetres and grams. Rules change; each verdict carries the date of its source.
"""

from collections.abc import Callable
from fractions import Fraction

from foldproof.facts.mail import (
    Feature,
    MailPiece,
    Reason,
    Verdict,
    because,
    face,
    over_heavy,
    over_metric,
    over_thick,
)
from foldproof.facts.post_united_states import united_states, united_states_abroad
from foldproof.facts.source import Mark, Source

__all__ = [
    "POSTS",
    "Feature",
    "MailPiece",
    "Verdict",
    "canada",
    "germany",
    "united_kingdom",
    "united_states",
    "united_states_abroad",
    "universal_postal_union",
]

OFCOM = Source(text="Ofcom, letter formats", mark=Mark.PUBLISHER)
UK_WEIGHT = Source(text="Ofcom letter formats, weights in a secondary page", mark=Mark.SECONDARY)
UPU = Source(text="UPU letter limits in two national copies", mark=Mark.SECONDARY)
CANADA = Source(text="Canada Post, letter sizes", mark=Mark.PUBLISHER)
CANADA_THICKNESS = Source(text="Canada Post, thickness in a secondary page", mark=Mark.SECONDARY)
GERMANY = Source(text="Deutsche Post formats in a secondary page", mark=Mark.SECONDARY)


def united_kingdom(piece: MailPiece) -> Verdict:
    """Sort a piece into the UK's Letter, Large Letter or parcel; there is no rule of shape."""
    letter = over_metric(piece, "Letter", (240, 165, 5), OFCOM) + over_heavy(piece, "Letter", 100, UK_WEIGHT)
    if not letter:
        return Verdict(
            post="United Kingdom",
            what="Letter",
            plain=True,
            refused=False,
            source=OFCOM,
            reasons=(because("within 240 x 165 x 5 mm and 100 g", OFCOM),),
        )
    large = over_metric(piece, "Large Letter", (353, 250, 25), OFCOM) + over_heavy(
        piece, "Large Letter", 750, UK_WEIGHT
    )
    what = "parcel" if large else "Large Letter"
    return Verdict(post="United Kingdom", what=what, plain=False, refused=False, reasons=large or letter, source=OFCOM)


def universal_postal_union(piece: MailPiece) -> Verdict:
    """Check the least and greatest sizes of a letter between countries (the 2 mm of tolerance is not used up)."""
    reasons = []
    if piece.shorter < 90 or piece.longer < 140:
        reasons.append(because(f"its face is {face(piece)} mm, less than 90 x 140 mm", UPU))
    if piece.longer > 600:
        reasons.append(because("it is longer than 600 mm", UPU))
    if piece.longer + piece.shorter + piece.thickness_mm > 900:
        reasons.append(because("length, width and depth together are more than 900 mm", UPU))
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
        reasons=(because("its face is at least 90 x 140 mm", UPU),),
    )


def canada(piece: MailPiece) -> Verdict:
    """Sort a piece into Canada's standard or oversize letter (a rule of shape was not found and is not checked)."""
    small = []
    if piece.shorter < 90 or piece.longer < 140:
        small.append(because(f"its face is {face(piece)} mm, less than the 140 x 90 mm of a standard letter", CANADA))
    if piece.thickness_mm < Fraction("0.18"):
        small.append(because("it is thinner than 0.18 mm", CANADA_THICKNESS))
    large = (
        over_metric(piece, "standard letter", (245, 156), CANADA)
        + over_thick(piece, "standard letter", 5, CANADA_THICKNESS)
        + over_heavy(piece, "standard letter", 50, CANADA)
    )
    if not small and not large:
        return Verdict(
            post="Canada",
            what="standard letter",
            plain=True,
            refused=False,
            source=CANADA,
            reasons=(because("within 140 x 90 to 245 x 156 mm, 5 mm and 50 g", CANADA),),
        )
    beyond = (
        over_metric(piece, "oversize letter", (380, 270), CANADA)
        + over_thick(piece, "oversize letter", 20, CANADA_THICKNESS)
        + over_heavy(piece, "oversize letter", 500, CANADA)
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
            reasons=(because("within 140-235 x 90-125 x 5 mm and 20 g, length at least 1.4 times width", GERMANY),),
        )
    if not _german_faults(piece, "Kompaktbrief", (100, 70), (235, 125), 10, 50):
        what = "Kompaktbrief"
    elif piece.longer < 100 or piece.shorter < 70:
        what = "smaller than a letter"
    elif not (over_metric(piece, "Großbrief", (353, 250, 20), GERMANY) + over_heavy(piece, "Großbrief", 500, GERMANY)):
        what = "Großbrief"
    else:
        what = "larger than a Großbrief"
    return Verdict(post="Germany", what=what, plain=False, refused=False, reasons=standard, source=GERMANY)


def _german_faults(
    piece: MailPiece, name: str, least: tuple[int, int], most: tuple[int, int], thick: int, grams: int
) -> tuple[Reason, ...]:
    reasons = (
        over_metric(piece, name, most, GERMANY)
        + over_thick(piece, name, thick, GERMANY)
        + over_heavy(piece, name, grams, GERMANY)
    )
    if piece.longer < least[0] or piece.shorter < least[1]:
        reasons += (
            because(f"its face is {face(piece)} mm, less than the {least[0]} x {least[1]} mm of a {name}", GERMANY),
        )
    if piece.longer < Fraction("1.4") * piece.shorter:
        reasons += (because(f"its length is less than 1.4 times its width, which a {name} needs", GERMANY),)
    return reasons


POSTS: dict[str, Callable[[MailPiece], Verdict]] = {
    "United States": united_states,
    "United States, abroad": united_states_abroad,
    "United Kingdom": united_kingdom,
    "between countries": universal_postal_union,
    "Canada": canada,
    "Germany": germany,
}
"""Every post that is known here, by name."""
