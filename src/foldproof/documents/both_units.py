"""The documents of an edition in both units: what the program says itself gets its brackets, too.

Drawings stay in the recipe's unit: they have no room for both, and one number beside each arrow is read at a glance.
Lines to speak stay as they are.
"""

from dataclasses import replace

from foldproof.documents.film_view import FilmShot
from foldproof.documents.view import Cut, Fact, Finished, Listed, Step, View
from foldproof.edition.both import both_units
from foldproof.edition.measures import Measures
from foldproof.measures.quantity import Unit


def told_in(view: View, measures: Measures | None) -> View:
    """The view of an edition, whose stamp says which it is; None for the recipe as it is written."""
    if measures is None:
        return view
    return replace(in_both_units(view) if measures is Measures.BOTH else view, edition=measures.called)


def in_both_units(view: View) -> View:
    """The view with the other unit after each length that the program says."""
    unit = view.unit

    def told(texts: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(both_units(text, unit) for text in texts)

    return replace(
        view, summary=both_units(view.summary, unit),
        facts=tuple(Fact(label=fact.label, text=both_units(fact.text, unit)) for fact in view.facts),
        finished=tuple(_finished(one, unit) for one in view.finished),
        cuts=tuple(_cut(cut, unit) for cut in view.cuts),
        papers=_listed(view.papers, unit), supplies=_listed(view.supplies, unit), tools=_listed(view.tools, unit),
        steps=tuple(_step(step, unit) for step in view.steps),
        troubles=tuple(replace(one, seen=both_units(one.seen, unit), causes=told(one.causes),
                               helps=both_units(one.helps, unit)) for one in view.troubles),
        shooting=replace(view.shooting, shots=tuple(_shot(shot, unit) for shot in view.shooting.shots)))


def _finished(one: Finished, unit: Unit) -> Finished:
    return replace(one, caption=both_units(one.caption, unit))


def _cut(cut: Cut, unit: Unit) -> Cut:
    return replace(
        cut, size=both_units(cut.size, unit), scores=tuple(both_units(score, unit) for score in cut.scores))


def _listed(things: tuple[Listed, ...], unit: Unit) -> tuple[Listed, ...]:
    return tuple(replace(one, note=both_units(one.note, unit)) for one in things)


def _step(step: Step, unit: Unit) -> Step:
    return replace(step, short=tuple(both_units(line, unit) for line in step.short),
                   care=tuple(both_units(line, unit) for line in step.care))


def _shot(shot: FilmShot, unit: Unit) -> FilmShot:
    return replace(shot, hands=tuple(both_units(line, unit) for line in shot.hands))
