"""Windows and notches that stand in the middle of their piece: they stay there, whatever the marks."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from foldproof.measures.quantity import Quantity
from foldproof.measures.writing import write_number
from foldproof.recipe.cut_records import HoleSpec
from foldproof.recipe.records import Bought, LayerSpec, PieceSpec, Rectangle, Triangle
from foldproof.recipe.shape_records import Circle

Spec = TypeVar("Spec", PieceSpec, LayerSpec)
_AXES = (0, 1)


def centred_again(spec: Spec, fresh: Spec) -> Spec:
    """The spec with other sizes, each of its holes that was in the middle in the middle again."""
    holes = tuple(
        _put(hole, axis_sizes(fresh, hole), [axis for axis, _, _ in centred(spec, before)])
        for before, hole in zip(spec.cuts.holes, fresh.cuts.holes, strict=True))
    return replace(fresh, cuts=replace(fresh.cuts, holes=holes))


def centred(spec: PieceSpec | LayerSpec, hole: HoleSpec) -> Iterator[tuple[int, Quantity, Quantity]]:
    """Each way (0 across, 1 up) in which a plain number puts a hole in the middle: the piece's side, the hole's."""
    sizes = axis_sizes(spec, hole)
    if sizes is None or hole.at is None:
        return
    for axis, at in zip(_AXES, (hole.at.x, hole.at.y), strict=True):
        whole, part = sizes[axis]
        if at.witness and 2 * at.value + part.value == whole.value:
            yield axis, whole, part


def axis_sizes(spec: PieceSpec | LayerSpec, hole: HoleSpec) -> tuple[tuple[Quantity, Quantity], ...] | None:
    """Piece and hole across, then up; None where a size is not given as such."""
    piece, shape = spec.shape, hole.shape
    if isinstance(piece, Circle):
        whole = piece.across, piece.across
    elif isinstance(piece, Rectangle | Triangle | Bought):
        whole = piece.width, piece.height
    else:
        return None
    if isinstance(shape, Circle):
        return (whole[0], shape.across), (whole[1], shape.across)
    return ((whole[0], shape.width), (whole[1], shape.height)) if isinstance(shape, Rectangle) else None


def _put(hole: HoleSpec, sizes: tuple[tuple[Quantity, Quantity], ...] | None, axes: list[int]) -> HoleSpec:
    if sizes is None or hole.at is None:
        return hole
    x, y = (
        _at(old, (sizes[axis][0].value - sizes[axis][1].value) / 2) if axis in axes else old
        for axis, old in zip(_AXES, (hole.at.x, hole.at.y), strict=True))
    return replace(hole, at=replace(hole.at, x=x, y=y))


def _at(quantity: Quantity, value: Fraction) -> Quantity:
    return replace(quantity, value=value, written=write_number(value))
