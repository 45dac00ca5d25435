"""The lines that a recipe has to be spoken, step by step, as plain text."""

from foldproof.documents import prose
from foldproof.recipe.records import Recipe, StepSpec
from foldproof.recipe.references import fill
from foldproof.recipe.text import Text


def spoken_lines(recipe: Recipe) -> tuple[tuple[str, ...], ...]:
    """For each step its lines in order, Markdown and references made plain; the text where no line is given."""
    return tuple(
        tuple(prose.plain(prose.to_html(fill(str(line), recipe))) for line in _lines(step)) for step in recipe.steps)


def _lines(step: StepSpec) -> tuple[Text, ...]:
    """A shot's own line, or for the first shot the step's."""
    shots = [shot.say for shot in step.shots] or [None]
    lines = [shots[0] or step.say or step.text, *shots[1:]]
    return tuple(line for line in lines if line is not None)
