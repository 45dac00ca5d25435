"""The sheets that a card takes, at a glance and among its papers."""

from pathlib import Path

import pytest

from foldproof.documents.cutting import papers
from foldproof.documents.glance import facts
from foldproof.pipeline import prove

RECIPES = Path(__file__).resolve().parents[2] / "recipes"


@pytest.mark.parametrize(("recipe", "paper", "wanted", "said"), [
    pytest.param("harbour-coat", "brass", "one piece 1 in across",
                 "2 coat card and 1 sailcloth; brass: one piece 1 in across", id="a circle"),
    pytest.param("four-winds", "chalk", "1 sheet of 8 1/2 × 11 in", "1 heather, 1 sand and 1 chalk", id="sheets"),
])
def test_no_paper_is_left_out(recipe: str, paper: str, wanted: str, said: str) -> None:
    proof = prove(RECIPES / f"{recipe}.yaml")
    assert proof.card is not None and proof.making is not None
    assert next(fact.text for fact in facts(proof.card, proof.making) if fact.label == "Sheets") == said
    assert next(one.note for one in papers(proof.card, proof.making) if one.name == paper).endswith(wanted)


def test_what_is_cut_from_paper_of_no_known_sheet_is_counted(tmp_path: Path) -> None:
    told = (RECIPES / "four-winds.yaml").read_text(encoding="utf-8").replace("sheet: [12, 12], tone", "tone")
    path = tmp_path / "winds.yaml"
    path.write_text(told, encoding="utf-8")
    proof = prove(path)
    assert proof.card is not None and proof.making is not None
    said = next(fact.text for fact in facts(proof.card, proof.making) if fact.label == "Sheets")
    assert said == "1 chalk; heather: one piece 12 × 4 in; sand: one piece 12 × 4 in"
