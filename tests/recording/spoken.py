"""Phrases that were said, and how many of their wrong numbers are found: `python tests/recording/spoken.py`."""

import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind
from foldproof.pipeline import prove
from foldproof.recording.heard import hear
from foldproof.recording.said import wrong_in
from foldproof.recording.transcript import Cue, Line

HERE = Path(__file__).resolve().parent
RECIPES = HERE.parent.parent / "recipes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """A phrase, the step that is shown, and the number in it that is wrong; minutes for a time."""

    line: int
    recipe: str
    step: int
    wrong: Fraction | None
    text: str


def phrases(file: Path = HERE / "spoken_phrases.txt") -> Iterator[Phrase]:
    recipe, step = "", 0
    for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), start=1):
        if heading := re.fullmatch(r"\[([\w-]+) (\d+)\]", line):
            recipe, step = heading[1], int(heading[2])
        elif found := re.fullmatch(r"(?:=|! (?P<wrong>[\d ./]+) =) (?P<text>.+)", line):
            wrong = sum(map(Fraction, found["wrong"].split())) if found["wrong"] else None
            yield Phrase(
                line=number,
                recipe=recipe,
                step=step,
                text=found["text"],
                wrong=Fraction(wrong) if wrong is not None else None,
            )
        elif line and not line.startswith("#"):
            raise ValueError(f"line {number}: {line}")


@cache
def card(recipe: str) -> Card:
    found = prove(RECIPES / f"{recipe}.yaml").card
    assert found is not None
    return found


def alarms(phrase: Phrase) -> tuple[Fraction, ...]:
    """The numbers that are taken to be wrong; times in minutes."""
    of = card(phrase.recipe)
    cues = [
        Cue(start=Fraction(2 * i), end=Fraction(2 * i + 2), lines=(Line(text=part.strip(), number=i + 1),))
        for i, part in enumerate(phrase.text.split(" / "))
    ]
    heard = hear(cues, "said.vtt", of.recipe.unit)
    steps = (phrase.step - 1,) if phrase.step else ()
    return tuple(
        mention.value / 60 if mention.kind is Kind.TIME else mention.value
        for mention, _ in wrong_in(of, heard.text, steps)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What was found."""

    wrong: int
    found: int
    right: int
    false_alarms: int
    misjudged: tuple[str, ...]


def tally(listed: Iterator[Phrase]) -> Tally:
    wrong = found = right = false = 0
    misjudged = []
    for phrase in listed:
        heard = alarms(phrase)
        expected = () if phrase.wrong is None else (phrase.wrong,)
        wrong, right = wrong + len(expected), right + (not expected)
        found += bool(expected) and phrase.wrong in heard
        false += bool(set(heard) - set(expected))
        if heard != expected:
            took = ", ".join(map(str, heard)) or "nothing"
            misjudged.append(f"line {phrase.line}: {phrase.text} ({took} taken for wrong)")
    return Tally(wrong=wrong, found=found, right=right, false_alarms=false, misjudged=tuple(misjudged))


def main() -> int:
    for file in sorted(HERE.glob("spoken_phrases*.txt")):
        result = tally(phrases(file))
        print(
            f"{file.name}: {result.wrong + result.right} phrases; {result.found} of {result.wrong} wrong numbers "
            f"found; "
            f"{result.false_alarms} phrases with a false alarm"
        )
        print(*(f"  {line}" for line in result.misjudged), sep="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
