"""What lies on the bench, and what is told of it: known to the bench and to the processes that work for it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from foldproof.frozen import dataclass

WORKS = ("page", "handout", "shots")
"""What is done after a save, each by a process of its own."""
AT_ONCE = ("page", "handout")
"""What is begun with the save; the rest is begun once the page is done."""
Going = Callable[[], None]
"""To be called between parts; raises StaleError where a newer save has come."""
Result = tuple[str, Any]
"""`findings`, `page`, `sheets` or `trouble`, and what there is to say."""


class StaleError(Exception):
    """The work is no longer wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """What lies on the bench."""

    recipe: Path
    theme: str
