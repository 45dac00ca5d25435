"""Names: each given once in its space, each used one given somewhere."""

from collections.abc import Iterable

from foldproof.findings.finding import Aside
from foldproof.findings.nearest import nearest
from foldproof.recipe.desk import Desk, Given, Used
from foldproof.recipe.kinds import Naming

_SPACES: tuple[tuple[Naming, ...], ...] = (
    (Naming.PIECE, Naming.LAYER, Naming.PANEL),
    (Naming.LAYER, Naming.JOIN),
    (Naming.SCORE,),
    (Naming.MARK,),
    (Naming.SLIT, Naming.PIECE, Naming.LAYER),
    (Naming.WINDOW, Naming.NOTCH),
    *((naming,) for naming in (Naming.PAPER, Naming.POSE, Naming.SUPPLY, Naming.TOOL, Naming.SLIDE)),
)
"""Kinds of names that are used in the same places, so that none may be given twice."""


def settle(desk: Desk) -> frozenset[int]:
    """Check every name given and used; give back the items that are to be left out.

    Left out is what could not be read whole, and what leans on a name that is unknown or left out itself.
    """
    _report_twice_given(desk)
    known = _owners_by_name(desk.given)
    for used in desk.used:
        if _resolve(used, known) is None and desk.unlisted.isdisjoint(used.namings):
            _report_unknown(used, known, desk)
    return _leaning_on_broken(desk, known)


Known = dict[tuple[Naming, str], int | None]


def _owners_by_name(given: Iterable[Given]) -> Known:
    """Which item gives each name; a layer names its panel, and so does a piece whose panels have no names."""
    known: Known = {}
    with_panels = {each.owner for each in given if each.naming is Naming.PANEL}
    for each in given:
        known.setdefault((each.naming, each.name.value), each.owner)
        if each.naming is Naming.LAYER or (each.naming is Naming.PIECE and each.owner not in with_panels):
            known.setdefault((Naming.PANEL, each.name.value), each.owner)
    return known


_ANYTHING = -1


def _resolve(used: Used, known: Known) -> int | None:
    """The item that gives the name; _ANYTHING for a word that needs none, None where nothing gives it."""
    if used.name.value in used.also:
        return _ANYTHING
    for naming in used.namings:
        key = (naming, used.name.value)
        if key in known:
            owner = known[key]
            return _ANYTHING if owner is None else owner
    return None


def _report_twice_given(desk: Desk) -> None:
    reported: set[int] = set()
    for space in _SPACES:
        first: dict[str, Given] = {}
        for index, given in enumerate(desk.given):
            if given.naming not in space:
                continue
            earlier = first.setdefault(given.name.value, given)
            if earlier is given or index in reported:
                continue
            reported.add(index)
            desk.lacking = True
            desk.error(
                "name given twice",
                f"`{given.name}` is the name of a {earlier.naming} and again of a {given.naming}; "
                "where it is used one could not tell which is meant.",
                given.name.place,
                "Give one another name.",
                (Aside(text=f"The {earlier.naming} is here.", place=earlier.name.place),),
            )


def _report_unknown(used: Used, known: Known, desk: Desk) -> None:
    sort = " or ".join(used.namings)
    words = [name for naming, name in known if naming in used.namings]
    name = used.name.value
    guess = nearest(name, [*words, *used.also])
    if Naming.PANEL in used.namings and (Naming.PIECE, name) in known:
        owner = known[Naming.PIECE, name]
        panels = [given.name.value for given in desk.given if given.naming is Naming.PANEL and given.owner == owner]
        desk.error(
            "unknown name",
            f"`{name}` is a piece with several panels; one of its panels belongs here.",
            used.name.place,
            f"Write one of: {', '.join(panels)}.",
        )
        return
    other = next((naming for naming, known_name in known if known_name == name), None)
    message = f"No {sort} is named `{name}`."
    if other is not None:
        message = f"`{name}` is the name of a {other}; the name of a {sort} belongs here."
    if guess:
        mend = f"Did you mean `{guess}`?"
    elif words:
        shown = ", ".join(words[:12]) + (", ..." if len(words) > 12 else "")
        mend = f"Write one of: {shown}."
    else:
        mend = f"Describe a {used.namings[0]} of that name in the recipe."
    desk.error("unknown name", message, used.name.place, mend)


def _leaning_on_broken(desk: Desk, known: Known) -> frozenset[int]:
    broken = set(desk.broken)
    leaning = [(used.owner, _resolve(used, known)) for used in desk.used if used.owner is not None]
    while True:
        more = {
            owner
            for owner, upon in leaning
            if owner is not None and owner not in broken and (upon is None or upon in broken)
        }
        if not more:
            return frozenset(broken)
        broken |= more
