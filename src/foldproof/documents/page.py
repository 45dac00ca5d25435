"""The page: one HTML file that holds everything it shows, and its pictures once more as files beside it."""

import base64
import hashlib
import html
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from urllib.parse import urljoin

from markupsafe import Markup

from foldproof.documents.cutting import FRAMES
from foldproof.documents.fonts import page_face_rules
from foldproof.documents.handout import file_names
from foldproof.documents.preview_picture import preview_files, preview_name, preview_words
from foldproof.documents.template_sheets import template_files
from foldproof.documents.theme import Theme
from foldproof.documents.view import Photo, View
from foldproof.drawing.dots import to_png
from foldproof.drawing.record import PLAIN, Drawing
from foldproof.facts.cautions import DEFER

PICTURES = "pictures"
STYLE = replace(PLAIN, largest_mm=62, width_mm=92)
"""Drawings about as wide as a phone."""
_PAPERS = {"letter": "letter", "a4": "A4"}

NO_DATA = Markup("{}")
_CHARSET = '<meta charset="utf-8">'
ENLARGED = 1.25
"""How much larger drawings stand on a screen than on paper, where there is room."""


def page(view: View, theme: Theme, data: Markup = NO_DATA) -> str:
    """The whole page. It asks for nothing from outside; its links to the handouts are relative.

    `data` is what it says to machines, as JSON.
    """
    css = Markup(page_face_rules() + "\n" + theme.style("page.css", "opening.css"))
    script = Markup(theme.text("page.js").rstrip())
    text = theme.render(
        "page.html", view=view, css=css, script=script, prints=prints(view), drawn=drawn, photo=photo_address,
        defer=DEFER, frames=FRAMES, data=data, preview=preview_address(view), preview_words=preview_words(view))
    told = (str(data), str(view.opening.data) if view.opening else "")
    return under_policy(text, (theme.text("page.js").rstrip(), theme.text("opening.js").rstrip(), *told))


def under_policy(text: str, scripts: Sequence[str]) -> str:
    """The page with a rule for browsers (Content Security Policy, level 3): run these scripts and no other, and fetch
    nothing. It holds even where words of a recipe found a way into the page as markup. What the page says to machines
    is no script, but judges of HTML take it for one, so it is among them.
    """
    known = " ".join(f"'sha256-{_digest(script)}'" for script in scripts)
    policy = (
        f"default-src 'none'; script-src {known}; style-src 'unsafe-inline'; img-src data:; font-src data:; "
        "base-uri 'none'; form-action 'none'")
    return text.replace(_CHARSET, f'{_CHARSET}\n<meta http-equiv="Content-Security-Policy" content="{policy}">', 1)


def _digest(script: str) -> str:
    return base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()


def prints(view: View) -> tuple[tuple[str, str], ...]:
    """What a reader prints: each file with what it is."""
    found = (
        (file, f"{kind} on {_PAPERS[paper]} paper")
        for kind, names in (("handout", file_names), ("template", template_files))
        for paper, file in names(view.unit).items())
    return tuple(sorted(found, key=lambda print_: (print_[1].split()[0], len(print_[0]))))


def preview_address(view: View) -> str:
    """Where the picture for link previews stands on the web; empty unless the recipe says where it is published."""
    name = preview_name(view)
    return urljoin(view.published, name) if view.published and name else ""


def drawn(drawing: Drawing) -> Markup:
    """A drawing that stands in the page itself, so that its words are the page's; its alt text is its name."""
    said = html.escape(drawing.alt, quote=True)
    sized = re.sub(r' (?:width|height)="[\d.]+mm"', "", drawing.svg, count=2)
    width = f"width: {drawing.width_mm * ENLARGED:.1f}mm"
    return Markup(sized.replace("<svg ", f'<svg aria-label="{said}" style="{width}" ', 1))


def photo_address(photo: Photo) -> str:
    """A photograph as an address that holds the picture itself."""
    return f"data:{photo.kind};base64,{base64.b64encode(photo.small or photo.data).decode()}"


def pictures(view: View) -> Mapping[str, bytes]:
    """The page's pictures as files by relative path: drawings as lines and as dots, photographs, and the preview."""
    drawings = {f"{PICTURES}/{drawing.name}.svg": drawing.svg.encode() for drawing in view.page_drawings}
    still = {f"{PICTURES}/opening.svg": view.opening.picture.encode()} if view.opening else {}
    dots = {
        f"{PICTURES}/{drawing.name}.png": to_png(drawing.scene, STYLE)
        for drawing in view.page_drawings if drawing.scene}
    photos = {f"{PICTURES}/{photo.name}": photo.data for photo in view.photos}
    return {**drawings, **still, **dots, **photos, **preview_files(view)}
