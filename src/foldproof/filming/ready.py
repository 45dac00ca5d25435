"""What must be ready before the camera is on, in the order in which it is used."""

from collections.abc import Iterator, Mapping

from foldproof.filming.continuity import Continuity
from foldproof.filming.records import FilmPlan, Shot
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.recipe import actions as do


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """Something to have ready."""

    name: str
    kind: str
    """`paper`, `tool` or `supply`, or `ready made`."""
    note: str
    """For a paper: what is cut from it on camera. Empty otherwise."""
    shot: str
    """The key of the shot in which it is first used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A piece that is made before filming."""

    piece: str
    count: int
    steps: tuple[int, ...]
    """The numbers of the steps that are done on it beforehand."""
    shot: str
    """The key of the first shot that needs it; empty where none does."""
    duplicate: bool
    """Whether it is a second copy of something that is also made on camera."""


def things_ready(card: Card, plan: FilmPlan, continuity: Mapping[str, Continuity]) -> tuple[Thing, ...]:
    """Papers, tools and supplies in the order of their first use in filming order."""
    found: dict[str, Thing] = {}
    kinds = {str(tool.name): "tool" for tool in card.recipe.tools}
    kinds |= {str(supply.name): "supply" for supply in card.recipe.supplies}
    for shot in plan.filming_order:
        for name, note in _papers(card, shot):
            known = found.get(name)
            note = ", ".join(filter(None, (known.note if known else "", note)))
            found[name] = Thing(name=name, kind="paper", note=note, shot=known.shot if known else shot.key)
        for name in _ready_made(card, shot):
            found.setdefault(name, Thing(name=name, kind="ready made", note="", shot=shot.key))
        for name in (*continuity[shot.key].under, *continuity[shot.key].at_hand):
            found.setdefault(name, Thing(name=name, kind=kinds.get(name, "tool"), note="", shot=shot.key))
    return tuple(found.values())


def _papers(card: Card, shot: Shot) -> Iterator[tuple[str, str]]:
    for done in shot.done:
        plan = card.piece(done.piece) if done.piece else None
        if isinstance(done.action, do.CutOut | do.DieCut) and plan is not None and plan.paper and not plan.bought:
            yield plan.paper, plan.name


def _ready_made(card: Card, shot: Shot) -> Iterator[str]:
    for name in shot.after.pieces:
        plan = card.piece(name)
        if plan is not None and plan.bought and name not in shot.before.pieces:
            yield name


def pieces_prepared(card: Card, plan: FilmPlan) -> tuple[Prepared, ...]:
    """Every piece that is made beforehand: by steps off camera, and as a duplicate."""
    found: list[Prepared] = []
    for piece in card.pieces:
        steps = tuple(
            step.number for step in plan.prepared
            if piece.name in step.after.pieces and any(done.piece == piece.name for done in step.done))
        if steps:
            needs = (
                shot.key for shot in plan.filming_order
                if piece.name in shot.before.pieces and piece.name in shot.pieces)
            found.append(Prepared(
                piece=piece.name, count=1, steps=steps, shot=next(needs, ""), duplicate=False))
    for duplicate in plan.order.duplicates:
        found += [
            Prepared(piece=name, count=1, steps=duplicate.steps, shot=duplicate.shot, duplicate=True)
            for name in duplicate.pieces]
    return tuple(found)
