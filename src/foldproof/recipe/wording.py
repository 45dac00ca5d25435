"""Turns of phrase for findings about a recipe's text."""

from collections.abc import Sequence as PlainSequence

from foldproof.recipe.kinds import Form
from foldproof.recipe.nodes import Mapping, Node, Scalar, Sequence


def a(noun: str) -> str:
    """A noun with its article."""
    return f"{'an' if noun[:1] in 'aeio' else 'a'} {noun}"


def in_words(words: PlainSequence[str], joint: str) -> str:
    """Words of the grammar in a sentence: `a`, `b` and `c`."""
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} {joint} {quoted[-1]}"


def an_example(form: Form, name: str) -> str:
    """A key of a form with a value, as it would be written."""
    key = form.key(name)
    return f"{name}: {key.example}" if key else name


def what_stands(node: Node) -> str:
    """What a node is, at the start of a sentence."""
    match node:
        case Sequence():
            return "A list"
        case Mapping():
            return "A mapping of keys and values"
        case Scalar(text=text) if not text.strip():
            return "Nothing"
        case Scalar(text=text):
            flat = " ".join(text.split())
            return f"`{flat if len(flat) < 40 else flat[:36] + ' ...'}`"
