"""YAML text to a typed recipe with everything that is wrong in it."""

from collections.abc import Callable, Iterable
from collections.abc import Mapping as MappingOf
from dataclasses import field, replace
from functools import partial
from pathlib import Path

from foldproof.findings.finding import Finding, Place, Severity, has_errors
from foldproof.frozen import dataclass
from foldproof.measures.named import resolve_measures
from foldproof.measures.quantity import Quantity, Unit
from foldproof.recipe import (
    reading_actions,
    reading_class,
    reading_cuts,
    reading_editions,
    reading_film,
    reading_plan,
    reading_poses,
    reading_steps,
)
from foldproof.recipe.class_records import ClassSpec
from foldproof.recipe.desk import Builder, Desk, Fields, Given, Item
from foldproof.recipe.edition_records import OtherSizes
from foldproof.recipe.film_records import FilmSpec
from foldproof.recipe.keys import RECIPE
from foldproof.recipe.kinds import Naming
from foldproof.recipe.looks import is_look, laid_over
from foldproof.recipe.names import settle
from foldproof.recipe.naming import use
from foldproof.recipe.nodes import Mapping, Scalar
from foldproof.recipe.opening import open_text, read_source
from foldproof.recipe.pictures import inside_folder, picture, theme
from foldproof.recipe.records import (
    JoinSpec,
    LayerSpec,
    MeasureSpec,
    PaperSpec,
    PieceSpec,
    PoseSpec,
    Recipe,
    SlideSpec,
    StepSpec,
    SupplySpec,
    Text,
    ToolSpec,
)
from foldproof.recipe.walker import read_fields

BUILDERS: dict[str, Builder] = {
    **reading_plan.BUILDERS,
    **reading_cuts.BUILDERS,
    **reading_poses.BUILDERS,
    **reading_actions.BUILDERS,
    **reading_steps.BUILDERS,
    **reading_class.BUILDERS,
    **reading_film.BUILDERS,
    **reading_editions.BUILDERS,
}


MOST_SCORES = 200
MOST_MEASURES = 200
MOST_FINDINGS = 200
"""Mistakes that are told one by one; a text with more is no recipe yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a recipe's text came to."""

    recipe: Recipe | None
    """None where so much is missing that nothing can be reckoned from it."""
    findings: tuple[Finding, ...]
    """In the order of the text."""
    source: str
    """The text, its line ends made one kind; empty where there is none."""
    texts: MappingOf[str, str] = field(default_factory=dict)
    """The text of every file that was read for it, this one's too, by the file's name; places point into them."""
    whole: bool
    """Whether the recipe is all that the author wrote. A part that is broken is left out with all that leans on it, and
    text that is no YAML is mended by guess, so what a later stage finds in a recipe that is not whole may be no fault
    of its author's."""


ReadBeside = Callable[[str], tuple[str | None, tuple[Finding, ...]]]
"""The text of a file by its name, or the findings that say why it cannot be had."""


def read_file(path: Path) -> Reading:
    """Read a recipe's file. What is wrong with the file itself is a finding, too."""
    text, findings = read_source(path, str(path))
    if text is None:
        return Reading(recipe=None, findings=findings, source="", whole=False)
    return read_text(text, str(path), lambda file: read_source(Path(file), file))


def _nothing_beside(file: str) -> tuple[None, tuple[Finding, ...]]:
    message = f"{file} cannot be had: only a recipe's file can build on another."
    return None, (Finding(name="file missing", severity=Severity.ERROR, message=message),)


def read_text(text: str, file: str, read_beside: ReadBeside = _nothing_beside) -> Reading:
    """Read a recipe's text; `file` is the file as the author named it.

    `read_beside` gives the text of the recipe that a look builds on.
    """
    source, root, findings = open_text(text, file)
    if root is None:
        return Reading(recipe=None, findings=_in_order(findings), source=source, whole=False, texts={file: source})
    texts = {file: source}
    desk = Desk(file=file, unit=_unit(root), builders=BUILDERS, findings=list(findings), texts=texts)
    misread = has_errors(findings)
    if is_look(root):
        root = laid_over(root, partial(_open_beside, read_beside=read_beside, texts=texts, desk=desk), desk)
        if root is None:
            return Reading(recipe=None, findings=_in_order(desk.findings), source=source, whole=False, texts=texts)
        desk.unit, misread = _unit(root), has_errors(tuple(desk.findings))
    rest = _read_measures(root, desk)
    fields, _ = read_fields(rest, RECIPE, desk)
    _use_closed(fields, desk)
    _count_scores(fields, desk)
    steps = reading_steps.with_ids(fields.get("steps", tuple) or (), desk)
    reading_film.check_shots(_steps(steps), desk)
    left_out = settle(desk)
    recipe = _recipe(_sift({**fields.values, "steps": steps}, left_out, fields), desk)
    misread = misread or bool(desk.lacking or left_out or desk.unreadable)
    whole = recipe is not None and not misread
    return Reading(recipe=recipe, findings=_in_order(desk.findings), source=source, whole=whole, texts=texts)


def _open_beside(
    named: Scalar, read_beside: ReadBeside, texts: dict[str, str], desk: Desk,
) -> tuple[Mapping | None, tuple[Finding, ...]]:
    """The recipe that a look names, which lies in the look's folder or in a folder in it."""
    path = inside_folder(named.text, named.place, "recipe", desk)
    if path is None:
        return None, ()
    text, findings = read_beside(path)
    if text is None:
        return None, tuple(replace(finding, place=finding.place or named.place) for finding in findings)
    texts[path], root, more = open_text(text, path)
    return root, (*findings, *more)


def _unit(root: Mapping) -> Unit:
    """The recipe's unit, seen before anything is measured; a wrong word is reported when its key is read."""
    node = root.value("unit")
    return Unit(node.text) if isinstance(node, Scalar) and node.text in set(Unit) else Unit.INCH


def _read_measures(root: Mapping, desk: Desk) -> Mapping:
    """Read the measures, which everything else may use; gives back the recipe without those that are read."""
    node = root.value("measures")
    if not isinstance(node, Mapping):
        return root
    if len(node.entries) > MOST_MEASURES:
        desk.unreadable = frozenset(entry.key.text for entry in node.entries)
        return root
    entries, odd = [], []
    for entry in node.entries:
        if isinstance(entry.value, Scalar) and entry.value.style == "*":
            continue  # a copy: reported where the text was composed
        if isinstance(entry.value, Scalar):
            entries.append((entry.key.text, entry.key.place, entry.value.text, entry.value.place))
        else:
            odd.append(entry)
    desk.measures, findings = resolve_measures(entries, desk.unit)
    desk.findings.extend(findings)
    desk.given.extend(
        Given(naming=Naming.MEASURE, name=Text(value=name, place=place), owner=None) for name, place, _, _ in entries)
    desk.measure_places = {name: place for name, place, _, _ in reversed(entries)}
    desk.unreadable = frozenset(entry.key.text for entry in node.entries) - desk.measures.keys()
    left = replace(node, entries=tuple(odd))
    return replace(
        root,
        entries=tuple(replace(entry, value=left) if entry.key.text == "measures" else entry for entry in root.entries),
    )


def _steps(items: Iterable[object]) -> tuple[StepSpec, ...]:
    """The steps that could be read."""
    return tuple(item.value for item in items if isinstance(item, Item) and isinstance(item.value, StepSpec))


def _use_closed(fields: Fields, desk: Desk) -> None:
    """The finished card is in the pose `closed` where the recipe names no other, so there must be such a pose."""
    promised = fields.get("finished", Fields)
    if promised is not None and "pose" not in promised.values and "poses" in fields.values:
        use(Scalar(text="closed", style=None, place=promised.place), (Naming.POSE,), (), desk)


def _count_scores(fields: Fields, desk: Desk) -> None:
    count = sum(given.naming is Naming.SCORE for given in desk.given)
    if count > MOST_SCORES:
        desk.error("too many", f"The pieces have {count} scores; {MOST_SCORES} are the most that may be.", fields.place)
        desk.lacking = True


def _sift(values: dict[str, object], left_out: frozenset[int], fields: Fields) -> Fields:
    """Without the items that are to be left out, also within what is promised of the finished card."""
    sifted: dict[str, object] = {}
    for key, value in values.items():
        if isinstance(value, tuple):
            value = tuple(part for part in value if not (isinstance(part, Item) and part.owner in left_out))
        elif isinstance(value, Fields):
            value = _sift(dict(value.values), left_out, value)
        sifted[key] = value
    return Fields(form=fields.form, place=fields.place, values=sifted)


def _recipe(fields: Fields, desk: Desk) -> Recipe | None:
    """The recipe of what was read; None without a piece, a pose or a finished size to reckon with."""
    poses = fields.several("poses", PoseSpec)
    promised = fields.get("finished", Fields)
    known = frozenset(pose.name.value for pose in poses)
    finished = reading_poses.finished(promised, known) if promised else None
    pieces = fields.several("pieces", PieceSpec)
    if finished is None or not pieces or not poses:
        return None
    title = fields.get("title", Text) or Text(value=Path(desk.file).stem, place=fields.place)
    language = fields.get("language", Text)
    return Recipe(
        file=desk.file,
        name=Path(desk.file).stem,
        title=title,
        summary=fields.get("summary", Text),
        skill=fields.get("skill", Text),
        unit=desk.unit,
        language=language.value if language else "en-US" if desk.unit is Unit.INCH else "en",
        measures=tuple(
            MeasureSpec(name=Text(value=name, place=desk.measure_places[name]), value=value)
            for name, value in desk.measures.items()
        ),
        papers=fields.several("papers", PaperSpec),
        pieces=pieces,
        joins=fields.several("joins", JoinSpec),
        layers=fields.several("layers", LayerSpec),
        poses=poses,
        opening=fields.several("opening", Text),
        finished=finished,
        supplies=fields.several("supplies", SupplySpec),
        tools=fields.several("tools", ToolSpec),
        steps=fields.several("steps", StepSpec),
        picture=picture(fields.get("picture", Text), desk),
        place=fields.place,
        class_part=fields.get("class", ClassSpec),
        filming=fields.get("filming", FilmSpec),
        slides=fields.several("slides", SlideSpec),
        tolerance=fields.get("tolerance", Quantity),
        picture_shows=fields.get("picture shows", Text),
        published=fields.get("published", Text),
        theme=theme(fields.get("theme", Text), desk),
        handouts=fields.several("handouts", str),
        texts=desk.texts,
        metric=fields.get("metric", OtherSizes),
        inches=fields.get("inches", OtherSizes),
    )


def _in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """In the order of the text, each once; of very many only the first."""
    top = Place(file="", line=0, column=0)
    ordered = tuple(dict.fromkeys(sorted(findings, key=lambda finding: (finding.place or top).line)))
    if len(ordered) <= MOST_FINDINGS:
        return ordered
    more = Finding(
        name="too many",
        severity=Severity.ERROR,
        message=f"There are {len(ordered) - MOST_FINDINGS:,} more mistakes below; mend these first.",
        place=ordered[MOST_FINDINGS].place,
    )
    return (*ordered[:MOST_FINDINGS], more)
