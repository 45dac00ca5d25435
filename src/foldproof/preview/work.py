"""What is done after a save: first what is quick, the findings and the page; then the handout and the shot list."""

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from foldproof import __version__
from foldproof.documents.theme_folders import own_folder
from foldproof.documents.trouble import DocumentsError
from foldproof.pipeline import Proof, prove, with_study
from foldproof.preview.notes import told

Going = Callable[[], None]
"""To be called between parts; raises StaleError where a newer save has come."""
Result = tuple[str, Any]
"""`findings`, `page`, `sheets` or `trouble`, and what there is to say."""
REVISION = "preview"
"""What stands where a set has its revision, so that nobody takes a print of the bench for one."""
DOTS = 1.6
"""Dots to a point of a sheet's picture: about 115 to an inch."""


class StaleError(Exception):
    """The work is no longer wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """What lies on the bench."""

    recipe: Path
    theme: str


def quick(task: Task, going: Going) -> Iterator[Result]:
    """The findings, and the page without what the study of tolerances adds."""
    proof = prove(task.recipe)
    yield "findings", _findings(proof, task)
    going()
    if proof.sound:
        yield "page", _page(_view(proof, task, for_screen=True), proof, task)


def slow(task: Task, going: Going) -> Iterator[Result]:
    """All findings, the page with all that it says, and the sheets of handout, shot list and cues."""
    from foldproof.documents import handout, shots
    from foldproof.documents.care import with_care
    from foldproof.documents.hush import hushed
    from foldproof.documents.theme_chosen import chosen

    proof, studied = with_study(prove(task.recipe))
    if not proof.sound or proof.card is None or studied is None:
        return
    yield "findings", _findings(proof, task)
    going()
    view = with_care(_view(proof, task, for_screen=False), proof.card, studied)
    yield "page", _page(view, proof, task)
    theme = chosen(task.theme, proof.card.recipe, task.recipe.parent)
    assert proof.making is not None
    one = handout.handouts(view, proof.card, proof.making)[0]
    makers: dict[str, Callable[[], bytes]] = {
        one.file: partial(one.pdf, theme), "shots.pdf": partial(shots.shots_pdf, view, theme),
        "cues.pdf": partial(shots.cues_pdf, view, theme)}
    for kind, maker in makers.items():
        going()
        with hushed():
            made = maker()
        yield "sheets", {"name": kind, "pdf": made, "pictures": list(pictures(made))}


def pictures(pdf: bytes) -> Iterator[dict[str, Any]]:
    """The sheets of a PDF as PNG, each with its width and height in points."""
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        for sheet in document:
            width, height = sheet.get_size()
            written = io.BytesIO()
            sheet.render(scale=DOTS).to_pil().save(written, "PNG", compress_level=3)
            yield {"png": written.getvalue(), "width": round(width), "height": round(height)}


def _findings(proof: Proof, task: Task) -> dict[str, Any]:
    recipe = proof.reading.recipe
    beside = [str(task.recipe.parent / name) for name in proof.photos]
    own = own_folder(recipe, task.recipe.parent) if recipe else None
    beside += [str(path) for path in sorted(own.iterdir())] if own and own.is_dir() else []
    return {
        **told(proof.findings, proof.sources, recipe), "sound": proof.sound, "sources": proof.sources,
        "title": str(recipe.title) if recipe else task.recipe.stem, "files": [*proof.sources, *beside],
    }


def _view(proof: Proof, task: Task, *, for_screen: bool) -> Any:
    from foldproof.documents import handout, page
    from foldproof.documents.drawings import draw, draw_for_screen
    from foldproof.documents.opening_picture import with_opening
    from foldproof.documents.recording import with_film
    from foldproof.documents.telling import tell
    from foldproof.drawing.opening import draw_opening
    from foldproof.filming.plan import plan_film

    card, making = proof.card, proof.making
    if card is None or making is None:
        raise DocumentsError("there is no card")
    film = plan_film(card, making)
    drawn = draw_for_screen(card, making, page.STYLE) if for_screen else draw(
        card, making, film, handout.STYLE, page.STYLE)
    view = tell(card, making, drawn=drawn, film=film, photos=proof.photos, revision=REVISION, version=__version__)
    view = with_opening(view, draw_opening(card))
    return with_film(view, proof.film) if proof.film is not None else view


def _page(view: Any, proof: Proof, task: Task) -> bytes:
    from foldproof.documents.page import page
    from foldproof.documents.structured import structured
    from foldproof.documents.theme_chosen import chosen

    assert proof.card is not None
    theme = chosen(task.theme, proof.card.recipe, task.recipe.parent)
    return page(view, theme, structured(view, proof.card.recipe, proof.film)).encode()
