"""Where themes are. Light, so that the command line can name them without loading what fills them."""

from collections.abc import Mapping
from pathlib import Path


def themes_folder() -> Path:
    """Where themes are: in the installed package, or beside `src` in a source checkout. Never the current folder."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent.parent / "themes"


def theme_names() -> tuple[str, ...]:
    """The names of the themes that there are."""
    folder = themes_folder()
    return tuple(sorted(path.name for path in folder.iterdir() if path.is_dir())) if folder.is_dir() else ()


def theme_files(folder: Path) -> Mapping[str, bytes]:
    """All files of a theme by name."""
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir()) if path.is_file()}
