"""The handout: what a class cuts and folds from, on letter or A4 paper."""

from dataclasses import replace

from markupsafe import Markup

from foldproof.documents.cutting import FRAMES
from foldproof.documents.printing import FONT_RULES, materials, to_pdf
from foldproof.documents.theme import Theme
from foldproof.documents.view import View
from foldproof.drawing.record import PLAIN
from foldproof.measures.quantity import Unit

SHEETS = {"letter": "letter", "a4": "A4"}
"""Papers by the name that a file carries, with CSS's name for them."""
STYLE = replace(PLAIN, largest_mm=40, width_mm=178)
"""Drawings as wide as the sheet, so that most steps take one row of pictures."""
BESIDE_MM = 88
"""The widest drawing that stands beside its words; wider ones go beneath."""


def own_paper(unit: Unit) -> str:
    """The paper of the handout that carries no paper's name: letter for inch recipes, A4 for metric ones."""
    return "letter" if unit is Unit.INCH else "a4"


def file_names(unit: Unit) -> dict[str, str]:
    """The papers, each with its file's name: `handout.pdf` is the recipe's own, the other names its paper."""
    return {paper: "handout.pdf" if paper == own_paper(unit) else f"handout-{paper}.pdf" for paper in SHEETS}


def handout_html(view: View, theme: Theme, paper: str) -> str:
    """The handout before it is printed."""
    sheet = f'@page {{ size: {SHEETS[paper]}; @bottom-right {{ content: "{view.stamp}"; }} }}'
    css = Markup("\n".join((FONT_RULES, theme.text("handout.css"), sheet)))
    return theme.render("handout.html", view=view, css=css, frames=FRAMES, wide_mm=BESIDE_MM)


def handout(view: View, theme: Theme, paper: str) -> bytes:
    """The handout as a PDF."""
    return to_pdf(handout_html(view, theme, paper), materials(view))
