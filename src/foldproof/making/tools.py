"""Which tool a deed is done with, which blade is in it, and whether it can do it."""

from collections.abc import Iterator
from dataclasses import replace

from foldproof.facts.tools import find_tool
from foldproof.findings.finding import Finding
from foldproof.making.outcome import Outcome, Setting, fault, refused
from foldproof.making.table import Table
from foldproof.recipe.actions import (
    Action,
    CutAcross,
    CutAway,
    CutBetween,
    CutOff,
    CutOut,
    DieCut,
    RoundCorners,
    Scallop,
    ScoreAt,
    ScoreBetween,
    SetBlade,
    SlitAt,
    SlitBetween,
)
from foldproof.recipe.records import Recipe, StepSpec

DEEDS: dict[str, tuple[type, ...]] = {
    "cut": (CutOut, CutAcross, CutOff, CutBetween, SlitAt, SlitBetween),
    "score": (ScoreAt, ScoreBetween),
    "die cut": (DieCut, CutAway, RoundCorners, Scallop),
}
"""What needs a tool of its own."""

_ABLE = {
    "cut": ("trimmer", "knife", "guillotine", "scissors", "cutter", "blade", "shears", "cutting machine"),
    "score": ("scor", "bone folder", "trimmer", "embossing tool", "stylus", "creas", "blunt needle"),
    "die cut": ("die", "punch", "scissors", "knife", "cutting machine", "cutter"),
}
"""Words in the names of tools that can; a trimmer may have a scoring blade."""


def deed_of(action: Action) -> str | None:
    """`cut`, `score` or `die cut`; None for what hands do alone."""
    return next((deed for deed, kinds in DEEDS.items() if isinstance(action, kinds)), None)


def can(tool: str, deed: str) -> bool:
    """Whether a tool of that name does it."""
    kind = find_tool(tool)
    return (kind is not None and deed in kind.does) or any(word in tool.casefold() for word in _ABLE[deed])


def takes_blades(tool: str) -> bool:
    """Whether a tool is a trimmer, whose cutting blade may be changed for a scoring one."""
    kind = find_tool(tool)
    return kind.name == "trimmer" if kind is not None else "trimmer" in tool.casefold()


def blade_in(table: Table, tool: str) -> str | None:
    """The blade that is in a trimmer now, `cutting` or `scoring`; None for other tools."""
    return dict(table.blades).get(tool, "cutting") if takes_blades(tool) else None


def tool_for(recipe: Recipe, step: StepSpec, action: Action) -> str | None:
    """The tool that an action says, else the step's own that can do it, else the recipe's.

    A tool made for scoring goes before a trimmer. None where none is listed, or where hands do it alone.
    """
    deed = deed_of(action)
    if deed is None:
        return None
    said = getattr(action, "tool", None)
    if said is not None:
        return str(said)
    for names in ([name.value for name in step.tools], [tool.name.value for tool in recipe.tools]):
        able = [name for name in names if can(name, deed)]
        if able:
            return min(able, key=takes_blades) if deed == "score" else able[0]
    return None


def tool_faults(setting: Setting, tool: str | None) -> Iterator[Finding]:
    """What is wrong with doing the action at hand with that tool as it is."""
    deed = deed_of(setting.action)
    if tool is None or deed is None:
        return
    if not can(tool, deed):
        doing = {"cut": "cut", "score": "score", "die cut": "cut a shape"}[deed]
        if getattr(setting.action, "tool", None) is not None:
            yield fault(setting, "a tool that cannot do it", f"The step means to {doing} with the {tool}, which is no "
                        "tool for that.", "Name another tool after `with`.")
        return
    blade = blade_in(setting.table, tool)
    if deed == "score" and blade == "cutting":
        yield fault(
            setting, "blade left in", f"The cutting blade is in the {tool}, and here it is to score: the card would be "
            "cut through.", "Put the scoring blade in first (`blade: scoring`), or name the tool that scores.")
    elif deed == "cut" and blade == "scoring":
        yield fault(
            setting, "blade left in", f"The scoring blade is still in the {tool}, and here it is to cut.",
            "Put the cutting blade in first (`blade: cutting`), or name the tool that cuts.")


def set_blade(setting: Setting, action: SetBlade) -> Outcome:
    """Put a blade into a trimmer."""
    listed = [tool.name.value for tool in setting.card.recipe.tools if takes_blades(tool.name.value)]
    tool = action.tool or (listed[0] if len(listed) == 1 else None)
    if tool is None:
        why = "no trimmer is listed" if not listed else "several trimmers are listed"
        return refused(setting, "which trimmer", f"The step puts in the {action.blade} blade, and {why}.",
                       "List one under `tools`, or say `blade: {kind: scoring, in: NAME}`.")
    if not takes_blades(tool):
        return refused(setting, "a tool that cannot do it", f"The {tool} takes no scoring blade.", "Name a trimmer.")
    table = setting.table
    if blade_in(table, tool) == action.blade:
        if setting.again:
            return Outcome(table=table, piece=setting.target, tool=tool)
        return refused(setting, "blade that is in already", f"The {action.blade} blade is in the {tool} already.",
                       "Take this out, or say which blade is meant.")
    kept = tuple(entry for entry in table.blades if entry[0] != tool)
    return Outcome(table=replace(table, blades=(*kept, (tool, action.blade))), piece=setting.target, tool=tool)
