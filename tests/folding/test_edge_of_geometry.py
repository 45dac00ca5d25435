"""Geometry at the edge: nearly parallel, tiny, coincident, through corners, many. Right or refused, never wrong in
silence: sizes are held against shapely's polygonizer, counts and sums against what is reckoned here.
"""

from collections import Counter
from fractions import Fraction
from itertools import combinations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plans import names_of, recipe_of
from shapely.ops import polygonize, unary_union

from foldproof.folding import build
from foldproof.folding.panels import divide
from foldproof.paper.polygon import area

SIDE = 4
FINE = Fraction(1, 10**6)
Spot = tuple[Fraction, Fraction]
Chord = tuple[Spot, Spot]


def _divided(scores: str, shape: str = "size: [4, 4]") -> tuple[list[Fraction], list[str]]:
    """The exact sizes of the panels, sorted, and the names of what is found, but that panels should be named."""
    recipe = recipe_of(f"pieces:\n  base:\n    paper: card\n    {shape}\n    scores: {{{scores}}}\n")
    found, findings = divide(recipe.pieces[0], recipe.unit)
    names = [finding.name for finding in findings if finding.name != "panel without a name"]
    assert found is not None
    return sorted(area(panel.ring) + sum(area(hole) for hole in panel.holes) for panel in found.panels), names


def _written(chords: list[Chord]) -> str:
    return ", ".join(
        f"s{n}: {{from: [{a[0]}, {a[1]}], to: [{b[0]}, {b[1]}], fold: valley}}" for n, (a, b) in enumerate(chords))


def _crossing(one: Chord, other: Chord) -> Spot | None:
    """Where the lines of two chords cross inside the sheet, by Cramer's rule."""
    (x1, y1), (x2, y2) = one
    (x3, y3), (x4, y4) = other
    under = (x1 - x2) * (y3 - y4) - (y1 - y2) * (x3 - x4)
    if not under:
        return None
    first, second = x1 * y2 - y1 * x2, x3 * y4 - y3 * x4
    x = (first * (x3 - x4) - (x1 - x2) * second) / under
    y = (first * (y3 - y4) - (y1 - y2) * second) / under
    return (x, y) if 0 < x < SIDE and 0 < y < SIDE else None


def _reckoned(chords: list[Chord]) -> int:
    """Chords that differ divide a convex sheet into 1 + chords + (chords through it - 1) for each crossing inside."""
    through: dict[Spot, set[int]] = {}
    for (a, one), (b, other) in combinations(enumerate(chords), 2):
        if (spot := _crossing(one, other)) is not None:
            through.setdefault(spot, set()).update((a, b))
    return 1 + len(chords) + sum(len(some) - 1 for some in through.values())


ALONG = st.one_of(st.integers(1, 3).map(Fraction), st.sampled_from(
    [2 + FINE, 2 - FINE, FINE, SIDE - FINE, Fraction(1, 64), Fraction(1, 3), Fraction(16, 7)]))
CHORDS = st.builds(
    lambda a, b, way: {
        "up": ((a, Fraction(0)), (b, Fraction(SIDE))), "across": ((Fraction(0), a), (Fraction(SIDE), b)),
        "corner": ((a, Fraction(0)), (Fraction(0), b)), "diagonal": ((Fraction(0), Fraction(0)), (Fraction(SIDE), b)),
    }[way], ALONG, ALONG, st.sampled_from(["up", "up", "across", "corner", "diagonal"]))


@settings(max_examples=60, deadline=None)
@given(chords=st.lists(CHORDS, min_size=1, max_size=6, unique=True))
def test_scores_from_edge_to_edge(chords: list[Chord]) -> None:
    """However nearly parallel they are, and however small the panels: FINE is 1/1000 of the width of a hair."""
    sizes, names = _divided(_written(chords))
    assert names == []
    assert sum(sizes) == SIDE * SIDE
    assert len(sizes) == _reckoned(chords)
    lines = [shapely.LineString([(float(x), float(y)) for x, y in chord]) for chord in chords]
    theirs = [part.area for part in polygonize(unary_union([*lines, shapely.box(0, 0, SIDE, SIDE).exterior]))]
    large = Fraction(1, 1000)  # below that, floats may join or lose what lies between their lattice points
    ours = [float(one) for one in sizes if one > large]
    assert ours == pytest.approx(sorted(one for one in theirs if one > large), abs=1e-5)


@pytest.mark.parametrize(("scores", "sizes"), [
    pytest.param("s: {across: 1, fold: valley}, t: {from: [1.000001, 0], to: [1, 4], fold: valley}",
                 [2 * FINE, 4, 12 - 2 * FINE], id="meeting on the edge"),
    pytest.param("s: {across: 1, fold: valley}, t: {from: [1.000001, 0], to: [0.999999, 4], fold: valley}",
                 [FINE, FINE, 4 - FINE, 12 - FINE], id="crossing half-way"),
    pytest.param("s: {across: 1, fold: valley}, t: {across: 1.000001, fold: valley}",
                 [4 * FINE, 4, 12 - 4 * FINE], id="parallel, hardly apart"),
    pytest.param("s: {from: [0, 1/1000000], to: [1/1000000, 0], fold: valley}", [FINE**2 / 2, 16 - FINE**2 / 2],
                 id="a corner too small to see"),
    pytest.param("s: {from: bottom left, to: top right, fold: valley}", [8, 8], id="through two corners"),
    pytest.param("s: {from: bottom left, to: top right, fold: valley}, u: {across: 2, fold: valley}, "
                 "t: {from: bottom right, to: top left, fold: valley}, v: {up: 2, fold: valley}", [2] * 8,
                 id="four through one spot"),
    pytest.param("s: {from: bottom left, to: [4, 0.000001], fold: valley}", [2 * FINE, 16 - 2 * FINE],
                 id="nearly along the edge"),
])
def test_sizes_at_the_edge_are_exact(scores: str, sizes: list[Fraction | int]) -> None:
    assert _divided(scores) == (sorted(map(Fraction, sizes)), [])


def test_a_score_through_the_corner_of_a_notch() -> None:
    """The outline turns inward at [2, 1]; the score from the left edge through that corner goes on to the right one."""
    shape = "outline: [[0, 0], [1, 0], [2, 1], [3, 0], [4, 0], [4, 4], [0, 4]]"
    half = Fraction(3, 2)
    assert _divided("s: {from: [0, 1], to: [4, 1], fold: valley}", shape) == ([half, half, Fraction(12)], [])


@pytest.mark.parametrize(("scores", "name"), [
    pytest.param("s: {across: 1, fold: valley}, t: {across: 1, fold: valley}", "two scores on one line",
                 id="the same twice"),
    pytest.param("s: {across: 1, fold: valley}, t: {from: [1, 1], to: [1, 3], fold: mountain}",
                 "two scores on one line", id="one on a part of another"),
    pytest.param("s: {across: 4, fold: valley}", "score along an edge", id="on the edge"),
    pytest.param("s: {from: [0, 1], to: [0, 3], fold: valley}", "score along an edge", id="on a part of the edge"),
    pytest.param("s: {from: [2, 0], to: [2, 3.999999], fold: valley}", "score ends inside a panel", id="hardly short"),
    pytest.param("s: {from: [2, 0], to: [2, 4.000001], fold: valley}", "score outside its piece", id="hardly too long"),
])
def test_what_cannot_be_is_refused(scores: str, name: str) -> None:
    assert name in _divided(scores)[1]


def test_two_hundred_panels() -> None:
    parallel = ", ".join(f"s{n}: {{across: {n}/50, fold: valley}}" for n in range(1, 200))
    sizes, names = _divided(parallel)
    assert (Counter(sizes), names) == (Counter({Fraction(4, 50): 200}), [])
    grid = [f"a{n}: {{across: {n}/4, fold: valley}}" for n in range(1, 14)]
    grid += [f"b{n}: {{up: {n}/4, fold: valley}}" for n in range(1, 14)]
    sizes, names = _divided(", ".join(grid))
    rest = SIDE - Fraction(13, 4)
    assert Counter(sizes) == Counter({Fraction(1, 16): 169, rest / 4: 26, rest * rest: 1})
    assert names == []


@pytest.mark.parametrize("bound", [
    pytest.param({"MOST_FOLDED": 50}, id="folded"), pytest.param({"MOST_STACKED": 79}, id="folded and stacked")])
@pytest.mark.parametrize(("poses", "names"), [(3, []), (4, ["too many poses"])])
def test_the_work_of_folding_is_bounded(
    bound: dict[str, int], poses: int, names: list[str], monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Four panels that fold, squared, are 16; in three poses 48. With the mat that is glued on they are five: 75."""
    for name, most in bound.items():
        monkeypatch.setattr(build, name, most)
    more = ", ".join(f"pose {n}: {{folds: {{}}}}" for n in range(1, poses))
    found = names_of(f"""
pieces:
  base: {{paper: card, size: [4, 4], scores: {{a: {{across: 1, fold: valley}}, b: {{across: 2, fold: valley}},
    c: {{across: 3, fold: valley}}}}, panels: {{one: left of a, two: between a and b, three: between b and c,
    four: right of c}}}}
layers:
  mat: {{paper: card, size: [1/2, 1/2], upon: one front, at: {{left: 1/4, bottom: 1/4}}}}
poses: {{closed: {{folds: {{}}}}, {more}}}
""")
    assert [name for name in found if name == "too many poses"] == names
