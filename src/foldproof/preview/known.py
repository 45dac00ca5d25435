"""What is known of a card from save to save, so that a change of words draws and reckons nothing again."""

from functools import cached_property, lru_cache

from foldproof.documents.drawings import draw_for_screen
from foldproof.documents.handout_drawings import (
    Choice,
    HandoutDrawings,
    Ways,
    choice,
    handout_drawings,
    ways_of,
    with_those,
)
from foldproof.documents.handout_kinds import REGULAR
from foldproof.documents.page import STYLE
from foldproof.documents.telling import Drawn
from foldproof.documents.view import View
from foldproof.drawing.opening import Opening, draw_opening
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.records import Recipe
from foldproof.tolerance.study import Study, study

MOST = 2
"""How many cards are known: this one, and the one before it for an author who goes back."""


class Known:
    """Everything that is made of a sound card without a look at its prose, each part when it is first asked for.

    It is made from the recipe without its prose (`wordless`), so it can't depend on what may have changed since.
    """

    def __init__(self, recipe: Recipe) -> None:
        self._recipe = recipe
        self._handout: tuple[Choice, HandoutDrawings] | None = None

    @cached_property
    def _card(self) -> Card:
        card, _ = build_card(self._recipe)
        if card is None:
            raise ValueError("a recipe that is not sound has no card")
        return card

    @cached_property
    def _making(self) -> Making:
        return carry_out(self._card)

    @cached_property
    def study(self) -> Study:
        """How far a class may be off."""
        return study(self._card, self._making)

    @property
    def studied(self) -> bool:
        """Whether the study has been made already."""
        return "study" in self.__dict__

    @cached_property
    def opening(self) -> Opening | None:
        """The card as it opens."""
        return draw_opening(self._card)

    @cached_property
    def screen(self) -> Drawn:
        """The drawings of the page."""
        return draw_for_screen(self._card, self._making, STYLE)

    @cached_property
    def _ways(self) -> Ways:
        return ways_of(self._card, self._making, REGULAR)

    def handout(self, view: View) -> View:
        """The view with the drawings of the usual handout, arranged as its words leave room."""
        chosen = choice(view, self._ways, REGULAR)
        if self._handout is None or self._handout[0] != chosen:
            self._handout = chosen, handout_drawings(self._card, self._making, REGULAR, self._ways, chosen)
        return with_those(view, self._handout[1], REGULAR)


@lru_cache(maxsize=MOST)
def known(recipe: Recipe) -> Known:
    """What is known of the card of a recipe without its prose."""
    return Known(recipe)
