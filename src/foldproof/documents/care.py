"""The study of tolerances in the documents: notes beside the steps, and a table of what may have gone wrong."""

from dataclasses import replace

from foldproof.documents.view import View
from foldproof.folding.card import Card
from foldproof.tolerance.study import Study
from foldproof.tolerance.telling import cares, troubles

MOST_TROUBLES = 6


def with_care(view: View, card: Card, study: Study) -> View:
    """The view with what the study says."""
    notes = cares(card, study)
    return replace(
        view, troubles=troubles(card, study)[:MOST_TROUBLES],
        steps=tuple(
            replace(step, care=tuple(note.text for note in notes if note.step == step.number)) for step in view.steps))
