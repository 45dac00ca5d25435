"""What is said about adhesive: what it would stick to, and where to put it instead."""

import pytest
from recipes_for_checks import GATE, changed, found_in

from foldproof.findings.finding import Finding

BAND = "    overhangs: [right door]\n    adhesive: wet glue"
"""The band is 3 1/2 wide, 1/4 from the left of a mat that is 1 7/8 wide: it reaches 1 5/8 in on to it, less 1/8."""


def _one(text: str, name: str) -> Finding:
    (finding,) = (finding for finding in found_in(text) if finding.name == name)
    return finding


@pytest.mark.parametrize(("area", "past"), [
    pytest.param("whole", "1 7/8 in", id="all over"),
    pytest.param("{left: 1 3/4}", "1/8 in", id="a strip a little too wide"),
    pytest.param("{right: 1/4, left: 1}", "1 7/8 in", id="a strip at the far end"),
])
def test_adhesive_on_an_overhang_tells_what_it_sticks_to_and_the_safe_strip(area: str, past: str) -> None:
    finding = _one(changed((BAND, f"{BAND}\n    glue area: {area}")), "adhesive past the edge")
    assert f"reaches {past} past the edge of the left mat" in finding.message
    assert "in the pose closed it would stick to the" in finding.message
    assert finding.mend is not None
    assert "`glue area: {left: 1 1/2 in}`" in finding.mend and "1/8 in short" in finding.mend


@pytest.mark.parametrize("area", ["{left: 1 1/2}", "{left: 1 5/8}", "{left: 1/8}"])
def test_adhesive_that_keeps_to_its_surface_is_quiet(area: str) -> None:
    assert found_in(changed((BAND, f"{BAND}\n    glue area: {area}"))) == ()


def test_an_overhang_without_a_glue_area_is_glued_where_it_is_safe() -> None:
    assert found_in(GATE) == ()


TWO = """\
title: Two strips
finished: {size: [4, 4]}
papers: {card: {kind: cardstock, thickness: 0.01 in}}
pieces:
  inner:
    paper: card
    size: [8, 4]
    scores: {spine: {across: 4, fold: valley}}
    panels: {left: left of spine, right: right of spine}
  flap: {paper: card, size: [FLAP]}
joins:
  seam: {put: flap back, upon: left front, at: {AT}, adhesive: paste AREA}
poses:
  closed: {still: left, folds: {spine: 180}}
  open: {still: left, folds: {}}
supplies: {paste: {kind: wet glue}}
steps:
  - {title: Begin, do: [note: lay all ready], text: Lay all ready.}
"""


def _two(flap: str, at: str, area: str = "") -> list[str]:
    text = TWO.replace("FLAP", flap).replace("AT}", f"{at}}}").replace(" AREA", f", glue area: {area}" if area else "")
    return [finding.name for finding in found_in(text) if "glue" in finding.name or "adhesive" in finding.name]


@pytest.mark.parametrize(("area", "found"), [
    pytest.param("", [], id="no glue area: the opening is left out by itself"),
    pytest.param("{left: 1/4, right: 1/4}", [], id="strips beside the opening"),
    pytest.param("whole", ["adhesive past the edge"], id="all over, and over the opening"),
    pytest.param("{left: 2}", ["adhesive past the edge"], id="a strip that reaches into the opening"),
])
def test_adhesive_over_a_window(area: str, found: list[str]) -> None:
    text = TWO.replace("    panels: {left", "    windows: {porthole: {circle: 2, at: [1, 1]}}\n    panels: {left")
    text = text.replace("FLAP", "4, 4").replace("AT}", "centred: both}")
    text = text.replace(" AREA", f", glue area: {area}" if area else "")
    assert [one.name for one in found_in(text) if "adhesive past" in one.name] == found
    assert not area or not found or "lies over an opening in the left" in "".join(one.message for one in found_in(text))


@pytest.mark.parametrize(("flap", "at", "area", "found"), [
    pytest.param("3, 3", "centred: both", "", [], id="well inside"),
    pytest.param("5, 3", "left: 0, centred: up", "", ["glued across a fold"], id="across the spine"),
    pytest.param("5, 3", "left: 0, centred: up", "{left: 3 3/4}", [], id="glued on one side of it"),
    pytest.param("5, 3", "left: 0, centred: up", "{right: 1/2}", ["glued across a fold"], id="glued on the other side"),
    pytest.param("4, 3", "left: -1, centred: up", "{left: 1/4}", ["adhesive past the edge"], id="off the paper"),
    pytest.param("4, 3", "left: -1, centred: up", "{right: 1/4, top: 1/8}", ["adhesive past the edge"],
                 id="a strip runs off"),
])
def test_a_join_across_a_score_that_still_folds(flap: str, at: str, area: str, found: list[str]) -> None:
    assert _two(flap, at, area) == found
