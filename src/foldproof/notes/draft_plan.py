"""The plan of a draft: papers, pieces, joins, layers, slides, poses, supplies and tools."""

import re
from collections.abc import Iterator

from foldproof.notes.naming import usable
from foldproof.notes.parts import Gathered, Part, owned
from foldproof.notes.records import Fact, Role
from foldproof.notes.words import ASKED, source, value


class Plan:
    """Writes the plan from what was gathered."""

    def __init__(self, had: Gathered) -> None:
        self.had = had

    def lines(self) -> Iterator[str]:
        """The lines of the plan."""
        for part in (self._finished, self._papers, self._pieces, self._joins, self._layers, self._slides, self._poses,
                     self._supplies):
            yield from part()

    def _finished(self) -> Iterator[str]:
        yield "finished:"
        sizes = self.had.of(Role.FINISHED)
        if sizes:
            yield f"  size: [{', '.join(sizes[-1].lengths)}]{source(sizes[-1])}"
        else:
            yield f"  size:  {ASKED} how wide and how tall is the closed card, as it is read: [width, height]"
        own = self.had.of(Role.ENVELOPE)
        if self.had.notes.envelope:
            note = f"  # the notes give it {' x '.join(own[0].lengths)}" if own else ""
            yield f"  envelope:{value(self.had.notes.envelope)}{note}"
        elif own:
            yield f"  envelope: [{', '.join(own[0].lengths)}]{source(own[0])}"
        else:
            yield f"  {ASKED} which envelope does it go into"

    def _papers(self) -> Iterator[str]:
        yield "papers:"
        sheets = {usable(fact.name, "paper"): fact for fact in self.had.of(Role.SHEET)}
        for fact in self.had.of(Role.SHEET):
            if not fact.name:
                yield f"  {ASKED} which paper has sheets of {' x '.join(fact.lengths)}{source(fact)}"
        if not self.had.papers:
            yield f"  {ASKED} which papers is it made of"
        weights = {usable(name, "paper"): weight for name, weight in self.had.notes.weights}
        for paper, said in zip(self.had.papers, self.had.notes.papers, strict=True):
            yield f"  {paper}:"
            kind = said if said == "patterned paper" else said.split()[-1]
            sort = kind in ("cardstock", "card", "paper", "vellum", "patterned paper")
            yield f"    kind: {kind}" if sort else f"    {ASKED} is it cardstock or paper"
            if paper in weights:
                weight = re.sub(r"(?<=\d)(?=[a-z])", " ", weights[paper])
                ask = f"  {ASKED} cover or text" if re.fullmatch(r"\d+ lbs?", weight) else ""
                yield f"    weight:{value(weight)}{ask}"
            else:
                yield f"    {ASKED} how heavy is it, as it stands on the pack"
            if paper in sheets:
                yield f"    sheet: [{', '.join(sheets[paper].lengths)}]{source(sheets[paper])}"
            else:
                yield f"    {ASKED} how large is a whole sheet: sheet: [width, height]"
            if not said.endswith("cardstock") and "paper" in said:
                yield f"    {ASKED} is it printed, on one face or both, and must its print stand upright"

    def _pieces(self) -> Iterator[str]:
        yield "pieces:"
        if not any(part.piece for part in self.had.parts):
            yield f"  {ASKED} the size of no piece was found; write each with its paper and size"
        for part in self.had.parts:
            if part.piece:
                yield f"  {part.name}:{source(part.fact)}"
                yield from self._cut_from(part.fact)
                if part.scores:
                    yield "    scores:"
                    for number, score in enumerate(part.scores, start=1):
                        yield from self._score(part, score, number)

    def _cut_from(self, fact: Fact) -> Iterator[str]:
        paper = usable(fact.paper, "")
        yield f"    paper:{value(paper)}" if paper in self.had.papers else f"    paper:  {ASKED} which paper"
        if fact.count:
            yield f"    {ASKED} the notes speak of {fact.count}; each needs a name and a place of its own"
        turned = "" if fact.ordered else f"  {ASKED} which is the width, as it is read"
        yield f"    size: [{', '.join(fact.lengths)}]{turned}"

    def _score(self, part: Part, score: Fact, number: int) -> Iterator[str]:
        yield f"      {part.score_name(number)}:{source(score)}"
        way = next((fold.word for fold in self.had.of(Role.FOLD) if fold.word), "")
        folded = way if way and len(part.scores) == 1 else ""
        yield f"        fold: {folded or f' {ASKED} valley or mountain, as seen from the front'}"
        if score.word:
            yield f"        {score.word}: {score.lengths[0]}"
            return
        yield (f"        {ASKED} across: {score.lengths[0]} (so far from the left edge, front up) or "
               f"up: {score.lengths[0]} (so far from the bottom edge)")

    def _joins(self) -> Iterator[str]:
        fixed = [part.fact for part in self.had.parts if part.piece and self._join_of(part.name)]
        if fixed:
            yield "joins:"
        for fact in fixed:
            yield f"  {fact.name} glued on:"
            yield f"    put:  {ASKED} which face of it takes the glue: {fact.name} front or {fact.name} back"
            yield f"    upon:  {ASKED} which face is it laid on"
            yield f"    at:  {ASKED} where does it lie there: distances from two edges, or centred: both"

    def _join_of(self, name: str) -> bool:
        return any(fact.name == name for fact in self.had.of(Role.ATTACH))

    def _layers(self) -> Iterator[str]:
        layers = [part.fact for part in self.had.parts if not part.piece]
        if layers:
            yield "layers:"
        for fact in layers:
            yield f"  {fact.name}:{source(fact)}"
            yield from self._cut_from(fact)
            yield f"    upon:  {ASKED} which face of which panel or layer is it fixed on, like `base front`"
            border = next((each.lengths[0] for each in self._distances(fact.name) if each.role is Role.BORDER), "")
            if border:
                yield f"    at: {{left: {border}, top: {border}}}  # a border all round"
            else:
                yield f"    at:  {ASKED} where does it lie there: distances from two edges, or centred: both"

    def _distances(self, name: str) -> tuple[Fact, ...]:
        """Borders and distances that are said in the step in which a part is fixed."""
        return tuple(
            fact for step in self.had.notes.steps for fact, owner in owned(step) if owner == name)

    def _slides(self) -> Iterator[str]:
        laps = self.had.of(Role.LAP)
        bands = [part.fact for part in self.had.parts if part.piece and part.name.split()[-1] in ("band", "sleeve")]
        if bands:
            yield "slides:"
            yield f"  {bands[0].name} round the card:"
            yield "    what: card"
            yield f"    band: {bands[0].name}"
            yield f"    laps: {laps[0].lengths[0]}{source(laps[0])}" if laps else (
                f"    laps:  {ASKED} how much do its two ends overlap")

    def _poses(self) -> Iterator[str]:
        yield "poses:"
        names = [part.score_name(number) for part in self.had.parts for number, _ in enumerate(part.scores, start=1)
                 if part.piece]
        if not names:
            yield "  closed: {folds: {}}"
            return
        yield "  closed:"
        yield "    folds:"
        for name in names:
            yield f"      {name}:  {ASKED} how far is it folded when the card is closed: 180, -180 or 0"

    def _supplies(self) -> Iterator[str]:
        if self.had.supplies:
            yield "supplies:"
            lengths = {usable(fact.name, "supply"): fact for fact in reversed(self.had.of(Role.SUPPLY))}
            for name, said in zip(self.had.supplies, self.had.notes.supplies, strict=True):
                yield f"  {name}:"
                last = said.split()[-1]
                yield f"    kind:{value(last if last in ('ribbon', 'twine', 'thread') else said)}"
                if name in lengths:
                    yield f"    length: {lengths[name].lengths[0]}{source(lengths[name])}"
        if self.had.notes.tools:
            yield f"tools: {{{', '.join(f'{tool}: {{}}' for tool in self.had.notes.tools)}}}"
