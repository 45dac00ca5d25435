"""The whole journey on one screen: text, recipe, card, making, findings, drawings, documents."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from foldproof import __version__
from foldproof.checks.catalogue import run_checks
from foldproof.checks.sold import check_sold, ends_of
from foldproof.documents.photos import read_photos
from foldproof.documents.theme_folders import own_folder, theme_faults
from foldproof.edition.measures import Measures, own_measures
from foldproof.filmed import Filmed, beside, read_film, refuse_to_lose
from foldproof.filming.film_checks import film_findings
from foldproof.findings.finding import Finding, has_errors
from foldproof.findings.show import in_order
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.options import Options as Options
from foldproof.recipe.reader import Reading, read_file
from foldproof.recipe.web import day_fault

if TYPE_CHECKING:
    from foldproof.classroom.class_plan import ClassPlan
    from foldproof.recording.film import Film
    from foldproof.tolerance.study import Study


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """A recipe read, folded, made and checked, as far as its mistakes allow."""

    reading: Reading
    card: Card | None
    making: Making | None
    findings: tuple[Finding, ...]
    photos: Mapping[str, bytes]
    file: str = ""
    """The recipe's, as the author named it."""
    film: "Film | None" = None
    """What comes of its recording, where there is one."""
    film_sources: Mapping[str, str] = field(default_factory=dict)
    """The texts of the recording's files by name."""

    @property
    def sources(self) -> dict[str, str]:
        """The text of every file that findings may point into, by name."""
        return {**self.reading.texts, **self.film_sources}

    @property
    def sound(self) -> bool:
        """Whether it may be built."""
        return self.card is not None and self.making is not None and not has_errors(self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A proof and, when it is sound, the folder that its outputs were switched to."""

    proof: Proof
    folder: Path | None
    changed: tuple[str, ...] = ()
    """What is otherwise in the card than in the set that stood there before, each in a line with its place."""


TOLD = 6
"""The most disagreements that are told at once."""
_NO_PHOTOS: Mapping[str, bytes] = {}


def prove(path: Path, filmed: Filmed | None = None) -> Proof:
    """Everything up to the findings: exact, quick, nothing drawn and nothing written.

    `filmed` names the files of the card's recording; without it, those that are kept beside the recipe are taken.
    """
    reading = read_file(path)
    card, making, photos = None, None, _NO_PHOTOS
    findings = reading.findings
    if reading.recipe is not None and reading.whole:
        photos, faults = read_photos(reading.recipe, path.parent)
        card, misfits = build_card(reading.recipe)
        findings = (*findings, *faults, *theme_faults(reading.recipe, path.parent), *misfits)
    if card is not None:
        making = carry_out(card)
        findings = (*findings, *run_checks(card, making))
        findings = (*findings, *_class_findings(card, making), *film_findings(card, making))
    if reading.recipe is not None and (reading.recipe.metric is not None or reading.recipe.inches is not None):
        from foldproof.edition.own import own_size_faults

        findings = (*findings, *own_size_faults(reading.recipe))
    proof = Proof(
        reading=reading, card=card, making=making, findings=in_order(tuple(dict.fromkeys(findings))), photos=photos,
        file=str(path))
    return _with_film(proof, filmed or beside(path))


def _class_findings(card: Card, making: Making) -> tuple[Finding, ...]:
    if card.recipe.class_part is None:
        return ()
    from foldproof.classroom.class_plan import class_findings
    from foldproof.classroom.lesson import Lesson

    return class_findings(Lesson(card=card, making=making))


def _with_film(proof: Proof, filmed: Filmed | None) -> Proof:
    """The recording of a card, as far as the card itself is whole."""
    if filmed is None or proof.card is None:
        return proof
    from foldproof.documents.spoken import spoken_lines

    film, found, sources = read_film(proof.card, filmed, spoken_lines(proof.card.recipe))
    return replace(proof, film=film, film_sources=sources, findings=in_order((*proof.findings, *found)))


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
        proof, reading=replace(proof.reading, recipe=recipe), card=card, making=making, photos=_NO_PHOTOS, film=None,
        findings=in_order(tuple(dict.fromkeys(told))))


def in_edition(proof: Proof, wanted: Measures | None) -> Proof:
    """The edition of a sound proof in other units, folded, made and checked anew; any other proof as it is.

    Its findings stand at the places of the original recipe, and say that they are of the edition.
    """
    from foldproof.edition.both import in_both
    from foldproof.edition.search import edition

    if not proof.sound or proof.card is None or proof.making is None or wanted is None:
        return proof
    card: Card | None = proof.card
    recipe = proof.card.recipe
    if wanted is own_measures(recipe.unit):
        return proof
    if wanted is Measures.BOTH:
        card = replace(proof.card, recipe=in_both(proof.card))
        making = carry_out(card)
        found = run_checks(card, making)
    else:
        warned = frozenset(one.name for one in proof.findings)
        made = edition(proof.card, proof.making, warned)
        if isinstance(made, Finding):
            return replace(proof, findings=in_order((*proof.findings, made)))
        card, making, found = made.card, made.making, made.findings
        card = replace(card, recipe=replace(card.recipe, title=replace(
            recipe.title, value=f"{recipe.title.value} ({wanted.value})")))
    card = replace(card, recipe=replace(card.recipe, name=recipe.name + wanted.suffix))
    found = (*found, *_class_findings(card, making), *film_findings(card, making))
    told = tuple(replace(finding, message=f"In the {wanted.called}: {finding.message}") for finding in found)
    return replace(
        proof, reading=replace(proof.reading, recipe=card.recipe), card=card, making=making, film=None,
        findings=in_order(tuple(dict.fromkeys(told))))


def build(path: Path, into: Path, options: Options = Options(), filmed: Filmed | None = None) -> Built:
    """Prove a recipe and, when it is sound, make its documents and switch `into/NAME` to them.

    `filmed` is as for prove. A set that came with a recording is never replaced by one that knows nothing of it.
    Raises DocumentsError when the documents cannot be made or placed; what stood there before still stands.
    """
    from foldproof.documents.changes import line, since
    from foldproof.documents.placing import fit_for_a_folder, place
    from foldproof.kept import KEPT, before, listed

    known = before(path, options)
    proof = prove(path, filmed)
    if proof.card is not None and options.measures is own_measures(proof.card.recipe.unit):
        options = replace(options, measures=None)
    proof = in_edition(proof, options.measures)
    proof, class_plan = with_class_plan(mirror(proof) if options.mirrored else proof, options)
    if not proof.sound or proof.card is None:
        return Built(proof=proof, folder=None)
    from foldproof.documents.left_hand import SUFFIX

    recipe = proof.card.recipe
    name = recipe.name + (SUFFIX if options.left_handed else "")
    fit_for_a_folder(name)
    if proof.film is None:
        refuse_to_lose(path, into / name)
    proof, studied = with_study(proof)
    if day := read_day(options.dated):
        proof = with_gone(proof, day)
    files = documents(proof, options, class_plan, studied)
    if filmed is None:
        files = {**files, KEPT: listed(
            path, options, known=known, texts=proof.sources, photos=proof.photos, findings=proof.findings, files=files,
            ends=() if day else ends_of(recipe), theme=None if options.theme else own_folder(recipe, path.parent))}
    changed = tuple(f"{change.where}: {line(change)}" for change in since(into / name, files["card.json"]))
    folder = place(files, into, name)
    return Built(proof=proof if day else with_gone(proof), folder=folder, changed=changed)


def read_day(dated: str) -> date | None:
    """The day that is printed, where it is one. Without it the documents know of none, so that the same recipe always
    makes the same bytes; today is looked at for the author's findings only."""
    return None if day_fault(dated) else date.fromisoformat(dated)


def with_gone(proof: Proof, day: date | None = None) -> Proof:
    """With what can no longer be had on a day among the findings; today unless said."""
    if proof.reading.recipe is None or not proof.reading.whole:
        return proof
    found = check_sold(proof.reading.recipe, day or date.today())
    return replace(proof, findings=in_order(tuple(dict.fromkeys((*proof.findings, *found)))))


def with_study(proof: Proof, known: "Study | None" = None) -> tuple[Proof, "Study | None"]:
    """How far a class may be off and what comes of it, with what that gives among the findings; a second or so.

    `known` is the card's study where it has been made already.
    """
    from foldproof.tolerance.study import study
    from foldproof.tolerance.telling import tolerance_findings

    if not proof.sound or proof.card is None or proof.making is None:
        return proof, None
    studied = known or study(proof.card, proof.making)
    found = tolerance_findings(proof.card, studied)
    return replace(proof, findings=in_order(tuple(dict.fromkeys((*proof.findings, *found))))), studied


def with_class_plan(proof: Proof, options: Options = Options()) -> tuple[Proof, "ClassPlan | None"]:
    """The plan of a class where the recipe says how many people come, and what it found among the findings.

    What is wrong with the teacher's own files is among them, too.
    """
    from foldproof.classroom.class_plan import plan_class
    from foldproof.classroom.lesson import Lesson, Wanted
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


def documents(
    proof: Proof, options: Options, class_plan: "ClassPlan | None" = None, studied: "Study | None" = None,
) -> Mapping[str, bytes]:
    """The set of outputs of a sound proof by relative path, read back and found to agree."""
    from foldproof.documents import handout, page
    from foldproof.documents.both_units import told_in
    from foldproof.documents.care import with_care
    from foldproof.documents.class_plan import class_set
    from foldproof.documents.drawings import draw
    from foldproof.documents.facts_file import facts_file
    from foldproof.documents.hush import hushed
    from foldproof.documents.left_hand import for_left_hands
    from foldproof.documents.opening_picture import opening_files, with_opening
    from foldproof.documents.paste_in import paste_in_files
    from foldproof.documents.readback import audit
    from foldproof.documents.recording import film_files, with_film
    from foldproof.documents.revision import revision
    from foldproof.documents.shots import cues_pdf, shots_csv, shots_pdf
    from foldproof.documents.structured import structured
    from foldproof.documents.telling import tell
    from foldproof.documents.template_contract import foreign
    from foldproof.documents.template_readback import audit_templates
    from foldproof.documents.template_sheets import template_files, template_pdf
    from foldproof.documents.theme_chosen import chosen
    from foldproof.documents.trouble import AuditError
    from foldproof.drawing.opening import draw_opening
    from foldproof.drawing.true_size import template_svg
    from foldproof.filming.plan import plan_film
    from foldproof.tolerance.study import study

    assert proof.card is not None and proof.making is not None
    card, making = proof.card, proof.making
    theme = chosen(options.theme, card.recipe, Path(proof.file).parent)
    film = plan_film(card, making)
    with hushed():
        view = tell(
            card, making, drawn=draw(card, making, film, handout.STYLE, page.STYLE), film=film, photos=proof.photos,
            revision=revision(_text_of(proof, options), theme.files.items(), __version__), version=__version__,
            dated=options.dated,
        )
        opening = draw_opening(card)
        view = with_opening(view, opening)
        view = with_care(view, card, studied or study(card, making))
        view = told_in(view, options.measures)
        view = for_left_hands(view, making) if options.left_handed else view
        handouts = handout.handouts(view, card, making, (*card.recipe.handouts, *options.handouts))
        files = {one.file: one.pdf(theme) for one in handouts}
        files |= {"shots.pdf": shots_pdf(view, theme), "shots.csv": shots_csv(view).encode()}
        files |= {"cues.pdf": cues_pdf(view, theme)}
        if proof.film is not None:
            view = with_film(view, proof.film)
            files |= film_files(view, proof.film)
        data = structured(view, card.recipe, proof.film)
        files |= {"page.html": page.page(view, theme, data).encode(), **page.pictures(view), **opening_files(opening)}
        files |= {file: template_pdf(card, view, theme, paper) for paper, file in template_files(view.unit).items()}
        files["template.svg"] = template_svg(card).encode()
        files |= paste_in_files(view, theme, files)
        if class_plan is not None:
            files |= class_set(class_plan, theme, tuple(proof.reading.texts.values()), __version__, options.dated)
        files["card.json"] = facts_file(card, making, proof.findings, view, files).encode()
        strange = (f"page.html: {found}" for found in foreign(files["page.html"].decode(), theme.scripts))
        problems = tuple(map(theme.blamed, (*audit(view, files, handouts), *audit_templates(card, files), *strange)))
    if problems:
        more = f"; and {len(problems) - TOLD} more" if len(problems) > TOLD else ""
        raise AuditError(f"the finished documents disagree with the card: {'; '.join(problems[:TOLD])}{more}")
    return files


def _text_of(proof: Proof, options: Options) -> str:
    """What the revision is a digest of: the recipe's text, and which edition it is."""
    return "".join((
        *proof.reading.texts.values(), "\n# mirrored\n" if options.mirrored else "",
        "\n# left-handed\n" if options.left_handed else "",
        f"\n# measures: {options.measures}\n" if options.measures else ""))
