"""A build makes what has changed and nothing else, and tells of the rest what it told when it was built."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from dataclasses import fields
from pathlib import Path
from typing import Any

import pytest

from foldproof import kept
from foldproof.bounded import MOST_FACTS
from foldproof.build_command import Task, build_all
from foldproof.built_table import built_table, what_became
from foldproof.cli import main
from foldproof.documents import system_libraries
from foldproof.findings.finding import Finding, Severity
from foldproof.options import Options
from foldproof.pipeline import prove
from foldproof.shell import Meant, Outcome, recipes_meant

SOUND = (Path(__file__).parent / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
SOURCE = Path(__file__).resolve().parent.parent / "src"
WRONG = SOUND.replace("score: 4 1/4", "score: 4 5/16")

Captured = pytest.CaptureFixture[str]
ASKED = Options()


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which one recipe with advice to give has been built; each test has a copy of its own."""
    folder = tmp_path_factory.mktemp("built")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        Path("recipes").mkdir()
        Path("recipes/one.yaml").write_text(SOUND, encoding="utf-8")
        assert main(["build"]) == 0
    return folder


@pytest.fixture
def here(built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    copy = tmp_path / "copy"
    shutil.copytree(built, copy, symlinks=True)
    monkeypatch.chdir(copy)
    return copy


@pytest.fixture
def nothing_made(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Whatever would be built is noted instead."""
    asked: list[Path] = []

    def note(task: Task, options: Options) -> Outcome:
        asked.append(task.recipe)
        return Outcome(recipe=str(task.recipe), findings=(), sources={}, folder="noted")

    monkeypatch.setattr("foldproof.build_command._build", note)
    monkeypatch.setattr("foldproof.build_command._each", lambda work, tasks, _: map(work, tasks))
    return asked


ONE = Path("recipes/one.yaml")


def rewrite(path: str, text: str) -> None:
    Path(path).write_text(text, encoding="utf-8")


def files_of(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def tell_of(file: str) -> None:
    """Have the list of the set hold one finding more, in a file."""
    path = Path("build/one/.made-from")
    told = json.loads(path.read_text(encoding="utf-8"))
    told["findings"].append({
        "name": "x", "severity": "advice", "message": "x", "mend": None, "step": None, "asides": [],
        "place": {"file": file, "line": 1, "column": 1, "length": 1}})
    path.write_text(json.dumps(told), encoding="utf-8")


def another_pango(patch: pytest.MonkeyPatch) -> None:
    """As after an upgrade of the system: the library tells another version."""
    asked = (("libpango-1.0", "0", lambda _: "1.99.0"), *system_libraries.LIBRARIES[1:])
    patch.setattr(system_libraries, "LIBRARIES", asked)
    patch.setattr(kept, "program", kept.program.__wrapped__)


def touch_the_program(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(kept, "program", lambda: "another")


CHANGES: Mapping[str, Callable[[pytest.MonkeyPatch], Any]] = {
    "one letter of the recipe": lambda _: rewrite("recipes/one.yaml", SOUND.replace("Plain card", "Plain cart")),
    "a file of a recording that was not there": lambda _: rewrite("recipes/one.times.csv", "step, begins\n"),
    "a document that is gone": lambda _: Path("build/one/handout.pdf").unlink(),
    "a document that was written to": lambda _: rewrite("build/one/page.html", "<p>mine</p>"),
    "a picture that was cut short": lambda _: rewrite("build/one/template.svg", "<svg"),
    "the list itself": lambda _: rewrite("build/one/.made-from", "{}"),
    "the list itself, no JSON": lambda _: rewrite("build/one/.made-from", "%"),
    "the list itself, too large": lambda _: rewrite(
        "build/one/.made-from", Path("build/one/.made-from").read_text(encoding="utf-8") + " " * MOST_FACTS),
    "the list itself, telling of a file that is gone": lambda _: tell_of("gone"),
    "the whole set": lambda _: Path("build/one").unlink(),
    "the program": touch_the_program, "the system's text library": another_pango,
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_what_has_changed_is_made_again(
    change: Callable[[pytest.MonkeyPatch], Any], here: Path, nothing_made: list[Path], monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert main(["build"]) == 0
    assert nothing_made == []
    change(monkeypatch)
    assert main(["build"]) == 0
    assert nothing_made == [ONE]


@pytest.mark.parametrize("more", [
    ["--all"], ["--dated", "2026-03-01"], ["--mirrored"], ["--left-handed"], ["--stock", "shelf.yaml"],
], ids=" ".join)
def test_what_is_asked_for_otherwise_is_made(more: list[str], here: Path, nothing_made: list[Path]) -> None:
    rewrite("shelf.yaml", "stock: {}\n")
    assert main(["build", *more]) == 0
    assert nothing_made == [ONE]


@pytest.mark.parametrize("ends", ["\r\n", "\r"], ids=repr)
def test_other_line_ends_are_the_same_recipe(ends: str, here: Path, nothing_made: list[Path]) -> None:
    Path("recipes/one.yaml").write_bytes(SOUND.replace("\n", ends).encode())
    assert main(["build"]) == 0
    assert nothing_made == []


@pytest.mark.parametrize("option", [field.name for field in fields(Options)])
def test_every_option_counts(option: str) -> None:
    """One that is added later, too, whatever its name; the theme is any folder's."""
    value: Any = True if isinstance(getattr(ASKED, option), bool) else "plain/." if option == "theme" else "x"
    assert kept._asked(Options(**{option: value})) != kept._asked(ASKED)


def test_an_unchanged_set_tells_what_it_told(here: Path, capsys: Captured, nothing_made: list[Path]) -> None:
    """The list is changed to hold a warning: it must be printed, with its line of the recipe, as if built anew."""
    path = Path("build/one/.made-from")
    told = json.loads(path.read_text(encoding="utf-8"))
    told["findings"] = [{
        "name": "a thing to see", "severity": "warning", "message": "Look here.", "mend": "Mend it.", "step": None,
        "place": {"file": "recipes/one.yaml", "line": 1, "column": 1, "length": 5},
        "asides": [{"text": "and here", "place": None}],
    }]
    path.write_text(json.dumps(told), encoding="utf-8")
    assert main(["build"]) == 0
    shown = capsys.readouterr().out
    assert SOUND.splitlines()[0] in shown
    for words in ("Look here.", "Mend it.", "and here"):
        assert words in shown
    assert main(["build", "--json"]) == 0
    assert [one["name"] for one in json.loads(capsys.readouterr().out)] == ["a thing to see"]
    assert nothing_made == []


def test_the_findings_of_a_set_are_those_of_its_recipe(here: Path) -> None:
    standing = kept.unchanged(ONE, ASKED, Path("build"))
    assert standing is not None
    assert set(prove(ONE).findings) <= set(standing.findings)
    assert standing.folder == Path("build/one")


def test_from_scratch_it_is_the_same_to_the_byte(here: Path) -> None:
    """A sentence is changed and changed back: the set is the one that was built in another folder at first."""
    task = Task(recipe=ONE, into=Path("build"))
    before = files_of(Path("build/one"))
    rewrite("recipes/one.yaml", SOUND.replace("Plain card", "Plainer card"))
    assert [what_became(one) for one in build_all([task], ASKED, anew=False)[0]] == ["built"]
    assert files_of(Path("build/one"))["handout.pdf"] != before["handout.pdf"]
    rewrite("recipes/one.yaml", SOUND)
    build_all([task], ASKED, anew=False)
    assert files_of(Path("build/one")) == before


def test_a_recipe_with_errors_is_told_of_each_time(here: Path, capsys: Captured) -> None:
    rewrite("recipes/two.yaml", WRONG)
    for _ in range(2):
        assert main(["build"]) == 1
        shown = capsys.readouterr().out
        assert "4 5/16" in shown
        assert "2 recipes: 1 unchanged, 1 refused" in shown


def test_folders_of_recipes(here: Path, nothing_made: list[Path], monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("winter/one.yaml", "winter/deep/two.yaml", ".hidden/three.yaml"):
        Path("recipes", name).parent.mkdir(parents=True, exist_ok=True)
        rewrite(f"recipes/{name}", SOUND)
    assert recipes_meant([]) == (
        Meant(recipe=ONE), Meant(recipe=Path("recipes/winter/deep/two.yaml"), below=Path("winter/deep")),
        Meant(recipe=Path("recipes/winter/one.yaml"), below=Path("winter")))
    assert recipes_meant([Path("recipes/winter/one.yaml")])[0].below == Path("winter")
    assert [meant.below for meant in recipes_meant([Path("recipes/winter")])] == [Path("winter/deep"), Path("winter")]
    assert main(["build", "--into", "out"]) == 0
    assert len(nothing_made) == 3


def test_nothing_is_imported_to_see_that_nothing_has_changed(here: Path) -> None:
    """Neither the printers nor the journey itself; only so can a hundred recipes be looked at in a moment."""
    told = subprocess.run(
        [sys.executable, "-c", "import sys; from foldproof.cli import main; main(['build'])\n"
         "print(*sorted(sys.modules), sep='\\n')"], check=True, capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(SOURCE)}).stdout.split()
    heavy = {
        "yaml", "numpy", "matplotlib", "weasyprint", "pikepdf", "jinja2", "foldproof.pipeline", "foldproof.folding"}
    assert not heavy & set(told)
    assert "foldproof.kept" in told


def test_a_folder_and_a_recipe_of_one_name_are_refused(here: Path, capsys: Captured) -> None:
    Path("recipes/One").mkdir()
    rewrite("recipes/One/two.yaml", SOUND)
    assert main(["build"]) == 2
    assert "another name" in capsys.readouterr().err


def test_the_table_says_what_changed_in_the_cards() -> None:
    shown = built_table([
        Outcome(recipe="gate", findings=(), sources={}, folder="x", changed=("step 2: a", "step 2: b")),
        Outcome(recipe="look", findings=(), sources={}, folder="x", changed=("1", "2", "3", "4", "5")),
        Outcome(recipe="other", findings=(), sources={}, folder="x"),
    ], 9.0)
    assert shown.split("\n\n")[1].splitlines() == [
        "What changed since it was last built:", "  gate: step 2: a", "  gate: step 2: b", "  look: 1", "  look: 2",
        "  look: 3", "  look: 2 more"]


def test_the_table_counts() -> None:
    warning = Finding(name="w", severity=Severity.WARNING, message="")
    error = Finding(name="e", severity=Severity.ERROR, message="")
    shown = built_table([
        Outcome(recipe="quiet", findings=(), sources={}, folder="x", made=False),
        Outcome(recipe="old", findings=(warning, warning), sources={}, folder="x", made=False),
        Outcome(recipe="new", findings=(), sources={}, folder="x", seconds=6.25),
        Outcome(recipe="bad", findings=(error,), sources={}, seconds=0.5),
        Outcome(recipe="full", findings=(), sources={}, trouble="disk full", seconds=1),
    ], 9.0).splitlines()
    assert shown[-1] == "5 recipes: 1 built, 2 unchanged, 1 refused, 1 not built, 1 error, 2 warnings; 9.0 seconds"
    assert [line.split() for line in shown[:-1]] == [
        ["recipe", "errors", "warnings", "advice", "seconds"],
        ["old", "unchanged", "2"], ["new", "built", "6.2"], ["bad", "refused", "1", "0.5"],
        ["full", "not", "built", "1.0"], [],
    ]


def test_a_theme_of_ones_own_that_changes_is_seen(here: Path) -> None:
    theme = here / "mine"
    theme.mkdir()
    (theme / "page.css").write_text("h1 { font-weight: 400; }", encoding="utf-8")
    before = kept._asked(Options(theme=str(theme)))
    listed = json.loads((here / "build" / "one" / kept.KEPT).read_text(encoding="utf-8"))
    listed["theme"] = [str(theme), kept._of_folder(theme)]
    rewrite("build/one/" + kept.KEPT, json.dumps(listed))
    assert kept.unchanged(ONE, ASKED, Path("build")) is not None
    (theme / "page.css").write_text("h1 { font-weight: 600; }", encoding="utf-8")
    assert kept.unchanged(ONE, ASKED, Path("build")) is None
    assert kept._asked(Options(theme=str(theme))) != before
