"""Left and right changed over in names and in the fixed words of the grammar."""

import re

_OTHER = {"left": "right", "right": "left", "clockwise": "anticlockwise", "anticlockwise": "clockwise",
          "counterclockwise": "clockwise", "lefthand": "righthand", "righthand": "lefthand"}
_WORD = re.compile(rf"\b(?:{'|'.join(_OTHER)})\b", re.IGNORECASE)


def other_side(words: str) -> str:
    """A name or a fixed word with its sides changed over: `left door`, `top right`, `quarter clockwise`.

    Done twice it gives the words back (but for `counterclockwise`, which comes back as `anticlockwise`).
    """
    return _WORD.sub(lambda found: dressed(_OTHER[found.group().lower()], found.group()), words)


def dressed(word: str, like: str) -> str:
    """A word with the capitals of another."""
    if like.isupper() and len(like) > 1:
        return word.upper()
    return word.capitalize() if like[:1].isupper() else word
