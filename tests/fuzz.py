"""Readers, sums, geometry and whole checks on made-up input: nothing raises, hangs or fills the memory.

    PYTHONPATH=src python tests/fuzz.py [--examples 2000] [--only checks card ...] [--seed 7]

Each law runs in a process of its own, which may have 1 GB of memory, and each example 10 s of the processor. What
breaks a law is printed as the smallest example that hypothesis finds; it belongs into the tests of what it broke. The
suite runs the same laws on few examples (`test_fuzz.py`).
"""

import argparse
import json
import os
import re
import resource
import signal
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, redirect_stdout
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from foldproof.cli import main as foldproof
from foldproof.documents.facts_file import FORMAT, card_facts
from foldproof.documents.telling import hands
from foldproof.findings.finding import Finding, Place
from foldproof.findings.show import as_json, render
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.reading import read_quantity
from foldproof.notes.draft import draft
from foldproof.notes.reading import read_notes
from foldproof.paper.subdivision import subdivide
from foldproof.paper.vector import Point, Segment
from foldproof.pipeline import prove

ROOT = Path(__file__).resolve().parents[1]
MOST_MEMORY = 1_000_000_000
MOST_SECONDS = 10
PLACE = Place(file="fuzz.yaml", line=1, column=1)

ODD = (
    "0", "-0", "1", "1/2", "2 1/8", "5-1/2", "4 1/4", "1/1000003", "1/3", "999999999", "1e400", "10^400", ".5", "5½",
    "½½", "1/0", "0/0", "-1/64", "--1", "3000 mm", "0.000000001", "9" * 400, "1/" + "9" * 300, "1:30", "5'6\"", "1 2 3",
    "inf", "nan", "0x10", "1_000", "1,5", "٣", "²", "180", "-181", "1000000")
NUMBERS = st.one_of(
    st.sampled_from(ODD),
    st.integers(-9, 99).map(str), st.fractions(-20, 20, max_denominator=64).map(str))
"""Numbers that a recipe may hold, and such that it may not."""
WORDS = st.sampled_from([
    "base", "card", "edge", "front", "back", "left hinge", "spine", "cover front", "mat", "closed", "open", "slate",
    "both",
    "valley", "mountain", "none", "long", "half", "true", "no", "~", "", "*a", "&a b", "!!int 3", "{a: b}", "[1, 2]",
    "- 1",
    "<b>", "{width}", "{{x}}", "left of spine", "between spine and spine", "\U0001F600", "\u202e",
    "a" * 70, "top left"])
SIGNS = st.sampled_from([" ", "+", "-", "*", "/", "÷", "(", ")", "((", "))", " in", " mm", '"', "'", "°", "$",
    "width", " x "])
WELL_FORMED = st.recursive(
    st.sampled_from(["0", "1", "2 1/8", "width", "3 mm", "1/1000003", "999999999"]),
    lambda inner: st.builds("({} {} {})".format, inner, st.sampled_from("+-*/"), inner), max_leaves=8)
SUMS = st.one_of(WELL_FORMED, st.lists(st.one_of(NUMBERS, SIGNS), max_size=14).map("".join))
NAMES = {"width": Quantity(
    value=Fraction(17, 4), kind=Kind.LENGTH, written="4 1/4", place=PLACE, names=(), currency=None)}


def law_measures(data: st.DataObject) -> None:
    """Any text as a measure is a quantity within bounds, or a finding."""
    text = data.draw(st.one_of(SUMS, st.text(max_size=30), NUMBERS.map(lambda one: f"{one} " * 40)))
    kind = data.draw(st.sampled_from([None, *Kind]))
    found = read_quantity(text, place=PLACE, kind=kind, unit=data.draw(st.sampled_from(list(Unit))), names=NAMES)
    if isinstance(found, Finding):
        render([found], {"fuzz.yaml": text})
        return
    assert found.value.denominator <= 10**9
    assert abs(found.value) <= 10**7


SPOTS = st.one_of(st.integers(-4, 4).map(Fraction), st.fractions(-4, 4, max_denominator=1000), st.sampled_from(
    [Fraction(1, 10**6), 1 - Fraction(1, 10**9), Fraction(10**9 + 7, 10**9)]))
POINTS = st.builds(Point, SPOTS, SPOTS)


def law_plane(data: st.DataObject) -> None:
    """Any segments make an arrangement for which Euler's formula holds."""
    pairs = data.draw(st.lists(st.tuples(POINTS, POINTS), min_size=1, max_size=12))
    segments = [Segment(one, other) for one, other in pairs if one != other]
    whole = subdivide(segments)
    assert len(whole.corners) - len(whole.edges) + len(whole.faces) + 1 == 1 + whole.parts
    assert all(face.size > 0 for face in whole.faces)


def _samples() -> tuple[str, ...]:
    demos = (ROOT / "recipes" / f"{name}.yaml" for name in ("tide-gate", "beacon", "rope-walk", "harbour-coat"))
    return tuple(path.read_text(encoding="utf-8") for path in (ROOT / "tests" / "bad_input" / "sound.yaml", *demos))


SAMPLES = _samples()


def _spots(line: str) -> list[tuple[int, int]]:
    """Where the numbers and the values of a line stand."""
    return [match.span() for match in re.finditer(r"\d[\d/ .]*\d|\d|(?<=: )[^,{}\[\]]+|(?<=\[)[^,\]]+", line)]


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """A sound recipe with some values, lines or letters put otherwise."""
    lines = draw(st.sampled_from(SAMPLES)).split("\n")
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        match draw(st.integers(0, 7)):
            case 0 | 1 | 2 | 3 if spots := _spots(line):
                start, end = draw(st.sampled_from(spots))
                lines[at] = line[:start] + draw(st.one_of(NUMBERS, NUMBERS, WORDS, SUMS)) + line[end:]
            case 4:
                del lines[at]
                lines = lines or [""]
            case 5:
                lines.insert(draw(st.integers(0, len(lines))), line)
            case 6:
                other = draw(st.integers(0, len(lines) - 1))
                lines[at], lines[other] = lines[other], lines[at]
            case _:
                start = draw(st.integers(0, len(line)))
                lines[at] = line[:start] + draw(st.text(max_size=3)) + line[start + draw(st.integers(0, 3)):]
    return "\n".join(lines)


def proved(folder: Path, text: str) -> None:
    path = folder / "fuzz.yaml"
    path.write_text(text, encoding="utf-8", errors="replace")
    proof = prove(path)
    render(proof.findings, proof.sources)
    json.dumps(as_json(proof.findings))


def law_checks(data: st.DataObject) -> None:
    """Any recipe that was sound once is checked to its end."""
    with a_folder() as folder:
        proved(folder, data.draw(spoilt()))


ALONG = st.one_of(st.integers(0, 6).map(str), st.integers(0, 6).map(str), st.sampled_from(
    ["3000001/1000000", "2.999999", "1/64", "5 63/64", "3 1/1000", "1/3", "0.000001", "7", "-1"]))
EDGES = st.tuples(ALONG, st.sampled_from(["[{}, 0]", "[{}, 6]", "[0, {}]",
    "[6, {}]"])).map(lambda pair: pair[1].format(pair[0]))
WITHIN = st.one_of(st.integers(1, 5).map(str), st.sampled_from(
    ["1/64", "3 1/1000", "1/3", "3000001/1000000", "2.999999"]))
THROUGH = st.builds(
    lambda a, b, way: tuple(end.format(at) for end, at in zip(way, (a, b), strict=True)), WITHIN, WITHIN,
    st.sampled_from([
        ("[{}, 0]", "[{}, 6]"), ("[0, {}]", "[6, {}]"), ("[0, {}]", "[{}, 6]"), ("[{}, 0]", "[6, {}]"),
        ("[0, 0]", "[6, 6]")]))
ANYWHERE = st.tuples(ALONG, ALONG).map(lambda pair: f"[{pair[0]}, {pair[1]}]")
OUTLINES = st.one_of(
    st.just("size: [6, 6]"), st.just("size: [6, 6]"), st.just("outline: [[0, 0], [6, 0], [6, 6], [0, 6], [2, 3]]"),
    st.lists(ANYWHERE, min_size=3, max_size=6).map(lambda all_: f"outline: [{', '.join(all_)}]"))


def law_shapes(data: st.DataObject) -> None:
    """Any outline, scores and slits are folded and checked, or refused."""
    draw = data.draw
    lines = draw(st.lists(st.one_of(THROUGH, THROUGH, st.tuples(EDGES, EDGES), st.tuples(ANYWHERE, EDGES)), max_size=4))
    cuts = draw(st.one_of(st.just([]), st.lists(st.tuples(ANYWHERE, ANYWHERE), max_size=2)))
    folded = draw(st.lists(st.sampled_from(["180", "-180", "90", "0", "45", "-1"]), min_size=4, max_size=4))
    folds = ", ".join(f"s{n}: {folded[n]}" for n in range(len(lines)))
    with a_folder() as folder:
        proved(folder, "\n".join([
            "title: Any", "unit: inch", "finished: {size: [6, 6]}",
            "papers: {slate: {kind: cardstock, weight: 80 lb cover, thickness: 0.01 in, sheet: [8 1/2, 11]}}",
            "pieces:", "  base:", "    paper: slate", f"    {draw(OUTLINES)}", *["    scores:"][: len(lines)],
            *(f"      s{n}: {{from: {a}, to: {b}, fold: valley}}" for n, (a, b) in enumerate(lines)),
            *["    slits:"][: len(cuts)], *(f"      c{n}: {{from: {a}, to: {b}}}" for n, (a, b) in enumerate(cuts)),
            "    panels:", "      one: [5 6/7, 5 3/11]",
            f"poses: {{closed: {{still: one, folds: {{{folds}}}}}, open: {{still: one}}}}", "opening: [closed, open]",
            "tools: {trimmer: {}}", "steps:", "  - title: Cut", "    piece: base",
            "    do: [{cut: [6, 6]}, {lay: long}, {score: 3}]", "    text: Cut it.", ""]))


TIMES = ("step, begins, title\nround-base, 0:00, Cut\nlength, 5:00\naddress, https://example.org/?t={seconds}\n",
         "Cut the base 0:10\n3; 1:05\n# a remark\n")
SAID = ("WEBVTT\n\n1\n00:00:01.000 --> 00:00:04.000\nScore at 2 1/8 in.\n\n"
        "00:05.000 --> 00:06.000 align:start\n<v A>Fold.\n",
        "1\n00:00:01,000 --> 00:00:04,000\nScore at four and a quarter inches.\n\n"
        "2\n00:00:04,000 --> 00:00:02,000\nx\n")
NOTES = ("# Gate card\n\nCut the card 8 1/2 x 5 1/2. Score at 2 1/8 from both ends. Closed it is 4 1/4 x 5 1/2, fits "
         "A2.\n- slate cardstock 80 lb\n1. Fold. Glue a mat 2 x 5 1/4 (1/8 border).\n",)
OWN = ("papers:\n  slate: {holds: 25, price: 8.40 USD, here: 3}\nsupplies:\n  wet glue: {holds: 40, of: card}\n",
       "trimmer: {holds: 1/2, longest cut: 12}\nblade: 1/64\nedge trim: 1/8\n")


@st.composite
def torn(draw: st.DrawFn, samples: tuple[str, ...]) -> str:
    """A text of a kind with some letters or numbers put otherwise."""
    text = draw(st.sampled_from(samples))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        new = draw(st.one_of(NUMBERS, WORDS, SIGNS, st.text(max_size=4), st.sampled_from(
            ["\n", ":", "-->", "00:", ","])))
        text = text[:start] + new + text[start + draw(st.integers(0, 6)):]
    return text


def law_recordings(data: st.DataObject) -> None:
    """Any times and captions beside a recipe are read, or refused."""
    with a_folder() as folder:
        (folder / "fuzz.times.csv").write_text(data.draw(torn(TIMES)), encoding="utf-8", errors="replace")
        (folder / "fuzz.said.vtt").write_text(data.draw(torn(SAID)), encoding="utf-8", errors="replace")
        proved(folder, SAMPLES[0])


def law_notes(data: st.DataObject) -> None:
    """Any notes make a draft."""
    draft(read_notes(data.draw(st.one_of(torn(NOTES), st.text(max_size=200)))), "notes.txt")


def law_own_files(data: st.DataObject) -> None:
    """Any stock and desk files are read, or refused."""
    from foldproof.classroom.own_files import read_own

    with a_folder() as folder:
        for name in ("stock", "desk"):
            (folder / name).write_text(data.draw(torn(OWN)), encoding="utf-8", errors="replace")
        own = read_own(folder / "stock", folder / "desk")
        render(own.findings, own.sources)


@cache
def _facts() -> str:
    proof = prove(ROOT / "tests" / "bad_input" / "sound.yaml")
    assert proof.card is not None and proof.making is not None
    card = proof.card
    told = card_facts(card, proof.making, tuple(hands(card, step) for step in proof.making.steps))
    return json.dumps({"format": FORMAT, **told})


JSON = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-5, 5), NUMBERS, st.text(max_size=5), st.just("1e999999999")),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.sampled_from(["exact", "name", "x"]), inner)),
    max_leaves=6)


def law_card(data: st.DataObject) -> None:
    """Any card.json is compared, or refused in one line."""
    told = json.loads(_facts())
    spot: Any = told
    while isinstance(spot, dict | list) and spot:
        key = data.draw(st.sampled_from(sorted(spot) if isinstance(spot, dict) else range(len(spot))))
        if not isinstance(spot[key], dict | list) or not spot[key] or data.draw(st.integers(0, 3)) == 0:
            spot[key] = data.draw(JSON)
            break
        spot = spot[key]
    with a_folder() as folder:
        told["format"] = FORMAT
        (folder / "card.json").write_text(json.dumps(told))
        assert foldproof(["compare", str(folder / "card.json"), str(ROOT / "tests/bad_input/sound.yaml")]) in (0, 1, 2)


LAWS: dict[str, tuple[Callable[[st.DataObject], None], int]] = {
    "measures": (law_measures, 80), "plane": (law_plane, 4), "checks": (law_checks, 1), "shapes": (law_shapes, 2),
    "recordings": (law_recordings, 1), "notes": (law_notes, 3), "own files": (law_own_files, 3), "card": (law_card, 1),
}
"""Each with how many of its examples cost as much as one check."""


class TooSlowError(Exception):
    """An example took more of the processor than it may."""


@contextmanager
def a_folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        yield Path(folder)


@contextmanager
def within_seconds(seconds: int = MOST_SECONDS) -> Iterator[None]:
    """Raise TooSlowError after so many seconds of the processor, however busy the machine is."""
    def ring(_signal: int, _frame: object) -> None:
        raise TooSlowError(f"more than {seconds} s")

    before = signal.signal(signal.SIGVTALRM, ring)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def made_up(name: str, examples: int) -> Callable[[], None]:
    """A law as a test of hypothesis on so many examples."""
    law, share = LAWS[name]

    @settings(
        max_examples=examples * share, deadline=None, database=None, suppress_health_check=list(HealthCheck),
        phases=(Phase.explicit, Phase.generate, Phase.shrink), print_blob=False)
    @given(st.data())
    def held(data: st.DataObject) -> None:
        with within_seconds():
            law(data)

    return held


def hold(name: str, examples: int, seeded: int | None) -> None:
    """Try a law on so many examples, in this process."""
    held = made_up(name, examples)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    with Path(os.devnull).open("w") as nowhere, redirect_stdout(nowhere):
        (seed(seeded)(held) if seeded is not None else held)()


def main() -> int:
    """Try the laws, each in a process of its own; 1 where one is broken."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--examples", type=int, default=500, help="as many as cost as much as so many checks, a law")
    parser.add_argument("--only", nargs="+", choices=tuple(LAWS), default=tuple(LAWS))
    parser.add_argument("--seed", type=int)
    parser.add_argument("--here", action="store_true", help=argparse.SUPPRESS)
    called = parser.parse_args()
    if called.here:
        for name in called.only:
            hold(name, called.examples, called.seed)
        return 0
    broken = 0
    for name in called.only:
        words = ["--examples", str(called.examples), *(["--seed", str(called.seed)] if called.seed is not None else [])]
        done = subprocess.run(
            [sys.executable, __file__, "--here", "--only", name, *words], capture_output=True, text=True, check=False)
        print(f"{name}: {'held' if done.returncode == 0 else 'BROKEN'}", flush=True)
        if done.returncode:
            broken += 1
            print(done.stderr[-6000:], flush=True)
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
