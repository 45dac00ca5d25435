"""How long poses off the table and the ways between poses take, and how that grows with the number of panels.

    python tests/bench/motion.py
"""

import sys
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[1] / "folding"))

from plans import recipe_of

from foldproof.folding.build import build_card
from foldproof.folding.motion import Journey, journeys
from foldproof.recipe.reader import read_file

RECIPES = Path(__file__).parents[2] / "recipes"


def accordion(folds: int) -> str:
    """A strip of panels folded to and fro."""
    scores = ", ".join(
        f"s{i}: {{across: {2 * (i + 1)}, fold: {'valley' if i % 2 == 0 else 'mountain'}}}" for i in range(folds))
    panels = ", ".join(f"p{i}: [{2 * i + 1}, 1]" for i in range(folds + 1))
    shut = ", ".join(f"s{i}: {'180' if i % 2 == 0 else '-180'}" for i in range(folds))
    return f"""
pieces: {{strip: {{paper: card, size: [{2 * (folds + 1)}, 4], scores: {{{scores}}}, panels: {{{panels}}}}}}}
poses: {{closed: {{still: p0, folds: {{{shut}}}}}, open: {{still: p0, folds: {{}}}}}}
opening: [closed, open]
finished: {{size: [2, 4]}}
"""


def boxes(count: int) -> str:
    """A side fold with boxes of one depth across its gutter, each solved with the others."""
    pieces, joins, folds, solved = "", "", "", ""
    for i in range(count):
        pieces += f"""
  box{i}:
    paper: card
    size: [8, 1]
    scores:
      l{i}: {{across: 1, fold: valley}}
      e{i}: {{across: 4, fold: mountain}}
      r{i}: {{across: 7, fold: valley}}
    panels: {{lt{i}: left of l{i}, w{i}: between l{i} and e{i}, d{i}: between e{i} and r{i}, rt{i}: right of r{i}}}"""
        joins += f"""
  a{i}: {{put: lt{i} back, upon: a front, at: {{right: 3, bottom: {2 * i}}}}}
  b{i}: {{put: rt{i} back, upon: b front, at: {{left: 3, bottom: {2 * i}}}}}"""
        folds += f", l{i}: 180, e{i}: -180, r{i}: 180"
        solved += f", l{i}: found, e{i}: found, r{i}: found"
    return f"""
pieces:
  base: {{paper: card, size: [20, {2 * count}], scores: {{g: {{across: 10, fold: valley}}}},
         panels: {{a: left of g, b: right of g}}}}{pieces}
joins:{joins}
poses:
  closed: {{still: a, folds: {{g: 180{folds}}}}}
  up: {{still: a, folds: {{g: 90{solved}}}}}
opening: [closed, up]
finished: {{size: [10, {2 * count}]}}
"""


def timed(plan: str) -> str:
    """Seconds for the poses and for the way, and what came of it."""
    recipe = recipe_of(plan)
    begun = perf_counter()
    card, findings = build_card(recipe)
    posed = perf_counter() - begun
    if card is None or findings:
        return f"{posed:7.2f} s  {'; '.join(finding.name for finding in findings)}"
    begun = perf_counter()
    ways = journeys(card)
    moved = perf_counter() - begun
    told = "; ".join(f"{way.moments} moments, {_outcome(way)}" for way in ways)
    return f"{len(card.panels):3} panels  {posed:7.2f} s  {moved:7.2f} s  {told}"


def _outcome(way: Journey) -> str:
    if way.free:
        return "free"
    return "not free" if way.finished else "not looked at to its end"


def main() -> None:
    """Print the table."""
    print("                               poses    the ways")
    for path in sorted(RECIPES.glob("*.yaml")):
        recipe = read_file(path).recipe
        assert recipe is not None
        begun = perf_counter()
        card, _ = build_card(recipe)
        posed = perf_counter() - begun
        assert card is not None
        begun = perf_counter()
        ways = journeys(card)
        print(f"{path.stem:16}{len(card.panels):3} panels  {posed:7.2f} s  {perf_counter() - begun:7.2f} s  "
              f"{sum(way.moments for way in ways)} moments")
    for folds in (3, 5, 7, 11, 15):
        print(f"accordion       {timed(accordion(folds))}")
    for count in (1, 2, 3, 4):
        print(f"boxes           {timed(boxes(count))}")


if __name__ == "__main__":
    main()
