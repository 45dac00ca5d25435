"""The opening view: the card's frames as the page holds them, and the still that stands there without scripts.

The data is JSON: `colours`, `patches` (unlike ones, each once: number of its colour, outline, edges, as SVG paths) and
`frames` (the numbers of their patches, far ones first), so that paper that lies still weighs nothing in later frames;
`stops` (frame, name, caption as HTML).
"""


import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from markupsafe import Markup

from foldproof.documents.prose import line_to_html
from foldproof.drawing.opening import Opening, Patch, Spot
from foldproof.drawing.record import PLAIN


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningStop:
    """A pose that the view stops at."""

    pose: str
    """`Closed`."""
    caption: str
    """`Closed: 4 1/4 × 5 1/2 in`."""
    frame: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningView:
    """What the page's template needs."""

    data: Markup
    """JSON, safe in a script element as it stands."""
    still: Markup
    """The still frame's paths, SVG."""
    box: str
    """The SVG viewBox."""
    alt: str
    """The still in words; on a page with scripts, the way from pose to pose."""
    stops: tuple[OpeningStop, ...]
    first: int
    """The frame of the still."""
    last: int
    caption: str
    """Of the still."""
    picture: str
    """The still as an SVG file of its own."""


def opening_view(opening: Opening, captions: Mapping[str, str]) -> OpeningView:
    """The view of an opening; `captions` by pose are those of the finished pictures."""
    stops = tuple(
        OpeningStop(
            pose=_capital(stop.pose), frame=stop.frame, caption=captions.get(stop.pose, _capital(stop.pose)))
        for stop in opening.stops)
    still = Markup("").join(_paths(patch) for patch in opening.frames[opening.still])
    way = " Then ".join(stop.told for stop in opening.stops)
    caption = caption_at(stops, opening.still)
    return OpeningView(
        data=_data(opening, stops), still=still, box=f"0 0 {opening.width} {opening.height}",
        alt=f"The card as it opens. {way}", stops=stops, first=opening.still, last=len(opening.frames) - 1,
        caption=caption, picture=_picture(opening, still, caption))


def caption_at(stops: Sequence[OpeningStop], frame: int) -> str:
    """What stands under a frame: the pose with its size, or the two poses that it is between."""
    for one, other in pairwise(stops):
        if one.frame < frame < other.frame:
            return f"Between {one.pose.lower()} and {other.pose.lower()}"
    return next(stop.caption for stop in stops if stop.frame == frame)


def _picture(opening: Opening, still: Markup, caption: str) -> str:
    """The still as a file, twelve units to a millimetre."""
    width, height = opening.width, opening.height
    return str(Markup(
        '<svg role="img" xmlns="http://www.w3.org/2000/svg" width="{}mm" height="{}mm" viewBox="0 0 {} {}" '
        'aria-label="{}" stroke-width="2" stroke-linejoin="round">{}</svg>\n'
    ).format(round(width / 12, 1), round(height / 12, 1), width, height, caption, still))


def _data(opening: Opening, stops: Sequence[OpeningStop]) -> Markup:
    colours: dict[str, int] = {}
    patches: dict[tuple[int, str, str], int] = {}
    frames = []
    for frame in opening.frames:
        numbers = []
        for patch in frame:
            key = (colours.setdefault(patch.colour, len(colours)), ring_path(patch.ring), edge_path(patch.edges))
            numbers.append(patches.setdefault(key, len(patches)))
        frames.append(numbers)
    told = {
        "colours": list(colours), "patches": [list(key) for key in patches], "frames": frames,
        "stops": [[stop.frame, stop.pose, line_to_html(stop.caption)] for stop in stops],
    }
    text = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c").replace("&", "\\u0026"))


def _paths(patch: Patch) -> Markup:
    area = Markup('<path d="{}" fill="{}" stroke="{}"/>').format(ring_path(patch.ring), patch.colour, patch.colour)
    edge = Markup('<path class="edge" fill="none" stroke="{}" stroke-width="3" d="{}"/>')
    return area + (edge.format(PLAIN.ink, edge_path(patch.edges)) if patch.edges else "")


def ring_path(ring: Sequence[Spot]) -> str:
    """A ring as an SVG path: the first corner, then steps."""
    return edge_path((ring,)) + "z"


def edge_path(lines: Sequence[Sequence[Spot]]) -> str:
    """Lines as an SVG path."""
    parts = []
    for line in lines:
        steps = [
            f"{x - a}{'' if y - b < 0 else ' '}{y - b}"
            for (a, b), (x, y) in pairwise(line)]
        parts.append(f"M{line[0][0]} {line[0][1]}" + (f"l{' '.join(steps)}" if steps else ""))
    return "".join(parts)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
