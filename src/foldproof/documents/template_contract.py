"""What a theme's templates may not hold: scripts, and styles that hide.

This reads a template before it is filled; what it asks for from elsewhere is refused by `theme_asks`. What it leaves
out of a document, the audit finds (readback); what it brings by a way round this, `foreign` finds in the finished page.
"""

import re
from collections.abc import Collection, Iterator
from html.parser import HTMLParser

from foldproof.documents.contract import faults_of

_STYLE = re.compile(r"""\sstyle\s*=\s*(?:"([^"]*)"|'([^']*)')""", re.IGNORECASE)
_FILLING = "20"
"""What stands for a value while a style is looked at."""
_FILLED = re.compile(r"\{\{.*?\}\}", re.DOTALL)
_TOLD = re.compile(r"\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_FORBIDDEN_IN_MARKUP: dict[str, re.Pattern[str]] = {
    "a template has no script of its own": re.compile(
        r"<script\b(?!\s*(?:type=\"application/(?:ld\+)?json\")?\s*>\s*"
        r"(?:\{\{ (?:script|data|view\.opening\.data) \}\}\s*)?</script>)", re.I),
    "a template has no handlers of events": re.compile(r"<[^>]*\son[a-z]+\s*=", re.I),
    "a style sheet stands in a file of its own": re.compile(r"<style\b(?!>\s*\{\{\s*css\s*\}\}\s*</style>)", re.I),
}


def broken_template(text: str) -> Iterator[tuple[int, str]]:
    """What a template holds that a theme may not: the line, and why."""
    import tinycss2  # type: ignore[import-untyped, unused-ignore]

    plain = _blank(_TOLD, text, " ")
    for why, pattern in _FORBIDDEN_IN_MARKUP.items():
        for found in pattern.finditer(plain):
            yield plain.count("\n", 0, found.start()) + 1, why
    filled = _blank(_FILLED, plain, _FILLING)
    for style in _STYLE.finditer(filled):
        line = filled.count("\n", 0, style.start()) + 1
        written = style[1] or style[2] or ""
        for node in tinycss2.parse_blocks_contents(written, skip_comments=True, skip_whitespace=True):
            if node.type != "declaration":
                if written.strip() != _FILLING:
                    yield line, "its style cannot be read"
                continue
            if node.lower_name == "background" and tinycss2.serialize(node.value).strip() == "#fff":
                continue  # behind a drawing in a post, whose ground is not known
            for why in faults_of(node.lower_name, node.value, aside=False):
                yield line, f"{node.name}: {tinycss2.serialize(node.value).strip()}: {why}"


def _blank(pattern: re.Pattern[str], text: str, instead: str) -> str:
    """Each find replaced, its line breaks kept."""
    return pattern.sub(lambda found: instead + "\n" * found[0].count("\n"), text)


_LOADS = {
    **dict.fromkeys(("img", "script", "source", "video", "audio", "track", "input", "iframe", "embed"), "src"),
    **dict.fromkeys(("base", "use", "image", "link"), "href"), "object": "data", "form": "action"}


def foreign(page: str, scripts: Collection[str]) -> Iterator[str]:
    """What a finished page loads from outside, and scripts that are none of its own."""
    reader = _Foreign(scripts)
    reader.feed(page)
    reader.close()
    yield from dict.fromkeys(reader.found)
    if "Content-Security-Policy" not in page:
        yield 'it lacks <meta charset="utf-8">, after which stands the rule that keeps other scripts from running'


class _Foreign(HTMLParser):
    def __init__(self, scripts: Collection[str]) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self._scripts = {script.strip() for script in scripts}
        self._within = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = {name: value or "" for name, value in attrs}
        asked = named.get(_LOADS.get(tag, ""), "")
        if asked and not asked.startswith(("data:", "#")) and not (tag == "link" and named.get("rel") == "canonical"):
            self.found.append(f"it asks for {asked[:60]}")
        if "srcset" in named or named.get("http-equiv", "").lower() == "refresh":
            self.found.append(f"<{tag}> asks for something outside")
        self.found += [f"<{tag}> has {name}, a script" for name in named if name.startswith("on")]
        self.found += [f"<{tag}> leads to a script" for value in named.values()
                       if value.strip().lower().startswith("javascript:")]
        self._within = "" if tag != "script" or "json" in named.get("type", "") else tag

    def handle_data(self, data: str) -> None:
        if self._within and data.strip() not in self._scripts:
            self.found.append("it has a script that is none of its own")

    def handle_endtag(self, tag: str) -> None:
        self._within = ""
