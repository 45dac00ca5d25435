"""Themes: how documents look. They travel inside the installed package; a theme changes looks and never facts.

A theme is laid over `plain`: its style sheets are read after plain's of the same names, its templates stand in their
place, and `colours.css` is whole in each. What it leaves out is plain's.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import TracebackType

from jinja2 import (
    BaseLoader,
    Environment,
    StrictUndefined,
    TemplateError,
    TemplateNotFound,
    TemplateSyntaxError,
)
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from foldproof.documents.contract import broken
from foldproof.documents.palette import FILE as COLOURS
from foldproof.documents.palette import faint, read_palette
from foldproof.documents.prose import line_to_html
from foldproof.documents.template_contract import broken_template
from foldproof.documents.theme_asks import asks_for_nothing
from foldproof.documents.theme_folders import PLAIN, theme_files, theme_folder, theme_names, themes_folder
from foldproof.documents.trouble import ThemeError

TOLD = 5
"""The most faults of a theme that are told at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """Templates and style sheets: plain's, and a folder's laid over them."""

    name: str
    folder: Path
    files: Mapping[str, bytes]
    """All files for the revision stamp: plain's by name, the theme's own as `NAME/FILE`."""
    environment: Environment

    @property
    def scripts(self) -> tuple[str, ...]:
        """The scripts that a page may have: plain's."""
        return tuple(self.text(name) for name in self.files if name.endswith(".js"))

    def text(self, name: str) -> str:
        """A file of plain as it stands: a script."""
        return self.files[name].decode()

    def style(self, *names: str) -> str:
        """Style sheets: the colours, then each sheet of plain with the theme's own of that name after it."""
        own = f"{self.name}/"
        colours = self.files.get(own + COLOURS, self.files[COLOURS])
        return "\n".join(data.decode() for data in (
            colours, *(self.files[key] for name in names for key in (name, own + name) if key in self.files)))

    def render(self, template: str, **facts: object) -> str:
        """Fill a template; every value is escaped unless it is markup already.

        Raises ThemeError, with the template and the line, when the template cannot be filled.
        """
        try:
            return self.environment.get_template(template).render(**facts)
        except TemplateSyntaxError as error:
            at = f"{error.name or template}, line {error.lineno}"
            raise ThemeError(f"theme {self.name}: {at}: {error.message}") from error
        except Exception as error:
            where = self._line(error.__traceback__)
            if where is None and not isinstance(error, TemplateError):
                raise
            what = f"{error.name} is missing" if isinstance(error, TemplateNotFound) else str(error)
            raise ThemeError(f"theme {self.name}: {where or template}: {what}") from error

    def look_at(self, document: str) -> str:
        """Which of the theme's own files have to do with a document of a set; empty where none has."""
        stem = document.split(".")[0]
        parts = {"page": ("page", "opening"), "paste-in": ("paste-in",)}.get(stem, (stem.split("-")[0],))
        return ", ".join(name for name in sorted(self._own()) if name.split(".")[0] in parts)

    def blamed(self, problem: str) -> str:
        """What a document says wrongly, `FILE: what`, with the theme's own files to look at."""
        document, parted, what = problem.partition(": ")
        own = self.look_at(document) if parted else ""
        return f"{document}: {what} (look at {own} of the theme {self.name})" if own else problem

    def _own(self) -> Iterator[str]:
        return (name.removeprefix(f"{self.name}/") for name in self.files if name.startswith(f"{self.name}/"))

    def _line(self, trace: TracebackType | None) -> str | None:
        """Where in the theme's files an error arose."""
        found = None
        while trace is not None:
            path = Path(trace.tb_frame.f_code.co_filename)
            if path.parent in (self.folder, themes_folder() / PLAIN):
                found = f"{path.name}, line {trace.tb_lineno}"
            trace = trace.tb_next
        return found


def load_theme(named: str = "") -> Theme:
    """A theme by its name, or a folder by its path; plain without either."""
    folder = theme_folder(named or PLAIN)
    if folder is None:
        raise ThemeError(f"there is no theme {named!r}; there is: {', '.join(theme_names()) or 'none'}")
    return read_theme(folder)


def read_theme(folder: Path) -> Theme:
    """The theme in a folder, held to its contract.

    Raises ThemeError, with file and line, where the folder can't be read or a file breaks the contract.
    """
    return _of_files(folder.resolve(), tuple(theme_files(folder).items()))


@lru_cache(maxsize=8)
def _of_files(whole: Path, read: tuple[tuple[str, bytes], ...]) -> Theme:
    """The theme of files that were read: a process that makes several documents fills the same templates again."""
    files, name = dict(read), whole.name
    under = {file: data for file, data in files.items() if "/" not in file}
    over = {file.partition("/")[2]: data for file, data in files.items() if "/" in file}
    if not over and whole != (themes_folder() / PLAIN).resolve():
        raise ThemeError(f"theme {name}: {whole} holds no .css and no .html file")
    for file, data in over.items():
        asks_for_nothing(name, file, data)
    faults = [fault for file, data in over.items() for fault in _faults(file, data, known=frozenset(under))]
    if faults:
        more = f"; and {len(faults) - TOLD} more" if len(faults) > TOLD else ""
        raise ThemeError(f"theme {name}: {'; '.join(faults[:TOLD])}{more}")
    environment = ImmutableSandboxedEnvironment(
        loader=_Laid(under, over, whole), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True)
    environment.filters["line"] = lambda text: Markup(line_to_html(str(text)))
    return Theme(name=name, folder=whole, files=files, environment=environment)


class _Laid(BaseLoader):
    """Templates that were read already: the theme's own, else plain's; `plain/NAME` is plain's in any case."""

    def __init__(self, under: Mapping[str, bytes], over: Mapping[str, bytes], folder: Path) -> None:
        plain = themes_folder() / PLAIN
        self._texts = {
            **{name: (data, plain / name) for name, data in under.items()},
            **{f"{PLAIN}/{name}": (data, plain / name) for name, data in under.items()},
            **{name: (data, folder / name) for name, data in over.items()}}

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        if template not in self._texts:
            raise TemplateNotFound(template)
        data, path = self._texts[template]
        return data.decode(), str(path), lambda: True


def _faults(file: str, data: bytes, known: frozenset[str]) -> Iterator[str]:
    """What is wrong with a file of a theme, as `FILE, line N: why`."""
    if file.endswith(".css") and file not in known:
        yield f"{file}: no document has a sheet of that name; there is {', '.join(sorted(_sheets(known)))}"
    yield from _found(file, data)


def _sheets(known: frozenset[str]) -> Iterator[str]:
    return (name for name in known if name.endswith(".css"))


@lru_cache(maxsize=128)
def _found(file: str, data: bytes) -> tuple[str, ...]:
    """The same file is looked at once: a build asks for its theme several times."""
    try:
        text = data.decode()
    except UnicodeDecodeError:
        return (f"{file}: it is no text in UTF-8",)
    if file == COLOURS:
        try:
            told = tuple(faint(read_palette(text)))
        except ThemeError as error:
            return (str(error),)
    else:
        told = tuple((broken if file.endswith(".css") else broken_template)(text))
    return tuple(f"{file}, line {line}: {why}" for line, why in dict.fromkeys(told))
