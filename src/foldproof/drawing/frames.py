"""A step divided into frames: one picture for each way that the work lies while something is done to it.

Folds that don't move each other share a frame, and so do folds that are undone again: few pictures, all told.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import zip_longest

from foldproof.drawing.frame import Frame, Motion, body_of, marks_on
from foldproof.drawing.independent import independent
from foldproof.drawing.merging import merged, only_folds
from foldproof.folding.card import Card
from foldproof.making.lying import turned_over
from foldproof.making.table import Done, Lie, StepMade, Table
from foldproof.making.work import stays_together, work_with
from foldproof.recipe import actions as do

SHOWN = (
    do.CutOut, do.CutAcross, do.CutOff, do.CutBetween, do.DieCut, do.Lay, do.MarkAt, do.ScoreAt, do.ScoreBetween,
    do.Turn, do.TurnOver, do.FoldOn, do.BringTo, do.Tuck, do.Unfold, do.Attach, do.SlideIn, do.Stamp, do.Tie,
    do.Measure, do.SlitAt, do.SlitBetween, do.CutAway, do.RoundCorners, do.Scallop,
)
"""Actions that can be seen. Waiting, a change of blade and notes leave the paper as it is."""


def frames_of(card: Card, made: StepMade) -> tuple[Frame, ...]:
    """The frames of a step, in order; none when nothing can be seen."""
    frames: list[Frame] = []
    waiting: list[Motion] = []
    turned = ""
    undone = False
    for done, following in zip_longest(made.done, made.done[1:]):
        if not isinstance(done.action, SHOWN) or undone:
            undone = False
            continue
        piece = done.piece
        if isinstance(done.action, do.Stamp) and done.action.panel in card.panels:
            piece = card.panels[done.action.panel].piece
        if piece is None or piece not in done.after.pieces:
            continue
        if waiting and _when(done).root(piece) != _when(done).root(frames[-1].piece if frames else turned):
            _show_outcome(frames, waiting, done.before, turned)
        if isinstance(done.action, do.Turn | do.TurnOver) and not waiting:
            turned = piece
        if following is not None and not any(m.kind == "then" for m in waiting) and _creases(done, following):
            _add_crease(frames, waiting, done, following)
            undone = True
            continue
        _add(card, frames, waiting, replace(done, piece=piece))
    if waiting:
        _show_outcome(frames, waiting, made.done[-1].after, turned)
    return tuple(_turned_to(card, frame) for frame in merged(frames))


def _creases(done: Done, following: Done) -> bool:
    """Whether a fold is made and opened at once."""
    return isinstance(done.action, do.FoldOn) and isinstance(following.action, do.Unfold) \
        and done.action.score == following.action.score and done.before.folded == following.after.folded


def _add_crease(frames: list[Frame], waiting: list[Motion], done: Done, following: Done) -> None:
    """Show a fold that is opened at once with others of its kind: the work lies as before."""
    assert done.piece is not None
    if _goes_on(frames, done.piece, done.before, waiting) and frames[-1].back:
        frames[-1] = replace(frames[-1], done=(*frames[-1].done, done), back=(*frames[-1].back, following))
        return
    if _goes_on(frames, done.piece, done.before, waiting) and frames[-1].done and not _after_fold(frames[-1]):
        frames[-1] = replace(frames[-1], closed=True)
    _join(frames, waiting, done, done.before)
    frames[-1] = replace(frames[-1], closed=True, back=(following,))


def _turned_to(card: Card, frame: Frame) -> Frame:
    """A frame that is looked at from the other face than the one that is up is reached by turning over."""
    if looked_at(card, frame) is None:
        return frame
    rest = tuple(motion for motion in frame.motions if motion.kind != "then")
    return replace(frame, motions=(*rest, _over("book page")))


def _when(done: Done) -> Table:
    """The table on which an action's piece belongs to the body that is worked on: what is attached joins it."""
    return done.after if isinstance(done.action, do.Attach | do.SlideIn) else done.before


def _show_outcome(frames: list[Frame], waiting: list[Motion], table: Table, turned: str) -> None:
    """A frame for what the last motions left, unless the step has shown just that before."""
    piece = frames[-1].piece if frames else turned
    bare = Frame(piece=piece, table=table, start=table, motions=tuple(waiting))
    waiting.clear()
    known = any(
        body_of(frame.table, frame.piece) == body_of(table, piece) and marks_on(frame.table) == marks_on(table)
        for frame in frames)
    if not (known and all(motion.kind == "then" for motion in bare.motions)):
        frames.append(bare)


def _add(card: Card, frames: list[Frame], waiting: list[Motion], done: Done) -> None:
    action, piece = done.action, done.piece
    assert piece is not None
    match action:
        case do.CutOut() | do.DieCut():
            if frames and not waiting and _same_cut(card, frames[-1], done):
                frames[-1] = replace(frames[-1], done=(*frames[-1].done, done), table=done.after)
                return
            _open(frames, waiting, done, done.after)
            frames[-1] = replace(frames[-1], closed=True)
        case do.Turn() | do.TurnOver():
            motion = _motion(action)
            if frames and not waiting and done.before.root(piece) != frames[-1].table.root(frames[-1].piece):
                motion = replace(motion, words=f"{done.before.root(piece)}: {motion.words}")
            waiting[:] = [*(one for one in waiting if one.kind != "then"), motion]
        case do.Lay():
            turn = turn_between(_lie(done.before, piece), _lie(done.after, piece))
            if _goes_on(frames, piece, done.before, waiting) and (turn is not None or frames[-1].closed):
                waiting.append(turn or Motion(kind="then", words=""))
            if not _goes_on(frames, piece, done.after, waiting):
                _open(frames, waiting, done, done.after)
            else:
                frames[-1] = replace(frames[-1], done=(*frames[-1].done, done), table=done.after)
            frames[-1] = replace(frames[-1], fence=True)
        case do.CutAcross() | do.CutOff() | do.CutBetween():
            _join(frames, waiting, done, done.before)
            frames[-1] = replace(frames[-1], closed=True, fence=frames[-1].fence or isinstance(action, do.CutAcross))
        case do.FoldOn() | do.BringTo() | do.Unfold():
            single = not isinstance(action, do.BringTo)
            if single and frames and frames[-1].done and not stays_together(card, done.before, piece):
                # one of a ring of folds that turn together: shown with the first of them
                frames[-1] = replace(frames[-1], done=(*frames[-1].done, done))
                return
            if single and frames and only_folds(frames[-1]) and not frames[-1].back \
                    and _only_then(waiting) and independent(card, frames[-1].table, done):
                frames[-1] = replace(frames[-1], done=(*frames[-1].done, done))
                return
            if frames and frames[-1].done and not _after_fold(frames[-1]):
                frames[-1] = replace(frames[-1], closed=True)
            _join(frames, waiting, done, done.before)
            frames[-1] = replace(frames[-1], closed=True)
            waiting.append(Motion(kind="then", words=""))
        case do.Attach():
            if frames and not _can_share(frames[-1], done):
                frames[-1] = replace(frames[-1], closed=True)
            _join(frames, waiting, done, done.after)
        case do.ScoreAt() | do.SlitAt():
            _join(frames, waiting, done, done.after)
            frames[-1] = replace(frames[-1], fence=True)
        case _:
            _join(frames, waiting, done, done.after)


def _only_then(motions: Sequence[Motion]) -> bool:
    return all(motion.kind == "then" for motion in motions)


def _after_fold(frame: Frame) -> bool:
    return all(isinstance(done.action, do.Lay) for done in frame.done)


def _open(frames: list[Frame], waiting: list[Motion], done: Done, drawn: Table) -> None:
    assert done.piece is not None
    frames.append(Frame(
        piece=done.piece, table=drawn, start=done.before, done=(done,), motions=tuple(waiting)))
    waiting.clear()


def _join(frames: list[Frame], waiting: list[Motion], done: Done, drawn: Table) -> None:
    """Show an action in the frame at hand where it fits, else in a new one."""
    assert done.piece is not None
    if _goes_on(frames, done.piece, _when(done), waiting) and not frames[-1].closed:
        frames[-1] = replace(frames[-1], piece=done.piece, table=drawn, done=(*frames[-1].done, done))
        return
    if _goes_on(frames, done.piece, _when(done), waiting):
        waiting.append(Motion(kind="then", words=""))
    _open(frames, waiting, done, drawn)


def _goes_on(frames: Sequence[Frame], piece: str, table: Table, waiting: Sequence[Motion]) -> bool:
    """Whether the last frame shows the same body as it lies and is folded now."""
    if not frames or waiting:
        return False
    last = frames[-1]
    return body_of(last.table, last.piece) == body_of(table, piece)


def _lie(table: Table, piece: str) -> Lie:
    return table.pieces[table.root(piece)].lie


def _same_cut(card: Card, frame: Frame, done: Done) -> bool:
    """Whether a piece is cut to the same size from the same paper as the one before."""
    first = frame.done[-1] if frame.done else None
    if first is None or type(first.action) is not type(done.action):
        return False
    assert isinstance(done.action, do.CutOut | do.DieCut) and isinstance(first.action, do.CutOut | do.DieCut)
    papers = [plan.paper for name in (first.piece, done.piece) if name and (plan := card.piece(name))]
    sizes = [tuple(q.value for q in one.size) for one in (first.action, done.action)]
    return len(papers) == 2 and papers[0] == papers[1] and sizes[0] == sizes[1]


def _can_share(frame: Frame, done: Done) -> bool:
    """Whether a second thing may be put on in the same frame: the first ones stay in sight beside it."""
    attached = [one.action.bond for one in frame.done if isinstance(one.action, do.Attach)]
    if any(not isinstance(one.action, do.Attach | do.Lay) for one in frame.done) or len(attached) > 1:
        return not frame.done
    new = next((bond for bond in done.after.bonds if bond.name == getattr(done.action, "bond", "")), None)
    guests = {bond.guest for bond in done.after.bonds if bond.name in attached}
    receivers = {bond.root for bond in done.after.bonds if bond.name in attached}
    return new is not None and new.root not in guests and (not receivers or receivers == {new.root})


def _motion(action: do.Turn | do.TurnOver) -> Motion:
    if isinstance(action, do.Turn):
        return _turn(action.amount)
    return _over(action.way)


def _over(way: str) -> Motion:
    words = {
        "book page": "turn over like the page of a book", "top to bottom": "turn over top to bottom",
    }[way]
    return Motion(kind="over", words=words, way=way)


def _turn(amount: str) -> Motion:
    words = {
        "half": "half turn", "quarter clockwise": "quarter turn to the right",
        "quarter anticlockwise": "quarter turn to the left",
    }[amount]
    return Motion(kind="turn", words=words, way=amount)


def turn_words(action: do.Turn | do.TurnOver) -> str:
    """A turn in words: `half turn`, `turn over top to bottom`."""
    return _motion(action).words


def turn_between(old: Lie, new: Lie) -> Motion | None:
    """The turn in the plane from one lie to another with the same face up; None when it lies as before."""
    if old.up is not new.up or (new.right.cross(old.right) == 0 and new.right.dot(old.right) > 0):
        return None
    if new.right.cross(old.right) == 0:
        return _turn("half")
    # the direction that pointed away from the maker points right after a quarter turn clockwise
    return _turn("quarter clockwise" if new.right.dot(old.away) > 0 else "quarter anticlockwise")


def looked_at(card: Card, frame: Frame) -> Lie | None:
    """How a frame is looked at: as the work lies, unless something is put on the face that is down; None as it lies."""
    for done in frame.done:
        name = done.action.bond if isinstance(done.action, do.Attach) else None
        bond = next((bond for bond in card.bonds if bond.name == name), None)
        if bond is None:
            continue
        work = work_with(card, frame.table, frame.piece)
        for part in work.parts:
            if part.piece == card.panels[bond.under.panel].piece and part.panel in (None, bond.under.panel):
                return None if work.face_up(part) is bond.under.face else turned_over(work.lie, "book page")
    return None
