"""The laws of `fuzz.py` led by what the code did: inputs that reach new lines are changed further. Needs atheris.

    pip install atheris
    PYTHONPATH=src python tests/fuzz_covered.py [--minutes 10] [--only reader checks ...] [--into build/fuzz]

Whole recipes begin at the demos, at those of the guide and at `tests/bad_input`; they are changed by lines and parts
(`fuzz_mutate.py`), for single letters seldom get past the reader. All else is made up by the strategies of `fuzz.py`
out of the bytes that the fuzzer leads. Each law runs in a process of its own, on one processor; each input may take 10
s of the processor, and the process 1 GB more than it began with. What breaks a law is kept in the folder, once for each
place in the code, and the fuzzer goes on; inputs that reached something new are kept, too, so that a later run begins
there. Every one that breaks a law becomes a test.
"""

import argparse
import hashlib
import importlib
import os
import pkgutil
import re
import resource
import subprocess
import sys
import traceback
from collections.abc import Callable
from contextlib import redirect_stdout
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["foldproof"], enable_loader_override=False):
    import foldproof

    for _module in pkgutil.walk_packages(foldproof.__path__, "foldproof."):
        if not re.search(r"_command$|__main__|\.preview\.", _module.name):
            importlib.import_module(_module.name)

from foldproof.findings.show import render
from foldproof.recipe.reader import read_text
from fuzz import LAWS, MOST_MEMORY, ODD, a_folder, made_up, proved, within_seconds
from fuzz_mutate import Mutator, Stock

ROOT = Path(__file__).resolve().parents[1]
LONGEST = 100_000
"""Of an input, in bytes: some eight times a demo recipe."""


def seeds() -> list[str]:
    """Whole recipes, good and bad."""
    pages = sorted((ROOT / "recipes" / "guide").glob("*.md"))
    shown = (re.findall(r"```yaml recipe\n(.*?)```", page.read_text(encoding="utf-8"), flags=re.S) for page in pages)
    files = (*sorted((ROOT / "recipes").glob("*.yaml")), *sorted((ROOT / "tests" / "bad_input").glob("*.yaml")))
    return [*(path.read_text(encoding="utf-8") for path in files), *(text for page in shown for text in page)]


def _read(text: str) -> None:
    reading = read_text(text, "fuzz.yaml")
    render(reading.findings, {"fuzz.yaml": text, **reading.texts})


def _checked(text: str) -> None:
    with a_folder() as folder:
        proved(folder, text)


TEXTS: dict[str, Callable[[str], None]] = {"reader": _read, "checks": _checked}
"""What is done with a whole recipe."""
NAMES = (*TEXTS, *(name for name in LAWS if name != "checks"))


class Watch:
    """Runs a law on an input, and keeps what breaks it, once for each place in the code."""

    def __init__(self, name: str, into: Path) -> None:
        """The law's name, and the folder for what breaks it."""
        self.law: Callable[[bytes], object]
        if name in TEXTS:
            on_text = TEXTS[name]
            self.law = lambda data: on_text(data.decode("utf-8", "replace"))
        else:
            self.law = made_up(name, 1).hypothesis.fuzz_one_input  # type: ignore[attr-defined]
        self.into, self.known = into, set[str]()

    def __call__(self, data: bytes) -> None:
        """Try one input."""
        try:
            with Path(os.devnull).open("w") as nowhere, redirect_stdout(nowhere), within_seconds():
                self.law(data)
        except Exception as error:
            frames = [frame for frame in traceback.extract_tb(error.__traceback__) if "foldproof" in frame.filename]
            last = frames[-1] if frames else None
            where = f"{type(error).__name__} {Path(last.filename).name}:{last.name}" if last else type(error).__name__
            if where not in self.known:
                self.known.add(where)
                kept = self.into / f"broken-{hashlib.sha256(where.encode()).hexdigest()[:12]}"
                kept.write_bytes(data)
                kept.with_suffix(".txt").write_text(
                    "".join(traceback.format_exception(error)), encoding="utf-8", errors="replace")


def _fuzz(name: str, seconds: int, into: Path) -> None:
    """Fuzz one law in this process, which libFuzzer ends when the time is over."""
    folder = into / name.replace(" ", "-")
    corpus = folder / "reached"
    corpus.mkdir(parents=True, exist_ok=True)
    words = [sys.argv[0], f"-max_total_time={seconds}", f"-max_len={LONGEST}", "-rss_limit_mb=0", "-timeout=120",
             f"-artifact_prefix={folder}/", str(corpus)]
    _, highest = resource.getrlimit(resource.RLIMIT_AS)
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    resource.setrlimit(resource.RLIMIT_AS, (pages * resource.getpagesize() + MOST_MEMORY, highest))
    if name not in TEXTS:
        atheris.Setup(words, Watch(name, folder))
        atheris.Fuzz()
        return
    stock = Stock(numbers=ODD)
    for text in seeds():
        stock.take(text)
        (corpus / hashlib.sha256(text.encode()).hexdigest()[:40]).write_text(text, encoding="utf-8")
    change = Mutator(stock, lambda line: bytes(atheris.Mutate(line, len(line) + 40)))

    def mutated(data: bytes, most: int, seed: int) -> bytes:
        changed = change(data.decode("utf-8", "replace"), seed).encode("utf-8", "replace")
        return changed if len(changed) <= most else data[:most]

    atheris.Setup(words, Watch(name, folder), custom_mutator=mutated)
    atheris.Fuzz()


def main() -> int:
    """Fuzz each law for its time; 1 where one is broken."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", type=float, default=10, help="for each law")
    parser.add_argument("--only", nargs="+", choices=NAMES, default=NAMES)
    parser.add_argument("--into", type=Path, default=ROOT / "build" / "fuzz")
    parser.add_argument("--here", action="store_true", help=argparse.SUPPRESS)
    called = parser.parse_args()
    if called.here:
        _fuzz(called.only[0], round(called.minutes * 60), called.into)
        return 0
    broken = 0
    for name in called.only:
        folder = called.into / name.replace(" ", "-")
        folder.mkdir(parents=True, exist_ok=True)
        for old in folder.glob("broken-*"):
            old.unlink()
        with (folder / "log").open("w") as log:
            ended = subprocess.run(
                [sys.executable, __file__, "--here", "--only", name, "--minutes", str(called.minutes), "--into",
                 str(called.into)], stdout=log, stderr=log, check=False).returncode
        kept = sorted(folder.glob("broken-*.txt"))
        tried = re.findall(r"^#(\d+)", (folder / "log").read_text(errors="replace"), flags=re.M)
        print(f"{name}: {tried[-1] if tried else 'no'} inputs, {len(kept)} broke it", flush=True)
        for path in kept:
            print(f"  {path.with_suffix('')}: {path.read_text(errors='replace').strip().splitlines()[-1]}", flush=True)
        if ended:
            print(f"  the fuzzer itself ended with {ended}; see {folder / 'log'}", flush=True)
        broken += bool(kept) or ended != 0
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
