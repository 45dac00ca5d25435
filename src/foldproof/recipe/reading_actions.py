"""The actions of a step from read fields."""

from foldproof.findings.finding import Place
from foldproof.measures.quantity import Quantity
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
from foldproof.recipe.desk import Builder, Desk, Fields
from foldproof.recipe.points import PointAt
from foldproof.recipe.records import SurfaceSpec, Text
from foldproof.recipe.words import CORNERS


def action(fields: Fields, name: Text | None, desk: Desk) -> Action | None:
    """One action: the key that is not `piece` says which."""
    piece = fields.get("piece", Text)
    word = next(key for key in fields.values if key != "piece")
    made = _make(word, fields, fields.place, piece.value if piece else None)
    return made if made is None or _sound(made, fields, desk) else None


def _make(word: str, fields: Fields, place: Place, piece: str | None) -> Action:
    part = fields.values[word] if isinstance(fields.values[word], Fields) else fields
    assert isinstance(part, Fields)
    match word:
        case "cut" if part.form.name == "cut straight across":
            return CutAcross(
                place=place,
                piece=piece,
                at=part.need("at", Quantity),
                keep=part.need("keep", str),
                start=part.word("from") or "left",
                other=_name(part, "other"),
                tool=_name(part, "with"),
            )
        case "cut" if part.form.name == "cut of a strip":
            return CutOff(
                place=place,
                piece=piece,
                width=part.need("strip", Quantity),
                edge=part.need("edge", str),
                other=_name(part, "other"),
                tool=_name(part, "with"),
            )
        case "cut" if part.form.name == "cut between two points":
            return CutBetween(
                place=place,
                piece=piece,
                start=part.need("from", TablePoint),
                end=part.need("to", TablePoint),
                keep=part.need("keep", str),
                other=_name(part, "other"),
                tool=_name(part, "with"),
            )
        case "cut":
            return CutOut(place=place, piece=piece, size=_size(part, "size"), tool=_name(part, "with"))
        case "die cut":
            return DieCut(place=place, piece=piece, size=_size(part, "size"), tool=_name(part, "with"))
        case "blade":
            return SetBlade(place=place, piece=piece, blade=part.need("kind", str), tool=_name(part, "in"))
        case "lay":
            up = part.word("up")
            return Lay(
                place=place,
                piece=piece,
                edge=part.need("edge", str),
                against=part.word("against") or "fence",
                face=Face(up) if up else None,
            )
        case "slit" if part.form.name == "straight slit":
            return SlitAt(
                place=place, piece=piece, at=part.need("at", Quantity), begins=part.need("begins", Quantity),
                ends=part.need("ends", Quantity),
            )
        case "slit":
            return SlitBetween(
                place=place, piece=piece, start=part.need("from", TablePoint), end=part.need("to", TablePoint)
            )
        case "window" | "notch":
            return CutAway(
                place=place, piece=piece, opens=word == "notch", size=part.size("size"),
                circle=part.get("circle", Quantity), corners=part.several("corners", TablePoint), at=_placed(part),
            )
        case "round":
            return RoundCorners(
                place=place, piece=piece, radius=part.need("radius", Quantity),
                corners=part.several("corners", str) or CORNERS,
            )
        case "scallop":
            return Scallop(
                place=place, piece=piece, edge=part.need("edge", str), across=part.need("across", Quantity))
        case "slide" | "fasten":
            return SlideIn(
                place=place, piece=piece, slide=part.need("what", Text).value, at=_placed(part),
                fastens=word == "fasten",
            )
        case "mark":
            return MarkAt(
                place=place,
                piece=piece,
                at=part.need("at", Quantity),
                inward=part.get("in", Quantity),
                edge=part.need("edge", str),
                start=part.need("from", str),
                name=part.need("name", Text).value,
            )
        case "score" if part.form.name == "straight score":
            return ScoreAt(
                place=place,
                piece=piece,
                at=part.need("at", Quantity),
                start=part.word("from") or "left",
                tool=_name(part, "with"),
                begins=part.get("begins", Quantity),
                ends=part.get("ends", Quantity),
            )
        case "score":
            return ScoreBetween(
                place=place,
                piece=piece,
                start=part.need("from", TablePoint),
                end=part.need("to", TablePoint),
                tool=_name(part, "with"),
            )
        case "turn":
            return Turn(place=place, piece=piece, amount=fields.need("turn", str))
        case "turn over":
            return TurnOver(place=place, piece=piece, way=fields.need("turn over", str))
        case "fold":
            return FoldOn(
                place=place,
                piece=piece,
                score=part.need("score", Text).value,
                fold=Fold(part.need("fold", str)),
                angle=part.get("angle", Quantity),
                sharp=part.word("sharp") == "true",
            )
        case "tuck":
            flap, under = part.need("flap", Text), part.need("under", Text)
            return Tuck(place=place, piece=piece, flap=flap.value, under=under.value)
        case "bring to":
            return BringTo(place=place, piece=piece, pose=fields.need("bring to", Text).value)
        case "unfold":
            return Unfold(place=place, piece=piece, score=fields.need("unfold", Text).value)
        case "attach":
            return _attach(part, place, piece)
        case "stamp":
            face, words = part.need("upon", SurfaceSpec), part.get("words", Text)
            return Stamp(
                place=place, piece=piece, panel=face.panel.value, face=face.face, words=words.value if words else None
            )
        case "tie":
            return Tie(
                place=place, piece=piece, supply=part.need("with", Text).value, length=part.get("length", Quantity)
            )
        case "dry":
            return Dry(place=place, piece=piece, time=fields.need("dry", Quantity))
        case "measure":
            return Measure(place=place, piece=piece, size=_size(fields, "measure"))
        case "note":
            return Note(place=place, piece=piece, words=fields.need("note", Text).value)
    raise KeyError(word)


def _name(fields: Fields, key: str) -> str | None:
    name = fields.get(key, Text)
    return name.value if name else None


def _size(fields: Fields, key: str) -> tuple[Quantity, Quantity]:
    size = fields.size(key)
    assert size is not None
    return size


def _attach(part: Fields, place: Place, piece: str | None) -> Attach:
    supply = part.get("with", Text)
    return Attach(
        place=place, piece=piece, bond=part.need("what", Text).value, at=_placed(part),
        adhesive=supply.value if supply else None,
    )


def _placed(part: Fields) -> PlacedAt:
    on = part.get("centred on", Text) if part.form.key("centred on") else None
    return PlacedAt(
        left=part.get("left", Quantity),
        right=part.get("right", Quantity),
        top=part.get("top", Quantity),
        bottom=part.get("bottom", Quantity),
        border=part.get("border", Quantity),
        centred=part.get("centred", str),
        centred_on=on.value if on else None,
        turned=(part.word("turned") if part.form.key("turned") else None) or "none",
        points=_two(part, "points"),
        lie_on=_two(part, "lie on"),
    )


def _two(part: Fields, key: str) -> tuple[PointAt, PointAt] | None:
    points = part.several(key, PointAt)
    return (points[0], points[1]) if points else None


def _sound(made: Action, fields: Fields, desk: Desk) -> bool:
    match made:
        case MarkAt(edge=edge, start=start):
            ends = ("left", "right") if edge in ("top", "bottom") else ("top", "bottom")
            if start not in ends:
                desk.error(
                    "wrong end",
                    f"The {edge} edge runs from {ends[0]} to {ends[1]}; it has no {start} end.",
                    made.place,
                    f"Measure from {ends[0]} or from {ends[1]}.",
                )
                return False
        case CutBetween() | ScoreBetween() | SlitBetween() if made.start.name == made.end.name:
            desk.error("no line", f"This line starts and ends at `{made.start.name}`.", made.end.place,
                       "Give it another end.")
            return False
        case Tuck(flap=flap, under=under) if flap == under:
            desk.error("under itself", f"`{flap}` cannot be tucked under itself.", made.place, "Name two panels.")
            return False
        case SlitAt(begins=begins, ends=ends) if begins.value >= ends.value:
            desk.error("no line", f"This slit begins {begins.written} from the fence and ends {ends.written} from it.",
                       made.place, "Let it end farther from the fence than it begins.")
            return False
        case ScoreAt(begins=begins, ends=ends) if begins and ends and begins.value >= ends.value:
            desk.error("no line", f"This score begins {begins.written} from the fence and ends {ends.written} from it.",
                       made.place, "Let it end farther from the fence than it begins.")
            return False
        case CutAway():
            return _away_is_clear(made, desk)
        case Attach(at=at):
            return _attach_is_clear(at, made.place, desk)
    return True


def _away_is_clear(made: CutAway, desk: Desk) -> bool:
    ways = (("left", made.at.left), ("right", made.at.right)), (("top", made.at.top), ("bottom", made.at.bottom))
    for sides, way in zip(ways, ("across", "up"), strict=True):
        given = [name for name, value in sides if value is not None]
        given += ["centred"] if made.at.centred in ("both", way) else []
        if made.corners and given:
            desk.error("place fixed twice", f"The marks say where it is; `{given[0]}` says it again.", made.place,
                       f"Leave {given[0]} out.")
            return False
        if not made.corners and len(given) != 1:
            what = f"{' and '.join(f'`{name}`' for name in given)} both fix" if given else "Nothing fixes"
            desk.error(
                "place fixed twice" if given else "place not fixed", f"{what} where it lies {way}.", made.place,
                f"Keep one of {', '.join(given)}." if given else f"Add {sides[0][0]}, {sides[1][0]} or centred: {way}.")
            return False
    return True


def _attach_is_clear(at: PlacedAt, place: Place, desk: Desk) -> bool:
    edges = {"left": at.left, "right": at.right, "top": at.top, "bottom": at.bottom}
    given = [name for name, value in edges.items() if value is not None]
    if at.border is not None and given:
        desk.error(
            "place fixed twice",
            f"`border` is the distance from all four edges, and `{given[0]}` is one of them.",
            place,
            "Keep border, or name the edges one by one.",
        )
        return False
    if at.points is not None and (given or at.border is not None or at.centred or at.turned != "none"):
        desk.error("place fixed twice", "`points` say all about where it lies.", place,
                   "Keep `points` with `lie on`, or the distances.")
        return False
    across = [name for name in ("left", "right") if name in given] + (["border"] if at.border is not None else [])
    level = [name for name in ("top", "bottom") if name in given] + (["border"] if at.border is not None else [])
    for names, way in ((across, "across"), (level, "up")):
        if names and at.centred in ("both", way) and at.border is None:
            desk.error(
                "place fixed twice",
                f"`{names[0]}` and `centred` both say where it lies.",
                place,
                "Keep one of the two.",
            )
            return False
    return True


BUILDERS: dict[str, Builder] = {"action": action}
