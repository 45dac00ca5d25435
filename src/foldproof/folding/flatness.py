"""Whether the folds at each corner inside the paper can lie flat together.

Three conditions known as Kawasaki's (with Justin and Husimi), Maekawa's (with Justin) and the generalised
big-little-big one (Hull, The Combinatorics of Flat Folds, arXiv 1307.1065). Scores that lie flat in the pose do not
count.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card
from foldproof.folding.corners import Corner, Crease, between, corners, in_degrees, turning
from foldproof.folding.words import error, list_of, point_in_words
from foldproof.frozen import dataclass
from foldproof.paper.isometry import IDENTITY, Isometry, reflection
from foldproof.paper.vector import ORIGIN, Segment, Vector
from foldproof.recipe.records import PoseSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Folded:
    """The folds of a corner that are closed in a pose."""

    corner: Corner
    creases: tuple[Crease, ...]
    """Anticlockwise."""
    valleys: tuple[bool, ...]
    """Which of them are valleys, seen from the piece's front."""

    @property
    def angles(self) -> tuple[Vector, ...]:
        """From each fold to the next, as directions."""
        count = len(self.creases)
        return tuple(between(self.creases[i].out, self.creases[(i + 1) % count].out) for i in range(count))


def closes(folded: Folded) -> bool:
    """Kawasaki's condition, exactly: the reflections in the folds, taken round the corner, come to nothing."""
    made: Isometry = IDENTITY
    for crease in folded.creases:
        made = made.after(reflection(Segment(ORIGIN, ORIGIN + crease.out)))
    return made == IDENTITY


def balanced(folded: Folded) -> bool:
    """Maekawa's condition: valleys and mountains differ by two."""
    return abs(2 * sum(folded.valleys) - len(folded.valleys)) == 2


def unbalanced_runs(folded: Folded) -> Iterator[tuple[int, int]]:
    """Runs of equal angles between greater ones whose folds are not split evenly: (first fold, number of folds).

    For a run of k + 1 angles the valleys and mountains among its k + 2 folds differ by 0 (k even) or 1 (k odd).
    """
    angles = folded.angles
    count = len(angles)
    for first in range(count):
        if not _smaller(angles[first], angles[first - 1]):
            continue
        size = 1
        while size < count and turning(angles[first], angles[(first + size) % count]) == 0:
            size += 1
        if not _smaller(angles[first], angles[(first + size) % count]):
            continue
        valleys = sum(folded.valleys[(first + i) % count] for i in range(size + 1))
        if abs(2 * valleys - (size + 1)) > (size + 1) % 2:
            yield first, size + 1


def _smaller(one: Vector, two: Vector) -> bool:
    return turning(one, two) < 0


def folded_corners(card: Card, folds: Sequence[tuple[str, Fraction]]) -> Iterator[Folded]:
    """The corners at which something is folded right over."""
    angles = {score: angle for score, angle in folds if angle}
    for corner in corners(card):
        creases = tuple(crease for crease in corner.creases if crease.score in angles)
        if creases:
            yield Folded(
                corner=corner, creases=creases, valleys=tuple(angles[crease.score] > 0 for crease in creases))


def flat_faults(
    card: Card, spec: PoseSpec, folds: Sequence[tuple[str, Fraction]],
) -> tuple[tuple[Finding, ...], bool]:
    """What keeps the corners from lying flat, and whether all of them close."""
    findings: list[Finding] = []
    whole = True
    for folded in folded_corners(card, folds):
        if not closes(folded):
            whole = False
            findings.append(_open(card, spec, folded))
        elif not balanced(folded):
            findings.append(_out_of_balance(card, spec, folded))
        else:
            findings += [_held(card, spec, folded, *run) for run in unbalanced_runs(folded)]
    return tuple(findings), whole


def _open(card: Card, spec: PoseSpec, folded: Folded) -> Finding:
    names, where = _names(folded.creases), _where(card, folded)
    angles = [in_degrees(angle) for angle in folded.angles]
    if len(angles) % 2:
        return error(
            "corner that cannot lie flat",
            f"In the pose {spec.name} {len(angles)} of the folds that meet {where} are closed: {names}. Paper can only "
            "lie flat where an even number is.", spec.place, "Add the fold that is missing there, or leave one out.",
            _asides(card, folded.creases))
    every, other = sum(angles[::2]), sum(angles[1::2])
    sizes = list_of(f"{angle:.4g}°" for angle in angles)
    return error(
        "corner that cannot lie flat",
        f"In the pose {spec.name} the folds {names} meet {where} at angles of {sizes}. Every other one adds up to "
        f"{every:.4g}° and the rest to {other:.4g}°; the paper lies flat only where both are 180°: "
        f"{abs(every - 180):.2g}° off.", spec.place,
        f"Turn one of these scores about that point by {abs(every - 180):.2g}°, or move the point where they meet.",
        _asides(card, folded.creases))


def _out_of_balance(card: Card, spec: PoseSpec, folded: Folded) -> Finding:
    valleys = sum(folded.valleys)
    mountains = len(folded.valleys) - valleys
    return error(
        "valleys and mountains out of balance",
        f"In the pose {spec.name} {valleys} valley and {mountains} mountain folds meet {_where(card, folded)}: "
        f"{_names(folded.creases)}. Where paper lies flat they differ by two.", spec.place,
        "Fold one of them the other way.", _asides(card, folded.creases))


def _held(card: Card, spec: PoseSpec, folded: Folded, first: int, size: int) -> Finding:
    count = len(folded.creases)
    run = tuple(folded.creases[(first + i) % count] for i in range(size))
    small = in_degrees(folded.angles[first])
    kinds = ["valley" if folded.valleys[(first + i) % count] else "mountain" for i in range(size)]
    wide = list_of(f"{in_degrees(folded.angles[i % count]):.4g}°" for i in (first - 1, first + size - 1))
    what = f"{size - 1} angles of {small:.4g}°" if size > 2 else f"the angle of {small:.4g}°"
    return error(
        "small angle between like folds",
        f"In the pose {spec.name}, {_where(card, folded)}, {what} between {_names(run)} "
        f"{'lie' if size > 2 else 'lies'} between wider ones of {wide}, but those folds are {list_of(kinds)}: the wide "
        "papers on both sides would pass through each other.", spec.place,
        "Make one of them a valley and the other a mountain." if size == 2
        else "Share valleys and mountains among them as evenly as can be.", _asides(card, run))


def _names(creases: Sequence[Crease]) -> str:
    return list_of(dict.fromkeys(crease.score for crease in creases))


def _where(card: Card, folded: Folded) -> str:
    return f"on the {folded.corner.piece} at the point {point_in_words(folded.corner.at, card.recipe.unit)}"


def _asides(card: Card, creases: Sequence[Crease]) -> tuple[Aside, ...]:
    places = {score.name: score.place for piece in card.pieces for score in piece.scores}
    return tuple(Aside(text=f"the {name}", place=places[name]) for name in dict.fromkeys(c.score for c in creases))
