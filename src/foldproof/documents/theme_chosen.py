"""Which theme a card's documents have: the one that is asked for, the recipe's own, or plain."""

from pathlib import Path

from foldproof.documents.theme import Theme, load_theme, read_theme
from foldproof.documents.theme_folders import PLAIN, own_folder
from foldproof.recipe.records import Recipe


def chosen(asked: str, recipe: Recipe, folder: Path) -> Theme:
    """The theme that is asked for, else the one that the recipe in this folder names, else plain.

    Raises ThemeError where it is broken.
    """
    own = own_folder(recipe, folder)
    if asked or own is None:
        return load_theme(asked or (recipe.theme.value if recipe.theme else PLAIN))
    return read_theme(own)
