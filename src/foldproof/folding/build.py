"""From the recipe to the card: pieces divided, layers and joins placed, poses folded."""

from dataclasses import replace

from foldproof.findings.finding import Finding, has_errors
from foldproof.folding.card import Card, CardPiece, Hinge, Panel
from foldproof.folding.fixing import fix_all
from foldproof.folding.panels import divide
from foldproof.folding.poses import pose_all
from foldproof.folding.words import error
from foldproof.recipe.records import LayerSpec, PieceSpec, Recipe

MOST_FOLDED = 30_000
"""Panels that fold, squared, times poses: so the work of laying them over each other grows. Some 10 s at the most; 30
panels in 33 poses, or 200 in one."""
MOST_STACKED = 80_000
"""The same of panels that fold and layers together, which are quicker: 44 in 40 poses, or 100 in eight."""


def build_card(recipe: Recipe) -> tuple[Card | None, tuple[Finding, ...]]:
    """The card of a recipe with all that is wrong with it; no card where its geometry cannot be worked out."""
    card, findings = put_together(recipe)
    if card is None:
        return None, findings
    if (much := _too_much(card)) is not None:
        return None, (*findings, much)
    poses, faults = pose_all(card)
    return replace(card, poses=poses), (*findings, *faults)


def put_together(recipe: Recipe) -> tuple[Card | None, tuple[Finding, ...]]:
    """The card of a recipe with its pieces divided and joined, and not yet in any pose."""
    pieces: list[CardPiece] = []
    panels: dict[str, Panel] = {}
    hinges: list[Hinge] = []
    findings: list[Finding] = []
    sheets: tuple[PieceSpec | LayerSpec, ...] = (*recipe.pieces, *recipe.layers)
    for spec in sheets:
        divided, faults = divide(spec, recipe.unit)
        findings.extend(faults)
        if divided is None:
            continue
        pieces.append(divided.piece)
        hinges.extend(divided.hinges)
        for panel in divided.panels:
            panels[panel.name] = panel
    if has_errors(tuple(findings)) or not recipe.pieces:
        return None, tuple(findings)
    bonds, faults = fix_all(recipe, panels, tuple(hinges))
    findings.extend(faults)
    card = Card(recipe=recipe, pieces=tuple(pieces), panels=panels, hinges=tuple(hinges), bonds=bonds, poses=())
    return (None if has_errors(faults) else card), tuple(findings)


def _too_much(card: Card) -> Finding | None:
    """A finding where so many panels in so many poses cannot be folded in good time."""
    folding, poses = len({panel for hinge in card.hinges for panel in hinge.panels}), card.recipe.poses
    together = folding + len(card.recipe.layers)
    bounds = ((MOST_FOLDED, folding, "panels that fold"), (MOST_STACKED, together, "panels that fold and layers"))
    for bound, count, what in bounds:
        most = max(1, bound // count**2) if count else len(poses)
        if len(poses) > most:
            return error(
                "too many poses", f"The card has {len(poses)} poses of {count} {what}; with so many {most} are the "
                "most that can be folded in good time.", poses[most].place,
                "Leave out the poses that no step and no drawing needs.")
    return None
