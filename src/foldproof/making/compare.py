"""What the steps made, held against what the plan needs."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.folding.card import Bond, Card, CardPiece
from foldproof.making.compare_cuts import canonical, compare_cuts, compare_edges, shaped
from foldproof.making.folds import same_line
from foldproof.making.stacked import over_now
from foldproof.making.table import Bonded, Crease, OnTable, StepMade, Table
from foldproof.making.triangles import diagonal, right_angle_at
from foldproof.making.work import root_still, work_with
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_length
from foldproof.paper.face import Face, Fold
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import bounding_box, clip
from foldproof.paper.vector import ORIGIN, Point, Segment
from foldproof.recipe.actions import Attach, BringTo, CutOut, DieCut, FoldOn, ScoreAt, Tuck


def compare(card: Card, steps: tuple[StepMade, ...], told: frozenset[Place] = frozenset()) -> Iterator[Finding]:
    """Every difference between the table after the last step and the plan.

    What a score left that was told already, at one of these places, is not told again.
    """
    if not steps:
        return
    end = steps[-1].after
    for piece in card.pieces:
        made = end.pieces.get(piece.name)
        if made is None:
            if not piece.bought:
                yield _missing(piece)
            continue
        yield from _outline(card, piece, made, steps)
        yield from compare_cuts(card, piece, made, steps)
        yield from _scores(card, piece, made, steps, told)
    yield from _folds(card, steps)
    for bond in card.bonds:
        yield from _bond(card, bond, end, steps)
    yield from _order(card, end, steps)


def _missing(piece: CardPiece) -> Finding:
    return Finding(
        name="a piece that no step makes", severity=Severity.ERROR, place=piece.spec.place,
        message=f"The plan has the {piece.name}, but no step cuts it.", mend=f"Add a step that cuts the {piece.name}.")


def _outline(card: Card, piece: CardPiece, made: OnTable, steps: tuple[StepMade, ...]) -> Iterator[Finding]:
    if canonical(piece.outline) == canonical(made.outline):
        return
    unit = card.recipe.unit
    plan, cut = bounding_box(piece.outline), bounding_box(made.outline)
    at, step = _cut_place(piece.name, steps)
    if (plan.width, plan.height) == (cut.width, cut.height) and (piece.spec.cuts.takes_off or shaped(piece, steps)):
        yield from compare_edges(card, piece, made, steps)
        return
    if (plan.width, plan.height) == (cut.width, cut.height):
        message = f"The steps cut the {piece.name} to another shape than the plan's, though its outer size agrees."
        mend = f"Check the points of the cut and which part is kept{_right_diagonal(card, piece)}."
    else:
        message = (
            f"The steps cut the {piece.name} {write_length(cut.width, unit)} × {with_unit(cut.height, unit)}; "
            f"the plan needs {write_length(plan.width, unit)} × {with_unit(plan.height, unit)}"
            f"{_by(plan.width, cut.width, 'width', unit)}{_by(plan.height, cut.height, 'height', unit)}.")
        mend = f"Cut it {write_length(plan.width, unit)} × {with_unit(plan.height, unit)}, or mend the plan."
    yield Finding(
        name="cut to another size than the plan", severity=Severity.ERROR, place=at, message=message, mend=mend,
        step=step, asides=(Aside(text=f"the plan of the {piece.name}", place=piece.spec.place),))


def _right_diagonal(card: Card, piece: CardPiece) -> str:
    """Of a right triangle, the diagonal of its rectangle that leaves it; printed paper is looked at on its print."""
    corner = right_angle_at(canonical(piece.outline))
    if corner is None:
        return ""
    printed = any(paper.name.value == piece.paper and paper.printed == "one face" for paper in card.recipe.papers)
    face = "printed face" if printed else "front"
    return (f": its rectangle is cut {diagonal(corner)} as you look at the {face}, and the half with the "
            f"{' '.join(corner)} corner is kept")


def _by(plan: Fraction, made: Fraction, word: str, unit: Unit) -> str:
    if plan == made:
        return ""
    return f", {with_unit(abs(plan - made), unit)} {'more' if plan > made else 'less'} in {word}"


def _cut_place(piece: str, steps: tuple[StepMade, ...]) -> tuple[Place | None, str | None]:
    for step in steps:
        for done in step.every:
            if done.piece == piece and isinstance(done.action, CutOut | DieCut):
                return done.action.place, step.spec.id
    return None, None


def _scores(
    card: Card, piece: CardPiece, made: OnTable, steps: tuple[StepMade, ...], told: frozenset[Place],
) -> Iterator[Finding]:
    unit = card.recipe.unit
    # on a piece of another size a score on the right line still ends elsewhere: the size is told, once
    alike = same_line if canonical(piece.outline) == canonical(made.outline) else _collinear
    wanted = [replace(score, segment=part) for score in piece.scores
              for part in clip(score.segment, piece.outline, piece.holes) if part.start != part.end]
    spare = [c for c in made.creases if c.place not in told and not any(alike(c.segment, s.segment) for s in wanted)]
    missing = [s for s in wanted if not any(alike(s.segment, c.segment) for c in made.creases)]
    for score in {score.name: score for score in reversed(missing)}.values():
        near = min(spare, key=lambda crease: _apart(crease.segment, score.segment), default=None)
        if near is None:
            yield Finding(
                name="a score that no step makes", severity=Severity.ERROR, place=score.place,
                message=f"The plan scores the {piece.name} along its {score.name} ({_where(score.segment, unit)}), "
                "but no step does.", mend="Add the score to a step, or check how the piece lies when it is scored.")
            continue
        spare.remove(near)
        yield Finding(
            name="scored elsewhere than the plan", severity=Severity.ERROR, place=near.place,
            message=f"This makes a score on the {piece.name} {_where(near.segment, unit)}; the plan's {score.name} is "
            f"{_where(score.segment, unit)}{_off(near.segment, score.segment, unit)}.",
            mend=f"{_rather(near, score.segment, steps, unit)}, and every turn before this score.",
            asides=(Aside(text=f"the plan of the {score.name}", place=score.place),))
    for crease in spare:
        yield Finding(
            name="a score that the plan does not have", severity=Severity.ERROR, place=crease.place,
            message=f"This scores the {piece.name} {_where(crease.segment, unit)}, where the plan has no score.",
            mend="Take this score out of the step, or add it to the plan.")


def _rather(crease: Crease, plan: Segment, steps: tuple[StepMade, ...], unit: Unit) -> str:
    """The distance that would have made the plan's score from where this one was measured, where there is one."""
    check = "heck the edge that lies against the fence"
    for done in (done for step in steps for done in step.every):
        if isinstance(done.action, ScoreAt) and done.action.place == crease.place and done.dimensions:
            said, start = done.dimensions[0].measure, done.dimensions[0].start
            side = plan.along.cross(crease.segment.start - start)
            if plan.along.cross(crease.segment.along) == 0 and side != 0:
                ratio = plan.along.cross(plan.start - start) / side
                if ratio > 0:
                    right = with_unit(said.value * ratio, unit)
                    return f"Score at {right}, not {with_unit(said.value, unit)}; or c{check}"
    return f"C{check} and the points of the score"


def _collinear(a: Segment, b: Segment) -> bool:
    return a.along.cross(b.start - a.start) == 0 and a.along.cross(b.end - a.start) == 0


def _apart(a: Segment, b: Segment) -> Fraction:
    straight = (a.start - b.start).square + (a.end - b.end).square
    crossed = (a.start - b.end).square + (a.end - b.start).square
    return min(straight, crossed)


def _where(line: Segment, unit: Unit) -> str:
    """Where a line of a piece runs, front up."""
    if line.start.x == line.end.x:
        return f"{with_unit(line.start.x, unit)} from the left"
    if line.start.y == line.end.y:
        return f"{with_unit(line.start.y, unit)} up from the bottom"
    return f"from {_spot(line.start, unit)} to {_spot(line.end, unit)}"


def _spot(p: Point, unit: Unit) -> str:
    return f"({write_length(p.x, unit)}, {write_length(p.y, unit)})"


def _off(made: Segment, plan: Segment, unit: Unit) -> str:
    if made.start.x == made.end.x and plan.start.x == plan.end.x:
        step, way = plan.start.x - made.start.x, ("right", "left")
    elif made.start.y == made.end.y and plan.start.y == plan.end.y:
        step, way = plan.start.y - made.start.y, ("higher", "lower")
    else:
        return ""
    return f", {with_unit(abs(step), unit)} farther {way[0] if step > 0 else way[1]}" if step else ""


def _folds(card: Card, steps: tuple[StepMade, ...]) -> Iterator[Finding]:
    folded = {score for step in steps for done in step.every for score, _ in done.after.folded}
    if any(isinstance(done.action, BringTo) for step in steps for done in step.every):
        # scores in a ring bend on the way, also where they come to lie flat again
        folded |= {fold.score.value for pose in card.recipe.poses for fold in pose.folds}
    for piece in card.pieces:
        for score in piece.scores:
            if score.fold is not Fold.NONE and score.name not in folded:
                yield Finding(
                    name="a score that no step folds", severity=Severity.WARNING, place=score.place,
                    message=f"The plan folds the {piece.name} on its {score.name}, but no step does.",
                    mend="Add the fold to a step.")


def _order(card: Card, end: Table, steps: tuple[StepMade, ...]) -> Iterator[Finding]:
    """Where the steps end with the card closed: the papers lie on each other as in the plan's closed pose."""
    closed = card.closed
    root = end.root(card.pieces[0].name) if card.pieces[0].name in end.pieces else None
    if closed is None or root is None:
        return
    folds = {fold.score.value: fold.angle.value for fold in closed.spec.folds if fold.angle and fold.angle.value}
    work = work_with(card, end, root)
    still = root_still(card, root)
    if dict(end.folded) != folds or still is None or {part.panel for part in work.parts} != set(closed.placements):
        return
    made = over_now(card, end, work)
    planned = frozenset((b, a) for a, b in closed.over) if closed.placements[still].flips else closed.over
    wrong = sorted(pair for pair in made - planned if pair[::-1] in planned)
    if not wrong:
        return
    upper, lower = wrong[0][::-1] if closed.placements[still].flips else wrong[0]  # as the reader looks at it
    more = f", and {len(wrong) - 1} more such pairs" if len(wrong) > 1 else ""
    last = next((
        step for step in reversed(steps) for done in step.done
        if isinstance(done.action, BringTo | FoldOn | Tuck)), None)
    yield Finding(
        name="closed in another order than the plan", severity=Severity.ERROR,
        place=last.spec.place if last else None, step=last.spec.id if last else None,
        message=f"After the last step the {upper} lies over the {lower}{more}; in the plan's pose {closed.name} they "
        "lie the other way round.",
        mend="Fold in the order of the pose, the last one on top, and tuck what the pose tucks; or mend the pose.",
        asides=(Aside(text=f"the pose {closed.name}", place=closed.spec.place),))


def _bond(card: Card, bond: Bond, end: Table, steps: tuple[StepMade, ...]) -> Iterator[Finding]:
    made = next((b for b in end.bonds if b.name == bond.name), None)
    if made is None:
        yield Finding(
            name="never attached", severity=Severity.ERROR, place=bond.place,
            message=f"The plan fixes the {bond.name} to the {bond.under.panel}, but no step does.",
            mend=f"Add `attach: {{what: {bond.name}, ...}}` to a step.")
    elif made.fit != bond.fit:
        place, step = _attached(bond.name, steps)
        yield Finding(
            name="attached elsewhere than the plan", severity=Severity.ERROR, place=place, step=step,
            message=f"The step puts the {bond.name} {_shift(card, bond, made)}.",
            mend="Check the distances and which way round it lies, here and in the plan.",
            asides=(Aside(text=f"the plan of the {bond.name}", place=bond.place),))


def _attached(name: str, steps: Iterable[StepMade]) -> tuple[Place | None, str | None]:
    for step in steps:
        for done in step.every:
            if isinstance(done.action, Attach) and done.action.bond == name:
                return done.action.place, step.spec.id
    return None, None


def _shift(card: Card, bond: Bond, made: Bonded) -> str:
    """How the made place differs from the plan's, as the receiving face is looked at."""
    unit = card.recipe.unit
    linear = (made.fit.xx, made.fit.xy, made.fit.yx, made.fit.yy)
    if linear != (bond.fit.xx, bond.fit.xy, bond.fit.yx, bond.fit.yy):
        return "turned another way than the plan"
    look = Isometry(xx=Fraction(-1 if bond.under.face is Face.BACK else 1))
    step = look.vector(made.fit.point(ORIGIN) - bond.fit.point(ORIGIN))
    ways = [
        f"{with_unit(abs(amount), unit)} {words[0] if amount > 0 else words[1]}"
        for amount, words in ((step.x, ("too far right", "too far left")), (step.y, ("too high", "too low"))) if amount
    ]
    return f"{' and '.join(ways)} against the plan"
