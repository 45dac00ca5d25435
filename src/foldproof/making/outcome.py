"""What carrying out an action gives, and the setting in which it is carried out."""

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Dimension, OnTable, Table
from foldproof.measures.writing import with_unit, write_length
from foldproof.paper.vector import Ring, Segment
from foldproof.recipe.actions import Action
from foldproof.recipe.records import StepSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One action about to be carried out."""

    card: Card
    table: Table
    step: StepSpec
    action: Action
    again: bool = False
    """Whether the step is done again, with another piece than its own."""

    @property
    def target(self) -> str | None:
        """The piece or layer that it acts on."""
        return self.action.piece or (self.step.piece.value if self.step.piece else None)

    def length(self, value: Fraction) -> str:
        """A length for a message, with its unit."""
        return with_unit(value, self.card.recipe.unit)

    def size(self, width: Fraction, height: Fraction) -> str:
        """Two lengths for a message, with their unit."""
        return f"{write_length(width, self.card.recipe.unit)} × {self.length(height)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What an action left."""

    table: Table
    piece: str | None = None
    dimensions: tuple[Dimension, ...] = ()
    lines: tuple[Segment, ...] = ()
    tool: str | None = None
    gone: tuple[Ring, ...] = ()
    findings: tuple[Finding, ...] = ()


def fault(
    setting: Setting, name: str, message: str, mend: str | None = None, place: Place | None = None,
    severity: Severity = Severity.ERROR, asides: tuple[Aside, ...] = (),
) -> Finding:
    """A finding about the action at hand."""
    return Finding(
        name=name, severity=severity, message=message, mend=mend, place=place or setting.action.place,
        step=setting.step.id, asides=asides,
    )


def refused(setting: Setting, name: str, message: str, mend: str | None = None) -> Outcome:
    """The action cannot be done: the table stays as it was."""
    return Outcome(table=setting.table, piece=setting.target, findings=(fault(setting, name, message, mend),))


def with_pieces(table: Table, *pieces: OnTable) -> Table:
    """The table with these pieces put in place of those of the same name."""
    return replace(table, pieces=MappingProxyType({**table.pieces, **{piece.name: piece for piece in pieces}}))
