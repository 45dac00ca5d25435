"""Where themes are. Light, so that the command line can name them without loading what fills them."""

import argparse
from collections.abc import Mapping
from pathlib import Path

from foldproof.bounded import TooLargeError, read_within
from foldproof.documents.trouble import ThemeError
from foldproof.findings.finding import Finding, Severity
from foldproof.recipe.records import Recipe

MOST_FILES, MOST_BYTES = 40, 200_000
"""Of a theme, and of each of its files: it may come from a stranger."""
PLAIN = "plain"
"""The theme that has every template and style sheet: the others say only what is otherwise."""


def themes_folder() -> Path:
    """Where themes are: in the installed package, or beside `src` in a source checkout. Never the current folder."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent.parent / "themes"


def theme_names() -> tuple[str, ...]:
    """The names of the themes that there are."""
    folder = themes_folder()
    return tuple(sorted(path.name for path in folder.iterdir() if path.is_dir())) if folder.is_dir() else ()


def theme_folder(named: str) -> Path | None:
    """The folder of a theme by its name or by its own path, which has a slash in it; None where there is none."""
    if named in theme_names():
        return themes_folder() / named
    folder = Path(named)
    return folder if ("/" in named or "\\" in named) and folder.is_dir() else None


def theme_files(folder: Path) -> Mapping[str, bytes]:
    """All files of a theme: plain's by name, the folder's own, where it is another one, as `NAME/FILE`.

    Raises ThemeError where they can't be read or are too many or too large.
    """
    plain, whole = themes_folder() / PLAIN, folder.resolve()
    under = _files(plain, PLAIN, (".css", ".html", ".js"))
    if whole == plain.resolve():
        return under
    over = _files(whole, whole.name, (".css", ".html"))
    return {**under, **{f"{whole.name}/{file}": data for file, data in over.items()}}


def _files(folder: Path, name: str, endings: tuple[str, ...]) -> dict[str, bytes]:
    """The files of a theme: its style sheets and templates, and plain's scripts."""
    try:
        found = [path for path in sorted(folder.iterdir()) if path.suffix in endings and path.is_file()]
        for path in found:
            if not path.resolve().is_relative_to(folder.resolve()):
                raise ThemeError(f"theme {name}: {path.name} leads out of the theme's folder")
        if len(found) > MOST_FILES:
            raise ThemeError(f"theme {name}: {len(found)} files; {MOST_FILES} are the most")
        return {path.name: read_within(path, MOST_BYTES).replace(b"\r\n", b"\n") for path in found}
    except TooLargeError as error:
        raise ThemeError(f"theme {name}: {Path(error.filename).name} is larger than {MOST_BYTES:,} bytes") from None
    except OSError as error:
        raise ThemeError(f"theme {name}: {folder} can't be read: {error.strerror or error}") from error


def own_folder(recipe: Recipe, folder: Path) -> Path | None:
    """The folder of the theme that a recipe brings; None where it names one that is shipped, or none."""
    return folder / recipe.theme.value if recipe.theme and recipe.theme.value not in theme_names() else None


def theme_faults(recipe: Recipe, folder: Path) -> tuple[Finding, ...]:
    """What is wrong with the theme that a recipe names. Where it may lie was settled when the recipe was read."""
    own = own_folder(recipe, folder)
    if own is None or recipe.theme is None or own.is_dir():
        return ()
    return (Finding(
        name="theme missing", severity=Severity.ERROR, place=recipe.theme.place,
        message=f"There is no theme `{recipe.theme.value}`, and no folder of that name beside the recipe.",
        mend=f"Name one of {', '.join(theme_names())}, or put the theme's folder there."),)


def add_theme(command: argparse.ArgumentParser) -> None:
    """Add the option that says how documents look."""
    command.add_argument(
        "--theme", default="", type=_a_theme, metavar="NAME",
        help=f"how it looks: {', '.join(theme_names())}, or the path of a folder of your own (./mine); "
             f"the recipe's own theme, or {PLAIN}, without it")


def _a_theme(text: str) -> str:
    if text and theme_folder(text) is None:
        raise argparse.ArgumentTypeError(
            f"there is no theme {text!r}; there is: {', '.join(theme_names())}, or a folder of your own "
            "with a slash in its path: ./mine")
    return text
