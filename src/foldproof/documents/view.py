"""What the documents say, settled once: the handout, the page and the shot list print these words and no others."""

from dataclasses import dataclass

from foldproof.documents.film_view import FilmView
from foldproof.documents.opening_view import OpeningView
from foldproof.drawing.record import Drawing
from foldproof.measures.quantity import Unit
from foldproof.tolerance.telling import Trouble


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One line of the card at a glance."""

    label: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished:
    """The card in one pose."""

    pose: str
    caption: str
    """The pose with its size: `Closed: 4 1/4 × 5 1/2 in`."""
    drawing: Drawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One row of the cut-and-score box: pieces or layers that are cut alike."""

    names: tuple[str, ...]
    count: int
    paper: str
    size: str
    scores: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A supply or a tool, or a paper."""

    name: str
    note: str
    """Empty when there is nothing to add."""
    offer: str = ""
    """How it is sold: `bottle for 40 cards, 3.20 USD`; for the page."""
    price: str = ""
    link: str = ""
    """Where it can be had: a web address; for the page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photograph of the author's."""

    name: str
    """A file name of our own making."""
    data: bytes
    kind: str
    """Its media type: `image/jpeg`, ..."""
    alt: str
    small: bytes = b""
    """The same with fewer dots, for inside the page; empty where there is no need."""
    width: int = 0
    height: int = 0
    """Its dots; 0 where they are not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What an earlier edition of a step had wrong."""

    day: str
    """As 2026-03-01."""
    when: str
    """The same in words."""
    text: str
    """HTML, made from the author's Markdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InFilm:
    """What the recording has of a step."""

    begins: str
    """`1:05`; empty where it is not known."""
    address: str
    """Where that moment can be seen; empty where no address is known."""
    corrections: tuple[str, ...]
    """What is said wrongly in the recording, and what is right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmTold:
    """What there is to say of the recording as a whole."""

    length: str
    """`12:30`."""
    address: str
    """Empty where none is known."""
    stamp: str
    corrections: tuple[str, ...]
    """Those that belong to no step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """Before the first glue: a picture of the work as it must lie, and one as it must not."""

    ask: str
    mend: str
    drawing: Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step, as all three documents tell it."""

    number: int
    id: str
    title: str
    prose: str
    """HTML, made from the author's Markdown, references filled in."""
    short: tuple[str, ...]
    """Its actions, one short instruction each: the numbers that all three documents must carry."""
    cautions: tuple[str, ...]
    tip: str
    """HTML; empty when there is none."""
    time: str
    """`3 min`; empty when the recipe gives none."""
    drawing: Drawing | None
    """For paper: its frames side by side."""
    tall: Drawing | None
    """The same for a screen: its frames one below the other, so that a phone shows them at their own size."""
    photo: Photo | None
    care: tuple[str, ...] = ()
    """Where a small error matters most, from the study of tolerances."""
    handwork: tuple[str, ...] = ()
    """How the hands share the work, where the edition is for left-handed makers."""
    film: InFilm | None = None
    """Its time in the finished recording, for the page; None without one."""
    check: Check | None = None
    """For the handout: where the step is the first that can't be undone."""
    corrections: tuple[Correction, ...] = ()
    """What earlier editions had wrong, the latest first; for the page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Everything that the documents say of one card."""

    name: str
    title: str
    summary: str
    """One line; empty when there is none."""
    language: str
    unit: Unit
    facts: tuple[Fact, ...]
    finished: tuple[Finished, ...]
    cuts: tuple[Cut, ...]
    cutting: Drawing | None
    tall_cutting: Drawing | None
    """The cutting list for a screen."""
    key: Drawing | None
    """What the lines of the drawings mean, for paper."""
    tall_key: Drawing | None
    scale: str = ""
    """How much smaller than life the drawings of the steps are on paper: `1:5`; parts drawn larger say so."""
    """The same for a screen."""
    papers: tuple[Listed, ...]
    supplies: tuple[Listed, ...]
    tools: tuple[Listed, ...]
    basic_tools: tuple[str, ...]
    steps: tuple[Step, ...]
    photo: Photo | None
    shooting: FilmView
    """The shot list and the cue sheet."""
    revision: str
    version: str
    dated: str
    """As given on the command line; empty otherwise."""
    troubles: tuple[Trouble, ...] = ()
    """What may have gone wrong, from the study of tolerances."""
    hands: str = ""
    """What the left-handed edition says before the steps; empty in any other."""
    edition: str = ""
    """What the edition's units are called; empty for the recipe as it is written."""
    film: FilmTold | None = None
    """The finished recording, where its times are known."""
    opening: OpeningView | None = None
    """The card that opens, for the page; None where there is no way to show."""
    published: str = ""
    """The address at which the page stands on the web; empty where the recipe names none."""

    @property
    def corrected(self) -> tuple[Step, ...]:
        """The steps of which earlier editions had something wrong."""
        return tuple(step for step in self.steps if step.corrections)

    @property
    def stamp(self) -> str:
        """What every document carries so that they can be told to belong together."""
        return ", ".join(filter(None, (f"revision {self.revision}", self.edition, self.dated)))

    @property
    def drawings(self) -> tuple[Drawing, ...]:
        """All drawings of the handout, in the order in which a reader meets them."""
        checks = (step.check.drawing for step in self.steps if step.check)
        return self._drawings(self.cutting, self.key, *checks, *(step.drawing for step in self.steps))

    @property
    def page_drawings(self) -> tuple[Drawing, ...]:
        """All drawings of the page."""
        return self._drawings(self.tall_cutting, self.tall_key, *(step.tall for step in self.steps))

    def _drawings(self, *others: Drawing | None) -> tuple[Drawing, ...]:
        found = (*(view.drawing for view in self.finished), *others)
        return tuple(drawing for drawing in found if drawing is not None)

    @property
    def photos(self) -> tuple[Photo, ...]:
        """All photographs."""
        found = (self.photo, *(step.photo for step in self.steps))
        return tuple(photo for photo in found if photo is not None)
