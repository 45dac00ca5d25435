"""The command line: exit status, what is printed, and what is left alone."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from foldproof.cli import main
from foldproof.shell import Outcome

SOUND = (Path(__file__).parent / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
WRONG = SOUND.replace("score: 4 1/4", "score: 4 5/16")
BAD = sorted((Path(__file__).parent / "bad_input").glob("*.yaml"))

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "recipes").mkdir()
    return tmp_path


def write(name: str, text: str = SOUND) -> Path:
    path = Path("recipes") / name
    path.write_text(text, encoding="utf-8")
    return path


def test_check_is_quiet_on_a_sound_recipe_and_writes_nothing(here: Path, capsys: Captured) -> None:
    write("one.yaml")
    assert main(["check"]) == 0
    assert sorted(path.name for path in here.iterdir()) == ["recipes"]
    assert capsys.readouterr().err == ""


def test_check_tells_a_wrong_number(here: Path, capsys: Captured) -> None:
    write("one.yaml", WRONG)
    assert main(["check", "recipes/one.yaml"]) == 1
    shown = capsys.readouterr()
    assert "recipes/one.yaml:" in shown.out
    assert "4 5/16" in shown.out
    assert shown.err == ""


def test_json_is_one_value(here: Path, capsys: Captured) -> None:
    write("one.yaml", WRONG)
    write("two.yaml")
    assert main(["check", "--json"]) == 1
    findings = json.loads(capsys.readouterr().out)
    assert {finding["severity"] for finding in findings} >= {"error"}
    write("one.yaml")
    assert main(["check", "--json"]) == 0
    assert all(finding["severity"] != "error" for finding in json.loads(capsys.readouterr().out))


@pytest.mark.parametrize("arguments", [
    pytest.param([], id="no command"),
    pytest.param(["bild"], id="unknown command"),
    pytest.param(["build", "--fast"], id="unknown option"),
    pytest.param(["build", "--theme", "none"], id="unknown theme"),
    pytest.param(["build", "--dated", "yesterday"], id="no date"),
])
def test_a_wrong_call(arguments: list[str], here: Path, capsys: Captured) -> None:
    write("one.yaml")
    with pytest.raises(SystemExit) as stopped:
        main(arguments)
    assert stopped.value.code == 2
    assert "foldproof" in capsys.readouterr().err
    assert not (here / "build").exists()


def test_no_recipes(here: Path, capsys: Captured) -> None:
    assert main(["build"]) == 2
    assert "there is no recipe" in capsys.readouterr().err


def test_two_recipes_of_one_name(here: Path, capsys: Captured) -> None:
    write("one.yaml")
    (here / "more").mkdir()
    (here / "more" / "One.yaml").write_text(SOUND)
    assert main(["build", "recipes/one.yaml", "more/One.yaml"]) == 2
    assert "same folder" in capsys.readouterr().err
    assert not (here / "build").exists()


@pytest.mark.parametrize("command", ["build", "check"])
def test_help_has_an_example(command: str, capsys: Captured) -> None:
    with pytest.raises(SystemExit) as stopped:
        main([command, "--help"])
    assert stopped.value.code == 0
    assert f"foldproof {command} recipes/tide-gate.yaml" in capsys.readouterr().out


def test_a_build_and_then_a_build_with_errors(here: Path, capsys: Captured) -> None:
    path = write("one.yaml")
    assert main(["build", "--dated", "2026-03-01"]) == 0
    made = here / "build" / "one"
    before = {file.name: file.read_bytes() for file in made.iterdir() if file.is_file()}
    assert {"handout.pdf", "handout-a4.pdf", "page.html", "shots.pdf", "shots.csv", "card.json"} <= set(before)
    assert b"2026-03-01" in before["page.html"]
    shown = capsys.readouterr()
    assert (shown.err, "error" in shown.out.lower()) == ("", False)
    path.write_text(WRONG, encoding="utf-8")
    assert main(["build"]) == 1
    assert {file.name: file.read_bytes() for file in made.iterdir() if file.is_file()} == before
    assert "4 5/16" in capsys.readouterr().out


def test_documents_that_disagree_fail_the_build_and_leave_the_old_ones(
    here: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The printer is made to print one number wrong: the audit must see it, and nothing is placed."""
    write("one.yaml")
    assert main(["build"]) == 0
    before = {file.name: file.read_bytes() for file in (here / "build" / "one").iterdir() if file.is_file()}
    capsys.readouterr()
    monkeypatch.setattr("foldproof.documents.prose._raise", lambda match: "1/16")
    write("one.yaml", SOUND.replace("Plain card", "Plainer card"))
    assert main(["build"]) == 1
    shown = capsys.readouterr()
    assert "the finished documents disagree with the card" in shown.err
    assert shown.err.count("\n") == 1
    assert {file.name: file.read_bytes() for file in (here / "build" / "one").iterdir() if file.is_file()} == before


def test_nothing_is_spilled_by_system_libraries(here: Path, capfd: Captured) -> None:
    from foldproof.documents.hush import hushed

    with hushed():
        os.write(2, b"Fontconfig warning: something\n")
    os.write(2, b"after\n")
    assert capfd.readouterr().err == "after\n"


def test_several_at_once_the_sound_one_is_built(here: Path, capsys: Captured) -> None:
    write("good.yaml")
    write("wrong.yaml", WRONG)
    assert main(["build", "--json", "--into", "out"]) == 1
    assert json.loads(capsys.readouterr().out)
    assert (here / "out" / "good" / "handout.pdf").is_file()
    assert not (here / "out" / "wrong").exists()


@pytest.mark.parametrize(("terminal", "lines"), [
    pytest.param(True, ["1 of 2: build/good", "2 of 2: recipes/wrong.yaml not built"], id="on a terminal"),
    pytest.param(False, [], id="elsewhere"),
])
def test_progress(
    terminal: bool, lines: list[str], here: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("good.yaml")
    write("wrong.yaml", WRONG)
    monkeypatch.setattr("foldproof.build_command._each", lambda work, recipes, _: map(work, recipes))
    monkeypatch.setattr("foldproof.build_command._build", lambda task, options: Outcome(
        recipe=str(task.recipe), findings=(), sources={},
        folder=str(task.into / "good") if task.recipe.stem == "good" else None))
    monkeypatch.setattr("sys.stderr.isatty", lambda: terminal)
    main(["build"])
    assert capsys.readouterr().err.splitlines() == lines


def test_a_foreign_folder_is_refused_without_a_traceback(here: Path, capsys: Captured) -> None:
    write("one.yaml")
    (here / "build" / "one").mkdir(parents=True)
    (here / "build" / "one" / "mine.txt").write_text("mine")
    assert main(["build"]) == 1
    shown = capsys.readouterr()
    assert shown.err.startswith("foldproof: recipes/one.yaml not built: build/one is there already")
    assert shown.err.count("\n") == 1
    assert (here / "build" / "one" / "mine.txt").read_text() == "mine"


@pytest.mark.parametrize("path", BAD, ids=lambda path: path.stem)
def test_bad_input_is_told_and_outputs_stay(path: Path, here: Path, capsys: Captured) -> None:
    status = main(["build", str(path), "--into", "out"]) if path.stem != "sound" else main(["check", str(path)])
    shown = capsys.readouterr()
    assert status == (0 if path.stem == "sound" else 1), shown.out
    assert "Traceback" not in shown.out + shown.err
    assert not (here / "out").exists()
    assert status == 0 or "ERROR" in shown.out


def test_what_is_no_recipe_file(here: Path, capsys: Captured) -> None:
    assert main(["check", "missing.yaml"]) == 1
    assert "ERROR" in capsys.readouterr().out


def test_a_folder_without_recipes(here: Path, capsys: Captured) -> None:
    assert main(["check", "."]) == 2
    assert "there is no recipe" in capsys.readouterr().err


def run(arguments: list[str], path: Path) -> "subprocess.CompletedProcess[str]":
    source = Path(__file__).resolve().parent.parent / "src"
    return subprocess.run(
        [sys.executable, "-m", "foldproof", *arguments], capture_output=True, text=True, timeout=120, check=False,
        env={**os.environ, "PYTHONPATH": f"{path}{os.pathsep}{source}"})


def test_pango_missing_is_told_in_one_line(here: Path) -> None:
    """WeasyPrint raises OSError when it is imported without the system's library; a stand-in does the same."""
    write("one.yaml")
    fake = here / "fake"
    fake.mkdir()
    (fake / "weasyprint.py").write_text("raise OSError('cannot load library')\n")
    done = run(["build"], fake)
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    for system in ("apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0", "brew install pango", "MSYS2"):
        assert system in done.stderr
    assert not (here / "build" / "one").exists()


def test_check_loads_nothing_heavy(here: Path) -> None:
    write("one.yaml")
    for heavy in ("weasyprint", "matplotlib", "numpy", "scipy", "pikepdf", "jinja2", "PIL", "markdown_it", "fontTools"):
        fake = here / "fake"
        fake.mkdir(exist_ok=True)
        (fake / f"{heavy}.py").write_text(f"raise AssertionError('{heavy} is loaded')\n")
    done = run(["check"], here / "fake")
    assert (done.returncode, done.stderr) == (0, "")


def test_check_loads_only_what_a_check_needs(here: Path) -> None:
    """The stages after the checks, and the other commands, are none of its business."""
    write("one.yaml")
    source = Path(__file__).resolve().parent.parent / "src"
    told = subprocess.run(
        [sys.executable, "-c", "import sys; from foldproof.cli import main; main(['check'])\n"
         "print(*sorted(sys.modules), sep='\\n')"], check=True, capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(source)}).stdout.split()
    stages = {name.split(".")[1] for name in told if name.startswith("foldproof.")}
    assert "checks" in stages
    assert not stages & {"drawing", "recording", "mirror", "rescue", "origins", "grammar"}
    assert not {name for name in stages if name.endswith("_command")} - {"check_command"}
    assert not {"concurrent.futures.process", "multiprocessing", "foldproof.documents.view"} & set(told)


def test_the_mirrored_card_goes_into_a_folder_of_its_own_with_a_stamp_of_its_own(here: Path) -> None:
    write("one.yaml")
    assert main(["build"]) == 0
    assert main(["build", "--mirrored"]) == 0
    told = [json.loads((Path("build") / name / "card.json").read_text()) for name in ("one", "one-mirrored")]
    assert told[0]["revision"] != told[1]["revision"]
    assert told[1]["title"] == f"{told[0]['title']} (mirrored)"


def test_a_wrong_recipe_is_not_mirrored_and_its_own_findings_are_told(here: Path, capsys: Captured) -> None:
    write("one.yaml", WRONG)
    assert main(["check", "--mirrored"]) == 1
    assert "In the mirrored card" not in capsys.readouterr().out
