"""Sound recipes made by chance, each the same every time: kinds of fold, layers, sizes, units and names vary."""

from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_length

SHORT = ("mat", "sky", "sea", "tag", "moon", "sign", "bar", "tab", "rim", "oak", "pier", "hull")
LONG = (
    "harbor evening sky panel", "second brick lane background", "narrow greeting banner", "large inside message mat",
    "lighthouse window frame", "patterned border underneath", "upper left corner ornament", "sailcloth writing panel",
    "moonlit water background", "boathouse door plaque", "double rope edging strip", "far shore silhouette")
WORDS = ("Hello", "With love from all of us", "Safe in harbor", "Many happy returns of the day")


@dataclass(slots=True)
class _Draft:
    """A recipe while it is being made up."""

    chance: Random
    unit: Unit
    width: Fraction
    """Of the closed card."""
    height: Fraction
    layers: list[str] = field(default_factory=list)
    cuts: list[str] = field(default_factory=list)
    puts: dict[str, list[str]] = field(default_factory=dict)
    """What is put on, by the face that is up then."""
    stamps: list[str] = field(default_factory=list)
    names: list[str] = field(default_factory=list)

    @property
    def grain(self) -> Fraction:
        return Fraction(1, 8) if self.unit is Unit.INCH else Fraction(1)

    def say(self, value: Fraction) -> str:
        return write_length(value, self.unit)

    def whole(self, value: Fraction) -> Fraction:
        """The next lower length that a ruler shows."""
        return (value // self.grain) * self.grain

    def name(self) -> str:
        return self.names.pop()


def recipe_text(number: int) -> str:
    """The recipe with that number."""
    chance = Random(number)
    unit = chance.choice([Unit.INCH, Unit.MM])
    sizes = [("4 1/4", "5 1/2"), ("5", "7"), ("3 1/2", "4 7/8"), ("2", "3"), ("6", "6"), ("4 1/8", "9 1/4")]
    if unit is Unit.INCH:
        width, height = (sum(map(Fraction, size.split()), Fraction(0)) for size in chance.choice(sizes))
    else:
        width, height = (Fraction(x) for x in chance.choice(
            [(105, 148), (148, 105), (120, 120), (60, 85), (99, 210), (137, 203)]))
    if chance.random() < 0.4:
        width, height = height, width
    names = chance.sample(LONG if chance.random() < 0.4 else SHORT, 12)
    draft = _Draft(chance=chance, unit=unit, width=width, height=height, names=list(names))
    kind = chance.choice([_side_fold, _tent, _gate, _zigzag, _roll])
    return kind(draft)


def _side_fold(draft: _Draft) -> str:
    w, h = draft.width, draft.height
    fold = draft.chance.choice(["valley", "mountain"])
    _cover(draft, "rear", "front" if fold == "valley" else "back", w, h)
    _cover(draft, "cover", "back" if fold == "valley" else "front", w, h)
    angle = 180 if fold == "valley" else -180
    return _written(
        draft, (2 * w, h), (w, h), {"spine": ("across", w, fold)}, {"rear": "left of spine", "cover": "right of spine"},
        ("rear", {"spine": angle}), [("spine", fold)])


def _tent(draft: _Draft) -> str:
    w, h = draft.width, draft.height
    _cover(draft, "lower", "front", w, h)
    _cover(draft, "upper", "back", w, h)
    return _written(
        draft, (w, 2 * h), (w, h), {"ridge": ("up", h, "valley")}, {"lower": "below ridge", "upper": "above ridge"},
        ("lower", {"ridge": 180}), [("ridge", "valley")])


def _gate(draft: _Draft) -> str:
    w, h = draft.width, draft.height
    door = draft.whole(w / 2)
    w = 2 * door
    draft.width = w
    _cover(draft, "middle", "front", w, h)
    for name in ("left door", "right door"):
        _cover(draft, name, draft.chance.choice(["back", "back", "front"]), door, h)
    return _written(
        draft, (2 * w, h), (w, h),
        {"left hinge": ("across", door, "valley"), "right hinge": ("across", 2 * w - door, "valley")},
        {"left door": "left of left hinge", "middle": "between left hinge and right hinge",
         "right door": "right of right hinge"},
        ("middle", {"left hinge": 180, "right hinge": 180}), [("left hinge", "valley"), ("right hinge", "valley")])


def _zigzag(draft: _Draft) -> str:
    w, h = draft.width, draft.height
    flap = draft.whole(w * draft.chance.choice([Fraction(1, 2), Fraction(1, 3), Fraction(2, 3)]))
    _cover(draft, "page", "front", w, h)
    _cover(draft, "flap", "front", flap, h)
    _cover(draft, "bridge", draft.chance.choice(["front", "back"]), flap, h, 1)
    base = w + 2 * flap
    return _written(
        draft, (base, h), (w, h), {"flap fold": ("across", flap, "mountain"), "spine": ("across", 2 * flap, "valley")},
        {"flap": "left of flap fold", "bridge": "between flap fold and spine", "page": "right of spine"},
        ("page", {"flap fold": -180, "spine": 180}), [("flap fold", "mountain"), ("spine", "valley")])


def _roll(draft: _Draft) -> str:
    w, h = draft.width, draft.height
    inner = w - draft.grain * (1 if draft.unit is Unit.INCH else 2)
    _cover(draft, "middle", "front", w, h)
    _cover(draft, "tail", "front", inner, h)
    _cover(draft, "cover", "back", w, h)
    return _written(
        draft, (2 * w + inner, h), (w, h),
        {"front fold": ("across", w, "valley"), "tail fold": ("across", 2 * w, "valley")},
        {"cover": "left of front fold", "middle": "between front fold and tail fold", "tail": "right of tail fold"},
        ("middle", {"front fold": 180, "tail fold": 180}), [("tail fold", "valley"), ("front fold", "valley")])


def _cover(draft: _Draft, panel: str, face: str, width: Fraction, height: Fraction, most: int = 3) -> None:
    """Put up to `most` layers on a face of a panel, each on the one before."""
    chance, grain = draft.chance, draft.grain
    on, room = f"{panel} {face}", (width, height)
    for depth in range(chance.randint(0, most)):
        if min(room) < 6 * grain or not draft.names:
            return
        name = draft.name()
        border = grain * chance.choice([1, 1, 2] if draft.unit is Unit.INCH else [3, 4, 5])
        plain = face == "back" or panel == "upper"  # there it may stand on its head
        paper = chance.choice(["plain", "plain" if plain else "waves", "chalk"])
        shape = chance.choice(["mat", "mat", "strip", "label", "disc"]) if depth or chance.random() < 0.3 else "mat"
        if shape == "mat" or min(room) < 14 * grain:
            size = (room[0] - 2 * border, room[1] - 2 * border)
            at, hand = "{centred: both}", f"border: {draft.say(border)}"
        elif shape == "strip":
            size = (draft.whole(room[0] * Fraction(3, 4)), draft.whole(room[1] * Fraction(chance.randint(1, 3), 8)))
            side = chance.choice(["left", "right"])
            low = draft.whole(room[1] / 8)
            at = f"{{{side}: 0, bottom: {draft.say(low)}}}"
            hand = f"{side}: 0, bottom: {draft.say(low)}"
        elif shape == "label":
            size = (draft.whole(room[0] / 2), draft.whole(room[1] / 3))
            left, top = draft.whole(room[0] / 5), draft.whole(room[1] / 6)
            at = hand = f"left: {draft.say(left)}, top: {draft.say(top)}"
            at = f"{{{at}}}"
        else:
            across = draft.whole(min(room) / 2)
            size = (across, across)
            top = draft.whole((room[1] - across) / 3)
            at, hand = f"{{centred: across, top: {draft.say(top)}}}", f"centred: across, top: {draft.say(top)}"
        if min(size) < grain:
            return
        body = f"circle: {draft.say(size[0])}" if shape == "disc" and size[0] == size[1] and "across" in at \
            else f"size: [{draft.say(size[0])}, {draft.say(size[1])}]"
        glue = chance.choice(["glue", "foam", "tape"]) if depth else "glue"
        draft.layers.append(f"  {name}: {{paper: {paper}, {body}, upon: {on}, at: {at}, adhesive: {glue}}}")
        cut = "die cut" if body.startswith("circle") else "cut"
        draft.cuts.append(f"      - {{{cut}: [{draft.say(size[0])}, {draft.say(size[1])}], piece: {name}}}")
        draft.puts.setdefault(face, []).append(f"      - attach: {{what: {name}, {hand}, with: {glue}}}")
        if chance.random() < 0.3 and not plain:
            draft.stamps.append(f"      - stamp: {{upon: {name} front, words: {chance.choice(WORDS)}}}")
        if body.startswith("circle"):
            return
        on, room = f"{name} front", size


Scores = dict[str, tuple[str, Fraction, str]]


def _written(
    draft: _Draft, base: tuple[Fraction, Fraction], closed: tuple[Fraction, Fraction], scores: Scores,
    panels: dict[str, str], pose: tuple[str, dict[str, int]], folds: list[tuple[str, str]],
) -> str:
    say, chance = draft.say, draft.chance
    size = f"[{say(base[0])}, {say(base[1])}]"
    lines = [f"title: Made up {chance.randint(1, 999)}", "summary: Made up by chance.", f"unit: {draft.unit.value}",
             f"finished: {{size: [{say(closed[0])}, {say(closed[1])}]}}", _PAPERS, "pieces:", "  base:",
             "    paper: card", f"    size: {size}", "    scores:"]
    lines += [f"      {name}: {{{way}: {say(at)}, fold: {fold}}}" for name, (way, at, fold) in scores.items()]
    lines += ["    panels:", *(f"      {name}: {where}" for name, where in panels.items())]
    lines += ["layers:", *draft.layers] if draft.layers else []
    angles = ", ".join(f"{name}: {pose[1][name]}" for name, _ in folds)
    lines += ["poses:", f"  closed: {{still: {pose[0]}, folds: {{{angles}}}}}",
              f"  open: {{still: {pose[0]}, folds: {{}}}}", "opening: [closed, open]", _SUPPLIES, "steps:"]
    lines += _step("Cut the base", [f"      - cut: {size}"])
    lines += _scoring(draft, base, scores)
    fold = [f"      - fold: {{score: {name}, fold: {way}}}" for name, way in folds]
    measure = f"      - measure: [{say(closed[0])}, {say(closed[1])}]"
    lines += _step("Fold it", [*fold, measure])
    lines += _step("Cut the layers", draft.cuts, base=False) if draft.cuts else []
    lines += _step("Stamp", draft.stamps, base=False) if draft.stamps else []
    flat = [f"      - unfold: {name}" for name, _ in reversed(folds)]
    inside, outside = draft.puts.get("front", []), draft.puts.get("back", [])
    lines += _step("Dress the front", [*flat, *inside])
    if outside:
        way = chance.choice(["book page", "top to bottom"])
        over = f"      - turn over: {way}"
        turn = "      - turn: half"
        lines += _step("Dress the back", [over, *([turn] if way == "top to bottom" else []), *outside])
        lines += _step("Close it", [over, *([turn] if way == "top to bottom" else []), *fold, measure])
    else:
        lines += _step("Close it", [*fold, measure])
    lines += _step("Try it", [*flat, *fold])
    return "\n".join(lines) + "\n"


def _scoring(draft: _Draft, base: tuple[Fraction, Fraction], scores: Scores) -> list[str]:
    """All scores from the front; those of a wide base now and then from the back, or by a half turn."""
    say, wide = draft.say, base[0]
    way = next(iter(scores.values()))[0]
    if way == "up":
        return _step("Score it", [
            "      - lay: {edge: left, up: front}", *(f"      - score: {say(at)}" for _, at, _ in scores.values()),
            "      - turn: quarter anticlockwise"])
    places = [at for _, at, _ in scores.values()]
    if draft.chance.random() < 0.5:
        return _step("Score it", [
            "      - lay: {edge: top, up: front}", *(f"      - score: {say(at)}" for at in places)])
    return _step("Score it", [
        "      - turn over: book page", "      - lay: {edge: top, up: back}",
        *(f"      - score: {say(wide - at)}" for at in places), "      - turn over: book page"])


def _step(title: str, actions: list[str], *, base: bool = True) -> list[str]:
    piece = ["    piece: base"] if base else []
    return [f"  - title: {title}", *piece, "    do:", *actions, "    text: Do as the picture shows."]


_PAPERS = """papers:
  card: {kind: cardstock, weight: 80 lb cover, thickness: 0.011 in, tone: "#8a9ba8"}
  plain: {kind: cardstock, weight: 80 lb cover, thickness: 0.011 in, tone: "#efe6d2"}
  chalk: {kind: cardstock, weight: 80 lb cover, thickness: 0.011 in, tone: white}
  waves: {kind: patterned paper, weight: 70 lb text, thickness: 0.005 in, printed: one face, pattern: upright,
          tone: "#7fb3c8"}"""
_SUPPLIES = """supplies:
  glue: {kind: dry glue}
  tape: {kind: tape}
  foam: {kind: foam, thickness: 1/16 in}"""
