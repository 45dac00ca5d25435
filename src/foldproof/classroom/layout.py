"""From a pattern to the cuts that make it: which edge goes to the stop, what is cut first, what is left over.

Each cut is set by the size of the strip that it gives, so that equal strips share one setting of the stop.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction

from foldproof.classroom.sheets import Cut, Line, Node, Offcut, Part, Sheet, Taken
from foldproof.classroom.task import Leaf, Split, Tree

_Inner = Callable[[Fraction, Fraction], Node]


def lay_out(tree: Tree, sheet: Sheet, parts: Sequence[Part]) -> Node:
    """The cuts of a whole sheet, its trimmed edges first."""
    return _trimmed(sheet, sheet.width, sheet.height, lambda w, h: _divide(tree, w, h, sheet, parts))


def settings(node: Node) -> frozenset[Fraction]:
    """The different settings of the stop."""
    found = set()
    waiting = [node]
    while waiting:
        here = waiting.pop()
        if isinstance(here, Cut):
            found.add(here.at)
            waiting += [here.near, here.far]
    return frozenset(found)


def count_cuts(node: Node) -> int:
    """How many cuts a sheet takes, one by one."""
    return 0 if not isinstance(node, Cut) else 1 + count_cuts(node.near) + count_cuts(node.far)


def within_reach(node: Node, sheet: Sheet) -> bool:
    """Whether the trimmer can make and hold every cut."""
    if not isinstance(node, Cut):
        return True
    across, along = (node.width, node.height) if node.line is Line.UPRIGHT else (node.height, node.width)
    if sheet.longest_cut is not None and along > sheet.longest_cut:
        return False
    if max(node.at, across - node.at - sheet.kerf) < sheet.least_hold:
        return False
    return within_reach(node.near, sheet) and within_reach(node.far, sheet)


def offcuts(node: Node) -> list[Offcut]:
    """What is left over of one sheet, the largest first."""
    if isinstance(node, Offcut):
        return [node]
    if isinstance(node, Taken):
        return []
    return sorted(offcuts(node.near) + offcuts(node.far), key=lambda one: -one.width * one.height)


def _cut(
    line: Line, at: Fraction, width: Fraction, height: Fraction, kerf: Fraction, near: _Inner, far: _Inner
) -> Cut:
    if line is Line.UPRIGHT:
        rest = max(width - at - kerf, Fraction(0))
        return Cut(width=width, height=height, line=line, at=at, near=near(at, height), far=far(rest, height))
    rest = max(height - at - kerf, Fraction(0))
    return Cut(width=width, height=height, line=line, at=at, near=near(width, at), far=far(width, rest))


def _left_over(width: Fraction, height: Fraction) -> Node:
    return Offcut(width=width, height=height)


class _Parts:
    """Parts or groups to be cut off one after the other by cuts of one direction."""

    def __init__(self, trees: Sequence[Tree], line: Line, sheet: Sheet, parts: Sequence[Part]) -> None:
        self.trees, self.line, self.sheet, self.parts = trees, line, sheet, parts

    def __call__(self, width: Fraction, height: Fraction) -> Node:
        if not self.trees:
            return Offcut(width=width, height=height)
        first, rest = self.trees[0], self.trees[1:]
        size = needed_size(first, self.sheet, self.parts)
        at = size[0] if self.line is Line.UPRIGHT else size[1]
        across = width if self.line is Line.UPRIGHT else height
        if not rest and at == across:
            return _divide(first, width, height, self.sheet, self.parts)
        return _cut(
            self.line,
            at,
            width,
            height,
            self.sheet.kerf,
            _Parts((first,), self.line, self.sheet, self.parts),
            _Parts(rest, self.line, self.sheet, self.parts),
        )


def _divide(tree: Tree, width: Fraction, height: Fraction, sheet: Sheet, parts: Sequence[Part]) -> Node:
    need = needed_size(tree, sheet, parts)
    spare = (width - need[0], height - need[1])
    # What is left over comes off in one piece, the larger one first, before the parts are cut apart, so that it can
    # be used again; a group that is divided by upright cuts loses its spare width at the end of its row.
    along = tree.line if isinstance(tree, Split) else None
    trims = []
    if spare[0] > 0 and along is not Line.UPRIGHT:
        trims.append((spare[0] * height, Line.UPRIGHT, need[0]))
    if spare[1] > 0 and along is not Line.LEVEL:
        trims.append((spare[1] * width, Line.LEVEL, need[1]))
    if trims:
        _, line, at = max(trims, key=lambda one: one[0])
        return _cut(line, at, width, height, sheet.kerf, _Parts((tree,), line, sheet, parts), _left_over)
    if isinstance(tree, Leaf):
        return Taken(width=width, height=height, part=parts[tree.kind].name, turned=tree.turned)
    return _Parts(_ordered(tree, sheet, parts), tree.line, sheet, parts)(width, height)


def _ordered(tree: Split, sheet: Sheet, parts: Sequence[Part]) -> tuple[Tree, ...]:
    """Equal strips together, the widest first."""

    def key(member: Tree) -> tuple[Fraction, Fraction, str]:
        size = needed_size(member, sheet, parts)
        across, along = size if tree.line is Line.UPRIGHT else (size[1], size[0])
        return -across, -along, repr(member)

    return tuple(sorted(tree.members, key=key))


def needed_size(tree: Tree, sheet: Sheet, parts: Sequence[Part]) -> tuple[Fraction, Fraction]:
    """Width and height that a pattern needs, with what the blade takes between its parts."""
    if isinstance(tree, Leaf):
        part = parts[tree.kind]
        return (part.height, part.width) if tree.turned else (part.width, part.height)
    sizes = [needed_size(member, sheet, parts) for member in tree.members]
    lost = sheet.kerf * (len(sizes) - 1)
    if tree.line is Line.UPRIGHT:
        return sum((w for w, _ in sizes), lost), max(h for _, h in sizes)
    return max(w for w, _ in sizes), sum((h for _, h in sizes), lost)


def _trimmed(sheet: Sheet, width: Fraction, height: Fraction, inner: _Inner) -> Node:
    """The two trimming cuts at the edges that go to the stop first; what is spare beyond the parts is cut off with
    the other two edges, and holds their trim.

    The bottom edge comes first unless only the other way is in reach of the trimmer.
    """
    if not sheet.trim:
        return inner(width, height)
    lines = [Line.LEVEL, Line.UPRIGHT]
    if sheet.longest_cut is not None and width > sheet.longest_cut:
        lines.reverse()

    def second(w: Fraction, h: Fraction) -> Node:
        return _cut(lines[1], sheet.trim, w, h, sheet.kerf, _left_over, inner)

    return _cut(lines[0], sheet.trim, width, height, sheet.kerf, _left_over, second)
