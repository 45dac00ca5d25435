"""The steps of a draft: each passage that tells of something done, with the actions that could be read."""

import textwrap
from collections.abc import Iterator, Sequence

from foldproof.notes.naming import usable
from foldproof.notes.parts import Gathered, Part, owned
from foldproof.notes.records import Fact, NotedStep, Role
from foldproof.notes.words import ASKED, WIDTH, opening, short, value


class Steps:
    """Writes the steps from what was gathered."""

    def __init__(self, had: Gathered) -> None:
        self.had = had

    def lines(self) -> Iterator[str]:
        """The lines of the steps."""
        yield "steps:"
        if not self.had.notes.steps:
            yield f"  {ASKED} what does the maker do"
        steps = self.had.notes.steps
        number, titles = 0, set[str]()
        while number < len(steps):
            step = steps[number]
            group = [step]
            while _is_list(step) and number + 1 < len(steps) and _is_list(steps[number + 1]):
                number += 1
                group.append(steps[number])
            number += 1
            yield from self._step(group, titles)

    def _step(self, group: Sequence[NotedStep], titles: set[str]) -> Iterator[str]:
        first = group[0].passage
        title = first.title or ("Cut the parts" if len(group) > 1 or _is_list(group[0]) else opening(first.text))
        while title in titles:
            title += " again"
        titles.add(title)
        yield f"  - title:{value(title)}  # line {first.line} of the notes"
        actions = [line for step in group for line in self._actions(step)]
        if actions and not self.had.base:
            yield f"    piece:  {ASKED} which piece is worked on"
        if actions:
            yield "    do:"
            yield from actions
        said = ". ".join(
            f"{step.passage.label}: {step.passage.text}" if step.passage.label else step.passage.text for step in group)
        yield "    text: >-"
        plain = said.replace("{", "(").replace("}", ")")
        yield from (f"      {line}" for line in textwrap.wrap(plain, WIDTH - 6, break_on_hyphens=False))

    def _actions(self, step: NotedStep) -> Iterator[str]:
        distances = owned(step)
        named = {part.name: part for part in self.had.parts}
        base = self.had.base
        laid = any(fact.role is Role.LAY for fact in step.facts)
        asked = False
        for fact in step.facts:
            match fact.role:
                case Role.PART:
                    yield f"      - {{cut: [{', '.join(fact.lengths)}], piece: {fact.name}}}"
                case Role.LAY:
                    yield f"      - {{lay: {fact.word}{self._piece(fact, base)}}}"
                case Role.TURN | Role.TURN_OVER:
                    yield f"      - {{{fact.role}: {fact.word}{self._piece(fact, base)}}}"
                case Role.SCORE:
                    if not laid and not asked:
                        asked = True
                        yield f"      - lay:  {ASKED} which edge lies against the fence, and which face is up"
                    yield f"      - {{score: {fact.lengths[0]}{self._piece(fact, base)}}}"
                case Role.FOLD:
                    yield from self._fold(fact, named, base)
                case Role.ATTACH:
                    yield from self._attach(fact, [each for each, owner in distances if owner == fact.name], named)
                case Role.TIE:
                    tied = [name for name in self.had.supplies if name.endswith(usable(fact.name, "supply"))]
                    yield f"      - tie: {tied[0]}" if tied else f"      - tie:  {ASKED} with what"
                case Role.DRY:
                    yield f"      - dry: {fact.word}"
                case Role.UNPLACED:
                    yield f"      {ASKED} what is {fact.lengths[0]} in {short(fact.quote)}"

    def _piece(self, fact: Fact, base: str) -> str:
        name = fact.name or base
        return f", piece: {name}" if name else ""

    def _fold(self, fact: Fact, named: dict[str, Part], base: str) -> Iterator[str]:
        scores = [
            (part.score_name(number), name) for name, part in named.items() if part.piece
            for number, _ in enumerate(part.scores, start=1)]
        yield "      - fold:"
        yield (f"          score: {scores[0][0]}" if len(scores) == 1 else f"          score:  {ASKED} on which score")
        yield f"          fold: {fact.word}" if fact.word else (
            f"          fold:  {ASKED} valley or mountain, as the piece lies")
        if base:
            yield f"        piece: {scores[0][1] if len(scores) == 1 else base}"

    def _attach(self, fact: Fact, distances: Sequence[Fact], named: dict[str, Part]) -> Iterator[str]:
        part = named.get(fact.name)
        yield "      - attach:"
        name = part.join if part and part.piece else fact.name
        yield f"          what: {name}" if part else f"          what:  {ASKED} what is fixed on here"
        given: set[str] = set()
        for each in distances:
            key = "border" if each.role is Role.BORDER else each.word
            if key in given or (given and "border" in (key, *given)):
                yield f"          {ASKED} what is {each.lengths[0]} in {short(each.quote)}"
            else:
                yield f"          {key}: {each.lengths[0]}"
                given.add(key)
        if not distances:
            yield f"          {ASKED} where: border, distances from edges, or centred: both"
        held = usable(fact.word, "")
        if held in self.had.supplies:
            yield f"          with: {held}"
        else:
            yield f"          {ASKED} what holds it"


def _is_list(step: NotedStep) -> bool:
    """Whether it only says which parts are cut: an item of a list of parts."""
    return bool(step.facts) and bool(step.passage.label) and all(
        fact.role in (Role.PART, Role.SHEET) for fact in step.facts)
