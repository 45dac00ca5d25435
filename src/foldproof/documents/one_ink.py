"""Drawings in one ink: pure black on white, every tone as dots, so that a copier keeps what a tone means."""

import re
from dataclasses import replace

from foldproof.drawing.record import Drawing

_COLOUR = re.compile(r'(?P<kind>fill|stroke)="(?P<code>#[0-9a-f]{6})"')
WHITE_FROM = 0.93
"""Tones as light as this, as a share of white, are left white: the fence has its hatching."""
BLACK_TO = 0.5
_DOTS = (
    '<defs><pattern id="dots" width="3.4" height="3.4" patternUnits="userSpaceOnUse">'
    '<circle cx="0.85" cy="0.85" r="0.4" fill="#000000"/><circle cx="2.55" cy="2.55" r="0.4" fill="#000000"/>'
    "</pattern></defs>")
"""Dots of 0.8 points, 1.7 points apart: about a tenth of the paper inked."""


def in_one_ink(drawing: Drawing) -> Drawing:
    """The drawing with each light tone as dots, each dark one black, and nothing between."""
    svg = _COLOUR.sub(lambda found: f'{found["kind"]}="{_one(found["code"], found["kind"])}"', drawing.svg)
    if "url(#dots)" in svg:
        svg = re.sub(r"(<svg[^>]*>)", rf"\1{_DOTS}", svg, count=1)
    return replace(drawing, svg=svg)


def _one(code: str, kind: str) -> str:
    """Black, white or, for an area, dots."""
    share = sum(int(code[at:at + 2], 16) for at in (1, 3, 5)) / (3 * 255)
    if share <= BLACK_TO:
        return "#000000"
    return "#ffffff" if share >= WHITE_FROM or kind == "stroke" else "url(#dots)"
