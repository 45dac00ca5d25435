"""Where a fact comes from and how far it is to be trusted."""

from enum import StrEnum

from foldproof.frozen import dataclass


class Mark(StrEnum):
    """How a fact was found."""

    PUBLISHER = "P"
    """In the publisher's own text."""
    SECONDARY = "S"
    """In a secondary page only."""
    MEMORY = "M"
    """From memory; not found stored."""
    RECKONED = "C"
    """Reckoned here, by exact arithmetic."""
    CUSTOM = "common practice"
    """Common practice of the trade, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A published text, or what stands in its place."""

    text: str
    mark: Mark
    date: str | None = None
    """Of the text that was read, as precisely as is known: `January 2021`."""

    def __str__(self) -> str:
        return f"{self.text} ({self.date})" if self.date else self.text


CUSTOM = Source(text="common practice, no source", mark=Mark.CUSTOM)
MEMORY = Source(text="from memory, not found stored", mark=Mark.MEMORY)
