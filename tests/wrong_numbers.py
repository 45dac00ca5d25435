"""Make every small slip in a recipe, one at a time, and count how many the check catches: numbers, turns, words.

    python tests/wrong_numbers.py [RECIPE ...]

Every length is changed by 1/16 inch (1 mm) up and down where it stands, every factor, time and count by one; every turn
of the work is left out, doubled and reversed; every edge, corner and fold is taken for its opposite; neighbouring
steps and actions change places; every left and right, front and back, top and bottom, inside and outside and every
turn in the words is swapped. The whole check runs on each result. A slip is *caught* when the check reports an error or
a warning that the sound recipe does not have; *harmless* when one of a few reasons holds, reckoned anew for that slip;
*missed* otherwise, and then it is listed. Exit status 1 when a number or a turn of the card itself is missed.

With `--readme` the counts are kept in build/showcase/slips.json and the README's table is made from them.
"""

import argparse
import hashlib
import json
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from datetime import date
from functools import cache
from pathlib import Path

from literals import left_alone
from slips.hands import hand_slips
from slips.numbers import number_slips
from slips.slip import Slip
from slips.verdict import HANDS, KINDS, NUMBERS, REASONS, WORDS, Checked, Verdict, check_text, judge, names_of
from slips.words import word_slips

ROOT = Path(__file__).resolve().parent.parent
RECIPES = ROOT / "recipes"
KEPT = ROOT / "build" / "showcase" / "slips.json"
_LOOSE = ("stock", "counts in prose", *WORDS)
"""Kinds of which some may be missed: their share is a figure to bring down."""
_CALLED = {
    "plan": "lengths of the plan",
    "finished": "finished size",
    "steps": "lengths in the steps",
    "prose": "lengths in prose and spoken lines",
    "stock": "stock: thickness, sheet sizes, amounts",
    "turn words": "turns in the words",
    "left and right": "left and right in the words",
    "top and bottom": "top and bottom in the words",
    "front and back": "front and back in the words",
    "inside and outside": "inside and outside in the words",
}


def slips_of(path: Path) -> Iterator[Slip]:
    """Every slip to try on a recipe."""
    checked = sound(path)
    assert checked.recipe is not None, f"{path.name} can't be read"
    yield from number_slips(checked.recipe, checked.source)
    yield from hand_slips(checked.source)
    yield from word_slips(checked.source)


@cache
def sound(path: Path) -> Checked:
    """A recipe as it is, checked."""
    return check_text(path.read_text(encoding="utf-8"), path.name)


def try_slip(path: Path, slip: Slip) -> Verdict:
    """Make one slip and run the check."""
    return judge(sound(path), slip, path.name)


def digest(paths: Sequence[Path]) -> str:
    """What the recipes say, so that a table of old counts is noticed."""
    return hashlib.sha256(b"\n".join(path.read_bytes() for path in sorted(paths))).hexdigest()[:16]


def counts(verdicts: Sequence[Verdict]) -> tuple[int, int, int, int]:
    """Tried, caught, harmless, missed."""
    outcome = Counter(verdict.outcome for verdict in verdicts)
    return len(verdicts), outcome["caught"], sum(outcome[reason] for reason in REASONS), outcome["missed"]


def table(rows: dict[str, list[int]]) -> str:
    """The README's table from the counts of each kind."""
    lines = [f"| {_CALLED.get(kind, kind)} | {' | '.join(map(str, rows[kind]))} |" for kind in KINDS if kind in rows]
    return "\n".join(("| slip | tried | caught | harmless | missed |", "|---|---|---|---|---|", *lines))


def readme_part() -> str:
    """What the README says of the counts that were kept last."""
    kept = json.loads(KEPT.read_text(encoding="utf-8"))
    share = f", every {kept['every']}th slip of each" if kept["every"] > 1 else ""
    return f"On {kept['date']}, over {kept['recipes']} recipes{share}:\n\n{table(kept['kinds'])}"


def _told(path: Path, verdicts: Sequence[Verdict], every: bool) -> Iterator[str]:
    """What the program prints of one recipe."""
    lines = sound(path).source.splitlines()
    for kind in KINDS:
        chosen = [verdict for verdict in verdicts if verdict.slip.kind == kind]
        if not chosen:
            continue
        tried, caught, harmless, missed = counts(chosen)
        yield f"{path.stem}, {kind}: tried {tried}, caught {caught}, harmless {harmless}, missed {missed}"
        outcome = Counter(verdict.outcome for verdict in chosen)
        yield from (f"    {outcome[reason]} {reason}" for reason in REASONS if outcome[reason])
        for verdict in chosen:
            if verdict.outcome == "missed" or (every and verdict.outcome in REASONS):
                at = verdict.slip.line
                yield f"    {verdict.outcome.split(':')[0]} at line {at}, {verdict.slip.what}: {lines[at - 1].strip()}"


def main(arguments: Sequence[str] | None = None) -> int:
    """Try every slip on the recipes named, or on all demo recipes."""
    parser = argparse.ArgumentParser(description="Make every small slip in a recipe and count what is caught.")
    parser.add_argument("recipes", nargs="*", type=Path, metavar="RECIPE")
    parser.add_argument("--left", action="store_true", help="list the numbers in prose that are no lengths, and stop")
    parser.add_argument("--by", action="store_true", help="also list which faults caught the slips")
    parser.add_argument("--harmless", action="store_true", help="also list the harmless ones")
    parser.add_argument("--kind", action="append", choices=KINDS, help="only slips of this kind; may be repeated")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="try only every Nth slip of a recipe")
    parser.add_argument("--readme", action="store_true", help="keep the counts for the README and make its table")
    chosen = parser.parse_args(arguments)
    paths = chosen.recipes or sorted(RECIPES.glob("*.yaml"))
    if chosen.left:
        for path in paths:
            recipe = sound(path).recipe
            if recipe is not None:
                found = left_alone(recipe, sound(path).source)
                print(*(f"{path.name}:{line}: {words}" for line, words in found), sep="\n")
        return 0
    for path in paths:
        for name, message in sorted(sound(path).faults):
            print(f"{path.stem} is not sound: {name}: {message}")
    verdicts: dict[Path, list[Verdict]] = {}
    with ProcessPoolExecutor(2) as pool:
        for path in paths:
            slips = [slip for slip in slips_of(path) if not chosen.kind or slip.kind in chosen.kind][::chosen.every]
            verdicts[path] = list(pool.map(_try, [(path, slip) for slip in slips], chunksize=8))
            print(*_told(path, verdicts[path], chosen.harmless), sep="\n", flush=True)
    every = [verdict for path in paths for verdict in verdicts[path]]
    kinds = {kind: list(counts([v for v in every if v.slip.kind == kind])) for kind in KINDS}
    print(
        *(
            f"{kind}: tried {row[0]}, caught {row[1]}, harmless {row[2]}, missed {row[3]}"
            for kind, row in kinds.items()
            if row[0]
        ),
        sep="\n",
    )
    for title, group in (("numbers", NUMBERS), ("turns, edges, folds, order", HANDS), ("words", WORDS)):
        tried, caught, harmless, missed = counts([v for v in every if v.slip.kind in group])
        share = f", {100 * caught / (tried - harmless):.1f} % of the others caught" if tried > harmless else ""
        print(f"{title}: tried {tried}, harmless {harmless}, missed {missed}{share}")
    if chosen.by:
        print(*(f"{count:6} {name}" for name, count in Counter(names_of(every)).most_common()), sep="\n")
    if chosen.readme:
        keep(kinds, paths, chosen.every)
    return int(any(v.outcome == "missed" and v.slip.kind not in _LOOSE for v in every))


def keep(kinds: dict[str, list[int]], paths: Sequence[Path], every: int) -> None:
    """Keep the counts and make the README's table."""
    from showcase import README, with_part

    KEPT.write_text(
        json.dumps(
            {
                "date": f"{date.today():%-d %B %Y}",
                "recipes": len(paths),
                "of": digest(paths),
                "every": every,
                "kinds": {kind: row for kind, row in kinds.items() if row[0]},
            },
            indent=1,
        )
        + "\n",
        encoding="utf-8",
    )
    README.write_text(with_part(README.read_text(encoding="utf-8"), "slips", readme_part()), encoding="utf-8")


def _try(change: tuple[Path, Slip]) -> Verdict:
    return try_slip(*change)


if __name__ == "__main__":
    sys.exit(main())
