"""Panels that bonds make one rigid body."""

from collections.abc import Iterable, Sequence

from foldproof.folding.card import Bond


def bodies(bonds: Sequence[Bond], panels: Iterable[str]) -> dict[str, str]:
    """For each panel the name of one panel of its body, the same for all of the body."""
    body = {name: name for name in panels}
    for bond in bonds:
        a, b = body[bond.under.panel], body[bond.over.panel]
        body = {name: a if value == b else value for name, value in body.items()}
    return body
