"""Which of two papers lies on top, pair by pair: what must hold, and a search for an order that keeps it all.

The unknowns are the pairs that overlap. Every condition of flat folding but one says that of a few pairs an even or an
odd number lie the way they are written (so papers past a fold, folds on one line, glued faces); the one that is left
says that three papers that lie over each other at one point do not run in a ring. Pairs tied by the first kind are made
one unknown, the rest is propagated, and what is still open is tried, the wished way first.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from fractions import Fraction

from foldproof.frozen import dataclass

Pair = tuple[str, str]
"""(upper, lower)."""

MOST_STEPS = 2_000_000
"""How often a rule is looked at, in all, before an order counts as not decided: some seconds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """Of the pairs, an even or an odd number lie the way they are written."""

    pairs: tuple[Pair, ...]
    odd: bool
    kind: str = ""
    """Why: `fold` (a score is folded over), `across` (paper across a folded score), `along` (paper across a score that
    lies flat), `inside` (two folds on one line), `bond` (faces that are glued), `held` (paper between glued faces),
    `choice` or `tuck` (the recipe says so)."""
    names: tuple[str, ...] = ()
    """Panels: first what is in the way, where there is one, then those of the fold; of a choice (upper, lower)."""
    scores: tuple[str, ...] = ()
    """Scores, or the name of the bond."""
    square: Fraction = Fraction(0)
    """The square of how far the paper in the way reaches across the fold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is to be ordered."""

    pairs: tuple[Pair, ...]
    """Each pair that overlaps, once, either way round."""
    conditions: tuple[Condition, ...]
    triples: tuple[tuple[str, str, str], ...]
    """Papers that lie over each other at one point."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the search came to."""

    over: frozenset[Pair] | None
    """One pair for each that overlaps; None where no order was found."""
    decided: bool
    """False where the search gave up: there may be an order or not."""

    @property
    def impossible(self) -> bool:
        """Whether it was shown that no order keeps all the conditions."""
        return self.decided and self.over is None


class _Conflict(Exception):
    """Two conditions ask for opposite things."""


def find_order(
    question: Question, wished: Sequence[Pair] = (), steps: int = MOST_STEPS,
) -> Answer:
    """An order that keeps all the conditions. Open pairs lie as wished where that is possible, the first wish first."""
    try:
        ties = _Ties(question)
        search = _Search(ties, wished)
    except _Conflict:
        return Answer(over=None, decided=True)
    values = dict(search.values)
    for part in search.parts():
        found = next(search.each(part, steps), None)
        if found is None:
            return Answer(over=None, decided=search.steps <= steps)
        values |= found
    return Answer(over=frozenset(ties.told(values)), decided=True)


def each_order(question: Question) -> Iterator[frozenset[Pair]]:
    """Every order that keeps all the conditions, each once."""
    try:
        ties = _Ties(question)
        search = _Search(ties, ())
    except _Conflict:
        return
    for values in search.each(tuple(search.free)):
        yield frozenset(ties.told(values))


def broken(question: Question, over: frozenset[Pair]) -> tuple[Condition, ...]:
    """The conditions that an order does not keep."""
    return tuple(
        condition for condition in question.conditions
        if (sum(pair in over for pair in condition.pairs) % 2 == 1) != condition.odd
    )


def with_conditions(question: Question, conditions: Iterable[Condition]) -> Question:
    """The question with other conditions."""
    return Question(pairs=question.pairs, conditions=tuple(conditions), triples=question.triples)


def asked(question: Question, *pairs: Pair) -> Question:
    """The question with some pairs settled."""
    return with_conditions(question, (*question.conditions, *(Condition(pairs=(pair,), odd=True) for pair in pairs)))


class _Ties:
    """The unknowns, with those that are tied made one. Literal 2 v is an unknown as written, 2 v + 1 its opposite."""

    def __init__(self, question: Question) -> None:
        self.pairs = question.pairs
        self.number: dict[Pair, int] = {}
        for index, (a, b) in enumerate(question.pairs):
            self.number[a, b], self.number[b, a] = 2 * index, 2 * index + 1
        self.true = 2 * len(question.pairs)
        self.parent = list(range(0, 2 * len(question.pairs) + 2, 2))
        sums = [([self.number[pair] for pair in c.pairs], c.odd) for c in question.conditions]
        rings = [
            [self.number[a, b], self.number[b, c], self.number[c, a]] for a, b, c in question.triples
        ]
        again = True
        while again:
            again = False
            kept_sums: list[tuple[list[int], bool]] = []
            for literals, odd in sums:
                reduced, odd = self._sum(literals, odd)
                if len(reduced) > 2:
                    kept_sums.append((reduced, odd))
                    continue
                again = True
                if not reduced:
                    if odd:
                        raise _Conflict
                elif len(reduced) == 1:
                    self._tie(reduced[0], self.true if odd else self.true + 1)
                else:
                    self._tie(reduced[0], reduced[1] ^ odd)
            kept_rings: list[list[int]] = []
            for ring in rings:
                x, y, z = (self.root(literal) for literal in ring)
                if x ^ 1 in (y, z) or y ^ 1 == z:
                    continue
                alike = next((pair for pair in ((x, y, z), (y, z, x), (x, z, y)) if pair[0] == pair[1]), None)
                if alike is not None:
                    again = True
                    self._tie(alike[2], alike[0] ^ 1)
                    continue
                kept_rings.append([x, y, z])
            again = again and bool(kept_sums or kept_rings)
            sums, rings = kept_sums, kept_rings
        self.sums = [(tuple(literal >> 1 for literal in literals), odd) for literals, odd in sums]
        self.rings = [tuple(ring) for ring in rings]

    def root(self, literal: int) -> int:
        """The literal that stands for all those tied to it."""
        above = self.parent[literal >> 1]
        if above >> 1 == literal >> 1:
            return above ^ (literal & 1)
        top = self.root(above)
        self.parent[literal >> 1] = top
        return top ^ (literal & 1)

    def _tie(self, one: int, two: int) -> None:
        a, b = self.root(one), self.root(two)
        if a == b ^ 1:
            raise _Conflict
        if a >> 1 == self.true >> 1:
            a, b = b, a
        if a != b:
            self.parent[a >> 1] = b ^ (a & 1)

    def _sum(self, literals: Sequence[int], odd: bool) -> tuple[list[int], bool]:
        """A sum over roots, each once: opposites and what is known are counted into `odd`; literals come out even."""
        once: set[int] = set()
        for literal in literals:
            top = self.root(literal)
            if top >> 1 == self.true >> 1:
                odd ^= top == self.true
                continue
            odd ^= bool(top & 1)
            once ^= {top & ~1}
        return sorted(once), bool(odd)

    def told(self, values: Mapping[int, int]) -> Iterator[Pair]:
        """The pairs as they lie, from the values of the roots."""
        for a, b in self.pairs:
            top = self.root(self.number[a, b])
            lies = top == self.true if top >> 1 == self.true >> 1 else bool(values.get(top >> 1, 0)) != bool(top & 1)
            yield (a, b) if lies else (b, a)


@dataclass
class _Choice:
    unknown: int
    size: int
    """How many values stood before it."""
    again: bool
    """Whether the other value is still to be tried."""


@dataclass
class _Search:
    """Values for the roots that are open."""

    ties: _Ties
    wished: Sequence[Pair]
    values: dict[int, int] = field(default_factory=dict)
    touch: dict[int, list[int]] = field(default_factory=dict)
    rules: list[tuple[tuple[int, ...], bool | None]] = field(default_factory=list)
    """Literals with None for a ring, unknowns with their sum for the rest."""
    steps: int = 0
    """How often a rule was looked at."""

    def __post_init__(self) -> None:
        true = self.ties.true
        for ring in self.ties.rings:
            self._rule(tuple(ring), None)
        for unknowns, odd in self.ties.sums:
            self._rule(unknowns, odd)
        roots = [self.ties.root(2 * index) >> 1 for index in range(len(self.ties.pairs))]
        self.wish: dict[int, int] = {}
        for pair in self.wished:
            top = self.ties.root(self.ties.number[pair]) if pair in self.ties.number else true
            if top >> 1 != true >> 1:
                self.wish.setdefault(top >> 1, 1 - (top & 1))
        self.free = [root for root in dict.fromkeys((*self.wish, *roots)) if root != true >> 1]
        if true >> 1 in self.touch:
            self.values[true >> 1] = 1
            if not self._follow([true >> 1], [true >> 1]):
                raise _Conflict

    def _rule(self, members: tuple[int, ...], odd: bool | None) -> None:
        for unknown in {member >> 1 for member in members} if odd is None else set(members):
            self.touch.setdefault(unknown, []).append(len(self.rules))
        self.rules.append((members, odd))

    def parts(self) -> list[tuple[int, ...]]:
        """The open roots, in bodies that no rule ties to each other."""
        seen = set(self.values)
        found = []
        for start in self.free:
            if start in seen:
                continue
            part, todo = {start}, [start]
            seen.add(start)
            while todo:
                for index in self.touch.get(todo.pop(), ()):
                    members, odd = self.rules[index]
                    for unknown in (member >> 1 if odd is None else member for member in members):
                        if unknown not in seen:
                            seen.add(unknown)
                            part.add(unknown)
                            todo.append(unknown)
            found.append(tuple(root for root in self.free if root in part))
        return found

    def each(self, part: Sequence[int], most: int | None = None) -> Iterator[dict[int, int]]:
        """All values of a part that keep the rules, until so many steps have been made in all."""
        trail: list[int] = []
        stack: list[_Choice] = []
        at = 0
        while most is None or self.steps <= most:
            while at < len(part) and part[at] in self.values:
                at += 1
            if at == len(part):
                yield dict(self.values)
                good = False
            else:
                stack.append(_Choice(part[at], len(trail), True))
                good = self._set(part[at], self.wish.get(part[at], 1), trail)
            while not good:
                while stack and not stack[-1].again:
                    self._back(trail, stack.pop().size)
                if not stack:
                    return
                last = stack[-1]
                value = 1 - self.values[last.unknown]
                self._back(trail, last.size)
                last.again = False
                good = self._set(last.unknown, value, trail)
                at = 0
        self._back(trail, 0)

    def _back(self, trail: list[int], size: int) -> None:
        while len(trail) > size:
            del self.values[trail.pop()]

    def _set(self, unknown: int, value: int, trail: list[int]) -> bool:
        self.values[unknown] = value
        trail.append(unknown)
        return self._follow([unknown], trail)

    def _follow(self, queue: list[int], trail: list[int]) -> bool:
        """Set what follows; False where a rule is broken."""
        values = self.values
        while queue:
            rules = self.touch.get(queue.pop(), ())
            self.steps += len(rules)
            for index in rules:
                members, odd = self.rules[index]
                forced: tuple[int, int] | None = None
                if odd is None:
                    known = [values[m >> 1] ^ (m & 1) for m in members if m >> 1 in values]
                    if len(known) < 2 or known[0] != known[1]:
                        continue
                    if len(known) == 3:
                        if known[2] == known[0]:
                            return False
                        continue
                    open_ = next(m for m in members if m >> 1 not in values)
                    forced = (open_ >> 1, (1 - known[0]) ^ (open_ & 1))
                else:
                    left = [m for m in members if m not in values]
                    if len(left) > 1:
                        continue
                    total = sum(values[m] for m in members if m in values) % 2
                    if not left:
                        if total != odd:
                            return False
                        continue
                    forced = (left[0], total ^ odd)
                values[forced[0]] = forced[1]
                trail.append(forced[0])
                queue.append(forced[0])
        return True
