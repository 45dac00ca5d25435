"""The shot list, on paper and as a table for other programs, and the cue sheet to read from while filming."""

import csv
import io

from markupsafe import Markup

from foldproof.documents.film_view import FilmShot
from foldproof.documents.handout import SHEETS, own_paper
from foldproof.documents.printing import FONT_RULES, materials, to_pdf
from foldproof.documents.theme import Theme
from foldproof.documents.view import View
from foldproof.documents.words import clock
from foldproof.measures.writing import write_number
from foldproof.recording.cells import guarded

COLUMNS = (
    "shot", "step", "title", "filmed as", "set-up", "framing", "frame width", "frame height", "bottom of the picture",
    "inside", "on the table", "at the end", "before it", "hands", "say", "caution to say", "speaking seconds",
    "seconds", "seconds are", "time so far", "repeatable", "revision",
)
LARGE, LARGER, LARGEST = 40, 46, 54
"""Points. At 2 m, capitals of 40 pt (9.3 mm) are seen under 16 minutes of arc and those of 54 pt under 22: for easy
reading from a screen a standard asks for 16 at least and 20 to 22 if it can be (ISO 9241-303, from memory)."""


def shots_html(view: View, theme: Theme) -> str:
    """The shot list before it is printed: sideways, on the recipe's own paper."""
    css = _css(view, theme, "shots.css")
    return theme.render("shots.html", view=view, film=view.shooting, css=css, clock=clock, seconds=seconds)


def shots_pdf(view: View, theme: Theme) -> bytes:
    """The shot list as a PDF."""
    return to_pdf(shots_html(view, theme), materials(view))


def cues_html(view: View, theme: Theme) -> str:
    """The cue sheet before it is printed: one shot a sheet, in filming order."""
    css = _css(view, theme, "cues.css")
    return theme.render("cues.html", view=view, film=view.shooting, css=css, seconds=seconds, points=points)


def cues_pdf(view: View, theme: Theme) -> bytes:
    """The cue sheet as a PDF."""
    return to_pdf(cues_html(view, theme), materials(view))


def points(shot: FilmShot) -> int:
    """The size of a cue's letters: as large as lets it stand on one sheet."""
    letters = len(shot.say) + sum(len(caution) + 30 for caution in shot.cautions)
    return LARGEST if letters < 200 else LARGER if letters < 300 else LARGE


def _css(view: View, theme: Theme, name: str) -> Markup:
    sheet = SHEETS[own_paper(view.unit)]
    rule = f'@page {{ size: {sheet} landscape; @bottom-right {{ content: "{view.stamp}"; }} }}'
    return Markup("\n".join((FONT_RULES, theme.style(name), rule)))


def shots_csv(view: View) -> str:
    """The shot list as comma-separated values (RFC 4180), UTF-8, a heading first, one shot a row, in story order.

    Text that a spreadsheet would take for a formula has an apostrophe before it.
    """
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for shot in view.shooting.shots:
        cells = (
            shot.key, shot.label, shot.title, str(shot.place), shot.setup, shot.framing, shot.width, shot.height,
            shot.bottom, shot.inside, "; ".join(shot.table), "; ".join(shot.after), "; ".join(shot.ready),
            "; ".join(shot.hands), shot.say, " ".join(shot.cautions), str(shot.speaking), seconds(shot),
            "estimated" if shot.estimated else "given", clock(shot.so_far), "once" if shot.once else "again",
            view.stamp,
        )
        rows.writerow([guarded(cell) for cell in cells])
    return out.getvalue()


def seconds(shot: FilmShot) -> str:
    """The seconds of a shot."""
    return write_number(shot.seconds)
