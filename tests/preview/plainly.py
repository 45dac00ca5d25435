"""What lies on the bench, made the plain way: everything anew by the stages themselves, nothing known from before."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from foldproof import __version__
from foldproof.documents import handout, page, shots
from foldproof.documents.care import with_care
from foldproof.documents.drawings import draw
from foldproof.documents.opening_picture import with_opening
from foldproof.documents.printing import SCHEME, materials
from foldproof.documents.structured import structured
from foldproof.documents.telling import tell
from foldproof.documents.theme import Theme
from foldproof.documents.theme_chosen import chosen
from foldproof.documents.view import View
from foldproof.drawing.opening import draw_opening
from foldproof.filming.plan import plan_film
from foldproof.folding.card import Card
from foldproof.pipeline import prove, with_study
from foldproof.preview.notes import told
from foldproof.preview.work import REVISION

Found = dict[str, list[str]]
"""By the kind of result: a digest of each that came, the last one last."""


def made(recipe: Path) -> Found:
    """Digests of the findings, the page and what is printed, before and after the study of tolerances."""
    proof = prove(recipe)
    found: Found = {"findings": [notes(told(proof.findings, proof.sources, proof.reading.recipe), recipe)]}
    if not proof.sound or proof.card is None or proof.making is None:
        return found
    card, making = proof.card, proof.making
    film, theme = plan_film(card, making), chosen("", card.recipe, recipe.parent)
    drawn = draw(card, making, film, handout.STYLE, page.STYLE)
    view = with_opening(tell(
        card, making, drawn=drawn, film=film, photos=proof.photos, revision=REVISION, version=__version__,
    ), draw_opening(card))
    found["page"] = [_page(view, theme, card)]
    proof, studied = with_study(proof)
    assert studied is not None
    view = with_care(view, card, studied)
    found["findings"].append(notes(told(proof.findings, proof.sources, proof.reading.recipe), recipe))
    found["page"].append(_page(view, theme, card))
    one = handout.handouts(view, card, making)[0]
    found[one.file] = [printed(handout.handout_html(one.view, theme, one.paper), materials(one.view))]
    found["shots.pdf"] = [printed(shots.shots_html(view, theme), materials(view))]
    found["cues.pdf"] = [printed(shots.cues_html(view, theme), materials(view))]
    return found


def _page(view: View, theme: Theme, card: Card) -> str:
    return digest([page.page(view, theme, structured(view, card.recipe, None)).encode()])


def notes(margin: Mapping[str, Any], recipe: Path) -> str:
    """What the margin says, wherever the recipe lies."""
    return json.dumps([margin["count"], margin["notes"]]).replace(str(recipe.parent), "")


def printed(html: str, material: Mapping[str, tuple[str, bytes]]) -> str:
    """What the printer sees of a document: its text, and those of the materials that it asks for."""
    asked = (data for name, (_, data) in sorted(material.items()) if SCHEME + name in html)
    return digest([html.encode(), *asked])


def digest(parts: Iterable[bytes]) -> str:
    return hashlib.sha256(b"\0".join(parts)).hexdigest()
