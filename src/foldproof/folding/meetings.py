"""Which edges run side by side in a flat pose, and how far apart they lie."""

from collections.abc import Mapping
from fractions import Fraction
from math import gcd

from foldproof.folding.bodies import bodies
from foldproof.folding.card import Card, Meeting
from foldproof.folding.overlay import Overlay
from foldproof.folding.words import root
from foldproof.frozen import dataclass
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import edges, meeting
from foldproof.paper.vector import Segment


@dataclass(frozen=True, slots=True)
class _Side:
    """A free side of a panel: no hinge that lies flat, and no paper of the same body just beyond it."""

    panel: str
    segment: Segment
    """With the panel on its left."""
    cells: tuple[tuple[Segment, int], ...]
    """The stretches of the arrangement along it with the cell inside the panel."""
    run: tuple[int, int]
    """Which way it runs, as the least pair of whole numbers that tells it: the same for all that run alike."""
    level: Fraction
    """How far the origin lies to the right of its line, times the length of `run`."""
    begin: Fraction
    """How far along the line it begins, from the origin's foot, times the length of `run`."""
    end: Fraction
    front: bool
    """Whether the panel is seen from the front anywhere along it."""
    behind: bool
    beside: frozenset[str]
    """Panels right over or under this one anywhere along it."""

    def may_meet(self, other: "_Side", width: Fraction) -> bool:
        """False where two sides that run against each other can be told not to meet by what is known of each alone.

        All it compares are numbers that were reckoned once for each side; a stack of n panels has n squared pairs.
        """
        apart = self.level + other.level  # how far the other's line lies to the right, times the length of `run`
        if apart < 0 and other.panel not in self.beside and self.panel not in other.beside:
            return False
        if apart >= 0 and not (self.front and other.front) and not (self.behind and other.behind):
            return False
        if max(self.begin, -other.end) >= min(self.end, -other.begin):
            return False
        across, up = self.run
        return apart * apart * 16 < width * width * (across * across + up * up)


def meetings(
    card: Card, placements: Mapping[str, Isometry], laid: Overlay, width: Fraction,
) -> tuple[Meeting, ...]:
    """Pairs of sides of different bodies, parallel, with their panels on opposite sides, nearer than width / 4.

    A side of a mat that lies within the body that it is fixed to is none. Sides that lie apart or meet must both be
    seen, from the front or both from behind; of sides that overlap, one panel must lie right on the other there. A
    folded score is a side; a score that lies flat is none. A gap across a slanted direction without a rational length
    is given to 1/4096 of the unit, and is zero only when exact.
    """
    body = bodies(card.bonds, card.panels)
    hinged = {frozenset(hinge.panels) for hinge in card.hinges}
    sides = _sides(card, placements, laid, body)
    alike: dict[tuple[int, int], list[int]] = {}
    for i, side in enumerate(sides):
        alike.setdefault(side.run, []).append(i)
    found: list[Meeting] = []
    for i, a in enumerate(sides):
        across, up = a.run
        for j in alike.get((-across, -up), ()):
            b = sides[j]
            if j < i or body[a.panel] == body[b.panel] or frozenset((a.panel, b.panel)) in hinged:
                continue
            if not a.may_meet(b, width):
                continue
            made = _meeting(a, b, laid)
            if made is not None:
                found.append(made)
    return tuple(found)


def _direction(segment: Segment) -> tuple[int, int]:
    along = segment.along
    (x, x_part), (y, y_part) = along.x.as_integer_ratio(), along.y.as_integer_ratio()
    across, up = x * y_part, y * x_part
    size = gcd(across, up)
    return across // size, up // size


def _sides(
    card: Card, placements: Mapping[str, Isometry], laid: Overlay, body: Mapping[str, str],
) -> list[_Side]:
    flat = [
        (hinge.panels, placements[hinge.panels[0]].segment(hinge.segment)) for hinge in card.hinges
        if hinge.panels[0] in placements and placements[hinge.panels[0]] == placements[hinge.panels[1]]
    ]
    along: dict[tuple[str, int], list[tuple[Segment, int]]] = {}
    for edge in laid.whole.edges:
        for source in edge.sources:
            name, number = laid.owners[source]
            for cell, beyond in ((edge.left, edge.right), (edge.right, edge.left)):
                if cell is None or name not in laid.layers[cell]:
                    continue
                if beyond is None or not any(body[other] == body[name] for other in laid.layers[beyond]):
                    along.setdefault((name, number), []).append((edge.segment, cell))
    sides = []
    for name, move in placements.items():
        panel = card.panels[name]
        for number, segment in enumerate(edges(move.ring(panel.ring))):
            free = along.get((name, number))
            if free and not any(name in panels and _covers(hinge, segment) for panels, hinge in flat):
                sides.append(_side(name, segment, tuple(free), laid))
    return sides


def _side(name: str, segment: Segment, free: tuple[tuple[Segment, int], ...], laid: Overlay) -> _Side:
    run = across, up = _direction(segment)
    start, end = segment.start, segment.end
    near: set[str] = set()
    for _, cell in free:
        layers = laid.layers[cell]
        place = layers.index(name)
        near.update(layers[max(place - 1, 0):place + 2])
    return _Side(
        name, segment, free, run, level=across * start.y - up * start.x, begin=across * start.x + up * start.y,
        end=across * end.x + up * end.y, front=any(laid.top(cell) == name for _, cell in free),
        behind=any(laid.bottom(cell) == name for _, cell in free), beside=frozenset(near))


def _covers(hinge: Segment, side: Segment) -> bool:
    shared = meeting(side, hinge)
    return shared is not None and shared.start == side.start and shared.end == side.end


def _meeting(a: _Side, b: _Side, laid: Overlay) -> Meeting | None:
    """The meeting of two sides that lie near each other and alongside (`may_meet`), where anyone would call it one."""
    d = a.segment.along
    out = -d.left
    cross = out.dot(b.segment.start - a.segment.start)
    square = cross * cross / out.square
    low, high = sorted(((b.segment.start - a.segment.start).dot(d), (b.segment.end - a.segment.start).dot(d)))
    low, high = max(low, Fraction(0)), min(high, d.square)
    stretch = Segment(a.segment.start + d * (low / d.square), a.segment.start + d * (high / d.square))
    shift = out * (cross / out.square)
    other = Segment(stretch.end + shift, stretch.start + shift)
    if not _matter(a, stretch, b, other, laid, apart=cross >= 0):
        return None
    return Meeting(panels=(a.panel, b.panel), edges=(stretch, other), gap=_signed(cross, square))


def gap_between(a: Segment, b: Segment) -> Fraction | None:
    """The gap between sides that face each other, each with its panel on its left; None where they are not parallel.

    Signed, and exact, as a meeting's.
    """
    across, up = _direction(b)
    if _direction(a) != (-across, -up):
        return None
    out = -a.along.left
    cross = out.dot(b.start - a.start)
    return _signed(cross, cross * cross / out.square)


def _signed(cross: Fraction, square: Fraction) -> Fraction:
    return root(square) if cross >= 0 else -root(square)


def _matter(a: _Side, on_a: Segment, b: _Side, on_b: Segment, laid: Overlay, apart: bool) -> bool:
    """Whether anyone would call it a meeting."""
    mine, yours = _cells(a, on_a), _cells(b, on_b)
    if apart:
        front = any(laid.top(c) == a.panel for c in mine) and any(laid.top(c) == b.panel for c in yours)
        behind = any(laid.bottom(c) == a.panel for c in mine) and any(laid.bottom(c) == b.panel for c in yours)
        return front or behind
    return any(_next_to(a.panel, b.panel, laid.layers[cell]) for cell in (*mine, *yours))


def _next_to(a: str, b: str, layers: tuple[str, ...]) -> bool:
    return a in layers and b in layers and abs(layers.index(a) - layers.index(b)) == 1


def _cells(side: _Side, stretch: Segment) -> list[int]:
    """The cells inside the panel along a stretch of its side."""
    found = []
    for segment, cell in side.cells:
        shared = meeting(segment, stretch)
        if shared is not None and shared.start != shared.end:
            found.append(cell)
    return found


