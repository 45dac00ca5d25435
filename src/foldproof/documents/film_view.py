"""What the shot list and the cue sheet say, settled once."""

from dataclasses import dataclass
from fractions import Fraction

from foldproof.drawing.record import Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmShot:
    """One shot."""

    key: str
    """The step's number and id, and a letter where a step has several shots: `2.score-the-doors`, `3.fold.b`."""
    label: str
    """The same for a person: `2`, `3b`, `start 1`."""
    title: str
    framing: str
    setup: str
    """The letter of its set-up."""
    place: int
    """Its place in the filming order, from 1."""
    width: str
    """The frame's real width: `12 in`."""
    height: str
    inside: str
    """What must be inside the frame."""
    bottom: str
    """What is at the bottom of the picture."""
    table: tuple[str, ...]
    """What lies in the picture when the camera starts, and how."""
    after: tuple[str, ...]
    """The same when it stops."""
    ready: tuple[str, ...]
    """What must be so before the camera starts: tools, blade, drying, clean hands, what lies aside."""
    hands: tuple[str, ...]
    line: str
    """The line as the author wrote it."""
    say: str
    """The line with its numbers as people say them; empty when nothing is said."""
    goes_on: str
    """The label of the shot whose line goes on in this one; empty where there is none."""
    cautions: tuple[str, ...]
    """What else is to be said, where a blade or heat comes in."""
    speaking: int
    """Seconds to say all that."""
    seconds: Fraction
    estimated: bool
    """Whether the seconds are reckoned from the words and the hands rather than given by the recipe."""
    so_far: Fraction
    """Seconds from the start to the end of this shot, in story order."""
    once: bool
    """Whether it cannot be repeated on the same paper."""
    opens: bool
    """Whether the camera is set up anew for it."""
    drawing: Drawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmSetUp:
    """One set-up of the camera."""

    letter: str
    camera: str
    width: str
    height: str
    shots: str
    """The labels of its shots, in filming order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmThing:
    """Something to have ready."""

    name: str
    note: str
    first: str
    """The label of the shot that needs it first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepTime:
    """How long a step runs."""

    label: str
    title: str
    start: Fraction
    seconds: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmView:
    """Everything that the shot list and the cue sheet say."""

    shots: tuple[FilmShot, ...]
    """In story order."""
    setups: tuple[FilmSetUp, ...]
    things: tuple[FilmThing, ...]
    """Papers, tools and supplies, in the order in which filming needs them."""
    prepared: tuple[FilmThing, ...]
    """Pieces that are made before filming, with their count and state."""
    steps: tuple[StepTime, ...]
    order: tuple[str, ...]
    """What is to be known of the filming order: how often the camera is set up, and what duplicates would save."""
    rate: str
    """Words a minute."""
    total: Fraction
    """The length of the film in seconds."""

    @property
    def filming(self) -> tuple[FilmShot, ...]:
        """The shots in filming order."""
        return tuple(sorted(self.shots, key=lambda shot: shot.place))

    @property
    def drawings(self) -> tuple[Drawing, ...]:
        """The pictures of the frames, in filming order."""
        return tuple(shot.drawing for shot in self.filming if shot.drawing is not None)
