"""How long an author waits on the bench after a save, by the clock, in ratios to one bare print of the handout.

    PYTHONPATH=src python tests/bench/preview.py [--recipe recipes/tide-gate.yaml] [--saves 5]

The real bench is run, as `foldproof watch` runs it. Once it is warm, a copy of the recipe is saved several times: with
a word changed in the prose of a step, with a word changed in what is spoken, and with a paper's colour changed, which
reaches every drawing. The clock runs from the save until the bench tells of a result; the middle of the saves is
printed. The bare print is of the same HTML with the same fonts and drawings by WeasyPrint alone, warm.
"""

import argparse
import http.client
import json
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
PATIENCE = 120
"""Seconds."""
Told = Mapping[str, Any]
Change = Callable[[str, int], str]
"""The recipe's text with a change, another for each number."""


class Following:
    """What a bench tells, each time with the clock."""

    def __init__(self, port: int) -> None:
        self.told: list[tuple[float, Told]] = []
        self._more = threading.Condition()
        self._line = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE)
        self._line.request("GET", "/told")
        threading.Thread(target=self._listen, args=(self._line.getresponse(),), daemon=True).start()

    def _listen(self, answer: http.client.HTTPResponse) -> None:
        while text := answer.readline():
            if text.startswith(b"data: "):
                with self._more:
                    self.told.append((time.monotonic(), json.loads(text[6:])))
                    self._more.notify_all()

    def until_done(self, after: int) -> list[tuple[float, Told]]:
        """All that is told from a place on, until a newer save is done with."""
        number = self.told[after - 1][1]["number"] if after else 0

        def done() -> bool:
            last = self.told[-1][1] if self.told else None
            return last is not None and last["number"] > number and not last["working"]

        with self._more:
            if not self._more.wait_for(done, PATIENCE):
                raise TimeoutError("the bench never told it")
            return self.told[after:]


@contextmanager
def bench(recipe: Path) -> Iterator[Following]:
    """The bench of a recipe, warm: everything was made once."""
    process = subprocess.Popen(
        [sys.executable, "-m", "foldproof", "watch", str(recipe), "--port", "0"], stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", process.stdout.readline())
        assert found is not None
        following = Following(int(found[1]))
        following.until_done(0)
        yield following
    finally:
        process.terminate()
        process.wait(30)


def waits(before: Told, begun: float, told: list[tuple[float, Told]]) -> dict[str, float]:
    """Seconds from a save to each kind of result; a kind that did not change is left out."""
    def first(when: Callable[[Told], bool]) -> float | None:
        return next((at - begun for at, one in told if when(one)), None)

    def sheets(kind: str) -> float | None:
        return first(lambda one: one["sheets"].get(kind) != before["sheets"].get(kind))

    pages = [at - begun for (at, one), (_, earlier) in zip(told, [(0.0, before), *told], strict=False)
             if one["page"] != earlier["page"]]
    found = {
        "findings": first(lambda one: one["number"] > before["number"] and one["working"] != "findings"),
        "page": pages[0] if pages else None, "page with the notes on tolerances": pages[-1] if pages else None,
        "handout": sheets("handout"), "shot list": sheets("shots"), "cue sheets": sheets("cues"),
        "everything": told[-1][0] - begun}
    return {what: took for what, took in found.items() if took is not None}


def bare_print(recipe: Path) -> float:
    """Seconds by the clock of the handout's HTML printed by WeasyPrint alone, the least of five when it is warm."""
    import weasyprint

    from foldproof.documents import handout, page
    from foldproof.documents.care import with_care
    from foldproof.documents.drawings import draw
    from foldproof.documents.hush import hushed
    from foldproof.documents.printing import SCHEME, _fetcher, materials
    from foldproof.documents.telling import tell
    from foldproof.documents.theme_chosen import chosen
    from foldproof.filming.plan import plan_film
    from foldproof.pipeline import prove, with_study

    proof, studied = with_study(prove(recipe))
    card, making = proof.card, proof.making
    assert card is not None and making is not None and studied is not None
    film = plan_film(card, making)
    view = with_care(
        tell(card, making, drawn=draw(card, making, film, handout.STYLE, page.STYLE), film=film, photos=proof.photos,
             revision="preview", version="1"), card, studied)
    one = handout.handouts(view, card, making)[0]
    html = handout.handout_html(one.view, chosen("plain", card.recipe, recipe.parent), one.paper, one.edition)
    took = []
    with hushed():
        for _ in range(6):
            begun = time.monotonic()
            weasyprint.HTML(string=html, base_url=SCHEME, url_fetcher=_fetcher(materials(one.view))).write_pdf(
                pdf_variant="pdf/ua-1")
            took.append(time.monotonic() - begun)
    return min(took[1:])


def changed(key: str) -> Change:
    """A change of the first long word that follows the first such key."""
    def change(text: str, number: int) -> str:
        key_at = re.search(rf"\b{key}: ", text)
        assert key_at is not None, f"the recipe has no {key}"
        word = re.compile(r"\b[a-z]{4,}\b").search(text, key_at.end())
        assert word is not None
        return f"{text[:word.start()]}{word[0]} {'very ' * number}{text[word.end() + 1:]}"

    return change


def coloured(text: str, number: int) -> str:
    """A change of the first paper's colour."""
    return re.sub(r'tone: \S+?(?=[,}\s])', f'tone: "#8a9b{(0xff - 24 * number) % 0x100:02x}"', text, count=1)


CHANGES: Mapping[str, Change] = {
    "a word of a step": changed("text"), "a word that is spoken": changed("say"), "a paper's colour": coloured}


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--recipe", type=Path, default=ROOT / "recipes" / "tide-gate.yaml")
    parser.add_argument("--saves", type=int, default=5)
    called = parser.parse_args()
    text = called.recipe.read_text(encoding="utf-8")
    bare = bare_print(called.recipe)
    print(f"bare print of the handout: {bare:.2f} s")
    with tempfile.TemporaryDirectory() as folder:
        recipe = Path(folder) / called.recipe.name
        recipe.write_text(text, encoding="utf-8")
        with bench(recipe) as following:
            for what, change in CHANGES.items():
                found: dict[str, list[float]] = {}
                for number in range(1, called.saves + 1):
                    after = len(following.told)
                    before = following.told[-1][1]
                    begun = time.monotonic()
                    recipe.write_text(change(text, number), encoding="utf-8")
                    for kind, took in waits(before, begun, following.until_done(after)).items():
                        found.setdefault(kind, []).append(took)
                for kind, each in found.items():
                    middle = statistics.median(each)
                    print(f"{what}: {kind}: {middle:.2f} s, {middle / bare:.2f} of the bare print")


if __name__ == "__main__":
    main()
