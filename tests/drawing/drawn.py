"""Cards and steps for the tests of drawings, from recipes written out or from the demo recipes."""

from functools import lru_cache
from pathlib import Path

from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.scene import Dimension, Scene
from foldproof.drawing.steps import draw_step, step_scene
from foldproof.findings.finding import has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making, StepMade
from foldproof.recipe.reader import read_file, read_text

RECIPES = tuple(sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml")))

HEAD = """
title: Small card
summary: Made for a test.
unit: {unit}
finished:
  size: [{width}, {height}]
papers:
  plain: {{kind: cardstock, weight: 80 lb cover, thickness: 0.01 in, tone: "#8a9ba8"}}
  waves: {{kind: patterned paper, weight: 70 lb text, thickness: 0.005 in, printed: one face, pattern: upright}}
"""


@lru_cache(maxsize=16)
def demo(path: Path) -> tuple[Card, Making]:
    """A demo recipe, built and made."""
    reading = read_file(path)
    assert reading.recipe is not None, [finding.message for finding in reading.findings]
    card, findings = build_card(reading.recipe)
    assert card is not None, [finding.message for finding in findings]
    return card, carry_out(card)


@lru_cache(maxsize=32)
def scenes(path: Path, style: DrawingStyle = PLAIN) -> tuple[tuple[StepMade, Scene], ...]:
    """The steps of a demo recipe that have a drawing, with their scenes."""
    card, making = demo(path)
    return tuple((made, scene) for made in making.steps if (scene := step_scene(card, made, style)) is not None)


@lru_cache(maxsize=8)
def drawings(path: Path) -> tuple[tuple[Scene, Drawing], ...]:
    """The scenes of a demo recipe with their finished drawings."""
    card, _ = demo(path)
    return tuple((scene, drawing) for made, scene in scenes(path) if (drawing := draw_step(card, made)) is not None)


def made_of(text: str, width: str = "8", height: str = "5", unit: str = "inch") -> tuple[Card, Making]:
    """A recipe written out below the common head."""
    return card_of(HEAD.format(unit=unit, width=width, height=height) + text)


def card_of(text: str, name: str = "small.yaml") -> tuple[Card, Making]:
    """A whole recipe, built and made."""
    reading = read_text(text, name)
    assert reading.recipe is not None and not has_errors(reading.findings), reading.findings
    card, findings = build_card(reading.recipe)
    assert card is not None, [finding.message for finding in findings]
    return card, carry_out(card)


def step_of(text: str, width: str = "8", height: str = "5", unit: str = "inch") -> tuple[Card, StepMade]:
    """The last step of a recipe written out."""
    card, making = made_of(text, width, height, unit)
    return card, making.steps[-1]


def dimensions(scene: Scene) -> list[Dimension]:
    """The dimensions of a scene."""
    return [item for item in scene.items if isinstance(item, Dimension)]


LARGE_PRINT = DrawingStyle(text_pt=14.0, small_pt=12.0)
NARROW = DrawingStyle(largest_mm=62.0, width_mm=92.0)
SMALL = DrawingStyle(largest_mm=40.0, width_mm=178.0)
STYLES = (PLAIN, LARGE_PRINT, NARROW, SMALL)
