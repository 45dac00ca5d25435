"""The handout: what a class cuts and folds from, on letter or A4 paper, in the editions that are asked for."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from foldproof.documents.cutting import FRAMES
from foldproof.documents.handout_drawings import with_drawings
from foldproof.documents.handout_kinds import EXTRA, REGULAR, Edition
from foldproof.documents.handout_room import setting
from foldproof.documents.palette import in_black
from foldproof.documents.printing import FONT_RULES, materials, to_pdf, unbroken
from foldproof.documents.theme import Theme
from foldproof.documents.view import View
from foldproof.drawing.record import Drawing
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit

SHEETS = {"letter": "letter", "a4": "A4"}
"""Papers by the name that a file carries, with CSS's name for them."""
HALF_SHEETS = {"letter": "5.5in 8.5in", "a4": "A5"}
"""Half of each: two to a sheet. A5 is half of A4 (ISO 216)."""
STYLE = REGULAR.style


def own_paper(unit: Unit) -> str:
    """The paper of the handout that carries no paper's name: letter for inch recipes, A4 for metric ones."""
    return "letter" if unit is Unit.INCH else "a4"


def file_names(unit: Unit, edition: Edition = REGULAR) -> dict[str, str]:
    """The papers, each with its file's name: `handout.pdf` is the recipe's own, the other names its paper."""
    return {
        paper: f"handout{edition.suffix}{'' if paper == own_paper(unit) else f'-{paper}'}.pdf" for paper in SHEETS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Handout:
    """One handout that is to be made."""

    file: str
    view: View
    """What it says, with its own drawings."""
    edition: Edition
    paper: str

    def pdf(self, theme: Theme) -> bytes:
        """The handout, printed."""
        return handout(self.view, theme, self.paper, self.edition)


def handouts(view: View, card: Card, making: Making, extra: Iterable[str] = ()) -> tuple[Handout, ...]:
    """The handouts of a set: the usual one and the extra editions, each on both papers."""
    return tuple(
        Handout(file=file, view=drawn, edition=edition, paper=paper)
        for edition in (REGULAR, *(EXTRA[name] for name in EXTRA if name in set(extra)))
        for drawn in (with_drawings(view, card, making, edition),)
        for paper, file in file_names(view.unit, edition).items())


def handout_html(view: View, theme: Theme, paper: str, edition: Edition = REGULAR) -> str:
    """The handout before it is printed; the view's drawings are those of the edition."""
    foot = f'font: {max(edition.least_pt, 8.5):.2f}pt "Source Sans Pro"; color: var(--soft);'
    size = HALF_SHEETS[paper] if edition.compact else SHEETS[paper]
    sheet = (
        f"html {{ font-size: {edition.body_pt}pt; }} body {{ width: {edition.room_mm}mm; }} @page {{ size: {size};"
        f" @bottom-left {{ {foot} }} @bottom-center {{ {foot} }}"
        f' @bottom-right {{ content: "{view.stamp}"; {foot} }} }}')
    css = Markup("\n".join((FONT_RULES, theme.style("handout.css"), sheet, in_black() if edition.one_ink else "")))
    return unbroken(theme.render(
        "handout.html", view=view, css=css, frames=FRAMES, edition=edition,
        settings={step.id: setting(step, edition, _on_paper(step.drawing, edition)) for step in view.steps}))


def _on_paper(drawing: Drawing | None, edition: Edition) -> tuple[float, float] | None:
    return (drawing.width_mm * edition.enlarged, drawing.height_mm * edition.enlarged) if drawing else None


def handout(view: View, theme: Theme, paper: str, edition: Edition = REGULAR) -> bytes:
    """The handout as a PDF."""
    return to_pdf(handout_html(view, theme, paper, edition), materials(view))
