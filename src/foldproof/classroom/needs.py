"""What a class needs: parts by paper, and what is used up, for all kits.

Lengths are in the unit of the recipe that first has a paper.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from foldproof.classroom.lesson import Lesson
from foldproof.classroom.sheets import MayTurn
from foldproof.classroom.supplies import SupplyNeed, die_needs, supply_needs
from foldproof.findings.finding import Finding, Severity
from foldproof.folding.card import CardPiece
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Fold
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.actions import CutAcross, CutBetween, CutOff, CutOut
from foldproof.recipe.records import PaperSpec, Triangle


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
    rising: bool | None
    """Of a triangle: whether the diagonal rises from bottom left to top right, the part upright; else None."""
    others: tuple[str, ...]
    """Parts of the same card that are cut from its rectangle, too: the other half, a strip."""
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
    unit: Unit
    """Of its lengths."""
    sheet: tuple[Fraction, Fraction] | None
    parts: tuple[PartNeed, ...]


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
            if not any(piece.paper == str(paper.name) for piece in lesson.card.pieces):
                continue
            key = _key(lesson, paper, papers, findings)
            before = papers.get(key)
            own = before.unit if before else lesson.unit
            parts = tuple(_renamed(part, key) for part in _parts(lesson, paper, own, len(lessons) > 1))
            sheet = _sheet(paper, lesson.unit.millimetres / own.millimetres)
            papers[key] = PaperNeed(
                name=key, spec=paper, unit=own, sheet=sheet, parts=(*(before.parts if before else ()), *parts)
            )
    supplies = [one for lesson in lessons for one in supply_needs(lesson, findings)]
    dies = [one for lesson in lessons for one in die_needs(lesson)]
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


def _parts(lesson: Lesson, paper: PaperSpec, unit: Unit, several: bool) -> Iterator[PartNeed]:
    """The rectangles of one card's paper: as the steps cut them, else the outer size of the piece."""
    card = lesson.card
    factor = lesson.unit.millimetres / unit.millimetres
    cuts: dict[str, list[tuple[Fraction, Fraction, str]]] = {}
    others: dict[str, list[str]] = {}
    """What else of the same card comes out of a part's rectangle."""
    for step in lesson.making.steps:
        for done in step.every:
            if isinstance(done.action, CutOut) and done.piece:
                size = done.action.size
                cuts.setdefault(done.piece, []).append((size[0].value, size[1].value, step.spec.id))
            elif isinstance(done.action, CutBetween | CutAcross | CutOff) and done.action.other:
                others.setdefault(done.piece or "", []).append(done.action.other)
    for piece in card.pieces:
        if piece.paper != str(paper.name) or any(piece.name in names for names in others.values()):
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
                and piece.name not in others,
                rising=_rising(piece.spec.shape),
                others=tuple(others.get(piece.name, ())) if number == 1 else (),
                shape=_shape(piece, (w, h)),
                ahead=_ahead(lesson, piece),
                step=step_id,
            )


def _rising(shape: object) -> bool | None:
    return shape.right_angle in ("top left", "bottom right") if isinstance(shape, Triangle) else None


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
