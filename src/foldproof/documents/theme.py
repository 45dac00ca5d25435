"""Themes: how documents look. They travel inside the installed package; a theme changes looks and never facts."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType

from jinja2 import Environment, FileSystemLoader, StrictUndefined, TemplateError, TemplateNotFound, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from foldproof.documents.prose import line_to_html
from foldproof.documents.theme_asks import asks_for_nothing
from foldproof.documents.theme_folders import theme_files, theme_names, themes_folder
from foldproof.documents.trouble import ThemeError


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """A folder of templates and style sheets."""

    name: str
    folder: Path
    files: Mapping[str, bytes]
    """All its files by name, for the revision stamp."""
    environment: Environment

    def text(self, name: str) -> str:
        """A file of the theme as it stands."""
        if name not in self.files:
            raise ThemeError(f"theme {self.name}: {name} is missing")
        return self.files[name].decode()

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

    def _line(self, trace: TracebackType | None) -> str | None:
        """Where in the theme's files an error arose."""
        found = None
        while trace is not None:
            path = Path(trace.tb_frame.f_code.co_filename)
            if path.parent == self.folder:
                found = f"{path.name}, line {trace.tb_lineno}"
            trace = trace.tb_next
        return found


def load_theme(name: str) -> Theme:
    """A theme by its name."""
    if name not in theme_names():
        raise ThemeError(f"there is no theme {name!r}; there is: {', '.join(theme_names()) or 'none'}")
    return read_theme(themes_folder() / name)


def read_theme(folder: Path) -> Theme:
    """A theme in a folder. Raises ThemeError where it leads out of it, or asks for anything from elsewhere.

    Its scripts run in the reader's browser and are not looked at; the page's own policy keeps them from the network.
    """
    files = theme_files(folder)
    for name, data in files.items():
        asks_for_nothing(folder, name, data)
    environment = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader(folder), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True,
    )
    environment.filters["line"] = lambda text: Markup(line_to_html(str(text)))
    return Theme(name=folder.name, folder=folder, files=files, environment=environment)
