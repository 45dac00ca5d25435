"""A step that is done again with other pieces: its actions once for each of them."""

import re
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from typing import Any

from foldproof.recipe.actions import Action, Lay, PlacedAt, TablePoint
from foldproof.recipe.changing_over import changed_over
from foldproof.recipe.records import RepeatSpec, StepSpec
from foldproof.recipe.sides import other_side
from foldproof.recipe.words import FIXED_POINTS, FOUND_POINT

_NAMES = frozenset({"score", "bond", "panel", "name", "other", "flap", "under", "slide", "centred_on"})
"""Fields that hold names of the piece's own things."""


def every_action(step: StepSpec) -> Iterator[Action]:
    """The actions of a step for its own piece, then for each piece that it is repeated with."""
    yield from step.actions
    for again in step.repeats:
        yield from repeated(step, again)


def repeated(step: StepSpec, again: RepeatSpec) -> tuple[Action, ...]:
    """The actions of a step, done with another piece.

    What is called after the first piece is called after the other (`left hinge`, `right hinge` where the pieces are
    `left piece` and `right piece`); `instead` names what is not. Mirrored, left and right change places throughout: in
    names, corners, ends that are measured from, and turns.
    """
    assert step.piece is not None
    first = other_side(step.piece.value) if again.mirrored else step.piece.value
    rename = _renaming(first, again.piece.value)
    instead = {of.value: take.value for of, take in again.instead}

    def called(written: str) -> str:
        return instead.get(written) or rename(other_side(written) if again.mirrored else written)

    return tuple(_for(action, again, called) for action in step.actions)


def _for(action: Action, again: RepeatSpec, called: Callable[[str], str]) -> Action:
    sided = changed_over(action) if again.mirrored else action
    done = replace(_named(action, sided, called), piece=called(action.piece) if action.piece else again.piece.value)
    return replace(done, anticlockwise=not done.anticlockwise) if again.mirrored and isinstance(done, Lay) else done


def _renaming(first: str, other: str) -> Callable[[str], str]:
    """Names of the first piece's things to those of the other: the words in which the two pieces' names differ."""
    a, b = first.split(), other.split()
    while a and b and a[-1] == b[-1]:
        a, b = a[:-1], b[:-1]
    while a and b and a[0] == b[0]:
        a, b = a[1:], b[1:]
    if not a or not b:
        a, b = first.split(), other.split()
    words = re.compile(rf"\b{re.escape(' '.join(a))}\b")
    return lambda name: words.sub(" ".join(b), name)


def _named(written: Any, sided: Any, called: Callable[[str], str]) -> Any:
    """A record with every name in it called anew; `sided` is the same record with its sides changed over."""
    changes: dict[str, Any] = {}
    for each in fields(sided):
        old, new = getattr(written, each.name), getattr(sided, each.name)
        if isinstance(old, TablePoint):
            changes[each.name] = replace(new, name=_point_called(old.name, new.name, called))
        elif isinstance(old, tuple) and old and all(isinstance(point, TablePoint) for point in old):
            changes[each.name] = tuple(
                replace(b, name=_point_called(a.name, b.name, called)) for a, b in zip(old, new, strict=True))
        elif isinstance(old, PlacedAt):
            changes[each.name] = _named(old, new, called)
        elif each.name in _NAMES and isinstance(old, str):
            changes[each.name] = called(old)
    return replace(sided, **changes)


def _point_called(written: str, sided: str, called: Callable[[str], str]) -> str:
    """A point with the names in it called anew; corners, middles and sides as they lie are the maker's."""
    if written in FIXED_POINTS:
        return sided
    found = FOUND_POINT.fullmatch(written)
    if found is None:
        return called(written)
    names = [name for name in found.groups() if name is not None]
    start = written[:found.start(found.lastgroup or 0)] if len(names) == 1 else written[:found.start("first")]
    joined = " and ".join(map(called, names))
    return f"{other_side(start) if sided != written else start}{joined}"
