"""How long the order of papers takes as panels are added: strips and maps of equal panels, flaps in a ring, clashes.

    PYTHONPATH=src python tests/bench/folding.py [--largest 48] [--seed 1]

Every row is one flat pose with given folds. `conditions` is the time to lay the panels over each other and read off
what must hold, `order` the time to find an order without the help of any written order. Maps are folded at random,
line after line through all layers, so that there is an order; only valleys and mountains are given to the search.
"""

import argparse
import random
import sys
import time
from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "folding"))

from plans import card_of

from foldproof.folding.card import Card, Hinge
from foldproof.folding.clash import smallest_clash
from foldproof.folding.conditions import folded_pair, question_of
from foldproof.folding.ordering import Condition, Question, find_order
from foldproof.folding.overlay import overlay
from foldproof.folding.place import place_panels
from foldproof.folding.stacking import Folding
from foldproof.paper.isometry import Isometry


def grid(columns: int, rows: int) -> Card:
    """A sheet of equal squares; every stretch of score has a name of its own."""
    scores = [f"v{x}-{y}: {{from: [{x}, {y}], to: [{x}, {y + 1}], fold: valley}}"
              for x in range(1, columns) for y in range(rows)]
    scores += [f"h{x}-{y}: {{from: [{x}, {y}], to: [{x + 1}, {y}], fold: valley}}"
               for y in range(1, rows) for x in range(columns)]
    panels = [f"p{x}-{y}: [{x + 0.5}, {y + 0.5}]" for x in range(columns) for y in range(rows)]
    return card_of(f"""
pieces:
  sheet: {{paper: card, size: [{columns}, {rows}], scores: {{{', '.join(scores)}}}, panels: {{{', '.join(panels)}}}}}
""")


def folded_at_random(columns: int, rows: int, chance: random.Random) -> dict[tuple[str, str], bool]:
    """Fold a map line after line through all layers: for two panels, whether the second comes to lie over the first.

    A stack of columns and rows is kept; a fold at a line turns the smaller part over, on top or beneath.
    """
    cells = {(x, y): [f"p{x}-{y}"] for x in range(columns) for y in range(rows)}
    while len(cells) > 1:
        xs, ys = {x for x, _ in cells}, {y for _, y in cells}
        upright = len(xs) > 1 and (len(ys) == 1 or chance.random() < 0.5)
        low, high = (min(xs), max(xs)) if upright else (min(ys), max(ys))
        line = chance.randint(low, high - 1)  # between this and the next
        top = chance.random() < 0.5
        left_moves = line - low + 1 <= high - line
        kept: dict[tuple[int, int], list[str]] = {}
        moved: dict[tuple[int, int], list[str]] = {}
        for (x, y), stack in cells.items():
            at = x if upright else y
            moves = at <= line if left_moves else at > line
            to = 2 * line + 1 - at
            if moves:
                moved[(to, y) if upright else (x, to)] = stack[::-1]
            else:
                kept[x, y] = stack
        for place, stack in moved.items():
            there = kept.get(place, [])
            kept[place] = there + stack if top else stack + there
        cells = kept
    (stack,) = cells.values()
    height = {name: place for place, name in enumerate(stack)}
    return {(a, b): height[b] > height[a] for a in height for b in height if a != b}


def question(card: Card, above: dict[tuple[str, str], bool] | None, chance: random.Random) -> tuple[Question, float]:
    """What must hold with the folds of a given stack, or with folds at random."""
    start = time.perf_counter()
    still = min(card.panels)
    places = place_panels(card.panels, card.hinges, (), {h.score: Fraction(180) for h in card.hinges}, still).placements
    folds = tuple((hinge.score, _angle(hinge, places, above, chance)) for hinge in card.hinges)
    folding = Folding(panels=card.panels, hinges=card.hinges, bonds=(), folds=folds, still=still, placements=places)
    return question_of(folding, overlay(card.panels, places)), time.perf_counter() - start


def _angle(
    hinge: Hinge, places: Mapping[str, Isometry], above: dict[tuple[str, str], bool] | None, chance: random.Random,
) -> Fraction:
    if above is None:
        return Fraction(chance.choice((180, -180)))
    upper, lower = folded_pair(hinge, Fraction(180), places)
    return Fraction(180 if above[lower, upper] else -180)


def rows(largest: int, seed: int) -> Iterator[tuple[str, int, Question, float]]:
    """The poses that are tried: a name, how many panels, what must hold and how long that took."""
    chance = random.Random(seed)
    sizes = [size for size in (6, 12, 24, 48, 96) if size <= largest]
    for size in sizes:
        card = grid(size, 1)
        yield f"strip of {size}, folds at random", size, *question(card, None, chance)
        yield f"strip of {size}, folded line by line", size, *question(card, folded_at_random(size, 1, chance), chance)
    for columns, high in ((3, 2), (4, 3), (4, 4), (6, 4), (6, 6), (8, 6)):
        if columns * high <= largest:
            made = question(grid(columns, high), folded_at_random(columns, high, chance), chance)
            yield f"map of {columns} x {high}, folded line by line", columns * high, *made
    for columns, high in ((3, 3), (4, 4), (6, 6)):
        if columns * high <= largest:
            asked_, taken = question(grid(columns, high), folded_at_random(columns, high, chance), chance)
            folds = [c for c in asked_.conditions if c.kind == "fold"]
            wrong = Condition(pairs=folds[0].pairs, odd=not folds[0].odd, kind="fold", scores=folds[0].scores)
            rest = tuple(c if c is not folds[0] else wrong for c in asked_.conditions)
            yield (f"map of {columns} x {high}, one fold turned round", columns * high,
                   Question(pairs=asked_.pairs, conditions=rest, triples=asked_.triples), taken)


def main() -> int:
    """Print the growth with the number of panels."""
    parser = argparse.ArgumentParser(description="How long the order of papers takes as panels are added.")
    parser.add_argument("--largest", type=int, default=48, help="the most panels in one pose")
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    print(f"{'pose':42} {'panels':>6} {'pairs':>6} {'conditions':>11} {'order':>9}  answer")
    for name, panels, what, taken in rows(chosen.largest, chosen.seed):
        start = time.perf_counter()
        answer = find_order(what)
        found = time.perf_counter() - start
        word = "found" if answer.over is not None else "impossible" if answer.impossible else "not decided"
        if answer.impossible:
            start = time.perf_counter()
            clash = smallest_clash(what)
            word += f"; smallest clash of {len(clash)} conditions in {time.perf_counter() - start:.2f} s"
        print(f"{name:42} {panels:6} {len(what.pairs):6} {taken:9.2f} s {found:7.2f} s  {word}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
