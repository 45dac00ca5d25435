"""YAML text to nodes, without recursion and within bounds; nothing is resolved, copied or constructed."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.recipe.nodes import Entry, Mapping, Node, Scalar, Sequence
from foldproof.recipe.shifts import Shifts, in_source

MOST_NESTED = 40
"""How deep lists and mappings may lie in each other."""
MOST_NODES = 50_000
"""How many values, lists and mappings a recipe may hold; a long recipe has some 2,000."""

LOADER: type[yaml.SafeLoader | yaml.CSafeLoader] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
ODD = re.compile("[\0-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")
"""A character that no text for people holds, whether it stands there or is written as an escape: "\\x1b"."""
_MEANT = re.compile(r"\s+(#[^\s#].*)")


_KEY_LINE = re.compile(r"\s*(?:- )?[A-Za-z][A-Za-z ]*:(?:\s|$)")


class TooMuchError(Exception):
    """The text nests too deep or holds too many nodes; carries the findings so far."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(findings[-1].message)
        self.findings = findings


class SwallowedError(yaml.YAMLError):
    """A quote left open runs on over keys to the next quote: valid YAML, and never meant."""

    context = "while scanning a quoted scalar"
    problem = "found keys"

    def __init__(self, event: yaml.ScalarEvent) -> None:
        super().__init__(self.problem)
        self.context_mark, self.problem_mark = event.start_mark, event.end_mark


def compose(text: str, file: str, shifts: Shifts | None = None) -> tuple[tuple[Node, ...], tuple[Finding, ...]]:
    """Read YAML into one node per document; aliases, anchors, tags and keys that come twice become findings.

    Places are those of the source that the text was mended from, by `shifts`. Raises yaml.YAMLError (marks kept) where
    the text is no YAML, and TooMuchError past the bounds.
    """
    composer = _Composer(text, file, shifts or {})
    return composer.documents(), tuple(composer.findings)


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet."""

    start: yaml.CollectionStartEvent
    children: list[Node]


class _Composer:
    """Turns the parser's events into nodes with a stack of its own, so that no depth can exhaust Python's."""

    def __init__(self, text: str, file: str, shifts: Shifts) -> None:
        self.text = text
        self.file = file
        self.shifts = shifts
        self.lines = text.split("\n")
        self.findings: list[Finding] = []
        self.copied: set[str] = set()

    def documents(self) -> tuple[Node, ...]:
        roots: list[Node] = []
        stack: list[_Open] = []
        for count, event in enumerate(self._events()):
            if count > MOST_NODES:
                self._too_much("too many values", f"The recipe holds more than {MOST_NODES:,} values.", event)
            node: Node
            if isinstance(event, yaml.CollectionStartEvent):
                self._no_extras(event)
                stack.append(_Open(start=event, children=[]))
                if len(stack) > MOST_NESTED:
                    self._too_much(
                        "nested too deep",
                        f"Lists and mappings lie more than {MOST_NESTED} deep in each other here.",
                        event,
                    )
                continue
            if isinstance(event, yaml.CollectionEndEvent):
                node = self._collection(stack.pop(), event)
            elif isinstance(event, yaml.AliasEvent):
                node = self._alias(event)
            elif isinstance(event, yaml.ScalarEvent):
                node = self._scalar(event)
            else:
                continue
            (stack[-1].children if stack else roots).append(node)
        return tuple(roots)

    def _events(self) -> Iterator[yaml.Event]:
        yield from yaml.parse(self.text, Loader=LOADER)

    def _too_much(self, name: str, message: str, event: yaml.Event) -> None:
        self._report(name, message, self._place(event), "One recipe is one card, and needs far less; look for a slip.")
        raise TooMuchError(tuple(self.findings))

    def _collection(self, opened: _Open, end: yaml.CollectionEndEvent) -> Node:
        length = None
        assert end.end_mark is not None and opened.start.start_mark is not None
        if opened.start.flow_style and end.end_mark.line == opened.start.start_mark.line:
            length = end.end_mark.column - opened.start.start_mark.column
        place = self._place(opened.start, length)
        if isinstance(opened.start, yaml.MappingStartEvent):
            return self._mapping(opened, place)
        return Sequence(items=tuple(opened.children), place=place)

    def _mapping(self, opened: _Open, place: Place) -> Mapping:
        entries: dict[str, Entry] = {}
        for key, value in zip(opened.children[::2], opened.children[1::2], strict=True):
            if not isinstance(key, Scalar):
                self._report(
                    "key is no word",
                    "A list or a mapping stands where a key belongs.",
                    key.place,
                    "Write a word before the colon. Text that starts with { or [ needs quotes around it.",
                )
            elif key.text in entries:
                self._report(
                    "written twice",
                    f"`{key.text}` is written twice here; only one of them could count.",
                    key.place,
                    "Keep one of the two, or give one another name.",
                    Aside(text="It is written here first.", place=entries[key.text].key.place),
                )
            else:
                entries[key.text] = Entry(key=key, value=value)
        return Mapping(entries=tuple(entries.values()), place=place, braces=opened.start.flow_style is True)

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        text = self._no_extras(event) + event.value
        place = self._place(event)
        if event.style in ("'", '"'):
            self._swallows_nothing(event)
        if odd := ODD.search(text):
            self._report(
                "odd character",
                f"An escape in these quotes makes a character that cannot be seen (U+{ord(odd[0]):04X}).",
                place,
                "Take it out, or double its backslash.",
            )
            text = ODD.sub(" ", text)
        if event.style in ("'", '"', "|", ">"):
            return Scalar(text=text, style=event.style, place=place)
        lost = self._lost_words(event)
        if lost is not None and text:
            self._report(
                "words lost to a comment",
                f"YAML drops `{lost}` here: a # with a space before it starts a comment.",
                place,
                "Put the whole value in quotes; or, if it is a comment, write a space after the #.",
                severity=Severity.WARNING,
            )
        return Scalar(text=text, style=None, place=place, lost=lost)

    def _swallows_nothing(self, event: yaml.ScalarEvent) -> None:
        """Raise what the parser would, had it seen that a quote left open runs on over keys to the next quote."""
        assert event.start_mark is not None and event.end_mark is not None
        first = self._line(event.start_mark.line)
        indent = len(first) - len(first.lstrip())
        for number in range(event.start_mark.line + 1, event.end_mark.line + 1):
            line = self._line(number)
            if len(line) - len(line.lstrip()) <= indent and _KEY_LINE.match(line):
                raise SwallowedError(event)

    def _lost_words(self, event: yaml.ScalarEvent) -> str | None:
        """A comment on the same line that looks like words meant: no space follows its #."""
        assert event.end_mark is not None
        found = _MEANT.match(self._line(event.end_mark.line), event.end_mark.column)
        return found[1].rstrip() if found else None

    def _alias(self, event: yaml.AliasEvent) -> Scalar:
        name = f"*{event.anchor}"
        place = self._place(event, length=len(name))
        if name not in self.copied:
            self.copied.add(name)
            self._report(
                "copy",
                f"`{name}`: a leading * makes YAML copy something marked &{event.anchor}. Recipes have no such copies.",
                place,
                f'Words that start with * go in quotes: "{name}". A value used twice is better a measure.',
            )
        return Scalar(text=name, style="*", place=place)

    def _no_extras(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> str:
        """Report an anchor or a tag; gives back the start of the text that YAML took for an anchor."""
        if event.tag is not None:
            shown = event.tag.replace("tag:yaml.org,2002:", "!!")
            self._report(
                "type mark",
                f"`{shown}`: a leading ! names a type for YAML to make. Recipes hold only words, lists and mappings.",
                self._place(event, length=1),
                "Take it out; words that start with ! go in quotes.",
            )
        if event.anchor is None:
            return ""
        self._report(
            "copy",
            f"`&{event.anchor}`: a leading & marks something for copying in YAML. Recipes have no such marks.",
            self._place(event, length=len(event.anchor) + 1),
            f'Words that start with & go in quotes: "&{event.anchor} ...".',
        )
        return f"&{event.anchor} "

    def _place(self, event: yaml.Event, length: int | None = None) -> Place:
        start, end = event.start_mark, event.end_mark
        assert start is not None and end is not None
        if length is None:
            if isinstance(event, yaml.MappingStartEvent) and event.flow_style is False:
                length = len(
                    self._line(start.line)[start.column :].split(":")[0]
                )  # the first key stands for the mapping
            elif end.line == start.line:
                length = end.column - start.column
            else:
                length = len(self._line(start.line).rstrip()) - start.column
        place = Place(file=self.file, line=start.line + 1, column=start.column + 1, length=max(1, length))
        return in_source(place, self.shifts)

    def _line(self, number: int) -> str:
        return self.lines[number] if number < len(self.lines) else ""

    def _report(
        self,
        name: str,
        message: str,
        place: Place,
        mend: str,
        aside: Aside | None = None,
        severity: Severity = Severity.ERROR,
    ) -> None:
        asides = (aside,) if aside else ()
        self.findings.append(
            Finding(name=name, severity=severity, message=message, mend=mend, place=place, asides=asides)
        )
