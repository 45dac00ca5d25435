"""A card turned in the hand on its way: the change from how one pose holds it to how the next one does, in parts."""

from collections.abc import Mapping
from math import acos, cos, sin

from foldproof.folding.space import Motion, Vec, cross, dot, length, minus, plus, times

_SMALL = 1e-9


def change_of_hold(now: Mapping[str, Motion], wanted: Mapping[str, Motion]) -> Motion:
    """The motion of the whole card that brings its panels from where they are to where they are wanted.

    Both must have the card in the same state, so that any panel tells.
    """
    name = next(iter(now))
    return wanted[name].after(inverse(now[name]))


def inverse(motion: Motion) -> Motion:
    """The motion that undoes it."""
    back = Motion(*zip(motion.right, motion.up, motion.out, strict=True))
    return Motion(back.right, back.up, back.out, times(back.turned(motion.origin), -1.0))


def part_of(motion: Motion, share: float, about: Vec) -> Motion:
    """A share of a motion, 0 none and 1 all of it: the point `about` goes straight, the rest turns round it."""
    goes = times(minus(motion.point(about), about), share)
    axis, angle = _turn(motion)
    turn = Motion(*(_rotated(v, axis, angle * share) for v in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))))
    return Motion(turn.right, turn.up, turn.out, minus(plus(about, goes), turn.turned(about)))


def _turn(motion: Motion) -> tuple[Vec, float]:
    """Axis (a unit vector) and angle (radians, 0 to pi) of what a motion turns."""
    r, u, o = motion.right, motion.up, motion.out
    angle = acos(max(-1.0, min(1.0, (r[0] + u[1] + o[2] - 1) / 2)))
    axis: Vec = (u[2] - o[1], o[0] - r[2], r[1] - u[0])
    if length(axis) < 1e-6:  # no turn, or half a turn: then the longest column of R + 1 lies along the axis
        columns = ((r[0] + 1, r[1], r[2]), (u[0], u[1] + 1, u[2]), (o[0], o[1], o[2] + 1))
        axis = max(columns, key=length)
    size = length(axis)
    return (times(axis, 1 / size), angle) if size > _SMALL else ((0.0, 0.0, 1.0), 0.0)


def _rotated(v: Vec, axis: Vec, angle: float) -> Vec:
    """A vector turned about an axis (Rodrigues' formula)."""
    along = times(axis, dot(axis, v) * (1 - cos(angle)))
    return plus(plus(times(v, cos(angle)), times(cross(axis, v), sin(angle))), along)
