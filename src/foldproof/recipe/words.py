"""Fixed words of the grammar that stand in more than one place."""

CORNERS = ("top left", "top right", "bottom left", "bottom right")
EDGES = ("left", "right", "top", "bottom")
FACES = ("front", "back")
FOLDS = ("valley", "mountain", "none")
TURNS = ("half", "quarter clockwise", "quarter anticlockwise")
FIXED_POINTS = (*CORNERS, "top middle", "bottom middle", "left middle", "right middle", "centre")
"""Points that every outline has, by its bounding rectangle."""
