"""Recipes that are as nasty as the bounds allow, and how long they take: a stranger's recipe must not hold anybody up.

    PYTHONPATH=src python tests/bench/worst.py [CASE ...] [--build]

Each case goes to the edge of one bound, or a little within it, and is checked in a process of its own: processor
seconds, the most memory, and how many findings of which names it has. `--build` builds it, too, with its study and,
where it has one, its class plan. A case that takes over 10 s or 1 GB is marked; the aim is that no check is.
"""

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import cos, pi, sin
from pathlib import Path
from typing import Any

import yaml
from grown import with_layers, with_panels, with_steps

Parts = Mapping[str, Any]


class Plainly(yaml.SafeDumper):
    """Writes out what stands twice, twice: a recipe has no copies."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def written(text: Parts) -> str:
    """As YAML."""
    return yaml.dump(text, Dumper=Plainly, sort_keys=False)


SECONDS, MEGABYTES, PATIENCE = 10, 1000, 120
CUT = {"title": "Cut", "piece": "base", "tools": ["trimmer"], "do": [{"cut": [50, 50]}], "text": "Cut it."}


def recipe(base: Parts, *, steps: Sequence[Parts] = (), poses: Parts | None = None, **more: Any) -> str:
    """One sheet of 50 by 50 in with what is asked for."""
    return written({
        "title": "Worst", "unit": "inch", "finished": {"size": [50, 50]},
        "papers": {"slate": {"kind": "cardstock", "weight": "80 lb cover", "thickness": "0.01 in", "sheet": [60, 60]}},
        "pieces": {"base": {"paper": "slate", "size": [50, 50], **base}}, **more,
        "poses": poses or {"closed": {"still": "base", "folds": {}}}, "tools": {"trimmer": {}, "scoring board": {}},
        "steps": [CUT, *steps]})


def crossing_scores(count: int) -> str:
    """As many scores across as up."""
    at = [f"{n * 50 / (count + 1):.4f}" for n in range(1, count + 1)]
    scores = {f"{way[0]}{n}": {way: x, "fold": "none"} for way in ("across", "up") for n, x in enumerate(at)}
    return recipe({"scores": scores})


def slanted_scores(count: int) -> str:
    """Scores that all cross each other away from any grid."""
    return recipe({"scores": {
        f"s{n}": {"from": [f"{n * 0.2:.3f}", 0], "to": [f"{50 - n * 0.21:.3f}", 50], "fold": "none"}
        for n in range(1, count + 1)}})


def star(corners: int) -> str:
    """An outline in and out."""
    rays = [(24 if n % 2 else 10, 2 * pi * n / corners) for n in range(corners)]
    spots = [(round(r * cos(a), 4), round(r * sin(a), 4)) for r, a in rays]
    left, bottom = min(x for x, _ in spots), min(y for _, y in spots)
    outline = [[f"{x - left:.4f}", f"{y - bottom:.4f}"] for x, y in spots]
    text = yaml.safe_load(recipe({}))
    text["pieces"]["base"] = {"paper": "slate", "outline": outline}
    return written(text)


def prose(passages: int, unit: str, characters: int = 58_000) -> str:
    """Passages that say the same over and over, as much as is allowed in all."""
    each = characters // passages - 15
    said = (unit * (each // len(unit) + 1))[:each]
    return recipe({}, steps=[
        {"title": f"Look {n}", "piece": "base", "do": [{"note": "Look."}], "text": said} for n in range(passages)])


def pile(layers: int, poses: int) -> str:
    """Mats on mats, seen in many poses."""
    sides = [f"{40 - n * 0.1:.2f}" for n in range(layers)]
    mats = {
        f"m{n}": {"paper": "slate", "size": [side, side], "upon": f"{'base' if n == 0 else f'm{n - 1}'} front",
                  "at": {"centred": "both"}, "adhesive": "glue stick"} for n, side in enumerate(sides)}
    steps = [
        {"title": f"Mat {n}", "piece": f"m{n}", "tools": ["trimmer"], "supplies": ["glue stick"],
         "do": [{"cut": [side, side]}, {"attach": {
             "what": f"m{n}", "left": 5 if n == 0 else 0.05, "bottom": 5 if n == 0 else 0.05, "with": "glue stick"}}],
         "text": "Cut a mat and glue it on."} for n, side in enumerate(sides)]
    held: Parts = {"still": "base", "folds": {}}
    return recipe({}, layers=mats, supplies={"glue stick": {"kind": "glue stick"}}, steps=steps,
                  poses={"closed": held, **{f"pose {n}": held for n in range(1, poses)}})


def strip(panels: int, poses: int, angle: Callable[[int, int], int]) -> str:
    """A strip folded to and fro in many poses, opened from one to the next; `angle` by pose and score."""
    text = yaml.safe_load(with_panels(panels))
    names = [f"pose {n}" for n in range(1, poses)]
    text["poses"] |= {name: {"still": "p0", "folds": {
        f"s{n}": angle(at, n) * (1 if n % 2 else -1) for n in range(1, panels)}} for at, name in enumerate(names, 1)}
    return written({**text, "opening": ["closed", *names]})


def turning(steps: int, actions: int) -> str:
    """The sheet turned about, over and over."""
    do = [{"lay": {"edge": "long", "up": "front"}}, {"turn": "half"}] * (actions // 2)
    return recipe({}, steps=[
        {"title": f"Turn {n}", "piece": "base", "do": do, "text": "Turn it half round."} for n in range(steps)])


def kits(kinds: int, people: int) -> str:
    """Pieces of many sizes for a large class."""
    pieces = {f"part {n}": {"paper": "slate", "size": [f"{9 + 37 * n % 111}/8", f"{9 + 53 * n % 107}/8"]}
              for n in range(kinds)}
    text = yaml.safe_load(recipe({}, layers={
        name: {**piece, "upon": "base front", "at": {"left": 1 + n % 6 * 8, "bottom": 1 + n // 6 * 8},
               "adhesive": "glue stick"} for n, (name, piece) in enumerate(pieces.items())},
        supplies={"glue stick": {"kind": "glue stick"}}, steps=[
            {"title": f"Part {n}", "piece": name, "tools": ["trimmer"], "supplies": ["glue stick"],
             "do": [{"cut": piece["size"]}, {"attach": {
                 "what": name, "left": 1 + n % 6 * 8, "bottom": 1 + n // 6 * 8, "with": "glue stick"}}],
             "text": "Cut it and glue it on."} for n, (name, piece) in enumerate(pieces.items())]))
    return written({**text, "class": {"people": people}})


CASES: Mapping[str, Callable[[], str]] = {
    "scores that cross": partial(crossing_scores, 100), "slanted scores": partial(slanted_scores, 200),
    "star": partial(star, 100), "measures in prose": partial(prose, 20, "2 1/8 x 3 1/4 in, "),
    "numbers in prose": partial(prose, 290, "one and a half "),
    "directions in prose": partial(prose, 20, "Turn the left half of the base over the right edge. "),
    "one word of prose": partial(prose, 13, "a"), "pile": partial(pile, 100, 8), "layers": partial(with_layers, 100),
    "flat strip": partial(strip, 60, 8, lambda pose, score: 180 if score > pose else 0),
    "strip in many poses": partial(strip, 27, 40, lambda pose, score: 180 if score > pose else 0),
    "standing strip": partial(strip, 16, 40, lambda pose, score: 90 - pose),
    "steps": partial(with_steps, 300), "actions": partial(turning, 299, 20), "class": partial(kits, 30, 400),
}


def measured(path: Path, build: bool) -> None:
    """Check a recipe, or build it, and tell as JSON what it took."""
    from foldproof import pipeline
    from foldproof.documents.trouble import DocumentsError

    begun, trouble = time.process_time(), ""
    if build:
        try:
            proof = pipeline.build(path, path.parent / "build").proof
        except DocumentsError as error:
            proof, trouble = pipeline.prove(path), str(error)[:60]
    else:
        proof = pipeline.prove(path)
    print(json.dumps({
        "seconds": time.process_time() - begun, "peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "findings": Counter(finding.name for finding in proof.findings).most_common(3), "trouble": trouble}))


def main() -> None:
    """Write the cases, have each measured, and print a line for each."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("cases", nargs="*", metavar="CASE", help=f"some of: {', '.join(CASES)}")
    parser.add_argument("--build", action="store_true", help="build them, too")
    parser.add_argument("--one", type=Path, help=argparse.SUPPRESS)
    called = parser.parse_args()
    if called.one:
        measured(called.one, called.build)
        return
    with tempfile.TemporaryDirectory() as made:
        path = Path(made) / "worst.yaml"
        for name in called.cases or CASES:
            path.write_text(CASES[name](), encoding="utf-8")
            for what, more in (("check", []), *([("build", ["--build"])] if called.build else [])):
                command = [sys.executable, __file__, "--one", str(path), *more]
                try:
                    told = json.loads(subprocess.run(
                        command, check=True, capture_output=True, text=True, timeout=PATIENCE).stdout)
                except (subprocess.TimeoutExpired, subprocess.CalledProcessError) as error:
                    print(f"{name}: {what}: {type(error).__name__}  <<<", flush=True)
                    continue
                much = told["seconds"] > SECONDS or told["peak"] > MEGABYTES
                found = ", ".join(f"{count} {kind}" for kind, count in told["findings"]) or "no finding"
                print(f"{name}: {what} {told['seconds']:.2f} s, {told['peak']:.0f} MB; {found}; {told['trouble']}"
                      f"{'  <<<' if much else ''}", flush=True)


if __name__ == "__main__":
    main()
