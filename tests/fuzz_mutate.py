"""Recipes changed as people change them: by lines and by whole parts, with values that other recipes give to a key."""

import random
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

_ENTRY = re.compile(r"^(?P<before>\s*(?:- )?)(?P<key>[^\s:#{}\[\],][^:{}\[\],]*): *(?P<value>.*)$")
_NUMBER = re.compile(r"-?\d[\d/. ]*\d|-?\d")
_VALUE = re.compile(r"(?<=: )[^,{}\[\]]+|(?<=\[)[^,\]]+|(?<=, )[^,:{}\[\]]+(?=[,\]}])")


def part_at(lines: Sequence[str], at: int) -> int:
    """One past the last line of the part that begins at a line: all that is set in deeper follows it."""
    end = at + 1
    while end < len(lines) and (not lines[end].strip() or _depth(lines[end]) > _depth(lines[at])):
        end += 1
    return end


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


@dataclass
class Stock:
    """What recipes give to each key: values on the key's line, and whole parts."""

    numbers: Sequence[str]
    values: dict[str, list[str]] = field(default_factory=dict)
    parts: dict[str, list[tuple[str, ...]]] = field(default_factory=dict)

    def take(self, text: str) -> None:
        """Add what a recipe has."""
        lines = text.split("\n")
        for at, line in enumerate(lines):
            entry = _ENTRY.match(line)
            if entry is None:
                continue
            if entry["value"]:
                self.values.setdefault(entry["key"], []).append(entry["value"])
            part = lines[at: part_at(lines, at)]
            if len(part) <= 40:
                self.parts.setdefault(entry["key"], []).append(tuple(one[_depth(line):] for one in part))


class Mutator:
    """Changes a text by one to four of its ways, by chance."""

    def __init__(self, stock: Stock, letters: Callable[[bytes], bytes]) -> None:
        """`letters` changes the bytes of a line without knowing what they mean."""
        self.stock, self.letters = stock, letters
        self.ways: tuple[Callable[[list[str], int, random.Random], None], ...] = (
            self.number, self.number, self.value, self.value, self.one_value, self.left_out, self.twice, self.part,
            self.part, self.added, self.moved, self.bytes)

    def __call__(self, text: str, seed: int) -> str:
        """The text, changed."""
        chance = random.Random(seed)
        lines = text.split("\n")
        for _ in range(chance.choice((1, 1, 1, 2, 2, 4))):
            chance.choice(self.ways)(lines, chance.randrange(len(lines)), chance)
            lines = lines or [""]
        return "\n".join(lines)

    def number(self, lines: list[str], at: int, chance: random.Random) -> None:
        """One number of the line for another."""
        self._put(lines, at, _NUMBER, self.stock.numbers, chance)

    def one_value(self, lines: list[str], at: int, chance: random.Random) -> None:
        """One value within the line for one that any key has."""
        self._put(lines, at, _VALUE, chance.choice(tuple(self.stock.values.values())), chance)

    def _put(
        self, lines: list[str], at: int, kind: re.Pattern[str], others: Sequence[str], chance: random.Random,
    ) -> None:
        spots = [match.span() for match in kind.finditer(lines[at])]
        if spots:
            start, end = chance.choice(spots)
            lines[at] = lines[at][:start] + chance.choice(others) + lines[at][end:]

    def value(self, lines: list[str], at: int, chance: random.Random) -> None:
        """What stands after the key for what a recipe has there."""
        entry = _ENTRY.match(lines[at])
        if entry is not None:
            others = self.stock.values.get(entry["key"]) or chance.choice(tuple(self.stock.values.values()))
            lines[at] = f"{entry['before']}{entry['key']}: {chance.choice(others)}"

    def left_out(self, lines: list[str], at: int, chance: random.Random) -> None:
        """A part is missing."""
        del lines[at: part_at(lines, at)]

    def twice(self, lines: list[str], at: int, chance: random.Random) -> None:
        """A part once more, or many times, each with a name of its own."""
        part = lines[at: part_at(lines, at)]
        for number in range(chance.choice((1, 1, 1, 3, 30))):
            name = re.sub(r"^(\s*)([\w -]+):", rf"\1\2 {number}:", part[0])
            lines[at:at] = [name, *part[1:]]
            if len(lines) > 1_500:
                break

    def part(self, lines: list[str], at: int, chance: random.Random) -> None:
        """A part for one that a recipe has under the same key."""
        entry = _ENTRY.match(lines[at])
        others = self.stock.parts.get(entry["key"]) if entry is not None else None
        if others:
            lines[at: part_at(lines, at)] = self._set_in(chance.choice(others), _depth(lines[at]))

    def added(self, lines: list[str], at: int, chance: random.Random) -> None:
        """Any part of any recipe, put in before a line."""
        others = chance.choice(tuple(self.stock.parts.values()))
        lines[at:at] = self._set_in(chance.choice(others), _depth(lines[at]))

    def moved(self, lines: list[str], at: int, chance: random.Random) -> None:
        """A part put elsewhere, as deep as what stands there."""
        part = lines[at: part_at(lines, at)]
        deep = _depth(part[0])
        del lines[at: at + len(part)]
        to = chance.randrange(len(lines) + 1)
        lines[to:to] = self._set_in([one[deep:] for one in part], _depth(lines[to]) if to < len(lines) else 0)

    def bytes(self, lines: list[str], at: int, chance: random.Random) -> None:
        """The letters of a line."""
        lines[at] = self.letters(lines[at].encode("utf-8", "surrogatepass")).decode("utf-8", "replace")

    def _set_in(self, part: Sequence[str], deep: int) -> list[str]:
        return [" " * deep + line for line in part]
