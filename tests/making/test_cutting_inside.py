"""Slits, windows, notches and round corners cut by hand, held against the plan."""

import pytest

from foldproof.findings.finding import Finding
from foldproof.folding.build import build_card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.reader import read_text

HEAD = """\
title: Test
unit: inch
finished: {size: [4, 6]}
papers: {plain: {kind: cardstock}}
tools: {trimmer: {}, scoring board: {}, punch: {}}
"""


def _made(cuts: str, actions: str, scores: str = "", poses: str = "closed: {folds: {}}", panels: str = "") -> Making:
    more = (f"    scores: {{{scores}}}\n" if scores else "") + (f"    panels: {{{panels}}}\n" if panels else "")
    lines = "".join(f"      - {line.strip()}\n" for line in actions.strip().splitlines())
    text = (f"{HEAD}pieces:\n  base:\n    paper: plain\n    size: [8, 6]\n    {cuts}\n{more}poses: {{{poses}}}\n"
            f"steps:\n  - title: Make it\n    piece: base\n    do:\n{lines}    text: Make it.\n")
    reading = read_text(text, "test.yaml")
    assert reading.recipe is not None and not reading.findings, [f.message for f in reading.findings]
    card, findings = build_card(reading.recipe)
    assert card is not None and not findings, [f.message for f in findings]
    return carry_out(card)


def _names(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.name for finding in findings]


SLIT = "slits: {s: {from: [2, 1], to: [2, 4]}}"
WINDOW = "windows: {w: {size: [2, 1], at: [1, 3]}}"


@pytest.mark.parametrize(("cuts", "actions", "names"), [
    pytest.param(SLIT, "cut: [8, 6]\nlay: long\nslit: {at: 2, begins: 2, ends: 5}", [], id="a slit at the stop"),
    pytest.param(SLIT, "cut: [8, 6]\nturn over: book page\nlay: top\nslit: {at: 6, begins: 2, ends: 5}", [],
                 id="the same from the back"),
    pytest.param(SLIT, "cut: [8, 6]\nlay: long\nturn: half\nslit: {at: 6, begins: 1, ends: 4}", [],
                 id="the same, turned half round"),
    pytest.param(SLIT, "cut: [8, 6]\nlay: left\nslit: {at: 1, begins: 2, ends: 3}",
                 ["slit cut elsewhere than the plan"], id="a slit in another place"),
    pytest.param(SLIT, "cut: [8, 6]\nlay: long\nslit: {at: 2, begins: 2, ends: 5 1/16}",
                 ["slit cut elsewhere than the plan"], id="a sixteenth too long"),
    pytest.param(SLIT, "cut: [8, 6]", ["a slit that no step cuts"], id="no slit"),
    pytest.param(SLIT, "cut: [8, 6]\nlay: long\nslit: {at: 2, begins: 2, ends: 7}",
                 ["off the work", "a slit that no step cuts"], id="off the work"),
    pytest.param(
        SLIT, "cut: [8, 6]\nmark: {at: 2, edge: top, from: left, in: 2, name: one}\n"
        "mark: {at: 2, edge: bottom, from: left, in: 1, name: two}\nslit: {from: one, to: two}", [],
        id="between marks"),
    pytest.param(WINDOW, "cut: [8, 6]\nwindow: {size: [2, 1], left: 1, top: 2}", [], id="a window by two edges"),
    pytest.param(WINDOW, "cut: [8, 6]\nturn over: book page\nwindow: {size: [2, 1], right: 1, bottom: 3}", [],
                 id="the same from the back"),
    pytest.param(WINDOW, "cut: [8, 6]\nturn: quarter clockwise\nwindow: {size: [1, 2], left: 3, top: 1}", [],
                 id="the same, turned"),
    pytest.param(
        WINDOW, "cut: [8, 6]\nmark: {at: 1, edge: top, from: left, in: 2, name: a}\n"
        "mark: {at: 3, edge: top, from: left, in: 2, name: b}\nmark: {at: 3, edge: top, from: left, in: 3, name: c}\n"
        "mark: {at: 1, edge: top, from: left, in: 3, name: d}\nwindow: {corners: [a, b, c, d]}", [],
        id="by four marks"),
    pytest.param(WINDOW, "cut: [8, 6]\nwindow: {size: [2, 1], left: 1 1/16, top: 2}",
                 ["window cut elsewhere than the plan"], id="a sixteenth aside"),
    pytest.param(WINDOW, "cut: [8, 6]\nwindow: {size: [2, 1], left: 1, top: -1/2}",
                 ["window of another kind", "a window that no step cuts"], id="a window that is a notch"),
    pytest.param("notches: {thumb: {circle: 1, at: [3 1/2, 5 1/2]}}",
                 "cut: [8, 6]\nnotch: {circle: 1, centred: across, top: -1/2}", [], id="a thumb notch"),
    pytest.param("notches: {thumb: {circle: 1, at: [3 1/2, 5 1/2]}}",
                 "cut: [8, 6]\nnotch: {circle: 1, centred: across, bottom: -1/2}", ["edge cut unlike the plan"],
                 id="at the wrong edge"),
    pytest.param("notches: {thumb: {circle: 1, at: [3 1/2, 5 1/2]}}", "cut: [8, 6]", ["edge cut unlike the plan"],
                 id="no notch"),
    pytest.param("rounded: {radius: 1/2, corners: [top left, top right]}",
                 "cut: [8, 6]\nturn: half\nround: {radius: 1/2, corners: [bottom left, bottom right]}", [],
                 id="corners rounded from the other side"),
    pytest.param("rounded: {radius: 1/2, corners: [top left, top right]}",
                 "cut: [8, 6]\nround: {radius: 9/16, corners: [top left, top right]}", ["edge cut unlike the plan"],
                 id="another radius"),
    pytest.param("scallops: {edge: left, across: 1}", "cut: [8, 6]\nturn: quarter clockwise\n"
                 "scallop: {edge: top, across: 1}", [], id="scallops"),
])
def test_cuts_are_held_against_the_plan(cuts: str, actions: str, names: list[str]) -> None:
    assert _names(_made(cuts, actions).findings) == names


FOLD = {"scores": "f: {across: 4, fold: valley}", "poses": "closed: {still: b, folds: {f: 180}}",
        "panels": "a: left of f, b: right of f"}


def test_a_punch_over_a_fold_cuts_both_layers_mirrored() -> None:
    """A half disc over the folded edge opens to a disc across the fold: its halves are mirror images."""
    making = _made(
        "windows: {w: {circle: 1, at: [3 1/2, 2 1/2]}}",
        "cut: [8, 6]\nlay: long\nscore: 4\nfold: {score: f, fold: valley}\n"
        "notch: {circle: 1, left: -1/2, centred: up}\nmeasure: [4, 6]", **FOLD)
    assert _names(making.findings) == []
    (hole,) = making.end.pieces["base"].holes
    assert len(hole) == 28


def test_a_window_cut_before_a_score_interrupts_it_alike() -> None:
    making = _made("windows: {w: {size: [2, 1], at: [3, 2]}}",
                   "cut: [8, 6]\nwindow: {size: [2, 1], centred: across, bottom: 2}\nlay: long\nscore: 4\n"
                   "fold: {score: f, fold: valley}", **FOLD)
    assert _names(making.findings) == []
    assert len(making.end.pieces["base"].creases) == 2


def test_no_slit_is_cut_through_folded_paper() -> None:
    making = _made("slits: {s: {from: [1, 1], to: [1, 4]}}",
                   "cut: [8, 6]\nlay: long\nscore: 4\nfold: {score: f, fold: valley}\n"
                   "slit: {at: 1, begins: 2, ends: 5}", **FOLD)
    assert "cut through folded layers" in _names(making.findings)


RING = """slits: {one: {from: [4, 2], to: [7, 2]}, two: {from: [4, 4], to: [7, 4]}}"""


def test_a_score_may_end_on_a_slit_and_all_folds_of_a_ring_go_at_once() -> None:
    scores = ("a: {from: [4, 2], to: [4, 4], fold: valley}, b: {from: [5, 2], to: [5, 4], fold: mountain}, "
              "c: {from: [6, 0], to: [6, 2], fold: valley}, d: {from: [7, 0], to: [7, 2], fold: mountain}, "
              "e: {from: [6, 4], to: [6, 6], fold: valley}, g: {from: [7, 4], to: [7, 6], fold: mountain}")
    actions = ("cut: [8, 6]\nlay: long\n"
               "slit: {from: p, to: q}\nslit: {from: r, to: s}\n"
               "score: {at: 4, begins: 2, ends: 4}\nscore: {at: 5, begins: 2, ends: 4}\n"
               "score: {at: 6, begins: 4}\nscore: {at: 6, ends: 2}\n"
               "score: {at: 7, begins: 4}\nscore: {at: 7, ends: 2}\n"
               "bring to: closed\nmeasure: [6, 6]\nbring to: open")
    marks = "".join(f"mark: {{at: {x}, edge: bottom, from: left, in: {y}, name: {name}}}\n"
                    for name, x, y in (("p", 4, 2), ("q", 7, 2), ("r", 4, 4), ("s", 7, 4)))
    making = _made(
        RING, actions.replace("cut: [8, 6]\n", f"cut: [8, 6]\n{marks}"), scores=scores,
        poses="closed: {still: back, folds: {a: 180, c: 180, e: 180, b: -180, d: -180, g: -180}}, open: {folds: {}}",
        panels="back: [1, 1], step: [4 1/2, 3], low: [6 1/2, 1], high: [6 1/2, 5], front: [7 1/2, 1]")
    assert _names(making.findings) == []
    assert making.end.folded == ()
