"""Small recipes for the tests of the folding stage: the plan as an author writes it, the rest filled in."""

from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.build import build_card
from foldproof.folding.card import Card, FlatPose, StandingPose
from foldproof.folding.overlay import listed
from foldproof.recipe.reader import read_text
from foldproof.recipe.records import Recipe

TAIL = """
steps:
  - title: Begin
    do: [{note: lay everything ready}]
    text: Lay everything ready.
"""


def exact(*values: float | str | Fraction) -> tuple[Fraction, ...]:
    """The values as fractions, to be held against reckoned ones."""
    return tuple(Fraction(value) for value in values)


def recipe_of(plan: str, unit: str = "inch") -> Recipe:
    """The recipe of a plan; whatever the reader finds wrong with it is our mistake."""
    text = f"title: Trial\nunit: {unit}\n"
    if "finished:" not in plan:
        text += "finished: {size: [1, 1]}\n"
    if "papers:" not in plan:
        text += "papers: {card: {kind: cardstock}}\n"
    if "poses:" not in plan:
        plan += "\nposes: {closed: {folds: {}}}"
    reading = read_text(text + plan + TAIL, "trial.yaml")
    assert reading.recipe is not None and not reading.findings, [finding.message for finding in reading.findings]
    return reading.recipe


def built(plan: str, unit: str = "inch") -> tuple[Card | None, tuple[Finding, ...]]:
    """What the folding stage makes of a plan."""
    return build_card(recipe_of(plan, unit))


def card_of(plan: str, unit: str = "inch") -> Card:
    """The card of a sound plan."""
    card, findings = built(plan, unit)
    assert not findings, [finding.message for finding in findings]
    assert card is not None
    return card


def names_of(plan: str, unit: str = "inch") -> list[str]:
    """The names of what is found wrong with a plan."""
    return [finding.name for finding in built(plan, unit)[1]]


def flat(card: Card, name: str = "closed") -> FlatPose:
    """A flat pose by name."""
    pose = card.pose(name)
    assert isinstance(pose, FlatPose)
    return pose


def standing(card: Card, name: str) -> StandingPose:
    """A standing pose by name."""
    pose = card.pose(name)
    assert isinstance(pose, StandingPose)
    return pose


def stack(pose: FlatPose) -> tuple[str, ...]:
    """The panels from the bottom up, where one list tells it."""
    made = listed(tuple(pose.placements), pose.over)
    assert made is not None
    return made
