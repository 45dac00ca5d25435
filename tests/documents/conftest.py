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

RECIPE = (Path(__file__).parent / "quiet.yaml").read_text(encoding="utf-8")


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
