"""The editions of the handout: one card, one set of numbers, told for other eyes, other printers and other hands."""

from dataclasses import dataclass, replace

from foldproof.drawing.record import PLAIN, DrawingStyle

WIDTH_MM = 184.0
"""How wide the words and pictures of a whole sheet may be: A4 and US letter with margins of half an inch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """How one handout is set."""

    name: str
    """As a teacher asks for it; empty for the usual one."""
    body_pt: float
    """The size of running words on paper."""
    least_pt: float
    """Nothing on paper is set smaller."""
    style: DrawingStyle
    """Of its drawings, before they are enlarged."""
    enlarged: float = 1.0
    """How much larger the drawings stand on paper than they are drawn."""
    room_mm: float = WIDTH_MM
    """The width of words and pictures on paper."""
    poses_mm: float = 56.0
    """The longest side of the finished card, as drawn."""
    cuts_mm: float = 34.0
    """The longest side of the largest piece in the cutting list, as drawn."""
    sheets_a_step: int = 1
    """How many sheets a step may take: in large print one that fills a sheet has its picture overleaf, whole."""
    one_ink: bool = False
    """Whether all is pure black on white: tones are dots."""
    compact: bool = False
    """Whether it is the card for those who know how: cuts, scores and short lines, no pictures of steps."""

    @property
    def width_mm(self) -> float:
        """The room for a picture from margin to margin, as drawn."""
        return self.room_mm / self.enlarged

    @property
    def suffix(self) -> str:
        """What a file's name carries: `-large-print`."""
        return f"-{self.name.replace(' ', '-')}" if self.name else ""


_STEPS = replace(PLAIN, largest_mm=30.0, width_mm=WIDTH_MM)
_LARGE = 18.0 / PLAIN.text_pt

REGULAR = Edition(name="", body_pt=9.3, least_pt=7.5, style=_STEPS)
LARGE_PRINT = Edition(
    name="large print", body_pt=18.0, sheets_a_step=2, least_pt=7.5 * _LARGE, enlarged=_LARGE, poses_mm=44.0,
    cuts_mm=30.0, style=replace(_STEPS, largest_mm=26.0, width_mm=WIDTH_MM / _LARGE))
"""Words and dimensions in 18 points, large print by APH and the upper bound of the NAVH standard's "at least 14,
preferably 18" (both read on secondary pages); names on drawings in a little under 16."""
ONE_INK = Edition(
    name="one ink", body_pt=9.3, least_pt=7.5, one_ink=True,
    style=replace(_STEPS, front_share=0.0, ink="#000000", quiet="#000000"))
COMPACT = Edition(
    name="compact", body_pt=9.0, least_pt=7.5, style=replace(_STEPS, width_mm=118.0), room_mm=118.0, cuts_mm=32.0,
    compact=True)

EXTRA = {edition.name.replace(" ", "-"): edition for edition in (LARGE_PRINT, ONE_INK, COMPACT)}
"""The editions that are made when they are asked for, by the word that asks for them."""
