"""Change every length of a recipe by 1/16 inch (1 mm), one at a time, and count how many such errors are caught.

    python tests/wrong_numbers.py [RECIPE ...]

Each length literal is changed where it stands in the text, up and down, and the whole check runs on the result. A
change is *caught* when the check reports an error or a warning that the sound recipe does not have; *harmless* when
one of the reasons below holds, reckoned anew for that change; *missed* otherwise, and then it is listed. Numbers of
the stock (thickness and sheet of a paper, measures of a supply) are counted apart. Exit status 1 when any length of
the card itself is missed.
"""

import argparse
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

from foldproof.checks.catalogue import run_checks
from foldproof.findings.finding import Severity
from foldproof.folding.build import build_card
from foldproof.folding.card import Card, FlatPose, StandingPose
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.recipe.actions import Tie
from foldproof.recipe.reader import read_text
from foldproof.recipe.records import Recipe
from literals import Literal, left_alone, literals, quantities, replaced

RECIPES = Path(__file__).resolve().parent.parent / "recipes"

SAME_CARD = "the same card: the sheets are still large enough and nothing else changes"
WITHIN_TOLERANCE = "within the stated tolerance: the stack still fits its envelope, and nothing else changes"
REASONS = (SAME_CARD, WITHIN_TOLERANCE)
"""The only reasons for which a change may pass unreported."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A recipe's text after the whole check."""

    faults: frozenset[tuple[str, str]]
    """Name and message of each error and warning."""
    recipe: Recipe | None
    card: Card | None
    making: Making | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What came of one change."""

    literal: Literal
    value: Fraction
    """What was written instead."""
    outcome: str
    """`caught`, `missed`, or one of the reasons."""
    by: tuple[str, ...] = ()
    """The names of the faults that caught it."""


def check_text(text: str, file: str) -> Checked:
    """Run the whole check on a recipe's text, as `foldproof check` does on a file."""
    reading = read_text(text, file)
    findings = [*reading.findings]
    card = making = None
    if reading.recipe is not None and reading.whole:
        card, more = build_card(reading.recipe)
        findings += more
        if card is not None:
            making = carry_out(card)
            findings += run_checks(card, making, reading.source)
    faults = {(one.name, one.message) for one in findings if one.severity is not Severity.ADVICE}
    return Checked(faults=frozenset(faults), recipe=reading.recipe, card=card, making=making)


def try_change(path: Path, literal: Literal, value: Fraction) -> Verdict:
    """Write another value in a literal's place and run the check."""
    source, sound = _sound(path)
    changed = check_text(replaced(source, literal, value), path.name)
    new = changed.faults - sound.faults
    outcome = "caught" if new else _harmless(sound, changed) or "missed"
    return Verdict(literal=literal, value=value, outcome=outcome, by=tuple(sorted({name for name, _ in new})))


def changes(path: Path) -> Iterator[tuple[Path, Literal, Fraction]]:
    """Every change to try on a recipe."""
    source, sound = _sound(path)
    assert sound.recipe is not None, f"{path.name} can't be read"
    step = Fraction(1, 16) if sound.recipe.unit is Unit.INCH else Fraction(1)
    for literal in literals(sound.recipe, source):
        for value in (literal.value + step, literal.value - step):
            yield path, literal, value


@cache
def _sound(path: Path) -> tuple[str, Checked]:
    source = path.read_text(encoding="utf-8")
    return source, check_text(source, path.name)


def _harmless(sound: Checked, changed: Checked) -> str | None:
    """Why nothing needs to be reported, or None.

    Nothing of the card as it is made may differ: its pieces, places and poses, what the steps set, what the prose says
    and what is promised. The thickness of the folded stack may, when it is known and the envelope's check has passed.
    """
    if sound.recipe is None or changed.recipe is None:
        return None
    if _made(sound) != _made(changed) or _said(sound) != _said(changed) or not _long_enough(changed.recipe):
        return None
    if _thickness(sound) == _thickness(changed):
        return SAME_CARD
    return WITHIN_TOLERANCE if changed.recipe.finished.envelope and None not in _thickness(changed) else None


def _made(checked: Checked) -> object:
    """The card as it is made, by value, without the places of its numbers."""
    card, making = checked.card, checked.making
    if card is None or making is None:
        return None
    return (
        card.panels,
        [(piece.name, piece.outline, [(score.name, score.segment) for score in piece.scores]) for piece in card.pieces],
        [(bond.name, bond.fit) for bond in card.bonds],
        [pose.placements if isinstance(pose, FlatPose) else pose.frames for pose in card.poses
         if isinstance(pose, FlatPose | StandingPose)],
        [(name, piece.outline) for name, piece in making.end.pieces.items()],
        [(bond.name, bond.fit) for bond in making.end.bonds])


def _said(checked: Checked) -> object:
    """What the steps set and say, and what is promised, as written."""
    recipe = checked.recipe
    assert recipe is not None
    steps = [(str(step.text), str(step.say), str(step.tip), str(step.caution),
              [number.value for number in quantities(step.actions)]) for step in recipe.steps]
    return steps, [number.value for number in quantities(recipe.finished)]


def _long_enough(recipe: Recipe) -> bool:
    """Whether every ribbon or thread that is listed with a length is as long as what the steps tie with it."""
    tied: dict[str, Fraction] = {}
    for action in (action for step in recipe.steps for action in step.actions):
        if isinstance(action, Tie) and action.length is not None:
            tied[action.supply] = tied.get(action.supply, Fraction(0)) + action.length.value
    return all(one.length is None or one.length.value >= tied.get(one.name.value, 0) for one in recipe.supplies)


def _thickness(checked: Checked) -> list[Fraction | None]:
    assert checked.card is not None
    return [pose.thickness for pose in checked.card.poses if isinstance(pose, FlatPose)]


def _told(path: Path, verdicts: Sequence[Verdict]) -> Iterator[str]:
    """What the program prints of one recipe."""
    lines = _sound(path)[0].splitlines()
    for title, chosen in (
        ("lengths of the card", [v for v in verdicts if v.literal.group != "stock"]),
        ("stock", [v for v in verdicts if v.literal.group == "stock"]),
    ):
        count = Counter(verdict.outcome for verdict in chosen)
        harmless = sum(count[reason] for reason in REASONS)
        yield (f"{path.stem}, {title}: tried {len(chosen)}, caught {count['caught']}, harmless {harmless}, "
               f"missed {count['missed']}")
        yield from (f"    {count[reason]} {reason}" for reason in REASONS if count[reason])
        for verdict in chosen:
            if verdict.outcome == "missed":
                at, was = verdict.literal.line, verdict.literal.value
                yield f"    missed at line {at}, {was} to {verdict.value}: {lines[at - 1].strip()}"


def _tally(verdicts: Sequence[Verdict]) -> Iterator[str]:
    """The totals over all recipes."""
    for group in ("plan", "finished", "steps", "prose", "stock"):
        count = Counter(verdict.outcome for verdict in verdicts if verdict.literal.group == group)
        harmless = sum(count[reason] for reason in REASONS)
        tried = sum(count.values())
        share = f" ({100 * count['caught'] / tried:.1f} % caught)" if tried else ""
        yield (f"{group}: tried {tried}, caught {count['caught']}, harmless {harmless}, "
               f"missed {count['missed']}{share}")


def main(arguments: Sequence[str] | None = None) -> int:
    """Try every change on the recipes named, or on all demo recipes."""
    parser = argparse.ArgumentParser(description="Change every length of a recipe and count what is caught.")
    parser.add_argument("recipes", nargs="*", type=Path, metavar="RECIPE")
    parser.add_argument("--left", action="store_true", help="list the numbers in prose that are no lengths, and stop")
    parser.add_argument("--by", action="store_true", help="also list which faults caught the changes")
    chosen = parser.parse_args(arguments)
    paths = chosen.recipes or sorted(RECIPES.glob("*.yaml"))
    if chosen.left:
        for path in paths:
            source, sound = _sound(path)
            if sound.recipe is not None:
                print(*(f"{path.name}:{line}: {words}" for line, words in left_alone(sound.recipe, source)), sep="\n")
        return 0
    for path in paths:
        for name, message in sorted(_sound(path)[1].faults):
            print(f"{path.stem} is not sound: {name}: {message}")
    with ProcessPoolExecutor(2) as pool:
        verdicts = {path: list(pool.map(_try, list(changes(path)), chunksize=8)) for path in paths}
    for path in paths:
        print(*_told(path, verdicts[path]), sep="\n")
    every = [verdict for path in paths for verdict in verdicts[path]]
    print(*_tally(every), sep="\n")
    if chosen.by:
        print(*(f"{count:6} {name}" for name, count in Counter(
            name for verdict in every for name in verdict.by).most_common()), sep="\n")
    return int(any(v.outcome == "missed" and v.literal.group != "stock" for v in every))


def _try(change: tuple[Path, Literal, Fraction]) -> Verdict:
    return try_change(*change)


if __name__ == "__main__":
    sys.exit(main())
