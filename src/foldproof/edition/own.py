"""A recipe's own sizes in the other unit: what is wrong with them as they are written."""

from collections.abc import Iterator

from foldproof.edition.stock import sheet_size
from foldproof.facts.envelopes import find_envelope, unknown_envelope
from foldproof.facts.sheet_sizes import SHEET_SIZES
from foldproof.findings.finding import Finding, Severity
from foldproof.measures.quantity import Kind, Unit
from foldproof.recipe.edition_records import OtherSizes
from foldproof.recipe.records import Recipe


def own_size_faults(recipe: Recipe) -> tuple[Finding, ...]:
    """Sizes for the recipe's own unit, sheets and envelopes that are not known, values of what is no length."""
    inch = recipe.unit is Unit.INCH
    right, wrong, key = (recipe.metric, recipe.inches, "metric") if inch else (recipe.inches, recipe.metric, "inches")
    found = []
    if wrong is not None:
        found.append(Finding(
            name="sizes in the recipe's own unit", severity=Severity.ERROR, place=wrong.place,
            message=f"The recipe's unit is {recipe.unit.value}, so its plan has these sizes already.",
            mend=f"Write `{key}:` for the sizes of its other edition, or take them out."))
    return (*found, *(_faults(recipe, right) if right is not None else ()))


def _faults(recipe: Recipe, own: OtherSizes) -> Iterator[Finding]:
    measures = {one.name.value: one.value for one in recipe.measures}
    for name, value in own.measures:
        if name.value in measures and measures[name.value].kind is not Kind.LENGTH:
            yield Finding(
                name="not a length", severity=Severity.ERROR, place=value.place,
                message=f"`{name}` is no length in the plan, so it is the same in every unit.", mend="Take it out.")
    unit = Unit.MM if recipe.unit is Unit.INCH else Unit.INCH
    for _, text in own.papers:
        size = sheet_size(text, unit)
        if isinstance(size, Finding):
            yield size
        elif size is None:
            yield Finding(
                name="unknown sheet", severity=Severity.ERROR, place=text.place,
                message=f"`{text}` is no sheet that is known here.",
                mend=f"Write a size, such as 210 x 297 mm, or one of: {', '.join(one.name for one in SHEET_SIZES)}.")
    if own.envelope is not None and find_envelope(own.envelope.value) is None:
        yield unknown_envelope(own.envelope.value, own.envelope.place)
