"""Slits, windows, notches, round corners, scallops and slides from read fields."""

from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Quantity
from foldproof.recipe.cut_records import Cuts, HoleSpec, RoundedSpec, ScallopSpec, SlitSpec
from foldproof.recipe.desk import Builder, Desk, Fields
from foldproof.recipe.shape_records import Circle, Outline, PointAt, PointNamed, PointSpec, Rectangle
from foldproof.recipe.slide_records import Hold, SlideSpec
from foldproof.recipe.text import Text
from foldproof.recipe.words import CORNERS, FIXED_POINTS


def cuts(fields: Fields) -> Cuts:
    """Everything that is cut into a piece or a layer."""
    return Cuts(
        slits=fields.several("slits", SlitSpec),
        holes=(*fields.several("windows", HoleSpec), *fields.several("notches", HoleSpec)),
        rounded=fields.get("rounded", RoundedSpec),
        scallops=fields.several("scallops", ScallopSpec),
    )


def point(fields: Fields, key: str) -> PointSpec:
    """A point of a piece."""
    value = fields.need(key, object)
    assert isinstance(value, PointAt | PointNamed)
    return value


def same_point(one: PointSpec, other: PointSpec) -> bool:
    """Whether two points are written alike."""
    match one, other:
        case PointNamed(name=a), PointNamed(name=b):
            return a == b
        case PointAt(x=x, y=y), PointAt(x=u, y=v):
            return (x.value, y.value) == (u.value, v.value)
    return False


def known_point(point: PointSpec, known: tuple[str, ...], desk: Desk) -> bool:
    """Whether a point of a piece is one that it has; reports one that it has not."""
    if isinstance(point, PointAt) or point.name in (*FIXED_POINTS, *known):
        return True
    guess = nearest(point.name, (*FIXED_POINTS, *known))
    desk.error(
        "unknown name",
        f"This piece has no point `{point.name}`.",
        point.place,
        f"Did you mean `{guess}`?" if guess else f"Write [x, y], or one of: {', '.join((*FIXED_POINTS, *known))}.",
    )
    return False


def slit(fields: Fields, name: Text | None, desk: Desk) -> SlitSpec | None:
    """A slit of a piece."""
    assert name is not None
    start, end = point(fields, "from"), point(fields, "to")
    if same_point(start, end):
        desk.error(
            "no line", f"The slit `{name}` starts and ends at the same point.", end.place, "Give it another end.")
        return None
    return SlitSpec(name=name, start=start, end=end, place=name.place)


def window(fields: Fields, name: Text | None, desk: Desk) -> HoleSpec | None:
    """A window, or a notch."""
    assert name is not None
    shape: Rectangle | Circle | Outline
    at = fields.get("at", PointAt)
    if (size := fields.size("size")) is not None:
        shape = Rectangle(width=size[0], height=size[1])
    elif (across := fields.get("circle", Quantity)) is not None:
        shape = Circle(across=across)
    else:
        shape = Outline(corners=fields.several("outline", PointAt))
    if isinstance(shape, Outline) is (at is not None):
        sort = fields.form.name
        desk.error(
            "place fixed twice" if at else "place not fixed",
            f"The corners of the {sort} `{name}` say where it is already." if at
            else f"Nothing says where the {sort} `{name}` is.",
            at.place if at else name.place,
            "Leave `at` out." if at else "Add at: [x, y], the bottom left corner of its bounding rectangle.",
        )
        return None
    return HoleSpec(name=name, shape=shape, at=at, opens=fields.form.name == "notch", place=name.place)


def rounded(fields: Fields, name: Text | None, desk: Desk) -> RoundedSpec:
    """Corners cut round."""
    return RoundedSpec(
        radius=fields.need("radius", Quantity), corners=fields.several("corners", str) or CORNERS, place=fields.place)


def scallop(fields: Fields, name: Text | None, desk: Desk) -> ScallopSpec:
    """An edge cut in scallops."""
    return ScallopSpec(edge=fields.need("edge", str), across=fields.need("across", Quantity), place=fields.place)


def slide(fields: Fields, name: Text | None, desk: Desk) -> SlideSpec | None:
    """Something that slides, or turns, or is held."""
    assert name is not None
    hold = next(each for each in Hold if each.value in fields.values)
    at, pin = fields.get("at", PointAt), fields.get("pin", PointAt)
    return SlideSpec(
        name=name,
        what=fields.need("what", Text),
        hold=hold,
        into=fields.need(hold.value, Text),
        laps=fields.get("laps", Quantity),
        at=(at.x, at.y) if at else None,
        pin=(pin.x, pin.y) if pin else None,
        play=fields.get("play", Quantity),
        place=name.place,
    )


BUILDERS: dict[str, Builder] = {
    "slit": slit,
    "window": window,
    "notch": window,
    "round corners": rounded,
    "scalloped edge": scallop,
    "slide": slide,
}
