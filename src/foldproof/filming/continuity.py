"""What must be so when the camera starts, in filming order: what lies where, what is dry, whose hands are clean."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from foldproof.facts.tools import find_adhesive, find_tool
from foldproof.filming.records import Shot
from foldproof.filming.touched import touched
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Done, Table
from foldproof.making.tools import DEEDS, blade_in, deed_of
from foldproof.recipe import actions as do

UNDER_THE_WORK = ("trimmer", "guillotine", "scoring board", "cutting mat", "die-cutting machine")
"""What paper is laid on or in; everything else that is used lies at the maker's right hand (common practice)."""

_BY_HAND: dict[str, tuple[type[do.Doing], ...]] = {
    "fold": (do.FoldOn, do.BringTo), "mark": (do.MarkAt,), "measure": (do.Measure,), "stamp": (do.Stamp,),
}
"""What hands do beside what needs a tool of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drying:
    """Something that must have dried when the camera starts."""

    what: str
    """`glue` or `ink`."""
    pieces: tuple[str, ...]
    seconds: Fraction | None
    """How long; None where no time is said."""
    since: str
    """The key of the shot in which it was put on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Continuity:
    """What must be so for one shot."""

    start: tuple[str, ...]
    """The roots of the bodies in the picture when the camera starts."""
    end: tuple[str, ...]
    """The same when it stops."""
    aside: tuple[str, ...]
    """Pieces that are made already and must lie out of the picture."""
    under: tuple[str, ...]
    """Tools that the work lies on or in."""
    at_hand: tuple[str, ...]
    """Tools and supplies at the maker's right hand."""
    away: tuple[str, ...]
    """Tools that were used in the shot filmed before and are out of the picture now."""
    blade: str | None
    """The blade that is in the trimmer, `cutting` or `scoring`; None where no trimmer is used."""
    change_blade: bool
    """Whether another one was in it before."""
    dry: tuple[Drying, ...]
    clean: tuple[str, ...]
    """What hands and table must be clean of: `ink`, `glue`."""


def continuity(card: Card, order: Sequence[Shot]) -> Mapping[str, Continuity]:
    """For each shot, by its key; `order` is the filming order."""
    found: dict[str, Continuity] = {}
    wet: dict[str, list[Drying]] = {}
    made: set[str] = set()
    soiled: tuple[str, ...] = ()
    used: tuple[str, ...] = ()
    blade: str | None = None
    for shot in order:
        start, end = in_picture(shot, shot.before), in_picture(shot, shot.after)
        seen = {name for name in (*shot.before.pieces, *shot.after.pieces) if name in shot.pieces}
        tools = _tools(card, shot)
        now = _blade(shot)
        found[shot.key] = Continuity(
            start=start, end=end, aside=tuple(sorted(made - seen)),
            under=tuple(name for name in tools if _plain(name) in UNDER_THE_WORK),
            at_hand=tuple(name for name in tools if _plain(name) not in UNDER_THE_WORK),
            away=tuple(name for name in used if name not in tools), blade=now,
            change_blade=now is not None and blade is not None and now != blade,
            dry=_dry_now(wet, shot), clean=soiled)
        blade, used = now or blade, tools
        soiled = _soils(card, shot)
        made |= set(shot.after.pieces) & shot.pieces
        for drying in _wets(card, shot):
            for piece in drying.pieces:
                wet.setdefault(piece, []).append(drying)
    return found


def in_picture(shot: Shot, table: Table) -> tuple[str, ...]:
    """The bodies of a shot that are on a table, by their roots."""
    return tuple(dict.fromkeys(table.root(name) for name in table.pieces if name in shot.pieces))


def _tools(card: Card, shot: Shot) -> tuple[str, ...]:
    """What hands use in a shot: the step's tools and supplies, and the desk tools that its actions ask for."""
    if shot.step is None or not shot.done:
        return ()
    spec = shot.step.spec
    named = [str(name) for name in (*spec.tools, *spec.supplies) if _needed(card, str(name), shot)]
    named += [done.tool for done in shot.done if done.tool is not None]
    adhesives = {bond.name: bond.adhesive for bond in card.bonds}
    asked: list[str] = []
    words: list[str] = []
    for done in shot.done:
        match done.action:
            case do.MarkAt():
                asked += ["pencil", "ruler"]
            case do.ScoreBetween() | do.CutBetween() | do.SlitBetween() | do.CutOff() | do.Measure():
                asked.append("ruler")
            case do.Attach(adhesive=adhesive, bond=bond):
                named += [glue for glue in (adhesive or adhesives.get(bond),) if glue]
            case do.Tie(supply=supply):
                named.append(supply)
            case do.Note(words=note):
                rubbed = "rub out" in note.casefold()
                asked += ["eraser"] * rubbed
                words += [note.casefold()] * (not rubbed)
    listed = [str(tool.name) for tool in card.recipe.tools]
    asked = [name for name in listed if name in asked or any(name.casefold() in note for note in words)]
    return tuple(dict.fromkeys((*named, *asked)))


def _needed(card: Card, name: str, shot: Shot) -> bool:
    """Whether a tool or supply of the step is for this shot: not where its work is done in other shots of the step."""
    assert shot.step is not None
    supply = next((one for one in card.recipe.supplies if one.name.value == name), None)
    kind = find_tool(name) or find_tool(name.split()[-1].removesuffix("s"))
    inky = supply is not None and (supply.kind or name).split()[-1] == "ink"
    does = {"stamp"} if inky else set(kind.does) if kind is not None and supply is None else set()
    return not does or bool(does & _deeds(shot.done)) or not does & _deeds(shot.step.done)


def _deeds(done: Iterable[Done]) -> set[str]:
    """What hands do, in the words of the table of tools."""
    deeds = {**DEEDS, **_BY_HAND}
    return {deed for one in done for deed, kinds in deeds.items() if isinstance(one.action, kinds)}


def _plain(name: str) -> str:
    kind = find_tool(name)
    return kind.name if kind else name


def _blade(shot: Shot) -> str | None:
    """The blade with which the first cut or score of a shot is made in a trimmer."""
    for done in shot.done:
        if done.tool is not None and deed_of(done.action) is not None and (blade := blade_in(done.before, done.tool)):
            return blade
    return None


def _wets(card: Card, shot: Shot) -> Iterator[Drying]:
    """What a shot leaves wet: what it says must dry, and what it stamps."""
    for done in shot.done:
        match done.action:
            case do.Dry(time=time):
                pieces = tuple(sorted(touched(card, done)))
                yield Drying(what="glue", pieces=pieces, seconds=time.value, since=shot.key)
            case do.Stamp(panel=panel) if panel in card.panels:
                yield Drying(what="ink", pieces=(card.panels[panel].piece,), seconds=None, since=shot.key)


def _dry_now(wet: dict[str, list[Drying]], shot: Shot) -> tuple[Drying, ...]:
    """What must be dry now: it is said once, before the first shot that touches it."""
    waiting = [drying for piece in sorted(shot.pieces) for drying in wet.get(piece, ())]
    due = tuple(dict.fromkeys(waiting))
    for piece in list(wet):
        wet[piece] = [drying for drying in wet[piece] if drying not in due]
    inks = {drying.since: drying for drying in due if drying.what == "ink"}
    merged = [
        Drying(what="ink", since=since, seconds=None, pieces=tuple(dict.fromkeys(
            piece for drying in due if drying.since == since and drying.what == "ink" for piece in drying.pieces)))
        for since in inks]
    return (*(drying for drying in due if drying.what == "glue"), *merged)


def _soils(card: Card, shot: Shot) -> tuple[str, ...]:
    """What hands may have on them after a shot."""
    kinds = {supply.name.value: supply.kind or supply.name.value for supply in card.recipe.supplies}
    found: list[str] = []
    for done in shot.done:
        if isinstance(done.action, do.Stamp):
            found.append("ink")
        if isinstance(done.action, do.Attach) and done.action.adhesive:
            glue = find_adhesive(kinds.get(done.action.adhesive, "")) or find_adhesive(done.action.adhesive)
            found += ["glue"] * (glue is not None and glue.wet)
    return tuple(dict.fromkeys(found))
