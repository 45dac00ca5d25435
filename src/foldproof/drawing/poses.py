"""The finished card: each pose as the viewer sees it, with its size."""

import re
from collections.abc import Iterable, Sequence

from foldproof.drawing.ink import to_svg
from foldproof.drawing.labels import Wish, obstacles_of, set_labels
from foldproof.drawing.lettering import line_step
from foldproof.drawing.picture import shortened, tone_of
from foldproof.drawing.places import places_inside
from foldproof.drawing.plane import XY, Disc, box_round, round_out, round_side, split_by_rings
from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Item, Kind, Label, Line, Scene, framed, moved
from foldproof.drawing.standing import camera_of, extent, height_words, side_words, standing_items
from foldproof.drawing.words import list_of
from foldproof.folding.card import Card, FlatPose, Pose, Region
from foldproof.measures.writing import with_unit
from foldproof.paper.face import Face
from foldproof.paper.polygon import area, clip, on_segment
from foldproof.paper.vector import Point, Segment

LARGEST_MM = 74.0
"""The longest side of the largest pose of a card."""


def pose_scale(card: Card, largest_mm: float = LARGEST_MM) -> float:
    """Millimetres in one unit, the same for all poses of a card; nothing beyond life size."""
    sides = [max(_extent(card, pose)) for pose in card.poses]
    life = float(card.recipe.unit.millimetres)
    return min(largest_mm / max(sides), life) if sides else life


def _extent(card: Card, pose: Pose) -> tuple[float, float]:
    return (float(pose.width), float(pose.height)) if isinstance(pose, FlatPose) else extent(card, pose)


def pose_scene(
    card: Card, pose: Pose, style: DrawingStyle = PLAIN, *, names: bool = True, hidden: bool = False,
    largest_mm: float = LARGEST_MM,
) -> Scene:
    """The scene of a pose with its width and height, or the height to which it stands.

    `names` writes the names of what shows; `hidden` dots the edges that lie out of sight.
    """
    scale = pose_scale(card, largest_mm)
    if isinstance(pose, FlatPose):
        return framed(tuple(_flat_items(card, pose, scale, style, names=names, hidden=hidden)))
    return framed(tuple(standing_items(card, pose, scale, style)))


def draw_pose(
    card: Card, pose: Pose, style: DrawingStyle = PLAIN, largest_mm: float = LARGEST_MM,
) -> Drawing:
    """The drawing of a pose."""
    scene = pose_scene(card, pose, style, largest_mm=largest_mm)
    return Drawing(
        svg=to_svg(scene, style), alt=tell_pose(card, pose), width_mm=round(scene.width, 2),
        height_mm=round(scene.height, 2), name=f"pose-{file_name(pose.name)}",
        scene=scene)


def draw_finished(card: Card, style: DrawingStyle = PLAIN) -> Drawing:
    """All poses side by side, each with its name."""
    items: list[Item] = []
    across = top = low = 0.0
    for pose in card.poses:
        scene = pose_scene(card, pose, style)
        if across and across + scene.width > style.width_mm - 3.0:
            across, top = 0.0, low - 4.0
        items += [moved(item, (across, top - scene.height)) for item in scene.items]
        foot = top - scene.height - 3.0
        items.append(Label(text=pose.name, at=(across + 1.5, foot), pt=style.text_pt, anchor="start", bold=True))
        low = min(low, foot - line_step(style.text_pt))
        across += scene.width + 6.0
    scene = framed(tuple(items))
    return Drawing(
        svg=to_svg(scene, style), alt=" ".join(tell_pose(card, pose) for pose in card.poses),
        width_mm=round(scene.width, 2), height_mm=round(scene.height, 2), name="finished",
        scene=scene)


def file_name(words: str) -> str:
    """Words fit for a file name."""
    return re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-") or "unnamed"


def tell_pose(card: Card, pose: Pose) -> str:
    """What a pose looks like, in words."""
    unit = card.recipe.unit
    if not isinstance(pose, FlatPose):
        faces = sorted(name for name in pose.frames if card.panels[name].piece == card.pieces[0].name)
        return (
            f"The card {pose.name}: it reaches {height_words(card, pose)} above the table. Seen from the front, a "
            f"little from the {side_words(camera_of(card, pose))} and from above; its panels are {list_of(faces)}.")
    size = f"{with_unit(pose.width, unit)} wide and {with_unit(pose.height, unit)} high"
    shown: dict[tuple[str, Face], float] = {}
    for region in pose.seen:
        key = (region.panel, region.face)
        shown[key] = shown.get(key, 0.0) + float(area(region.ring))
    order = sorted(shown, key=lambda key: -shown[key])
    sight = list_of(_called(card, *key) for key in order)
    return f"The card {pose.name}, {size}. In sight, the largest first: {sight}."


def _called(card: Card, panel: str, face: Face) -> str:
    plan = card.piece(card.panels[panel].piece)
    if plan is not None and plan.layer and face is Face.FRONT:
        return f"the {panel}"
    return f"the {face} of the {panel}"


def _flat_items(
    card: Card, pose: FlatPose, scale: float, style: DrawingStyle, *, names: bool, hidden: bool,
) -> list[Item]:
    items: list[Item] = []
    discs = _discs(card, pose, scale)
    for region in pose.seen:
        rings = tuple(round_out(_to_paper(ring, scale), discs) for ring in (region.ring, *region.holes))
        items.append(Area(
            rings=rings, fill=Fill.FRONT if region.face is Face.FRONT else Fill.BACK,
            tone=tone_of(card, card.panels[region.panel].piece)))
    for region in pose.seen:
        items += _region_edges(card, pose, region, scale, discs)
    if hidden:
        items += _hidden_edges(card, pose, scale)
    box = box_round(p for region in pose.seen for p in _to_paper(region.ring, scale))
    unit = card.recipe.unit
    corner, width, height = (box.left, box.bottom), with_unit(pose.width, unit), with_unit(pose.height, unit)
    items += set_in_rows([
        Wanted(start=corner, end=(box.right, box.bottom), text=width, sides=("below",)),
        Wanted(start=corner, end=(box.left, box.top), text=height, sides=("left",)),
    ], box, style.text_pt)
    wishes = list(_names(card, pose, scale, style)) if names else []
    return [*items, *set_labels(wishes, obstacles_of(items))]


def _to_paper(ring: Iterable[Point], scale: float) -> tuple[XY, ...]:
    return tuple((float(p.x) * scale, float(p.y) * scale) for p in ring)


def _discs(card: Card, pose: FlatPose, scale: float) -> list[Disc]:
    """The circles of the round pieces, on the drawing."""
    found: list[Disc] = []
    for piece in card.pieces:
        for window in piece.windows:
            for panel in piece.panels if window.round else ():
                box = box_round(_to_paper(pose.placements[panel].ring(window.ring), scale))
                found.append((box.centre, box.width / 2))
        if piece.round:
            for panel in piece.panels:
                box = box_round(_to_paper(pose.placements[panel].ring(piece.outline), scale))
                found.append((box.centre, box.width / 2))
    return found


def _region_edges(card: Card, pose: FlatPose, region: Region, scale: float, discs: Sequence[Disc]) -> list[Item]:
    """The edges of what shows: paper's edges solid, hinges that lie flat as creases."""
    back = pose.placements[region.panel].inverse
    folded = {fold.score.value for fold in pose.spec.folds if fold.angle is not None and fold.angle.value != 0}
    flat = [h.segment for h in card.hinges if region.panel in h.panels and h.score not in folded]
    items: list[Item] = []
    for ring in (region.ring, *region.holes):
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            side = back.segment(Segment(p, q))
            crease = any(on_segment(side.start, s) and on_segment(side.end, s) for s in flat)
            a, b = _to_paper((p, q), scale)
            points = shortened(a, b) if crease else (*round_side(a, b, discs), b)
            items.append(Line(points=points, kind=Kind.CREASE if crease else Kind.EDGE))
    plan = card.piece(card.panels[region.panel].piece)
    for slit in plan.slits if plan else ():
        lies = pose.placements[region.panel].segment(slit.segment)
        items += [Line(points=_to_paper((s.start, s.end), scale), kind=Kind.EDGE)
                  for s in clip(lies, region.ring, region.holes) if s.start != s.end]
    return items


def _hidden_edges(card: Card, pose: FlatPose, scale: float) -> list[Item]:
    rings = {
        name: _to_paper(place.ring(card.panels[name].ring), scale) for name, place in pose.placements.items()
    }
    items: list[Item] = []
    for name, ring in rings.items():
        over = [rings[upper] for upper, lower in pose.over if lower == name]
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            items += [Line(points=(a, b), kind=Kind.HIDDEN) for a, b, covered in split_by_rings(p, q, over) if covered]
    return items


def _names(card: Card, pose: FlatPose, scale: float, style: DrawingStyle) -> Iterable[Wish]:
    """The names of what shows, in the largest part of each."""
    largest: dict[str, Region] = {}
    for region in pose.seen:
        known = largest.get(region.panel)
        if known is None or area(region.ring) > area(known.ring):
            largest[region.panel] = region
    for region in sorted(largest.values(), key=lambda r: -area(r.ring)):
        ring = _to_paper(region.ring, scale)
        holes = tuple(_to_paper(hole, scale) for hole in region.holes)
        plan = card.piece(card.panels[region.panel].piece)
        words = region.panel if plan and plan.layer else f"{region.panel}, {region.face}"
        label = Label(text=words, at=ring[0], pt=style.small_pt, quiet=True)
        yield Wish(
            label=label, room=ring, must=False,
            places=tuple(places_inside(ring, words, style.small_pt, covered=holes)))
