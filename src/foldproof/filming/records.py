"""What a film plan holds: shots, set-ups, steps with their times, the order in which to film."""

from fractions import Fraction

from foldproof.frozen import dataclass
from foldproof.making.table import Done, Lie, StepMade, Table
from foldproof.paper.polygon import Box
from foldproof.recipe import actions as do
from foldproof.recipe.film_records import OVERHEAD, BeautySpec, ShotSpec

_ONCE = (
    do.CutOut, do.CutAcross, do.CutOff, do.CutBetween, do.DieCut, do.ScoreAt, do.ScoreBetween, do.Attach, do.Stamp,
    do.Tie, do.SlitAt, do.SlitBetween, do.CutAway, do.RoundCorners, do.Scallop,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A part of the table on which the camera is set."""

    root: str
    """The root of the body."""
    lie: Lie
    """How it is looked at: as it lies, unless something is put on the face that is down."""
    box: Box
    """x to the maker's right, y away from the maker, counted from the origin of the root's own frame."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What the camera shows; lengths in the recipe's unit, measured on the table (or upright, in front of the card)."""

    inside: tuple[str, ...]
    """Pieces, layers or panels that must be inside."""
    need: Fraction
    """The least width of a picture of the film's shape that holds them with room for hands."""
    width: Fraction
    """The width to set: that of the shot's set-up."""
    height: Fraction
    first: Spot | None = None
    """What it is set on when the camera starts; None where several bodies lie in it, or a card is held up."""
    last: Spot | None = None
    """What it is set on when the camera stops."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """A camera position with its lens distance: what shares one is filmed together."""

    letter: str
    """A, B, C, ... in the order in which they are first used."""
    framing: str
    """`overhead`, `front on` or `turntable`."""
    width: Fraction
    """The real width of the frame."""
    height: Fraction
    shots: tuple[str, ...]
    """The keys of its shots, in filming order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One shot."""

    key: str
    """The step's number and id, with a letter where a step has several: `2.score-the-doors`, `3.fold.b`; `start.1`
    and `end.1` for beauty shots."""
    number: int | None
    """The step's number; None for a beauty shot."""
    title: str
    framing: str
    """One of `FRAMINGS`."""
    done: tuple[Done, ...]
    """The actions that are done in it; none in an insert or a beauty shot."""
    step: StepMade | None
    spec: ShotSpec | BeautySpec | None
    before: Table
    """The table when the camera starts."""
    after: Table
    moment: tuple[Fraction, Fraction]
    """When in the making it starts and ends, counted in actions; a shot that shows only starts and ends at once."""
    say: str
    """The line as the author wrote it, on one line, references filled in; empty when nothing is said."""
    spoken: str
    """The same with its numbers as people say them."""
    cautions: tuple[str, ...]
    """What else is to be said, where a blade or heat comes in for the first time."""
    speaking: Fraction
    """Seconds to say all that."""
    seconds: Fraction
    estimated: bool
    """Whether the seconds are reckoned from the words and the hands."""
    hands: Fraction
    """Seconds that the hands are thought to need."""
    frame: Frame
    pieces: frozenset[str]
    """Every piece that is worked on or shown."""
    changed: frozenset[str]
    """The pieces that are not again what they were."""
    so_far: Fraction = Fraction(0)
    """Seconds from the start of the film to the end of this shot, in story order."""
    setup: str = ""
    """The letter of its set-up."""

    @property
    def overhead(self) -> bool:
        """Whether the camera looks straight down."""
        return self.framing in OVERHEAD

    @property
    def once(self) -> bool:
        """Whether another take needs new paper. What is only folded, turned or shown can be done again."""
        return any(isinstance(done.action, _ONCE) for done in self.done)


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmStep:
    """A step as the film tells it."""

    number: int
    id: str
    title: str
    say: str
    """Its lines, on one line, as the author wrote them."""
    spoken: str
    """The same with its numbers as people say them."""
    cautions: tuple[str, ...]
    """What else is to be said, where a blade or heat comes in for the first time."""
    speaking: Fraction
    """Seconds to say all that."""
    seconds: Fraction
    """Planned, all its shots together; 0 for a step that is done off camera."""
    start: Fraction
    """Seconds from the start of the film."""
    shots: tuple[str, ...]
    """Keys; none for a step that is done off camera."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Duplicate:
    """A second copy of some pieces, made before filming, that takes over from the first one at a shot."""

    pieces: tuple[str, ...]
    shot: str
    """The key of the first shot that it is used in."""
    steps: tuple[int, ...]
    """The numbers of the steps that are done on it beforehand."""
    seconds: Fraction
    """What the hands are thought to need for that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """How often the camera is set up with so many duplicates."""

    duplicates: int
    setups: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """An order in which to film."""

    shots: tuple[str, ...]
    """Keys, in filming order; steps done off camera have no key here."""
    changes: int
    """How often the camera is set up, the first time included."""
    fewest: bool
    """Whether it is proved that no order that can be filmed needs fewer."""
    duplicates: tuple[Duplicate, ...]
    choices: tuple[Choice, ...]
    """What other numbers of duplicates would give."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmPlan:
    """The whole film of one card."""

    steps: tuple[FilmStep, ...]
    """In story order: every step of the recipe, also those done off camera."""
    shots: tuple[Shot, ...]
    """In story order."""
    setups: tuple[SetUp, ...]
    order: Order
    prepared: tuple[StepMade, ...]
    """The steps that are done off camera."""
    bottom: str
    """The edge of the table at the bottom of an overhead picture: `maker` or `opposite`."""
    aspect: Fraction
    """The picture's width over its height."""
    rate: Fraction
    """Words a minute."""
    seconds: Fraction
    """The length of the film."""

    def shot(self, key: str) -> Shot:
        """The shot of that key."""
        return next(shot for shot in self.shots if shot.key == key)

    @property
    def filming_order(self) -> tuple[Shot, ...]:
        """The shots in filming order."""
        return tuple(self.shot(key) for key in self.order.shots)
