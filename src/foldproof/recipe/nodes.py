"""What YAML text is made of, each part with its place; every scalar stays the text that was written."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar:
    """A word, a number or a passage, as text."""

    text: str
    style: str | None
    """None for plain text, else the quote mark, `|` or `>`; `*` for a copy, which is refused."""
    place: Place
    lost: str | None = None
    """A # with letters or digits right behind it, after plain text: YAML drops it as a comment."""

    @property
    def empty(self) -> bool:
        """Whether nothing is written here: `key:` and then the end of the line."""
        return self.style is None and not self.text


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """A list."""

    items: tuple["Node", ...]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A key with its value."""

    key: Scalar
    value: "Node"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping:
    """Keys with values, in the order of writing; no key comes twice."""

    entries: tuple[Entry, ...]
    place: Place
    braces: bool = False
    """Whether it is written in braces."""

    def value(self, key: str) -> "Node | None":
        """The value at a key."""
        return next((entry.value for entry in self.entries if entry.key.text == key), None)


Node = Scalar | Sequence | Mapping


def entries_of(node: Node | None) -> tuple[Entry, ...]:
    """The entries of a mapping; none of anything else."""
    return node.entries if isinstance(node, Mapping) else ()
