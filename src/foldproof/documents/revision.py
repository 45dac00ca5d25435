"""The revision stamp: equal on the handout, the page and the shot list that belong together."""

import hashlib
from collections.abc import Iterable


def revision(recipe: str, theme: Iterable[tuple[str, bytes]], version: str) -> str:
    """Eight hexadecimal digits of a hash of the recipe's text, the theme's files and the program's version."""
    digest = hashlib.sha256()
    for name, data in (("recipe", recipe.encode()), ("version", version.encode()), *sorted(theme)):
        digest.update(f"{len(name)}:{name}:{len(data)}:".encode())
        digest.update(data)
    return digest.hexdigest()[:8]
