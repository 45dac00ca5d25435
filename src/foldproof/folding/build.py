"""From the recipe to the card: pieces divided, layers and joins placed, poses folded."""

from dataclasses import replace

from foldproof.findings.finding import Finding, has_errors
from foldproof.folding.card import Card, CardPiece, Hinge, Panel
from foldproof.folding.fixing import fix_all
from foldproof.folding.panels import divide
from foldproof.folding.poses import pose_all
from foldproof.recipe.records import LayerSpec, PieceSpec, Recipe


def build_card(recipe: Recipe) -> tuple[Card | None, tuple[Finding, ...]]:
    """The card of a recipe with all that is wrong with it; no card where its geometry cannot be worked out."""
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
    if has_errors(faults):
        return None, tuple(findings)
    poses, faults = pose_all(card)
    findings.extend(faults)
    return replace(card, poses=poses), tuple(findings)
