"""What a drawing says, in words: captions, and the text for someone who cannot see it. All from the same state."""

from collections.abc import Iterable

from foldproof.drawing.frame import Frame, Motion
from foldproof.drawing.frames import looked_at
from foldproof.drawing.picture import fold_seen
from foldproof.folding.card import Card
from foldproof.making.table import Done
from foldproof.making.work import Work, work_with
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.face import Face, Fold
from foldproof.recipe import actions as do
from foldproof.recipe.records import StepSpec


def list_of(words: Iterable[str]) -> str:
    """Words with commas, and "and" before the last."""
    every = list(words)
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} and {every[-1]}" if every else ""


LETTERS = "abcdefghijklmnopqrstuvwxyz"
"""Frames of a step in their order."""


def caption(card: Card, frame: Frame, notes: Iterable[str] = (), before: Frame | None = None) -> str:
    """What lies there: the piece, the face that is up, and what the picture alone does not say.

    What the frame before it said already is not said again.
    """
    cuts = [done for done in frame.done if isinstance(done.action, do.CutOut | do.DieCut)]
    if cuts:
        names = list_of(done.piece or "" for done in cuts)
        paper = _paper(card, cuts[0].piece or "")
        count = f", cut {len(cuts)}" if len(cuts) > 1 else ""
        return "; ".join([f"{names}{f', {paper}' if paper else ''}{count}", *notes])
    last = [f"then as in {LETTERS[frame.again]}"] if frame.again is not None else []
    lies, known = lying(card, frame), lying(card, before) if before is not None else ()
    told = [words for i, words in enumerate(lies) if i >= len(known) or known[i] != words or i > 1]
    words = "; ".join(filter(None, (", ".join(told), *notes, *last)))
    return words or "; ".join(_since(frame, before))


VERBS: tuple[tuple[tuple[type, ...], str], ...] = (
    ((do.CutAcross, do.CutOff, do.CutBetween, do.CutAway, do.RoundCorners, do.Scallop), "cut"),
    ((do.SlitAt, do.SlitBetween), "slit"), ((do.ScoreAt, do.ScoreBetween), "score"), ((do.MarkAt,), "mark"),
    ((do.FoldOn,), "fold"), ((do.Unfold,), "unfold"), ((do.BringTo,), "bring into the pose"),
    ((do.Attach,), "put on"), ((do.SlideIn,), "slide in"), ((do.Measure,), "measure"),
)
"""What is done in a frame, in a word or two, for a caption that has nothing else to say."""


def _since(frame: Frame, before: Frame | None) -> list[str]:
    """How the work has changed since the frame before, and what is done now, in a few words."""
    kinds = [motion.kind for motion in frame.motions]
    changed = ["turned over"] if "over" in kinds else ["turned"] if "turn" in kinds else []
    earlier = before.done if before is not None else ()
    if any(isinstance(done.action, do.FoldOn) for done in earlier) and not (before and before.back):
        changed.append("folded")
    verbs = dict.fromkeys(verb for done in frame.done for kind, verb in VERBS if isinstance(done.action, kind))
    again = {verb for done in earlier for kind, verb in VERBS if isinstance(done.action, kind)}
    return [*changed, *(f"{verb} again" if verb in again and verb == "cut" else verb for verb in verbs)]


def lying(card: Card, frame: Frame) -> tuple[str, ...]:
    """`base` and `front up`, or `base` and `folded`; then the folds that stand."""
    work = work_with(card, frame.table, frame.piece)
    lie = looked_at(card, frame) or work.lie
    own = {score.name for part in work.parts if (plan := card.piece(part.piece)) for score in plan.scores}
    stands = [f"{score} at {float(abs(angle)):g}°" for score, angle in frame.table.folded
              if score in own and abs(angle) != 180]
    folded = any(part.panel is not None for part in work.parts)
    return (work.root, "folded" if folded else f"{lie.up} up", *stands)


def _paper(card: Card, piece: str) -> str | None:
    plan = card.piece(piece)
    return plan.paper if plan is not None else None


def tell_step(card: Card, frames: tuple[Frame, ...]) -> str:
    """The frames of a step in a few sentences."""
    sentences: list[str] = []
    for index, frame in enumerate(frames):
        for motion in frame.motions:
            if motion.kind != "then":
                sentences.append(_sentence(_moved(motion)))
        before = frames[index - 1] if index else None
        sentences += [_sentence(words) for words in _tell(card, frame, before)]
    return " ".join(sentences)


def tell_again(step: StepSpec) -> str:
    """What else the same is done with, in one sentence; empty where there is nothing."""
    names = list_of(f"the {again.piece}{' as in a mirror' if again.mirrored else ''}" for again in step.repeats)
    return _sentence(f"the same is done with {names}") if names else ""


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def _moved(motion: Motion) -> str:
    if motion.kind == "turn":
        return f"then the work is given a {motion.words}"
    return f"then the work is {motion.words.replace('turn over', 'turned over')}"


def _tell(card: Card, frame: Frame, before: Frame | None) -> list[str]:
    cuts = [done for done in frame.done if isinstance(done.action, do.CutOut | do.DieCut)]
    if cuts:
        return [_cut_out(card, cuts)]
    work = work_with(card, frame.table, frame.piece)
    folded = any(part.panel is not None for part in work.parts)
    state = "lies folded" if folded else f"lies with its {_up(card, frame)} up"
    fence = f", {_far_edge(work)} against the fence and the left end at the stop" if frame.fence else ""
    told = [f"the {work.root} {state}{fence}"]
    told += [words for done in (*frame.done, *frame.rest) for words in _tell_done(card, done)]
    if frame.back:
        told.append("each fold is then undone again" if len(frame.back) > 1 else "then the fold is undone again")
    return told


def _far_edge(work: Work) -> str:
    """`a long edge`, `a short edge` or `an edge`, whichever lies far from the maker."""
    (left, right), (near, far) = work.span(work.lie.right), work.span(work.lie.away)
    if right - left == far - near:
        return "an edge"
    return "a long edge" if right - left > far - near else "a short edge"


def _up(card: Card, frame: Frame) -> Face:
    work = work_with(card, frame.table, frame.piece)
    return (looked_at(card, frame) or work.lie).up


def _cut_out(card: Card, cuts: list[Done]) -> str:
    action = cuts[0].action
    assert isinstance(action, do.CutOut | do.DieCut)
    width, height = (with_unit(size.value, card.recipe.unit) for size in action.size)
    names = list_of(f"the {done.piece}" for done in cuts)
    verb = "are" if len(cuts) > 1 else "is"
    each = "each " if len(cuts) > 1 else ""
    paper = _paper(card, cuts[0].piece or "")
    plan = card.piece(cuts[0].piece or "")
    by_die = "cut with a die" if paper else "taken"
    what = f"{verb} {'cut' if isinstance(action, do.CutOut) else by_die}"
    size = f"{width} across" if plan is not None and plan.round else f"{width} wide and {height} high"
    return f"{names} {what}{f' from {paper}' if paper else ''}, {each}{size}"


def _tell_done(card: Card, done: Done) -> list[str]:
    unit = card.recipe.unit
    match done.action:
        case do.ScoreAt(at=at, start=start):
            return [f"a {_score_word(card, done)} runs {_reach(done.action, unit)}, "
                    f"{with_unit(at.value, unit)} from {_end(start)}"]
        case do.SlitAt(at=at):
            return [f"a slit runs {_reach(done.action, unit)}, {with_unit(at.value, unit)} from the stop"]
        case do.SlitBetween(start=start, end=end):
            return [f"a slit runs from the {start.name} to the {end.name}"]
        case do.CutAway():
            return [_away(done.action, unit)]
        case do.RoundCorners(radius=radius, corners=corners):
            which = "every corner" if len(corners) == 4 else f"at {list_of(corners)} the paper"
            return [f"{which} is cut round to {with_unit(radius.value, unit)}"]
        case do.Scallop(edge=edge, across=across):
            return [f"the {edge} edge is cut in scallops {with_unit(across.value, unit)} across"]
        case do.SlideIn(slide=slide):
            return [f"{slide}"]
        case do.ScoreBetween(start=start, end=end):
            return [f"a {_score_word(card, done)} runs from the {start.name} to the {end.name}"]
        case do.CutAcross(at=at, keep=keep, start=start, other=other):
            rest = f"; the other part is the {other}" if other else ""
            return [f"a cut runs square to the fence, {with_unit(at.value, unit)} from {_end(start)}; the {keep} part "
                    f"is kept{rest}"]
        case do.CutOff(width=width, edge=edge, other=other):
            rest = f"; it is the {other}" if other else ""
            return [f"a cut takes a strip of {with_unit(width.value, unit)} off the {edge} edge{rest}"]
        case do.CutBetween(start=start, end=end, keep=keep, other=other):
            rest = f"; the other part is the {other}" if other else ""
            return [f"a cut runs from the {start.name} to the {end.name}; the part with the {keep} corner is kept"
                    f"{rest}"]
        case do.MarkAt(at=at, edge=edge, start=start, name=name, inward=inward):
            place = "on" if inward is None else f"{with_unit(inward.value, unit)} in from"
            return [f"the {name} stands {place} the {edge} edge, {with_unit(at.value, unit)} from its {start} end"]
        case do.FoldOn(score=score, fold=fold, angle=angle):
            way = "forward" if fold is Fold.VALLEY else "behind"
            far = f" to {float(angle.value):g} degrees" if angle is not None and angle.value != 180 else ""
            return [f"an arrow folds the work {way} on the {score}, a {fold} fold{far}"]
        case do.Tuck(flap=flap, under=under):
            return [f"the {flap} is tucked under the {under}"]
        case do.BringTo(pose=pose):
            new = [score for score, angle in done.after.folded if (score, angle) not in done.before.folded]
            what = f"folds on {list_of(f'the {score}' for score in new)} at once" if new else "opens the folds"
            return [f"an arrow {what}, until it lies as in the pose “{pose}”"]
        case do.Unfold(score=score):
            return [f"an arrow opens the fold on the {score} again"]
        case do.Attach():
            return [_attached(card, done, done.action)]
        case do.Stamp(panel=panel, face=face, words=words):
            return [f"the words “{words}” stand on the {face} of the {panel}" if words
                    else f"the {face} of the {panel} is stamped"]
        case do.Tie(supply=supply, length=size):
            long = f", {with_unit(size.value, unit)} long," if size else ""
            return [f"the {supply}{long} is tied round it"]
        case do.Measure(size=size):
            return [f"it measures {write_size((size[0].value, size[1].value), unit)}, width by height"]
        case _:
            return []


def _end(start: str) -> str:
    return "the stop" if start == "left" else "the right end"


def _reach(action: do.ScoreAt | do.SlitAt, unit: Unit) -> str:
    """From where to where a line square to the fence runs."""
    if action.begins is None and action.ends is None:
        return "across from the far edge to the near one"
    start = f"from {with_unit(action.begins.value, unit)} below the far edge" if action.begins else "from the far edge"
    return f"{start} to {f'{with_unit(action.ends.value, unit)} below it' if action.ends else 'the near one'}"


def _away(action: do.CutAway, unit: Unit) -> str:
    sort = "notch" if action.opens else "window"
    if action.corners:
        return f"a {sort} is cut by {list_of(point.name for point in action.corners)}"
    size = f"{with_unit(action.circle.value, unit)} across" if action.circle else write_size(
        (action.size[0].value, action.size[1].value), unit) if action.size else ""
    where = [f"{with_unit(q.value, unit)} from the {side} edge" for side in ("left", "right", "top", "bottom")
             if (q := getattr(action.at, side)) is not None]
    if action.at.centred is not None:
        where.append("in the middle" + {"both": "", "across": " from side to side", "up": " from top to bottom"}[
            action.at.centred])
    return f"a {sort}, {size}, is cut {list_of(where)}"


def _score_word(card: Card, done: Done) -> str:
    work = work_with(card, done.after, done.piece or "")
    for line in done.lines:
        for part in work.parts:
            if part.piece == done.piece:
                fold = fold_seen(card, part.piece, line, work.face_up(part))
                if fold in (Fold.VALLEY, Fold.MOUNTAIN):
                    return f"{fold} score"
    return "score"


def _attached(card: Card, done: Done, action: do.Attach) -> str:
    bond = next((bond for bond in card.bonds if bond.name == action.bond), None)
    if bond is None:
        return f"the {action.bond} is put on"
    unit = card.recipe.unit
    guest = card.panels[bond.over.panel].piece
    at = action.at
    where: list[str] = []
    if at.border is not None:
        where.append(f"with a border of {with_unit(at.border.value, unit)} all round")
    for side in ("left", "right", "top", "bottom"):
        measure = getattr(at, side)
        if measure is not None:
            where.append(f"flush with its {side} edge" if measure.value == 0
                         else f"{with_unit(measure.value, unit)} from its {side} edge")
    if at.centred is not None:
        middle = "centered" if unit is Unit.INCH else "centred"
        way = {"both": "", "across": " from side to side", "up": " from top to bottom"}[at.centred]
        where.append(middle + way + (f" on the {at.centred_on}" if at.centred_on else ""))
    glue = f" with {action.adhesive}" if action.adhesive else ""
    place = f", {list_of(where)}" if where else ""
    return (
        f"the {guest} is fixed{glue} to the {bond.under.face} of the {bond.under.panel}{place}; hatching shows the "
        "adhesive")
