"""Where a number of a folded passage stands in the recipe's own lines."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from foldproof.findings.finding import Place
from foldproof.recipe.records import Text

NO_TEXTS: Mapping[str, str] = {}


def place_in(text: Text, start: int, end: int, texts: Mapping[str, str] = NO_TEXTS) -> Place:
    """The place of the characters `start` to `end` of a passage.

    On one line, bare or in one pair of quotes, it is reckoned; in a block (`>`, `|`) or over several lines the passage
    is followed through the text of its file, blanks left out; where that fails, or without the text, it is the
    passage's start. `texts` are those of the recipe.
    """
    place = text.place
    one_line = place.length - len(text.value)
    if one_line in (0, 2):
        return replace(place, column=place.column + one_line // 2 + start, length=max(1, end - start))
    source = texts.get(place.file, "")
    found = _followed(source, place, text.value, start) if source else None
    if found is None:
        return place
    line, column = found
    rest = source.split("\n")[line - 1][column - 1:].rstrip()
    return replace(place, line=line, column=column, length=max(1, min(end - start, len(rest))))


def words_round(text: str, start: int, end: int) -> str:
    """The characters `start` to `end` of a passage with up to three words before and after them."""
    before, after = text[:start].split()[-3:], text[end:].split(maxsplit=3)[:3]
    gap = " " if text[end:end + 1].isspace() else ""
    return f"{' '.join([*before, *text[start:end].split()])}{gap}{' '.join(after)}"


@lru_cache(maxsize=4)
def _lines(source: str) -> list[str]:
    """The lines of a recipe, which is asked for them often."""
    return source.split("\n")


@lru_cache(maxsize=4096)  # several checks ask for the same number
def _followed(source: str, place: Place, value: str, start: int) -> tuple[int, int] | None:
    lines = _lines(source)
    if not 0 < place.line <= len(lines):
        return None
    line, column = place.line, place.column
    if lines[line - 1][column - 1:column] in (">", "|"):
        line, column = line + 1, 1
    elif lines[line - 1][column - 1:column] in ("'", '"'):
        column += 1
    for offset, character in enumerate(value):
        if character.isspace():
            continue
        while line <= len(lines) and not lines[line - 1][column - 1:].strip():
            line, column = line + 1, 1
        if line > len(lines):
            return None
        row = lines[line - 1]
        while row[column - 1].isspace():
            column += 1
        if row[column - 1] != character:
            return None
        if offset >= start:
            return line, column
        column += 1
    return None
