"""Actions in plain words, for the shot list, the steps' short lines and other programs.

Every sentence here is made from the records, so that its numbers are the model's own.
"""

from collections.abc import Callable
from fractions import Fraction

from foldproof.making.tools import takes_blades
from foldproof.measures.quantity import Quantity, Unit
from foldproof.measures.writing import with_unit, write_length, write_number, write_outer_size, write_size
from foldproof.paper.face import Face, Fold
from foldproof.recipe.actions import (
    Action,
    Attach,
    BringTo,
    CutAcross,
    CutAway,
    CutBetween,
    CutOff,
    CutOut,
    DieCut,
    Dry,
    FoldOn,
    Lay,
    MarkAt,
    Measure,
    Note,
    PlacedAt,
    RoundCorners,
    Scallop,
    ScoreAt,
    ScoreBetween,
    SetBlade,
    SlideIn,
    SlitAt,
    SlitBetween,
    Stamp,
    TablePoint,
    Tie,
    Tuck,
    Turn,
    TurnOver,
    Unfold,
)
from foldproof.recipe.records import JoinSpec, LayerSpec, StepSpec

CORNERS = frozenset(f"{level} {side}" for level in ("top", "bottom") for side in ("left", "right"))


def action_words(
    action: Action, unit: Unit, *, piece: str | None = None, bond: JoinSpec | LayerSpec | None = None,
    called: Callable[[str, Face, bool], str] | None = None, upright: bool = False, kept: str = "", circle: bool = False,
) -> str:
    """One action as an instruction, a capital first and no full stop.

    `piece` is the step's own piece, named where the action moves or cuts it; `bond` is the plan's layer or join that
    an `Attach` makes; `called` says how a face of a panel is called on this card, with whether it is up; `kept` says on
    which side of a slanted cut the kept part lies; `circle` is true where a die cuts one.
    """
    face_words = called or plain_face
    name = action.piece or piece
    it = f"the {name}" if name else "it"
    match action:
        case CutOut(size=size):
            return f"Cut {it} {_size(size, unit)}"
        case CutAcross(at=at, keep=keep, other=other):
            use = f"; the other part is the {other}" if other else ""
            return f"Cut across {_of(at, unit)} from {_end(action.start)}; keep the {keep} part{use}"
        case CutOff(width=width, edge=edge, other=other):
            use = f"; it is the {other}" if other else ""
            return f"Cut a strip of {_of(width, unit)} off the {edge} edge{use}"
        case CutBetween(start=start, end=end, keep=keep, other=other):
            use = f"; the other part is the {other}" if other else ""
            part = kept or f"with the {keep} corner"
            return f"Cut from {_spot(start, unit)} to {_spot(end, unit)}; keep the part {part}{use}"
        case DieCut(size=size):
            outer = (size[0].value, size[1].value)
            return f"Cut or punch {it}, or take one ready made: {write_outer_size(outer, unit, circle=circle)}"
        case Lay(edge=edge, face=face):
            article = "a" if edge in ("long", "short") else "the"
            return f"Lay {it} with {article} {edge} edge against the {action.against}{f', {face} up' if face else ''}"
        case MarkAt(at=at, edge=edge, start=end_of, name=mark, inward=None):
            return f"Mark the {edge} edge {_of(at, unit)} from its {end_of} end ({mark})"
        case MarkAt(at=at, edge=edge, start=end_of, name=mark, inward=inward):
            assert inward is not None
            return (f"Make a mark {_of(at, unit)} from the {end_of} and {_of(inward, unit)} in from the {edge} edge "
                    f"({mark})")
        case ScoreAt(at=at):
            return f"Score {_of(at, unit)} from {_end(action.start)}{_reach_words(action, unit)}"
        case ScoreBetween(start=start, end=end, tool=tool) if tool is not None and takes_blades(tool):
            return (f"Bring {_spot(start, unit)} and {_spot(end, unit)} into the groove of the {tool} and score "
                    "between them")
        case SlitAt(at=at):
            return f"Cut a slit {_of(at, unit)} from the stop{_reach_words(action, unit)}"
        case SlitBetween(start=start, end=end):
            return f"Cut a slit from {_spot(start, unit)} to {_spot(end, unit)}"
        case CutAway():
            return _away_words(action, unit)
        case RoundCorners(radius=radius, corners=corners):
            which = "all four corners" if len(corners) == 4 else f"the {listed(corners)}"
            return f"Round {which} to {_of(radius, unit)}"
        case Scallop(edge=edge, across=across):
            return f"Cut the {edge} edge in scallops {_of(across, unit)} across"
        case SlideIn(slide=slide, at=at, fastens=fastens):
            where = placed_words(at, unit)
            return f"{'Fasten' if fastens else 'Slide in'}: {slide}{f' ({where})' if where else ''}"
        case ScoreBetween(start=start, end=end):
            return f"Score from {_spot(start, unit)} to {_spot(end, unit)}"
        case SetBlade(blade=blade, tool=tool):
            return f"Put the {blade} blade in the {tool or 'trimmer'}"
        case Turn(amount=amount):
            return f"Turn {it} {_turn(amount, unit)}, the same face up"
        case TurnOver(way=way):
            return f"Turn {it} over {'like the page of a book' if way == 'book page' else 'from top to bottom'}"
        case FoldOn(score=score, fold=fold, angle=angle, sharp=sharp):
            way = "toward you (valley)" if fold is Fold.VALLEY else "away from you (mountain)"
            by = f" by {write_number(angle.value)} degrees" if angle else ""
            return f"Fold on the {score} {way}{by}{'' if sharp else ', without sharpening it'}"
        case Tuck(flap=flap, under=under):
            return f"Tuck the {flap} under the {under}"
        case BringTo(pose=pose):
            return f"Move all folds at once, until {it} lies as in “{pose}”"
        case Unfold(score=score):
            return f"Open the {score} flat again"
        case Attach():
            return _attach_words(action, unit, bond, face_words, upright)
        case Stamp(panel=panel, face=face, words=words):
            return f"Stamp or write{f' “{words}”' if words else ''} on {face_words(panel, face, True)}"
        case Tie(supply=supply, length=length):
            return f"Tie the {supply}{f', {_of(length, unit)} of it' if length else ''}"
        case Dry(time=time):
            return f"Let it dry for {time_words(time.value)}"
        case Measure(size=size):
            return f"Check with a ruler: {it} measures {_size(size, unit)} now"
        case Note(words=words):
            return words[:1].upper() + words[1:].rstrip(".")


def _end(start: str) -> str:
    return "the stop" if start == "left" else "the right end"


def _reach_words(action: ScoreAt | SlitAt, unit: Unit) -> str:
    """How far a line runs, where that is not right across."""
    begins = f"from {_of(action.begins, unit)} to " if action.begins else "to "
    if action.ends:
        return f", {begins}{_of(action.ends, unit)} from the fence"
    return f", from {_of(action.begins, unit)} below the fence to the near edge" if action.begins else ""


def _away_words(action: CutAway, unit: Unit) -> str:
    sort = "notch" if action.opens else "window"
    if action.corners:
        return f"Cut a {sort} from {', '.join(_spot(point, unit) for point in action.corners)} and back"
    size = f"{_of(action.circle, unit)} across" if action.circle else _size(action.size, unit) if action.size else ""
    where = placed_words(action.at, unit)
    return f"Cut a {sort}, {size}{f': {where}' if where else ''}"


def again_words(step: StepSpec) -> str:
    """What the step is done again with, and how often in all; empty where it is done once."""
    if not step.repeats:
        return ""
    count = len(step.repeats) + 1
    times = {2: "twice", 3: "three times", 4: "four times"}.get(count, f"{count} times")
    names = [
        f"the {again.piece}{', mirrored (left and right change places)' if again.mirrored else ''}"
        for again in step.repeats]
    return f"Do the same with {listed(names)}: {times} in all"


def plain_face(panel: str, face: Face, up: bool) -> str:
    """A face of a panel, as the plan calls it; by how it lies where the panel is called like a face itself."""
    if panel.split()[-1] in ("front", "back"):
        return f"the {'face-up side' if up else 'underside'} of the {panel_words(panel)}"
    return f"the {face} of the {panel}"


def panel_words(panel: str) -> str:
    """A panel's name; `front panel` where the name alone would be taken for a face."""
    return f"{panel} panel" if panel in ("front", "back", "inside", "outside") else panel


def _attach_words(
    do: Attach, unit: Unit, bond: JoinSpec | LayerSpec | None, called: Callable[[str, Face, bool], str], upright: bool,
) -> str:
    what, upon = f"the {do.bond}", ""
    if bond is not None:
        upon = f" to {called(bond.upon.panel.value, bond.upon.face, True)}"
    if isinstance(bond, JoinSpec):
        what = called(bond.put.panel.value, bond.put.face, False)
    glue = f" with {do.adhesive}" if do.adhesive else ""
    edge = f" of the {panel_words(bond.upon.panel.value)}" if bond is not None else ""
    where = placed_words(do.at, unit, edge=edge, upright=upright)
    return f"Fix {what}{upon}{glue}{': ' if where else ''}{where}"


def placed_words(at: PlacedAt, unit: Unit, *, edge: str = "", upright: bool = False) -> str:
    """Where hands put something, empty when nothing is said.

    `edge` follows the first edge that is named: of what it is. What is turned as the plan reads it but stands upright
    before the maker is told so, since hands know nothing of the plan.
    """
    said = [f"{_of(at.border, unit)} border all round"] if at.border else []
    for side, length in (("left", at.left), ("right", at.right), ("top", at.top), ("bottom", at.bottom)):
        if length is None:
            continue
        if length.value == 0:
            said.append(f"level with the {side} edge{edge}")
        elif length.value < 0:
            said.append(f"{with_unit(-length.value, unit)} past the {side} edge{edge}")
        else:
            said.append(f"{with_unit(length.value, unit)} from the {side} edge{edge}")
        edge = ""
    if at.centred:
        way = {"across": " from left to right", "up": " from top to bottom"}.get(at.centred, "")
        upon = {None: "", "card": " on the closed card"}.get(at.centred_on, f" on the {at.centred_on}")
        said.append(f"{'centered' if unit is Unit.INCH else 'centred'}{way}{upon}")
    if at.turned != "none":
        said.append("upright before you" if upright else f"turned {_turn(at.turned, unit)}")
    if at.points is not None and at.lie_on is not None:
        ends = (" to ".join(f"({write_length(p.x.value, unit)}, {write_length(p.y.value, unit)})" for p in pair)
                for pair in (at.points, at.lie_on))
        said.append("its line from {} on the line from {}, across and up".format(*ends))
    return ", ".join(said)


def _turn(amount: str, unit: Unit) -> str:
    """A turn in words, in the spelling of the recipe's part of the world."""
    if amount == "half":
        return "half round"
    return f"a {amount.replace('anticlockwise', 'counterclockwise') if unit is Unit.INCH else amount}"


def _of(length: Quantity, unit: Unit) -> str:
    return with_unit(length.value, unit)


def _size(size: tuple[Quantity, Quantity], unit: Unit) -> str:
    return write_size((size[0].value, size[1].value), unit)


def _spot(point: TablePoint, unit: Unit) -> str:
    if point.name in CORNERS:
        return f"the {point.name} corner"
    if point.name == "centre":
        return "the center" if unit is Unit.INCH else "the centre"
    if point.name.endswith(" middle"):
        return f"the middle of the {point.name.removesuffix(' middle')} edge"
    return f"the {point.name}"


def time_words(seconds: Fraction) -> str:
    """`25 s`, `2 min`, `1 h 30 min`; parts of a second are dropped."""
    whole = int(seconds)
    parts = ((whole // 3600, "h"), (whole % 3600 // 60, "min"), (whole % 60, "s"))
    return " ".join(f"{number} {name}" for number, name in parts if number) or "0 s"


def clock(seconds: Fraction) -> str:
    """Minutes and seconds as a film editor writes them: `1:05`."""
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"


def listed(names: list[str] | tuple[str, ...]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return " and ".join(part for part in (", ".join(names[:-1]), *names[-1:]) if part)
