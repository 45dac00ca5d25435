"""Folds that can be drawn on one picture: none moves, or hides, what the other one moves."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.folding.card import Card
from foldproof.making.table import Done, Table
from foldproof.making.work import Work, work_with
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Box, bounding_box
from foldproof.recipe import actions as do


def independent(card: Card, shown: Table, done: Done) -> bool:
    """Whether a fold can be told on a picture of an earlier state: what it moves lies there as before, and clear.

    Nothing that the folds since have moved is among it, or lies on it in the picture.
    """
    assert isinstance(done.action, do.FoldOn | do.Unfold) and done.piece is not None
    first, now, then = (
        panel_fits(card, folded_over(card, table, done.piece)) for table in (shown, done.before, done.after))
    moved = {name for name, fit in then.items() if now.get(name) != fit}
    earlier = {name for name, fit in now.items() if first.get(name) != fit}
    if not moved:
        return False
    return not any(_overlap(one, other) for one in _boxes(card, first, moved) for other in _boxes(card, first, earlier))


def folded_over(card: Card, table: Table, piece: str) -> Work:
    """The body of a piece with every fold that is not right over as if it were."""
    flat = tuple((score, Fraction(180 if angle > 0 else -180)) for score, angle in table.folded)
    return work_with(card, replace(table, folded=flat), piece)


def panel_fits(card: Card, work: Work) -> Mapping[str, Isometry]:
    """Where each panel lies; a piece that lies whole is taken by its panels."""
    found: dict[str, Isometry] = {}
    for part in work.parts:
        plan = card.piece(part.piece)
        for name in (part.panel,) if part.panel is not None else plan.panels if plan else ():
            found[name] = part.fit
    return found


def _boxes(card: Card, fits: Mapping[str, Isometry], names: Iterable[str]) -> list[Box]:
    return [bounding_box(fits[name].ring(card.panels[name].ring)) for name in names if name in fits]


def _overlap(one: Box, other: Box) -> bool:
    return one.left < other.right and other.left < one.right and one.bottom < other.top and other.bottom < one.top
