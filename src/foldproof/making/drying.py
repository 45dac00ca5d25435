"""Glue that is still wet, and what must not be done to it."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from foldproof.findings.finding import Aside, Finding
from foldproof.making.outcome import Setting, fault
from foldproof.making.table import Bonded, Table
from foldproof.making.work import root_still
from foldproof.recipe.records import StepSpec


def moved_while_wet(setting: Setting, piece: str, score: str) -> Iterator[Finding]:
    """Bonds that are not dry and ride on the part of the work that a fold swings.

    What lies still while another part is folded over it is pressed and not pulled: that is left alone.
    """
    card, table = setting.card, setting.table
    wet = [bond for bond in table.bonds if bond.wet_until > table.clock]
    still = root_still(card, table.root(piece)) if wet else None
    if still is None:
        return
    held = _held(setting, still, score)
    for made in wet:
        bond = next(bond for bond in card.bonds if bond.name == made.name)
        if table.root(made.root) == table.root(piece) and bond.under.panel not in held:
            yield _too_soon(setting, made, score)


def _held(setting: Setting, still: str, score: str) -> frozenset[str]:
    """The panels that stay where they are: those that the still one holds without the score that is folded."""
    card = setting.card
    made = {bond.name for bond in setting.table.bonds}
    pairs = [set(hinge.panels) for hinge in card.hinges if hinge.score != score]
    pairs += [{bond.under.panel, bond.over.panel} for bond in card.bonds if bond.name in made]
    held = {still}
    while more := {name for pair in pairs if pair & held for name in pair} - held:
        held |= more
    return frozenset(held)


def _too_soon(setting: Setting, made: Bonded, score: str) -> Finding:
    lacking = made.wet_until - setting.table.clock
    minutes, seconds = divmod(int(lacking), 60)
    wait = " ".join(part for part in (f"{minutes} min" if minutes else "", f"{seconds} s" if seconds else "") if part)
    bond = next(bond for bond in setting.card.bonds if bond.name == made.name)
    return fault(
        setting, "folded while the glue is wet", f"The {made.name} needs another {wait} to dry, and this moves the "
        f"{bond.under.panel}, which it is glued to, on the {score}.",
        f"Wait first: `dry: {wait}` before this, or fold before gluing.",
        asides=(Aside(text=f"the {made.name} is glued", place=made.place),) if made.place else ())


def rested(table: Table, before: Table, step: StepSpec) -> Table:
    """The table after a step, when the minutes that its hands took have passed as well as its waiting.

    What was glued in a later step's time dries on meanwhile; what the step itself glued may have been its last deed,
    so that its minutes do nothing for that.
    """
    if step.minutes is None:
        return table
    waited = table.clock - before.clock
    passed = max(step.minutes.value - waited, Fraction(0))
    older = {bond.name for bond in before.bonds}
    return replace(
        table, clock=table.clock + passed,
        bonds=tuple(bond if bond.name in older else replace(bond, wet_until=bond.wet_until + passed)
                    for bond in table.bonds))
