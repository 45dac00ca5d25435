"""Papers, pieces, scores, panels, joins and layers from read fields."""

from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Quantity
from foldproof.paper.face import Face, Fold
from foldproof.recipe.colours import COLOUR_WORDS, is_colour
from foldproof.recipe.cut_records import SlitSpec
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.panel_sides import sides_of
from foldproof.recipe.reading_cuts import cuts, known_point, point, same_point
from foldproof.recipe.records import (
    Across,
    Between,
    Bought,
    Circle,
    GlueSpec,
    JoinSpec,
    LayerSpec,
    Outline,
    PanelSpec,
    PaperSpec,
    PieceSpec,
    PlaceOn,
    PointAt,
    PointOf,
    PointSpec,
    Rectangle,
    ScoreSpec,
    Shape,
    StandOff,
    SurfaceSpec,
    Text,
    Triangle,
    Turned,
    Up,
)


def paper(fields: Fields, name: Text | None, desk: Desk) -> PaperSpec | None:
    """A paper."""
    assert name is not None
    tone = fields.get("tone", Text)
    if tone is not None and not is_colour(tone.value):
        guess = nearest(tone.value.lower().replace(" ", ""), sorted(COLOUR_WORDS))
        desk.error(
            "unknown colour",
            f"`{tone}` is neither a colour word of web pages nor # with six digits.",
            tone.place,
            f"Did you mean `{guess}`?" if guess else 'Write a word such as slategray, or "#8a9ba8" in quotes.',
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
        start, end = point(fields, "from"), point(fields, "to")
        line = Between(start=start, end=end)
        if same_point(start, end):
            desk.error(
                "no line", f"The score `{name}` starts and ends at the same point.", end.place, "Give it another end."
            )
            return None
    return ScoreSpec(name=name, line=line, fold=Fold(fields.need("fold", str)), place=name.place)


def piece(fields: Fields, name: Text | None, desk: Desk) -> PieceSpec | None:
    """A piece with its points, scores and panels."""
    assert name is not None
    points = tuple(
        PointOf(name=item.name, at=item.value)
        for item in fields.get("points", tuple) or ()
        if isinstance(item, Item) and item.name and isinstance(item.value, PointAt)
    )
    scores = fields.several("scores", ScoreSpec)
    made = cuts(fields)
    lines: list[Between | SlitSpec] = [each.line for each in scores if isinstance(each.line, Between)]
    sound = _points_are_known(
        tuple(end for line in (*lines, *made.slits) for end in (line.start, line.end)), points, desk)
    panels: list[PanelSpec] = []
    for item in fields.get("panels", tuple) or ():
        assert isinstance(item, Item) and item.name is not None
        if isinstance(item.value, PointAt):
            panels.append(PanelSpec(name=item.name, where=item.value))
            continue
        assert isinstance(item.value, Text)
        sides = sides_of(item.value, scores, desk)
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
        cuts=made,
    )


def _points_are_known(lines: tuple[PointSpec, ...], points: tuple[PointOf, ...], desk: Desk) -> bool:
    known = tuple(point.name.value for point in points)
    unknown = [end for end in lines if not known_point(end, known, desk)]
    return not unknown


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
    points, lie_on = fields.several("points", PointAt), fields.several("lie on", PointAt)
    if points and lie_on:
        others = [key for key in ("left", "right", "top", "bottom", "centred", "turned") if key in fields.values]
        if others:
            desk.error(
                "place fixed twice", f"`points` and `{others[0]}` both fix where it lies.", fields.place,
                f"Keep `points` with `lie on`, or {others[0]}.")
            return None
        return PlaceOn(points=(points[0], points[1]), lie_on=(lie_on[0], lie_on[1]))
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


def glue_area(fields: Fields, name: Text | None, desk: Desk) -> GlueSpec | None:
    """Where the adhesive goes."""
    strips = {side: fields.get(side, Quantity) for side in ("left", "right", "top", "bottom")}
    whole = fields.get("all over", str) is not None
    if whole == any(strips.values()):
        desk.error(
            "glue area not clear",
            "A glue area is all over, or strips along edges." if whole else "This glue area names no edge.",
            fields.place,
            "Write the width of a strip along each edge that takes adhesive, like {left: 1/8}, or: whole.",
        )
        return None
    return GlueSpec(**strips, whole=whole, place=fields.place)


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
        stands=fields.get("stands", StandOff),
        glue_area=fields.get("glue area", GlueSpec),
    )


def stand_off(fields: Fields, name: Text | None, desk: Desk) -> StandOff:
    """How a panel stands off the surface that it is joined to."""
    return StandOff(edge=fields.need("edge", str), angle=fields.need("angle", Quantity))


def layer(fields: Fields, name: Text | None, desk: Desk) -> LayerSpec | None:
    """A layer."""
    assert name is not None
    sheet = fields.get("paper", Text)
    outline, made = shape(fields), cuts(fields)
    if not _points_are_known(tuple(end for slit in made.slits for end in (slit.start, slit.end)), (), desk):
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
        glue_area=fields.get("glue area", GlueSpec),
        cuts=made,
    )


BUILDERS: dict[str, Builder] = {
    "paper": paper,
    "score": score,
    "piece": piece,
    "triangle": triangle,
    "place": place,
    "stand-off": stand_off,
    "glue area": glue_area,
    "join": join,
    "layer": layer,
}
