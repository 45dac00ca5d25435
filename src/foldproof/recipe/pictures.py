"""Photographs beside a recipe: paths that lead to a picture inside its folder and nowhere else."""

from pathlib import Path, PurePosixPath, PureWindowsPath

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


def _fault(written: str, folder: Path) -> tuple[str, str, str] | None:
    if "://" in written:
        return "picture elsewhere", f"`{written}` is an address on the web.", "Save the picture in the recipe's folder."
    if "\\" in written:
        return "picture elsewhere", "A backslash parts folders on some computers only.", "Part folders with /."
    if PurePosixPath(written).is_absolute() or PureWindowsPath(written).drive or written.startswith("~"):
        return (
            "picture elsewhere",
            f"`{written}` starts at the top of one computer's folders, and another computer has other ones.",
            "Put the picture in the recipe's folder and write the path from there.",
        )
    try:
        inside, found = folder.resolve(), (folder / written).resolve()
        if not found.is_relative_to(inside):
            return (
                "picture elsewhere",
                f"`{written}` leads out of the recipe's folder.",
                "Put the picture in the recipe's folder or in a folder in it.",
            )
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
