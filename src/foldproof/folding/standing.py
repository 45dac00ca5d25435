"""Poses that stand off the table, in floats: rotations about hinges."""

from foldproof.findings.finding import Finding, Severity
from foldproof.folding.card import Card, StandingPose
from foldproof.recipe.records import PoseSpec


def stand(card: Card, spec: PoseSpec) -> tuple[StandingPose | None, tuple[Finding, ...]]:
    """A standing pose."""
    return None, (Finding(
        name="standing pose not worked out", severity=Severity.ADVICE, place=spec.place,
        message=f"The pose {spec.name} stands off the table; this version only works out flat poses."),)
