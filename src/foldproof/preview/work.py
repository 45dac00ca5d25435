"""What is done after a save: the findings and the page; the handout; the shot list with the cues."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from foldproof import __version__
from foldproof.documents.care import with_care
from foldproof.documents.drawings import draw_shots
from foldproof.documents.handout import STYLE, file_names, handout_html, own_paper
from foldproof.documents.opening_picture import with_opening
from foldproof.documents.page import page as page_of
from foldproof.documents.printing import materials
from foldproof.documents.recording import with_film
from foldproof.documents.shots import cues_html, shots_html
from foldproof.documents.structured import structured
from foldproof.documents.telling import Drawn, tell
from foldproof.documents.theme import Theme
from foldproof.documents.theme_chosen import chosen
from foldproof.documents.theme_folders import own_folder
from foldproof.documents.view import View
from foldproof.filming.plan import plan_film
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making
from foldproof.pipeline import Proof, prove, with_study
from foldproof.preview.known import Known, known
from foldproof.preview.notes import told
from foldproof.preview.printed import Prints
from foldproof.preview.task import Going, Result, Task
from foldproof.recipe.wordless import wordless

PRINTS = Prints()
REVISION = "preview"
"""What stands where a set has its revision, so that nobody takes a print of the bench for one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sound:
    """A card that may be laid out, and what is known of it."""

    task: Task
    proof: Proof
    card: Card
    making: Making
    known: Known

    @property
    def theme(self) -> Theme:
        return chosen(self.task.theme, self.card.recipe, self.task.recipe.parent)

    def view(self, drawn: Drawn) -> View:
        """What the documents say, without what the study of tolerances adds."""
        view = tell(
            self.card, self.making, drawn=drawn, photos=self.proof.photos, revision=REVISION, version=__version__)
        return with_opening(view, self.known.opening)

    def with_care(self, view: View) -> View:
        return with_care(view, self.card, self.known.study)


def page(task: Task, going: Going) -> Iterator[Result]:
    """The findings and the page; where the study of tolerances is yet to be made, first without what it adds."""
    proof = prove(task.recipe)
    sound = _sound(task, proof)
    studied = sound is not None and sound.known.studied
    if sound is not None and studied:
        proof, _ = with_study(proof, sound.known.study)
    yield "findings", _findings(task, proof)
    if sound is None:
        return
    going()
    view = sound.view(sound.known.screen)
    if not studied:
        yield "page", _page(sound, view)
        going()
        proof, _ = with_study(proof, sound.known.study)
        yield "findings", _findings(task, proof)
    yield "page", _page(sound, sound.with_care(view))


def handout(task: Task, going: Going) -> Iterator[Result]:
    """The sheets of the handout on the recipe's own paper."""
    sound = _sound(task, prove(task.recipe))
    if sound is None:
        return
    going()
    view = sound.known.handout(sound.with_care(sound.view(Drawn())))
    going()
    paper = own_paper(view.unit)
    yield "sheets", _sheets(file_names(view.unit)[paper], handout_html(view, sound.theme, paper), view)


def shots(task: Task, going: Going) -> Iterator[Result]:
    """The sheets of the shot list, then those of the cues."""
    sound = _sound(task, prove(task.recipe))
    if sound is None:
        return
    going()
    film = plan_film(sound.card, sound.making)
    view = sound.with_care(sound.view(Drawn(shots=draw_shots(sound.card, film, STYLE))))
    for file, html in (("shots.pdf", shots_html), ("cues.pdf", cues_html)):
        going()
        yield "sheets", _sheets(file, html(view, sound.theme), view)


WORK: Mapping[str, Callable[[Task, Going], Iterator[Result]]] = {"page": page, "handout": handout, "shots": shots}


def _sound(task: Task, proof: Proof) -> _Sound | None:
    if not proof.sound or proof.card is None or proof.making is None:
        return None
    return _Sound(
        task=task, proof=proof, card=proof.card, making=proof.making, known=known(wordless(proof.card.recipe)))


def _findings(task: Task, proof: Proof) -> dict[str, Any]:
    recipe = proof.reading.recipe
    beside = [str(task.recipe.parent / name) for name in proof.photos]
    own = own_folder(recipe, task.recipe.parent) if recipe else None
    beside += [str(path) for path in sorted(own.iterdir())] if own and own.is_dir() else []
    return {
        **told(proof.findings, proof.sources, recipe), "sound": proof.sound, "sources": proof.sources,
        "title": str(recipe.title) if recipe else task.recipe.stem, "files": [*proof.sources, *beside],
    }


def _page(sound: _Sound, view: View) -> bytes:
    film = sound.proof.film
    view = view if film is None else with_film(view, film)
    return page_of(view, sound.theme, structured(view, sound.card.recipe, film)).encode()


def _sheets(file: str, html: str, view: View) -> dict[str, Any]:
    made = PRINTS.of(file, html, materials(view))
    return {"name": file, "pdf": made.pdf, "pictures": [
        {"png": sheet.png, "width": sheet.width, "height": sheet.height} for sheet in made.sheets]}
