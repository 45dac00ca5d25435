"""Which clause of a passage tells of which action of its step, and so at which moment each sentence speaks."""

import re
from collections.abc import Iterator, Sequence
from functools import cached_property

from foldproof.checks.binding import Bound, Sense
from foldproof.checks.directions.clauses import Clause, Doing, clauses
from foldproof.checks.directions.looking import Sight, moved
from foldproof.checks.directions.phrases import Phrase, spot_directions
from foldproof.folding.card import Bond, Card
from foldproof.frozen import dataclass
from foldproof.making.lying import turned
from foldproof.making.table import Done, Lie, StepMade, Table
from foldproof.recipe import actions as do
from foldproof.recipe.text import Text

_KINDS: dict[type, Doing] = {
    do.CutOut: Doing.CUT,
    do.CutAcross: Doing.CUT,
    do.CutBetween: Doing.CUT,
    do.DieCut: Doing.CUT,
    do.Lay: Doing.LAY,
    do.MarkAt: Doing.MARK,
    do.ScoreAt: Doing.SCORE,
    do.ScoreBetween: Doing.SCORE,
    do.Turn: Doing.TURN,
    do.TurnOver: Doing.TURN_OVER,
    do.FoldOn: Doing.FOLD,
    do.Unfold: Doing.UNFOLD,
    do.Attach: Doing.ATTACH,
    do.Stamp: Doing.STAMP,
}
_EITHER = (Doing.FOLD, Doing.UNFOLD)
_ALL_OF_THEM = re.compile(r"\b(?:both|doors|folds|flaps|hinges|card|it out|it flat)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """One thing that hands do in a step: an action, or the turn that a `lay` brings with it."""

    index: int
    """Which action of the step, from 0."""
    kind: Doing
    done: Done
    amount: str | None = None
    """Of a turn: `half`, `quarter clockwise`, `quarter anticlockwise`; of a turning over: its way."""
    said_by_lay: bool = False
    """Whether it is the turn that comes with laying an edge against the fence."""


def deeds(made: StepMade) -> tuple[Deed, ...]:
    """All of them, in order."""
    found: list[Deed] = []
    for index, done in enumerate(made.done):
        action, kind = done.action, _KINDS.get(type(done.action))
        if isinstance(action, do.Lay):
            amount = turn_between(done)
            if amount is not None:
                found.append(Deed(index=index, kind=Doing.TURN, done=done, amount=amount, said_by_lay=True))
        if kind is not None:
            amount = action.amount if isinstance(action, do.Turn) else None
            amount = action.way if isinstance(action, do.TurnOver) else amount
            found.append(Deed(index=index, kind=kind, done=done, amount=amount))
    return tuple(found)


def turn_between(done: Done) -> str | None:
    """How an action turned its piece in the plane; None where it did not."""
    lies = lie_of(done.before, done.piece), lie_of(done.after, done.piece)
    if lies[0] is None or lies[1] is None or lies[0].up is not lies[1].up:
        return None
    for amount in ("half", "quarter clockwise", "quarter anticlockwise"):
        if turned(lies[0], amount) == lies[1] and lies[0] != lies[1]:
            return amount
    return None


def lie_of(table: Table, piece: str | None) -> Lie | None:
    """How the body that a piece belongs to lies."""
    return table.pieces[table.root(piece)].lie if piece is not None and piece in table.pieces else None


def involved(card: Card, done: Done) -> frozenset[str]:
    """The names of pieces, panels, layers and scores that an action is about."""
    action, names = done.action, set()
    if isinstance(action, do.Attach):
        bond = next((bond for bond in card.bonds if bond.name == action.bond), None)
        if bond is not None:
            for surface in (bond.under, bond.over):
                names |= {surface.panel, card.panels[surface.panel].piece}
        names.add(action.bond)
        return frozenset(names)
    if isinstance(action, do.Stamp):
        return frozenset({action.panel, card.panels[action.panel].piece} if action.panel in card.panels else ())
    if done.piece is not None:
        names.add(done.piece)
        piece = card.piece(done.piece)
        if isinstance(action, do.FoldOn | do.Unfold) and piece is not None and done.piece in done.before.pieces:
            names |= {action.score}
            shifted = moved(Sight(card, done.before, done.piece), Sight(card, done.after, done.piece))
            names |= {name for name in shifted if name in piece.panels}
        elif piece is not None and len(piece.panels) == 1:
            names |= set(piece.panels)
    return frozenset(names)


class Telling:
    """A passage of a step laid beside what hands do."""

    def __init__(self, card: Card, made: StepMade, passage: str, text: Text, bound: Sequence[Bound]) -> None:
        self.card, self.made, self.passage, self.text, self.bound = card, made, passage, text, bound
        self.value = text.value
        self.phrases: tuple[Phrase, ...] = spot_directions(text)
        self.clauses: tuple[Clause, ...] = clauses(self.value)
        self.tables: tuple[Table, ...] = (made.before, *(done.after for done in made.done))
        self._sights: dict[tuple[int, str], Sight] = {}

    @cached_property
    def deeds(self) -> tuple[Deed, ...]:
        """What hands do in the step."""
        return deeds(self.made)

    @cached_property
    def names(self) -> dict[int, frozenset[str]]:
        """What each action is about."""
        return {index: involved(self.card, done) for index, done in enumerate(self.made.done)}

    @cached_property
    def told(self) -> dict[Clause, Deed]:
        """The deed that a clause tells of."""
        events = [clause for clause in self.clauses if clause.doing is not None]
        rows = self.deeds
        best = [[0.0] * (len(rows) + 1) for _ in range(len(events) + 1)]
        fits = [[self._fit(event, deed) for deed in rows] for event in events]
        for i in range(len(events) - 1, -1, -1):
            for j in range(len(rows) - 1, -1, -1):
                both = best[i + 1][j + 1] + fits[i][j] if fits[i][j] else 0.0
                best[i][j] = max(both, best[i + 1][j], best[i][j + 1])
        found, i, j = {}, 0, 0
        while i < len(events) and j < len(rows):
            if fits[i][j] and best[i][j] == best[i + 1][j + 1] + fits[i][j]:
                found[events[i]] = rows[j]
                i, j = i + 1, j + 1
            elif best[i][j] == best[i][j + 1]:
                j += 1
            else:
                i += 1
        return found

    def _fit(self, clause: Clause, deed: Deed) -> float:
        """How well a clause tells of a deed; zero where it can't."""
        if clause.doing is not deed.kind and not (clause.doing is Doing.FOLD_OR_UNFOLD and deed.kind in _EITHER):
            return 0.0
        fit = 1.0
        mine = {
            b.parameter.action
            for b in self.bound
            if b.sense is Sense.PARAMETER and b.parameter is not None and clause.start <= b.mention.start < clause.end
        }
        fit += 3.0 if deed.index in mine else -0.5 if mine else 0.0
        said = clause.text.casefold()
        fit += 0.5 * sum(1 for name in self.names[deed.index] if re.search(rf"\b{re.escape(name)}\b", said))
        if deed.amount is not None and any(
            phrase.word == deed.amount for phrase in self.phrases if clause.start <= phrase.start < clause.end
        ):
            fit += 0.25
        return fit

    def clause_at(self, offset: int) -> Clause | None:
        """The clause in which an offset stands."""
        return next((clause for clause in self.clauses if clause.start <= offset < clause.end), None)

    def deed_at(self, offset: int) -> Deed | None:
        """The deed told by the clause in which an offset stands."""
        clause = self.clause_at(offset)
        return self.told.get(clause) if clause is not None else None

    def deed_of_sentence(self, offset: int) -> Deed | None:
        """The last deed told in the sentence up to an offset, or else the last one told before it."""
        last = None
        for clause in self.clauses:
            if clause.start > offset:
                break
            last = self.told.get(clause, last)
        return last

    def moments(self, offset: int) -> range:
        """The tables, by their number, at which a statement may hold: after the deed told before, up to the next."""
        before, after = 0, len(self.tables) - 1
        for clause in self.clauses:
            deed = self.told.get(clause)
            if deed is None:
                continue
            if clause.start <= offset:
                before = self.after(clause, deed)
            else:
                after = deed.index
                break
        return range(before, max(before, after) + 1)

    def after(self, clause: Clause, deed: Deed) -> int:
        """The number of the table after a deed; where a clause tells of several folds, after the last of them."""
        index = deed.index
        if deed.kind in _EITHER and _ALL_OF_THEM.search(clause.text):
            while index + 1 < len(self.made.done) and _KINDS.get(type(self.made.done[index + 1].action)) is deed.kind:
                index += 1
        return index + 1

    def tells_all(self, kind: Doing) -> bool:
        """Whether the passage tells of every deed of a kind, so that each clause's deed is certain."""
        told = {index for clause, deed in self.told.items() if deed.kind is kind
                for index in range(deed.index, self.after(clause, deed))}
        return told >= {deed.index for deed in self.deeds if deed.kind is kind}

    def bond_of(self, doing: Deed | Done | None) -> Bond | None:
        """The bond that an action makes; None where it makes none."""
        done = doing.done if isinstance(doing, Deed) else doing
        if done is None or not isinstance(done.action, do.Attach):
            return None
        return next((bond for bond in self.card.bonds if bond.name == done.action.bond), None)

    def sight(self, number: int, piece: str) -> Sight | None:
        """What is to be seen of a piece at one of the tables; None where it is not on it."""
        table = self.tables[number]
        if piece not in table.pieces:
            return None
        key = (number, piece)
        if key not in self._sights:
            self._sights[key] = Sight(self.card, table, piece)
        return self._sights[key]

    def sights(self, offset: int, piece: str) -> Iterator[Sight]:
        """What is to be seen of a piece at the moments of which a statement speaks."""
        here = [found for number in self.moments(offset) if (found := self.sight(number, piece)) is not None]
        yield from here or (found for n in range(len(self.tables)) if (found := self.sight(n, piece)) is not None)

    def sentence(self, offset: int) -> tuple[int, str]:
        """The sentence in which an offset stands: where it starts, and its text."""
        clause = self.clause_at(offset)
        if clause is None:
            return 0, self.value
        same = [one for one in self.clauses if one.sentence == clause.sentence]
        return same[0].start, self.value[same[0].start : same[-1].end]

    def pieces(self, offset: int) -> tuple[str, ...]:
        """The pieces of which a clause may speak, the likeliest first.

        The one named in it or earlier in its sentence; what the sentence has just fixed (`its flap`); what hands last
        worked on; the step's own.
        """
        start, sentence = self.sentence(offset)
        clause = self.clause_at(offset)
        found = [self.named(clause.text if clause else ""), self.named(sentence[: offset - start])]
        deed = self.deed_of_sentence(offset)
        fixed = deed is not None and isinstance(deed.done.action, do.Attach)
        if deed is not None and deed.done.piece is not None:
            said_here = any(
                self.told.get(one) is deed for one in self.clauses if clause and one.sentence == clause.sentence
            )
            if fixed and said_here:
                found.insert(1, deed.done.piece)
            elif not fixed:
                found.append(deed.done.piece)
        found.append(self.made.spec.piece.value if self.made.spec.piece is not None else None)
        found.append(next((done.piece for done in self.made.done if done.piece is not None), None))
        return tuple(dict.fromkeys(name for name in found if name is not None))

    def piece(self, offset: int) -> str | None:
        """The likeliest of them."""
        return next(iter(self.pieces(offset)), None)

    def named(self, words: str) -> str | None:
        """The piece or layer named last in some words, by its whole name."""
        said, found = words.casefold(), []
        for piece in self.card.pieces:
            for match in re.finditer(rf"(?<![\w-]){re.escape(piece.name.casefold())}(?![\w-])", said):
                found.append((match.end(), match.end() - match.start(), piece.name))
        return max(found)[2] if found else None
