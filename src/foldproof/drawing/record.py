"""What a drawing is, and how drawings are to look."""

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from foldproof.drawing.scene import Scene


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A finished drawing: vector, and said in words."""

    svg: str
    """One `<svg>` element with its size in millimetres; text stays text."""
    alt: str
    """One or a few sentences that tell the same to someone who cannot see it."""
    width_mm: float
    height_mm: float
    """The natural size on paper: shrinking it below makes its text too small."""
    name: str
    """Unique in the card, fit for a file name."""
    scene: "Scene | None" = field(default=None, compare=False, repr=False)
    """What was inked, so that the same drawing can be made of dots; None where there is no need."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingStyle:
    """Sizes and inks. A theme may change looks; what is drawn, and its meaning, stays."""

    family: str = "Source Sans Pro"
    text_pt: float = 8.5
    """Dimensions and words."""
    small_pt: float = 7.5
    """Names of panels and small words: the least that is allowed on paper."""
    ink: str = "#141414"
    quiet: str = "#555555"
    """At least 7:1 on white (WCAG 2.2, SC 1.4.6)."""
    front_share: float = 0.30
    """How much of the paper's own tone the front keeps; the rest is white."""
    back_grey: str = "#e4e4e4"
    """The tone of a back."""
    heavy_pt: float = 1.6
    """Cuts of this step, the guide edge."""
    edge_pt: float = 0.75
    score_pt: float = 1.0
    thin_pt: float = 0.4
    """Existing creases, dimensions, hatching."""
    largest_mm: float = 60.0
    """The longest side of the card's largest piece in the drawings of steps."""
    width_mm: float = 170.0
    """No drawing is wider."""


def one_ink(style: DrawingStyle) -> DrawingStyle:
    """The same in black alone, for a copier: fronts are white, backs a grey that survives copying, words darker.

    Nothing is lost: papers differ by their edges, directions by their arrows, lines by their dashes.
    """
    return replace(style, front_share=0.0, back_grey="#d8d8d8", ink="#000000", quiet="#333333")


PLAIN = DrawingStyle()
LEAST_TEXT_PT = 7.5
LEAST_LINE_PT = 0.35
