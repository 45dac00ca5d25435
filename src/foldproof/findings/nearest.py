"""The likely intended word."""

from collections.abc import Iterable, Mapping
from difflib import SequenceMatcher

_ALIKE = 0.62
"""Share of the letters that two words must have in common to be offered (our own choice)."""


def nearest(word: str, known: Iterable[str], synonyms: Mapping[str, str] | None = None) -> str | None:
    """Give the known word that was likely meant by `word`, or None where none is close.

    Case, hyphens, underscores and doubled spaces are not told apart. `synonyms` maps everyday words to known ones
    (`center` to `centred`) and is looked at first; an entry that names no known word is passed over. Among equally
    close words the first in the order of `known` is given.
    """
    words = tuple(known)
    wanted = _plain(word)
    if not wanted:
        return None
    for everyday, meant in (synonyms or {}).items():
        if _plain(everyday) == wanted and meant in words:
            return meant
    best, most = None, _ALIKE
    for candidate in words:
        alike = _likeness(wanted, _plain(candidate))
        if alike > most:
            best, most = candidate, alike
    return best


def _plain(word: str) -> str:
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())


def _likeness(wanted: str, candidate: str) -> float:
    if wanted == candidate:
        return 2.0
    if sorted(wanted.split()) == sorted(candidate.split()):
        return 1.5  # the right words in another order
    return SequenceMatcher(None, wanted, candidate, autojunk=False).ratio()
