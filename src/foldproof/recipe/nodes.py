"""YAML text to nodes with places. Every scalar stays the text that was written; nothing is resolved or constructed."""

from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from foldproof.findings.finding import Aside, Finding, Place, Severity

MOST_NESTED = 40
"""How deep lists and mappings may lie in each other."""
MOST_NODES = 50_000
"""How many values, lists and mappings a recipe may hold; a long recipe has some 2,000."""

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar:
    """A word, a number or a passage, as text."""

    text: str
    style: str | None
    """None for plain text, else the quote mark, `|` or `>`."""
    place: Place

    @property
    def empty(self) -> bool:
        """Whether nothing is written here: `key:` and then the end of the line."""
        return self.style is None and not self.text


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """A list."""

    items: tuple["Node", ...]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A key with its value."""

    key: Scalar
    value: "Node"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping:
    """Keys with values, in the order of writing; no key comes twice."""

    entries: tuple[Entry, ...]
    place: Place

    def value(self, key: str) -> "Node | None":
        """The value at a key."""
        return next((entry.value for entry in self.entries if entry.key.text == key), None)


Node = Scalar | Sequence | Mapping


class TooMuchError(Exception):
    """The text nests too deep or holds too many nodes; carries the finding."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet."""

    start: yaml.events.Event
    children: list[Node]


def compose(text: str, file: str) -> tuple[tuple[Node, ...], tuple[Finding, ...]]:
    """Read YAML into one node per document, without recursion and within bounds.

    Aliases, anchors and tags become findings. Raises yaml.YAMLError (marks kept) where the text is no YAML, and
    TooMuchError past the bounds.
    """
    composer = _Composer(text, file)
    return composer.documents(), tuple(composer.findings)


class _Composer:
    """Turns the parser's events into nodes with a stack of its own, so that no depth can exhaust Python's."""

    def __init__(self, text: str, file: str) -> None:
        self.text = text
        self.file = file
        self.lines = text.split("\n")
        self.findings: list[Finding] = []

    def documents(self) -> tuple[Node, ...]:
        roots: list[Node] = []
        stack: list[_Open] = []
        for count, event in enumerate(self._events()):
            if count > MOST_NODES:
                raise TooMuchError(self._error(
                    "too many values", f"The recipe holds more than {MOST_NODES:,} values: far more than a card needs.",
                    self._place(event), mend="Split it: one recipe, one card."))
            if isinstance(event, yaml.DocumentStartEvent):
                if event.tags:
                    self._tag(event, "%TAG")
                continue
            node: Node
            if isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
                self._no_extras(event)
                stack.append(_Open(start=event, children=[]))
                if len(stack) > MOST_NESTED:
                    raise TooMuchError(self._error(
                        "nested too deep", f"Lists and mappings lie more than {MOST_NESTED} deep in each other here.",
                        self._place(event), mend="Close the brackets opened before; a recipe needs fewer than ten."))
                continue
            if isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
                opened = stack.pop()
                node = self._mapping(opened) if isinstance(event, yaml.MappingEndEvent) else Sequence(
                    items=tuple(opened.children), place=self._place(opened.start))
            elif isinstance(event, yaml.AliasEvent):
                node = self._alias(event)
            elif isinstance(event, yaml.ScalarEvent):
                node = self._scalar(event)
            else:
                continue
            (stack[-1].children if stack else roots).append(node)
        return tuple(roots)

    def _events(self) -> Iterator[yaml.events.Event]:
        try:
            yield from yaml.parse(self.text, Loader=_LOADER)
        except RecursionError as error:  # neither parser recurses today; kept so that a change there stays a finding
            raise TooMuchError(self._error("nested too deep", "The recipe is nested too deep to be read.", Place(
                file=self.file, line=1, column=1))) from error

    def _mapping(self, opened: _Open) -> Mapping:
        entries: dict[str, Entry] = {}
        for key, value in zip(opened.children[::2], opened.children[1::2], strict=True):
            if not isinstance(key, Scalar):
                self.findings.append(self._error(
                    "key is no word", "A list or a mapping stands where a key belongs.", key.place,
                    mend="Write a word before the colon. Text that starts with { or [ needs quotes around it."))
            elif key.text in entries:
                self.findings.append(self._error(
                    "written twice", f"`{key.text}` is written twice here; only one of them could count.", key.place,
                    mend="Keep one of the two, or give one another name.",
                    asides=(Aside(text="It is written here first.", place=entries[key.text].key.place),)))
            else:
                entries[key.text] = Entry(key=key, value=value)
        return Mapping(entries=tuple(entries.values()), place=self._place(opened.start))

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        text = self._no_extras(event) + event.value
        return Scalar(text=text, style=event.style if event.style in ("'", '"', "|", ">") else None,
                      place=self._place(event))

    def _alias(self, event: yaml.AliasEvent) -> Scalar:
        assert event.anchor is not None
        place = self._place(event, length=len(event.anchor) + 1)
        self.findings.append(self._error(
            "alias", f"`*{event.anchor}`: a leading * makes YAML look for something marked &{event.anchor}. Recipes have "
            "no such copies.", place, mend=f'Words that start with * go in quotes: "*{event.anchor}". '
            "A value used twice is better a measure."))
        return Scalar(text=f"*{event.anchor}", style='"', place=place)

    def _no_extras(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> str:
        """Report an anchor or a tag; gives back the start of the text that YAML took for an anchor."""
        if event.tag is not None:
            self._tag(event, event.tag)
        if event.anchor is None:
            return ""
        self.findings.append(self._error(
            "anchor", f"`&{event.anchor}`: a leading & marks something for copying in YAML. Recipes have no such marks.",
            self._place(event, length=len(event.anchor) + 1),
            mend=f'Words that start with & go in quotes: "&{event.anchor} ...".'))
        return f"&{event.anchor} "

    def _tag(self, event: yaml.events.Event, tag: str) -> None:
        shown = tag.replace("tag:yaml.org,2002:", "!!")
        self.findings.append(self._error(
            "tag", f"`{shown}`: a leading ! names a type for YAML to make. Recipes hold only words, lists and mappings.",
            self._place(event, length=1), mend="Take it out; words that start with ! go in quotes."))

    def _place(self, event: yaml.events.Event, length: int | None = None) -> Place:
        start, end = event.start_mark, event.end_mark
        assert start is not None and end is not None
        if length is None:
            if isinstance(event, yaml.MappingStartEvent) and event.flow_style is False:
                length = self._word_length(start.line, start.column)
            elif end.line == start.line:
                length = end.column - start.column
            else:
                length = len(self._line(start.line).rstrip()) - start.column
        return Place(file=self.file, line=start.line + 1, column=start.column + 1, length=max(1, length))

    def _word_length(self, line: int, column: int) -> int:
        """The length of the first key of a block mapping."""
        return len(self._line(line)[column:].split(":")[0])

    def _line(self, number: int) -> str:
        return self.lines[number] if number < len(self.lines) else ""

    def _error(self, name: str, message: str, place: Place, *, mend: str | None = None,
               asides: tuple[Aside, ...] = ()) -> Finding:
        return Finding(name=name, severity=Severity.ERROR, message=message, mend=mend, place=place, asides=asides)
