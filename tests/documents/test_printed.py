"""The finished files: what they say, read back, and what they ask for. PDFs are compared by what they say."""

import csv
import io
import math
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any, cast

import pytest
from pypdf import PdfReader

from foldproof.documents import handout, page, shots
from foldproof.documents.pdf_text import read_pdf
from foldproof.documents.printing import materials, to_pdf
from foldproof.documents.readback import audit, audit_handout
from foldproof.documents.theme import Theme
from foldproof.documents.trouble import ThemeError
from foldproof.documents.view import View
from foldproof.recording import cells


def test_the_set_is_complete(files: Mapping[str, bytes]) -> None:
    whole = {"handout.pdf", "handout-a4.pdf", "template.pdf", "template-a4.pdf", "template.svg", "page.html",
             "shots.pdf", "shots.csv", "cues.pdf", "card.json", "opening.webp", "paste-in.html",
             "paste-in-uploads.txt"}
    assert whole <= set(files)
    assert {name.split("/")[0] for name in files} == {*whole, "pictures"}


@pytest.mark.parametrize(("name", "size"), [
    pytest.param("handout.pdf", (8.5, 11), id="letter"),
    pytest.param("handout-a4.pdf", (210 / 25.4, 297 / 25.4), id="A4: ISO 216"),
    pytest.param("shots.pdf", (11, 8.5), id="sideways"),
    pytest.param("cues.pdf", (11, 8.5), id="cues sideways"),
])
def test_sheets(files: Mapping[str, bytes], name: str, size: tuple[float, float]) -> None:
    for sheet in PdfReader(io.BytesIO(files[name])).pages:
        assert float(sheet.mediabox.width) / 72 == pytest.approx(size[0], abs=0.005)
        assert float(sheet.mediabox.height) / 72 == pytest.approx(size[1], abs=0.005)


def test_metric_recipes_have_their_own_handout_on_a4() -> None:
    from foldproof.measures.quantity import Unit

    assert handout.file_names(Unit.MM) == {"letter": "handout-letter.pdf", "a4": "handout.pdf"}
    assert handout.file_names(Unit.INCH) == {"letter": "handout.pdf", "a4": "handout-a4.pdf"}


def test_copied_fractions_read_as_they_should(files: Mapping[str, bytes]) -> None:
    for name in ("handout.pdf", "shots.pdf"):
        text = " ".join("\n".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(files[name])).pages).split())
        assert "5 1/2 in" in text
        assert "8 1/2 × 5 1/2 in" in text
        assert "51/2" not in text
        assert "81/2" not in text


def test_the_pdf_is_tagged_titled_and_embedded(files: Mapping[str, bytes]) -> None:
    told = read_pdf(files["handout.pdf"])
    assert told.title == "=Quiet <card>: handout"
    assert told.language == "en-US"
    assert told.loose_fonts == ()
    assert [part.tag for part in told.said if part.tag.startswith("H")][:2] == ["H1", "H2"]
    root = cast(Any, PdfReader(io.BytesIO(files["handout.pdf"])).root_object)
    assert root["/MarkInfo"]["/Marked"].value is True
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()
    levels = [int(part.tag[1]) for part in told.said if re.fullmatch("H[1-6]", part.tag)]
    assert all(after <= before + 1 for before, after in pairwise(levels)), "ISO 14289-1, 7.4"


@pytest.mark.parametrize("name", ("handout.pdf", "shots.pdf", "cues.pdf"))
def test_another_reader_finds_the_same_letters_on_each_sheet(files: Mapping[str, bytes], name: str) -> None:
    """Words of drawings are in forms: the other reader takes them for text of the sheet, too. Cues have no drawings."""
    others = PdfReader(io.BytesIO(files[name])).pages
    sheets = read_pdf(files[name]).sheets
    assert len(sheets) == len(others)
    for sheet, other in zip(sheets, others, strict=True):
        letters = Counter("".join(sheet.split()))
        found = Counter("".join(other.extract_text().split()))
        assert letters.total() > 50
        assert letters == found if name == "cues.pdf" else letters <= found


def test_every_picture_has_words(files: Mapping[str, bytes]) -> None:
    figures = read_pdf(files["handout.pdf"]).figures
    assert len(figures) >= 5
    assert all(figures)


def test_the_same_input_makes_the_same_bytes(view: View, plain_theme: Theme) -> None:
    assert handout.handout(view, plain_theme, "letter") == handout.handout(view, plain_theme, "letter")
    assert page.page(view, plain_theme) == page.page(view, plain_theme)


def test_no_date_is_printed_without_being_asked_for(view: View, plain_theme: Theme) -> None:
    told = read_pdf(handout.handout(replace(view, dated=""), plain_theme, "letter"))
    assert not re.search(r"20\d\d-\d\d-\d\d", " ".join(told.sheets))
    dated = read_pdf(handout.handout(view, plain_theme, "letter"))
    assert all("revision 0123abcd, 2026-03-01" in sheet for sheet in dated.sheets)


def test_a_step_is_never_split(view: View, plain_theme: Theme) -> None:
    first = view.steps[0]
    many = replace(view, steps=tuple(
        replace(first, number=number, id=f"step-{number}", title=f"Step called {number}") for number in range(1, 9)))
    html = handout.handout_html(many, plain_theme, "letter")
    assert len(read_pdf(to_pdf(html, materials(many))).sheets) > 2
    assert not _split(many, to_pdf(html, materials(many)))
    broken = html.replace('<ul class="ticks short"', '<ul class="ticks short" id="x" ').replace(
        "</style>", ".step, .told { break-inside: auto; float: none } #x { break-before: page; float: none }</style>")
    assert _split(many, to_pdf(broken, materials(many))), "a step that goes on overleaf is noticed"


def _split(view: View, printed: bytes) -> list[str]:
    return [told for told in audit_handout(view, read_pdf(printed)) if "is split over the sheets" in told]


def test_the_printer_gives_out_own_names_only(plain_theme: Theme) -> None:
    for asked in ("file:///etc/passwd", "http://e.example/p.png", "foldproof:drawing/none.svg", "foldproof:font/../x"):
        with pytest.raises(ThemeError, match="no document holds"):
            to_pdf(f"<html lang=en><title>t</title><p>x</p><img alt=a src='{asked}'>", {})


def test_the_page_asks_for_nothing_outside(files: Mapping[str, bytes], plain_theme: Theme) -> None:
    text = files["page.html"].decode()
    data = text.count('<script type="application/ld+json">') + text.count('<script type="application/json">')
    scripts = re.findall(r"<script>(.*?)</script>", text, re.DOTALL)
    assert text.count("<script") == data + 2 == 4
    assert scripts == [plain_theme.text(name).rstrip() for name in ("opening.js", "page.js")]
    asks = r"fetch|XMLHttp|import|eval|WebSocket|EventSource|sendBeacon|Function"
    assert not any(re.search(asks, script) for script in scripts)
    asked = re.findall(r"""(?:src|href)=["']([^"']*)["']|url\(([^)]*)\)""", text)
    own = ("#steps", "handout.pdf", "handout-a4.pdf", "template.pdf", "template-a4.pdf")
    for address in (one or other for one, other in asked):
        assert address.startswith(("data:font/woff2", "data:image/")) or address in own
    assert "@import" not in text


def test_the_page_links_to_files_of_its_set(files: Mapping[str, bytes]) -> None:
    links = set(re.findall(r'href="([^"#]+)"', files["page.html"].decode()))
    assert links
    assert links <= set(files)


def test_the_pages_pictures_are_files_too(files: Mapping[str, bytes]) -> None:
    inside = files["page.html"].decode().count("<svg ")
    beside = {name for name in files if name.startswith("pictures/") and name.endswith(".svg")}
    assert inside == len(beside) > 4
    assert all(files[name].startswith(b"<svg ") for name in beside)
    dots = {name for name in files if name.startswith("pictures/")} - beside
    moving = {"pictures/opening.png"}
    assert dots == {f"{name.removesuffix('.svg')}.png" for name in beside} - moving | {"pictures/preview.png"}
    assert all(files[name].startswith(b"\x89PNG") for name in dots)


def test_ids_on_the_page_are_unique_and_stable(files: Mapping[str, bytes]) -> None:
    ids = re.findall(r'\sid="([^"]*)"', files["page.html"].decode())
    assert len(ids) == len(set(ids))
    assert {"base", "mat"} <= set(ids)


def test_csv_cells_are_never_formulas(view: View) -> None:
    rows = list(csv.reader(io.StringIO(shots.shots_csv(view), newline="")))
    assert rows[0] == list(shots.COLUMNS)
    assert [row[0] for row in rows[1:]] == ["1.base.a", "1.base.b", "2.mat.a", "2.mat.b"]
    assert rows[1][rows[0].index("say")] == "'=Score at four and a quarter inches."
    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for row in rows for cell in row)


@pytest.mark.parametrize(("cell", "guarded"), [
    ("=1+1", "'=1+1"), ("+1", "'+1"), ("-1", "'-1"), ("@x", "'@x"), ("\t=1", "'\t=1"), (" =1", "' =1"),
    ("\u00a0=1", "'\u00a0=1"), ("\uff1d1", "'\uff1d1"),
    ("1/8", "1/8"), ("", ""),
])
def test_guarding(cell: str, guarded: str) -> None:
    assert cells.guarded(cell) == guarded


def test_csv_lines_end_as_rfc_4180_says(view: View) -> None:
    text = shots.shots_csv(view)
    assert text.count("\r\n") == 5
    assert text.replace("\r\n", "").count("\n") == 0


def test_the_audit_is_content_with_the_set(view: View, plain_theme: Theme, made: Mapping[str, bytes]) -> None:
    assert audit(view, made) == ()


@pytest.fixture(scope="module")
def made(view: View, plain_theme: Theme) -> Mapping[str, bytes]:
    """A set made from the view with its stand-in drawings."""
    return {
        "handout.pdf": handout.handout(view, plain_theme, "letter"), "shots.pdf": shots.shots_pdf(view, plain_theme),
        "shots.csv": shots.shots_csv(view).encode(), "cues.pdf": shots.cues_pdf(view, plain_theme),
        "page.html": page.page(view, plain_theme).encode(),
    }


def with_step(view: View, **changes: object) -> View:
    return replace(view, steps=(replace(view.steps[0], **changes), *view.steps[1:]))  # type: ignore[arg-type]


def with_shot(view: View, **changes: object) -> View:
    first, *others = view.shooting.shots
    return replace(view, shooting=replace(view.shooting, shots=(replace(first, **changes), *others)))  # type: ignore[arg-type]


@pytest.mark.parametrize(("changes", "problem"), [
    pytest.param({"prose": "<p>Cut the base 8 1/2 x 5 9/16 in.</p>"}, "5 9/16", id="a sixteenth in the prose"),
    pytest.param({"short": ("Score 4 3/16 in from the stop",)}, "4 3/16", id="a sixteenth in a short line"),
    pytest.param({"title": "Another title"}, "Another title", id="a title"),
    pytest.param({"cautions": ("Mind the blade 3 times.",)}, "Mind the blade", id="a caution"),
    pytest.param({"time": "8 min"}, "8 min", id="a time"),
])
@pytest.mark.parametrize("file", ["handout.pdf", "page.html"])
def test_the_audit_sees_one_wrong_thing(
    view: View, made: Mapping[str, bytes], changes: dict[str, object], problem: str, file: str
) -> None:
    """The files say what the view said; the view held against them differs in one place."""
    problems = [told for told in audit(with_step(view, **changes), made) if told.startswith(file)]
    assert any(problem in told for told in problems), problems


@pytest.mark.parametrize("file", ["shots.pdf", "shots.csv"])
def test_the_audit_sees_a_wrong_number_in_the_shot_list(view: View, made: Mapping[str, bytes], file: str) -> None:
    problems = audit(with_shot(view, hands=("Score 4 3/16 in from the stop",)), made)
    assert any(told.startswith(file) and "4 3/16" in told for told in problems), problems


@pytest.mark.parametrize(("changes", "problem"), [
    pytest.param({"width": "9 in"}, "9 in", id="a frame's width"),
    pytest.param({"say": "Score at four inches."}, "four inches", id="a line"),
    pytest.param({"cautions": ("Mind the hot glue.",)}, "hot glue", id="a caution"),
    pytest.param({"key": "1.other"}, "1.other", id="a shot"),
])
def test_the_audit_sees_one_wrong_thing_in_the_shot_list(
    view: View, made: Mapping[str, bytes], changes: dict[str, object], problem: str,
) -> None:
    problems = [told for told in audit(with_shot(view, **changes), made) if told.startswith("shots.pdf")]
    assert any(problem in told for told in problems), problems


def test_the_audit_reads_the_numbers_out_of_what_is_spoken(view: View, made: Mapping[str, bytes]) -> None:
    """The cue sheet says four and a quarter; were the author's line another, they would not agree."""
    problems = audit(with_shot(view, line="Score at 4 1/8 in."), made)
    assert any(told.startswith("cues.pdf") and "says other lengths" in told for told in problems), problems


def test_the_cue_sheet_can_be_read_from_two_metres(files: Mapping[str, bytes]) -> None:
    """Capitals under at least 16 minutes of arc (ISO 9241-303, from memory); 0.66 of a point is a capital's height."""
    sizes: list[float] = []
    for sheet in PdfReader(io.BytesIO(files["cues.pdf"])).pages:
        sheet.extract_text(visitor_text=lambda text, cm, tm, font, size: sizes.append(
            abs(size * tm[3] * cm[3])) if len(text.split()) > 4 else None)
    lines = [size for size in sizes if size > 36]
    assert lines
    for size in lines:
        arc = math.degrees(math.atan(size * 0.66 * 25.4 / 72 / 2000)) * 60
        assert arc >= 15.9


def test_the_audit_sees_a_number_too_many(view: View, made: Mapping[str, bytes]) -> None:
    less = with_step(view, tip="")
    wrong = {**made, "page.html": made["page.html"].replace(b"Press <strong>twice", b"Press 7/8 <strong>twice")}
    assert any("it says 7/8 that the card does not" in told for told in audit(less, wrong))


def test_the_audit_sees_a_fraction_run_together(view: View, made: Mapping[str, bytes]) -> None:
    apart, together = b'5 <span class="fraction">1/2', b'5<span class="fraction">1/2'
    assert apart in made["page.html"]
    wrong = {**made, "page.html": made["page.html"].replace(apart, together)}
    assert any("25 1/2" in told for told in audit(view, wrong)), "51/2 is 25 1/2"


def test_the_audit_sees_a_missing_drawing_and_another_revision(view: View, made: Mapping[str, bytes]) -> None:
    other = with_step(view, drawing=replace(view.drawings[0], alt="Something else", name="else"))
    assert any("the drawing else is missing" in told for told in audit(other, made))
    problems = audit(replace(view, revision="ffffffff"), made)
    assert {told.split(":")[0] for told in problems} == {
        "handout.pdf", "page.html", "shots.pdf", "shots.csv", "cues.pdf"}
