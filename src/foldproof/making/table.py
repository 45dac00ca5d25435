"""The table: what exists at a moment of the making and how it lies. Nothing here changes; actions make new tables."""

from collections.abc import Mapping, Sequence
from dataclasses import field
from fractions import Fraction

from foldproof.findings.finding import Finding, Place
from foldproof.folding.remembered import remembered
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.vector import Point, Ring, Segment, Vector
from foldproof.recipe.actions import Action
from foldproof.recipe.records import StepSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """How a piece lies before the maker: a direction, not turned coordinates."""

    right: Vector
    """The direction, in the piece's own frame, that points to the maker's right. Any rational length."""
    up: Face
    """The face that is up."""

    @property
    def away(self) -> Vector:
        """The direction, in the piece's own frame, that points away from the maker (up on a drawing)."""
        return self.right.left if self.up is Face.FRONT else -self.right.left


UPRIGHT = Lie(right=Vector(Fraction(1), Fraction(0)), up=Face.FRONT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Crease:
    """A score that has been pressed."""

    segment: Segment
    """In the piece's own frame."""
    pressed: Face
    """The face that was up."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A pencil mark."""

    name: str
    at: Point
    """In the piece's own frame."""
    face: Face


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTable:
    """A piece or layer on the table."""

    name: str
    outline: Ring
    """In its own frame, which is the plan's."""
    round: bool
    holes: tuple[Ring, ...] = ()
    """Windows that have been cut."""
    slits: tuple[Segment, ...] = ()
    """Slits that have been cut, in their stretches."""
    creases: tuple[Crease, ...] = ()
    marks: tuple[Mark, ...] = ()
    lie: Lie = UPRIGHT
    """For a piece that is bonded to another, the lie of the body's root (the receiving piece) counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bonded:
    """A bond that has been made."""

    name: str
    root: str
    """The piece that received it."""
    guest: str
    """The piece that was put on."""
    fit: Isometry
    """From the guest's frame to the root's, as the hands placed it."""
    wet_until: Fraction
    """Seconds on the table's clock."""
    place: Place | None = None
    """Of the action that made it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamped:
    """Something stamped, written or printed on a face."""

    panel: str
    face: Face
    up: Vector
    """The direction in which it reads upright, in the piece's own frame: away from the maker when it was stamped."""
    words: str | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Everything at one moment."""

    pieces: Mapping[str, OnTable] = field(default_factory=dict)
    bonds: tuple[Bonded, ...] = ()
    folded: tuple[tuple[str, Fraction], ...] = ()
    """Scores that are folded now, (name, signed degrees as seen from the piece's front), in the order of folding."""
    tucked: tuple[tuple[str, str], ...] = ()
    """Panels (upper, lower) where the lower one was slipped under by hand, seen with the front of the root up."""
    stamped: tuple[Stamped, ...] = ()
    """What has been stamped or written, in order."""
    clock: Fraction = Fraction(0)
    """Seconds of drying so far."""
    blades: tuple[tuple[str, str], ...] = ()
    """Trimmers whose blade has been changed, and the blade that is in now: `cutting` or `scoring`."""

    def root(self, piece: str) -> str:
        """The piece at the bottom of the body that `piece` belongs to."""
        return _bodies(self)[0].get(piece, piece)

    def body(self, piece: str) -> tuple[str, ...]:
        """Everything on the table that is bonded to a piece, itself included, in the table's order."""
        roots, bodies = _bodies(self)
        return tuple(bodies.get(roots.get(piece, piece), ()))


@remembered(256)
def _bodies(table: Table) -> tuple[Mapping[str, str], Mapping[str, Sequence[str]]]:
    """For each piece the one at the bottom of its body, and for each of those all that is bonded to it."""
    under: dict[str, str] = {}
    for bond in table.bonds:
        under.setdefault(bond.guest, bond.root)
    roots: dict[str, str] = {}
    for name in (*table.pieces, *under):
        way = []
        at = name
        while at not in roots and at in under:
            way.append(at)
            at = under[at]
        root = roots.get(at, at)
        roots.update((one, root) for one in (*way, at))
    bodies: dict[str, list[str]] = {}
    for name in table.pieces:
        bodies.setdefault(roots[name], []).append(name)
    return roots, bodies


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A length that a step sets, for the drawing."""

    piece: str
    start: Point
    end: Point
    """Both in the piece's own frame: from what it is measured, to what it sets."""
    measure: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """One action, carried out."""

    action: Action
    piece: str | None
    before: Table
    after: Table
    dimensions: tuple[Dimension, ...] = ()
    lines: tuple[Segment, ...] = ()
    """New scores or cuts, in the piece's own frame."""
    tool: str | None = None
    """The tool that it was done with, where it takes one and one is listed."""
    gone: tuple[Ring, ...] = ()
    """Shapes that are cut away, in the frame of the body's root."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepMade:
    """One step, carried out."""

    number: int
    """From 1, the same in every output."""
    spec: StepSpec
    done: tuple[Done, ...]
    """With the step's own piece: what is told and drawn."""
    before: Table
    after: Table
    """When all is done, repeats too."""
    again: tuple[Done, ...] = ()
    """The same with the pieces that the step is repeated with."""

    @property
    def every(self) -> tuple[Done, ...]:
        """All that is done, with every piece."""
        return (*self.done, *self.again)


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """All the steps carried out."""

    steps: tuple[StepMade, ...]
    findings: tuple[Finding, ...]

    @property
    def end(self) -> Table:
        """The table after the last step."""
        return self.steps[-1].after if self.steps else Table()
