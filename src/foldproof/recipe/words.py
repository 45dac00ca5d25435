"""Fixed words of the grammar that stand in more than one place."""

import re

CORNERS = ("top left", "top right", "bottom left", "bottom right")
EDGES = ("left", "right", "top", "bottom")
FACES = ("front", "back")
FOLDS = ("valley", "mountain", "none")
TURNS = ("half", "quarter clockwise", "quarter anticlockwise")
FIXED_POINTS = (*CORNERS, "top middle", "bottom middle", "left middle", "right middle", "centre")
"""Points that every outline has, by its bounding rectangle."""
FOUND_POINT = re.compile(
    r"(?:top|bottom|left|right) end of (?P<score>.+)|middle of (?P<whole>.+)|cent(?:re|er) of (?P<panel>.+)"
    r"|crossing of (?P<first>.+?) and (?P<second>.+)")
"""Points that are found on the work: ends, middles and crossings of scores, centres of panels."""
