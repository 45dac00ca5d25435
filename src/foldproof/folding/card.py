"""The card: what the plan says, as exact geometry."""

from collections.abc import Mapping
from fractions import Fraction

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.paper.face import Face, Fold
from foldproof.paper.isometry import Isometry
from foldproof.paper.vector import Point, Ring, Segment
from foldproof.recipe.records import JoinSpec, LayerSpec, PieceSpec, PoseSpec, Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A part of a piece that stays flat when the piece folds."""

    name: str
    """Unique in the card."""
    piece: str
    ring: Ring
    """In the piece's own frame: recipe's unit, origin bottom left, front face up."""
    holes: tuple[Ring, ...] = ()
    """Inner outlines, clockwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hinge:
    """A stretch of a score between two panels."""

    score: str
    """The score's name: all its stretches fold by the same angle."""
    piece: str
    segment: Segment
    panels: tuple[str, str]
    """The panel on the left of the segment, then the one on its right, looking at the front."""
    fold: Fold


@dataclass(frozen=True, slots=True, kw_only=True)
class CardScore:
    """A score of the plan, whole."""

    name: str
    segment: Segment
    """In the piece's own frame; an upright score runs bottom to top, a level one left to right, others as written."""
    fold: Fold
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSlit:
    """A cut line inside a piece."""

    name: str
    segment: Segment
    """In the piece's own frame."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class CardWindow:
    """A cut-out with paper all round."""

    name: str
    ring: Ring
    """In the piece's own frame, anticlockwise."""
    round: bool
    """Whether it stands for a circle."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A face of a panel."""

    panel: str
    face: Face


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPiece:
    """A piece or a layer of the card."""

    name: str
    layer: bool
    paper: str | None
    outline: Ring
    """In its own frame; a circle is a polygon, see `round`."""
    round: bool
    """Whether the outline stands for a circle (drawn as one; the polygon lies within 1/200 of its width)."""
    bought: bool
    points: Mapping[str, Point]
    scores: tuple[CardScore, ...]
    panels: tuple[str, ...]
    spec: PieceSpec | LayerSpec
    slits: tuple[CardSlit, ...] = ()
    windows: tuple[CardWindow, ...] = ()

    @property
    def holes(self) -> tuple[Ring, ...]:
        """The rings of its windows, clockwise."""
        return tuple(window.ring[::-1] for window in self.windows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How a joined panel stands off the surface that receives it, glued along one edge."""

    line: Segment
    """The glued edge, in the receiving piece's frame; the laid panel is on its left as the receiving face is seen."""
    angle: Fraction
    """Degrees up from the surface: 0 flat on it, 90 square to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bond:
    """A join or a layer's fixing: two surfaces that become one body, flat on each other unless it says otherwise."""

    name: str
    """The join's or the layer's name."""
    under: Surface
    """The surface that receives."""
    over: Surface
    """The surface that is laid on it."""
    fit: Isometry
    """From the frame of the laid piece to the frame of the receiving piece; it flips when the faces look away."""
    area: Ring | None
    """Where the two surfaces touch, in the receiving piece's frame; None where they do not."""
    adhesive: str | None
    spec: JoinSpec | LayerSpec
    place: Place
    glue: tuple[Ring, ...] = ()
    """Where the adhesive goes, in the receiving piece's frame, where the recipe says so."""
    stand: Stand | None = None
    """Where the joined panel stands off the surface: `fit` is how it would lie if it were turned down flat."""

    @property
    def glued(self) -> tuple[Ring, ...]:
        """Where the two surfaces hold together: where the recipe puts adhesive, or else wherever they touch."""
        return self.glue or ((self.area,) if self.area is not None else ())


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A part of a face that can be seen in a pose."""

    panel: str
    face: Face
    ring: Ring
    """In the pose's frame."""
    holes: tuple[Ring, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Two free edges of different bodies that run side by side in a flat pose, facing each other.

    An edge at which the paper is folded over counts as free.
    """

    panels: tuple[str, str]
    edges: tuple[Segment, Segment]
    """In the pose's frame, over the stretch in which they face."""
    gap: Fraction
    """The distance between the parallel edges: positive apart, zero meeting, negative overlapping.

    Exact, but for slanted edges whose direction has no rational length: those to 1/4096 of the unit.
    """


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPose:
    """The card folded flat as a pose says, exactly."""

    name: str
    spec: PoseSpec
    placements: Mapping[str, Isometry]
    """For each panel, from its piece's frame to the pose's: viewer above, reader's up, outline's corner at origin."""
    over: frozenset[tuple[str, str]]
    """(upper, lower) for each pair of panels that overlap.

    Transitive only where three lie over each other at a point: four flaps may be tucked in a ring.
    """
    outline: tuple[Ring, ...]
    """The union of all panels."""
    width: Fraction
    height: Fraction
    meetings: tuple[Meeting, ...]
    seen: tuple[Region, ...]
    """What the viewer sees from the front, without overlaps."""
    hidden_side: tuple[Region, ...]
    """What is seen from behind, in the same frame (as through glass)."""
    thickness: Fraction | None
    """The greatest, in the recipe's unit; None where a paper's thickness is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame3:
    """Where a panel stands in space: p goes to origin + p.x * right + p.y * up. Floats; the recipe's unit."""

    origin: tuple[float, float, float]
    right: tuple[float, float, float]
    up: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingPose:
    """The card off the table. The still panel lies in z = 0; approximate to `misfit`."""

    name: str
    spec: PoseSpec
    frames: Mapping[str, Frame3]
    angles: Mapping[str, float]
    """Degrees for each score, those given and those found."""
    height: float
    """How far it reaches above the still panel."""
    misfit: float
    """How far its loops and its foot are from closing, in the recipe's unit."""


Pose = FlatPose | StandingPose


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """The whole plan."""

    recipe: Recipe
    pieces: tuple[CardPiece, ...]
    """Pieces, then layers, in the recipe's order."""
    panels: Mapping[str, Panel]
    hinges: tuple[Hinge, ...]
    bonds: tuple[Bond, ...]
    poses: tuple[Pose, ...]

    def piece(self, name: str) -> CardPiece | None:
        """The piece or layer of that name."""
        return next((piece for piece in self.pieces if piece.name == name), None)

    def pose(self, name: str) -> Pose | None:
        """The pose of that name."""
        return next((pose for pose in self.poses if pose.name == name), None)

    @property
    def closed(self) -> FlatPose | None:
        """The pose that the finished size speaks of, when it could be folded flat."""
        wanted = self.recipe.finished.pose.value if self.recipe.finished.pose else "closed"
        found = self.pose(wanted)
        return found if isinstance(found, FlatPose) else None
