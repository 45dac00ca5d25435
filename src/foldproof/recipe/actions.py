"""The actions of a step, as written: what hands do, in the maker's frame.

Directions are as the piece lies before the maker at that moment. The fence runs along the far edge of the work
and the stop stands at its left end (common practice, no source): a distance from the stop is measured rightward
from the left end of the piece, and a score or cut at a distance runs square to the fence.
"""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.paper.face import Face, Fold
from foldproof.recipe.points import PointAt


@dataclass(frozen=True, slots=True, kw_only=True)
class Doing:
    """What every action has."""

    place: Place
    piece: str | None = None
    """The piece or layer acted on where it is not the step's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TablePoint:
    """A point as the piece lies: a corner (`top left`), a middle (`top middle`), `centre`, a mark's name, or one found.

    Found are `left end of SCORE` (or another side), `middle of SCORE`, `crossing of SCORE and SCORE` and `centre of
    PANEL`.
    """

    name: str
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut(Doing):
    """Cut a piece or layer from its paper as a rectangle, upright and front up; width then height as it is read."""

    size: tuple[Quantity, Quantity]
    tool: str | None = None
    """What it is done with, where the action says it; the same for the other cuts and scores."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutAcross(Doing):
    """Cut straight across at a distance from the stop, or from the other end, and keep one side."""

    at: Quantity
    keep: str
    """`left` or `right`, as it lies."""
    start: str = "left"
    """The end that is measured from, as it lies: `left`, where the stop is, or `right`."""
    other: str | None = None
    """The piece or layer that the other part becomes."""
    tool: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOff(Doing):
    """Cut a strip off along an edge: trim it."""

    width: Quantity
    """How wide a strip comes off."""
    edge: str
    """The edge that it comes off, as it lies: `left`, `right`, `top` or `bottom`."""
    other: str | None = None
    """The piece or layer that the strip becomes."""
    tool: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutBetween(Doing):
    """Cut along the line between two points and keep the part with the named corner; the other part may have a use."""

    start: TablePoint
    end: TablePoint
    keep: str
    """A corner as it lies: `top left`, `bottom right`, ..."""
    other: str | None = None
    """The piece or layer that the other part becomes."""
    tool: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DieCut(Doing):
    """Cut or punch a layer with a die, or take a bought shape, known by its outer size."""

    size: tuple[Quantity, Quantity]
    tool: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBlade(Doing):
    """Put a blade into a trimmer: the cutting one or the scoring one. A trimmer starts with its cutting blade in."""

    blade: str
    """`cutting` or `scoring`."""
    tool: str | None = None
    """The trimmer, where there is more than one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay(Doing):
    """Lay the piece with an edge against the fence, or against the stop at the left.

    `edge` is `long` or `short`, or an edge as the piece lies now (`left`, `right`, `top`, `bottom`). The piece is
    turned so that this edge is the far one, or the left one for the stop. A `long` or `short` edge that is not there
    yet comes by a quarter turn clockwise.
    """

    edge: str
    against: str = "fence"
    """`fence` or `stop`."""
    anticlockwise: bool = False
    """Whether a `long` or `short` edge comes by a quarter turn anticlockwise: in a mirrored repeat."""
    face: Face | None = None
    """The face said to be up, where the step says it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkAt(Doing):
    """Make a pencil mark on an edge, or a distance in from it, at a distance along it from one of its ends."""

    at: Quantity
    inward: Quantity | None = None
    """How far in from the edge; on the edge itself unless said."""
    edge: str
    """`top`, `bottom`, `left` or `right`, as it lies."""
    start: str
    """The end that is measured from: `left` or `right` on a level edge, `top` or `bottom` on an upright one."""
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreAt(Doing):
    """Score square to the fence at a distance from the stop, or from the other end, right across or in part."""

    at: Quantity
    start: str = "left"
    """The end that is measured from, as it lies: `left`, where the stop is, or `right`."""
    tool: str | None = None
    begins: Quantity | None = None
    """From the fence; at the far edge unless said."""
    ends: Quantity | None = None
    """From the fence; at the near edge unless said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreBetween(Doing):
    """Score between two points, along a ruler or with both points in a trimmer's groove."""

    start: TablePoint
    end: TablePoint
    tool: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlitAt(Doing):
    """Cut a slit square to the fence at a distance from the stop, between two distances from the fence."""

    at: Quantity
    begins: Quantity
    ends: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class SlitBetween(Doing):
    """Cut a slit along a ruler between two points."""

    start: TablePoint
    end: TablePoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn(Doing):
    """Turn the work on the table, the same face up."""

    amount: str
    """`half`, `quarter clockwise` or `quarter anticlockwise`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnOver(Doing):
    """Turn the work over."""

    way: str
    """`book page` (left and right change places) or `top to bottom`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldOn(Doing):
    """Fold on a score."""

    score: str
    fold: Fold
    """As seen from the face that is up: `valley` or `mountain`."""
    angle: Quantity | None = None
    """Degrees from flat, unsigned; 180 (right over) unless said."""
    sharp: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuck(Doing):
    """Slip a flap under other paper that lies over or beside it; the paper bends and lies flat again."""

    flap: str
    under: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BringTo(Doing):
    """Fold or open several scores at once, as a pose says: folds that hang together can only go together."""

    pose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Unfold(Doing):
    """Lay a fold flat again."""

    score: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedAt:
    """Where hands put something: distances from the edges of the panel that receives it, as that face is read.

    Upright is the receiving piece's own up; a back is reached by turning it like the page of a book.
    """

    left: Quantity | None = None
    right: Quantity | None = None
    top: Quantity | None = None
    bottom: Quantity | None = None
    border: Quantity | None = None
    """The same distance from all four edges."""
    centred: str | None = None
    """`both`, `across` or `up`."""
    centred_on: str | None = None
    turned: str = "none"
    points: tuple[PointAt, PointAt] | None = None
    """Two points of what is put on, in its own frame; nothing but `lie_on` is said beside them."""
    lie_on: tuple[PointAt, PointAt] | None = None
    """The points of the receiving piece, in its own frame, that the two come to lie on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutAway(Doing):
    """Cut or punch a shape out of the work as it lies, through all the paper beneath: a window, or a notch."""

    opens: bool
    """Whether it is a notch, which reaches over an edge."""
    size: tuple[Quantity, Quantity] | None = None
    circle: Quantity | None = None
    corners: tuple[TablePoint, ...] = ()
    """Its corners by marks, in the order in which a blade goes round; empty for the other two."""
    at: PlacedAt = PlacedAt()
    """Distances from the edges of the work as it lies to the shape's; negative ones reach past the edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundCorners(Doing):
    """Cut corners round, as with a corner rounder."""

    radius: Quantity
    corners: tuple[str, ...]
    """As it lies."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scallop(Doing):
    """Cut a straight edge as a row of half discs."""

    edge: str
    """As it lies."""
    across: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class SlideIn(Doing):
    """Slide something in, or fasten it, as the plan's slide of that name says."""

    slide: str
    at: PlacedAt
    """Where a layer comes to lie; nothing is said for others."""
    fastens: bool
    """Whether the word was `fasten`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attach(Doing):
    """Fix a layer, or join a piece, where the plan's layer or join of that name says."""

    bond: str
    """The layer's or the join's name."""
    at: PlacedAt
    adhesive: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp(Doing):
    """Stamp, write or print on a face."""

    panel: str
    face: Face
    words: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie(Doing):
    """Tie ribbon or thread round the card."""

    supply: str
    length: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dry(Doing):
    """Wait."""

    time: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure(Doing):
    """Check the work with a ruler: the outline of the piece as it is now, width then height as it lies."""

    size: tuple[Quantity, Quantity]


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Doing):
    """Something to do or to see that changes no paper: burnish, rub out a mark, slide a card in."""

    words: str


Action = (
    CutOut | CutAcross | CutOff | CutBetween | DieCut | SlitAt | SlitBetween | CutAway | RoundCorners | Scallop
    | SetBlade | Lay | MarkAt | ScoreAt | ScoreBetween | Turn | TurnOver | FoldOn | BringTo | Tuck | Unfold | Attach
    | SlideIn | Stamp | Tie | Dry | Measure | Note
)
