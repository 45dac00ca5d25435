"""Scores as they are pressed, in their dash patterns."""


from foldproof.drawing.frame import Frame
from foldproof.drawing.labels import Wish
from foldproof.drawing.picture import crease_on, fold_seen, kind_of_fold, seen
from foldproof.drawing.scene import Label, Line
from foldproof.drawing.sheet import Sheet, along_line
from foldproof.paper.face import Fold
from foldproof.paper.vector import Segment
from foldproof.recipe import actions as do


def new_creases(frame: Frame) -> frozenset[tuple[str, Segment]]:
    """The creases that the frame makes, (piece, segment)."""
    old = {
        (piece.name, crease.segment) for piece in frame.start.pieces.values() for crease in piece.creases
    }
    return frozenset(
        (piece.name, crease.segment) for piece in frame.table.pieces.values() for crease in piece.creases
        if (piece.name, crease.segment) not in old
    ) if any(isinstance(d.action, do.ScoreAt | do.ScoreBetween) for d in frame.done) else frozenset()


def draw_new_creases(sheet: Sheet, new: frozenset[tuple[str, Segment]]) -> None:
    """The creases that are made now, as the folds that they are for, seen from the face that is up."""
    drawn: set[tuple[float, ...]] = set()
    for pane in sheet.picture.panes:
        for crease in sheet.picture.table.pieces[pane.part.piece].creases:
            if (pane.part.piece, crease.segment) not in new:
                continue
            fold = fold_seen(sheet.card, pane.part.piece, crease.segment, pane.face)
            for p, q in crease_on(sheet.picture, pane, crease):
                for a, b in seen(p, q, pane.over):
                    key = tuple(round(v, 4) for point in sorted((a, b)) for v in point)
                    if key not in drawn:
                        drawn.add(key)
                        sheet.items.append(Line(points=(a, b), kind=kind_of_fold(fold)))
                        words = {Fold.VALLEY: "valley score", Fold.MOUNTAIN: "mountain score"}.get(
                            fold or Fold.NONE, "score, for looks")
                        sheet.wishes.append(Wish(
                            label=Label(text=words, at=a, pt=sheet.style.small_pt, italic=True),
                            places=tuple(along_line(a, b, sheet.style.small_pt)), must=False))
