"""The whole journey on one screen: text, recipe, card, making, findings, drawings, documents."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from foldproof import __version__
from foldproof.checks.catalogue import run_checks
from foldproof.classroom.class_plan import class_findings
from foldproof.classroom.lesson import Lesson
from foldproof.documents.photos import read_photos
from foldproof.findings.finding import Finding, has_errors
from foldproof.findings.show import in_order
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.reader import Reading, read_file

if TYPE_CHECKING:
    from foldproof.classroom.class_plan import ClassPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """A recipe read, folded, made and checked, as far as its mistakes allow."""

    reading: Reading
    card: Card | None
    making: Making | None
    findings: tuple[Finding, ...]
    photos: Mapping[str, bytes]

    @property
    def sound(self) -> bool:
        """Whether it may be built."""
        return self.card is not None and self.making is not None and not has_errors(self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What a build is asked for beside its recipe."""

    theme: str = "plain"
    dated: str = ""
    """A date to print, as given; none is printed without it."""
    mirrored: bool = False
    """Whether the card is built left for right, into a folder of its own."""
    left_handed: bool = False
    """Whether it is told for the other hand, into a folder of its own."""
    stock: Path | None = None
    """The teacher's stock file, for the class plan."""
    desk: Path | None = None
    """The teacher's desk file, for the class plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A proof and, when it is sound, the folder that its outputs were switched to."""

    proof: Proof
    folder: Path | None


TOLD = 6
"""The most disagreements that are told at once."""
_NO_PHOTOS: Mapping[str, bytes] = {}


def prove(path: Path) -> Proof:
    """Everything up to the findings: exact, quick, nothing drawn and nothing written."""
    reading = read_file(path)
    card, making, photos = None, None, _NO_PHOTOS
    findings = reading.findings
    if reading.recipe is not None and reading.whole:
        photos, faults = read_photos(reading.recipe, path.parent)
        card, misfits = build_card(reading.recipe)
        findings = (*findings, *faults, *misfits)
    if card is not None:
        making = carry_out(card)
        findings = (*findings, *run_checks(card, making, reading.source))
        findings = (*findings, *class_findings(Lesson(card=card, making=making)))
    return Proof(
        reading=reading, card=card, making=making, findings=in_order(tuple(dict.fromkeys(findings))), photos=photos)


def mirror(proof: Proof) -> Proof:
    """The mirrored card of a sound proof, folded, made and checked anew; any other proof as it is.

    Its findings stand at the places of the original recipe, and say that they are of the mirrored card.
    """
    from foldproof.mirror.mirrored import mirrored

    if not proof.sound or proof.card is None or proof.making is None:
        return proof
    recipe = mirrored(proof.card, proof.making)
    card, misfits = build_card(recipe)
    making = carry_out(card) if card is not None else None
    found = run_checks(card, making) if card is not None and making is not None else ()
    told = tuple(replace(finding, message=f"In the mirrored card: {finding.message}") for finding in (*misfits, *found))
    return replace(
        proof, reading=replace(proof.reading, recipe=recipe), card=card, making=making, photos=_NO_PHOTOS,
        findings=in_order(tuple(dict.fromkeys(told))))


def build(path: Path, into: Path, options: Options = Options()) -> Built:
    """Prove a recipe and, when it is sound, make its documents and switch `into/NAME` to them.

    Raises DocumentsError when the documents cannot be made or placed; what stood there before still stands.
    """
    from foldproof.documents.placing import place

    proof = prove(path)
    proof, class_plan = with_class_plan(mirror(proof) if options.mirrored else proof, options)
    if not proof.sound or proof.card is None:
        return Built(proof=proof, folder=None)
    from foldproof.documents.left_hand import SUFFIX

    name = proof.card.recipe.name + (SUFFIX if options.left_handed else "")
    return Built(proof=proof, folder=place(documents(proof, options, class_plan), into, name))


def with_class_plan(proof: Proof, options: Options = Options()) -> tuple[Proof, "ClassPlan | None"]:
    """The plan of a class where the recipe says how many people come, and what it found among the findings.

    What is wrong with the teacher's own files is among them, too.
    """
    from foldproof.classroom.class_plan import plan_class
    from foldproof.classroom.lesson import Wanted
    from foldproof.classroom.own_files import read_own

    if not proof.sound or proof.card is None or proof.making is None:
        return proof, None
    lesson = Lesson(card=proof.card, making=proof.making)
    if lesson.spec is None or lesson.spec.people is None:
        return proof, None
    own = read_own(options.stock, options.desk)
    if has_errors(own.findings):
        return replace(proof, findings=in_order((*proof.findings, *own.findings))), None
    plan, more = plan_class([lesson], Wanted(), stock=own.stock, desk=own.desk)
    found = (*own.findings, *more)
    return replace(proof, findings=in_order(tuple(dict.fromkeys((*proof.findings, *found))))), plan


def documents(proof: Proof, options: Options, class_plan: "ClassPlan | None" = None) -> Mapping[str, bytes]:
    """The set of outputs of a sound proof by relative path, read back and found to agree."""
    from foldproof.documents import handout, page
    from foldproof.documents.class_plan import class_set
    from foldproof.documents.drawings import draw
    from foldproof.documents.facts_file import facts_file
    from foldproof.documents.hush import hushed
    from foldproof.documents.left_hand import for_left_hands
    from foldproof.documents.readback import audit
    from foldproof.documents.revision import revision
    from foldproof.documents.shots import shots_csv, shots_pdf
    from foldproof.documents.telling import tell
    from foldproof.documents.template_sheets import template_files, template_pdf
    from foldproof.documents.theme import load_theme
    from foldproof.documents.trouble import AuditError
    from foldproof.drawing.true_size import template_svg

    assert proof.card is not None and proof.making is not None
    card, making = proof.card, proof.making
    theme = load_theme(options.theme)
    with hushed():
        view = tell(
            card, making, drawn=draw(card, making, handout.STYLE, page.STYLE), photos=proof.photos,
            revision=revision(_text_of(proof, options), theme.files.items(), __version__), version=__version__,
            dated=options.dated,
        )
        view = for_left_hands(view, making) if options.left_handed else view
        files = {file: handout.handout(view, theme, paper) for paper, file in handout.file_names(view.unit).items()}
        files |= {"shots.pdf": shots_pdf(view, theme), "shots.csv": shots_csv(view).encode()}
        files |= {"page.html": page.page(view, theme).encode(), **page.pictures(view)}
        files |= {file: template_pdf(card, view, theme, paper) for paper, file in template_files(view.unit).items()}
        files["template.svg"] = template_svg(card).encode()
        if class_plan is not None:
            files |= class_set(class_plan, theme, (proof.reading.source,), __version__, options.dated)
        files["card.json"] = facts_file(card, making, proof.findings, view, files).encode()
        problems = audit(view, files)
    if problems:
        more = f"; and {len(problems) - TOLD} more" if len(problems) > TOLD else ""
        raise AuditError(f"the finished documents disagree with the card: {'; '.join(problems[:TOLD])}{more}")
    return files


def _text_of(proof: Proof, options: Options) -> str:
    """What the revision is a digest of: the recipe's text, and which edition it is."""
    return "".join((
        proof.reading.source, "\n# mirrored\n" if options.mirrored else "",
        "\n# left-handed\n" if options.left_handed else ""))
