"""The quick answer to whether a face lies open is never another than the full view's."""

from pathlib import Path

import pytest

from foldproof.folding.build import build_card
from foldproof.folding.card import Bond
from foldproof.making import bonding
from foldproof.making.carry_out import carry_out
from foldproof.making.outcome import Setting
from foldproof.recipe.reader import read_file

RECIPES = Path(__file__).parents[2] / "recipes"


@pytest.mark.parametrize("name", ["tide-gate", "harbour-coat", "lee-shore"])
def test_the_quick_answer_is_the_full_view_s(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    recipe = read_file(RECIPES / f"{name}.yaml").recipe
    assert recipe is not None
    card, _ = build_card(recipe)
    assert card is not None
    quick = carry_out(card)
    asked: list[str] = []

    def never(setting: Setting, receiver: str, bond: Bond) -> bool:
        asked.append(receiver)
        return False

    monkeypatch.setattr(bonding, "_plainly_open", never)
    assert carry_out(card) == quick
    assert asked
