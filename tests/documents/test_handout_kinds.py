"""The editions of the handout, printed and read back.

Large print: APH calls 18 points and up large; the US library standard (NAVH / NLS) asks for at least 14 points,
preferably 18; guidance after RNIB 16 to 22 (all three read on secondary pages).
"""

import io
import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from foldproof.documents.handout import Handout, handouts
from foldproof.documents.handout_kinds import EXTRA
from foldproof.documents.pdf_marks import marks_of
from foldproof.documents.pdf_text import read_pdf
from foldproof.documents.readback import audit_handout, too_small
from foldproof.documents.theme import Theme
from foldproof.documents.view import View
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.options import Options
from foldproof.pipeline import documents, prove, with_study
from foldproof.recipe.keys import HANDOUTS

RECIPES = Path(__file__).parents[2] / "recipes"
Made = Mapping[str, tuple[Handout, bytes]]


@pytest.fixture(scope="module")
def made(view: View, card: Card, making: Making, plain_theme: Theme) -> Made:
    """Each kind on letter paper, by its name."""
    return {
        one.edition.name: (one, one.pdf(plain_theme))
        for one in handouts(view, card, making, EXTRA) if one.paper == "letter"}


def sizes(data: bytes) -> list[float]:
    """The size in points of every piece of text, as it stands on paper."""
    return [size for sheet in marks_of(data) for size, _, _ in sheet.letters]


@pytest.mark.parametrize("name", ["", "large print", "one ink", "compact"])
def test_every_kind_says_what_its_view_says(made: Made, name: str) -> None:
    one, data = made[name]
    assert list(audit_handout(one.view, read_pdf(data), one.edition)) == []
    wrong = replace(one.view, steps=(
        replace(one.view.steps[0], short=("Score 4 3/16 in from the stop",)), *one.view.steps[1:]))
    assert any("4 3/16" in told for told in audit_handout(wrong, read_pdf(data), one.edition))


def test_without_being_asked_for_there_is_only_the_usual_kind(view: View, card: Card, making: Making) -> None:
    assert [one.file for one in handouts(view, card, making)] == ["handout.pdf", "handout-a4.pdf"]
    assert {one.file for one in handouts(view, card, making, ["large-print"])} == {
        "handout.pdf", "handout-a4.pdf", "handout-large-print.pdf", "handout-large-print-a4.pdf"}


@pytest.mark.parametrize("name", ["", "large print", "one ink", "compact"])
def test_nothing_is_set_smaller_than_the_edition_allows(made: Made, name: str) -> None:
    one, data = made[name]
    found = sizes(data)
    assert len(found) > 40
    assert min(found) >= one.edition.least_pt - 0.02
    assert list(too_small(marks_of(data), one.edition.least_pt)) == []
    assert any("text of" in told for told in too_small(marks_of(data), one.edition.least_pt + 0.5))


def test_a_recipe_can_ask_for_the_kinds_that_are_always_made(recipe_file: Path) -> None:
    assert set(HANDOUTS) == set(EXTRA)
    plain = recipe_file.read_text(encoding="utf-8")
    recipe_file.write_text(f"handouts: [large-print, compact]\n{plain}", encoding="utf-8")
    recipe = prove(recipe_file).reading.recipe
    assert recipe is not None and recipe.handouts == ("large-print", "compact")
    recipe_file.write_text(f"handouts: huge\n{plain}", encoding="utf-8")
    found = [one for one in prove(recipe_file).findings if one.place and one.place.line == 1]
    assert len(found) == 1 and "huge" in found[0].message


@pytest.mark.parametrize("name", ["tide-gate", "lee-shore"])
def test_in_large_print_a_step_or_a_row_that_goes_overleaf_goes_there_whole(name: str) -> None:
    """Their steps and their cutting table fill sheets to the end; a printer may leave words behind at such a break.

    What is made is audited: this raises where a handout says what the card does not.
    """
    proof, studied = with_study(prove(RECIPES / f"{name}.yaml"))
    assert "handout-large-print.pdf" in documents(proof, Options(handouts=("large-print",)), studied=studied)


def test_large_print_runs_in_18_points(made: Made) -> None:
    one, data = made["large print"]
    assert one.edition.body_pt == 18.0
    assert sum(size >= 17.9 for size in sizes(data)) > 0.5 * len(sizes(data))


def test_one_ink_is_black_and_white_and_nothing_between(made: Made) -> None:
    """Greys and colours in the pages' own ink, and in the drawings: every operand of rg, RG, g, G is 0 or 1."""
    _, data = made["one ink"]
    tones: set[float] = set()
    for sheet in PdfReader(io.BytesIO(data)).pages:
        content = sheet.get_contents()
        assert content is not None
        for triple in re.findall(rb"([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG)\b", content.get_data()):
            tones |= {float(part) for part in triple}
        tones |= {float(tone) for tone in re.findall(rb"([\d.]+) (?:g|G)\b", content.get_data())}
    assert tones
    assert tones <= {0.0, 1.0}


def test_the_compact_card_is_half_a_sheet_and_keeps_cuts_scores_and_cautions(made: Made) -> None:
    _, data = made["compact"]
    pages = PdfReader(io.BytesIO(data)).pages
    for page in pages:
        assert [float(page.mediabox.width), float(page.mediabox.height)] == pytest.approx([396, 612], abs=0.5)
    assert len(pages) <= 2
    text = read_pdf(data).text
    assert "Score 4 1/4 in from the stop" in text
    assert "Keep glue off the cloth." in text
    assert "twice" not in text


def test_a_check_stands_before_the_first_glue(made: Made) -> None:
    """The cover's front is up when the mat is glued on; forgotten or turned over, its back is."""
    one, data = made[""]
    (step,) = [step for step in one.view.steps if step.check]
    assert step.id == "mat"
    assert step.check is not None
    assert "The front of the base is up" in step.check.drawing.alt
    assert "with the back of the base up" in step.check.drawing.alt
    told = read_pdf(data)
    assert step.check.drawing.alt in told.figures
    assert step.check.mend in told.text
    gone = replace(one.view, steps=tuple(
        replace(s, check=replace(s.check, mend="Turn it 3 times.")) if s.check else s for s in one.view.steps))
    assert any("Turn it 3 times" in problem for problem in audit_handout(gone, told))
