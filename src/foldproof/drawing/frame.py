"""One picture of a step, before it is drawn."""

from dataclasses import dataclass

from foldproof.making.table import Done, Table
from foldproof.recipe import actions as do


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """What happens to the work between two frames."""

    kind: str
    """`turn`, `over` or `then`."""
    words: str
    way: str = ""
    """Of a turn: `half`, `quarter clockwise`, ...; of turning over: `book page` or `top to bottom`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One picture of a step."""

    piece: str
    """A piece of the body that is shown."""
    table: Table
    """The state that is drawn: after scoring, marking and attaching; before cutting and folding."""
    start: Table
    """The state before the first thing that is done in the frame."""
    done: tuple[Done, ...] = ()
    motions: tuple[Motion, ...] = ()
    """What leads here from the frame before."""
    fence: bool = False
    closed: bool = False
    """Whether something was done after which the work looks another way: nothing more fits in."""
    back: tuple[Done, ...] = ()
    """What undoes folds that are made here at once, so that the work lies as before: they are tried, or creased."""
    rest: tuple[Done, ...] = ()
    """Further unfolding that follows at once; it is told, not drawn."""
    again: int | None = None
    """The frame, counted from 0, whose picture the work looks like afterwards: it is not drawn twice."""

    def goes_back(self, done: Done) -> bool:
        """Whether a fold of the frame is undone at once."""
        return any(_score(one) == _score(done) for one in self.back)


def _score(done: Done) -> str:
    return done.action.score if isinstance(done.action, do.FoldOn | do.Unfold) else ""


def marks_on(table: Table) -> tuple[object, ...]:
    """What else can be seen of the paper: its outlines, creases and what is on it."""
    return (table.bonds, table.tucked, tuple(
        (piece.outline, piece.holes, piece.slits, piece.creases) for piece in table.pieces.values()))


def body_of(table: Table, piece: str) -> tuple[object, ...]:
    """What body a piece belongs to, how it lies and how it is folded."""
    root = table.root(piece)
    on_table = table.pieces.get(root)
    return (root, on_table.lie if on_table else None, table.folded)
