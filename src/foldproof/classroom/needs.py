"""What a class needs: parts by paper, and what is used up, for all kits. Lengths in one unit, the first recipe's."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.classroom.lesson import Lesson
from foldproof.classroom.sheets import MayTurn
from foldproof.findings.finding import Finding, Severity
from foldproof.folding.card import Card, CardPiece
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.face import Fold
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.actions import CutAcross, CutBetween, CutOff, CutOut, DieCut, Tie
from foldproof.recipe.class_records import WrapSpec
from foldproof.recipe.records import PaperSpec, SupplySpec, Triangle

_NUMBERS = ["a", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_SHARED = frozenset(["pad", "pads", "bottle", "bottles", "roll", "rolls", "pack", "packs", "tube", "tubes", "stick"])
"""What outlasts one card, so that it is shared and not counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartNeed:
    """A rectangle that is cut from a paper for each kit."""

    name: str
    title: str
    """The card that it is for."""
    paper: str
    width: Fraction
    height: Fraction
    turn: MayTurn
    on_side: bool
    """Whether width and height are swapped so that the grain runs along the folds."""
    halves: bool
    """A right triangle, two of which come from one rectangle cut along its diagonal."""
    shape: str
    """What is cut from the rectangle where it is not the part itself: `circle`, `outline`; else empty."""
    ahead: bool
    """Whether the teacher cuts it before the class."""
    step: str | None
    """The id of the step that cuts it."""

    def count(self, kits: int) -> int:
        """Rectangles for so many kits."""
        return -(-kits // 2) if self.halves else kits


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperNeed:
    """A paper with its parts."""

    name: str
    spec: PaperSpec
    sheet: tuple[Fraction, Fraction] | None
    parts: tuple[PartNeed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyNeed:
    """Something that each kit uses up, or that the class shares."""

    name: str
    title: str
    kind: str
    amount: str
    """In the recipe's own words."""
    pieces: int | None
    """How many a kit takes, where that can be counted."""
    length: Fraction | None
    """Of one kit's ribbon, thread or tape."""
    reckoned: str
    """How the length was reckoned; empty where the recipe gives it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """Everything."""

    unit: Unit
    papers: tuple[PaperNeed, ...]
    dies: tuple[SupplyNeed, ...]
    """Die-cut and bought shapes that no paper is given for."""
    supplies: tuple[SupplyNeed, ...]


def needs(lessons: Sequence[Lesson]) -> tuple[Needs, tuple[Finding, ...]]:
    """What the cards need, and what is odd about it."""
    unit = lessons[0].unit
    findings: list[Finding] = []
    papers: dict[str, PaperNeed] = {}
    for lesson in lessons:
        for paper in lesson.card.recipe.papers:
            parts = tuple(_parts(lesson, paper, unit, len(lessons) > 1, findings))
            if not parts:
                continue
            key = _key(lesson, paper, papers, findings)
            before = papers[key].parts if key in papers else ()
            sheet = _sheet(paper, lesson.unit.millimetres / unit.millimetres)
            parts = tuple(_renamed(part, key) for part in parts)
            papers[key] = PaperNeed(name=key, spec=paper, sheet=sheet, parts=(*before, *parts))
    supplies = [one for lesson in lessons for one in _supplies(lesson, unit, findings)]
    dies = [one for lesson in lessons for one in _dies(lesson)]
    return Needs(
        unit=unit, papers=tuple(papers.values()), dies=tuple(dies), supplies=tuple(supplies)
    ), tuple(findings)


def _renamed(part: PartNeed, paper: str) -> PartNeed:
    return replace(part, paper=paper)


def _sheet(paper: PaperSpec, factor: Fraction) -> tuple[Fraction, Fraction] | None:
    return (paper.sheet[0].value * factor, paper.sheet[1].value * factor) if paper.sheet else None


def _key(lesson: Lesson, paper: PaperSpec, papers: dict[str, PaperNeed], findings: list[Finding]) -> str:
    """The paper's name; with the card's title where another card has another paper of that name."""
    name = str(paper.name)
    other = papers.get(name)
    if other is None or _same_paper(other.spec, paper):
        return name
    findings.append(
        Finding(
            name="two papers of one name",
            severity=Severity.WARNING,
            message=f"Two of the cards have a paper {name}, and they differ in sheet, weight or kind: they are planned "
            "and bought apart.",
            mend="Give one of them another name, or make them the same.",
            place=paper.place,
        )
    )
    return f"{name} ({lesson.title})"


def _same_paper(one: PaperSpec, other: PaperSpec) -> bool:
    def facts(paper: PaperSpec) -> tuple[object, ...]:
        sheet = tuple(side.written for side in paper.sheet) if paper.sheet else None
        return (
            sheet,
            str(paper.kind) if paper.kind else None,
            str(paper.weight) if paper.weight else None,
            paper.grain,
            paper.pattern,
        )

    return facts(one) == facts(other)


def _parts(
    lesson: Lesson, paper: PaperSpec, unit: Unit, several: bool, findings: list[Finding]
) -> Iterator[PartNeed]:
    """The rectangles of one card's paper: as the steps cut them, else the outer size of the piece."""
    card = lesson.card
    factor = lesson.unit.millimetres / unit.millimetres
    cuts: dict[str, list[tuple[Fraction, Fraction, str]]] = {}
    given: set[str] = set()
    whole: set[str] = set()
    """Parts whose other half is used for another part of the same card."""
    for step in lesson.making.steps:
        for done in step.done:
            if isinstance(done.action, CutOut) and done.piece:
                size = done.action.size
                cuts.setdefault(done.piece, []).append((size[0].value, size[1].value, step.spec.id))
            elif isinstance(done.action, CutBetween | CutAcross | CutOff) and done.action.other:
                given.add(done.action.other)
                whole.add(done.piece or "")
    for piece in card.pieces:
        if piece.paper != str(paper.name) or piece.name in given:
            continue
        box = bounding_box(piece.outline)
        sizes: list[tuple[Fraction, Fraction, str | None]] = list(cuts.get(piece.name, ()))
        for number, (w, h, step_id) in enumerate(sizes or [(box.width, box.height, None)], start=1):
            turn, on_side = _turning(piece, paper, (w, h))
            name = piece.name if number == 1 else f"{piece.name} {number}"
            yield PartNeed(
                name=f"{name}, {lesson.title}" if several else name,
                title=lesson.title,
                paper=str(paper.name),
                width=(h if on_side else w) * factor,
                height=(w if on_side else h) * factor,
                turn=turn,
                on_side=on_side,
                halves=isinstance(piece.spec.shape, Triangle)
                and paper.pattern != "upright"
                and piece.name not in whole,
                shape=_shape(piece, (w, h)),
                ahead=_ahead(lesson, piece),
                step=step_id,
            )


def _shape(piece: CardPiece, size: tuple[Fraction, Fraction]) -> str:
    if piece.round:
        return "circle"
    if isinstance(piece.spec.shape, Triangle):
        return "triangle"
    if piece.bought:
        return "die cut"
    return "" if len(piece.outline) == 4 and _is_box(piece) else "outline"


def _is_box(piece: CardPiece) -> bool:
    box = bounding_box(piece.outline)
    return {(p.x, p.y) for p in piece.outline} == {
        (x, y) for x in (box.left, box.right) for y in (box.bottom, box.top)
    }


def _ahead(lesson: Lesson, piece: CardPiece) -> bool:
    spec = lesson.spec
    if spec is None or spec.cut_ahead is None:
        return True
    words = {str(word) for word in spec.cut_ahead}
    return "everything" in words or (piece.name in words and "nothing" not in words)


def _turning(piece: CardPiece, paper: PaperSpec, size: tuple[Fraction, Fraction]) -> tuple[MayTurn, bool]:
    """How a part may lie on the sheet, and whether the grain makes it lie on its side.

    Grain runs along the folds, so that they don't crack (common practice, no source): it matters for a piece whose
    folding scores all run one way, on a paper whose grain is known. A part that only fits the other way may turn.
    """
    if paper.pattern == "upright":
        return MayTurn.NONE, False
    folds = [score.segment for score in piece.scores if score.fold is not Fold.NONE]
    upright = all(s.start.x == s.end.x for s in folds)
    level = all(s.start.y == s.end.y for s in folds)
    if paper.grain is None or not folds or not (upright or level):
        return MayTurn.ANY, False
    on_side = upright != (paper.grain == "height")
    if paper.sheet is not None:
        w, h = (size[1], size[0]) if on_side else size
        if w > paper.sheet[0].value or h > paper.sheet[1].value:
            return MayTurn.ANY, False
    return MayTurn.HALF, on_side


def _dies(lesson: Lesson) -> Iterator[SupplyNeed]:
    cut = {d.piece for step in lesson.making.steps for d in step.done if isinstance(d.action, DieCut)}
    for piece in lesson.card.pieces:
        if piece.paper is None and (piece.bought or piece.name in cut):
            box = bounding_box(piece.outline)
            yield SupplyNeed(
                name=piece.name,
                title=lesson.title,
                kind="die cut or ready made",
                amount="1",
                pieces=1,
                length=None,
                reckoned=_size_note(box.width, box.height, lesson.unit),
            )


def _size_note(width: Fraction, height: Fraction, unit: Unit) -> str:
    return f"{write_size((width, height), unit)} over all"


def _supplies(lesson: Lesson, unit: Unit, findings: list[Finding]) -> Iterator[SupplyNeed]:
    recipe = lesson.card.recipe
    factor = lesson.unit.millimetres / unit.millimetres
    tied = {
        action.supply: action.length.value
        for step in recipe.steps
        for action in step.actions
        if isinstance(action, Tie) and action.length is not None
    }
    wraps = {str(wrap.supply): wrap for wrap in lesson.spec.wraps} if lesson.spec else {}
    for supply in recipe.supplies:
        name = str(supply.name)
        length = supply.length.value if supply.length else tied.get(name)
        reckoned = ""
        if name in wraps:
            wound = wound_length(lesson.card, wraps[name])
            if length is None:
                length, reckoned = wound, _wound_words(wraps[name])
            elif wound is not None and wound > length:
                findings.append(_too_short(supply, length, wound, wraps[name], lesson.unit))
        yield SupplyNeed(
            name=name,
            title=lesson.title,
            kind=supply.kind or "",
            amount=str(supply.amount) if supply.amount else "",
            pieces=_pieces(str(supply.amount)) if supply.amount and length is None else None,
            length=None if length is None else length * factor,
            reckoned=reckoned,
        )
    envelope = recipe.finished.envelope
    if envelope is not None:
        yield SupplyNeed(
            name=f"{envelope} envelope",
            title=lesson.title,
            kind="envelope",
            amount="one",
            pieces=1,
            length=None,
            reckoned="",
        )


def wound_length(card: Card, wrap: WrapSpec) -> Fraction | None:
    """Round the closed card so many times, with knot and tails: 2 (side + thickness) each time round."""
    if card.closed is None:
        return None
    side = card.closed.width if wrap.way == "across" else card.closed.height
    once = 2 * (side + (card.closed.thickness or 0))
    knot = wrap.knot.value if wrap.knot else Fraction(0)
    tails = 2 * wrap.tails.value if wrap.tails else Fraction(0)
    return once * wrap.times.value + knot + tails


def _wound_words(wrap: WrapSpec) -> str:
    what = "width" if wrap.way == "across" else "height"
    more = [word for word, given in (("knot", wrap.knot), ("two tails", wrap.tails)) if given]
    return f"{wrap.times.written} × round the {what} of the closed card{', ' if more else ''}{' and '.join(more)}"


def _too_short(supply: SupplySpec, length: Fraction, wound: Fraction, wrap: WrapSpec, unit: Unit) -> Finding:
    return Finding(
        name="too short to go round",
        severity=Severity.WARNING,
        message=f"One card is given {with_unit(length, unit)} of {supply.name}; {_wound_words(wrap)} takes "
        f"{with_unit(wound, unit)}, {with_unit(wound - length, unit)} more.",
        mend=f"Give it {with_unit(wound, unit)}, or shorten the tails.",
        place=supply.length.place if supply.length else wrap.place,
    )


def _pieces(amount: str) -> int | None:
    """How many pieces `three squares` or `2` says; None for what is shared or not counted."""
    words = re.findall(r"\w+", amount.casefold())
    if not words or len(words) > 3 or words[-1] in _SHARED or words[:2] == ["a", "few"]:
        return None
    if words[0].isdigit():
        return int(words[0])
    return max(1, _NUMBERS.index(words[0])) if words[0] in _NUMBERS else None
