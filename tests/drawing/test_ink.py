"""Ink: the same bytes every time, words that stay words, tones that can be read on."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.drawing.ink import DASHES, FRACTION_PARTS, contrast, inked, lightened, to_svg, weight
from foldproof.drawing.key import draw_key
from foldproof.drawing.lettering import FRACTION_SIZE, text_width
from foldproof.drawing.record import LEAST_LINE_PT, PLAIN, DrawingStyle, one_ink
from foldproof.drawing.scene import Area, Fill, Kind, Label, Line, Scene

SCENE = Scene(width=60.0, height=40.0, items=(
    Area(
        rings=(((5.0, 5.0), (55.0, 5.0), (55.0, 35.0), (5.0, 35.0)),), fill=Fill.FRONT, tone="#8a9ba8", edge=Kind.EDGE),
    Line(points=((20.0, 5.0), (20.0, 35.0)), kind=Kind.VALLEY),
    Line(points=((40.0, 5.0), (40.0, 35.0)), kind=Kind.MOUNTAIN),
    Label(text="score at 2 1/8 in & “fold”", at=(30.0, 20.0), pt=8.5),
    Label(text="two\nlines", at=(10.0, 20.0), pt=8.5, bold=True),
))


@pytest.mark.parametrize(("grey", "ratio"), [
    # WCAG 2.2 relative luminance; values on white as worked in the project's table of check values
    pytest.param("#000000", 21.0, id="black"), pytest.param("#595959", 7.0047, id="595959"),
    pytest.param("#767676", 4.5422, id="767676"), pytest.param("#777777", 4.4781, id="777777"),
    pytest.param("#949494", 3.0335, id="949494"), pytest.param("#0000ff", 8.5925, id="blue"),
    pytest.param("#008000", 5.1374, id="green"),
])
def test_contrast_follows_the_published_formula(grey: str, ratio: float) -> None:
    assert contrast(grey, "#ffffff") == pytest.approx(ratio, abs=5e-5)


@settings(deadline=None)
@given(tone=st.from_regex(r"#[0-9a-f]{6}", fullmatch=True), share=st.floats(0.05, 1.0))
def test_ink_on_any_paper_keeps_seven_to_one(tone: str, share: float) -> None:
    assert contrast(lightened(tone, share), PLAIN.ink) >= 7


@pytest.mark.parametrize("tone", [None, "no such colour", "javascript:alert(1)"])
def test_an_unknown_tone_is_white(tone: str | None) -> None:
    assert lightened(tone, 0.5) == "#ffffff"


def test_in_one_ink_there_is_no_colour_and_all_reads() -> None:
    style = one_ink(PLAIN)
    colours = {colour.lower() for colour in re.findall(r"#[0-9a-fA-F]{6}", to_svg(SCENE, style))}
    assert colours and all(colour[1:3] == colour[3:5] == colour[5:7] for colour in colours)
    assert any(colour[1:3] != colour[5:7] for colour in re.findall(r"#[0-9a-f]{6}", to_svg(SCENE)))
    # WCAG 2.2: 7:1 for words (SC 1.4.6), 3:1 for what must be told apart (SC 1.4.11) does not rest on the greys
    assert contrast(style.quiet, style.back_grey) >= 7 and contrast(style.ink, style.back_grey) >= 7


def test_quiet_words_keep_seven_to_one_on_white_and_read_on_a_back() -> None:
    assert contrast(PLAIN.quiet, "#ffffff") >= 7
    assert contrast(PLAIN.quiet, PLAIN.back_grey) >= 4.5


def test_no_line_is_thinner_than_the_least() -> None:
    assert all(weight(kind, PLAIN) >= LEAST_LINE_PT for kind in Kind)


def test_folds_and_hidden_edges_differ_by_their_dashes_and_not_by_colour() -> None:
    patterns = [DASHES.get(kind) for kind in (Kind.VALLEY, Kind.MOUNTAIN, Kind.HIDDEN, Kind.PRESSED, Kind.EDGE)]
    assert len(set(patterns)) == len(patterns)
    # common practice, no source: dash, dot, dot for a mountain
    assert len(DASHES[Kind.MOUNTAIN]) == 6 and len(DASHES[Kind.VALLEY]) == 2


def test_dots_show_fractions_as_small_figures_of_the_same_width() -> None:
    assert text_width("1/8", 10.0) == pytest.approx(text_width("¹⁄₈", 10.0) * FRACTION_SIZE, abs=0.02)


def test_the_bytes_are_the_same_every_time() -> None:
    assert to_svg(SCENE) == to_svg(SCENE)


def test_one_element_in_millimetres_with_text_as_text() -> None:
    svg = to_svg(SCENE)
    root = ElementTree.fromstring(svg)
    assert (root.attrib["width"], root.attrib["height"]) == ("60.00mm", "40.00mm")
    words = ["".join(element.itertext()) for element in root.iter() if element.tag.endswith("text")]
    assert "|".join(words) == "score at 2 |1/8|in & “fold”|two|lines"
    fraction = next(element for element in root.iter() if "".join(element.itertext()) == "1/8")
    assert [part.text for part in fraction] == ["1", "/", "8"]
    for part, (feature, family) in zip(fraction, FRACTION_PARTS.items(), strict=True):
        assert f"'{feature}'" in part.attrib["style"] and f"'{family}'" in part.attrib["font-family"]
    assert svg.count("<tspan") == 3
    assert "Source Sans Pro" in svg and ", sans-serif" in svg


def test_lines_alike_that_follow_each_other_are_one_path_and_what_is_inked_between_stays_between() -> None:
    def line(y: float, kind: Kind = Kind.CUT) -> Line:
        return Line(points=((5.0, y), (25.0, y)), kind=kind)

    square = Area(rings=(((5.0, 5.0), (15.0, 5.0), (15.0, 15.0)),), fill=Fill.INK)
    items = (line(2.0), line(4.0), square, line(6.0), line(8.0), line(10.0), line(12.0, Kind.MEASURE))
    root = ElementTree.fromstring(to_svg(Scene(width=30.0, height=20.0, items=items)))
    paths = [(one.attrib["fill"], one.attrib["d"].count("M")) for one in root.iter() if one.tag.endswith("path")]
    assert paths[-4:] == [("none", 2), (PLAIN.ink, 1), ("none", 3), ("none", 1)]
    heights = re.findall(r"M \S+ (\S+)", "".join(one.attrib["d"] for one in root.iter() if one.tag.endswith("path")))
    assert [round(20 - float(at) * 25.4 / 72, 2) for at in heights[-7:]] == [2, 4, 5, 6, 8, 10, 12]


def test_nothing_in_it_clashes_with_another_drawing_in_the_same_page() -> None:
    svg = to_svg(SCENE)
    assert not re.search(r"\bid=", svg)
    assert "<style" not in svg and "<metadata" not in svg
    assert not re.search(r"\d{4}-\d\d-\d\dT", svg)


@pytest.mark.parametrize("style", (PLAIN, one_ink(PLAIN)), ids=("tones", "one ink"))
def test_scored_before_differs_from_an_edge_without_color(style: DrawingStyle) -> None:
    # ISO 128: a wide line is about twice as wide as a thin one; from memory: an existing crease is thin and stops short
    assert weight(Kind.EDGE, style) >= 1.8 * weight(Kind.CREASE, style)
    scene = draw_key((Kind.CREASE,), style).scene
    assert scene is not None
    (crease,) = (item for item in scene.items if isinstance(item, Line) and item.kind is Kind.CREASE)
    edges = [item.points[0][0] for item in scene.items if isinstance(item, Line) and item.kind is Kind.EDGE]
    assert min(edges) + 1 < crease.points[0][0] < crease.points[1][0] < max(edges) - 1


def test_an_edge_that_keeps_to_its_paper_is_inked_wholly_on_its_left() -> None:
    def level(within: bool) -> float:
        line = Line(points=((2.0, 5.0), (20.0, 5.0)), kind=Kind.STRONG, within=within)
        with inked(Scene(width=30.0, height=10.0, items=(line,))) as figure:
            (drawn,) = figure.lines or [one for one in figure.get_children() if hasattr(one, "get_ydata")]
            return float(drawn.get_ydata()[0])

    assert level(False) == 5.0
    assert level(True) == pytest.approx(5.0 + weight(Kind.STRONG, PLAIN) * 25.4 / 72 / 2)
