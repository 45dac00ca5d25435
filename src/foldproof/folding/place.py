"""Where every panel lies when the card is folded flat: a walk over hinges and bonds from the panel that stays still."""

from collections import deque
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from foldproof.folding.card import Bond, Hinge, Panel
from foldproof.frozen import dataclass
from foldproof.paper.isometry import IDENTITY, Isometry, reflection
from foldproof.paper.vector import Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """A loop of hinges and bonds that does not close."""

    link: Hinge | Bond
    """Where the two ways round the loop come together."""
    ways: tuple[tuple[str, ...], tuple[str, ...]]
    """Panels from the still one to each side of the link."""
    apart: Vector | None
    """By how much, when the two ways differ by a plain shift in the frame of the pose; None when they also turn."""
    square: Fraction
    """The square of the greatest distance between two places that should be one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """Where the panels that hang together with the still one lie."""

    placements: Mapping[str, Isometry]
    """From each panel's piece frame to the frame of the still panel's piece, seen from that panel's front."""
    misfits: tuple[Misfit, ...]


@dataclass(frozen=True, slots=True)
class _Way:
    """One step of the walk."""

    link: Hinge | Bond
    start: str
    end: str
    move: Isometry
    """From the frame of the end's piece to the frame of the start's."""


def place_panels(
    panels: Mapping[str, Panel], hinges: Sequence[Hinge], bonds: Sequence[Bond], folds: Mapping[str, Fraction],
    still: str,
) -> Placing:
    """Walk from the still panel; a score not in `folds` lies flat, the others are at 0 or plus or minus 180 degrees."""
    return walk(panels, links(panels, hinges, bonds, lambda hinge: folds.get(hinge.score, Fraction(0)) != 0), still)


def links(
    panels: Mapping[str, Panel], hinges: Sequence[Hinge], bonds: Sequence[Bond], folded: Callable[[Hinge], bool],
) -> tuple[_Way, ...]:
    """All ways from panel to panel."""
    ways: list[_Way] = []
    for hinge in hinges:
        a, b = hinge.panels
        if a in panels and b in panels:
            move = reflection(hinge.segment) if folded(hinge) else IDENTITY
            ways += [_Way(hinge, a, b, move), _Way(hinge, b, a, move)]
    for bond in bonds:
        under, over = bond.under.panel, bond.over.panel
        if under in panels and over in panels:
            ways += [_Way(bond, under, over, bond.fit), _Way(bond, over, under, bond.fit.inverse)]
    return tuple(ways)


def walk(panels: Mapping[str, Panel], ways: Sequence[_Way], still: str) -> Placing:
    """Place what can be reached, nearest first; every further way to a panel must agree with its place."""
    leaving: dict[str, list[_Way]] = {}
    for way in ways:
        leaving.setdefault(way.start, []).append(way)
    placed = {still: IDENTITY}
    came: dict[str, tuple[str, ...]] = {still: (still,)}
    used: set[int] = set()
    misfits: list[Misfit] = []
    queue = deque([still])
    while queue:
        here = queue.popleft()
        for way in leaving.get(here, ()):
            if id(way.link) in used:
                continue
            used.add(id(way.link))
            there = placed[here].after(way.move)
            if way.end not in placed:
                placed[way.end], came[way.end] = there, (*came[here], way.end)
                queue.append(way.end)
            elif there != placed[way.end]:
                misfits.append(_misfit(way, panels, (*came[here], way.end), came[way.end], there, placed[way.end]))
    return Placing(placements=placed, misfits=tuple(misfits))


def _misfit(
    way: _Way, panels: Mapping[str, Panel], one: tuple[str, ...], two: tuple[str, ...], a: Isometry, b: Isometry,
) -> Misfit:
    """How far two places of the same panel are apart, taken at the hinge or at the corners of the panel."""
    link = way.link
    spots = (link.segment.start, link.segment.end) if isinstance(link, Hinge) else panels[way.end].ring
    shifts = {a.point(p) - b.point(p) for p in panels[way.end].ring}
    square = max((a.point(p) - b.point(p)).square for p in spots)
    if square == 0:  # they agree along the hinge and differ beside it
        square = max(shift.square for shift in shifts)
    return Misfit(link=link, ways=(one, two), apart=shifts.pop() if len(shifts) == 1 else None, square=square)
