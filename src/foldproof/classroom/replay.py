"""A plan carried out on virtual sheets: the proof that it gives the parts.

Written apart from the planner and sharing nothing with it but the records, so that a mistake of the planner shows here.
"""

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from foldproof.classroom.sheets import Cut, Line, MayTurn, Node, Offcut, Part, Plan, Sheet, Taken
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Lies:
    """A rectangle where it lies on the whole sheet: left, bottom, width, height."""

    left: Fraction
    bottom: Fraction
    width: Fraction
    height: Fraction


def replay(plan: Plan) -> tuple[str, ...]:
    """What is wrong with a plan, in words; empty when cutting it gives every part, in the ways the trimmer can."""
    wrong: list[str] = []
    parts = {part.name: part for part in plan.parts}
    if len(parts) != len(plan.parts):
        wrong.append("two parts share a name")
    got: Counter[str] = Counter()
    for number, layout in enumerate(plan.layouts, start=1):
        if layout.times < 1:
            wrong.append(f"layout {number} is cut {layout.times} times")
        faults, found = _carry_out(layout.root, plan.sheet, parts)
        wrong += [f"layout {number}: {fault}" for fault in faults]
        for name, count in found.items():
            got[name] += count * layout.times
    wrong += [
        f"{part.name}: {got[part.name]} cut, {part.count} needed" for part in plan.parts if got[part.name] < part.count
    ]
    if plan.least > plan.count:
        wrong.append(f"{plan.count} sheets are fewer than the {plan.least} that the proof allows")
    return tuple(wrong)


def _carry_out(root: Node, sheet: Sheet, parts: dict[str, Part]) -> tuple[list[str], Counter[str]]:
    wrong: list[str] = []
    found: Counter[str] = Counter()
    whole = Lies(left=Fraction(0), bottom=Fraction(0), width=sheet.width, height=sheet.height)
    waiting: list[tuple[Node, Lies]] = [(root, whole)]
    while waiting:
        node, lies = waiting.pop()
        if (node.width, node.height) != (lies.width, lies.height):
            wrong.append(
                f"a rectangle said to be {node.width} x {node.height} is {lies.width} x {lies.height} on the table"
            )
            continue
        if isinstance(node, Taken):
            found[node.part] += 1
            wrong += _part_faults(node, lies, sheet, parts)
        elif isinstance(node, Cut):
            near, far, faults = _divide(node, lies, sheet)
            wrong += faults
            if near is not None and far is not None:
                waiting += [(node.near, near), (node.far, far)]
        elif not isinstance(node, Offcut):
            raise TypeError(f"not a node of a cutting tree: {node!r}")
    return wrong, found


def _part_faults(node: Taken, lies: Lies, sheet: Sheet, parts: dict[str, Part]) -> Iterable[str]:
    part = parts.get(node.part)
    if part is None:
        yield f"{node.part} is not a part of this plan"
        return
    if node.turned and part.may_turn is not MayTurn.ANY:
        yield f"{part.name} lies on its side, which it may not"
    wanted = (part.height, part.width) if node.turned else (part.width, part.height)
    if (lies.width, lies.height) != wanted:
        yield f"{part.name} comes out {lies.width} x {lies.height}, not {wanted[0]} x {wanted[1]}"
    if (
        lies.left < sheet.trim
        or lies.bottom < sheet.trim
        or lies.left + lies.width > sheet.width - sheet.trim
        or lies.bottom + lies.height > sheet.height - sheet.trim
    ):
        yield f"{part.name} reaches into the {sheet.trim} that is trimmed off the edge of the sheet"


def _divide(cut: Cut, lies: Lies, sheet: Sheet) -> tuple[Lies | None, Lies | None, list[str]]:
    """The two rectangles that a cut leaves, and what is wrong with the cut."""
    across, along = (lies.width, lies.height) if cut.line is Line.UPRIGHT else (lies.height, lies.width)
    rest = max(across - cut.at - sheet.kerf, Fraction(0))  # the blade may hang over the edge
    if not 0 < cut.at < across:
        return None, None, [f"a cut at {cut.at} does not divide a rectangle {across} across"]
    faults = []
    if sheet.longest_cut is not None and along > sheet.longest_cut:
        faults.append(f"a cut {along} long is longer than the trimmer's {sheet.longest_cut}")
    if max(cut.at, rest) < sheet.least_hold:
        faults.append(f"a cut at {cut.at} leaves less than the {sheet.least_hold} that the trimmer holds")
    if cut.line is Line.UPRIGHT:
        near = Lies(left=lies.left, bottom=lies.bottom, width=cut.at, height=lies.height)
        far = Lies(left=lies.left + cut.at + sheet.kerf, bottom=lies.bottom, width=rest, height=lies.height)
    else:
        near = Lies(left=lies.left, bottom=lies.bottom, width=lies.width, height=cut.at)
        far = Lies(left=lies.left, bottom=lies.bottom + cut.at + sheet.kerf, width=lies.width, height=rest)
    return near, far, faults


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A part where it lies on a sheet, without a word on how it is cut."""

    name: str
    lies: Lies


def can_be_cut(spots: tuple[Spot, ...], whole: Lies) -> bool:
    """Whether straight edge-to-edge cuts can free every part of a layout (facts: the pinwheel of five can't).

    A layout that is free of overlap can be cut so just when some edge-to-edge line crosses no part and leaves parts on
    both sides, and both sides can be cut in turn; which such line is taken first does not matter.
    """
    for one in spots:
        lies = one.lies
        if (
            lies.left < whole.left
            or lies.bottom < whole.bottom
            or lies.left + lies.width > whole.left + whole.width
            or lies.bottom + lies.height > whole.bottom + whole.height
        ):
            return False
    if len(spots) < 2:
        return True
    for upright in (True, False):
        spans = sorted(
            (one.lies.left, one.lies.left + one.lies.width, i)
            if upright
            else (one.lies.bottom, one.lies.bottom + one.lies.height, i)
            for i, one in enumerate(spots)
        )
        reach = spans[0][1]
        for count, (start, end, _) in enumerate(spans[1:], start=1):
            if start >= reach:
                first = tuple(spots[i] for _, _, i in spans[:count])
                last = tuple(spots[i] for _, _, i in spans[count:])
                return can_be_cut(first, _box(first)) and can_be_cut(last, _box(last))
            reach = max(reach, end)
    return False


def _box(spots: tuple[Spot, ...]) -> Lies:
    left = min(one.lies.left for one in spots)
    bottom = min(one.lies.bottom for one in spots)
    right = max(one.lies.left + one.lies.width for one in spots)
    top = max(one.lies.bottom + one.lies.height for one in spots)
    return Lies(left=left, bottom=bottom, width=right - left, height=top - bottom)
