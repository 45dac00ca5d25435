"""Names given and used while a recipe is read."""

import re

from foldproof.recipe.desk import Desk, Used
from foldproof.recipe.kinds import Naming
from foldproof.recipe.nodes import Scalar
from foldproof.recipe.records import Text
from foldproof.recipe.wording import a
from foldproof.recipe.words import FIXED_POINTS

TRUTH_WORDS = frozenset(["y", "yes", "n", "no", "on", "off", "true", "false", "null", "~"])
"""Words that YAML readers take for true, false or nothing."""
LONGEST_NAME = 60
_ODD_SIGN = re.compile(r"[{}\[\],:#*&|<>\"`]")
_RESERVED: dict[Naming, tuple[str, ...]] = {
    Naming.POINT: FIXED_POINTS,
    Naming.MARK: FIXED_POINTS,
    Naming.SCORE: ("found",),
    Naming.PANEL: ("card", "edge"),
    Naming.LAYER: ("card", "edge"),
    Naming.PIECE: ("card", "edge"),
}


def reserved(naming: Naming) -> tuple[str, ...]:
    """Words that cannot be the name of such a thing: they have a meaning of their own where its names are used."""
    return _RESERVED.get(naming, ())


def tidy(text: str) -> str:
    """A name with single spaces."""
    return " ".join(text.split())


def use(node: Scalar, namings: tuple[Naming, ...], also: tuple[str, ...], desk: Desk) -> Text | None:
    """Note that a name is used; whether it is given anywhere is seen when all is read."""
    name = Text(value=tidy(node.text), place=node.place)
    if not name.value:
        desk.error(
            "nothing written",
            f"Nothing is written where the name of {' or '.join(a(each) for each in namings)} belongs.",
            node.place,
        )
        return None
    desk.used.append(Used(namings=namings, name=name, also=also, owner=desk.owner))
    return name


def fit_for_name(name: Text, naming: Naming, desk: Desk) -> bool:
    """Whether a new name can be told from everything else that may stand where names are used."""
    word, what = name.value, f"the name of {a(naming)}"
    if not word:
        fault = f"A {naming} needs a name."
    elif len(word) > LONGEST_NAME:
        fault = f"{what.capitalize()} has at most {LONGEST_NAME} letters; this has {len(word)}."
    elif word.casefold() in TRUTH_WORDS:
        fault = (
            f"`{word}` cannot be {what}: YAML takes it for true, false or nothing, so other programs would not see it "
            "as a word."
        )
    elif not word[0].isalpha() or _ODD_SIGN.search(word):
        fault = (
            f"`{word}` cannot be {what}: it starts with a letter and has only letters, digits, spaces, hyphens and "
            "apostrophes, so that it can be told from a measure."
        )
    elif word in reserved(naming):
        fault = f"`{word}` cannot be {what}: it has a meaning of its own where such names are used."
    else:
        return True
    desk.error("name not usable", fault, name.place, "Choose another name.")
    return False
