"""Windows, slits, notches and round corners that came out unlike the plan."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.folding.card import Card, CardPiece
from foldproof.making.folds import same_line
from foldproof.making.table import OnTable, StepMade
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_length
from foldproof.paper.polygon import (
    Where,
    anticlockwise,
    area,
    bounding_box,
    clip,
    edges,
    locate,
    without_straight_corners,
)
from foldproof.paper.subdivision import merge, subdivide
from foldproof.paper.vector import Point, Ring, Segment
from foldproof.recipe.actions import CutAway, RoundCorners, Scallop, SlitAt, SlitBetween


def canonical(ring: Ring) -> Ring:
    """The same outline, anticlockwise, without straight corners, from its least corner."""
    corners = without_straight_corners(anticlockwise(ring))
    first = corners.index(min(corners))
    return corners[first:] + corners[:first]


class _Made(NamedTuple):
    place: Place
    step: str


def compare_cuts(card: Card, piece: CardPiece, made: OnTable, steps: Sequence[StepMade]) -> Iterator[Finding]:
    """Every difference between the windows and slits of the plan and those that the steps cut."""
    unit = card.recipe.unit
    windows = {canonical(window.ring): window for window in piece.windows}
    holes = {canonical(hole) for hole in made.holes}
    cuts = [_Made(done.action.place, step.spec.id) for step in steps for done in step.every
            if isinstance(done.action, CutAway) and not done.action.opens and done.gone and done.piece == piece.name]
    yield from _paired(
        "window", piece, [(window.name, window.place, ring) for ring, window in windows.items() if ring not in holes],
        [ring for ring in holes if ring not in windows], cuts, lambda ring: _box_words(ring, unit), _ring_gap)
    wanted = [(slit.name, slit.place, part) for slit in piece.slits
              for part in clip(slit.segment, piece.outline, piece.holes) if part.start != part.end]
    cuts = [_Made(done.action.place, step.spec.id) for step in steps for done in step.every
            if isinstance(done.action, SlitAt | SlitBetween) and done.lines and done.piece == piece.name]
    yield from _paired(
        "slit", piece, [one for one in wanted if not any(same_line(one[2], line) for line in made.slits)],
        [line for line in made.slits if not any(same_line(one[2], line) for one in wanted)], cuts,
        lambda line: _line_words(line, unit), _line_gap)


def shaped(piece: CardPiece, steps: Sequence[StepMade]) -> bool:
    """Whether a step takes anything off the piece's outline."""
    return any(
        isinstance(done.action, CutAway | RoundCorners | Scallop) and done.gone and done.piece == piece.name
        for step in steps for done in step.every)


def compare_edges(card: Card, piece: CardPiece, made: OnTable, steps: Sequence[StepMade]) -> Iterator[Finding]:
    """Where the edge of a piece of the right size runs otherwise than the plan's: each place where they differ."""
    unit = card.recipe.unit
    whole = subdivide([*edges(piece.outline), *edges(made.outline)])

    def only(face: int) -> str | None:
        p = whole.faces[face].inside
        in_plan, in_made = (locate(p, ring) is Where.IN for ring in (piece.outline, made.outline))
        return None if in_plan is in_made else "plan" if in_plan else "made"

    parts = sorted(merge(whole, only), key=lambda part: -part[1].size)
    cuts = [_Made(done.action.place, step.spec.id) for step in steps for done in step.every
            if isinstance(done.action, CutAway | RoundCorners | Scallop) and done.piece == piece.name]
    by = cuts[-1] if cuts else None
    for kind, part in parts[:1]:
        what = "take off paper that the plan keeps" if kind == "plan" else "leave paper that the plan takes off"
        more = f" (and in {len(parts) - 1} more places)" if len(parts) > 1 else ""
        yield Finding(
            name="edge cut unlike the plan", severity=Severity.ERROR, place=by.place if by else piece.spec.place,
            step=by.step if by else None, message=f"The steps {what} of the {piece.name}: {_box_words(part.ring, unit)}"
            f"{more}.", mend="Check the size, the place and the corners of each notch, rounding and scallop, and how "
            "the piece lies when it is cut.",
            asides=(Aside(text=f"the plan of the {piece.name}", place=piece.spec.place),))


Thing = Ring | Segment


def _paired(
    sort: str, piece: CardPiece, missing: Sequence[tuple[str, Place, Thing]], spare: Sequence[Thing],
    cuts: Sequence[_Made], words: Callable[[Thing], str], gap: Callable[[Thing, Thing], Fraction],
) -> Iterator[Finding]:
    left = list(spare)
    told: set[str] = set()
    for name, place, thing in missing:
        if name in told:
            continue
        told.add(name)
        near = min(left, key=lambda one: gap(one, thing), default=None)
        if near is None:
            yield Finding(
                name=f"a {sort} that no step cuts", severity=Severity.ERROR, place=place,
                message=f"The plan has the {sort} {name} in the {piece.name} ({words(thing)}), but no step cuts it.",
                mend=f"Add the {sort} to a step, or check how the piece lies when it is cut.")
            continue
        left.remove(near)
        by = cuts[list(spare).index(near)] if len(cuts) == len(spare) else cuts[-1] if cuts else None
        yield Finding(
            name=f"{sort} cut elsewhere than the plan", severity=Severity.ERROR, place=by.place if by else place,
            step=by.step if by else None, message=f"The steps cut a {sort} in the {piece.name}, {words(near)}; the "
            f"plan's {name} is {words(thing)}.", mend="Check its size and distances, and every turn before this cut.",
            asides=(Aside(text=f"the plan of the {name}", place=place),))
    for thing in left:
        by = cuts[-1] if cuts else None
        yield Finding(
            name=f"a {sort} that the plan does not have", severity=Severity.ERROR,
            place=by.place if by else piece.spec.place, step=by.step if by else None,
            message=f"The steps cut a {sort} in the {piece.name}, {words(thing)}, where the plan has none.",
            mend="Take it out of the step, or add it to the plan.")


def _box_words(thing: Thing, unit: Unit) -> str:
    assert not isinstance(thing, Segment)
    box = bounding_box(thing)
    return (f"{write_length(box.width, unit)} × {with_unit(box.height, unit)}, {with_unit(box.left, unit)} from the "
            f"left and {with_unit(box.bottom, unit)} up")


def _line_words(thing: Thing, unit: Unit) -> str:
    assert isinstance(thing, Segment)
    a, b = (f"({write_length(p.x, unit)}, {write_length(p.y, unit)})" for p in sorted((thing.start, thing.end)))
    return f"from {a} to {b}"


def _ring_gap(one: Thing, other: Thing) -> Fraction:
    assert not isinstance(one, Segment) and not isinstance(other, Segment)
    a, b = bounding_box(one), bounding_box(other)
    return (a.centre - b.centre).square + abs(area(one) - area(other))


def _line_gap(one: Thing, other: Thing) -> Fraction:
    assert isinstance(one, Segment) and isinstance(other, Segment)
    (a, b), (c, d) = sorted((one.start, one.end)), sorted((other.start, other.end))

    def square(p: Point, q: Point) -> Fraction:
        return (p - q).square

    return square(a, c) + square(b, d)
