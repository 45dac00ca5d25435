"""What is gathered while a recipe is read: findings, names that are given, names that are used."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import field
from typing import TypeVar

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity, Unit
from foldproof.recipe.kinds import Form, Naming
from foldproof.recipe.records import Text

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A name that the recipe gives to something."""

    naming: Naming
    name: Text
    owner: int | None
    """The item of a list or mapping in which it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """A name by which the recipe refers to something."""

    namings: tuple[Naming, ...]
    name: Text
    also: tuple[str, ...]
    owner: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something in a list or under a name of the recipe: left out whole where any part of it could not be read."""

    name: Text | None
    value: object
    owner: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Fields:
    """The values of one mapping, read by the kinds of its keys."""

    form: Form
    place: Place
    values: Mapping[str, object]

    def get(self, key: str, sort: type[T]) -> T | None:
        """The value at a key; a value of another sort is our own mistake."""
        value = self.values.get(key)
        if value is None:
            return None
        if not isinstance(value, sort):
            raise TypeError(f"{self.form.name}: {key} holds {type(value).__name__}, not {sort.__name__}")
        return value

    def need(self, key: str, sort: type[T]) -> T:
        """The value at a required key."""
        value = self.get(key, sort)
        if value is None:
            raise KeyError(f"{self.form.name}: {key}")
        return value

    def word(self, key: str) -> str | None:
        """One of a few words, or its default."""
        value = self.get(key, str)
        if value is None:
            described = self.form.key(key)
            return described.default if described else None
        return value

    def size(self, key: str) -> tuple[Quantity, Quantity] | None:
        """Width and height."""
        values = self.get(key, tuple)
        if values is None:
            return None
        width, height = values
        assert isinstance(width, Quantity) and isinstance(height, Quantity)
        return width, height

    def several(self, key: str, sort: type[T]) -> tuple[T, ...]:
        """The values of a list or of a mapping of names; none where the key is left out."""
        values = self.get(key, tuple) or ()
        plain: list[T] = []
        for value in values:
            part = value.value if isinstance(value, Item) else value
            if not isinstance(part, sort):
                raise TypeError(f"{self.form.name}: {key} holds {type(part).__name__}, not {sort.__name__}")
            plain.append(part)
        return tuple(plain)


Builder = Callable[[Fields, Text | None, "Desk"], object | None]
"""Makes a record of read fields and, where it has one, its name; None after reporting what is wrong."""


@dataclass(slots=True, kw_only=True)
class Desk:
    """The state of one reading."""

    file: str
    unit: Unit
    builders: Mapping[str, Builder]
    measures: Mapping[str, Quantity] = field(default_factory=dict)
    measure_places: Mapping[str, Place] = field(default_factory=dict)
    """Where each measure's name stands."""
    unreadable: frozenset[str] = frozenset()
    """Named measures with a finding of their own: what leans on them stays silent."""
    texts: Mapping[str, str] = field(default_factory=dict)
    """The text of every file that is read, by its name."""
    findings: list[Finding] = field(default_factory=list)
    given: list[Given] = field(default_factory=list)
    used: list[Used] = field(default_factory=list)
    broken: set[int] = field(default_factory=set)
    """The items that could not be read whole."""
    marks: dict[str, Place] = field(default_factory=dict)
    """Pencil marks made so far, in the order of the steps."""
    owner: int | None = None
    unlisted: set[Naming] = field(default_factory=set)
    """Kinds of names that stand in a part which is missing or could not be read: uses of them stay silent."""
    lacking: bool = False
    """Whether a part that stands in no item is missing or broken, or a name could mean either of two things."""
    prose: int = 0
    """Characters of all passages so far."""
    _owners: int = 0

    def error(
        self, name: str, message: str, place: Place | None, mend: str | None = None, asides: Iterable[Aside] = ()
    ) -> None:
        """Report something that stops a build."""
        self.findings.append(
            Finding(name=name, severity=Severity.ERROR, message=message, mend=mend, place=place, asides=tuple(asides))
        )

    def warning(self, name: str, message: str, place: Place | None, mend: str | None = None) -> None:
        """Report something that a build survives."""
        self.findings.append(Finding(name=name, severity=Severity.WARNING, message=message, mend=mend, place=place))

    @contextmanager
    def item(self) -> Iterator[int]:
        """Open an item of a list or mapping; the outermost one on the way is left out when a part of it is broken."""
        outer = self.owner
        if outer is None:
            self._owners += 1
        self.owner = self._owners if outer is None else outer
        try:
            yield self.owner
        finally:
            self.owner = outer
