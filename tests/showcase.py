"""Pictures of real output for the README, and the README's table of checks.

    python tests/showcase.py

builds the shown recipes, takes the pictures (it needs pdftoppm and chromium) and writes both. test_showcase.py compares
what the shown documents say today with what they said when the pictures were taken, and the table with the catalogue.
"""

import hashlib
import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

from foldproof.checks.catalogue import CHECKS
from foldproof.pipeline import Options, documents, prove

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "build" / "showcase"
STAMPS = FOLDER / "shown.json"
README = ROOT / "README.md"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One picture of the README."""

    picture: str
    recipe: str
    file: str
    page: int
    """Of a PDF, from 1; for the web page, the width of the window in pixels."""
    caption: str


SHOWN = (
    Shown(picture="handout-front.png", recipe="tide-gate", file="handout.pdf", page=1,
          caption="The first page of a handout"),
    Shown(picture="handout-steps.png", recipe="harbour-coat", file="handout.pdf", page=3,
          caption="Steps, each with its picture as the paper lies"),
    Shown(picture="shots.png", recipe="beacon", file="shots.pdf", page=1, caption="The shot list"),
    Shown(picture="page-phone.png", recipe="beacon", file="page.html", page=430, caption="The page on a phone"),
)
RECIPES = tuple(sorted({shown.recipe for shown in SHOWN}))


class Words(HTMLParser):
    """The words of a page, those in its drawings and their alt texts too."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Count style sheets out, take alt texts in."""
        self._silent += tag == "style"
        self.found.extend(value for name, value in attrs if name in ("alt", "aria-label") and value)

    def handle_endtag(self, tag: str) -> None:
        """Back from a style sheet."""
        self._silent -= tag == "style"

    def handle_data(self, data: str) -> None:
        """Keep what can be read."""
        if not self._silent and data.strip():
            self.found.append(" ".join(data.split()))


def files_of(recipe: str) -> dict[str, bytes]:
    """The documents of a demo recipe."""
    return dict(documents(prove(ROOT / "recipes" / f"{recipe}.yaml"), Options()))


def said(files: dict[str, bytes]) -> str:
    """A digest of all that the page and the shot list say, the revision included."""
    words = Words()
    words.feed(files["page.html"].decode())
    return hashlib.sha256("\n".join((*words.found, files["shots.csv"].decode())).encode()).hexdigest()[:16]


def checks_table() -> str:
    """The README's list of checks."""
    rows = (f"| {check.name} | {check.severity.value} | {check.meaning} |" for check in CHECKS)
    return "\n".join(("| finding | severity | what it means |", "|---|---|---|", *rows))


def pictures_list() -> str:
    """The README's pictures."""
    return "\n\n".join(
        f"![{shown.caption} ({shown.recipe})](build/showcase/{shown.picture})" for shown in SHOWN)


def with_part(text: str, name: str, part: str) -> str:
    """The README with the part between its two markers replaced."""
    return re.sub(
        rf"<!-- {name} -->.*<!-- end of {name} -->", lambda _: f"<!-- {name} -->\n\n{part}\n\n<!-- end of {name} -->",
        text, flags=re.S)


def part_of(text: str, name: str) -> str:
    """The part between two markers."""
    found = re.search(rf"<!-- {name} -->\n\n(.*)\n\n<!-- end of {name} -->", text, flags=re.S)
    return found[1] if found else ""


def take(shown: Shown, file: Path, picture: Path) -> None:
    """Picture one page."""
    if file.suffix == ".pdf":
        subprocess.run(
            ["pdftoppm", "-r", "70", "-f", str(shown.page), "-l", str(shown.page), "-singlefile", "-png", str(file),
             str(picture.with_suffix(""))], check=True)
        return
    with tempfile.TemporaryDirectory() as profile:
        subprocess.run(
            ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
             "--disable-background-networking", f"--user-data-dir={profile}", "--hide-scrollbars",
             f"--window-size={shown.page},1100", f"--screenshot={picture}", file.as_uri()],
            check=True, capture_output=True)


def make() -> Iterator[str]:
    """Take every picture anew and bring the README's parts up to date."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    stamps = {}
    with tempfile.TemporaryDirectory() as folder:
        for recipe in RECIPES:
            files = files_of(recipe)
            stamps[recipe] = said(files)
            for shown in SHOWN:
                if shown.recipe == recipe:
                    file = Path(folder) / shown.file
                    file.write_bytes(files[shown.file])
                    take(shown, file, FOLDER / shown.picture)
                    yield shown.picture
    STAMPS.write_text(json.dumps(stamps, indent=1) + "\n", encoding="utf-8")
    text = README.read_text(encoding="utf-8")
    text = with_part(with_part(text, "checks", checks_table()), "pictures", pictures_list())
    README.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    for made in make():
        print(made)
    sys.exit(0)
