"""What is used and what is listed: supplies, tools, papers."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from foldproof.checks.check import warning
from foldproof.checks.phrases import length
from foldproof.facts.tools import find_tool
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.making.tools import DEEDS, can
from foldproof.recipe.actions import Attach, Tie
from foldproof.recipe.records import JoinSpec, LayerSpec, Recipe, StepSpec, ToolSpec
from foldproof.recipe.repeating import every_action

NOT_USED = warning("listed and not used", "A supply or special tool is listed, but no step, layer or join uses it.")
PAPER_NOT_USED = warning("paper not used", "A paper is listed, but nothing is cut from it.")
NO_ADHESIVE = warning("no adhesive named", "A layer or a join does not say what holds it.")
TOO_SHORT = warning("supply too short", "The steps tie more of a ribbon or thread than is listed.")
NO_CUTTER = warning("nothing to cut with", "A step cuts, and no cutting tool is listed.")
NO_SCORER = warning("nothing to score with", "A step scores, and no tool for scoring is listed.")
NO_DIE = warning(
    "nothing to die-cut with",
    "A step die-cuts a shape from the card's own paper, and no die or punch is listed.")


def check_used(card: Card, making: Making) -> Iterable[Finding]:
    """Everything that is listed is used, but for basic desk tools. (What is used and not listed, the reader tells.)"""
    recipe = card.recipe
    used, tools_used = set(_supplies_used(recipe)), _tools_used(recipe)
    tools_used |= {done.tool for step in making.steps for done in step.every if done.tool is not None}
    prose = " ".join(text for step in recipe.steps for text in _words(step)).casefold()
    for supply in recipe.supplies:
        if supply.name.value not in used and supply.name.value.casefold() not in prose:
            yield NOT_USED.finding(
                f"The supply {supply.name} is listed, but no step, layer or join uses it.",
                mend="Take it out, or name it where it is used.", place=supply.place)
    for tool in recipe.tools:
        if not _basic(tool) and tool.name.value not in tools_used and tool.name.value.casefold() not in prose:
            yield NOT_USED.finding(
                f"The tool {tool.name} is listed, but no step uses it.",
                mend="Name it under `tools` of the step that needs it, mark it `basic: true`, or take it out.",
                place=tool.place)
    cut_from = {piece.paper.value for piece in recipe.pieces}
    cut_from |= {layer.paper.value for layer in recipe.layers if layer.paper is not None}
    for paper in recipe.papers:
        if paper.name.value not in cut_from:
            yield PAPER_NOT_USED.finding(
                f"The paper {paper.name} is listed, but no piece or layer is cut from it.",
                mend="Take it out, or cut a piece from it.", place=paper.place)


def check_adhesive(card: Card, making: Making) -> Iterable[Finding]:
    """Every layer and join says, in the plan or in the step that makes it, what holds it."""
    fixed = {action.bond for step in card.recipe.steps for action in every_action(step)
             if isinstance(action, Attach) and action.adhesive is not None}
    sliding = {slide.what.value for slide in card.recipe.slides}
    specs: tuple[LayerSpec | JoinSpec, ...] = (*card.recipe.layers, *card.recipe.joins)
    for spec in specs:
        if spec.adhesive is None and spec.name.value not in fixed | sliding:
            yield NO_ADHESIVE.finding(
                f"Nothing says what holds the {spec.name}.",
                mend="Give it `adhesive: NAME`, a supply that is listed.", place=spec.place)


def check_lengths(card: Card, making: Making) -> Iterable[Finding]:
    """What is tied is no longer than the length that is listed for one card."""
    ties = [action for step in card.recipe.steps for action in every_action(step) if isinstance(action, Tie)]
    for supply in card.recipe.supplies:
        tied = sum((tie.length.value for tie in ties if tie.supply == supply.name.value and tie.length), Fraction(0))
        if supply.length is not None and tied > supply.length.value:
            yield TOO_SHORT.finding(
                f"The steps tie {length(card, tied)} of {supply.name}; {length(card, supply.length.value)} is listed: "
                f"{length(card, tied - supply.length.value)} too little.",
                mend=f"List {length(card, tied)}, or tie less.", place=supply.length.place)


def check_tools(card: Card, making: Making) -> Iterable[Finding]:
    """Cutting, scoring and die-cutting need a tool that can do it; the first step without one is named."""
    recipe = card.recipe
    names = [name.casefold() for name in (*(tool.name.value for tool in recipe.tools), *_tools_used(recipe))]
    cut_from_paper = {layer.name.value for layer in recipe.layers if layer.paper is not None}
    for check, deed in ((NO_CUTTER, "cut"), (NO_SCORER, "score"), (NO_DIE, "die cut")):
        if any(can(name, deed) for name in names):
            continue
        for step in recipe.steps:
            acts = [action for action in every_action(step) if isinstance(action, DEEDS[deed])]
            if check is NO_DIE:
                acts = [a for a in acts if (a.piece or (step.piece.value if step.piece else "")) in cut_from_paper]
            if acts:
                yield check.finding(
                    f"The step {step.title} has something to {deed.replace(' ', '-')}, and no listed tool does that.",
                    mend=f"List the tool under `tools`: {_examples(check is NO_CUTTER, check is NO_SCORER)}.",
                    place=acts[0].place, step=step.id)
                break


def _basic(tool: ToolSpec) -> bool:
    kind = find_tool(tool.name.value)
    return tool.basic or (kind is not None and kind.basic)


def _examples(cutting: bool, scoring: bool) -> str:
    if cutting:
        return "a trimmer, a craft knife, a guillotine or scissors"
    return "a scoring board, or a ruler and a bone folder" if scoring else "a die or a punch"


def _supplies_used(recipe: Recipe) -> Iterator[str]:
    fixed: tuple[LayerSpec | JoinSpec, ...] = (*recipe.layers, *recipe.joins)
    for spec in fixed:
        if spec.adhesive is not None:
            yield spec.adhesive.value
    for step in recipe.steps:
        yield from (name.value for name in step.supplies)
        for action in every_action(step):
            if isinstance(action, Attach) and action.adhesive is not None:
                yield action.adhesive
            elif isinstance(action, Tie):
                yield action.supply


def _tools_used(recipe: Recipe) -> set[str]:
    return {name.value for step in recipe.steps for name in step.tools}


def _words(step: StepSpec) -> Iterator[str]:
    yield from (text.value for text in (step.title, step.text, step.say, step.tip) if text is not None)
