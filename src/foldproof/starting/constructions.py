"""The constructions that a recipe can be begun from, and what each reckons from the finished size."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from pathlib import Path

from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Unit
from foldproof.starting.sizes import Size
from foldproof.starting.trouble import CannotBeError

Numbers = Mapping[str, Fraction]
_TEXTS = Path(__file__).parent / "constructions"


@dataclass(frozen=True, slots=True, kw_only=True)
class Construction:
    """A way to fold a card."""

    name: str
    """As it is called on the command line."""
    about: str
    """What it is, in a line."""
    title: str
    """Of the card, until the author names it."""
    own: Callable[[Size], Numbers]
    """The numbers that its text is given beside width, height and border."""
    least: tuple[tuple[str, str, int], ...] = ()
    """What would be too narrow to fold, glue or write on: the arithmetic, what it is, and the least in millimetres."""
    landscape: bool = False
    """Whether a card named by its envelope lies on its long edge."""

    @property
    def text(self) -> str:
        """The recipe with gaps."""
        return (_TEXTS / f"{self.name}.txt").read_text(encoding="utf-8")


def find_construction(written: str) -> Construction:
    """A construction by name; `fold` and `card` may be added. Raises CannotBeError."""
    plain = " ".join(written.casefold().replace("-", " ").replace("centre", "center").split())
    for end in (" card", " fold"):
        plain = plain.removesuffix(end)
    plain = _OTHER_NAMES.get(plain, plain)
    found = next((one for one in CONSTRUCTIONS if one.name.replace("-", " ") == plain), None)
    if found is not None:
        return found
    names = [one.name for one in CONSTRUCTIONS]
    meant = nearest(plain, names)
    raise CannotBeError(f"{written!r} is no construction that is known here. "
                        + (f"Write {meant}, if that is meant. " if meant else "") + f"Known: {', '.join(names)}.")


def border_of(size: Size) -> Fraction:
    """The border round mats: an eighth of an inch or 4 mm (common practice, no source)."""
    return _mm(size, 4, Fraction(1, 8))


def part(size: Size, of: Fraction, share: Fraction) -> Fraction:
    """A share of a length, down to an eighth of an inch or a whole millimetre, at least one of these."""
    step = Fraction(1, 8) if size.unit is Unit.INCH else Fraction(1) / size.unit.millimetres
    return max(int(of * share / step), 1) * step


def _mm(size: Size, millimetres: int, inches: Fraction) -> Fraction:
    """A custom of the table: so much in metric recipes, so much in inches."""
    return inches if size.unit is Unit.INCH else millimetres / size.unit.millimetres


def _side(size: Size) -> Numbers:
    return {
        "strip width": part(size, size.width, Fraction(7, 10)), "strip height": part(size, size.height, Fraction(1, 7)),
        "strip up": part(size, size.height, Fraction(1, 7))}


def _tent(size: Size) -> Numbers:
    return {
        "band height": part(size, size.height, Fraction(2, 5)), "band up": part(size, size.height, Fraction(1, 4)),
        "label width": part(size, size.width, Fraction(3, 5))}


def _across_the_middle(size: Size) -> Numbers:
    return {"label in": part(size, size.width, Fraction(1, 9)), "label down": part(size, size.height, Fraction(1, 3))}


def _roll(size: Size) -> Numbers:
    return {
        "ease": _mm(size, 3, Fraction(1, 8)), "tag width": part(size, size.width, Fraction(2, 3)),
        "tag height": part(size, size.height, Fraction(1, 6)), "tag up": part(size, size.height, Fraction(1, 8))}


def _accordion(size: Size) -> Numbers:
    return {"tab": _mm(size, 12, Fraction(1, 2)), "label width": part(size, size.width, Fraction(3, 5)),
            "label height": part(size, size.height, Fraction(1, 5))}


def _easel(size: Size) -> Numbers:
    distance = part(size, size.height, Fraction(3, 5))
    return {
        "foot distance": distance, "stop width": part(size, size.width, Fraction(1, 2)),
        "stop height": _mm(size, 10, Fraction(3, 8)), "strip width": part(size, size.width, Fraction(2, 3)),
        "strip height": part(size, size.height, Fraction(1, 5)), "strip up": part(size, size.height, Fraction(1, 10)),
        "stands": _on_ruler(size, _height_of_easel(size.height, distance))}


def _height_of_easel(front: Fraction, foot: Fraction) -> Fraction:
    """How high an easel stands: twice the height of the triangle of strut, lower half of the front and its foot.

    Strut and lower half are each half of the front; to the ten-thousandth of a unit, rounded down.
    """
    return Fraction(isqrt(int((front * front - foot * foot) * 10**8)), 10**4)


def _on_ruler(size: Size, value: Fraction) -> Fraction:
    marks = 32 if size.unit is Unit.INCH else 2 * size.unit.millimetres
    return round(value * marks) / Fraction(marks)


def _center_step(size: Size) -> Numbers:
    return {
        "side": part(size, size.width, Fraction(1, 4)), "tread depth": part(size, size.height, Fraction(2, 5)),
        "front height": part(size, size.height, Fraction(7, 20)), "rise": part(size, size.height, Fraction(1, 4)),
        "sky height": part(size, size.height, Fraction(7, 12))}


def _shutter(size: Size) -> Numbers:
    return {"shutter": part(size, size.width, Fraction(1, 4)), "strip": part(size, size.height, Fraction(1, 3))}


def _diagonal(size: Size) -> Numbers:
    return {"flap": part(size, size.width, Fraction(13, 20)), "button": _mm(size, 25, Fraction(1))}


def _pop_up(size: Size) -> Numbers:
    return {
        "depth": part(size, size.width, Fraction(4, 7)), "rise": part(size, size.width, Fraction(3, 8)),
        "tab": _mm(size, 12, Fraction(1, 2)), "box width": part(size, size.height, Fraction(1, 3)),
        "label width": part(size, size.width, Fraction(3, 5)), "label height": part(size, size.height, Fraction(1, 7)),
        "label up": part(size, size.height, Fraction(1, 5))}


CONSTRUCTIONS = (
    Construction(name="side", about="one fold at the left", title="Side-fold card", own=_side, least=(
        ("strip height", "greeting strip", 9), ("width - 4 * border", "panel on the cover", 25))),
    Construction(name="tent", about="one fold along the top", title="Tent card", own=_tent, landscape=True, least=(
        ("label height", "label", 9),)),
    Construction(name="gate", about="two doors that meet in the middle", title="Gate card", own=_across_the_middle,
                 least=(("door", "door", 32), ("label height", "label", 12))),
    Construction(name="z", about="the front half folds back on itself", title="Z card", own=_across_the_middle,
                 least=(("half", "flap", 32), ("label height", "label", 12))),
    Construction(name="roll", about="three panels, the last tucked inside", title="Roll card", own=_roll,
                 least=(("tag height", "tag", 9),)),
    Construction(name="accordion", about="four panels from two strips joined by a tab", title="Accordion card",
                 own=_accordion, least=(("label height", "label", 9),)),
    Construction(name="easel", about="stands by itself, its front taped by the upper half", title="Easel card",
                 own=_easel, landscape=True, least=(("height / 2", "strut", 35),)),
    Construction(name="center-step", about="two slits free a step in the middle", title="Step card", own=_center_step,
                 least=(("side", "side beside the step", 18), ("rise - 2 * border", "riser of the step", 9))),
    Construction(name="shutter", about="three strips that swing over as the ends are pulled", title="Shutter card",
                 own=_shutter, landscape=True, least=(
                     ("strip", "strip", 20), ("shutter", "shutter", 20), ("height - 2 * strip", "middle strip", 20),
                     ("wall - shutter - 2 * border", "board on the left wall", 12))),
    Construction(name="diagonal", about="two pieces joined, a slanted score on each", title="Coat card", own=_diagonal,
                 least=(("collar", "top of the lapel", 16),)),
    Construction(name="pop-up", about="a box that stands up inside a side fold", title="Pop-up card", own=_pop_up,
                 least=(("rise", "front of the box", 25), ("box width", "box", 25))),
)
_OTHER_NAMES = {
    "side fold": "side", "tent fold": "tent", "zigzag": "accordion", "concertina": "accordion", "step": "center step",
    "two piece diagonal": "diagonal", "pop up box": "pop up", "popup": "pop up", "popup box": "pop up", "box": "pop up",
    "gatefold": "gate", "roll fold": "roll", "trifold": "roll"}
