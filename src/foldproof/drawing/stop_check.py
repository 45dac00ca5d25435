"""Before the first glue: the work as it must lie, and as it lies where the last turn was forgotten."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from foldproof.drawing.frame import Frame
from foldproof.drawing.frames import turn_words
from foldproof.drawing.ink import to_svg
from foldproof.drawing.record import Drawing, DrawingStyle
from foldproof.drawing.steps import side_by_side
from foldproof.drawing.words import tell_step
from foldproof.folding.card import Card
from foldproof.making.lying import turned, turned_over
from foldproof.making.table import Done, Lie, Making, StepMade, Table
from foldproof.recipe import actions as do

_BACK = {"half": "half", "quarter clockwise": "quarter anticlockwise", "quarter anticlockwise": "quarter clockwise"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where the maker stops before something is glued on for good."""

    step: str
    """The id of the step with the first adhesive."""
    mend: str
    """What brings the wrong lie to the right one."""
    right: Frame
    """Just before the glue: after whatever the step itself has done to the work."""
    wrong: Frame
    glued: Done
    """What puts the first adhesive on."""


def stop_of(card: Card, making: Making) -> Stop | None:
    """Before the first thing that is fixed on a piece of the plan that lies on the table; None where nothing is."""
    turns: dict[str, do.Turn | do.TurnOver] = {}
    for made, done in _in_order(making):
        if isinstance(done.action, do.Turn | do.TurnOver) and done.piece in done.before.pieces:
            turns[done.before.root(str(done.piece))] = done.action
        if not isinstance(done.action, do.Attach):
            continue
        name = done.action.bond
        bond = next((bond for bond in card.bonds if bond.name == name), None)
        receiver = card.panels[bond.under.panel].piece if bond else ""
        if receiver not in done.before.pieces:
            continue
        root = done.before.root(receiver)
        if not done.before.pieces[root].creases:
            continue
        turn = turns.get(root, do.TurnOver(way="book page", place=done.action.place))
        right = Frame(piece=root, table=done.before, start=done.before)
        lain = _lain(done.before, root, _undone(done.before.pieces[root].lie, turn))
        return Stop(
            step=made.spec.id, mend=turn_words(turn), right=right, glued=done,
            wrong=replace(right, table=lain, start=lain))
    return None


def draw_stop(card: Card, stop: Stop, style: DrawingStyle) -> Drawing:
    """Both pictures side by side, the right one first."""
    scene = side_by_side(card, (stop.right, stop.wrong), ("right: go on", "wrong: stop"), style)
    right, wrong = (frame.table.pieces[frame.piece].lie.up for frame in (stop.right, stop.wrong))
    told = (
        f"As it must lie: {tell_step(card, (stop.right,))} The {right} of the {stop.right.piece} is up. As it must not "
        f"lie: with the {wrong} of the {stop.wrong.piece} up, as where this was forgotten: {stop.mend}.")
    return Drawing(
        svg=to_svg(scene, style), alt=told, width_mm=round(scene.width, 2), height_mm=round(scene.height, 2),
        name="stop-and-check", scene=scene)


def _in_order(making: Making) -> Iterator[tuple[StepMade, Done]]:
    return ((made, done) for made in making.steps for done in made.every)


def _undone(lie: Lie, turn: do.Turn | do.TurnOver) -> Lie:
    """How the work lay before a turn: where it lies when the turn is forgotten."""
    return turned_over(lie, turn.way) if isinstance(turn, do.TurnOver) else turned(lie, _BACK[turn.amount])


def _lain(table: Table, root: str, lie: Lie) -> Table:
    return replace(table, pieces={**table.pieces, root: replace(table.pieces[root], lie=lie)})
