"""How wide a picture a shot needs: what must be inside, room for hands, the picture's shape."""

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, hypot

from foldproof.filming.cuts import CLOSE, WIDE, Piecework
from foldproof.filming.records import Frame, Spot
from foldproof.filming.spots import hands_at, part, together, whole
from foldproof.filming.spread import Size, spread
from foldproof.filming.touched import piece_of, touched
from foldproof.folding.card import Card, FlatPose, Frame3, Panel, Pose
from foldproof.making.table import Table
from foldproof.measures.quantity import Unit
from foldproof.recipe import actions as do
from foldproof.recipe.film_records import STANDING, BeautySpec, ShotSpec

ASPECTS = {"wide": Fraction(16, 9), "tall": Fraction(9, 16), "square": Fraction(1)}
_PARTS = 8
"""Sizes of standing cards are rounded up to eighths of the unit."""


def hand_room(unit: Unit) -> Fraction:
    """Left free on every side for hands and tools: an inch, or 25 mm (a guess of our own)."""
    return {Unit.INCH: Fraction(1), Unit.MM: Fraction(25), Unit.CM: Fraction(5, 2)}[unit]


def whole_step(unit: Unit) -> Fraction:
    """Widths are rounded up to whole inches, or to 10 mm, so that a ruler shows them."""
    return {Unit.INCH: Fraction(1), Unit.MM: Fraction(10), Unit.CM: Fraction(1)}[unit]


def frame_of(card: Card, work: Piecework, aspect: Fraction) -> Frame:
    """The frame of a shot; its width is the least one until set-ups are made."""
    unit = card.recipe.unit
    size, inside, first, last = _contents(card, work, aspect)
    room = hand_room(unit) / 2 if work.framing == CLOSE else hand_room(unit)
    step = whole_step(unit)
    least = max(size[0] + 2 * room, (size[1] + 2 * room) * aspect)
    need = ceil(least / step) * step
    return Frame(inside=inside, need=need, width=need, height=need / aspect, first=first, last=last)


def _contents(
    card: Card, work: Piecework, aspect: Fraction,
) -> tuple[Size, tuple[str, ...], Spot | None, Spot | None]:
    if isinstance(work.spec, BeautySpec):
        pose = card.pose(work.spec.pose.value)
        size = pose_size(card, pose) if pose else (Fraction(1), Fraction(1))
        return size, (work.spec.pose.value,), None, None
    if work.framing in STANDING:
        return _held_up(card, work), _roots(card, work), None, None
    spec = work.spec
    if isinstance(spec, ShotSpec) and spec.inside:
        names = tuple(name.value for name in spec.inside)
        return _around(_named_spots(card, work, names), names)
    if work.framing == WIDE:
        return wide_size(card, work, aspect), _roots(card, work), None, None
    close = work.framing == CLOSE
    room = hand_room(card.recipe.unit)
    spots = [hands_at(card, done, room) for done in work.done] if close else []
    if not any(spots):
        spots = [
            whole(card, table, piece)
            for done in work.done if (piece := piece_of(card, done)) for table in (done.before, done.after)]
    if not any(spots):
        spots = [whole(card, work.before, name) for name in _shown_pieces(card, work)[:1]]
    return _around(spots, _names_at(card, work) if close else _roots(card, work))


def _named_spots(card: Card, work: Piecework, names: tuple[str, ...]) -> list[Spot | None]:
    tables = [work.before, *(done.after for done in work.done)]
    return [spot for table in tables if (spot := part(card, table, names)) is not None]


def _around(
    spots: Sequence[Spot | None], names: tuple[str, ...],
) -> tuple[Size, tuple[str, ...], Spot | None, Spot | None]:
    there = [spot for spot in spots if spot is not None]
    if not there:
        return (Fraction(1), Fraction(1)), names, None, None
    whole_way = {(spot.root, spot.lie): spot for spot in together(there)}
    size = max(s.box.width for s in whole_way.values()), max(s.box.height for s in whole_way.values())
    first, last = (whole_way[spot.root, spot.lie] for spot in (there[0], there[-1]))
    return size, names, first, last


def wide_size(card: Card, work: Piecework, aspect: Fraction) -> Size:
    """Everything that is worked on, side by side, before and after; and each sheet before it is cut, alone."""
    gap = hand_room(card.recipe.unit) / 2
    found: list[Size] = [sheet for name in cut_now(work) if (sheet := sheet_level(card, name)) is not None]
    for table in (work.before, work.after):
        there = bodies(card, table, sorted(shown_pieces(card, work)))
        if there:
            layout = spread([(spot.box.width, spot.box.height) for spot in there], gap, aspect)
            found.append((layout.width, layout.height))
    return (max(w for w, _ in found), max(h for _, h in found)) if found else (Fraction(1), Fraction(1))


def bodies(card: Card, table: Table, names: Sequence[str]) -> tuple[Spot, ...]:
    """The bodies on the table that these pieces belong to, each once."""
    return together(whole(card, table, name) for name in names)


def cut_now(work: Piecework) -> tuple[str, ...]:
    """The pieces that are cut from whole sheets in a shot."""
    return tuple(done.piece for done in work.done if isinstance(done.action, do.CutOut) and done.piece)


def sheet_level(card: Card, piece: str) -> Size | None:
    """The sheet that a piece is cut from, its long side level; None where the recipe does not give its size."""
    plan = card.piece(piece)
    for paper in card.recipe.papers:
        if plan is not None and paper.name.value == plan.paper and paper.sheet is not None:
            sides = sorted(side.value for side in paper.sheet)
            return sides[1], sides[0]
    return None


def _held_up(card: Card, work: Piecework) -> Size:
    """A card that is held up or stands: every state of the shot, and the standing pose where one is promised."""
    tables = [work.before, *(done.after for done in work.done)]
    found = [spot for table in tables for spot in bodies(card, table, _roots(card, work))]
    sizes = [(spot.box.width, spot.box.height) for spot in found]
    stands = card.recipe.finished.stands
    if stands is not None and (pose := card.pose(stands.pose.value)) is not None:
        sizes.append(pose_size(card, pose))
    return (max(w for w, _ in sizes), max(h for _, h in sizes)) if sizes else (Fraction(1), Fraction(1))


def pose_size(card: Card, pose: Pose) -> Size:
    """Width and height of a pose before the camera.

    A card that stands is seen a little from the side and from above, by less than 30 degrees: its picture is no wider
    than the diagonal of its foot, and no higher than its height and half that diagonal (the sine of 30 degrees).
    """
    if isinstance(pose, FlatPose):
        return pose.width, pose.height
    corners = [corner for name, frame in pose.frames.items() for corner in _corners(card.panels[name], frame)]
    across, deep, high = (max(c[i] for c in corners) - min(c[i] for c in corners) for i in range(3))
    wide = hypot(across, deep)
    return Fraction(ceil(wide * _PARTS), _PARTS), Fraction(ceil((high + wide / 2) * _PARTS), _PARTS)


def _corners(panel: Panel, frame: Frame3) -> list[tuple[float, ...]]:
    return [
        tuple(o + float(p.x) * r + float(p.y) * u for o, r, u in zip(frame.origin, frame.right, frame.up, strict=True))
        for p in panel.ring]


def _roots(card: Card, work: Piecework) -> tuple[str, ...]:
    """The bodies of a shot by their roots as they end, in the order in which hands come to them."""
    names = [name for done in work.done for name in _ordered(card, work, touched(card, done))]
    names = names or list(_shown_pieces(card, work))
    there = [name for name in names if name in work.after.pieces]
    return tuple(dict.fromkeys(work.after.root(name) for name in there))


def _ordered(card: Card, work: Piecework, names: frozenset[str]) -> list[str]:
    return [piece.name for piece in card.pieces if piece.name in names]


def _shown_pieces(card: Card, work: Piecework) -> tuple[str, ...]:
    """For a shot in which nothing is done: the step's own piece, else what its step works on, else everything."""
    step = work.step
    spec = work.spec
    if isinstance(spec, ShotSpec) and spec.inside:
        return tuple(card.panels[n.value].piece if n.value in card.panels else n.value for n in spec.inside)
    if step is not None and step.spec.piece is not None and step.spec.piece.value in work.before.pieces:
        return (step.spec.piece.value,)
    if step is not None:
        own = frozenset(name for done in step.done for name in touched(card, done))
        there = [piece.name for piece in card.pieces if piece.name in own and piece.name in work.before.pieces]
        if there:
            return tuple(there)
    return tuple(work.before.pieces)


def shown_pieces(card: Card, work: Piecework) -> frozenset[str]:
    """Every piece that is worked on or shown."""
    if isinstance(work.spec, BeautySpec):
        return frozenset(work.after.pieces)
    names = frozenset(name for done in work.done for name in touched(card, done))
    if names:
        return names
    return frozenset(
        name for first in _shown_pieces(card, work) if first in work.before.pieces
        for name in work.before.pieces if work.before.root(name) == work.before.root(first))


def _names_at(card: Card, work: Piecework) -> tuple[str, ...]:
    """What hands are at: the guests and the panels that are stamped, else the bodies."""
    bonds = {bond.name: bond for bond in card.bonds}
    names: list[str] = []
    for done in work.done:
        if isinstance(done.action, do.Attach) and done.action.bond in bonds:
            names.append(bonds[done.action.bond].over.panel)
        elif isinstance(done.action, do.Stamp):
            names.append(done.action.panel)
    return tuple(dict.fromkeys(names)) or _roots(card, work)
