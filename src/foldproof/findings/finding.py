"""A finding: what is wrong, where, by how much, and what would mend it."""

from enum import StrEnum

from foldproof.frozen import dataclass


class Severity(StrEnum):
    """How much a finding matters."""

    ERROR = "error"
    """The card, or the text of the recipe, is wrong: nothing is built."""
    WARNING = "warning"
    """Likely to spoil somebody's card; the build goes on."""
    ADVICE = "advice"
    """Worth knowing; nothing is wrong."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Place:
    """Where something stands in a recipe."""

    file: str
    """As the author named it on the command line; relative where it can be."""
    line: int
    """From 1."""
    column: int
    """From 1, in characters."""
    length: int = 1
    """Characters to underline, at least 1, within the line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside:
    """A second place that helps to understand a finding."""

    text: str
    place: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing reported to the author."""

    name: str
    """The fault in plain words, listed in the catalogue: `score ends inside a panel`."""
    severity: Severity
    message: str
    """One or two sentences in the maker's words, with the amount: what is wrong and why."""
    mend: str | None = None
    """What would put it right, as an instruction."""
    place: Place | None = None
    asides: tuple[Aside, ...] = ()
    step: str | None = None
    """The id of the step that it concerns."""


def has_errors(findings: tuple[Finding, ...]) -> bool:
    """Whether any finding stops a build."""
    return any(finding.severity is Severity.ERROR for finding in findings)
