"""The cutting planner measured against open data with proven optima.

    PYTHONPATH=src python tests/bench/cutting.py --seconds 60 --out build/cutting.csv [--shard 1/4] [--sets bpp_class]

Each row is written as soon as it is known; a row that is in the file already is not run again, so a run can be stopped
and taken up, and shards can share one file name with their number in it. Sources of the data and of the known values:
tests/classroom/data/cutdata/README.md.

Every plan is laid out and replayed by the independent checker. The program ends with status 1 when a plan fails its
replay, lies below a proven optimum, or when a bound lies above one.
"""

import argparse
import csv
import json
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from time import monotonic

from foldproof.classroom.layout import lay_out
from foldproof.classroom.replay import replay
from foldproof.classroom.search import Search
from foldproof.classroom.sheets import Layout, MayTurn, Part, Plan, Sheet
from foldproof.classroom.task import task_of

DATA = Path(__file__).parent.parent / "classroom" / "data" / "cutdata"
SETS = ("csp_macedo", "bpp_class", "opp42")
HEAD = ("set", "name", "variant", "known", "status", "found", "least", "seconds", "verdict")


def instances(sets: tuple[str, ...], most_pieces: int) -> Iterator[dict[str, str]]:
    """Rows of the table of known values that are to be run."""
    with (DATA / "known.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["set"] in sets:
                pieces = json.loads((DATA / row["set"] / f"{row['name']}.json").read_text())["pieces"]
                if row["set"] != "bpp_class" or sum(p[2] for p in pieces) <= most_pieces:
                    yield row


def run(row: dict[str, str], seconds: float) -> tuple[str, ...]:
    """Plan one instance; a row of the result."""
    data = json.loads((DATA / row["set"] / f"{row['name']}.json").read_text())
    turn = MayTurn.ANY if row["variant"] == "R" else MayTurn.NONE
    sheet = Sheet(name="sheet", width=Fraction(data["sheet"][0]), height=Fraction(data["sheet"][1]))
    parts = tuple(
        Part(name=f"part {i}", width=Fraction(w), height=Fraction(h), count=n, may_turn=turn)
        for i, (w, h, n) in enumerate(data["pieces"])
    )
    began = monotonic()
    task, _ = task_of(sheet, parts)
    answer = Search(task, seconds=seconds).run()
    spent = monotonic() - began
    layouts = tuple(Layout(root=lay_out(tree, sheet, parts), times=times) for tree, times in answer.trees)
    plan = Plan(
        sheet=sheet, parts=parts, layouts=layouts, least=answer.least, reason=answer.reason, seconds=spent
    )
    low, high = bounds(row)
    if replay(plan):
        verdict = "FAILS ITS REPLAY"
    elif plan.count < low:
        verdict = "BELOW THE OPTIMUM"
    elif plan.least > high:
        verdict = "BOUND ABOVE THE OPTIMUM"
    elif plan.proven:
        verdict = "optimal, proved"
    elif plan.count == high and low == high:
        verdict = "optimal, not proved"
    else:
        verdict = f"{plan.count - plan.least} above the bound"
    return (
        *(row[key] for key in ("set", "name", "variant", "value", "status")),
        str(plan.count),
        str(plan.least),
        f"{spent:.1f}",
        verdict,
    )


def bounds(row: dict[str, str]) -> tuple[int, int]:
    """Least and greatest sheets that the published result allows for an optimum."""
    if row["value"] == "fits":
        return 1, 1
    if row["value"] == "no":
        return 2, 10**9
    low, _, high = row["value"].partition("..")
    return int(low), int(high or low)


def main() -> int:
    """Run a shard, or what is left of it."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--sets", default=",".join(SETS))
    parser.add_argument("--pieces", type=int, default=60, help="the most pieces of a bpp_class instance")
    parser.add_argument("--shard", default="1/1", help="K/N: every Nth instance from the Kth")
    parser.add_argument("--only", default="", help="instances whose name contains this")
    parser.add_argument("--out", type=Path, required=True)
    given = parser.parse_args()
    shard, shards = (int(part) for part in given.shard.split("/"))
    done: dict[tuple[str, str, str], list[str]] = {}
    if given.out.exists():
        with given.out.open(encoding="utf-8", newline="") as file:
            done = {(row[0], row[1], row[2]): row for row in csv.reader(file) if row and row[0] != "set"}
    else:
        given.out.parent.mkdir(parents=True, exist_ok=True)
        given.out.write_text(",".join(HEAD) + "\n", encoding="utf-8")
    for number, row in enumerate(instances(tuple(given.sets.split(",")), given.pieces)):
        key = (row["set"], row["name"], row["variant"])
        if number % shards != shard - 1 or key in done or given.only not in row["name"]:
            continue
        result = run(row, given.seconds)
        done[key] = list(result)
        with given.out.open("a", encoding="utf-8", newline="") as file:
            csv.writer(file).writerow(result)
        sys.stdout.write("  ".join(result) + "\n")
        sys.stdout.flush()
    return summary(list(done.values()))


def summary(rows: list[list[str]]) -> int:
    """Print what was reached, set by set; 1 when something is wrong."""
    wrong = 0
    for name in SETS:
        of_set = [row for row in rows if row[0] == name]
        if not of_set:
            continue
        proved = sum(row[8] == "optimal, proved" for row in of_set)
        equal = sum(row[8] == "optimal, not proved" for row in of_set)
        bad = sum(row[8].isupper() for row in of_set)
        wrong += bad
        gap = max(int(row[5]) - int(row[6]) for row in of_set)
        spent = sum(float(row[7]) for row in of_set)
        sys.stdout.write(
            f"{name}: {len(of_set)} run, {proved} optimal with proof, {equal} equal to the published optimum without "
            f"proof, {len(of_set) - proved - equal - bad} open, {bad} wrong; widest gap {gap}; {spent:.0f} s\n"
        )
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
