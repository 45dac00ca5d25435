"""Papers, pieces, scores, panels, joins and layers from read fields."""

import re
from dataclasses import replace

from foldproof.findings.finding import Place
from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Quantity
from foldproof.paper.face import Face, Fold
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.naming import FIXED_POINTS
from foldproof.recipe.records import (
    Across,
    Between,
    Bought,
    Circle,
    JoinSpec,
    LayerSpec,
    Outline,
    PanelSpec,
    PaperSpec,
    PieceSpec,
    PlaceOn,
    PointAt,
    PointNamed,
    PointOf,
    Rectangle,
    ScoreSpec,
    Shape,
    Side,
    SurfaceSpec,
    Text,
    Triangle,
    Turned,
    Up,
)

_HEX = re.compile(r"#[0-9a-fA-F]{6}")
_COLOUR_WORD = re.compile(r"[A-Za-z]+")
_RELATIONS = ("left of", "right of", "above", "below")
_SIDE = re.compile(rf"({'|'.join(_RELATIONS)}) (.+)")
_BETWEEN = "between "


def paper(fields: Fields, name: Text | None, desk: Desk) -> PaperSpec | None:
    """A paper."""
    assert name is not None
    tone = fields.get("tone", Text)
    if tone is not None and not (_HEX.fullmatch(tone.value) or _COLOUR_WORD.fullmatch(tone.value)):
        desk.error(
            "unknown colour",
            f"`{tone}` is neither a colour word nor # with six digits.",
            tone.place,
            'Write a word such as slategray, or "#8a9ba8" in quotes.',
        )
        return None
    return PaperSpec(
        name=name,
        kind=fields.get("kind", Text),
        weight=fields.get("weight", Text),
        thickness=fields.get("thickness", Quantity),
        sheet=fields.size("sheet"),
        grain=fields.word("grain"),
        printed=fields.word("printed") or "plain",
        pattern=fields.word("pattern") or "none",
        tone=tone,
        place=name.place,
    )


def score(fields: Fields, name: Text | None, desk: Desk) -> ScoreSpec | None:
    """A score of a piece."""
    assert name is not None
    across, up = fields.get("across", Quantity), fields.get("up", Quantity)
    line: Across | Up | Between
    if across is not None:
        line = Across(at=across)
    elif up is not None:
        line = Up(at=up)
    else:
        start, end = _point(fields, "from"), _point(fields, "to")
        line = Between(start=start, end=end)
        if _same(start, end):
            desk.error(
                "no line", f"The score `{name}` starts and ends at the same point.", end.place, "Give it another end."
            )
            return None
    return ScoreSpec(name=name, line=line, fold=Fold(fields.need("fold", str)), place=name.place)


def _point(fields: Fields, key: str) -> PointAt | PointNamed:
    value = fields.need(key, object)
    assert isinstance(value, PointAt | PointNamed)
    return value


def _same(one: PointAt | PointNamed, other: PointAt | PointNamed) -> bool:
    match one, other:
        case PointNamed(name=a), PointNamed(name=b):
            return a == b
        case PointAt(x=x, y=y), PointAt(x=u, y=v):
            return (x.value, y.value) == (u.value, v.value)
    return False


def piece(fields: Fields, name: Text | None, desk: Desk) -> PieceSpec | None:
    """A piece with its points, scores and panels."""
    assert name is not None
    points = tuple(
        PointOf(name=item.name, at=item.value)
        for item in fields.get("points", tuple) or ()
        if isinstance(item, Item) and item.name and isinstance(item.value, PointAt)
    )
    scores = fields.several("scores", ScoreSpec)
    sound = _points_are_known(scores, points, desk)
    panels: list[PanelSpec] = []
    for item in fields.get("panels", tuple) or ():
        assert isinstance(item, Item) and item.name is not None
        if isinstance(item.value, PointAt):
            panels.append(PanelSpec(name=item.name, where=item.value))
            continue
        assert isinstance(item.value, Text)
        sides = _sides(item.value, scores, desk)
        if sides is None:
            sound = False
        else:
            panels.append(PanelSpec(name=item.name, where=sides))
    if not sound:
        return None
    return PieceSpec(
        name=name,
        paper=fields.need("paper", Text),
        shape=shape(fields),
        points=points,
        scores=scores,
        panels=tuple(panels),
        place=name.place,
    )


def _points_are_known(scores: tuple[ScoreSpec, ...], points: tuple[PointOf, ...], desk: Desk) -> bool:
    known = [*FIXED_POINTS, *(point.name.value for point in points)]
    sound = True
    for each in scores:
        if not isinstance(each.line, Between):
            continue
        for end in (each.line.start, each.line.end):
            if isinstance(end, PointNamed) and end.name not in known:
                sound = False
                guess = nearest(end.name, known)
                desk.error(
                    "unknown name",
                    f"This piece has no point `{end.name}`.",
                    end.place,
                    f"Did you mean `{guess}`?" if guess else f"Write [x, y], or one of: {', '.join(known)}.",
                )
    return sound


def _sides(where: Text, scores: tuple[ScoreSpec, ...], desk: Desk) -> tuple[Side, ...] | None:
    """The sides of scores on which a panel lies: `left of A`, `between A and B`, joined by `and`."""
    known = {each.name.value: each for each in scores}
    if where.value.startswith(_BETWEEN):
        return _between(where, known, desk)
    sides = []
    for part in re.split(rf" and (?=(?:{'|'.join(_RELATIONS)}) )", where.value):
        found = _SIDE.fullmatch(part)
        if not found:
            desk.error(
                "panel not placed",
                f"`{part}` does not say where the panel lies.",
                where.place,
                "Write a point in it, [x, y], or: left of, right of, above or below a score, between two scores, "
                "or several of these joined by and.",
            )
            return None
        if found[2] not in known:
            _unknown_score(found[2], where, known, desk)
            return None
        sides.append(_side(found[1], found[2], where))
    return tuple(sides)


def _side(relation: str, score_name: str, where: Text) -> Side:
    return Side(relation=relation, score=Text(value=score_name, place=_place_in(where, score_name)))


def _place_in(where: Text, words: str) -> Place:
    at = where.value.find(words)
    if at < 0 or where.place.length != len(where.value):
        return where.place
    return replace(where.place, column=where.place.column + at, length=len(words))


def _unknown_score(word: str, where: Text, known: dict[str, ScoreSpec], desk: Desk) -> None:
    guess = nearest(word, known)
    mend = f"Did you mean `{guess}`?" if guess else f"Its scores: {', '.join(known) or 'none'}."
    desk.error("unknown name", f"This piece has no score `{word}`.", _place_in(where, word), mend)


def _between(where: Text, known: dict[str, ScoreSpec], desk: Desk) -> tuple[Side, ...] | None:
    words = where.value.removeprefix(_BETWEEN)
    cuts = [(words[: found.start()], words[found.end() :]) for found in re.finditer(" and ", words)]
    if not cuts:
        desk.error("panel not placed", "`between` needs two scores.", where.place, "Write: between A and B.")
        return None
    pair = next(((a, b) for a, b in cuts if a in known and b in known), None)
    if pair is None:
        a, b = next(((a, b) for a, b in cuts if a in known or b in known), cuts[0])
        for word in (a, b):
            if word not in known:
                _unknown_score(word, where, known, desk)
        return None
    lines = (known[pair[0]].line, known[pair[1]].line)
    match lines:
        case (Across(at=a_at), Across(at=b_at)) if a_at.value != b_at.value:
            first, second = pair if a_at.value < b_at.value else pair[::-1]
            return _side("right of", first, where), _side("left of", second, where)
        case (Up(at=a_at), Up(at=b_at)) if a_at.value != b_at.value:
            first, second = pair if a_at.value < b_at.value else pair[::-1]
            return _side("above", first, where), _side("below", second, where)
    desk.error(
        "panel not placed",
        f"`{pair[0]}` and `{pair[1]}` are not two upright or two level scores with room between "
        "them, so between is not clear.",
        where.place,
        "Write a point in the panel: [x, y].",
    )
    return None


def shape(fields: Fields) -> Shape:
    """The shape of a piece or a layer."""
    if (size := fields.size("size")) is not None:
        return Rectangle(width=size[0], height=size[1])
    if (size := fields.size("bought")) is not None:
        return Bought(width=size[0], height=size[1])
    if (across := fields.get("circle", Quantity)) is not None:
        return Circle(across=across)
    if (half := fields.get("triangle", Triangle)) is not None:
        return half
    return Outline(corners=fields.several("outline", PointAt))


def triangle(fields: Fields, name: Text | None, desk: Desk) -> Triangle:
    """A right triangle."""
    width, height = fields.size("size") or (None, None)
    assert width and height
    return Triangle(width=width, height=height, right_angle=fields.need("right angle", str))


def place(fields: Fields, name: Text | None, desk: Desk) -> PlaceOn | None:
    """A place that fixes both directions, each once."""
    centred = fields.get("centred", str)
    sound = True
    for ends, direction, way in (
        (("left", "right"), "across", "left to right"),
        (("top", "bottom"), "up", "bottom to top"),
    ):
        given = [end for end in ends if end in fields.values]
        if centred in ("both", direction):
            given.append("centred")
        if not given:
            sound = False
            desk.error(
                "place not fixed",
                f"Nothing fixes where it lies {way}.",
                fields.place,
                f"Add {ends[0]}, {ends[1]} or centred: {direction}.",
            )
        elif len(given) > 1:
            sound = False
            desk.error(
                "place fixed twice",
                f"`{given[0]}` and `{given[1]}` both fix where it lies {way}; its size then may not agree.",
                fields.place,
                f"Keep one of {', '.join(given)}.",
            )
    if "centred on" in fields.values and centred is None:
        sound = False
        desk.error(
            "missing part", "`centred on` needs `centred` beside it.", fields.place, "Add centred: both, across or up."
        )
    if not sound:
        return None
    return PlaceOn(
        left=fields.get("left", Quantity),
        right=fields.get("right", Quantity),
        top=fields.get("top", Quantity),
        bottom=fields.get("bottom", Quantity),
        centred=centred,
        centred_on=centred_on(fields),
        turned=Turned(fields.word("turned") or "none"),
    )


def centred_on(fields: Fields) -> Text | None:
    """What to centre on; None for the receiving panel itself."""
    return fields.get("centred on", Text)


def join(fields: Fields, name: Text | None, desk: Desk) -> JoinSpec:
    """A join."""
    assert name is not None
    return JoinSpec(
        name=name,
        put=fields.need("put", SurfaceSpec),
        upon=fields.need("upon", SurfaceSpec),
        at=fields.need("at", PlaceOn),
        adhesive=fields.get("adhesive", Text),
        place=name.place,
    )


def layer(fields: Fields, name: Text | None, desk: Desk) -> LayerSpec | None:
    """A layer."""
    assert name is not None
    sheet = fields.get("paper", Text)
    outline = shape(fields)
    if sheet is None and not isinstance(outline, Bought):
        desk.error(
            "missing part",
            f"The layer `{name}` has no `paper`; only something bought needs none.",
            name.place,
            "Add the paper that it is cut from, or give its size as bought: [width, height].",
        )
        return None
    return LayerSpec(
        name=name,
        paper=sheet,
        shape=outline,
        upon=fields.need("upon", SurfaceSpec),
        at=fields.need("at", PlaceOn),
        face=Face(fields.word("glue on") or "back"),
        overhangs=fields.several("overhangs", Text),
        adhesive=fields.get("adhesive", Text),
        place=name.place,
    )


BUILDERS: dict[str, Builder] = {
    "paper": paper,
    "score": score,
    "piece": piece,
    "triangle": triangle,
    "place": place,
    "join": join,
    "layer": layer,
}
