"""The drawings of a handout: each step in the arrangement that its words leave the most room for."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from foldproof.documents.handout_kinds import Edition
from foldproof.documents.handout_room import setting
from foldproof.documents.one_ink import in_one_ink
from foldproof.documents.stop_words import asked, mended, told_apart
from foldproof.documents.view import Check, Step, View
from foldproof.drawing.cutting import draw_cutting_list
from foldproof.drawing.key import draw_key, kinds_in
from foldproof.drawing.poses import draw_pose
from foldproof.drawing.record import Drawing
from foldproof.drawing.scene import Scene
from foldproof.drawing.steps import ink_step, scale_of, step_scenes
from foldproof.drawing.stop_check import Stop, draw_stop, stop_of
from foldproof.folding.card import Card
from foldproof.making.table import Making

SHORT_FACTS = ("Finished size", "Standing height", "Envelope", "Sheets")
"""What a compact handout says of the card at a glance."""
SHARES = (1.0, 0.63, 0.42)
"""How much of the sheet's width a step's frames may take before they go on in another row: the ways that are tried."""
STOP_SHARE = 0.75
"""The pictures before the first glue are of the whole work at once: they may be smaller than a step's."""


Ways = Mapping[str, tuple[Scene, ...]]
"""The arrangements of each step's frames, by the step's id."""
Choice = tuple[int, ...]
"""Which arrangement each of these steps has, in their order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutDrawings:
    """The drawings of a handout, whatever its words say."""

    poses: Mapping[str, Drawing]
    cutting: Drawing
    key: Drawing | None
    scale: str
    steps: Mapping[str, Drawing]
    """By the step's id."""
    check: tuple[str, Check] | None
    """What is looked at before the first glue, with the id of the step that it stands in."""


def with_drawings(view: View, card: Card, making: Making, edition: Edition) -> View:
    """The view with its drawings made for an edition; a compact one says less, too."""
    view = shortened(view) if edition.compact else view
    ways = ways_of(card, making, edition)
    return with_those(view, handout_drawings(card, making, edition, ways, choice(view, ways, edition)), edition)


def ways_of(card: Card, making: Making, edition: Edition) -> Ways:
    """The ways in which the pictures of a step may be arranged; none where an edition does not show it."""
    scenes = {made.spec.id: step_scenes(card, made, edition.style, [edition.width_mm * share for share in SHARES])
              for made in making.steps if not edition.compact}
    return {id: found for id, found in scenes.items() if found}


def choice(view: View, ways: Ways, edition: Edition) -> Choice:
    """The arrangements with which the steps take the least height on the sheet, their words beside them."""
    steps = {step.id: step for step in view.steps}
    return tuple(_least(steps[id], scenes, edition) for id, scenes in ways.items())


def _least(step: Step, scenes: Sequence[Scene], edition: Edition) -> int:
    heights = [setting(step, edition, (scene.width * edition.enlarged, scene.height * edition.enlarged)).height_mm
               for scene in scenes]
    return heights.index(min(heights))


def handout_drawings(card: Card, making: Making, edition: Edition, ways: Ways, chosen: Choice) -> HandoutDrawings:
    """The drawings of an edition, its steps arranged as chosen."""
    scenes = {id: found[which] for (id, found), which in zip(ways.items(), chosen, strict=True)}
    kinds = frozenset(kind for scene in scenes.values() for kind in kinds_in(scene))
    stop = None if edition.compact else stop_of(card, making)
    return HandoutDrawings(
        poses={pose.name: draw_pose(card, pose, edition.style, edition.poses_mm)
               for pose in card.poses if not edition.compact},
        cutting=_cutting(card, edition),
        key=_key(kinds, edition) if kinds else None,
        scale=_scale(card, edition) if kinds else "",
        steps={made.spec.id: ink_step(card, made, scenes[made.spec.id], edition.style)
               for made in making.steps if made.spec.id in scenes},
        check=(stop.step, _check(card, making, stop, edition)) if stop and told_apart(card, stop) else None)


def with_those(view: View, drawings: HandoutDrawings, edition: Edition) -> View:
    """The view with the drawings of an edition."""
    id, check = drawings.check or ("", None)
    drawn = replace(
        view,
        finished=tuple(replace(shown, drawing=drawings.poses.get(shown.pose)) for shown in view.finished),
        cutting=drawings.cutting, key=drawings.key, scale=drawings.scale,
        steps=tuple(replace(step, drawing=drawings.steps.get(step.id), check=check if step.id == id else None)
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


def _cutting(card: Card, edition: Edition) -> Drawing:
    return draw_cutting_list(card, edition.style, [edition.cuts_mm * share for share in (1.0, 0.9, 0.8, 0.7, 0.6)])


def _scale(card: Card, edition: Edition) -> str:
    """The scale of the steps on paper, to one decimal: `1:5`."""
    times = float(card.recipe.unit.millimetres) / scale_of(card, edition.style) / edition.enlarged
    return f"1:{round(times, 1):g}"


def _key(kinds: frozenset[str], edition: Edition) -> Drawing:
    """The key in as many columns as the sheet has room for."""
    ways = (draw_key(kinds, edition.style, columns) for columns in (4, 3, 2))
    return next((key for key in ways if key.width_mm <= edition.width_mm), None) or draw_key(kinds, edition.style, 1)
