"""HTML to PDF. The printer sees only what it is handed by name: nothing is read from disk or from a network."""

import logging
import re
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING
from urllib.parse import unquote

from foldproof.documents.fonts import CUTS, face_rules, font_file
from foldproof.documents.trouble import PangoMissingError, ThemeError
from foldproof.documents.view import View

if TYPE_CHECKING:
    from types import ModuleType

    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

_LENGTH = re.compile(r'( ?)<span class="length">((?:[^<]|<span class="fraction">[^<]*</span>)*)')
_BLANK = re.compile(r" (?![^<>]*>)")
"""Outside of tags."""
_UNBROKEN = "\u00a0"

SCHEME = "foldproof:"
"""Own names: `foldproof:drawing/NAME.svg`, `foldproof:photo/NAME`, `foldproof:font/CUT`."""
FONT_RULES = face_rules(SCHEME + "font/{cut}")

MISSING_PANGO = (
    "Foldproof needs the Pango text library to make PDFs. Debian: apt install libpango-1.0-0 libpangoft2-1.0-0 "
    "libharfbuzz-subset0. macOS: brew install pango. Windows: install MSYS2, then pacman -S mingw-w64-x86_64-pango."
)


def materials(view: View) -> Mapping[str, tuple[str, bytes]]:
    """Everything that a document may ask for: media type and data by own name."""
    drawn = (*view.drawings, *view.shooting.drawings)
    drawings = {f"drawing/{drawing.name}.svg": ("image/svg+xml", drawing.svg.encode()) for drawing in drawn}
    photos = {f"photo/{photo.name}": (photo.kind, photo.data) for photo in view.photos}
    return {**drawings, **photos}


def to_pdf(page: str, material: Mapping[str, tuple[str, bytes]]) -> bytes:
    """Print HTML to a tagged PDF (PDF/UA-1).

    Raises PangoMissingError, or ThemeError where the HTML asks for anything that is not among the materials.
    """
    weasyprint = _weasyprint()
    printer = weasyprint.HTML(string=page, base_url=SCHEME, url_fetcher=_fetcher(material))
    try:
        return bytes(printer.write_pdf(pdf_variant="pdf/ua-1", font_config=_fonts()))
    except weasyprint.urls.FatalURLFetchingError as error:
        raise ThemeError(f"a template asks for something that no document holds: {error}") from error


def unbroken(page: str) -> str:
    """HTML whose lengths (`5 1/2 in`) are kept on one line by their own blanks rather than by a style.

    The blank before a length goes into its span: where words end close to the end of a line and a span follows, the
    printer breaks lines oddly (1 line in 400 of the demo recipes; none so).
    """
    return _LENGTH.sub(lambda found: f'<span class="length">{found[1]}{_BLANK.sub(_UNBROKEN, found[2])}', page)


def _weasyprint() -> "ModuleType":
    """Import it late: it takes half a second, and needs a library of the system's."""
    logging.getLogger("weasyprint").setLevel(logging.CRITICAL)
    logging.getLogger("fontTools").setLevel(logging.CRITICAL)
    try:
        import weasyprint
        import weasyprint.urls
    except OSError as error:
        raise PangoMissingError(MISSING_PANGO) from error
    found: ModuleType = weasyprint
    return found


@lru_cache(maxsize=1)
def _fonts() -> "FontConfiguration":
    """The fonts of all that a process prints: every document has the same, and the system's library for them keeps a
    quarter of a megabyte each time that it is begun anew.
    """
    from weasyprint.text.fonts import FontConfiguration

    return FontConfiguration()


def _fetcher(material: Mapping[str, tuple[str, bytes]]) -> "URLFetcher":
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OwnNames(URLFetcher):  # type: ignore[misc]
        """Gives out the materials and the fonts, and refuses everything else."""

        def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
            name = unquote(url.removeprefix(SCHEME))
            if url.startswith(SCHEME) and name in material:
                kind, data = material[name]
                return URLFetcherResponse(url, data, {"Content-Type": kind})
            if url.startswith(SCHEME + "font/") and name.removeprefix("font/") in CUTS:
                return URLFetcherResponse(url, font_file(name.removeprefix("font/")), {"Content-Type": "font/ttf"})
            raise ValueError(f"refused: {url[:80]}")

    return OwnNames(fail_on_errors=True)
