"""A step divided into frames: one picture for each way that the work lies while something is done to it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """What happens to the work between two frames."""

    kind: str
    """`turn`, `over` or `then`."""
    words: str
    way: str = ""
    """Of a turn: `half`, `quarter clockwise`, ...; of turning over: `book page` or `top to bottom`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One picture of a step."""

    piece: str
    """A piece of the body that is shown."""
    table: Table
    """The state that is drawn: after scoring, marking and attaching; before cutting and folding."""
    start: Table
    """The state before the first thing that is done in the frame."""
    done: tuple[Done, ...] = ()
    motions: tuple[Motion, ...] = ()
    """What leads here from the frame before."""
    fence: bool = False
    closed: bool = False
    """Whether something was done after which the work looks another way: nothing more fits in."""


def frames_of(card: Card, made: StepMade) -> tuple[Frame, ...]:
    """The frames of a step, in order; none when nothing can be seen."""
    frames: list[Frame] = []
    waiting: list[Motion] = []
    for done in made.done:
        if not isinstance(done.action, SHOWN):
            continue
        piece = done.piece
        if isinstance(done.action, do.Stamp) and done.action.panel in card.panels:
            piece = card.panels[done.action.panel].piece
        if piece is None or piece not in done.after.pieces:
            continue
        if frames and waiting and _when(done).root(piece) != _when(done).root(frames[-1].piece):
            _show_outcome(frames, waiting, done.before)
        _add(card, frames, waiting, replace(done, piece=piece))
    if waiting:
        _show_outcome(frames, waiting, made.done[-1].after)
    return tuple(_turned_to(card, frame) for frame in frames)


def _turned_to(card: Card, frame: Frame) -> Frame:
    """A frame that is looked at from the other face than the one that is up is reached by turning over."""
    if looked_at(card, frame) is None:
        return frame
    rest = tuple(motion for motion in frame.motions if motion.kind != "then")
    return replace(frame, motions=(*rest, _over("book page")))


def _when(done: Done) -> Table:
    """The table on which an action's piece belongs to the body that is worked on: what is attached joins it."""
    return done.after if isinstance(done.action, do.Attach | do.SlideIn) else done.before


def _show_outcome(frames: list[Frame], waiting: list[Motion], table: Table) -> None:
    """A frame for what the last motions left, unless the step has shown just that before."""
    piece = frames[-1].piece
    bare = Frame(piece=piece, table=table, start=table, motions=tuple(waiting))
    waiting.clear()
    known = any(
        _body(frame.table, frame.piece) == _body(table, piece) and _marks(frame.table) == _marks(table)
        for frame in frames)
    if not (known and all(motion.kind == "then" for motion in bare.motions)):
        frames.append(bare)


def _marks(table: Table) -> tuple[object, ...]:
    """What else can be seen of the paper: its outlines, creases and what is on it."""
    return (table.bonds, table.tucked, tuple(
        (piece.outline, piece.holes, piece.slits, piece.creases) for piece in table.pieces.values()))


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
            undone = any(motion.kind == "then" for motion in waiting)
            if undone or (not waiting and not _goes_on(frames, piece, done.before, waiting)):
                _open(frames, waiting, done, done.before, works=False)
            waiting.append(_motion(action))
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


def _after_fold(frame: Frame) -> bool:
    return all(isinstance(done.action, do.Lay) for done in frame.done)


def _open(frames: list[Frame], waiting: list[Motion], done: Done, drawn: Table, *, works: bool = True) -> None:
    assert done.piece is not None
    frames.append(Frame(
        piece=done.piece, table=drawn, start=done.before, done=(done,) if works else (), motions=tuple(waiting)))
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
    return _body(last.table, last.piece) == _body(table, piece)


def _body(table: Table, piece: str) -> tuple[object, ...]:
    root = table.root(piece)
    on_table = table.pieces.get(root)
    return (root, on_table.lie if on_table else None, table.folded)


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
