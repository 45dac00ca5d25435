"""What a theme may not do: have a document ask for anything."""

import re

from foldproof.documents.trouble import ThemeError

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_ESCAPE = re.compile(r"\\(?:([0-9a-fA-F]{1,6})\s?|(.))", re.DOTALL)
"""CSS Syntax, level 3, 4.3.7: a letter may be written by its number."""
_CSS_ASKS = re.compile(r"@import|@namespace|(?:url|src|image-set)\(", re.IGNORECASE)
_OWN = re.compile(r"url\(\s*[\"']?foldproof:", re.IGNORECASE)
_HTML_ASKS = re.compile(
    r"<(?:iframe|frame|object|embed|base|applet)\b"
    r"|\b(?:src|srcset|data|poster|background|action|formaction)\s*=\s*[\"']?\s*(?:(?!foldproof:)[a-z][a-z0-9+.-]*:|//)"
    r"|<link\b[^>]*(?:stylesheet|icon|preload|prefetch|import)|http-equiv\s*=\s*[\"']?refresh"
    r"|<meta\b[^>]*refresh",
    re.IGNORECASE)


def asks_for_nothing(theme: str, name: str, data: bytes) -> None:
    """Raise ThemeError where a style sheet or a template of a theme asks for something that no document holds."""
    text = data.decode(errors="replace")
    found = _HTML_ASKS.search(text) if name.endswith(".html") else None
    style = _OWN.sub("", _ESCAPE.sub(_written_out, _COMMENT.sub(lambda comment: "\n" * comment[0].count("\n"), text)))
    searched, found = (text, found) if found else (style, _CSS_ASKS.search(style))
    if found is not None:
        raise ThemeError(
            f"theme {theme}: {name} asks for something from elsewhere on line "
            f"{searched.count(chr(10), 0, found.start()) + 1} (`{found[0]}`); a document holds all it shows")


def _written_out(escape: re.Match[str]) -> str:
    if not escape[1]:
        return escape[2]
    code = int(escape[1], 16)
    return chr(code) if 0 < code < 0x110000 else " "
