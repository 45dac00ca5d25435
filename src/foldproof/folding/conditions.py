"""What keeps papers from passing through each other in a flat pose, as conditions on the pairs that overlap.

The conditions are the usual ones of flat folding (Justin; Bern and Hayes 1996; named after tacos and tortillas in
Demaine and O'Rourke, Geometric Folding Algorithms, ch. 12; from memory), read off the arrangement of the placed panels:

- where a fold lies on a line, a paper that reaches across the line lies over both of its panels or under both;
- two folds on one line, on one side of it, lie one inside the other or one beside the other, never interlocked;
- papers that run on flat over one line lie the same way round on both sides of it;
- nothing of another body lies between two faces where they are glued.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations

from foldproof.folding.bodies import bodies
from foldproof.folding.card import Bond, Hinge
from foldproof.folding.ordering import Condition, Pair, Question
from foldproof.folding.overlay import Overlay
from foldproof.folding.stacking import Folding
from foldproof.frozen import dataclass
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import on_segment, overlap
from foldproof.paper.vector import Ring, Segment


def question_of(folding: Folding, laid: Overlay, least: Fraction = Fraction(0)) -> Question:
    """All that the order of a flat pose must keep.

    Paper that reaches across a line by no more than `least`, the thickness of the paper, only touches it. `laid` may
    be in any frame.
    """
    found: dict[tuple[tuple[Pair, ...], bool], Condition] = {}
    for condition in (
        *_folds(folding), *_bonds(folding), *_choices(folding), *_crossings(folding, laid, least), *_held(folding),
    ):
        found.setdefault((condition.pairs, condition.odd), condition)
    pairs, triples = shared(laid.covers)
    known = {*pairs, *((b, a) for a, b in pairs)}
    return Question(
        pairs=pairs, triples=triples,
        conditions=tuple(c for c in found.values() if all(pair in known for pair in c.pairs)))


def shared(cells: Iterable[frozenset[str]]) -> tuple[tuple[Pair, ...], tuple[tuple[str, str, str], ...]]:
    """The pairs and the triples that lie over each other somewhere, each once, in order of their names."""
    pairs: set[Pair] = set()
    triples: set[tuple[str, str, str]] = set()
    for names in {frozenset(cell) for cell in cells}:
        listed = sorted(names)
        pairs.update(combinations(listed, 2))
        triples.update(combinations(listed, 3))
    return tuple(sorted(pairs)), tuple(sorted(triples))


def folded_pair(hinge: Hinge, angle: Fraction, placements: Mapping[str, Isometry]) -> Pair:
    """(upper, lower) for the panels of a score folded right over: a valley lays one on the front of the other."""
    a, b = hinge.panels
    return (b, a) if (angle > 0) == (placements[a].shows is Face.FRONT) else (a, b)


def bonded_pair(bond: Bond, placements: Mapping[str, Isometry]) -> Pair:
    """(upper, lower) for the panels of a bond."""
    host, guest = bond.under.panel, bond.over.panel
    return (guest, host) if placements[host].shows is bond.under.face else (host, guest)


def _folds(folding: Folding) -> Iterator[Condition]:
    angles = dict(folding.folds)
    for hinge in folding.hinges:
        angle = angles.get(hinge.score, Fraction(0))
        if angle and set(hinge.panels) <= set(folding.placements):
            yield Condition(
                pairs=(folded_pair(hinge, angle, folding.placements),), odd=True, kind="fold", names=hinge.panels,
                scores=(hinge.score,))


def _bonds(folding: Folding) -> Iterator[Condition]:
    for bond in folding.bonds:
        if bond.area is not None and {bond.under.panel, bond.over.panel} <= set(folding.placements):
            pair = bonded_pair(bond, folding.placements)
            yield Condition(pairs=(pair,), odd=True, kind="bond", names=pair, scores=(bond.name,))


def _choices(folding: Folding) -> Iterator[Condition]:
    for kind, pairs in (("choice", folding.choices), ("tuck", folding.tucks)):
        for pair in pairs:
            yield Condition(pairs=(pair,), odd=True, kind=kind, names=pair)


def _held(folding: Folding) -> Iterator[Condition]:
    """Nothing of another body lies between two faces where they are glued."""
    body = bodies(folding.bonds, folding.panels)
    rings = {name: move.ring(folding.panels[name].ring) for name, move in folding.placements.items()}
    for bond in folding.bonds:
        host, guest = bond.under.panel, bond.over.panel
        if bond.area is None or not {host, guest} <= set(rings):
            continue
        areas = [folding.placements[host].ring(area) for area in bond.glued]
        for name, ring in rings.items():
            if body[name] != body[host] and any(overlap(area, ring) for area in areas):
                yield Condition(
                    pairs=((name, host), (name, guest)), odd=False,
                    kind="held", names=(name, host, guest), scores=(bond.name,))


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Paper that runs on flat over a line: a panel, or two that a score which lies flat joins there."""

    left: str
    right: str
    square: Fraction
    """The square of how far it reaches over the line, on the side on which it reaches less."""


def _crossings(folding: Folding, laid: Overlay, least: Fraction) -> Iterator[Condition]:
    body = bodies(folding.bonds, folding.panels)
    by_panels: dict[frozenset[str], list[tuple[Hinge, Segment]]] = {}
    for hinge in folding.hinges:
        if set(hinge.panels) <= set(laid.placements):
            line = laid.placements[hinge.panels[0]].segment(hinge.segment)
            by_panels.setdefault(frozenset(hinge.panels), []).append((hinge, line))
    rings = {name: move.ring(folding.panels[name].ring) for name, move in laid.placements.items()
             if name in folding.panels}
    for edge in laid.whole.edges:
        names = {laid.owners[source][0] for source in edge.sources}
        here = [
            hinge for two, hinges in by_panels.items() if two <= names for hinge, line in hinges
            if on_segment(edge.segment.start, line) and on_segment(edge.segment.end, line)
        ]
        if not here:
            continue
        left, right = laid.under(edge.left), laid.under(edge.right)
        cut = {name for name in names if name in left and name in right}
        sheets = [_sheet(edge.segment, name, name, rings) for name in sorted((left & right) - cut)]
        flat = [hinge for hinge in here if laid.placements[hinge.panels[0]] == laid.placements[hinge.panels[1]]]
        for hinge in flat:
            a, b = hinge.panels if hinge.panels[0] in left else hinge.panels[::-1]
            if a in left and b in right:
                yield from _alike(edge.segment, hinge, (a, b), sheets, rings, least)
                sheets.append(_sheet(edge.segment, a, b, rings))
        folded = [hinge for hinge in here if hinge not in flat]
        for side, which in ((left, "left"), (right, "right")):
            turned = [hinge for hinge in folded if set(hinge.panels) <= side]
            for hinge in turned:
                a, b = hinge.panels
                for sheet in sheets:
                    name: str = getattr(sheet, which)
                    if sheet.square > least * least and body[name] not in (body[a], body[b]):
                        yield Condition(
                            pairs=((name, a), (name, b)), odd=False,
                            kind="across", names=(name, a, b), scores=(hinge.score,), square=sheet.square)
            for one, two in combinations(turned, 2):
                (a, b), (c, d) = one.panels, two.panels
                if not {a, b} & {c, d}:
                    yield Condition(
                        pairs=((c, a), (c, b), (d, a), (d, b)), odd=False,
                        kind="inside", names=(c, d, a, b), scores=(two.score, one.score))


def _alike(
    line: Segment, hinge: Hinge, ends: Pair, sheets: Sequence[_Sheet], rings: Mapping[str, Ring], least: Fraction,
) -> Iterator[Condition]:
    """A sheet lies over both panels of a score that lies flat, or under both."""
    own = _sheet(line, *ends, rings)
    for sheet in sheets:
        square = min(sheet.square, own.square)
        if square > least * least:
            yield Condition(
                pairs=((sheet.left, ends[0]), (sheet.right, ends[1])), odd=False,

                    kind="along", names=(sheet.left, *hinge.panels), scores=(hinge.score,), square=square)


def _sheet(line: Segment, left: str, right: str, rings: Mapping[str, Ring]) -> _Sheet:
    along = line.along
    on_left = max(along.cross(p - line.start) for p in rings[left])
    on_right = max(-along.cross(p - line.start) for p in rings[right])
    return _Sheet(left, right, max(min(on_left, on_right), Fraction(0)) ** 2 / along.square)
