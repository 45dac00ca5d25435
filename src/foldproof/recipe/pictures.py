"""Photographs beside a recipe: paths that lead to a picture inside its folder and nowhere else."""

from pathlib import Path, PurePosixPath, PureWindowsPath

from foldproof.findings.finding import Place
from foldproof.recipe.desk import Desk
from foldproof.recipe.records import Text

KINDS = (".jpg", ".jpeg", ".png", ".webp", ".gif")
"""Endings of picture files that hold nothing but a picture."""
MOST_BYTES = 20_000_000


def picture(path: Text | None, desk: Desk) -> Text | None:
    """The path where a picture is there to be used; None after reporting why not."""
    if path is None:
        return None
    fault = _fault(path.value, Path(desk.file).parent)
    if fault is None:
        return path
    name, message, mend = fault
    desk.error(name, message, path.place, mend)
    return None


def inside_folder(written: str, place: Place, what: str, desk: Desk) -> str | None:
    """The path of a file in the recipe's folder or in one in it, as the author would name it; None after reporting why
    it is none. `what` is what the file should be: `recipe`. Whether it is there is not looked at.
    """
    folder = Path(desk.file).parent
    fault = _elsewhere(written, folder, what)
    if fault is None:
        return str(folder / written)
    name, message, mend = fault
    desk.error(name, message, place, mend)
    return None


def theme(named: Text | None, desk: Desk) -> Text | None:
    """The name of a theme or the path of its folder in the recipe's; None after reporting that it leads elsewhere."""
    if named is None or inside_folder(named.value, named.place, "theme", desk) is None:
        return None
    return named


def _elsewhere(written: str, folder: Path, what: str) -> tuple[str, str, str] | None:
    name = f"{what} elsewhere"
    if "://" in written:
        return name, f"`{written}` is an address on the web.", f"Save the {what} in the recipe's folder."
    if "\\" in written:
        return name, "A backslash parts folders on some computers only.", "Part folders with /."
    if PurePosixPath(written).is_absolute() or PureWindowsPath(written).drive or written.startswith("~"):
        return (
            name,
            f"`{written}` starts at the top of one computer's folders, and another computer has other ones.",
            f"Put the {what} in the recipe's folder and write the path from there.",
        )
    try:
        if not (folder / written).resolve().is_relative_to(folder.resolve()):
            return (
                name,
                f"`{written}` leads out of the recipe's folder.",
                f"Put the {what} in the recipe's folder or in a folder in it.",
            )
    except (OSError, ValueError, RuntimeError):
        return f"{what} missing", f"`{written}` cannot be looked at.", "Look at the name and who may read it."
    return None


def _fault(written: str, folder: Path) -> tuple[str, str, str] | None:
    if (elsewhere := _elsewhere(written, folder, "picture")) is not None:
        return elsewhere
    try:
        found = (folder / written).resolve()
        if not found.is_file():
            return (
                "picture missing",
                f"There is no picture `{written}`.",
                "Put it there, or look at the name; large and small letters differ.",
            )
        size = found.stat().st_size
    except (OSError, ValueError, RuntimeError):
        return "picture missing", f"`{written}` cannot be looked at.", "Look at the name and who may read it."
    if found.suffix.lower() not in KINDS:
        return "no picture", f"`{written}` does not end like a picture: {', '.join(KINDS)}.", "Save it as one of these."
    if size > MOST_BYTES:
        return (
            "picture too large",
            f"`{written}` holds {size / 1_000_000:.0f} million bytes; {MOST_BYTES // 1_000_000} are the most.",
            "Save a smaller one; 2,000 points across are plenty in print.",
        )
    return None
