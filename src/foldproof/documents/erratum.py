"""The erratum: a half sheet that puts an earlier edition right, for those who have it."""

from collections.abc import Iterable
from itertools import groupby

from markupsafe import Markup

from foldproof.documents.changes import Change
from foldproof.documents.handout import SHEETS, own_paper
from foldproof.documents.printing import FONT_RULES, to_pdf
from foldproof.documents.theme import Theme
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Erratum:
    """What the half sheet says."""

    title: str
    language: str
    unit: Unit
    of: str
    """Which handouts it puts right: `the handouts marked 82a99822`."""
    dated: str
    places: tuple[tuple[str, tuple[Change, ...]], ...]
    """Where, and what is otherwise there."""


def erratum(
    told: Iterable[Change], *, title: str, language: str, unit: Unit, of: str, dated: str,
) -> Erratum | None:
    """What has to be put right; None where nobody is misled by the earlier edition."""
    wrong = [change for change in told if change.misleads]
    if not wrong:
        return None
    places = tuple(
        (where, tuple(dict.fromkeys(group))) for where, group in groupby(wrong, key=lambda change: change.where))
    return Erratum(title=title, language=language, unit=unit, of=of, dated=dated, places=places)


def erratum_pdf(sheet: Erratum, theme: Theme) -> bytes:
    """The half sheet twice on one sheet of the recipe's own paper, to be cut apart."""
    css = "\n".join((FONT_RULES, theme.style("erratum.css"), f"@page {{ size: {SHEETS[own_paper(sheet.unit)]}; }}"))
    return to_pdf(theme.render("erratum.html", sheet=sheet, css=Markup(css)), {})
