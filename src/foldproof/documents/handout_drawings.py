"""The drawings of a handout: each step in the arrangement that its words leave the most room for."""

from collections.abc import Callable
from dataclasses import replace

from foldproof.documents.handout_kinds import Edition
from foldproof.documents.handout_room import setting
from foldproof.documents.one_ink import in_one_ink
from foldproof.documents.stop_words import asked, mended, told_apart
from foldproof.documents.view import Check, View
from foldproof.drawing.cutting import draw_cutting_list
from foldproof.drawing.key import draw_key, kinds_in
from foldproof.drawing.poses import draw_pose
from foldproof.drawing.record import Drawing
from foldproof.drawing.scene import Scene
from foldproof.drawing.steps import ink_step, scale_of, step_scenes
from foldproof.drawing.stop_check import Stop, draw_stop, stop_of
from foldproof.folding.card import Card
from foldproof.making.table import Making, StepMade

SHORT_FACTS = ("Finished size", "Standing height", "Envelope", "Sheets")
"""What a compact handout says of the card at a glance."""
SHARES = (1.0, 0.63, 0.42)
"""How much of the sheet's width a step's frames may take before they go on in another row: the ways that are tried."""


STOP_SHARE = 0.75
"""The pictures before the first glue are of the whole work at once: they may be smaller than a step's."""


def with_drawings(view: View, card: Card, making: Making, edition: Edition) -> View:
    """The view with its drawings made for an edition; a compact one says less, too."""
    view = shortened(view) if edition.compact else view
    scenes = {made.spec.id: scene for made in making.steps
              if not edition.compact and (scene := _best(view, card, made, edition)) is not None}
    kinds = frozenset(kind for scene in scenes.values() for kind in kinds_in(scene))
    made_of = {made.spec.id: made for made in making.steps}
    stop = None if edition.compact else stop_of(card, making)
    check = _check(card, making, stop, edition) if stop and told_apart(card, stop) else None
    drawn = replace(
        view,
        finished=tuple(replace(shown, drawing=_pose(card, shown.pose, edition)) for shown in view.finished),
        cutting=_cutting(card, edition),
        key=_key(kinds, edition) if kinds else None,
        scale=_scale(card, edition) if kinds else "",
        steps=tuple(
            replace(step, drawing=ink_step(card, made_of[step.id], scenes[step.id], edition.style)
                    if step.id in scenes else None,
                    check=check if stop and stop.step == step.id else None)
            for step in view.steps))
    return _each(drawn, in_one_ink) if edition.one_ink else drawn


def _each(view: View, change: Callable[[Drawing], Drawing]) -> View:
    """The view with each drawing of the handout changed."""
    def changed(drawing: Drawing | None) -> Drawing | None:
        return change(drawing) if drawing else None

    return replace(
        view, finished=tuple(replace(shown, drawing=changed(shown.drawing)) for shown in view.finished),
        cutting=changed(view.cutting), key=changed(view.key),
        steps=tuple(
            replace(step, drawing=changed(step.drawing),
                    check=replace(step.check, drawing=change(step.check.drawing)) if step.check else None)
            for step in view.steps))


def _check(card: Card, making: Making, stop: Stop, edition: Edition) -> Check:
    return Check(
        ask=asked(card, making, stop),
        mend=mended(card, stop),
        drawing=draw_stop(card, stop, replace(edition.style, largest_mm=edition.style.largest_mm * STOP_SHARE)))


def shortened(view: View) -> View:
    """What somebody needs who knows how: sizes, cuts, scores and what hands do, with the cautions."""
    return replace(
        view, summary="", photo=None, papers=(), supplies=(), tools=(), basic_tools=(), troubles=(),
        facts=tuple(fact for fact in view.facts if fact.label in SHORT_FACTS),
        finished=(), steps=tuple(replace(step, prose="", tip="", care=(), photo=None) for step in view.steps))


def _best(view: View, card: Card, made: StepMade, edition: Edition) -> Scene | None:
    """The arrangement of a step's frames with which it takes the least height on the sheet."""
    step = next(step for step in view.steps if step.id == made.spec.id)
    scenes = step_scenes(card, made, edition.style, [edition.width_mm * share for share in SHARES])
    return min(scenes, key=lambda scene: setting(
        step, edition, (scene.width * edition.enlarged, scene.height * edition.enlarged)).height_mm, default=None)


def _cutting(card: Card, edition: Edition) -> Drawing:
    return draw_cutting_list(card, edition.style, [edition.cuts_mm * share for share in (1.0, 0.9, 0.8, 0.7, 0.6)])


def _pose(card: Card, name: str, edition: Edition) -> Drawing | None:
    pose = card.pose(name)
    return draw_pose(card, pose, edition.style, edition.poses_mm) if pose else None


def _scale(card: Card, edition: Edition) -> str:
    """The scale of the steps on paper, to one decimal: `1:5`."""
    times = float(card.recipe.unit.millimetres) / scale_of(card, edition.style) / edition.enlarged
    return f"1:{round(times, 1):g}"


def _key(kinds: frozenset[str], edition: Edition) -> Drawing:
    """The key in as many columns as the sheet has room for."""
    ways = (draw_key(kinds, edition.style, columns) for columns in (4, 3, 2))
    return next((key for key in ways if key.width_mm <= edition.width_mm), None) or draw_key(kinds, edition.style, 1)
