"""How a card is filmed, as written: the shots of a step, and what holds for the whole film."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.recipe.text import Text

FRAMINGS = ("overhead wide", "overhead", "overhead close", "front on", "turntable", "off camera")
"""How the camera sees the table, and the word for a step that is done before filming."""
OVERHEAD = FRAMINGS[:3]
STANDING = ("front on", "turntable")
OFF_CAMERA = "off camera"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotSpec:
    """One shot of a step."""

    framing: Text | None
    """One of `FRAMINGS`; from what hands do unless said."""
    seconds: Quantity | None
    say: Text | None
    actions: Quantity | None
    """How many of the step's actions are done in it, in their order."""
    of: Text | None
    """The id of another step whose work is shown, as that step leaves it."""
    inside: tuple[Text, ...]
    """Pieces, layers and panels that must be inside the frame, instead of those that are worked on."""
    width: Quantity | None
    """The real width of what the frame shows."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class BeautySpec:
    """A shot of the finished card."""

    pose: Text
    framing: str
    """`front on`, `turntable` or `overhead`."""
    when: str
    """`start` or `end` of the film."""
    seconds: Quantity | None
    say: Text | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmSpec:
    """What holds for the whole film."""

    bottom: str
    """The edge of the table at the bottom of an overhead picture: `maker` or `opposite`."""
    picture: str
    """The picture's shape: `wide`, `tall` or `square`."""
    rate: Quantity | None
    """Words a minute."""
    longest_silence: Quantity | None
    duplicates: Quantity | None
    """How many duplicates the teacher is ready to prepare so that the camera moves less."""
    beauty: tuple[BeautySpec, ...]
    place: Place
