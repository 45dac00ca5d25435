"""Tools and adhesives: what a step does and says, against what it and the recipe list."""

import re
from collections.abc import Iterable, Iterator

from foldproof.checks.check import warning
from foldproof.facts.tools import ADHESIVES, TOOLS, find_adhesive, find_tool
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Done, Making
from foldproof.making.tools import can, deed_of
from foldproof.recipe.actions import DieCut
from foldproof.recipe.records import Recipe, StepSpec, Text

NOT_IN_STEP = warning(
    "tool missing from its step",
    "A step cuts or scores, the tool for it is listed, and the step's own tools leave it out.")
NOT_LISTED = warning(
    "named and not listed", "The words of a step name a special tool or an adhesive that the recipe does not list.")

_TOOL_WORDS = {
    word: tool.name for tool in TOOLS if not tool.basic for word in (tool.name, *tool.synonyms)
    if " " in word or word in ("trimmer", "guillotine", "tweezers", "brayer", "stylus", "scalpel")
}
_ADHESIVE_WORDS = {
    word: kind.name for kind in ADHESIVES for word in (kind.name, *kind.synonyms) if " " in word and word != "wet glue"
}
"""Names of two words and more, and those that are no verbs: `stamp`, `tape` or `punch` may be what hands do."""


def check_tools_of_steps(card: Card, making: Making) -> Iterable[Finding]:
    """A step that names tools, or whose fellows do, names the one that its cuts and scores take."""
    recipe = card.recipe
    if not any(step.tools for step in recipe.steps):
        return
    for made in making.steps:
        own = [name.value for name in made.spec.tools]
        for done in made.done:
            deed = deed_of(done.action)
            if deed is None or done.tool is None or _ready_made(card, done):
                continue
            if any(can(name, deed) for name in (*own, *_basic(recipe))) or done.tool in own:
                continue
            yield NOT_IN_STEP.finding(
                f"The step {made.spec.title} is done with the {done.tool}, and its `tools` do not name it.",
                mend=f"Add {done.tool} to `tools` of the step.", place=done.action.place, step=made.spec.id)
            break


def _ready_made(card: Card, done: Done) -> bool:
    """Whether a die cut is a bought shape, which takes no tool."""
    plan = card.piece(done.piece) if done.piece is not None else None
    return isinstance(done.action, DieCut) and (plan is None or plan.paper is None)


def _basic(recipe: Recipe) -> set[str]:
    return {tool.name.value for tool in recipe.tools
            if tool.basic or ((kind := find_tool(tool.name.value)) is not None and kind.basic)}


def check_named(card: Card, making: Making) -> Iterable[Finding]:
    """Each special tool and adhesive that the words name is listed; the first place of each is told."""
    recipe = card.recipe
    tools, glues = _listed(recipe)
    told: set[str] = set()
    for step in recipe.steps:
        for word, kind, text in _named(step):
            if kind in told or kind in tools or kind in glues or _called_so(recipe, word):
                continue
            told.add(kind)
            where = "tools" if word in _TOOL_WORDS else "supplies"
            yield NOT_LISTED.finding(
                f"The words of the step {step.title} name a {word}, and the recipe lists none.",
                mend=f"Add {word} to `{where}`, or name what is listed.", place=text.place, step=step.id)


def _listed(recipe: Recipe) -> tuple[set[str], set[str]]:
    names = [name for supply in recipe.supplies for name in (supply.name.value, supply.kind or "")]
    kinds = (find_tool(tool.name.value) for tool in recipe.tools)
    tools = {kind.name for kind in kinds if kind is not None}
    return tools, {glue.name for glue in map(find_adhesive, names) if glue is not None}


def _called_so(recipe: Recipe, word: str) -> bool:
    """Whether something listed has the word in its name, or its name in the word."""
    names = [*(tool.name.value for tool in recipe.tools), *(supply.name.value for supply in recipe.supplies)]
    return any(word in name or name in word for name in map(str.casefold, names))


def _named(step: StepSpec) -> Iterator[tuple[str, str, Text]]:
    """Tools and adhesives in a step's text and spoken line. A tip may speak of what others use."""
    for text in (step.text, step.say):
        if text is None:
            continue
        plain = " ".join(text.value.casefold().replace("-", " ").split())
        for word, kind in (*_TOOL_WORDS.items(), *_ADHESIVE_WORDS.items()):
            if word in plain and re.search(rf"(?<!no )(?<!without )(?<!without a )\b{re.escape(word)}\b", plain):
                yield word, kind, text
