"""One entry of the catalogue: a fault that a check can report."""

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A fault by its name, how much it matters, and what it means."""

    name: str
    """The fault in plain words, as findings carry it."""
    severity: Severity
    meaning: str
    """One sentence: what is wrong when it is reported."""

    def finding(
        self, message: str, *, mend: str | None = None, place: Place | None = None, asides: tuple[Aside, ...] = (),
        step: str | None = None,
    ) -> Finding:
        """Report it."""
        return Finding(
            name=self.name, severity=self.severity, message=message, mend=mend, place=place, asides=asides, step=step)


def error(name: str, meaning: str) -> Check:
    """A fault that stops the build."""
    return Check(name=name, severity=Severity.ERROR, meaning=meaning)


def warning(name: str, meaning: str) -> Check:
    """A fault that is likely to spoil somebody's card."""
    return Check(name=name, severity=Severity.WARNING, meaning=meaning)


def advice(name: str, meaning: str) -> Check:
    """Something worth knowing."""
    return Check(name=name, severity=Severity.ADVICE, meaning=meaning)
