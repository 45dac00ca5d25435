"""What a sound recipe comes to: every record with its values and places."""

from fractions import Fraction
from pathlib import Path

import pytest
from small_recipe import SOUND, spoilt

from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.paper.face import Face, Fold
from foldproof.recipe.reader import read_file, read_text
from foldproof.recipe.records import (
    Across,
    Between,
    Bought,
    Circle,
    Outline,
    PointAt,
    PointNamed,
    Recipe,
    Rectangle,
    Triangle,
    Turned,
    Up,
)

RECIPES = Path(__file__).parents[2] / "recipes"


def read(text: str) -> Recipe:
    """The recipe of a text that must be sound."""
    reading = read_text(text, "cards/small.yaml")
    assert reading.findings == ()
    assert reading.recipe is not None and reading.whole
    return reading.recipe


def value(quantity: Quantity | None) -> Fraction | int:
    assert quantity is not None
    return quantity.value


@pytest.mark.parametrize("path", sorted(RECIPES.glob("*.yaml")), ids=lambda path: path.stem)
def test_the_demo_recipes_read_clean(path: Path) -> None:
    reading = read_file(path)
    assert reading.findings == ()
    assert reading.whole


def test_tide_gate() -> None:
    recipe = read_file(RECIPES / "tide-gate.yaml").recipe
    assert recipe is not None
    assert (recipe.name, recipe.title.value, recipe.unit, recipe.language) == (
        "tide-gate",
        "Tide gate",
        Unit.INCH,
        "en-US",
    )
    assert {measure.name.value: measure.value.value for measure in recipe.measures} == {
        "width": Fraction(17, 4),
        "height": Fraction(11, 2),
        "border": Fraction(1, 8),
        "door": Fraction(17, 8),
        "band width": Fraction(7, 2),
        "band height": Fraction(7, 4),
    }
    (base,) = recipe.pieces
    assert isinstance(base.shape, Rectangle)
    assert (value(base.shape.width), value(base.shape.height)) == (Fraction(17, 2), Fraction(11, 2))
    lines = [score.line for score in base.scores]
    assert [value(line.at) for line in lines if isinstance(line, Across)] == [Fraction(17, 8), Fraction(51, 8)]
    middle = base.panels[1]
    assert isinstance(middle.where, tuple)
    assert [(side.relation, side.score.value) for side in middle.where] == [
        ("right of", "left hinge"),
        ("left of", "right hinge"),
    ]
    band = next(layer for layer in recipe.layers if layer.name.value == "band")
    assert band.at.centred_on is not None and band.at.centred_on.value == "card"
    assert [name.value for name in band.overhangs] == ["right door", "right mat"]


def test_the_small_recipe() -> None:
    recipe = read(SOUND)
    slate, waves = recipe.papers
    assert slate.weight is not None and slate.weight.value == "80 lb cover"
    assert slate.sheet is not None and [value(side) for side in slate.sheet] == [Fraction(17, 2), 11]
    assert (slate.grain, slate.printed, slate.pattern, slate.tone) == ("height", "plain", "none", None)
    assert (waves.printed, waves.pattern) == ("one face", "upright")
    assert waves.tone is not None and waves.tone.value == "#7fb3c8"
    base, flap = recipe.pieces
    (notch,) = base.points
    assert (notch.name.value, value(notch.at.x), value(notch.at.y)) == ("notch", 1, Fraction(11, 2))
    slant = base.scores[2]
    assert isinstance(slant.line, Between) and slant.fold is Fold.NONE
    assert isinstance(slant.line.start, PointNamed) and slant.line.start.name == "notch"
    right = base.panels[2].where
    assert isinstance(right, PointAt) and (value(right.x), value(right.y)) == (8, 1)
    assert (flap.points, flap.scores, flap.panels) == ((), (), ())
    (join,) = recipe.joins
    assert (join.put.panel.value, join.put.face, join.upon.panel.value, join.upon.face) == (
        "flap", Face.BACK, "right door", Face.BACK)  # fmt: skip
    assert value(join.at.left) == 0 and join.at.centred == "up" and join.at.turned is Turned.NONE
    mat, button = recipe.layers
    assert mat.face is Face.BACK and mat.paper is not None and mat.paper.value == "waves"
    assert isinstance(button.shape, Bought) and button.paper is None
    assert (value(button.at.right), value(button.at.top)) == (Fraction(-1, 8), Fraction(1, 4))
    closed, opened = recipe.poses
    assert [(fold.score.value, value(fold.angle)) for fold in closed.folds] == [
        ("left hinge", 180),
        ("right hinge", 180),
    ]
    assert (opened.still, opened.folds, opened.seen, opened.over, opened.rests) == (None, (), Face.FRONT, (), None)
    assert [pose.value for pose in recipe.opening] == ["closed", "open"]
    assert [value(side) for side in recipe.finished.size] == [Fraction(17, 4), Fraction(11, 2)]
    assert recipe.finished.envelope is not None and recipe.finished.envelope.value == "A2"
    assert recipe.finished.envelope_size is None and recipe.finished.pose is None
    (meeting,) = recipe.finished.meets
    assert [panel.value for panel in meeting.panels] == ["left door", "right door"]
    assert value(meeting.gap) == 0 and meeting.overlap is None
    glue, ribbon = recipe.supplies
    assert (glue.kind, value(glue.dries)) == ("wet glue", 300)
    assert value(ribbon.length) == 18
    trimmer, pencil = recipe.tools
    assert (trimmer.basic, pencil.basic) == (False, True)
    assert trimmer.caution is not None and trimmer.caution.value == "Mind the blade."
    cut, mat_step = recipe.steps
    assert (cut.id, mat_step.id) == ("cut-the-base", "put-on-the-mat")
    assert cut.piece is not None and cut.piece.value == "base" and mat_step.piece is None
    assert value(cut.minutes) == 120
    assert [value(shot.seconds) for shot in cut.shots] == [20]


@pytest.mark.parametrize(
    ("unit", "language"), [("inch", "en-US"), ("mm", "en"), ("cm", "en")], ids=["inch", "millimetre", "centimetre"]
)
def test_the_language_follows_the_unit(unit: str, language: str) -> None:
    text = SOUND.replace("unit: inch", f"unit: {unit}").replace("[1/2, 1/2]", "[2, 2]")
    assert read(text).language == language
    assert read(text.replace("skill: beginner", "language: en-GB")).language == "en-GB"


def test_a_bare_number_takes_the_unit_of_the_recipe() -> None:
    metric = read(SOUND.replace("unit: inch", "unit: cm")).papers[0].sheet
    assert metric is not None and [side.value for side in metric] == [Fraction(17, 2), 11]
    mixed = read(spoilt("sheet: [8 1/2, 11]", "sheet: [215.9 mm, 11]")).papers[0].sheet
    assert mixed is not None and [side.value for side in mixed] == [Fraction(17, 2), 11]


def test_the_unit_may_stand_below_what_it_measures() -> None:
    text = SOUND.replace("unit: inch\n", "") + "unit: mm\n"
    assert read(text.replace("[1/2, 1/2]", "[2, 2]")).unit is Unit.MM


@pytest.mark.parametrize(
    ("written", "shape"),
    [
        pytest.param("circle: 1 1/2", Circle, id="circle"),
        pytest.param("outline: [[0, 0], [2, 0], [0, 3]]", Outline, id="outline"),
        pytest.param("triangle: {size: [2, 3], right angle: top right}", Triangle, id="triangle"),
        pytest.param("size: [2, 3]", Rectangle, id="rectangle"),
        pytest.param("bought: [2, 3]", Bought, id="bought"),
    ],
)
def test_shapes_of_a_layer(written: str, shape: type) -> None:
    read_shape = read(spoilt("size: [1 7/8, 5 1/4]", written)).layers[0].shape
    assert isinstance(read_shape, shape)
    match read_shape:
        case Circle(across=across):
            assert value(across) == Fraction(3, 2)
        case Triangle(width=width, height=height, right_angle=corner):
            assert (value(width), value(height), corner) == (2, 3, "top right")
        case Outline(corners=corners):
            assert [(value(point.x), value(point.y)) for point in corners] == [(0, 0), (2, 0), (0, 3)]
        case Rectangle(width=width, height=height) | Bought(width=width, height=height):
            assert (value(width), value(height)) == (2, 3)


def test_a_place_with_everything() -> None:
    place = (
        read(spoilt("at: {centred: both}", "at: {right: -1/4, centred: up, centred on: card, turned: half}"))
        .layers[0]
        .at
    )
    assert value(place.right) == Fraction(-1, 4)
    assert place.centred == "up" and place.turned is Turned.HALF
    assert place.centred_on is not None and place.centred_on.value == "card"


def test_a_pose_with_everything() -> None:
    written = (
        "  open: {still: flap, folds: {left hinge: found, right hinge: -90}, seen: back, turned: quarter clockwise, "
        "over: [[left door, middle]], rests: {foot: left door bottom, against: flap top}}"
    )
    text = spoilt("  open: {}", written).replace("  envelope: A2", "  envelope: [4 3/8, 5 3/4]\n  pose: closed")
    recipe = read(text.replace("  meets:", "  stands: {pose: open, height: 4}\n  meets:"))
    pose = recipe.poses[1]
    assert pose.still is not None and pose.still.value == "flap"
    assert [(fold.score.value, fold.angle and fold.angle.value) for fold in pose.folds] == [
        ("left hinge", None),
        ("right hinge", -90),
    ]
    assert (pose.seen, pose.turned) == (Face.BACK, Turned.CLOCKWISE)
    assert [(upper.value, lower.value) for upper, lower in pose.over] == [("left door", "middle")]
    assert pose.rests is not None
    assert (pose.rests.foot.panel.value, pose.rests.foot.side) == ("left door", "bottom")
    assert (pose.rests.against.panel.value, pose.rests.against.side) == ("flap", "top")
    assert recipe.finished.stands is not None and recipe.finished.stands.pose.value == "open"
    assert value(recipe.finished.stands.height) == 4
    assert recipe.finished.envelope is None and recipe.finished.envelope_size is not None
    assert [value(side) for side in recipe.finished.envelope_size] == [Fraction(35, 8), Fraction(23, 4)]
    assert recipe.finished.pose is not None and recipe.finished.pose.value == "closed"


@pytest.mark.parametrize(
    ("where", "sides"),
    [
        pytest.param("left of left hinge", [("left of", "left hinge")], id="one side"),
        pytest.param(
            "right of left hinge and left of right hinge",
            [("right of", "left hinge"), ("left of", "right hinge")],
            id="two sides",
        ),
        pytest.param(
            "between right hinge and left hinge",
            [("right of", "left hinge"), ("left of", "right hinge")],
            id="between, the right one first",
        ),
        pytest.param(
            "between low and salt and pepper", [("above", "low"), ("below", "salt and pepper")], id="between levels"
        ),
        pytest.param("below salt and pepper", [("below", "salt and pepper")], id="a name with and in it"),
        pytest.param(
            "above low and left of left hinge and below salt and pepper",
            [("above", "low"), ("left of", "left hinge"), ("below", "salt and pepper")],
            id="three sides",
        ),
    ],
)
def test_where_a_panel_lies(where: str, sides: list[tuple[str, str]]) -> None:
    scores = "      low: {up: 1, fold: valley}\n      salt and pepper: {up: 3, fold: valley}\n"
    text = spoilt("between left hinge and right hinge", where).replace("      slant:", f"{scores}      slant:")
    panel = read(text).pieces[0].panels[1]
    assert isinstance(panel.where, tuple)
    assert [(side.relation, side.score.value) for side in panel.where] == sides
    levels = [score.line for score in read(text).pieces[0].scores if isinstance(score.line, Up)]
    assert [value(line.at) for line in levels] == [1, 3]


def test_ids_of_steps_are_all_different() -> None:
    more = "".join(
        f"  - {{title: {title}, text: See.}}\n" for title in ("Look!", "Look", "Look", "2nd look", "'???'", "Ça va")
    )
    chosen = "  - {title: Look, id: look-2, text: See.}\n"
    ids = [step.id for step in read(SOUND + more + chosen).steps[2:]]
    assert ids == ["look", "look-3", "look-4", "step-2nd-look", "step", "ca-va", "look-2"]


def test_places_are_those_of_the_text() -> None:
    recipe = read(SOUND)
    size = recipe.pieces[0].shape
    assert isinstance(size, Rectangle)
    line = SOUND.split("\n")[size.width.place.line - 1]
    assert line[size.width.place.column - 1 :][: size.width.place.length] == "2 * width"
    assert (size.width.place.file, size.width.written, size.width.names) == (
        "cards/small.yaml",
        "2 * width",
        ("width",),
    )
    assert recipe.finished.size[0].witness and not size.width.witness


def test_a_bare_time_is_minutes_in_a_step_and_seconds_in_a_shot() -> None:
    recipe = read(spoilt("seconds: 20", "seconds: 1 1/2 min").replace("minutes: 2", "minutes: 1 1/2"))
    step = recipe.steps[0]
    assert step.minutes is not None and step.minutes.value == 90 and step.minutes.kind is Kind.TIME
    assert step.minutes.written == "1 1/2"
    assert value(step.shots[0].seconds) == 90


def test_all_mistakes_come_in_one_run() -> None:
    text = SOUND
    for old, new in (
        ("skill: beginner", "skil: beginner"),
        ("across: door", "across: dor"),
        ("upon: left door back", "upon: left door"),
        ("gap: 0", "gap: -1"),
        ("basic: true", "basic: yes"),
        ("- turn: half", "- turn: left"),
        ("Glue the mat", "Glue the {mat}"),
        ("tools: [trimmer]", "tools: trimmer"),
        ("envelope: A2", "envelope: #10"),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    reading = read_text(text, "small.yaml")
    assert [finding.name for finding in reading.findings] == [
        "unknown key",
        "unknown measure",
        "face missing",
        "words lost to a comment",
        "less than zero",
        "unknown word",
        "wrong kind of value",
        "unknown word",
        "unknown name",
    ]
    assert not reading.whole


def test_what_is_broken_is_left_out_with_all_that_leans_on_it() -> None:
    reading = read_text(spoilt("[1 7/8, 5 1/4]", "[1 7/8, 0]"), "small.yaml")
    assert reading.recipe is not None
    assert [finding.name for finding in reading.findings] == ["not more than zero"]
    assert reading.recipe.layers == ()  # the button lies on the mat
    assert [step.title.value for step in reading.recipe.steps] == ["Cut the base"]
    assert [piece.name.value for piece in reading.recipe.pieces] == ["base", "flap"]
    assert not reading.whole


def test_without_pieces_there_is_no_recipe() -> None:
    reading = read_text(spoilt("[2 * width, 5 1/2]", "[0, 0]").replace("size: [2, 2]", "size: [0, 0]"), "small.yaml")
    assert reading.recipe is None
    assert [finding.name for finding in reading.findings] == ["not more than zero"] * 4


def test_a_recipe_with_a_fault_beside_the_card_is_whole() -> None:
    reading = read_text(spoilt("Glue the mat", "Glue the {mat}"), "small.yaml")
    assert reading.whole and len(reading.findings) == 1
