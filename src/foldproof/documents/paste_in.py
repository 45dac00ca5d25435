"""The write-up to paste into a post: no head, no script, its styles in its elements, pictures by relative path.

The post's title stands above it, so its headings start at the second rank. A list of what to upload comes with it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from foldproof.documents.cutting import FRAMES
from foldproof.documents.page import ENLARGED, PICTURES, prints
from foldproof.documents.preview_picture import preview_name, preview_words
from foldproof.documents.theme import Theme
from foldproof.documents.view import Photo, View
from foldproof.drawing.dots import MARGIN_MM
from foldproof.drawing.record import Drawing
from foldproof.facts.cautions import DEFER

PASTE_IN, UPLOADS = "paste-in.html", "paste-in-uploads.txt"
NOT_IN_A_POST = frozenset(
    ["html", "head", "body", "title", "meta", "link", "script", "style", "svg", "iframe", "form", "h1", "main"])
"""What editors of posts take out, or what the page around a post has already."""
_PX = 96 / 25.4
"""CSS pixels in a millimetre (CSS Values and Units, level 3, 5.2)."""
_INLINE = {
    'class="length"': 'style="white-space:nowrap"',
    'class="fraction"': 'style="font-variant-numeric:diagonal-fractions"',
}
"""What the classes of set text stand for, where no style sheet says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture of the post."""

    path: str
    alt: str
    width: int
    height: int
    """CSS pixels at its natural size."""


def picture_of(shown: Drawing | Photo) -> Picture:
    """A drawing as dots, or a photograph's larger copy, as a post shows it."""
    if isinstance(shown, Photo):
        return Picture(path=f"{PICTURES}/{shown.name}", alt=shown.alt, width=shown.width, height=shown.height)
    margin = 2 * MARGIN_MM if shown.scene else 0
    return Picture(
        path=f"{PICTURES}/{shown.name}.{'png' if shown.scene else 'svg'}", alt=shown.alt,
        width=round((shown.width_mm + margin) * ENLARGED * _PX),
        height=round((shown.height_mm + margin) * ENLARGED * _PX))


def paste_in(view: View, theme: Theme) -> str:
    """The text to paste."""
    text = theme.render(
        "paste-in.html", view=view, picture=picture_of, prints=prints(view), defer=DEFER, frames=FRAMES)
    for marked, styled in _INLINE.items():
        text = text.replace(marked, styled)
    return text


def paste_in_files(view: View, theme: Theme, files: Mapping[str, bytes]) -> Mapping[str, bytes]:
    """The text and the list of what to upload; `files` is the set as far as it is made."""
    return {PASTE_IN: paste_in(view, theme).encode(), UPLOADS: uploads(view, files).encode()}


def uploads(view: View, files: Mapping[str, bytes]) -> str:
    """What to upload, one file a line with its size, and how."""
    shown: tuple[Drawing | Photo, ...] = (*view.photos, *view.page_drawings)
    pictures = dict.fromkeys(picture_of(one).path for one in shown)
    others = [(name, words) for name, words in prints(view) if name in files]
    if preview_name(view) in files:
        others.append((preview_name(view), f"for previews of the address: {preview_words(view)}"))
    if "opening.webp" in files:
        others.append(("opening.webp", "the card opening and closing, one moving picture"))
    lines = [
        f"{view.title}: what to upload with the post", f"({view.stamp})", "",
        f"1. Upload the pictures, so that they stand in a folder {PICTURES}/ beside the post. Where your site gives",
        f"   them other addresses, put those into {PASTE_IN}: each stands once, after src=.",
        f"2. Open {PASTE_IN} as plain text, and paste all of it where the editor takes HTML. The post's title stays",
        "   yours to write.",
        "3. Upload what readers print beside the post, too, or take those links out.", "",
        "Pictures of the post", "", *(f"  {name}   {_size(files, name)}" for name in pictures), "",
        "To print, and more", "", *(f"  {name}   {_size(files, name)}   {words}" for name, words in others), "",
    ]
    return "\n".join(lines)


def _size(files: Mapping[str, bytes], name: str) -> str:
    return f"{-(-len(files[name]) // 1000):,} kB" if name in files else "not made"
