"""The handout: what a class cuts and folds from, on letter or A4 paper, in the editions that are asked for."""

from markupsafe import Markup

from foldproof.documents.cutting import FRAMES
from foldproof.documents.handout_editions import REGULAR, WIDTH_MM, Edition
from foldproof.documents.handout_room import setting
from foldproof.documents.printing import FONT_RULES, materials, to_pdf, unbroken
from foldproof.documents.theme import Theme
from foldproof.documents.view import View
from foldproof.drawing.record import Drawing
from foldproof.measures.quantity import Unit

SHEETS = {"letter": "letter", "a4": "A4"}
"""Papers by the name that a file carries, with CSS's name for them."""
STYLE = REGULAR.style


def own_paper(unit: Unit) -> str:
    """The paper of the handout that carries no paper's name: letter for inch recipes, A4 for metric ones."""
    return "letter" if unit is Unit.INCH else "a4"


def file_names(unit: Unit, edition: Edition = REGULAR) -> dict[str, str]:
    """The papers, each with its file's name: `handout.pdf` is the recipe's own, the other names its paper."""
    return {
        paper: f"handout{edition.suffix}{'' if paper == own_paper(unit) else f'-{paper}'}.pdf" for paper in SHEETS}


def handout_html(view: View, theme: Theme, paper: str, edition: Edition = REGULAR) -> str:
    """The handout before it is printed; the view's drawings are those of the edition."""
    foot = f'font: {max(edition.least_pt, 8.5):.1f}pt "Source Sans Pro"; color: {"#000" if edition.one_ink else "#5c5148"};'
    sheet = (
        f"html {{ font-size: {edition.body_pt}pt; }} @page {{ size: {SHEETS[paper]};"
        f" @bottom-left {{ {foot} }} @bottom-center {{ {foot} }}"
        f' @bottom-right {{ content: "{view.stamp}"; {foot} }} }}')
    css = Markup("\n".join((FONT_RULES, theme.text("handout.css"), sheet)))
    return unbroken(theme.render(
        "handout.html", view=view, css=css, frames=FRAMES, edition=edition, wide_mm=WIDTH_MM,
        settings={step.id: setting(step, edition, _on_paper(step.drawing, edition)) for step in view.steps}))


def _on_paper(drawing: Drawing | None, edition: Edition) -> tuple[float, float] | None:
    return (drawing.width_mm * edition.enlarged, drawing.height_mm * edition.enlarged) if drawing else None


def handout(view: View, theme: Theme, paper: str, edition: Edition = REGULAR) -> bytes:
    """The handout as a PDF."""
    return to_pdf(handout_html(view, theme, paper, edition), materials(view))
