"""A fold that stands: the work edge on, beside its picture from above, which shows such a fold as if it lay flat."""

import math
from fractions import Fraction

from foldproof.drawing.independent import folded_over, panel_fits
from foldproof.drawing.lettering import line_step
from foldproof.drawing.picture import Picture
from foldproof.drawing.plane import XY, middle_of, minus, plus, times
from foldproof.drawing.scene import Item, Kind, Label, Line
from foldproof.folding.card import Hinge
from foldproof.paper.face import Face

ARM = 9.0
"""How long each of the two panels is drawn, in millimetres."""


def standing_folds(picture: Picture) -> tuple[tuple[Hinge, Fraction], ...]:
    """The scores of the work that are folded, but not right over, each with its angle toward the maker."""
    angles = dict(picture.table.folded)
    own = {part.piece for part in picture.work.parts}
    sense = 1 if picture.work.lie.up is Face.FRONT else -1
    found: dict[str, tuple[Hinge, Fraction]] = {}
    for hinge in picture.card.hinges:
        angle = angles.get(hinge.score, Fraction(0))
        if hinge.piece in own and 0 < abs(angle) < 180 and hinge.score not in found:
            found[hinge.score] = (hinge, angle * sense)
    return tuple(found.values())


def edge_on(picture: Picture, hinge: Hinge, angle: Fraction, at: XY, pt: float) -> list[Item]:
    """The two panels at a score from their edge, the still one level; `at` is where the score stands."""
    name = _moving(picture, hinge)
    pane = picture.pane_at(hinge.piece, hinge.segment.middle)
    if name is None or pane is None:
        return []
    p, q = (picture.looking.at(pane.part.fit.point(end)) for end in (hinge.segment.start, hinge.segment.end))
    ring = tuple(picture.looking.at(pane.part.fit.point(corner)) for corner in picture.card.panels[name].ring)
    away = minus(middle_of(ring), times(plus(p, q), 0.5))
    upright = abs(q[1] - p[1]) >= abs(q[0] - p[0])
    side = 1.0 if (away[0] if upright else away[1]) > 0 else -1.0
    turn = math.radians(float(angle))
    tip = plus(at, times((side * math.cos(turn), math.sin(turn)), ARM))
    words = f"{float(abs(angle)):g}°, seen from {'the near edge' if upright else 'the right'}"
    low = min(at[1], tip[1]) - 3.0
    return [
        Line(points=(plus(at, (-side * ARM, 0.0)), at), kind=Kind.STRONG), Line(points=(at, tip), kind=Kind.STRONG),
        *(Label(text=line, at=(at[0], low - i * line_step(pt)), pt=pt) for i, line in enumerate(words.split(", "))),
    ]


def _moving(picture: Picture, hinge: Hinge) -> str | None:
    """Which of the two panels of a score that stands is the one that has left the table."""
    card, table, piece = picture.card, picture.table, hinge.piece
    over = panel_fits(card, folded_over(card, table, piece))
    lying = panel_fits(card, picture.work)
    return next((name for name in hinge.panels if over.get(name) != lying.get(name)), None)
