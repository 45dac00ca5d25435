"""What the table says of a direction phrase."""

from foldproof.checks.directions.phrases import Phrase
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A phrase decided by the table."""

    phrase: Phrase
    true: bool
    says: str
    """What the table says, a sentence without its full stop: `the left door lies at the left`."""
    instead: str | None = None
    """The word that would be true, where one is known."""


def decided(phrase: Phrase, true: bool, says: str, instead: str | None = None) -> Verdict:
    """A verdict."""
    return Verdict(phrase=phrase, true=true, says=says, instead=None if true else instead)
