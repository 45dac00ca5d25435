"""From the recipe to the card: pieces divided, layers and joins placed, poses folded."""

from dataclasses import replace

from foldproof.findings.finding import Aside, Finding, Place, has_errors
from foldproof.folding.card import Card, CardPiece, Hinge, Panel
from foldproof.folding.fixing import fix_all
from foldproof.folding.panels import divide
from foldproof.folding.poses import pose_all
from foldproof.folding.words import error
from foldproof.recipe.records import LayerSpec, PieceSpec, Recipe


def build_card(recipe: Recipe) -> tuple[Card | None, tuple[Finding, ...]]:
    """The card of a recipe with all that is wrong with it; no card where its geometry cannot be worked out."""
    pieces: list[CardPiece] = []
    panels: dict[str, Panel] = {}
    hinges: list[Hinge] = []
    findings = list(_repeated(recipe))
    sheets: tuple[PieceSpec | LayerSpec, ...] = (*recipe.pieces, *recipe.layers)
    for spec in sheets:
        divided, faults = divide(spec, recipe.unit)
        findings.extend(faults)
        if divided is None:
            continue
        pieces.append(divided.piece)
        hinges.extend(divided.hinges)
        for panel in divided.panels:
            if panel.name in panels and not any(f.name == "name used twice" for f in findings):
                findings.append(error(
                    "name used twice",
                    f"`{panel.name}` is a panel of {panels[panel.name].piece} and of {panel.piece}.", spec.place,
                    "Give each panel and layer a name of its own."))
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


def _repeated(recipe: Recipe) -> tuple[Finding, ...]:
    """Findings for names that must be the card's only ones of their kind."""
    findings = []
    scores: dict[str, Place] = {}
    for piece in recipe.pieces:
        for score in piece.scores:
            name, place = score.name.value, score.name.place
            if name in scores:
                findings.append(error(
                    "name used twice", f"Two scores are called `{name}`, so a pose could not tell them apart.", place,
                    f"Give this one a name that says its piece, such as `{piece.name} {name}`.",
                    (Aside(text="the first is here", place=scores[name]),)))
            else:
                scores[name] = place
    sheets: dict[str, Place] = {}
    for called in (*(piece.name for piece in recipe.pieces), *(layer.name for layer in recipe.layers)):
        name, place = called.value, called.place
        if name in sheets:
            findings.append(error(
                "name used twice", f"Two pieces or layers are called `{name}`.", place, "Rename this one.",
                (Aside(text="the first is here", place=sheets[name]),)))
        else:
            sheets[name] = place
    return tuple(findings)
