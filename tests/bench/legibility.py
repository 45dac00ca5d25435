"""Draws the steps of two hundred recipes made by chance, in every style, and counts what cannot be read.

    python tests/bench/legibility.py [--recipes 200] [--first 0]

Prints, for each style, how many drawings and labels there are and each fault with its recipe and step; ends with 1
where there is one.
"""

import argparse
import sys
import time
from collections import Counter
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "drawing"))

from drawn import LARGE_PRINT, card_of
from generated import recipe_text

from foldproof.documents import handout, page
from foldproof.drawing.legible import faults
from foldproof.drawing.record import PLAIN, DrawingStyle
from foldproof.drawing.scene import Label, all_parts
from foldproof.drawing.steps import step_scene

STYLES: dict[str, DrawingStyle] = {
    "plain": PLAIN, "handout": handout.STYLE, "page": page.STYLE, "large print": LARGE_PRINT,
    "small": replace(PLAIN, largest_mm=30.0, width_mm=100.0),
}


def main() -> int:
    """Draw, count, print."""
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--recipes", type=int, default=200)
    given.add_argument("--first", type=int, default=0)
    given.add_argument("--style", action="append", choices=sorted(STYLES))
    asked = given.parse_args()
    drawings: Counter[str] = Counter()
    labels: Counter[str] = Counter()
    found: Counter[str] = Counter()
    seconds = dict.fromkeys(STYLES, 0.0)
    for number in range(asked.first, asked.first + asked.recipes):
        card, making = card_of(recipe_text(number), f"{number}.yaml")
        for name in asked.style or STYLES:
            for made in making.steps:
                start = time.process_time()
                scene = step_scene(card, made, STYLES[name])
                seconds[name] += time.process_time() - start
                if scene is None:
                    continue
                drawings[name] += 1
                labels[name] += sum(isinstance(part, Label) for part in all_parts(scene))
                for fault in faults(scene, STYLES[name]):
                    found[name] += 1
                    print(f"recipe {number}, step {made.number}, {name}: {fault}")
    for name in asked.style or STYLES:
        print(f"{name:12}{drawings[name]:6} drawings{labels[name]:7} labels{found[name]:5} faults"
              f"{1000 * seconds[name] / max(drawings[name], 1):7.1f} ms each")
    return 1 if sum(found.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
