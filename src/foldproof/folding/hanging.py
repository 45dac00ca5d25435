"""What hangs together: names joined link by link (disjoint sets)."""

from collections.abc import Iterable


class Hanging:
    """Groups of names; at first each name is a group of its own."""

    def __init__(self, names: Iterable[str], links: Iterable[tuple[str, str]] = ()) -> None:
        self._leader = {name: name for name in names}
        for one, other in links:
            self.join(one, other)

    def group(self, name: str) -> str:
        """The name that stands for the group of a name; equal for two that hang together."""
        while self._leader[name] != name:
            name = self._leader[name]
        return name

    def join(self, one: str, other: str) -> bool:
        """Make one group of two; False where they hang together already."""
        a, b = self.group(one), self.group(other)
        self._leader[a] = b
        return a != b
