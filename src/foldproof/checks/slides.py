"""What slides, turns or is held without a hinge: whether it has the room that it needs."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import combinations

from foldproof.checks.check import error, warning
from foldproof.checks.phrases import length, small
from foldproof.findings.finding import Finding
from foldproof.folding.bonds import looked_at
from foldproof.folding.card import Card
from foldproof.folding.words import root
from foldproof.frozen import dataclass
from foldproof.making.table import Making
from foldproof.paper.polygon import Box, Where, bounding_box, locate
from foldproof.paper.vector import Point, Ring
from foldproof.recipe.actions import SlideIn
from foldproof.recipe.records import GlueSpec
from foldproof.recipe.slide_records import Hold, SlideSpec

JAMS = error("it jams", "What should slide is as wide as the room that it slides in, or wider.")
TIGHT = warning("it runs tight", "What should slide has less room than the usual play.")
NO_POCKET = error("no pocket", "What is called a pocket has no strips of glue that leave one side open.")
TOO_SHORT = error("band too short", "A band or a sleeve does not go round the closed card and its thickness.")
TOO_LOOSE = warning("band too loose", "A band or a sleeve is so much longer than it must be that it slips off.")
HITS = error("turning pieces hit", "Two pieces that turn on brads meet on their way round.")
OFF_PAPER = error("brad beside the paper", "A brad goes through where there is no paper.")
NOT_SLID = warning(
    "a slide that no step makes", "The plan says that something slides or is fastened, but no step does it.")


def usual_play(card: Card, hold: Hold) -> Fraction:
    """The room in all that the trade leaves: 1/8 in (3 mm) in a pocket or a slit, 1/16 in (1.5 mm) round a band or
    between turning pieces (common practice, no source).
    """
    if hold in (Hold.POCKET, Hold.SLIT):
        return small(card.recipe.unit, inch=Fraction(1, 8), mm=Fraction(3))
    return small(card.recipe.unit, inch=Fraction(1, 16), mm=Fraction(3, 2))


def too_loose(card: Card) -> Fraction:
    """A band with more room than this slips off: 1/2 in or 12 mm round in all (our own choice)."""
    return small(card.recipe.unit, inch=Fraction(1, 2), mm=Fraction(12))


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The room that something slides in, and what needs it."""

    clear: Fraction
    needs: Fraction
    """How wide it is itself."""
    reckoned: str
    """How the clear width came about."""


def check_slides(card: Card, making: Making) -> Iterable[Finding]:
    """Every slide of the plan: its room, and that a step makes it."""
    made = {done.action.slide for step in making.steps for done in step.every if isinstance(done.action, SlideIn)}
    for slide in card.recipe.slides:
        match slide.hold:
            case Hold.POCKET:
                yield from _pocket(card, slide)
            case Hold.SLIT:
                yield from _slit(card, slide)
            case Hold.BAND:
                yield from _band(card, slide)
            case Hold.BRAD:
                yield from _brad(card, slide)
        if slide.name.value not in made:
            yield NOT_SLID.finding(
                f"The plan has the slide {slide.name}, but no step makes it.",
                mend=f"Add `{'fasten' if slide.hold in (Hold.BAND, Hold.BRAD) else 'slide'}: {slide.name}` to a step.",
                place=slide.place)
    yield from _hits(card)


def _pocket(card: Card, slide: SlideSpec) -> Iterator[Finding]:
    bond = next((bond for bond in card.bonds if bond.name == slide.into.value), None)
    if bond is None:
        return
    glue = bond.spec.glue_area
    shut = [side for side in ("left", "right", "top", "bottom") if glue is not None and _strip(glue, side)]
    if glue is None or glue.whole or len(shut) == 4:
        how = "on all four sides" if len(shut) == 4 else "all over"
        yield NO_POCKET.finding(
            f"The {slide.into} is glued {how}, so nothing slides in.",
            mend="Give it a `glue area` with strips on three sides, such as {left: 1/8, right: 1/8, bottom: 1/8}.",
            place=slide.into.place)
        return
    box = bounding_box(looked_at(bond.under.face).ring(bond.fit.ring(card.panels[bond.over.panel].ring)))
    thing = _box(card, slide.what.value)
    if thing is None:
        return
    upright = not {"top", "bottom"} <= set(shut)
    sides = ("left", "right") if upright else ("top", "bottom")
    whole = box.width if upright else box.height
    strips = [(side, _strip(glue, side)) for side in sides]
    clear = whole - sum((width for _, width in strips), Fraction(0))
    told = " and ".join(f"{length(card, width)} at its {side}" for side, width in strips if width)
    yield from _runs(card, slide, Room(
        clear=clear, needs=thing.width if upright else thing.height,
        reckoned=f"The {slide.into} is {length(card, whole)} {'wide' if upright else 'high'}"
        + (f" and glued {told}, so it clears {length(card, clear)}" if told else "")))


def _strip(glue: GlueSpec, side: str) -> Fraction:
    written = {"left": glue.left, "right": glue.right, "top": glue.top, "bottom": glue.bottom}[side]
    return written.value if written is not None else Fraction(0)


def _slit(card: Card, slide: SlideSpec) -> Iterator[Finding]:
    slit = next((slit for piece in card.pieces for slit in piece.slits if slit.name == slide.into.value), None)
    thing = _box(card, slide.what.value)
    if slit is None or thing is None:
        return
    clear = root(slit.segment.along.square)
    yield from _runs(card, slide, Room(
        clear=clear, needs=min(thing.width, thing.height),
        reckoned=f"The slit {slide.into} is {length(card, clear)} long"))


def _runs(card: Card, slide: SlideSpec, room: Room) -> Iterator[Finding]:
    play = slide.play.value if slide.play is not None else usual_play(card, slide.hold)
    left = room.clear - room.needs
    if left >= play and left > 0:
        return
    most = room.clear - play
    lacks = "nothing is left" if left == 0 else f"{length(card, left)} is lacking" if left < 0 else (
        f"{length(card, left)} is left")
    check = JAMS if left <= 0 else TIGHT
    mend = f"Make the {slide.what} {length(card, most)} wide, or the {slide.into} {length(card, play - left)} larger."
    yield check.finding(
        f"{room.reckoned}. The {slide.what} is {length(card, room.needs)} wide: {lacks}, and it needs "
        f"{length(card, play)} of play to run.", mend=mend, place=slide.what.place)


def _band(card: Card, slide: SlideSpec) -> Iterator[Finding]:
    band, closed = card.piece(slide.into.value), card.closed
    thing = _box(card, slide.what.value)
    if band is None or slide.laps is None or (slide.what.value == "card" and closed is None):
        return
    thick = (closed.thickness if closed is not None and slide.what.value == "card" else None) or Fraction(0)
    if slide.what.value == "card":
        assert closed is not None
        sides: tuple[Fraction, ...] = (closed.width, closed.height)
    elif thing is not None:
        sides = (thing.width, thing.height)
    else:
        return
    strip = bounding_box(band.outline)
    girth = max(strip.width, strip.height) - slide.laps.value
    play = slide.play.value if slide.play is not None else usual_play(card, slide.hold)
    side = min(sides, key=lambda one: abs(girth - 2 * (one + thick) - play))
    room = girth - 2 * (side + thick)
    least = 2 * (side + thick)
    round_it = (f"The {slide.into} closes to a ring of {length(card, girth)}; round the {slide.what}, "
                f"{length(card, side)} across and {_thin(card, thick)} thick, it needs {_thin(card, least)}")
    if room < play:
        yield TOO_SHORT.finding(
            f"{round_it} and {length(card, play)} of play: {_thin(card, play - room)} is lacking.",
            mend=f"Cut it at least {_thin(card, play - room)} longer, or let its ends lap less.",
            place=slide.into.place)
    elif room > too_loose(card):
        yield TOO_LOOSE.finding(
            f"{round_it}, so {_thin(card, room)} is left, and it slips off.",
            mend=f"Let its ends lap {_thin(card, room - play)} more, or cut it shorter.", place=slide.into.place)


def _thin(card: Card, value: Fraction) -> str:
    """A length that a paper's thickness is a part of: to 1/64 in or 0.1 mm, with `about` where it is rounded."""
    grain = small(card.recipe.unit, inch=Fraction(1, 64), mm=Fraction(1, 10))
    near = round(value / grain) * grain
    return length(card, value) if near == value else f"about {length(card, max(near, grain))}"


def _brad(card: Card, slide: SlideSpec) -> Iterator[Finding]:
    for name, at, which in ((slide.into.value, slide.at, slide.into), (slide.what.value, slide.pin, slide.what)):
        sheet = _sheet(card, name)
        if at is None or sheet is None:
            continue
        if locate(Point(at[0].value, at[1].value), sheet[0], sheet[1]) is not Where.IN:
            yield OFF_PAPER.finding(f"The brad of {slide.name} goes through beside the paper of the {name}.",
                                    mend="Give a point well inside it.", place=which.place)


def _hits(card: Card) -> Iterator[Finding]:
    """Pairs of pieces that turn on the same piece and meet on their way round: each sweeps a disc about its brad."""
    for one, other in combinations([slide for slide in card.recipe.slides if slide.hold is Hold.BRAD], 2):
        if _owner(card, one.into.value) != _owner(card, other.into.value) or one.at is None or other.at is None:
            continue
        a, b = (Point(each.at[0].value, each.at[1].value) for each in (one, other) if each.at is not None)
        apart, reach = root((a - b).square), [_reach(card, one), _reach(card, other)]
        play = max(each.play.value if each.play is not None else usual_play(card, Hold.BRAD) for each in (one, other))
        lack = sum(reach, Fraction(0)) + play - apart
        if lack > 0:
            yield HITS.finding(
                f"The {one.what} sweeps {_thin(card, reach[0])} round its brad and the {other.what} "
                f"{_thin(card, reach[1])}; the brads are {_thin(card, apart)} apart, so the two meet on their way.",
                mend=f"Move the brads {_thin(card, lack)} farther apart, or make one of the pieces smaller.",
                place=other.place)


def _reach(card: Card, slide: SlideSpec) -> Fraction:
    """How far the turning piece reaches from its brad."""
    sheet = _sheet(card, slide.what.value)
    assert slide.pin is not None
    pin = Point(slide.pin[0].value, slide.pin[1].value)
    return root(max((p - pin).square for p in sheet[0])) if sheet else Fraction(0)


def _sheet(card: Card, name: str) -> tuple[Ring, tuple[Ring, ...]] | None:
    panel = card.panels.get(name)
    if panel is not None:
        return panel.ring, panel.holes
    piece = card.piece(name)
    return (piece.outline, piece.holes) if piece is not None else None


def _owner(card: Card, name: str) -> str:
    return card.panels[name].piece if name in card.panels else name


def _box(card: Card, name: str) -> Box | None:
    """The bounding rectangle of a piece, a layer, a panel or the closed card."""
    if name == "card":
        return bounding_box(p for ring in card.closed.outline for p in ring) if card.closed is not None else None
    sheet = _sheet(card, name)
    return bounding_box(sheet[0]) if sheet is not None else None
