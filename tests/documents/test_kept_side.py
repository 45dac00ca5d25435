"""The side of a slanted cut that is said to be kept is the side on which the kept paper lies.

The parts are found here with Shapely, apart from the program's own cutting.
"""

from pathlib import Path

import pytest
from shapely import Point as Dot
from shapely import Polygon
from shapely.geometry import LineString
from shapely.ops import split

from foldproof.documents.kept_side import kept_side
from foldproof.documents.telling import hands
from foldproof.making.points import find_point
from foldproof.making.table import Done, Lie
from foldproof.making.work import work_with
from foldproof.paper.vector import Point
from foldproof.pipeline import prove
from foldproof.recipe.actions import CutBetween

RECIPES = Path(__file__).resolve().parents[2] / "recipes"


def seen(lie: Lie, p: Point) -> tuple[float, float]:
    """Right and away as the maker sees it."""
    return (float(lie.right.x * p.x + lie.right.y * p.y), float(lie.away.x * p.x + lie.away.y * p.y))


def shape(polygon: Polygon) -> set[tuple[float, float]]:
    """Corners seen from the lowest of each coordinate: a part is known again wherever its frame stands."""
    left, low = polygon.bounds[:2]
    return {(round(x - left, 6), round(y - low, 6)) for x, y in polygon.exterior.coords}


@pytest.mark.parametrize(("recipe", "count"), [("four-winds", 4), ("lee-shore", 3)])
def test_the_kept_paper_lies_on_the_side_that_is_said(recipe: str, count: int) -> None:
    proof = prove(RECIPES / f"{recipe}.yaml")
    assert proof.card is not None and proof.making is not None
    cuts = [(made, done) for made in proof.making.steps for done in made.every if isinstance(done.action, CutBetween)]
    assert len(cuts) == count
    for made, done in cuts:
        said = kept_side(proof.card, done)
        assert any(line.endswith(said) or f"{said};" in line for line in hands(proof.card, made))
        assert true_of(proof.card, done, said), (made.number, said)


def true_of(card: object, done: Done, said: str) -> bool:
    action, name = done.action, str(done.piece)
    assert isinstance(action, CutBetween)
    work = work_with(card, done.before, name)  # type: ignore[arg-type]
    start, end = (find_point(card, done.before, work, p) for p in (action.start, action.end))  # type: ignore[arg-type]
    assert isinstance(start, Point) and isinstance(end, Point)
    lie = work.lie
    (x0, y0), (x1, y1) = seen(lie, start), seen(lie, end)
    far = LineString([(x0 - 100 * (x1 - x0), y0 - 100 * (y1 - y0)), (x1 + 100 * (x1 - x0), y1 + 100 * (y1 - y0))])
    whole = Polygon([seen(lie, p) for p in done.before.pieces[name].outline])
    left = shape(Polygon([seen(lie, p) for p in done.after.pieces[name].outline]))
    kept = next(part for part in split(whole, far).geoms if shape(part) == left)
    middle: Dot = kept.centroid
    on_line = x0 + (middle.y - y0) * (x1 - x0) / (y1 - y0)
    return bool({"on the left of the cut": middle.x < on_line, "on the right of the cut": middle.x > on_line}[said])
