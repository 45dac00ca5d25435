"""Notes to facts: every length with what it is of, every doing that is understood, in the order of the notes."""

import re
from dataclasses import replace

from foldproof.checks.directions.clauses import sentences
from foldproof.facts.envelopes import ENVELOPES
from foldproof.measures.quantity import Unit
from foldproof.measures.spotted import Sense
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.writing import write_number
from foldproof.notes import doings, naming
from foldproof.notes.lengths import Length, as_written, lengths_in, usual_unit
from foldproof.notes.passages import passages
from foldproof.notes.records import Fact, NotedStep, Notes, Passage, Role, Section

_PROMISED = re.compile(
    r"\b(?:finished|closed|folded size|ended up|final size|card measures|when closed|fits? (?:in|an|into)"
    r"|folded(?: flat)?,? (?:it|the card))\b", re.IGNORECASE)
_DOES = (
    Role.SCORE, Role.LAY, Role.TURN, Role.TURN_OVER, Role.FOLD, Role.ATTACH, Role.DRY, Role.TIE, Role.PART, Role.SUPPLY,
    Role.LAP)


def read_notes(text: str) -> Notes:
    """Read the notes of a card."""
    title, parts = passages(text)
    unit = usual_unit(text)
    reader = _Reader(unit or Unit.INCH)
    steps, facts, rest = [], list[Fact](), []
    for passage in parts:
        found = reader.passage(passage)
        facts.extend(found)
        told = passage.section is Section.STEPS or any(fact.role in _DOES for fact in found)
        if told and passage.section is not Section.SUPPLIES:
            steps.append(NotedStep(passage=passage, facts=found))
        elif any(fact.role is Role.UNPLACED for fact in found) or not (found or passage.section is Section.SUPPLIES):
            rest.append(passage)
    whole = " ; ".join((title, *(f"{part.label} {part.text}" for part in parts)))
    return Notes(
        title=title, unit=unit, facts=tuple(facts), steps=tuple(steps), papers=tuple(reader.papers),
        weights=tuple(reader.weights.items()), supplies=naming.supplies_in(whole), tools=naming.tools_in(whole),
        envelope=_envelope(whole), rest=tuple(rest))


def _envelope(text: str) -> str:
    """An envelope's trade name that stands beside the word, or that can be nothing else."""
    for envelope in ENVELOPES:
        name, word = rf"\b{re.escape(envelope.name)}\b", r"\benv(?:elope)?\b"
        if re.search(rf"{name}[^.;]{{0,12}}{word}|{word}[^.;]{{0,12}}{name}", text, re.IGNORECASE):
            return envelope.name
    return ""


class _Reader:
    """Goes through the passages in order; what was named last is what `it` and `them` mean."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        self.papers: dict[str, None] = {}
        self.weights: dict[str, str] = {}
        self.parts: dict[str, str] = {}
        """Names of parts with their nouns."""
        self.of_paper: dict[str, str] = {}
        """Names of parts with their papers."""
        self.last = ""
        self.spoken: naming.Noun | None = None
        """What the sentences before named last, in the same passage."""

    def passage(self, passage: Passage) -> tuple[Fact, ...]:
        found: list[Fact] = []
        self.spoken = None
        for sentence in sentences(passage.text):
            here = self._sentence(sentence, passage)
            if doings.takes_back(sentence) and any(fact.role is Role.LAY for fact in here):
                found = [fact for fact in found if fact.role is not Role.LAY]
            if any(fact.role is Role.ATTACH for fact in found) and doings.verb_at(sentence, Role.ATTACH) is None:
                here = [fact for fact in here if fact.role is not Role.ATTACH]  # where, of what is fixed already
            found.extend(here)
            nouns = naming.part_nouns(sentence)
            self.spoken = nouns[-1] if nouns else self.spoken
        return tuple(found)

    def _sentence(self, text: str, passage: Passage) -> list[Fact]:
        self._papers(text, passage)
        lengths, facts = lengths_in(text), list[tuple[int, Fact]]()
        told = passage.section is not Section.SUPPLIES
        edge = doings.edge_laid(text)
        if told and edge:
            facts.append((-1, self._fact(Role.LAY, passage, text, word=edge)))
        if told:
            facts.extend(doings.turned(text, passage.line))
        ends = [0, *(each.end for each in lengths)]
        starts = [*(each.first.start for each in lengths), len(text)]
        for index, length in enumerate(lengths):
            around = (text[ends[index] : length.first.start], text[length.end : starts[index + 1]])
            facts.append((length.first.start, self._placed(length, around, text, passage)))
        if told:
            facts.extend(self._done(text, passage, [fact for _, fact in facts]))
        return [fact for _, fact in sorted(facts, key=lambda each: each[0])]

    def _papers(self, text: str, passage: Passage) -> None:
        listed = passage.section is Section.SUPPLIES
        for paper in naming.papers_in(f"{passage.label}: {text}" if listed else text, listed=listed):
            if not any(paper.split()[0] in known.split() for known in self.papers):
                self.papers[paper] = None
        for each in spot_numbers(text):
            if each.sense is Sense.WEIGHT:
                near = [paper for paper in naming.papers_in(text[: each.start], listed=listed) if paper in self.papers]
                paper = near[-1] if near else self._paper(text)
                if paper:
                    self.weights.setdefault(paper, each.written.strip())

    def _paper(self, text: str) -> str:
        """The known paper that a text speaks of, by its whole name or its first word; a colour alone makes one."""
        words = set(re.findall(r"[a-z]\w*", text.casefold()))
        for paper in self.papers:
            if paper.split()[0] in words:
                return paper
        colour = naming.colour_alone(text)
        if colour:
            self.papers[colour] = None
        return colour

    def _placed(self, length: Length, around: tuple[str, str], text: str, passage: Passage) -> Fact:
        before, after = around
        if length.second is not None:
            return self._size(length, before, after, text, passage)
        written = (as_written(length.first, self.unit),)
        near = f"{before[-30:]} {text[length.end : length.end + 30]}"
        last = doings.verb_before(text, length.first.start)
        supply = next((name for name in naming.supplies_in(f"{passage.label} {near}") if naming.trims(name)), "")
        if re.search(r"\boverlap", near, re.IGNORECASE):
            return self._fact(Role.LAP, passage, text, written)
        if supply and not doings.side_after(after):
            return self._fact(Role.SUPPLY, passage, text, written, name=supply)
        if length.first.beside == "score" or last is Role.SCORE:
            plain = not re.search(r"\b(?:slits?|between|above|below|wide|tall)\b", near, re.IGNORECASE)
            from_left = re.search(r"\bfrom the left\b", text, re.IGNORECASE)
            return self._fact(Role.SCORE if plain else Role.UNPLACED, passage, text, written, name=self._named(before),
                              word="across" if from_left else "")
        if doings.all_round(f"{before[-30:]} {after[:40]}") and last is not Role.PART and length.first.beside != "mark":
            return self._fact(Role.BORDER, passage, text, written)
        side = doings.side_after(after)
        if side and last not in (Role.PART, Role.TIE):
            return self._fact(Role.SIDE, passage, text, written, word=side)
        return self._fact(Role.UNPLACED, passage, text, written)

    def _size(self, length: Length, before: str, after: str, text: str, passage: Passage) -> Fact:
        pair = tuple(as_written(each, self.unit) for each in length.in_order)
        label = passage.label
        if re.search(r"\benvelopes?\W{0,3}$", before, re.IGNORECASE) or re.match(
                r"\W*(?:square )?envelope", after, re.IGNORECASE):
            return self._fact(Role.ENVELOPE, passage, text, pair)
        promised = _PROMISED.search(f"{label} {before}") or re.match(
            r"\W*(?:when|once) (?:closed|folded|finished)\b", after, re.IGNORECASE)
        if promised and not re.search(r"\bcut\b", before, re.IGNORECASE):
            return self._fact(Role.FINISHED, passage, text, pair)
        ahead = re.match(r"\W*\w*\s*(?:sheet|pad|pack)s?\b", after, re.IGNORECASE) or re.search(
            r"\bsheets?\b[^,;]*$", before, re.IGNORECASE)
        nouns = [noun for noun in naming.part_nouns(f"{label}: {before}") if noun.noun != "card"]
        if ahead or (passage.section is Section.SUPPLIES and not nouns):
            paper = self._paper(f"{label} {before}") or self._paper(after)
            return self._fact(Role.SHEET, passage, text, pair, name=paper)
        name, colour = self._part(before, after, label)
        paper = self._paper(f"{before} {after}") if naming.papers_in(f"{before} {after}") or passage.label else colour
        if colour and not paper:
            paper = self._paper(colour)
        if paper and paper not in self.papers:
            paper = self._paper(paper)
        self.of_paper[name] = paper
        return replace(
            self._fact(Role.PART, passage, text, pair, name=name, paper=paper, ordered=not length.open),
            count=naming.count_before(before, len(before)))

    def _part(self, before: str, after: str, label: str) -> tuple[str, str]:
        """The name of the part that a size is of, and a colour that goes with it."""
        if label and not naming.papers_in(label, listed=True):
            nouns = naming.part_nouns(label)
            name = nouns[-1].name if nouns else naming.usable(label.casefold(), "part")
            return self._new(name, nouns[-1].noun if nouns else name), naming.colour_alone(label)
        lead = before.rsplit(":", 1)[0] if ":" in before and naming.part_nouns(before.rsplit(":", 1)[0]) else before
        nouns = naming.part_nouns(lead) or naming.part_nouns(re.split(r"[.;,]", after)[0])
        made = doings.object_of(lead, Role.PART).strip()
        if made and not naming.part_nouns(lead):
            return self._new(naming.usable(made.split()[-1].casefold(), "part"), "part"), naming.colour_alone(made)
        if nouns:
            noun = nouns[-1] if naming.part_nouns(lead) else nouns[0]
            if noun.noun in ("piece", "card") and "base" not in self.parts:
                return self._new("base", "base"), noun.colour
            colour = naming.colour_alone(lead) if noun.name == "piece" else ""
            return self._new(f"{colour} {noun.name}".strip(), noun.noun), noun.colour
        if self.spoken is not None and self.spoken.name not in self.parts:
            return self._new(self.spoken.name, self.spoken.noun), self.spoken.colour
        if not self.parts and naming.papers_in(lead):
            return self._new("base", "base"), ""
        return self._new(self.last or "part", self.parts.get(self.last, "part")), ""

    def _new(self, name: str, noun: str) -> str:
        name, number = naming.usable(name, "part"), 2
        plain = name
        while name in self.parts:
            name, number = f"{plain} {number}", number + 1
        self.parts[name] = noun
        self.last = name
        return name

    def _named(self, text: str) -> str:
        """The known part that a text names last; the one that was spoken of last where it names none."""
        nouns = naming.part_nouns(text) or ((self.spoken,) if self.spoken else ())
        found = [name for noun in nouns if (name := self._known(noun))]
        if found:
            self.last = found[-1]
        return found[-1] if found else self.last

    def _known(self, noun: naming.Noun) -> str:
        """The part that a noun means: by its name, by its colour, or as the only one of its kind; empty for none."""
        if noun.name in self.parts:
            return noun.name
        if noun.colour:
            coloured = [name for name, paper in self.of_paper.items() if noun.colour in f"{name} {paper}".split()]
            return coloured[0] if len(coloured) == 1 else ""
        alike = [name for name, kind in self.parts.items() if kind == noun.noun]
        return alike[0] if len(alike) == 1 else ""

    def _done(self, text: str, passage: Passage, there: list[Fact]) -> list[tuple[int, Fact]]:
        """Folds, what is fixed on, and waiting."""
        found: list[tuple[int, Fact]] = []
        fold = doings.verb_at(text, Role.FOLD)
        if fold is not None:
            found.append((fold, self._fact(Role.FOLD, passage, text, word=doings.way_folded(text))))
        placed = any(fact.role in (Role.BORDER, Role.SIDE) for fact in there)
        attach = doings.verb_at(text, Role.ATTACH)
        tied = doings.verb_at(text, Role.TIE) is not None
        refused = re.search(r"\bdon'?t\b|\bdo not\b", text, re.IGNORECASE)
        if not refused and (attach is not None or (placed and not tied)):
            held = next(iter(naming.supplies_in(text)), "")
            found.append((len(text) if attach is None else attach + 1,
                          self._fact(Role.ATTACH, passage, text, name=self._fixed(text), word=held)))
        tie = doings.verb_at(text, Role.TIE)
        trim = next((name for name in naming.supplies_in(text) if naming.trims(name)), "")
        if tie is not None and trim:
            found.append((tie, self._fact(Role.TIE, passage, text, name=trim)))
        for each in spot_numbers(text):
            if each.sense is Sense.TIME and re.search(r"\bdry|\bset\b|\bwait", text, re.IGNORECASE):
                time = f"{write_number(each.value)} {each.unit}"
                found.append((each.start, self._fact(Role.DRY, passage, text, word=time)))
        return found

    def _fixed(self, text: str) -> str:
        """What a sentence fixes: the first known part that it names, or what was spoken of last."""
        named = doings.object_of(text, Role.ATTACH)
        for noun in naming.part_nouns(named or text):
            known = self._known(noun)
            if known and known != "base":
                self.last = known
                return known
        if named:
            return ""
        return self.last if self.last != "base" and re.search(r"\b(?:it|them|down|on)\b", text) else ""

    def _fact(
        self, role: Role, passage: Passage, text: str, lengths: tuple[str, ...] = (), *, name: str = "",
        paper: str = "", word: str = "", ordered: bool = True,
    ) -> Fact:
        return Fact(
            role=role, line=passage.line, quote=text.strip(), lengths=lengths, name=name, paper=paper, word=word,
            ordered=ordered)
