"""The shot list, on paper and as a table for other programs."""

import csv
import io

from markupsafe import Markup

from foldproof.documents.handout import SHEETS, own_paper
from foldproof.documents.printing import FONT_RULES, materials, to_pdf
from foldproof.documents.theme import Theme
from foldproof.documents.view import Shot, View
from foldproof.documents.words import clock
from foldproof.measures.writing import write_number

COLUMNS = (
    "shot", "step", "title", "framing", "on the table", "hands", "say", "seconds", "seconds are", "time so far",
    "revision",
)
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def shots_html(view: View, theme: Theme) -> str:
    """The shot list before it is printed: sideways, on the recipe's own paper."""
    sheet = SHEETS[own_paper(view.unit)]
    rule = f'@page {{ size: {sheet} landscape; @bottom-right {{ content: "{view.stamp}"; }} }}'
    css = Markup("\n".join((FONT_RULES, theme.text("shots.css"), rule)))
    return theme.render("shots.html", view=view, css=css, clock=clock, seconds=seconds)


def shots_pdf(view: View, theme: Theme) -> bytes:
    """The shot list as a PDF."""
    return to_pdf(shots_html(view, theme), materials(view))


def shots_csv(view: View) -> str:
    """The shot list as comma-separated values (RFC 4180), UTF-8, a heading first, one shot a row.

    Text that a spreadsheet would take for a formula has an apostrophe before it.
    """
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for step in view.steps:
        for shot in step.shots:
            cells = (
                shot.key, str(step.number), step.title, shot.framing, "; ".join(shot.table), "; ".join(shot.hands),
                shot.say, seconds(shot), "estimated" if shot.estimated else "given", clock(shot.so_far), view.stamp,
            )
            rows.writerow([guarded(cell) for cell in cells])
    return out.getvalue()


def seconds(shot: Shot) -> str:
    """The seconds of a shot."""
    return write_number(shot.seconds)


def guarded(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell.lstrip(" ").startswith(_STARTS_A_FORMULA) else cell
