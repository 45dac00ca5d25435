"""How long hands are thought to need for an action. Guesses of our own, no source: a recipe's seconds go before."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.recipe import actions as do

_SECONDS: tuple[tuple[type[do.Doing], int], ...] = (
    (do.CutOut, 8), (do.CutAcross, 6), (do.CutOff, 6), (do.CutBetween, 8), (do.DieCut, 6), (do.SetBlade, 8),
    (do.Lay, 3), (do.MarkAt, 6), (do.ScoreAt, 5), (do.ScoreBetween, 8), (do.Turn, 2), (do.TurnOver, 2),
    (do.FoldOn, 5), (do.Tuck, 4), (do.Unfold, 3), (do.Attach, 10), (do.Stamp, 8), (do.Tie, 15), (do.Dry, 0),
    (do.BringTo, 10), (do.SlitAt, 6), (do.SlitBetween, 8), (do.CutAway, 6), (do.RoundCorners, 6), (do.Scallop, 12),
    (do.SlideIn, 6), (do.Measure, 4), (do.Note, 4),
)
_OTHER = 4
SHOWN_SECONDS = Fraction(5)
"""For a shot in which hands do nothing."""
ROUND_TO = 5


def action_seconds(action: do.Action) -> Fraction:
    """Seconds for one action; drying is cut out of a film."""
    return Fraction(next((seconds for kind, seconds in _SECONDS if isinstance(action, kind)), _OTHER))


def hand_seconds(actions: Iterable[do.Action]) -> Fraction:
    """Seconds for several."""
    return sum((action_seconds(action) for action in actions), Fraction(0))


def rounded_up(seconds: Fraction) -> Fraction:
    """Up to the next five seconds, five at least."""
    return Fraction(max(1, -(-seconds // ROUND_TO)) * ROUND_TO)
