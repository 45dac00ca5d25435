"""Before the first glue: what is asked beside the two pictures, what tells them apart, what glue does."""

from collections.abc import Iterator

from foldproof.documents.words import listed
from foldproof.drawing.frame import Frame
from foldproof.drawing.picture import Picture, crease_on, fold_seen, folded_now, picture_of, score_of, seen
from foldproof.drawing.plane import between
from foldproof.drawing.stop_check import Stop
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making
from foldproof.paper.face import Fold
from foldproof.recipe import actions as do

_MOVED = {
    do.Unfold: "opened", do.FoldOn: "folded", do.BringTo: "folded", do.Tuck: "tucked", do.Turn: "turned",
    do.TurnOver: "turned"}
_AT = {"left": "at your left", "right": "at your right", "top": "at the far edge", "bottom": "at the near edge"}
_SET = ("wet glue", "dry glue")
"""Kinds of adhesive that hold for good. (Common practice, no source.)"""
_OPENED = "Look at the opened folds: they bend {0} in the first, {1} in the second."
_PRESSED = "Look at the scores: you see the {0} of each in the first, the {1} in the second."
_WORDS = {True: ("away from you (mountain)", "toward you (valley)"), False: ("ridge", "groove")}
_NEAR = 0.02
"""How near an edge of the work a fold counts as that edge, as a share of the work's longer side."""

_CLEAR = 0.05
"""How far off the middle scores must lie for eyes to see it."""


def asked(card: Card, making: Making, stop: Stop) -> str:
    """When to look, and at what."""
    moved = _moved(making, stop)
    glue = _glue(card, stop)
    when = f"Before any {glue} goes on: does the work"
    if moved:
        when = f"When you have {listed(moved)} the work as this step says, and before any {glue} goes on: does it"
    asks = f"{when} lie like the first picture, and not like the second?"
    return " ".join(filter(None, (asks, look_for(card, making, stop))))


def mended(card: Card, stop: Stop) -> str:
    """What brings the wrong lie to the right one, and why to do it now."""
    glue = _glue(card, stop)
    kind = next((supply.kind for supply in card.recipe.supplies if str(supply.name) == glue), None) or glue
    why = "Glue can't be undone" if kind in _SET else f"Pulling {glue} off again may tear the paper"
    return f"If it lies like the second: {stop.mend}. {why}."


def look_for(card: Card, making: Making, stop: Stop) -> str:
    """What tells the pictures apart on real paper where their shapes do not: folded edges, opened folds, ridges."""
    right, wrong = (_picture(card, frame) for frame in (stop.right, stop.wrong))
    edges = [listed([_AT[side] for side in _AT if side in _folded(picture)]) for picture in (right, wrong)]
    if all(edges) and edges[0] != edges[1]:
        return f"Look for the folded edge: {edges[0]} in the first, {edges[1]} in the second."
    were = _were_folded(making, stop)
    for words, opened in ((_OPENED, True), (_PRESSED, False)):
        looks = [{line.valley if opened else line.groove for line in _lines(picture) if not line.folded}
                 for picture in (right, wrong)]
        if all(len(look) == 1 for look in looks) and looks[0] != looks[1] and all(
                (line.score in were) is opened for line in _lines(right) if not line.folded):
            return words.format(*(_WORDS[opened][True in look] for look in looks))
    sides = [_nearer(picture) for picture in (right, wrong)]
    if all(sides) and sides[0] != sides[1]:
        return f"Look where the scores lie: nearer {sides[0]} in the first, nearer {sides[1]} in the second."
    return ""


def told_apart(card: Card, stop: Stop) -> bool:
    """Whether real paper, which has no names on it, looks one way in the one picture and another way in the other."""
    return _seen(card, stop.right) != _seen(card, stop.wrong)


def _moved(making: Making, stop: Stop) -> list[str]:
    """What the step itself does to the work before the glue."""
    made = next(made for made in making.steps if made.spec.id == stop.step)
    every = list(made.every)
    before = [done for done in every[:every.index(stop.glued)]
              if done.piece and done.before.root(str(done.piece)) == stop.right.piece]
    return list(dict.fromkeys(_MOVED[type(done.action)] for done in before if type(done.action) in _MOVED))


def _glue(card: Card, stop: Stop) -> str:
    action = stop.glued.action
    assert isinstance(action, do.Attach)
    bond = next(bond for bond in card.bonds if bond.name == action.bond)
    return str(action.adhesive or bond.spec.adhesive or "glue")


def _picture(card: Card, frame: Frame) -> Picture:
    return picture_of(card, frame.table, frame.piece, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A stretch of a crease, as the maker sees it."""

    score: str
    folded: bool
    at: tuple[float, float]
    """Its middle, from the work's left and near edges, as shares of the work's longer side."""
    groove: bool
    """Whether its groove is up: what presses is above, so the other face has the ridge."""
    valley: bool


def _lines(picture: Picture) -> Iterator[_Line]:
    box = picture.box
    size = max(box.width, box.height)
    for pane in picture.panes:
        piece = pane.part.piece
        for crease in picture.table.pieces[piece].creases:
            score = score_of(picture.card, piece, crease.segment)
            folded = folded_now(picture, piece, crease)
            for stretch in crease_on(picture, pane, crease):
                for start, end in [stretch] if folded else seen(*stretch, pane.covered):
                    middle = between(start, end, 0.5)
                    yield _Line(
                        score=score.name if score else "", folded=folded, groove=crease.pressed is pane.face,
                        at=((middle[0] - box.left) / size, (middle[1] - box.bottom) / size),
                        valley=fold_seen(picture.card, piece, crease.segment, pane.face) is Fold.VALLEY)


def _nearer(picture: Picture) -> str:
    """Toward which side of the work its open scores lie, taken together; empty where that is the middle."""
    box = picture.box
    size = max(box.width, box.height)
    lines = [line.at for line in _lines(picture) if not line.folded]
    for axis, reach, names in ((0, box.width, ("your left", "your right")), (1, box.height, ("you", "the far edge"))):
        off = sum(at[axis] for at in lines) / len(lines) - reach / size / 2 if lines else 0.0
        if abs(off) > _CLEAR:
            return names[off > 0]
    return ""


def _were_folded(making: Making, stop: Stop) -> set[str]:
    """Scores that have been folded before the glue."""
    every = [done for made in making.steps for done in made.every]
    return {score for done in every[:every.index(stop.glued)] for score, _ in done.after.folded}


def _folded(picture: Picture) -> set[str]:
    """The sides of the work where its paper is folded over."""
    box = picture.box
    size = max(box.width, box.height)
    far = {"left": (0, 0.0), "right": (0, box.width / size), "bottom": (1, 0.0), "top": (1, box.height / size)}
    return {side for line in _lines(picture) if line.folded
            for side, (axis, edge) in far.items() if abs(line.at[axis] - edge) < _NEAR}


def _seen(card: Card, frame: Frame) -> object:
    """What can be seen of unlabeled paper: its outlines, its folded edges, its scores, its printed faces."""
    picture = _picture(card, frame)
    box = picture.box
    printed = {str(paper.name) for paper in card.recipe.papers if str(paper.printed or "plain") != "plain"}
    panes = {
        (tuple(sorted((round(x - box.left, 3), round(y - box.bottom, 3)) for x, y in pane.ring)), pane.tone,
         pane.face if (plan := card.piece(pane.part.piece)) is not None and plan.paper in printed else None)
        for pane in picture.panes}
    scores = {(round(line.at[0], 2), round(line.at[1], 2), line.groove)
              for line in _lines(picture) if not line.folded}
    return panes, _folded(picture), scores
