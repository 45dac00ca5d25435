"""Every drawing of a card, made once: for paper and, narrower, for a screen."""

from collections.abc import Mapping
from dataclasses import replace

from foldproof.documents.telling import Drawn
from foldproof.drawing.camera import draw_shot
from foldproof.drawing.cutting import draw_cutting_list
from foldproof.drawing.key import draw_key, kinds_in
from foldproof.drawing.poses import draw_pose
from foldproof.drawing.record import Drawing, DrawingStyle
from foldproof.drawing.steps import ink_step, step_scene
from foldproof.filming.continuity import continuity
from foldproof.filming.records import FilmPlan
from foldproof.folding.card import Card
from foldproof.making.table import Making


def draw(card: Card, making: Making, film: FilmPlan, paper: DrawingStyle, screen: DrawingStyle) -> Drawn:
    """Draw the poses, each shot on paper; for a screen the cutting list, each step, a key to the lines of the steps.

    The handouts' own drawings are made for each of its editions (handout_drawings).
    """
    return replace(draw_for_screen(card, making, screen), shots=draw_shots(card, film, paper))


def draw_shots(card: Card, film: FilmPlan, paper: DrawingStyle) -> Mapping[str, Drawing]:
    """What the camera sees in each shot, by the shot's key."""
    held = continuity(card, film.filming_order)
    return {shot.key: draw_shot(card, film, shot, held[shot.key], paper) for shot in film.shots}


def draw_for_screen(card: Card, making: Making, screen: DrawingStyle) -> Drawn:
    """Only what the page shows."""
    scenes = [(step, scene) for step in making.steps if (scene := step_scene(card, step, screen)) is not None]
    kinds = frozenset(kind for _, scene in scenes for kind in kinds_in(scene))
    return Drawn(
        poses={pose.name: draw_pose(card, pose) for pose in card.poses},
        tall_steps={step.spec.id: ink_step(card, step, scene, screen) for step, scene in scenes},
        tall_cutting=draw_cutting_list(card, screen),
        tall_key=draw_key(kinds, screen, columns=1) if kinds else None,
    )
