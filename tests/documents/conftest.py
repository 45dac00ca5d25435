"""A small card for the documents: a folded card with a mat, told in two steps."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from foldproof.documents.telling import Drawn, tell
from foldproof.documents.theme import Theme, load_theme
from foldproof.documents.view import View
from foldproof.drawing.record import Drawing
from foldproof.findings.finding import has_errors
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.pipeline import Options, Proof, documents, prove

RECIPE = """\
title: "=Quiet <card>"
summary: A folded card with one mat & no fuss.
skill: beginner
unit: inch
measures: {border: 1/8}
finished: {size: [4 1/4, 5 1/2], envelope: A2}
papers:
  slate: {kind: cardstock, weight: 80 lb cover, thickness: 0.011 in, sheet: [8 1/2, 11]}
  waves: {kind: patterned paper, weight: 70 lb text, thickness: 0.005 in, sheet: [12, 12], printed: one face}
pieces:
  base:
    paper: slate
    size: [8 1/2, 5 1/2]
    scores: {spine: {across: 4 1/4, fold: mountain}}
    panels: {rear: left of spine, cover: right of spine}
layers:
  mat: {paper: waves, size: [4, 5 1/4], upon: cover front, at: {centred: both}, adhesive: wet glue}
poses:
  closed: {still: cover, folds: {spine: -180}}
  open: {still: cover, folds: {}}
opening: [closed, open]
supplies: {wet glue: {kind: wet glue, amount: a few dots, dries: 5 min}}
tools: {trimmer: {}, scoring board: {}, pencil: {basic: true}}
steps:
  - title: Cut and score the base
    id: base
    piece: base
    tools: [trimmer, scoring board]
    do:
      - cut: [8 1/2, 5 1/2]
      - lay: {edge: long, up: front}
      - score: 4 1/4
      - fold: {score: spine, fold: mountain}
    text: Cut the base 8 1/2 x 5 1/2 in. Lay a *long* edge against the fence and score at 4 1/4 in. Fold it <behind>.
    say: "=Score at 4 1/4 in."
    tip: Press **twice**.
    minutes: 3
    film:
      - {framing: overhead close, seconds: 25}
      - {framing: front on, seconds: 5}
  - title: Glue the mat
    id: mat
    piece: mat
    tools: [trimmer]
    supplies: [wet glue]
    do:
      - cut: [4, 5 1/4]
      - attach: {what: mat, border: 1/8, with: wet glue}
      - dry: 5 min
    text: Cut the mat 4 x 5 1/4 in. Glue it on with a border of {border} and let it dry 5 min.
    caution: Keep glue off the cloth.
    minutes: 4
"""


def drawing(name: str, words: str = "5 1/2 in") -> Drawing:
    """A drawing that stands in for a real one."""
    svg = (
        '<svg role="img" xmlns="http://www.w3.org/2000/svg" width="40.00mm" height="30.00mm" viewBox="0 0 40 30">'
        '<path d="M1 1 H39 V29 H1 Z" fill="none" stroke="#111"/>'
        f'<text x="5" y="15" font-family="Source Sans Pro" font-size="4">{words}</text></svg>\n'
    )
    return Drawing(svg=svg, alt=f"A picture of {name}, \"as it is\".", width_mm=40, height_mm=30, name=name)


@pytest.fixture(scope="session")
def proof(tmp_path_factory: pytest.TempPathFactory) -> Proof:
    path = tmp_path_factory.mktemp("recipe") / "quiet.yaml"
    path.write_text(RECIPE, encoding="utf-8")
    proof = prove(path)
    assert not has_errors(proof.findings), proof.findings
    return proof


@pytest.fixture(scope="session")
def card(proof: Proof) -> Card:
    assert proof.card is not None
    return proof.card


@pytest.fixture(scope="session")
def making(proof: Proof) -> Making:
    assert proof.making is not None
    return proof.making


@pytest.fixture(scope="session")
def view(card: Card, making: Making) -> View:
    drawn = Drawn(
        poses={"closed": drawing("pose-closed"), "open": drawing("pose-open")},
        steps={"base": drawing("step-01"), "mat": drawing("step-02", "1/8 in")},
        tall_steps={"base": drawing("step-01"), "mat": drawing("step-02", "1/8 in")},
        cutting=drawing("cutting"), tall_cutting=drawing("cutting"),
        key=replace(drawing("key"), width_mm=100), tall_key=drawing("key"),
    )
    return tell(card, making, drawn=drawn, photos={}, revision="0123abcd", version="9.9", dated="2026-03-01")


@pytest.fixture(scope="session")
def plain_theme() -> Theme:
    return load_theme("plain")


@pytest.fixture(scope="session")
def files(proof: Proof) -> Mapping[str, bytes]:
    """The real set of outputs, drawn and printed."""
    return documents(proof, Options(dated="2026-03-01"))


@pytest.fixture
def recipe_file(tmp_path: Path) -> Path:
    path = tmp_path / "quiet.yaml"
    path.write_text(RECIPE, encoding="utf-8")
    return path
