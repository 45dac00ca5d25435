"""An author's Markdown as HTML that is safe to print, with fractions that set well and copy well.

A mixed number becomes `5 <span class="fraction">1/2</span>` inside a span that does not break: a theme may raise the
fraction's figures, and text copied from the page still reads `5 1/2`.
"""

import html
import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from html.parser import HTMLParser
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.token import Token

_NUMBER = r"(?:\d+[ \u00a0-])?\d+/\d+|\d+(?:\.\d+)?"
_LENGTH = re.compile(
    rf"(?<![\w./])(?P<sizes>(?:{_NUMBER})(?: × (?:{_NUMBER}))*)(?![\w/])"
    r"(?P<unit>[ \u00a0](?:in|inch|inches|mm|cm|min|s|h|g|oz)\b)?"
)
_FRACTION = re.compile(r"(?:(\d+)[ \u00a0-])?(\d+/\d+)")
_TIMES = re.compile(r"(?<=[\d”\"′″a-z½¼¾⅛⅜⅝⅞]) x (?=\d|[½¼¾⅛⅜⅝⅞])")
_SAFE_LINK = re.compile(r"(?:https?://|mailto:)", re.IGNORECASE)


def set_fractions(escaped: str) -> str:
    """Wrap the lengths and sizes in text that is escaped already; a by-sign stands between the sides of a size."""
    return _LENGTH.sub(_wrap, _TIMES.sub(" × ", escaped))


def _wrap(match: re.Match[str]) -> str:
    """A bare whole number stays as it is; all else is kept on one line."""
    sizes = match["sizes"]
    if not match["unit"] and "/" not in sizes and "×" not in sizes:
        return match[0]
    return f'<span class="length">{_FRACTION.sub(_raise, sizes)}{match["unit"] or ""}</span>'


def _raise(match: re.Match[str]) -> str:
    return f'{f"{match[1]} " if match[1] else ""}<span class="fraction">{match[2]}</span>'


def to_html(markdown: str) -> str:
    """Paragraphs, lists, emphasis, links and code; no raw HTML, headings, pictures or other kinds of link."""
    return str(_reader().render(markdown)).strip()


def line_to_html(text: str) -> str:
    """One plain line (no Markdown) as HTML."""
    return set_fractions(html.escape(text))


def plain(markup: str) -> str:
    """What a reader sees of some HTML, on one line."""
    parser = _Text()
    parser.feed(markup)
    parser.close()
    return " ".join("".join(parser.said).split())


class _Text(HTMLParser):
    """Collects text; blocks are kept apart."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.said: list[str] = []

    def handle_data(self, data: str) -> None:
        self.said.append(data)

    def handle_endtag(self, tag: str) -> None:
        if tag in ("p", "li", "blockquote", "pre", "div", "h1", "h2", "h3", "td", "th"):
            self.said.append("\n")


@lru_cache(maxsize=1)
def _reader() -> MarkdownIt:
    reader = MarkdownIt("commonmark", {"html": False, "breaks": False})
    reader.disable(["image", "heading", "lheading", "html_block", "html_inline", "code", "reference"])
    reader.validateLink = lambda url: _SAFE_LINK.match(url) is not None  # type: ignore[method-assign]
    reader.add_render_rule("text", _render_text)
    return reader


def _render_text(_self: Any, tokens: Sequence[Token], index: int, _options: Mapping[str, Any], _env: Any) -> str:
    return set_fractions(html.escape(tokens[index].content, quote=False))
