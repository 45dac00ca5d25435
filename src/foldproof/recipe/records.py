"""The typed recipe: what the author wrote, read and placed, but not yet judged."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity, Unit
from foldproof.paper.face import Face, Fold
from foldproof.recipe.actions import Action
from foldproof.recipe.class_records import ClassSpec
from foldproof.recipe.cut_records import UNCUT as UNCUT
from foldproof.recipe.cut_records import Cuts as Cuts
from foldproof.recipe.edition_records import OtherSizes
from foldproof.recipe.film_records import FilmSpec
from foldproof.recipe.film_records import ShotSpec as ShotSpec
from foldproof.recipe.points import PointAt as PointAt
from foldproof.recipe.shape_records import Bought as Bought
from foldproof.recipe.shape_records import Circle as Circle
from foldproof.recipe.shape_records import Outline as Outline
from foldproof.recipe.shape_records import PointNamed as PointNamed
from foldproof.recipe.shape_records import PointSpec as PointSpec
from foldproof.recipe.shape_records import Rectangle as Rectangle
from foldproof.recipe.shape_records import Shape as Shape
from foldproof.recipe.shape_records import Triangle as Triangle
from foldproof.recipe.slide_records import SlideSpec as SlideSpec
from foldproof.recipe.text import Text as Text


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSpec:
    """A kind of sheet."""

    name: Text
    kind: Text | None
    """`cardstock`, `patterned paper`, ..."""
    weight: Text | None
    """As written: `80 lb cover`, `250 gsm`."""
    thickness: Quantity | None
    sheet: tuple[Quantity, Quantity] | None
    """Width then height of a whole sheet as it is bought."""
    grain: str | None
    """Which way of the whole sheet the grain runs: `width` or `height`."""
    printed: str
    """`plain`, `one face` (the front) or `both faces`."""
    pattern: str
    """`none`, `any way` or `upright`."""
    tone: Text | None
    """A colour word or #rrggbb for drawings; never the only signal."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """A score straight across from the bottom edge to the top edge, `at` from the left."""

    at: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Up:
    """A score straight across from the left edge to the right edge, `at` up from the bottom."""

    at: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """A score from one point to another."""

    start: PointSpec
    end: PointSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreSpec:
    """A score of the plan; the fold is as seen from the piece's front."""

    name: Text
    line: Across | Up | Between
    fold: Fold
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One condition on where a panel lies, looking at the piece's front."""

    relation: str
    """`left of`, `right of`, `above` or `below`."""
    score: Text


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelSpec:
    """A name for a panel: by a point in it, or by the sides of scores on which it lies."""

    name: Text
    where: PointAt | tuple[Side, ...]
    """`between A and B` is read as the two sides that face each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PointOf:
    """A named point of a piece."""

    name: Text
    at: PointAt


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceSpec:
    """A piece of the card."""

    name: Text
    paper: Text
    shape: Shape
    points: tuple[PointOf, ...]
    scores: tuple[ScoreSpec, ...]
    panels: tuple[PanelSpec, ...]
    """Empty for a piece with a single panel: it takes the piece's name."""
    place: Place
    cuts: Cuts = UNCUT


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceSpec:
    """A face of a panel: `left door back`."""

    panel: Text
    face: Face


class Turned(StrEnum):
    """How much something is turned in the plane, as one looks at it."""

    NONE = "none"
    HALF = "half"
    CLOCKWISE = "quarter clockwise"
    ANTICLOCKWISE = "quarter anticlockwise"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceOn:
    """Where one outline lies on another, both taken by their bounding rectangles.

    Looked at from the face that receives it (a back is reached by turning the piece like the page of a book).
    Distances are from the receiving panel's edges inward to the placed outline; negative ones stick out.
    """

    left: Quantity | None = None
    right: Quantity | None = None
    top: Quantity | None = None
    bottom: Quantity | None = None
    centred: str | None = None
    """`both`, `across` or `up`: centred in that direction."""
    centred_on: Text | None = None
    """What to centre on instead of the receiving panel: another panel's name, or `card` for the closed card."""
    turned: Turned = Turned.NONE
    """How the placed outline is turned from upright, before it is placed."""
    points: tuple[PointAt, PointAt] | None = None
    """Two points of the placed piece, in its own frame; nothing but `lie_on` is given beside them."""
    lie_on: tuple[PointAt, PointAt] | None = None
    """The points of the receiving piece, in its own frame, that the two come to lie on, as far from each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StandOff:
    """How a joined panel stands off the surface that receives it."""

    edge: str
    """The side of the placed panel's bounding rectangle, in its own frame, that is glued."""
    angle: Quantity
    """Degrees up from lying flat on the surface."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueSpec:
    """Where adhesive goes on what is laid: strips along its edges as it lies there, or all of it.

    Looked at from the face that receives it, like `PlaceOn`.
    """

    left: Quantity | None = None
    right: Quantity | None = None
    top: Quantity | None = None
    bottom: Quantity | None = None
    whole: bool = False
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinSpec:
    """Two pieces joined: the surface `put` is laid on the surface `upon`."""

    name: Text
    put: SurfaceSpec
    """The face that takes the adhesive and ends up hidden."""
    upon: SurfaceSpec
    at: PlaceOn
    adhesive: Text | None
    place: Place
    stands: StandOff | None = None
    """Where only an edge is glued and the panel stands up from there; None for faces that lie on each other."""
    glue_area: GlueSpec | None = None
    """None for wherever the two surfaces touch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerSpec:
    """A mat, patterned panel, die cut, label or ornament: a piece with a join, its back glued unless said."""

    name: Text
    paper: Text | None
    """None for something bought."""
    shape: Shape
    upon: SurfaceSpec
    at: PlaceOn
    face: Face
    """The face of the layer that is glued; `back` unless said."""
    overhangs: tuple[Text, ...]
    """Panels (or `edge`) that it may reach over beyond the one that it is fixed to."""
    adhesive: Text | None
    place: Place
    glue_area: GlueSpec | None = None
    """None for wherever the two surfaces touch."""
    cuts: Cuts = UNCUT


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldSpec:
    """The angle of one score in a pose: degrees, signed, valley positive; None where it is to be found."""

    score: Text
    angle: Quantity | None


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeOf:
    """An edge of a panel or layer, by the side of its bounding rectangle in its own frame."""

    panel: Text
    side: str
    """`left`, `right`, `top` or `bottom`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RestSpec:
    """What a standing card leans on: the edge `foot` touches the edge `against`."""

    foot: EdgeOf
    against: EdgeOf


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseSpec:
    """A named set of fold angles; scores not named lie flat."""

    name: Text
    still: Text | None
    """The panel that stays as it lies; the first piece's largest panel unless said."""
    folds: tuple[FoldSpec, ...]
    """In the order in which they are folded, from flat."""
    seen: Face
    """The face of the still panel that the viewer looks at."""
    turned: Turned
    """How the whole card is turned before the reader, after it is folded."""
    over: tuple[tuple[Text, Text], ...]
    """Pairs (upper, lower) where the recipe chooses who lies on top."""
    rests: RestSpec | None
    place: Place
    tucks: tuple[tuple[Text, Text], ...] = ()
    """Pairs (upper, lower) where the lower one is tucked under by hand, which bends the paper."""
    shows: tuple[Text, ...] = ()
    """Panels and layers that must be seen whole from the front."""
    hides: tuple[Text, ...] = ()
    """Panels and layers of which nothing may be seen from the front."""
    first: tuple[Text, ...] = ()
    """The scores that move first, one after the other, when the card comes to this pose; the rest move after them."""
    bends: tuple[Text, ...] = ()
    """Panels that the hand bends when the card comes to this pose."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeetSpec:
    """Two panels whose free edges face each other in the finished pose."""

    panels: tuple[Text, Text]
    gap: Quantity | None
    """Between the edges; zero when they meet. None when an overlap is given."""
    overlap: Quantity | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class StandsSpec:
    """The size promised for a standing pose."""

    pose: Text
    height: Quantity
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishedSpec:
    """What the recipe promises of the finished card."""

    size: tuple[Quantity, Quantity]
    """Width then height of the closed card as the reader holds it."""
    pose: Text | None
    """`closed` unless said."""
    envelope: Text | None
    envelope_size: tuple[Quantity, Quantity] | None
    meets: tuple[MeetSpec, ...]
    stands: StandsSpec | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplySpec:
    """Something that is used up."""

    name: Text
    kind: str | None
    """`wet glue`, `tape`, `foam`, `glue dots`, `ribbon`, `thread`, `ink`, `ornament`, ..."""
    amount: Text | None
    length: Quantity | None
    thickness: Quantity | None
    """Added to the bulk where it lies between layers (foam)."""
    dries: Quantity | None
    """Time before a bond made with it may be worked."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolSpec:
    """Something that is used and kept."""

    name: Text
    basic: bool
    """A basic desk tool: listed once, not asked for in the steps."""
    caution: Text | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatSpec:
    """The same once more with another piece."""

    piece: Text
    mirrored: bool
    """Whether left and right change places."""
    instead: tuple[tuple[Text, Text], ...]
    """Names of the first piece's things, and what stands in their place."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionSpec:
    """What an earlier edition of a step had wrong."""

    day: Text
    """When it was put right, as YYYY-MM-DD."""
    text: Text
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSpec:
    """One thing that the maker does, with the words that say it."""

    id: str
    """Stable across the outputs; from `id` or else from the title."""
    title: Text
    piece: Text | None
    """The piece or layer that its actions act on unless they say another."""
    tools: tuple[Text, ...]
    supplies: tuple[Text, ...]
    actions: tuple[Action, ...]
    """As done with the step's own piece; `repeating.every_action` has them all."""
    text: Text
    """Markdown for the handout and the page."""
    say: Text | None
    """The line to speak; the text unless said."""
    tip: Text | None
    caution: Text | None
    minutes: Quantity | None
    shots: tuple[ShotSpec, ...]
    picture: Text | None
    """A photograph beside the recipe, by relative path."""
    place: Place
    repeats: tuple[RepeatSpec, ...] = ()
    """What the same is done with afterwards, in order; told once, with its count."""
    picture_shows: Text | None = None
    corrections: tuple[CorrectionSpec, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureSpec:
    """A named measure."""

    name: Text
    value: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One card, as its recipe describes it."""

    file: str
    name: str
    """The file's stem: the name of the output folder."""
    title: Text
    summary: Text | None
    skill: Text | None
    unit: Unit
    language: str
    measures: tuple[MeasureSpec, ...]
    papers: tuple[PaperSpec, ...]
    pieces: tuple[PieceSpec, ...]
    joins: tuple[JoinSpec, ...]
    layers: tuple[LayerSpec, ...]
    poses: tuple[PoseSpec, ...]
    opening: tuple[Text, ...]
    """Poses in the order in which the card opens."""
    finished: FinishedSpec
    supplies: tuple[SupplySpec, ...]
    tools: tuple[ToolSpec, ...]
    steps: tuple[StepSpec, ...]
    picture: Text | None
    place: Place
    class_part: ClassSpec | None = None
    """What a class of it needs; None where the recipe has no such part."""
    filming: FilmSpec | None = None
    """How it is filmed; None where the recipe has no such part."""
    slides: tuple[SlideSpec, ...] = ()
    tolerance: Quantity | None = None
    """How far off a class may cut and score; the usual measure unless said."""
    picture_shows: Text | None = None
    """What the photograph shows, for readers who cannot see it."""
    published: Text | None = None
    """The address at which the page stands on the web."""
    theme: Text | None = None
    """A theme that is shipped, or the path of a theme's folder inside the recipe's folder."""
    handouts: tuple[str, ...] = ()
    """The kinds of handout that are always made beside the usual one: `large-print`, ..."""
    texts: Mapping[str, str] = field(default_factory=dict, compare=False)
    """The text of every file that it was read from, by the file's name: places point into them."""
    metric: OtherSizes | None = None
    """An inch recipe's own metric sizes."""
    inches: OtherSizes | None = None
    """A metric recipe's own inch sizes."""
