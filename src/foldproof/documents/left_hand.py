"""The same card told for the other hand: which hand holds and which works, and the direction of the work.

The card, its numbers and its tools do not change: only a sentence that names a hand does, and each step says how the
hands share its work. Common practice of left-handed makers, no source; people differ, and the handout says so.
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from foldproof.documents.film_view import FilmShot
from foldproof.documents.view import Step, View
from foldproof.making.table import Making, StepMade
from foldproof.recipe.actions import (
    Attach,
    CutAcross,
    CutBetween,
    CutOff,
    CutOut,
    DieCut,
    ScoreAt,
    ScoreBetween,
    SlitAt,
    SlitBetween,
    Stamp,
)

SUFFIX, ADDED = "-left-handed", " (left-handed)"
INTRODUCTION = (
    "For left-handed makers: the left hand works and the right hand holds. The stop stays at the board's left end. "
    "Where it is in your way, turn the board half round with the work on it. Film with the camera's arm at your right, "
    "so that your working hand throws no shadow."
)
_HANDS = re.compile(
    r"\b(?P<whose>your|the|one's|my|his|her|their) (?P<side>left|right)(?P<rest>[- ]hands?)\b(?! (?:end|edge|side|half|"
    r"third|part|corner|panel|flap|door))", re.IGNORECASE)
_CUTS = "Hold the paper down with your right hand, away from the line; your left hand works the blade."
_LINES: tuple[tuple[tuple[type, ...], str], ...] = (
    ((CutOut, CutAcross, CutOff, CutBetween, SlitAt, SlitBetween), _CUTS),
    ((ScoreAt, ScoreBetween),
     "Hold the work at the fence with your right hand; your left hand draws the line, from the far edge toward you."),
    ((DieCut,), "Hold the paper with your right hand; your left hand presses."),
    ((Attach,),
     "Hold it by its left edge with your left hand, set the right edge down first, and smooth from right to left."),
    ((Stamp,), "Work from right to left, so that your hand does not lie in wet ink."),
)


def for_left_hands(view: View, making: Making) -> View:
    """The view of the left-handed edition."""
    made = {step.spec.id: step for step in making.steps}
    return replace(
        view, title=view.title + ADDED, summary=other_hand(view.summary), hands=INTRODUCTION,
        steps=tuple(_step(step, made[step.id]) for step in view.steps),
        shooting=replace(view.shooting, shots=tuple(_shot(shot) for shot in view.shooting.shots)))


def _shot(shot: FilmShot) -> FilmShot:
    """A shot for the other hand: its line, and the side at which tools lie."""
    ready = tuple(
        other_hand(line).replace("(the left of the picture)", "(the right of the picture)") for line in shot.ready)
    return replace(shot, say=other_hand(shot.say), ready=ready)


def other_hand(text: str) -> str:
    """Words in which a named hand is the other one; a left-hand edge stays where it is."""
    def swapped(found: re.Match[str]) -> str:
        side = {"left": "right", "right": "left"}[found["side"].lower()]
        side = side.capitalize() if found["side"][0].isupper() else side
        return f"{found['whose']} {side}{found['rest']}"

    return _HANDS.sub(swapped, text)


def hand_lines(step: StepMade) -> tuple[str, ...]:
    """How a left-handed maker's hands share the work of a step, each kind of work once, in the order of its actions."""
    return tuple(dict.fromkeys(_lines(step)))


def _lines(step: StepMade) -> Iterator[str]:
    for done in step.done:
        yield from (line for kinds, line in _LINES if isinstance(done.action, kinds))


def _step(step: Step, made: StepMade) -> Step:
    return replace(
        step, prose=other_hand(step.prose), tip=other_hand(step.tip), cautions=tuple(map(other_hand, step.cautions)),
        handwork=hand_lines(made))
