"""What becomes of a slip: caught, harmless for one of a few reasons reckoned anew, or missed."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.checks.catalogue import run_checks
from foldproof.checks.directions.check import read_directions
from foldproof.findings.finding import Severity
from foldproof.folding.build import build_card
from foldproof.folding.card import Card, FlatPose, StandingPose
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.actions import Tie
from foldproof.recipe.reader import read_text
from foldproof.recipe.records import Recipe
from literals import quantities
from slips.slip import Slip, slipped
from slips.spots import part_span

SAME_CARD = "the same card: the sheets are still large enough and nothing else changes"
WITHIN_TOLERANCE = "within the stated tolerance: the stack still fits its envelope, and nothing else changes"
OTHER_HANDS = "the same card by other hands: it can be done so, and all that the steps say still holds"
STILL_TRUE = "still true: the table bears out the changed word"
NUMBERS = ("plan", "finished", "steps", "prose", "stock", "factors", "times", "counts in prose")
HANDS = (
    "turn removed",
    "turn doubled",
    "turn reversed",
    "edge or corner in the plan",
    "edge or corner in the steps",
    "fold flipped",
    "steps swapped",
    "actions swapped",
)
WORDS = ("left and right", "top and bottom", "front and back", "inside and outside", "turn words")
KINDS = (*NUMBERS, *HANDS, *WORDS)
REASONS = (SAME_CARD, WITHIN_TOLERANCE, OTHER_HANDS, STILL_TRUE)
"""The only reasons for which a slip may pass unreported."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A recipe's text after the whole check."""

    source: str
    faults: frozenset[tuple[str, str]]
    """Name and message of each error and warning."""
    recipe: Recipe | None
    card: Card | None
    making: Making | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What came of one slip."""

    slip: Slip
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
            findings += run_checks(card, making)
    faults = {(one.name, one.message) for one in findings if one.severity is not Severity.ADVICE}
    return Checked(source=text, faults=frozenset(faults), recipe=reading.recipe, card=card, making=making)


def check_again(sound: Checked, slip: Slip, file: str) -> Checked:
    """Check a recipe with a slip in it; what the slip cannot touch is taken over from the sound recipe.

    The plan is folded without a look at the steps, and the steps are carried out without a look at their words.
    """
    text = slipped(sound.source, slip)
    reading = read_text(text, file)
    recipe = reading.recipe
    in_steps = part_span(sound.source, "steps")
    if (
        recipe is None
        or not reading.whole
        or sound.card is None
        or sound.making is None
        or not in_steps[0] <= slip.start < in_steps[1]
    ):
        return check_text(text, file)
    card = replace(sound.card, recipe=recipe)
    if slip.kind in (*WORDS, "prose", "counts in prose") and len(recipe.steps) == len(sound.making.steps):
        making = replace(
            sound.making,
            steps=tuple(replace(made, spec=spec) for made, spec in zip(sound.making.steps, recipe.steps, strict=True)),
        )
    else:
        making = carry_out(card)
    faults = {
        (one.name, one.message)
        for one in (*reading.findings, *run_checks(card, making))
        if one.severity is not Severity.ADVICE
    }
    return Checked(source=text, faults=frozenset(faults), recipe=recipe, card=card, making=making)


def judge(sound: Checked, slip: Slip, file: str) -> Verdict:
    """Make the slip in a sound recipe and run the check."""
    changed = check_again(sound, slip, file)
    new = changed.faults - sound.faults
    outcome = "caught" if new else _harmless(sound, changed, slip) or "missed"
    return Verdict(slip=slip, outcome=outcome, by=tuple(sorted({name for name, _ in new})))


def _harmless(sound: Checked, changed: Checked, slip: Slip) -> str | None:
    """Why nothing needs to be reported, or None.

    Nothing of the card as it is made may differ: its pieces, places and poses. What is said and promised must be the
    same too, but for a word that the table bears out.
    """
    if sound.recipe is None or changed.recipe is None or _made(sound) is None or _made(sound) != _made(changed):
        return None
    if _still_true(changed, slip):
        return STILL_TRUE
    if _said(sound) != _said(changed) or not _long_enough(changed.recipe):
        return None
    if _thickness(sound) != _thickness(changed):
        return WITHIN_TOLERANCE if changed.recipe.finished.envelope and None not in _thickness(changed) else None
    if slip.kind in NUMBERS and _set(sound) != _set(changed):
        return None
    return SAME_CARD if slip.kind == "stock" else OTHER_HANDS if slip.kind in HANDS else None


def _still_true(changed: Checked, slip: Slip) -> bool:
    """Whether the program, reading the changed words, holds the changed one against the table and finds it true."""
    assert changed.card is not None and changed.making is not None
    for read in read_directions(changed.card, changed.making):
        place = read.place
        offset = sum(len(row) for row in changed.source.splitlines(keepends=True)[: place.line - 1]) + place.column - 1
        if offset <= slip.start < offset + len(read.phrase.written) and slip.start < slip.end:
            return read.verdict is not None and read.verdict.true
    return False


def _made(checked: Checked) -> object:
    """The card as it is made, by value, without the places of its numbers and without the order of making."""
    card, making = checked.card, checked.making
    if card is None or making is None:
        return None
    end = making.end
    return (
        card.panels,
        [(piece.name, piece.outline, [(score.name, score.segment) for score in piece.scores]) for piece in card.pieces],
        [(bond.name, bond.fit) for bond in card.bonds],
        [
            (pose.name, pose.placements, pose.over) if isinstance(pose, FlatPose) else (pose.name, pose.frames)
            for pose in card.poses
            if isinstance(pose, FlatPose | StandingPose)
        ],
        sorted(
            (
                name,
                str(piece.outline),
                sorted(str((sorted((c.segment.start, c.segment.end)), c.pressed)) for c in piece.creases),
            )
            for name, piece in end.pieces.items()
        ),
        sorted((bond.name, str(bond.fit)) for bond in end.bonds),
        sorted((one.panel, one.face) for one in end.stamped),
        sorted(end.folded),
    )


def _said(checked: Checked) -> object:
    """What the steps say and what is promised, as written, whatever the order of the steps."""
    assert checked.recipe is not None
    steps = sorted((str(s.title), str(s.text), str(s.say), str(s.tip), str(s.caution)) for s in checked.recipe.steps)
    return steps, [number.value for number in quantities(checked.recipe.finished)]


def _set(checked: Checked) -> object:
    """What the steps set, in their order."""
    assert checked.recipe is not None
    return [[number.value for number in quantities(step.actions)] for step in checked.recipe.steps]


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


def names_of(verdicts: Iterable[Verdict]) -> list[str]:
    """Which faults caught them, with repeats."""
    return [name for verdict in verdicts for name in verdict.by]
