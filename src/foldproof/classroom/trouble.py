"""The steps where a class is likeliest to go wrong, by what they ask of hands, and what helps.

A rule of our own, not a study: each thing that leaves little room for a slip, or none to go back, counts points (how
many stands beside it below; common practice, no source). The steps with the most points are told; among equals the
later one, because more work is lost with it.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from foldproof.classroom.lesson import Lesson
from foldproof.facts.tools import find_adhesive
from foldproof.frozen import dataclass
from foldproof.making.table import StepMade
from foldproof.measures.writing import with_unit
from foldproof.recipe.actions import Attach, CutBetween, ScoreAt, ScoreBetween, TurnOver
from foldproof.recipe.records import LayerSpec

MOST = 2
NARROW_MM = Fraction(5)
"""A border no wider than this shows a slip of a millimetre."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TroubleSpot:
    """A step where people fail."""

    card: str
    number: int
    title: str
    reasons: tuple[str, ...]
    points: int
    help: str
    """The recipe's own tip; empty where it has none."""


def trouble_spots(lessons: Sequence[Lesson], done_ahead: frozenset[tuple[str, int]]) -> tuple[TroubleSpot, ...]:
    """The steps that ask most, in the order of the class, at most MOST; `done_ahead` (title, number) are left out."""
    found = [
        spot
        for lesson in lessons
        for step in lesson.making.steps
        if (lesson.title, step.number) not in done_ahead
        and (spot := _spot(lesson, step)).points
    ]
    order = {(lesson.title, step.number): at for at, (lesson, step) in enumerate(
        (lesson, step) for lesson in lessons for step in lesson.making.steps)}
    worst = sorted(found, key=lambda one: (-one.points, -order[one.card, one.number]))[:MOST]
    return tuple(sorted(worst, key=lambda one: order[one.card, one.number]))


def _spot(lesson: Lesson, step: StepMade) -> TroubleSpot:
    reasons = list(_reasons(lesson, step))
    return TroubleSpot(
        card=lesson.title,
        number=step.number,
        title=str(step.spec.title),
        reasons=tuple(reason for reason, _ in reasons),
        points=sum(points for _, points in reasons),
        help=" ".join(str(step.spec.tip).split()) if step.spec.tip else "",
    )


def _reasons(lesson: Lesson, step: StepMade) -> Iterator[tuple[str, int]]:
    actions = [done.action for done in step.done]
    attached = [action for action in actions if isinstance(action, Attach)]
    if any(isinstance(action, ScoreBetween) for action in actions):
        yield "a slanted score must hit both its points", 3
    if any(isinstance(action, CutBetween) for action in actions):
        yield "a slanted cut can't be taken back", 3
    if over := _overhanging(lesson, attached):
        yield f"glue on the {over} may touch one part only", 3
    if meets := _meeting(lesson, step):
        yield f"the {meets} meet without a gap, so a score that is off shows at once", 3
    if borders := _borders(attached):
        if min(borders) == 0:
            yield "edges lie flush", 2
        narrow = min((one for one in borders if one > 0), default=None)
        if narrow is not None and narrow * lesson.unit.millimetres <= NARROW_MM:
            yield f"a border of {with_unit(narrow, lesson.unit)} shows the smallest slip", 2
    scored = [at for at, action in enumerate(actions) if isinstance(action, ScoreAt | ScoreBetween)]
    if scored and any(isinstance(action, TurnOver) for action in actions[: scored[-1]]):
        yield "the work is turned over before it is scored", 1
    if names := _instant(lesson, attached):
        yield f"no sliding once it touches ({names})", 1
    if len(attached) > 2:
        yield f"{len(attached)} parts are glued, one after the other", 1
    if step.spec.caution and attached:
        yield "the recipe warns here", 1


def _overhanging(lesson: Lesson, attached: Sequence[Attach]) -> str:
    """The first part whose panel is to be glued although it reaches over others that stay free."""
    wanted = {action.bond for action in attached}
    return next(
        (
            bond.name
            for bond in lesson.card.bonds
            if bond.name in wanted and isinstance(bond.spec, LayerSpec) and _free(lesson, bond.spec)
        ),
        "",
    )


def _free(lesson: Lesson, layer: LayerSpec) -> bool:
    """Whether it reaches over a panel of a folding piece: over a mere layer it may be glued all over."""
    folding = {panel.name for panel in lesson.card.panels.values() if _folds(lesson, panel.piece)}
    return any(str(name) in folding for name in layer.overhangs)


def _folds(lesson: Lesson, piece: str) -> bool:
    return any(one.name == piece and one.scores for one in lesson.card.pieces)


def _meeting(lesson: Lesson, step: StepMade) -> str:
    """The panels that must meet, where the step scores the piece that they are made of."""
    pieces = {done.piece for done in step.done if isinstance(done.action, ScoreAt)}
    for meet in lesson.card.recipe.finished.meets:
        names = [str(name) for name in meet.panels]
        panels = [lesson.card.panels[name] for name in names if name in lesson.card.panels]
        if meet.gap is not None and meet.gap.value == 0 and any(panel.piece in pieces for panel in panels):
            return " and the ".join(names)
    return ""


def _borders(attached: Sequence[Attach]) -> list[Fraction]:
    at = [action.at for action in attached]
    return [
        abs(length.value)
        for one in at
        for length in (one.border, one.left, one.right, one.top, one.bottom)
        if length is not None
    ]


def _instant(lesson: Lesson, attached: Sequence[Attach]) -> str:
    """The first adhesive of the step that can't be slid into place."""
    kinds = {str(supply.name): str(supply.kind or supply.name) for supply in lesson.card.recipe.supplies}
    of_bond = {bond.name: bond.adhesive for bond in lesson.card.bonds}
    for action in attached:
        name = action.adhesive or of_bond.get(action.bond)
        known = find_adhesive(kinds.get(name, name)) if name else None
        if known is not None and not known.wet:
            return str(name)
    return ""
