"""How quick Foldproof is, in ratios of one run against the bare libraries on the same work, and how it grows.

    PYTHONPATH=src python tests/bench/speed.py [--readme] [--recipes tide-gate beacon] [--cards 40]

Times are of the processor (user and system), the least of a few runs, unless `clock` is said; so they mean something on
a machine that has other work, too. `--readme` writes the table into README.md. It takes some four minutes.
"""

import argparse
import json
import math
import os
import platform
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from itertools import chain
from pathlib import Path

from grown import with_layers, with_panels, with_steps

ROOT = Path(__file__).resolve().parents[2]
RECIPES = ROOT / "recipes"
BEGIN, END = "<!-- speed: begin -->", "<!-- speed: end -->"
COMMAND = "PYTHONPATH=src python tests/bench/speed.py --readme"
Row = tuple[str, str, str]
"""What, what was measured, the aim."""


def main() -> None:
    """Measure, print, and write into the README where that is asked for."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--readme", action="store_true", help="write the table into README.md")
    parser.add_argument("--recipes", nargs="+", default=["tide-gate", "beacon", "quay-stairs"], help="to be built")
    parser.add_argument("--cards", type=int, default=40, help="how many are built on one processor and on two")
    called = parser.parse_args()
    rows: list[Row] = []
    for row in chain(checks(), builds(called.recipes), library(called.cards), memory(24), growth()):
        rows.append(row)
        print(*row, sep=" | ", flush=True)
    table = "\n".join((
        "| what | measured | aim |", "|---|---|---|", *(f"| {' | '.join(row)} |" for row in rows), "",
        f"Run on {date.today().isoformat()} on {_machine()}. Made by `{COMMAND}`."))
    if called.readme:
        readme = ROOT / "README.md"
        text = readme.read_text(encoding="utf-8")
        before, _, rest = text.partition(BEGIN)
        after = rest.partition(END)[2]
        readme.write_text(f"{before}{BEGIN}\n{table}\n{END}{after}", encoding="utf-8")


def _machine() -> str:
    return f"{platform.system()} {platform.machine()}, {os.cpu_count()} processors, Python {platform.python_version()}"


def _quiet() -> dict[str, str]:
    """The surroundings of a process: our source, and compiled modules kept as they usually are."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPATH": str(ROOT / "src")}


def spent(command: Sequence[str], folder: Path = ROOT, prepare: Callable[[], None] | None = None) -> float:
    """Processor seconds of a process and its children."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        command, cwd=folder, check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, preexec_fn=prepare,
        env=_quiet())
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def least(times: int, run: Callable[[], float]) -> float:
    """The least of a few runs."""
    return min(run() for _ in range(times))


def program(*words: str) -> list[str]:
    """The command line of Foldproof."""
    return [sys.executable, "-m", "foldproof", *words]


def checks() -> Iterator[Row]:
    """`check` of each demo recipe as a whole process against importing two libraries."""
    bare = least(5, lambda: spent([sys.executable, "-c", "import yaml, shapely"]))
    ratios = sorted(
        (least(3, lambda p=path: spent(program("check", str(p)))) / bare, path.stem)  # type: ignore[misc]
        for path in RECIPES.glob("*.yaml"))
    told = f"{ratios[0][0]:.1f} ({ratios[0][1]}) to {ratios[-1][0]:.1f} ({ratios[-1][1]})"
    middle = ratios[len(ratios) // 2][0]
    yield ("`check` of a demo recipe, a whole process, against `python -c \"import yaml, shapely\"`",
           f"{told}, half of them at most {middle:.1f}", "2.0 for flat checks")


def builds(names: Sequence[str]) -> Iterator[Row]:
    """A build when all is warm, against the figures by bare matplotlib and the sheets by bare WeasyPrint."""
    ratios, peak = [], []
    for name in names:
        told = json.loads(subprocess.run(
            [sys.executable, str(Path(__file__).with_name("bare.py")), str(RECIPES / f"{name}.yaml")], cwd=ROOT,
            check=True, capture_output=True, text=True, env=_quiet()).stdout)
        ratios.append(told["build"] / (told["figures"] + told["sheets"]))
        peak.append(told["peak"])
        parts = f"{told['build']:.1f} s against {told['figures']:.1f} + {told['sheets']:.1f} s"
        yield (f"`build` of {name}, warm, against its figures by bare matplotlib and its sheets by bare WeasyPrint",
               f"{ratios[-1]:.2f} ({parts})", "1.25")
    yield "most memory of a process after one, two and five builds", "; ".join(
        f"{name}: {', '.join(f'{mb:.0f}' for mb in each)} MB" for name, each in zip(names, peak, strict=True)), "400 MB"


def library(cards: int) -> Iterator[Row]:
    """Many small recipes on one processor and on two, and a hundred that have not changed."""
    text = (ROOT / "tests" / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        (folder / "recipes").mkdir()
        for n in range(cards):
            (folder / "recipes" / f"card-{n:03}.yaml").write_text(text, encoding="utf-8")
        clocks = []
        for processors in (1, 2):
            begun = time.monotonic()
            spent(program("build", "--all"), folder, _on(processors))
            clocks.append(time.monotonic() - begun)
        yield (f"{cards} recipes on two processors against one (clock)",
               f"{clocks[1] / clocks[0]:.2f} ({clocks[1]:.0f} s against {clocks[0]:.0f} s)", "0.6")
        _copy_sets(folder, text, 100)
        begun = time.monotonic()
        used = spent(program("build"), folder)
        yield ("`build` of 100 recipes of which none has changed",
               f"{used:.2f} s ({time.monotonic() - begun:.2f} s by the clock)", "1 s")


def memory(cards: int) -> Iterator[Row]:
    """The greatest memory of a process when a quarter, half and all of many small recipes are built."""
    if not Path("/proc/self/status").exists():
        return
    text = (ROOT / "tests" / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        (folder / "recipes").mkdir()
        for n in range(cards):  # each its own, lest anything kept serves the next
            (folder / "recipes" / f"card-{n:03}.yaml").write_text(
                text.replace("Plain card", f"Plain card {n}"), encoding="utf-8")
        building = subprocess.Popen(
            program("build", "--all"), cwd=folder, env=_quiet(), preexec_fn=_on(2), stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        most = dict.fromkeys((cards // 4, cards // 2, cards), 0.0)
        while building.poll() is None:
            done = len(list((folder / "build").glob("card-*")))
            used = max(map(_megabytes, _family(building.pid)), default=0.0)
            most = {count: max(was, used) if done <= count else was for count, was in most.items()}
            time.sleep(0.02)
        told = ", ".join(f"{used:.0f}" for used in most.values())
        yield (f"most memory of a process after {', '.join(map(str, most))} small recipes in one call, two at once",
               f"{told} MB", "400 MB, and no more with more")


def _family(process: int) -> Iterator[int]:
    """A process and those that it began, and so on."""
    yield process
    try:
        children = Path(f"/proc/{process}/task/{process}/children").read_text(encoding="ascii").split()
    except OSError:
        return
    for child in children:
        yield from _family(int(child))


def _megabytes(process: int) -> float:
    """The memory of a process that is in use now; 0 where it is gone."""
    try:
        return int(Path(f"/proc/{process}/statm").read_text(encoding="ascii").split()[1]) * resource.getpagesize() / 1e6
    except (OSError, IndexError):
        return 0.0


def _on(processors: int) -> Callable[[], None] | None:
    if not hasattr(os, "sched_setaffinity"):
        return None
    return lambda: os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:processors])


def _copy_sets(folder: Path, text: str, count: int) -> None:
    """As many recipes and sets as are wanted, each as a build would have left it: only the names differ."""
    first = (folder / "build" / "card-000").resolve()
    for n in range(count):
        name = f"card-{n:03}"
        (folder / "recipes" / f"{name}.yaml").write_text(text, encoding="utf-8")
        if not (folder / "build" / name).exists():
            other = folder / "build" / ".sets" / f"{name}-copy"
            shutil.copytree(first, other)
            kept = (other / ".made-from").read_text(encoding="utf-8")
            (other / ".made-from").write_text(kept.replace("card-000", name), encoding="utf-8")
            (folder / "build" / name).symlink_to(f".sets/{name}-copy")


def growth() -> Iterator[Row]:
    """Seconds of proving recipes that have more and more of a thing, and the power with which they grow at the end."""
    from foldproof.findings.finding import has_errors
    from foldproof.pipeline import prove

    kinds: tuple[tuple[str, Callable[[int], str], tuple[int, ...]], ...] = (
        ("steps", with_steps, (10, 30, 100, 300)), ("panels", with_panels, (2, 7, 20, 60)),
        ("layers", with_layers, (0, 10, 30, 100)))
    with tempfile.TemporaryDirectory() as made:
        for what, recipe, counts in kinds:
            seconds = []
            for count in counts:
                path = Path(made) / f"{what}-{count}.yaml"
                path.write_text(recipe(count), encoding="utf-8")

                def once(path: Path = path) -> float:
                    begun = time.process_time()
                    assert not has_errors(prove(path).findings)
                    return time.process_time() - begun

                seconds.append(least(2, once))
            power = math.log(seconds[-1] / seconds[-2]) / math.log(counts[-1] / counts[-2])
            told = ", ".join(f"{count}: {took:.2f} s" for count, took in zip(counts, seconds, strict=True))
            yield f"check time by {what}", f"{told}; grows like n^{power:.1f} at the end", "n log n"


if __name__ == "__main__":
    main()
