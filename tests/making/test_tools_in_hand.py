"""Tools: which one does it, which blade is in, and points, ends and strips as hands find them."""

from fractions import Fraction

import pytest
from small_steps import made_points, make

from foldproof.making.table import Lie, Making
from foldproof.paper.face import Face
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point, Segment, Vector


def names(making: Making) -> list[str]:
    return [finding.name for finding in making.findings]


def scored(making: Making) -> list[Segment]:
    return [crease.segment for crease in making.end.pieces["base"].creases]


def test_a_trimmer_scores_once_its_scoring_blade_is_in() -> None:
    making = make("cut: [8, 6]\nblade: scoring\nlay: long\nscore: 4\nblade: cutting\n"
                  "fold: {score: spine, fold: valley}", tools="{trimmer: {}}")
    assert names(making) == []
    assert [done.tool for done in making.steps[0].done] == ["trimmer", "trimmer", None, "trimmer", "trimmer", None]
    assert making.end.blades == (("trimmer", "cutting"),)


@pytest.mark.parametrize(("actions", "found"), [
    pytest.param("cut: [8, 6]\nlay: long\nscore: 4", ["blade left in"], id="the cutting blade scores through"),
    pytest.param("blade: scoring\ncut: [8, 6]\nscore: 4", ["blade left in"], id="the scoring blade cuts nothing"),
    pytest.param("blade: cutting\ncut: [8, 6]\nblade: scoring\nscore: 4", ["blade that is in already"],
                 id="it is in already"),
    pytest.param("cut: {size: [8, 6], with: scoring board}\nscore: {at: 4, with: scoring board}",
                 ["a tool that cannot do it"], id="a board that cuts"),
    pytest.param("cut: [8, 6]\nscore: {at: 4, with: scoring board}", [], id="a tool that is named"),
])  # fmt: skip
def test_blades(actions: str, found: list[str]) -> None:
    making = make(actions + "\nfold: {score: spine, fold: valley}",
                  tools="{trimmer: {}, scoring board: {}}" if "board" in actions else "{trimmer: {}}")
    assert names(making) == found


@pytest.mark.parametrize(("action", "across"), [
    pytest.param("score: {at: 3}", 3, id="from the stop"),
    pytest.param("score: {at: 3, from: right}", 5, id="from the right end"),
])
def test_the_end_that_is_measured_from(action: str, across: int) -> None:
    making = make(f"cut: [8, 6]\n{action}")
    assert [line.start.x for line in scored(making)] == [across]
    dimension = making.steps[0].done[1].dimensions[0]
    assert abs(dimension.end.x - dimension.start.x) == 3


@pytest.mark.parametrize(("edge", "against", "right"), [
    pytest.param("long", "fence", (1, 0), id="it is there"),
    pytest.param("short", "fence", (0, 1), id="a quarter clockwise"),
    pytest.param("short", "stop", (1, 0), id="the short edge is at the stop"),
    pytest.param("long", "stop", (0, 1), id="the near edge comes to the stop"),
    pytest.param("right", "stop", (-1, 0), id="half round"),
    pytest.param("top", "stop", (0, -1), id="a quarter anticlockwise"),
])
def test_an_edge_against_fence_or_stop(edge: str, against: str, right: tuple[int, int]) -> None:
    making = make(f"cut: [8, 6]\nlay: {{edge: {edge}, against: {against}}}")
    lie = making.end.pieces["base"].lie
    assert lie == Lie(right=Vector(Fraction(right[0]), Fraction(right[1])), up=Face.FRONT)


@pytest.mark.parametrize(("cut", "box", "other"), [
    pytest.param("{strip: 1, edge: right, other: strip}", (8, 6), (1, 6), id="off the right edge"),
    pytest.param("{at: 1, keep: left, from: right, other: strip}", (8, 6), (1, 6), id="across, from the right end"),
    pytest.param("{strip: 1, edge: left, other: strip}", (8, 6), (1, 6), id="off the left edge"),
])
def test_a_strip_is_cut_off_and_has_a_use(cut: str, box: tuple[int, int], other: tuple[int, int]) -> None:
    more = ("layers:\n  strip: {paper: plain, size: [1, 6], upon: front front, at: {left: 0, top: 0}, "
            "adhesive: glue}\n")
    making = make(f"cut: [9, 6]\ncut: {cut}", more=more)
    for name, size in (("base", box), ("strip", other)):
        found = bounding_box(making.end.pieces[name].outline)
        assert [found.width, found.height] == list(size)
    dimension = making.steps[0].done[1].dimensions[0]
    assert abs(dimension.end.x - dimension.start.x) == 1


@pytest.mark.parametrize(("edge", "box"), [("top", (8, 5)), ("bottom", (8, 5)), ("left", (7, 6)), ("right", (7, 6))])
def test_trimming(edge: str, box: tuple[int, int]) -> None:
    found = bounding_box(make(f"cut: [8, 6]\ncut: {{strip: 1, edge: {edge}}}").end.pieces["base"].outline)
    assert [found.width, found.height] == list(box)


def test_a_strip_wider_than_the_piece() -> None:
    assert "off the work" in names(make("cut: [8, 6]\ncut: {strip: 6, edge: top}"))


@pytest.mark.parametrize(("mark", "at"), [
    pytest.param("{at: 2, edge: top, from: left, in: 1, name: dot}", (2, 5), id="in from the far edge"),
    pytest.param("{at: 2, edge: bottom, from: right, in: 1, name: dot}", (6, 1), id="in from the near edge"),
    pytest.param("{at: 2, edge: right, from: top, in: 1/2, name: dot}", (Fraction(15, 2), 4), id="in from the right"),
])
def test_a_mark_in_from_the_edge(mark: str, at: tuple[Fraction, Fraction]) -> None:
    [made] = make(f"cut: [8, 6]\nmark: {mark}").end.pieces["base"].marks
    assert made.at == Point(Fraction(at[0]), Fraction(at[1]))


SLANTED = "spine: {across: 4, fold: valley}\nslope: {from: bottom left, to: top right, fold: none}"


@pytest.mark.parametrize(("point", "at"), [
    pytest.param("top end of spine", (4, 6), id="an end of a score"),
    pytest.param("left end of slope", (0, 0), id="the left end of a slanted one"),
    pytest.param("middle of slope", (4, 3), id="the middle of a score"),
    pytest.param("crossing of spine and slope", (4, 3), id="a crossing"),
    pytest.param("top middle", (4, 6), id="the middle of an edge"),
])
def test_points_found_on_scores(point: str, at: tuple[int, int]) -> None:
    assert made_points("cut: [8, 6]\nscore: 4\nscore: {from: bottom left, to: top right}", point, SLANTED) == at


def test_the_centre_of_a_panel() -> None:
    assert made_points("cut: [8, 6]\nscore: 4", "centre of front", None) == (2, 3)


def test_ends_are_named_as_the_piece_lies() -> None:
    turned = "cut: [8, 6]\nscore: 4\nturn: half"
    assert made_points(turned, "top end of spine", None) == (4, 0)
    none = "the score has no left end: it runs the other way as it lies"
    assert made_points(turned, "left end of spine", None) == none


def test_a_score_that_is_not_there_yet_has_no_ends() -> None:
    assert made_points("cut: [8, 6]", "top end of spine", None) == "the spine has not been scored on the work yet"


def test_scores_that_do_not_cross() -> None:
    scores = "spine: {across: 4, fold: valley}\nnick: {from: [5, 0], to: [8, 6], fold: none}"
    done = "cut: [8, 6]\nscore: 4\nmark: {at: 5, edge: bottom, from: left, name: a}\nscore: {from: a, to: top right}"
    assert made_points(done, "crossing of spine and nick", scores) == "the spine and the nick do not cross"


def test_names_of_scores_in_points_are_checked_when_read() -> None:
    with pytest.raises(AssertionError, match="No score is named `spin`"):
        make("cut: [8, 6]\nscore: 4\nscore: {from: top end of spin, to: bottom left}")
