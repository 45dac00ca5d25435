"""What is known from save to save: the bench shows after every change what a process shows that knows nothing yet."""

from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import plainly
import pytest
from PIL import Image

from foldproof.documents import printing
from foldproof.preview import printed, work
from foldproof.preview.known import MOST, known
from foldproof.preview.task import Task
from foldproof.recipe.reader import read_file
from foldproof.recipe.wordless import wordless

QUIET = (Path(__file__).parents[1] / "documents" / "quiet.yaml").read_text(encoding="utf-8")
RECIPE = QUIET.replace("summary:", "theme: own\npicture: card.png\nsummary:").replace(
    "[8 1/2, 11]", '[8 1/2, 11], tone: "#8a9ba8"').replace(
    "fold: mountain}\n", "fold: mountain}\n      - note: rub the fold flat\n")
Change = Callable[[Path], object]


def _written(old: str, new: str, folder: Path) -> None:
    assert old in RECIPE
    (folder / "card.yaml").write_text(RECIPE.replace(old, new), encoding="utf-8")


def _theme(rule: str, folder: Path) -> None:
    (folder / "own" / "handout.css").write_text(rule, encoding="utf-8")


def _photo(colour: str, folder: Path) -> None:
    Image.new("RGB", (8, 6), colour).save(folder / "card.png")


CHANGES: Mapping[str, Change] = {
    name: partial(_written, *texts) for name, texts in {
        "a word of a step": ("<behind>", "well <behind>"),
        "words that need more room": ("Fold it <behind>.", "Fold it <behind>. " + "Go slowly, for it gives. " * 50),
        "a word that is spoken": ("=Score", "=Now score"),
        "a tip": ("**twice**", "*lightly*"),
        "a caution": ("off the cloth", "off the table"),
        "the title": ("=Quiet <card>", "=Silent <card>"),
        "a title of a step, and so its id": ("Glue the mat", "Put on the mat"),
        "a line before all others": ("title: \"=Quiet", "# a note of the author's\ntitle: \"=Quiet"),
        "a note to the hands": ("rub the fold flat", "rub the fold smooth"),
        "a paper's colour": ("#8a9ba8", "#a05030"),
        "a paper's name": ("slate", "heather"),
        "a piece's name": ("mat", "panel"),
        "a number in a step, which is then wrong": ("- score: 4 1/4", "- score: 4 1/8"),
        "a size, in the plan and in the steps": ("5 1/", "4 1/"),
        "a fold": ("fold: mountain", "fold: valley"),
        "how a pose is turned": ("open: {still: cover", "open: {still: cover, turned: half"),
        "how closely a class works": ("measures:", "tolerance: 1/8\nmeasures:"),
        "the seconds of a shot": ("seconds: 25", "seconds: 15"),
        "a shot from elsewhere": ("framing: overhead close", "framing: overhead wide"),
    }.items()
} | {
    "the theme": partial(_theme, "h1 { letter-spacing: 1pt }"),
    "the photograph": partial(_photo, "teal"),
}

WRONG = ("a number in a step, which is then wrong", "a fold")
"""The changes after which there is nothing to lay out."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("known")
    (folder / "own").mkdir()
    return folder


def _as_it_was(folder: Path) -> Path:
    _written("title", "title", folder)
    _theme("h1 { letter-spacing: 0 }", folder)
    _photo("white", folder)
    return folder / "card.yaml"


@pytest.fixture(scope="module")
def anew(folder: Path) -> Iterator[Mapping[str, plainly.Found]]:
    """What other processes make after each of the changes, to which nothing is known of cards that were there before.

    They take them in another order, for what is inked and which templates are read are known to them by value.
    """
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        asked = {}
        for number, (name, change) in enumerate(reversed({"": _as_it_was, **CHANGES}.items())):
            own = folder / f"anew-{number}"
            (own / "own").mkdir(parents=True)
            _as_it_was(own)
            change(own)
            asked[name] = pool.submit(plainly.made, own / "card.yaml")
        yield {name: made.result() for name, made in asked.items()}


class Unprinted:
    """Stands in for the printer: tells what it was given."""

    def of(self, file: str, html: str, material: Mapping[str, tuple[str, bytes]]) -> printed.Printed:
        told = plainly.printed(html, material)
        return printed.Printed(html=html, materials=material, pdf=told.encode(), sheets=())


def _on_the_bench(recipe: Path) -> plainly.Found:
    """What the three processes make after a save, as digests."""
    found: plainly.Found = {}
    for works in work.WORK.values():
        for kind, result in works(Task(recipe=recipe, theme=""), lambda: None):
            match kind:
                case "findings":
                    found.setdefault(kind, []).append(plainly.notes(result, recipe))
                case "page":
                    found.setdefault(kind, []).append(plainly.digest([result]))
                case "sheets":
                    found.setdefault(result["name"], []).append(result["pdf"].decode())
    return found


def test_after_every_change_the_bench_shows_what_is_made_anew(
    folder: Path, anew: Mapping[str, plainly.Found], monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Each change is made on the card as it was; where a thing was known already, it comes only once and whole."""
    monkeypatch.setattr(work, "PRINTS", Unprinted())
    known.cache_clear()
    assert _on_the_bench(_as_it_was(folder)) == anew[""]
    for name in (*CHANGES, ""):
        recipe = _as_it_was(folder)
        CHANGES.get(name, _as_it_was)(folder)
        found = _on_the_bench(recipe)
        assert found.keys() == anew[name].keys(), name
        assert ("page" in found) is (name not in WRONG), name
        for kind, shown in found.items():
            assert shown == anew[name][kind][-len(shown):], (name, kind)


def test_words_draw_and_reckon_nothing_again(folder: Path) -> None:
    card = _recipe(folder, _as_it_was)
    first = known(wordless(card))
    for name in ("a word of a step", "a word that is spoken", "a tip", "a caution", "the title",
                 "the seconds of a shot", "a line before all others", "the theme", "the photograph"):
        assert known(wordless(_recipe(folder, CHANGES[name]))) is first, name
    for name in ("a paper's colour", "a piece's name", "a number in a step, which is then wrong", "a fold",
                 "a note to the hands", "how closely a class works"):
        assert known(wordless(_recipe(folder, CHANGES[name]))) is not first, name


def _recipe(folder: Path, change: Change) -> Any:
    recipe = _as_it_was(folder)
    change(folder)
    read = read_file(recipe).recipe
    assert read is not None
    return read


def test_no_more_than_a_few_cards_are_known(folder: Path) -> None:
    known.cache_clear()
    for change in CHANGES.values():
        known(wordless(_recipe(folder, change)))
    assert known.cache_info().currsize == MOST


PAGE = """<style>@page {{ size: 60pt 40pt; margin: 0 }} div {{ break-after: page }}</style>
<div>{}</div><img src="foldproof:a">"""


def _picture(colour: str) -> tuple[str, bytes]:
    box = f'width="9" height="9" fill="{colour}"'
    return "image/svg+xml", f'<svg xmlns="http://www.w3.org/2000/svg" {box}><rect {box}/></svg>'.encode()


def test_what_is_printed_already_is_not_printed_again(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []

    def to_pdf(html: str, material: Mapping[str, tuple[str, bytes]]) -> bytes:
        asked.append(html)
        return printing.to_pdf(html, material)

    monkeypatch.setattr(printed, "to_pdf", to_pdf)
    prints, red = printed.Prints(), {"a": _picture("red")}
    first = prints.of("handout.pdf", PAGE.format("one"), red)
    assert len(first.sheets) == 2 and first.sheets[0].png != first.sheets[1].png
    assert prints.of("handout.pdf", PAGE.format("one"), dict(red)) is first and len(asked) == 1
    words = prints.of("handout.pdf", PAGE.format("two"), red)
    assert words.sheets[0].png != first.sheets[0].png and words.sheets[1] is first.sheets[1]
    blue = prints.of("handout.pdf", PAGE.format("two"), {"a": _picture("blue")})
    assert blue.sheets[0] is words.sheets[0] and blue.sheets[1].png != words.sheets[1].png
    assert prints.of("shots.pdf", PAGE.format("two"), red).pdf != blue.pdf
    assert prints.of("handout.pdf", PAGE.format("two"), {"a": _picture("blue")}) is blue


def test_a_sheet_of_another_size_is_another_sheet() -> None:
    prints = printed.Prints()
    html = "<style>@page {{ size: {}; margin: 0 }}</style><p></p>"
    first, turned = (prints.of("a.pdf", html.format(size), {}).sheets[0] for size in ("60pt 40pt", "40pt 60pt"))
    assert (first.width, first.height) == (turned.height, turned.width) == (60, 40)
