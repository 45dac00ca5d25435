"""Pencil marks: made for something."""

import re
from collections.abc import Iterable

from foldproof.checks.check import warning
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.recipe.actions import Action, CutBetween, MarkAt, ScoreBetween
from foldproof.recipe.records import StepSpec

NOT_USED = warning("mark never used", "A step makes a mark, and no cut or score and no sentence after it uses it.")

_MARK = re.compile(r"\bmarks?\b", re.IGNORECASE)
_MADE = re.compile(r"\b(?:make|makes|making|put|pencil|draw|mark)\b[^.;]{0,60}?\bmarks?\b", re.IGNORECASE)


def check_marks(card: Card, making: Making) -> Iterable[Finding]:
    """Each mark guides a later cut or score, or the eye: then the words speak of it after it is made."""
    steps = card.recipe.steps
    for number, step in enumerate(steps):
        for index, action in enumerate(step.actions):
            if not isinstance(action, MarkAt):
                continue
            later = (*step.actions[index + 1:], *(each for after in steps[number + 1:] for each in after.actions))
            if _guides(action.name, later) or _spoken_of(action.name, step, steps[number + 1:]):
                continue
            yield NOT_USED.finding(
                f"The {action.name} is made, and nothing after it cuts or scores to it or speaks of it.",
                mend="Say in the words what it is for, name it in the cut or score that it guides, or take it out.",
                place=action.place, step=step.id)


def _guides(name: str, later: Iterable[Action]) -> bool:
    """Whether an action goes to the mark before another of the same name is made."""
    for action in later:
        if isinstance(action, ScoreBetween | CutBetween) and name in (action.start.name, action.end.name):
            return True
        if isinstance(action, MarkAt) and action.name == name:
            return False
    return False


def _spoken_of(name: str, step: StepSpec, later: tuple[StepSpec, ...]) -> bool:
    """Whether the words come back to the mark: in a later step, or in its own beside the making of it."""
    if any(_MARK.search(words) or name.casefold() in words.casefold() for each in later for words in _words(each)):
        return True
    return any(len(_MARK.findall(_MADE.sub("", words))) > 0 for words in _words(step))


def _words(step: StepSpec) -> Iterable[str]:
    return (text.value for text in (step.text, step.say, step.tip) if text is not None)
