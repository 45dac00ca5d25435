"""The room of what slides, turns or is held, and necks of paper."""

import pytest
from recipes_for_checks import found_in

POCKET = """\
title: Pocket
unit: inch
finished: {size: [6, 6]}
papers: {plain: {kind: cardstock, thickness: 0.01 in}}
pieces:
  base: {paper: plain, size: [6, 6]}
  tag: {paper: plain, size: [TAG, 5]}
layers:
  pouch:
    paper: plain
    size: [4, 4]
    upon: base front
    at: {centred: both}
    glue area: GLUE
    adhesive: glue
slides:
  tag in pouch: {what: tag, pocket: pouch}
poses: {closed: {folds: {}}}
supplies: {glue: {kind: tape}}
tools: {trimmer: {}}
steps:
  - title: Make it
    tools: [trimmer]
    do:
      - {cut: [6, 6], piece: base}
      - {cut: [4, 4], piece: pouch}
      - {cut: [TAG, 5], piece: tag}
      - {attach: {what: pouch, centred: both}, piece: base}
      - {slide: tag in pouch, piece: tag}
    text: Cut the base 6 x 6 in, the pouch 4 x 4 in and the tag TAG x 5 in. Fix the pouch and slide the tag in.
"""
THREE = "{left: 1/8, right: 1/8, bottom: 1/8}"


def _pocket(tag: str, glue: str = THREE) -> list[tuple[str, str]]:
    return [(f.name, f.message) for f in found_in(POCKET.replace("TAG", tag).replace("GLUE", glue))]


TAGS = [
    # the worked example of the trade: a pocket 4 wide glued 1/8 on three sides clears 3 3/4
    pytest.param("3 3/4", THREE, ["it jams"], id="3 3/4 jams"),
    pytest.param("3 5/8", THREE, [], id="3 5/8 runs"),
    pytest.param("3 11/16", THREE, ["it runs tight"], id="3 11/16 runs tight"),
    pytest.param("3 7/8", THREE, ["it jams"], id="wider than the room"),
    pytest.param("3 7/8", "{top: 1/8, bottom: 1/8}", ["it jams"], id="open at both sides: the height counts"),
    pytest.param("3 5/8", "{all over: true}", ["no pocket"], id="glued all over"),
    pytest.param("3 5/8", "{left: 1/8, right: 1/8, top: 1/8, bottom: 1/8}", ["no pocket"], id="glued on all sides"),
]


@pytest.mark.parametrize(("tag", "glue", "names"), TAGS)
def test_a_tag_in_a_pocket(tag: str, glue: str, names: list[str]) -> None:
    assert [name for name, _ in _pocket(tag, glue)] == names


def test_the_finding_says_how_wide_the_pocket_clears_and_what_would_run() -> None:
    recipe = POCKET.replace("TAG", "3 3/4").replace("GLUE", THREE)
    (finding,) = found_in(recipe)
    assert "so it clears 3 3/4 in" in finding.message and "nothing is left" in finding.message
    assert finding.mend is not None and "3 5/8 in wide" in finding.mend


def test_a_slide_must_be_made_by_a_step() -> None:
    recipe = POCKET.replace("TAG", "3 5/8").replace("GLUE", THREE)
    recipe = recipe.replace("      - {slide: tag in pouch, piece: tag}\n", "")
    assert [finding.name for finding in found_in(recipe)] == ["a slide that no step makes"]


BAND = """\
title: Band
unit: mm
finished: {size: [100, 60]}
papers: {plain: {kind: card, thickness: 0.25 mm}}
pieces:
  base:
    paper: plain
    size: [200, 60]
    scores: {f: {across: 100, fold: valley}}
    panels: {a: left of f, b: right of f}
  band: {paper: plain, size: [LONG, 30]}
slides:
  band round card: {what: card, band: band, laps: 15}
poses: {closed: {still: b, folds: {f: 180}}}
tools: {trimmer: {}, scoring board: {}}
steps:
  - title: Make it
    tools: [trimmer, scoring board]
    do:
      - {cut: [200, 60], piece: base}
      - {turn over: book page, piece: base}
      - {score: 100, piece: base}
      - {turn over: book page, piece: base}
      - {fold: {score: f, fold: valley}, piece: base}
      - {cut: [LONG, 30], piece: band}
      - {fasten: band round card, piece: band}
    text: >
      Cut the base 200 x 60 mm. Turn it over like the page of a book and score at 100 mm. Turn it over like the page
      of a book again, and fold it. Cut the band LONG x 30 mm and fasten it.
"""


BANDS = [
    # round the height of 60 mm and two papers of 0.25 mm: 2 x 60.5 = 121, 15 to lap and 1.5 of play make 137.5
    pytest.param("137.5", [], id="just long enough"),
    pytest.param("137", ["band too short"], id="half a millimetre short"),
    pytest.param("148", [], id="loose, but not too loose"),
    pytest.param("149", ["band too loose"], id="slips off"),
]


@pytest.mark.parametrize(("long", "names"), BANDS)
def test_a_band_goes_round_the_card_and_its_thickness(long: str, names: list[str]) -> None:
    assert [finding.name for finding in found_in(BAND.replace("LONG", long))] == names


SLIT = """\
title: Tongue
unit: inch
finished: {size: [4, 4]}
papers: {plain: {kind: cardstock}}
pieces:
  base:
    paper: plain
    size: [4, 4]
    slits: {mouth: {from: [1, 2], to: [TO, 2]}}
  tab: {paper: plain, size: [1, 3]}
slides: {tab through mouth: {what: tab, slit: mouth}}
poses: {closed: {folds: {}}}
tools: {trimmer: {}}
steps:
  - title: Make it
    tools: [trimmer]
    do:
      - {cut: [4, 4], piece: base}
      - {lay: left, piece: base}
      - {slit: {at: 2, begins: 1, ends: TO}, piece: base}
      - {cut: [1, 3], piece: tab}
      - {slide: tab through mouth, piece: tab}
    text: Cut the base 4 x 4 in. Cut the mouth at 2 in, from 1 in to TO in. Cut the tab 1 x 3 in and slide it through.
"""


TONGUES = [
    pytest.param("2 1/8", [], id="an eighth of play"),
    pytest.param("2 1/16", ["it runs tight"], id="a sixteenth"),
    pytest.param("2", ["it jams"], id="as long as the tab is wide"),
    pytest.param("3 15/16", ["thin neck of paper"], id="a slit that all but reaches the edge"),
    pytest.param("3 7/8", [], id="an eighth of paper is left"),
]


@pytest.mark.parametrize(("to", "names"), TONGUES)
def test_a_tongue_in_a_slit(to: str, names: list[str]) -> None:
    assert [finding.name for finding in found_in(SLIT.replace("TO", to))] == names


DIALS = """\
title: Dials
unit: inch
finished: {size: [8, 4]}
papers: {plain: {kind: cardstock}}
pieces:
  base: {paper: plain, size: [8, 4]}
  one: {paper: plain, size: [2, 2]}
  two: {paper: plain, size: [3, 1]}
slides:
  left dial: {what: one, brad: base, at: [2, 2], pin: [1, 1]}
  right dial: {what: two, brad: base, at: [X, 2], pin: [PIN]}
poses: {closed: {folds: {}}}
tools: {trimmer: {}}
steps:
  - title: Make it
    tools: [trimmer]
    do:
      - {cut: [8, 4], piece: base}
      - {cut: [2, 2], piece: one}
      - {cut: [3, 1], piece: two}
      - {fasten: left dial, piece: one}
      - {fasten: right dial, piece: two}
    text: Cut the base 8 x 4 in, one 2 x 2 in and two 3 x 1 in. Fasten both dials.
"""


TURNING = [
    # corners reach sqrt 2 = 1.414 and sqrt(1.5^2 + 0.5^2) = 1.581 from their brads; with 1/16 of play 3.058 in all
    pytest.param("5 1/16", "1 1/2, 1/2", [], id="just clear"),
    pytest.param("5", "1 1/2, 1/2", ["turning pieces hit"], id="a sixteenth nearer"),
    pytest.param("7 7/8", "3 1/2, 1/2", ["brad beside the paper"], id="pinned beside the paper"),
]


@pytest.mark.parametrize(("x", "pin", "names"), TURNING)
def test_turning_pieces_keep_clear_of_each_other(x: str, pin: str, names: list[str]) -> None:
    found = [finding.name for finding in found_in(DIALS.replace("X", x).replace("PIN", pin))]
    assert found == names


TOLD = {
    "it jams", "it runs tight", "no pocket", "band too short", "band too loose", "thin neck of paper",
    "turning pieces hit", "brad beside the paper", "a slide that no step makes",
}
"""Every finding that these recipes are made for."""
