"""The drawings of steps: true to scale, seen as the work lies, legible, and told in words with the same numbers."""

import re
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from drawn import LARGE_PRINT, NARROW, RECIPES, SMALL, STYLES, demo, dimensions, drawings, made_of, scenes, step_of
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.drawing.frames import frames_of, looked_at
from foldproof.drawing.framing import draw_frame
from foldproof.drawing.key import kinds_in
from foldproof.drawing.legible import faults
from foldproof.drawing.nearest import away
from foldproof.drawing.picture import picture_of
from foldproof.drawing.plane import area_of, box_inside, box_round, length, minus
from foldproof.drawing.record import PLAIN, DrawingStyle
from foldproof.drawing.scene import Arrow, Hatch, HeadKind, Kind, Label, Line, Scene
from foldproof.drawing.steps import draw_step, magnified, scale_of, scale_words, step_scene
from foldproof.drawing.words import caption
from foldproof.folding.card import Card
from foldproof.measures.writing import with_unit

SPINE = """
pieces:
  base:
    paper: plain
    size: [8, 5]
    scores:
      spine: {{across: {at}, fold: {fold}}}
    panels:
      rear: left of spine
      cover: right of spine
layers:
  mat: {{paper: waves, size: [3, 4], upon: cover front, at: {{left: 1/2, bottom: 1/4}}, adhesive: glue}}
poses:
  closed: {{still: rear, folds: {{spine: {angle}}}}}
supplies:
  glue: {{kind: wet glue}}
steps:
  - title: Cut
    piece: base
    do:
      - cut: [8, 5]
      - {{cut: [3, 4], piece: mat}}
    text: Cut.
  - title: Do
    piece: base
    do:
{actions}
    text: Do it.
"""


def scene_of(actions: str, at: str = "3", fold: str = "valley") -> Scene:
    lines = "".join(f"      - {line.strip()}\n" for line in actions.strip().splitlines())
    angle = 180 if fold == "valley" else -180
    card, made = step_of(SPINE.format(at=at, fold=fold, angle=angle, actions=lines), "5", "5")
    scene = step_scene(card, made)
    assert scene is not None
    return scene


def lines_of(scene: Scene, kind: Kind) -> list[Line]:
    return [item for item in scene.items if isinstance(item, Line) and item.kind is kind]


def words_of(scene: Scene) -> list[str]:
    return [item.text for item in scene.items if isinstance(item, Label)]


def value(text: str) -> Fraction:
    """A number as it is written on a drawing, without its unit."""
    return sum((Fraction(part) for part in text.removeprefix("about ").split()[:-1]), Fraction(0))


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
@pytest.mark.parametrize("style", STYLES, ids=["regular", "large print", "narrow", "small"])
def test_every_step_of_every_demo_recipe_can_be_read(path: Path, style: DrawingStyle) -> None:
    found = {made.number: told for made, scene in scenes(path, style) if (told := faults(scene, style))}
    assert found == {}


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
@pytest.mark.parametrize("style", [PLAIN, NARROW, SMALL], ids=["regular", "narrow", "small"])
def test_no_drawing_is_wider_than_the_page_allows(path: Path, style: DrawingStyle) -> None:
    for _, scene in scenes(path, style):
        assert scene.width <= style.width_mm
        assert scene.height <= 220.0 or style is NARROW


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_dimensions_are_true_to_scale(path: Path) -> None:
    card, _ = demo(path)
    count = 0
    for _, scene in scenes(path):
        for dimension in dimensions(scene):
            drawn = length(minus(*dimension.row)) / scale_of(card)
            times = round(drawn / float(value(dimension.label.text)))
            # a small piece may be drawn a whole number of times larger, and says so
            assert drawn == pytest.approx(times * float(value(dimension.label.text)), abs=1e-6)
            assert times == 1 or any(f"drawn {times}" in words for words in words_of(scene))
            count += 1
    assert count >= 10


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_the_words_tell_every_number_of_the_drawing(path: Path) -> None:
    for scene, drawing in drawings(path):
        for dimension in dimensions(scene):
            number = dimension.label.text.rsplit(" ", 1)[0]
            assert re.search(rf"(?<![\d/]){re.escape(number)}(?![\d/])", drawing.alt)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_drawings_are_the_same_bytes_every_time_and_have_names_of_their_own(path: Path) -> None:
    card, _ = demo(path)
    names = [drawing.name for _, drawing in drawings(path)]
    assert len(set(names)) == len(names)
    made, _ = scenes(path)[2]
    assert draw_step(card, made) == drawings(path)[2][1]


@pytest.mark.parametrize(("size", "unit", "said"), [
    pytest.param(("8", "5"), "inch", "1:4", id="8 in within 60 mm"),
    pytest.param(("4 1/2", "4"), "inch", "1:2", id="4 1/2 in within 60 mm"),
    pytest.param(("5", "4"), "inch", "1:2.5", id="5 in"),
    pytest.param(("150", "100"), "mm", "1:2.5", id="150 mm are 60 mm"),
    pytest.param(("151", "100"), "mm", "1:3", id="a little more"),
    pytest.param(("40", "30"), "mm", "1:1", id="nothing beyond life size"),
])
def test_the_scale_can_be_said_and_is_the_scale_that_is_drawn(size: tuple[str, str], unit: str, said: str) -> None:
    text = f"""
pieces:
  base: {{paper: plain, size: [{size[0]}, {size[1]}]}}
poses:
  closed: {{}}
steps:
  - title: Cut
    piece: base
    do:
      - cut: [{size[0]}, {size[1]}]
    text: Cut.
"""
    card, made = step_of(text, *size, unit)
    scene = step_scene(card, made)
    assert scene is not None and scale_words(card) == said
    longest = max(length(minus(*dimension.row)) for dimension in dimensions(scene))
    life = float(max(value(dimension.label.text) for dimension in dimensions(scene)))
    assert longest * float(said.removeprefix("1:")) == pytest.approx(life * (25.4 if unit == "inch" else 1))


def test_a_score_is_drawn_at_its_distance_from_the_left_end() -> None:
    scene = scene_of("lay: {edge: long}\nscore: 3")
    (score,) = lines_of(scene, Kind.VALLEY)
    (guide,) = lines_of(scene, Kind.GUIDE)
    left = min(p[0] for p in guide.points)
    width = max(p[0] for p in guide.points) - left
    assert (score.points[0][0] - left) / width == pytest.approx(3 / 8)
    assert {dimension.label.text for dimension in dimensions(scene)} == {"3 in"}
    assert "fence" in words_of(scene) and "stop" in words_of(scene)


def test_seen_from_the_back_a_valley_is_a_mountain_and_left_is_right() -> None:
    scene = scene_of("turn over: book page\nlay: {edge: long}\nscore: 5")
    (score,) = lines_of(scene, Kind.MOUNTAIN)
    (guide,) = lines_of(scene, Kind.GUIDE)
    left = min(p[0] for p in guide.points)
    assert (score.points[0][0] - left) / (max(p[0] for p in guide.points) - left) == pytest.approx(5 / 8)
    names = {item.text: item.at[0] for item in scene.items if isinstance(item, Label)}
    # the rear is the narrow panel at the left of the front, so it is at the right of the back
    assert names["rear"] > names["cover"]
    assert any("back up" in words for words in words_of(scene))


@pytest.mark.parametrize(("fold", "head"), [
    pytest.param("valley", HeadKind.SOLID, id="valley"), pytest.param("mountain", HeadKind.HOLLOW_HALF, id="mountain"),
])
def test_the_arrow_of_a_fold_tells_which_way(fold: str, head: HeadKind) -> None:
    scene = scene_of(f"score: 3\nfold: {{score: spine, fold: {fold}}}", fold=fold)
    folds = [item for item in scene.items if isinstance(item, Arrow) and len(item.points) > 4]
    assert [arrow.head for arrow in folds] == [head]
    assert f"{fold} fold" in words_of(scene)


@pytest.mark.parametrize(("border", "size", "dimensioned"), [
    pytest.param("1/8", "[7 3/4, 4 3/4]", 0, id="narrow: a close-up"),
    pytest.param("3/8", "[7 1/4, 4 1/4]", 2, id="wide: two lengths"),
])
def test_a_narrow_border_has_a_close_up_instead_of_lengths(border: str, size: str, dimensioned: int) -> None:
    text = f"""
pieces:
  base: {{paper: plain, size: [8, 5]}}
layers:
  mat: {{paper: plain, size: {size}, upon: base front, at: {{centred: both}}}}
poses:
  closed: {{}}
steps:
  - title: Do
    piece: base
    do:
      - cut: [8, 5]
      - {{cut: {size}, piece: mat}}
    text: Cut.
  - title: Put
    piece: base
    do:
      - attach: {{what: mat, border: {border}}}
    text: Put it on.
"""
    card, made = step_of(text)
    scene = step_scene(card, made)
    assert scene is not None and faults(scene) == []
    assert len(dimensions(scene)) == dimensioned
    assert (f"{border} in" in words_of(scene)) is (dimensioned == 0)
    assert any(f"border of {border} in" in words for words in [" ".join(words_of(scene))])


@pytest.mark.parametrize(("fold", "rises"), [
    pytest.param("valley", 1, id="up"), pytest.param("mountain", -1, id="down"),
])
def test_a_fold_that_stands_is_shown_from_its_edge_too(fold: str, rises: int) -> None:
    scene = scene_of(f"score: 3\nfold: {{score: spine, fold: {fold}, angle: 60}}", fold=fold)
    assert "60°" in words_of(scene) and "seen from the near edge" in words_of(scene)
    still, standing = lines_of(scene, Kind.STRONG)
    assert still.points[0][1] == pytest.approx(still.points[1][1]) and still.points[1] == standing.points[0]
    # the rear, left of the spine, lies still; the cover has turned 60 degrees out of the table
    x, y = minus(standing.points[1], standing.points[0])
    assert still.points[0][0] < still.points[1][0] and x > 0 and y * rises > 0
    assert abs(y) / x == pytest.approx(3 ** 0.5)
    assert faults(scene) == []


@pytest.mark.parametrize(("width", "told"), [
    pytest.param("3", "pattern ↑", id="room for the word"), pytest.param("1", "↑", id="narrow: the arrow alone"),
])
def test_the_way_of_a_pattern_is_shown_and_explained(width: str, told: str) -> None:
    text = SPINE.replace("size: [3, 4]", f"size: [{width}, 4]").replace("cut: [3, 4]", f"cut: [{width}, 4]")
    card, made = step_of(text.format(
        at="3", fold="valley", angle=180, actions="      - attach: {what: mat, left: 1/2, bottom: 1/4, with: glue}\n"))
    scene = step_scene(card, made)
    assert scene is not None and told in words_of(scene) and "pattern" in kinds_in(scene)


def test_a_fold_that_lies_is_not_shown_from_its_edge() -> None:
    scene = scene_of("score: 3\nfold: {score: spine, fold: valley}")
    assert not any("seen from" in words for words in words_of(scene))


def test_the_arrow_runs_from_what_moves_to_where_it_comes_to_lie() -> None:
    scene = scene_of("score: 3\nfold: {score: spine, fold: valley}")
    (arrow,) = [item for item in scene.items if isinstance(item, Arrow) and len(item.points) > 4]
    (score,) = [line for line in lines_of(scene, Kind.VALLEY) if line.points[0][0] > scene.width / 3]
    hinge = score.points[0][0]
    start, end = arrow.points[0][0], arrow.points[-1][0]
    # the cover, right of the spine, folds over: mirrored in the score
    assert start > hinge > end
    assert start - hinge == pytest.approx(hinge - end)


def test_adhesive_is_hatched_only_where_the_surfaces_touch() -> None:
    scene = scene_of("attach: {what: mat, left: 1/2, bottom: 1/4, with: glue}")
    (hatch,) = [item for item in scene.items if isinstance(item, Hatch)]
    xs = [p[0] for p in hatch.rings[0]]
    ys = [p[1] for p in hatch.rings[0]]
    scale = 25.4 / 4  # 8 in within 60 mm: one to four
    assert (max(xs) - min(xs)) / scale == pytest.approx(3)
    assert (max(ys) - min(ys)) / scale == pytest.approx(4)
    assert {dimension.label.text for dimension in dimensions(scene)} == {"1/2 in", "1/4 in"}


def test_turns_are_named_and_run_the_right_way() -> None:
    def sense(words: str) -> float:
        scene = scene_of(f"score: 3\nturn: {words}")
        toward = {"quarter clockwise": "right", "quarter anticlockwise": "left"}[words]
        assert any(toward in label for label in words_of(scene))
        arrows = [item for item in scene.items if isinstance(item, Arrow) and len(item.points) > 20]
        assert len(arrows) == 2
        p, q, r = arrows[0].points[0], arrows[0].points[8], arrows[0].points[16]
        return (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0])

    assert sense("quarter clockwise") < 0 < sense("quarter anticlockwise")


def test_a_cut_says_what_is_kept() -> None:
    text = """
pieces:
  base: {paper: plain, size: [5, 4]}
poses:
  closed: {}
steps:
  - title: Cut
    piece: base
    do:
      - cut: [8, 4]
      - lay: {edge: long}
      - cut: {at: 3, keep: right}
    text: Cut.
"""
    card, made = step_of(text, "5", "4")
    scene = step_scene(card, made)
    assert scene is not None
    labels = {item.text: item.at for item in scene.items if isinstance(item, Label)}
    cut = min(lines_of(scene, Kind.CUT), key=lambda line: len(line.points))
    assert labels["keep"][0] > cut.points[0][0] > labels["offcut"][0]
    assert faults(scene) == []


def test_a_step_that_changes_nothing_to_be_seen_has_no_drawing() -> None:
    card, made = step_of(SPINE.format(at=3, fold="valley", angle=180, actions="      - note: burnish"), "5", "5")
    assert draw_step(card, made) is None


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_picture_keeps_lengths_and_shows_the_face_that_is_up(path: Path) -> None:
    card, making = demo(path)
    for made in making.steps:
        for frame in frames_of(card, made):
            picture = picture_of(card, frame.table, frame.piece, 10.0)
            for pane in picture.panes:
                a, b = pane.part.ring[0], pane.part.ring[1]
                p, q = (picture.looking.at(pane.part.fit.point(corner)) for corner in (a, b))
                assert length(minus(q, p)) == pytest.approx(10.0 * float((b - a).square) ** 0.5)


@st.composite
def scored_pieces(draw: st.DrawFn) -> tuple[Card, object, DrawingStyle]:
    """A piece with up to four scores across and what the table does to it, in quarter inches."""
    unit = draw(st.sampled_from(["inch", "mm"]))
    grain = Fraction(1, 4) if unit == "inch" else Fraction(7)
    width, height = draw(st.integers(8, 44)), draw(st.integers(8, 44))
    at = sorted(draw(st.sets(st.integers(1, width - 1), min_size=1, max_size=4)))
    folds = [draw(st.sampled_from(["valley", "mountain", "none"])) for _ in at]

    def said(quarters: int) -> str:
        return with_unit(quarters * grain, card_unit)

    from foldproof.measures.quantity import Unit

    card_unit = Unit(unit)
    scores = "".join(f"      score {x}: {{across: {said(x)}, fold: {f}}}\n" for x, f in zip(at, folds, strict=True))
    edges = [0, *(x for x, fold in zip(at, folds, strict=True) if fold != "none"), width]
    panels = "".join(
        f"      panel {a}: [{said(a)} + {said(b - a)} / 2, {said(height)} / 2]\n" for a, b in pairwise(edges))
    flipped = draw(st.booleans())
    steps = "      - turn over: book page\n" if flipped else ""
    for x in at:
        steps += f"      - score: {said(width - x if flipped else x)}\n"
    text = (
        f"pieces:\n  base:\n    paper: plain\n    size: [{said(width)}, {said(height)}]\n    scores:\n{scores}"
        f"    panels:\n{panels}poses:\n  closed: {{}}\nsteps:\n  - title: Cut\n    piece: base\n    do:\n"
        f"      - cut: [{said(width)}, {said(height)}]\n    text: Cut.\n"
        f"  - title: Score\n    piece: base\n    do:\n{steps}    text: Score.\n"
    )
    card, making = made_of(text, said(width), said(height), unit)
    return card, making.steps[-1], draw(st.sampled_from([PLAIN, LARGE_PRINT]))


@settings(max_examples=40, deadline=None)
@given(case=scored_pieces())
def test_any_scored_piece_can_be_read(case: tuple[Card, object, DrawingStyle]) -> None:
    card, made, style = case
    scene = step_scene(card, made, style)  # type: ignore[arg-type]
    assert scene is not None
    assert faults(scene, style) == []
    for dimension in dimensions(scene):
        drawn = length(minus(*dimension.row)) / scale_of(card, style)
        assert drawn == pytest.approx(float(value(dimension.label.text)), abs=1e-6)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
@pytest.mark.parametrize("style", (PLAIN, SMALL), ids=("plain", "small"))
def test_every_number_of_a_caption_has_its_own_arrow_beside_it(path: Path, style: DrawingStyle) -> None:
    card, making = demo(path)
    for frame in (frame for made in making.steps for frame in frames_of(card, made)):
        scale = scale_of(card, style) * magnified(card, frame, style)
        items, notes = draw_frame(card, frame, scale, style)
        told = sorted(number for note in notes if "fold" in note and (head := re.match(r"[\d, and]+:", note))
                      for number in re.findall(r"\d+", head[0]))
        numbers = {item.text: item.box for item in items if isinstance(item, Label) and item.text.isdigit()}
        assert sorted(numbers) == told
        arrows = [item for item in items if isinstance(item, Arrow)]
        nearest = [min(arrows, key=lambda one: min(away(box, p, q) for p, q in pairwise(one.points)))
                   for box in numbers.values()]
        assert len({arrow.points for arrow in nearest}) == len(told), f"{path.stem}: {notes}"


def test_narrow_panels_that_fold_in_one_picture_are_drawn_larger() -> None:
    """Two folds of 1 in on 8 in: at 30 mm for the piece a panel is 3.75 mm, at twice that 7.5 mm, the most allowed."""
    text = SPINE.replace("spine: {{across: {at}, fold: {fold}}}",
                         "west: {{across: 1, fold: valley}}\n      east: {{across: 7, fold: valley}}")
    text = text.replace("rear: left of spine\n      cover: right of spine",
                        "rear: left of west\n      cover: between west and east\n      end: right of east")
    text = text.replace("still: rear, folds: {{spine: {angle}}}", "still: cover, folds: {{west: 180}}")
    several = """
      - {fold: {score: west, fold: valley}}
      - {unfold: west}
      - {fold: {score: east, fold: valley}}
      - {unfold: east}"""
    style = DrawingStyle(largest_mm=30.0)

    def times(actions: str) -> int:
        card, made = step_of(text.format(actions=actions), "5", "5")
        (frame, *_) = frames_of(card, made)
        return magnified(card, frame, style)

    assert times(several) == 2
    assert times("\n".join(several.splitlines()[:3])) == 1


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_piece_that_lies_whole_is_drawn_once(path: Path) -> None:
    """Fixed at two places it was met twice, and the upper hid the lines of the lower."""
    card, making = demo(path)
    for frame in (frame for made in making.steps for frame in frames_of(card, made)):
        parts = [pane.part for pane in picture_of(card, frame.table, frame.piece, 1.0).panes]
        assert all(part not in parts[:i] for i, part in enumerate(parts))


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_no_caption_is_only_a_letter(path: Path) -> None:
    card, making = demo(path)
    for frames in (frames_of(card, made) for made in making.steps):
        for i, frame in enumerate(frames):
            _, notes = draw_frame(card, frame, scale_of(card), PLAIN)
            assert caption(card, frame, notes, frames[i - 1] if i else None)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_the_name_of_what_is_put_on_stands_on_no_other_piece_put_on(path: Path) -> None:
    card, making = demo(path)
    for frame in (frame for made in making.steps for frame in frames_of(card, made)):
        scale = scale_of(card, SMALL) * magnified(card, frame, SMALL)
        picture = picture_of(card, frame.table, frame.piece, scale, looked_at(card, frame))
        items, _ = draw_frame(card, frame, scale, SMALL)
        names = {item.text.replace("\n", " "): item.box for item in items if isinstance(item, Label) and item.bold}
        for bond in card.bonds:
            if not any(getattr(done.action, "bond", "") == bond.name for done in frame.done):
                continue
            host, guest = picture.top_pane(bond.under.panel), picture.top_pane(bond.over.panel)
            assert host is not None and guest is not None
            own = names[guest.part.piece]
            others = [pane for pane in picture.panes[picture.panes.index(host) + 1:] if pane is not guest]
            assert box_inside(own, guest.ring) or not any(box_round(pane.ring).meets(own) for pane in others)


def test_what_lies_on_other_paper_keeps_its_edge_to_itself() -> None:
    scene = scene_of("attach: {what: mat, left: 1/2, bottom: 1/4, with: glue}")
    edges = lines_of(scene, Kind.STRONG)
    assert len(edges) == 4 and all(line.within for line in edges)
    corners = [line.points[0] for line in edges]
    assert area_of(corners) > 0, "the paper lies to the left of its edges"
    assert not any(line.within for line in lines_of(scene, Kind.EDGE))
