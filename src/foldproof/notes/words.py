"""How a draft is written: its questions, its comments, its values."""

import json
import re

from foldproof.notes.records import Fact

ASKED = "# ?"
"""What a question in a draft starts with."""
WIDTH = 116
"""Columns of a draft's lines."""
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 '/-]*")


def value(text: str) -> str:
    """Words as they stand after a key's colon, in quotes where YAML needs them."""
    return f" {text}" if _PLAIN.fullmatch(text) and text == text.strip() else f" {json.dumps(text, ensure_ascii=False)}"


def source(fact: Fact) -> str:
    """A comment that says where in the notes a fact was read."""
    return f"  # line {fact.line}: {short(fact.quote)}"


def short(text: str) -> str:
    """The words of the notes, cut where they are long."""
    plain = " ".join(text.replace("#", "no. ").split())
    return f"\"{plain if len(plain) <= 60 else plain[:57] + '...'}\""


def opening(text: str) -> str:
    """The first words of a passage, for a title."""
    words = re.split(r"(?<=[a-z])[.;:!?]", text)[0].split()
    return " ".join(words[:7]).rstrip(",") if words else "Step"
