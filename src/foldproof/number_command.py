"""The number command: where a number of a card comes from, and every place where it is used."""

import argparse
import csv
import io
import json
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path

from foldproof import __version__
from foldproof.bounded import MOST_DOCUMENT, read_json, read_within
from foldproof.documents.numerals import numbers
from foldproof.findings.finding import Finding, Place
from foldproof.measures.quantity import Kind, Quantity
from foldproof.measures.reading import read_quantity
from foldproof.measures.writing import with_unit
from foldproof.origins.uses import Sought, Use, Where, leaning_on, quantities_of, uses_in_card, uses_in_recipe
from foldproof.pipeline import Proof, prove
from foldproof.recipe.records import Recipe
from foldproof.recipe.references import write
from foldproof.shell import folder_below, show_findings

FOUND, NOT_FOUND, WRONG_CALL = 0, 1, 2
NEAREST = 3
"""How many of the nearest numbers are told when there is none like the one looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """How often a number stands in a part of a finished document."""

    file: str
    part: str
    """`sheet 2`, `step 3`, `shot 2a, say`."""
    times: int


def add_number_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "number", help="tell where a number comes from and where it is used",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Tell where a number of a card comes from, and every place where it is used: measures, plan,\n"
        "steps, pictures, sentences, and the documents when the card has been built.",
        epilog='examples:\n  foldproof number recipes/tide-gate.yaml "2 1/8"\n'
        '  foldproof number recipes/tide-gate.yaml "54 mm"\n  foldproof number recipes/tide-gate.yaml "5 min"\n\n'
        "exit status: 0 when it is found, 1 when it is not, 2 for a wrong call")
    command.add_argument("recipe", type=Path, metavar="RECIPE", help="the card")
    command.add_argument("number", metavar="NUMBER", help="a length (in the recipe's unit without one), time or angle")
    command.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    command.add_argument("--json", action="store_true", help="print the places as one JSON value")


def run_number(called: argparse.Namespace) -> int:
    """Look the number up and print where it stands."""
    proof = prove(called.recipe)
    recipe = proof.reading.recipe
    if recipe is None:
        show_findings(proof.findings, proof.reading.texts)
        return NOT_FOUND
    read = read_quantity(
        called.number, place=Place(file="the number", line=1, column=1, length=max(1, len(called.number))), kind=None,
        unit=recipe.unit, names={measure.name.value: measure.value for measure in recipe.measures})
    if isinstance(read, Finding):
        mend = f" {read.mend}" if read.mend else ""
        print(f"foldproof number: {read.message}{mend}", file=sys.stderr)
        return WRONG_CALL
    sought = Sought(value=read.value, kind=read.kind)
    uses = uses_in_recipe(recipe, sought)
    if proof.card is not None and proof.making is not None:
        uses = (*uses, *uses_in_card(proof.card, proof.making, sought))
    into = called.into / folder_below(called.recipe)
    leaning = leaning_on(recipe, sought)
    printed = tuple(in_documents(into / recipe.name, sought)) if uses else ()
    if called.json:
        print(json.dumps({
            "number": str(read.value), "kind": read.kind.value, "unit": recipe.unit.value,
            "uses": [asdict(use) for use in uses], "leaning": [asdict(use) for use in leaning],
            "printed": [asdict(part) for part in printed],
        }, indent=1, ensure_ascii=False))
    else:
        print("\n".join(_told(proof, recipe, read, uses, leaning, printed, into)))
    return FOUND if uses else NOT_FOUND


def in_documents(folder: Path, sought: Sought) -> Iterator[Printed]:
    """The parts of a built card's documents in which the number stands in figures, as their readers find it."""
    if sought.kind is not Kind.LENGTH or not (folder / "card.json").is_file():
        return
    readers = (("*.pdf", _sheets), ("page.html", _page), ("shots.csv", _shots))
    for path, reader in ((path, reader) for pattern, reader in readers for path in sorted(folder.glob(pattern))):
        try:
            said = tuple(reader(read_within(path, MOST_DOCUMENT)))
        except (OSError, ValueError) as error:
            _left_out(path, error)
            continue
        for part, words in said:
            yield from _counted(path.name, part, words, sought)


def _left_out(path: Path, error: Exception) -> None:
    """Say that a file of a set, which somebody may have changed, is not what was built."""
    why = error.strerror if isinstance(error, OSError) and error.strerror else "it is not as it was built"
    print(f"foldproof number: {path} is left out: {why}", file=sys.stderr)


def _sheets(data: bytes) -> Iterator[tuple[str, str]]:
    """What stands on each sheet of a PDF. Raises ValueError where it is none of ours."""
    from pikepdf import PdfError

    from foldproof.documents.pdf_text import read_pdf

    try:
        told = read_pdf(data)
    except (PdfError, RuntimeError, KeyError, TypeError, AttributeError, IndexError) as error:
        raise ValueError("no PDF of ours") from error
    for sheet in range(1, len(told.sheets) + 1):
        yield f"sheet {sheet}", "\n".join(
            part.text for part in told.said if part.sheet == sheet and part.tag != "Figure")


def _page(data: bytes) -> Iterator[tuple[str, str]]:
    reader = _Words()
    reader.feed(data.decode("utf-8"))
    yield "the page", " ".join("".join(reader.said).split())


def _shots(data: bytes) -> Iterator[tuple[str, str]]:
    """The cells of the shot list. Raises ValueError where it is no table."""
    try:
        for row in csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")):
            for column, text in row.items():
                yield f"shot {row.get('shot', '?')}, {column}", text if isinstance(text, str) else ""
    except csv.Error as error:
        raise ValueError("no table") from error


def _counted(file: str, part: str, text: str, sought: Sought) -> Iterator[Printed]:
    times = sum(number == abs(sought.value) for number in numbers(text))
    if times:
        yield Printed(file=file, part=part, times=times)


class _Words(HTMLParser):
    """What a page says, styles and scripts left out."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.said: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._silent += tag in ("style", "script")
        self.said.append(" ")

    def handle_endtag(self, tag: str) -> None:
        self._silent -= tag in ("style", "script")
        self.said.append(" ")

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.said.append(data)


def _told(
    proof: Proof, recipe: Recipe, read: Quantity, uses: Sequence[Use], leaning: Sequence[Use],
    printed: Sequence[Printed], into: Path,
) -> Iterator[str]:
    measures = {measure.name.value: measure.value for measure in recipe.measures}
    shown = _shown(read, recipe)
    if not uses:
        yield f"{shown} stands nowhere in {recipe.file}."
        near = _nearest(recipe, read)
        if near:
            yield f"The nearest are {', '.join(near)}."
        return
    yield f"{recipe.title}: {shown}"
    for where in Where:
        group = [use for use in uses if use.where is where]
        if group:
            yield from ("", f"{where.value[0].upper()}{where.value[1:]}")
            for use in group:
                yield from _lines(use, measures, recipe)
    if leaning:
        yield from ("", "Other numbers that change with it")
        for use in leaning:
            yield from _lines(use, measures, recipe)
    if printed:
        yield from ("", f"In the documents of {into / recipe.name}")
        yield from (f"  {part.file}, {part.part}: {_times(part.times)}" for part in printed)
        if _stale(proof, into / recipe.name):
            yield "  The recipe has changed since they were built."
    elif read.kind is Kind.LENGTH:
        yield from ("", f"No documents of it in {into}: build the card to see on which sheets it stands.")


def _lines(use: Use, measures: Mapping[str, Quantity], recipe: Recipe) -> Iterator[str]:
    spot = f"line {use.place.line}: " if use.place is not None else ""
    reckoned = f" = {use.written}" if use.because else ""
    comes_to = f" = {use.comes_to}" if use.comes_to else ""
    yield f"  {spot}{use.what}{reckoned}{comes_to}"
    for name in use.because:
        measure = measures[name]
        how = f" = {measure.written}" if measure.names else ""
        yield f"      {name}{how} = {write(measure, recipe.unit)}, line {measure.place.line}"


def _shown(read: Quantity, recipe: Recipe) -> str:
    return with_unit(read.value, recipe.unit) if read.kind is Kind.LENGTH else read.written.strip()


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _nearest(recipe: Recipe, read: Quantity) -> tuple[str, ...]:
    others: dict[Fraction, str] = {}
    for quantity in quantities_of(recipe):
        if quantity.kind is read.kind:
            others.setdefault(abs(quantity.value), _shown(quantity, recipe))
    close = sorted(others, key=lambda value: abs(value - abs(read.value)))[:NEAREST]
    return tuple(f"{_shown(read, recipe) if value == read.value else _of(value, read, recipe)}" for value in close)


def _of(value: Fraction, read: Quantity, recipe: Recipe) -> str:
    if read.kind is Kind.LENGTH:
        return with_unit(value, recipe.unit)
    return f"{value} {'s' if read.kind is Kind.TIME else 'degrees' if read.kind is Kind.ANGLE else ''}".strip()


def _stale(proof: Proof, folder: Path) -> bool:
    """Whether the documents come from another text, theme or program."""
    from foldproof.documents.revision import revision
    from foldproof.documents.theme import load_theme
    from foldproof.documents.theme_chosen import chosen
    from foldproof.documents.theme_folders import theme_names

    try:
        built = read_json(folder / "card.json")["revision"]
    except (OSError, ValueError, KeyError, TypeError) as error:
        _left_out(folder / "card.json", error)
        return False
    text = "".join(proof.reading.texts.values())
    themes = [load_theme(name) for name in theme_names()]
    if proof.reading.recipe is not None:
        themes.append(chosen("", proof.reading.recipe, Path(proof.file).parent))
    return built not in {revision(text, theme.files.items(), __version__) for theme in themes}
