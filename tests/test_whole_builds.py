"""A build that is killed, or runs out of disk, leaves the old set or the new; and no command writes to a recipe."""

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from foldproof.cli import main

SOUND = (Path(__file__).parent / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs fork, SIGKILL and limits of a process")

BUILDS = """
import os, resource, shutil, signal, sys
from pathlib import Path
import foldproof.documents.fonts
import foldproof.pipeline
from foldproof.cli import main

recipe, into, when = sys.argv[1:]
TOUCHES = {"open", "os.mkdir", "os.rename", "os.symlink", "os.remove", "os.rmdir"}
armed, left = False, 0

def small(proof, *others):
    \"\"\"A set that is quickly made: what it holds is the card's title, 40 kB of it a file.\"\"\"
    word = str(proof.card.recipe.title).encode()
    return {name: word * (40_000 // len(word)) for name in ("page.html", "card.json", "pictures/a.svg", "handout.pdf")}

def hook(event, arguments):
    global left
    if armed and event in TOUCHES and str(arguments[0]).startswith(into):
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

foldproof.pipeline.documents = small
foldproof.documents.fonts.page_face_rules = lambda: ""
main(["check", recipe])
sys.addaudithook(hook)
if when == "bounded":
    resource.setrlimit(resource.RLIMIT_FSIZE, (30_000, 30_000))
if when != "each":
    sys.exit(main(["build", "--all", recipe, "--into", into]))
count = 0
root = into
new = str(Path(recipe).with_name("new") / "card.yaml")
main(["build", "--all", recipe, "--into", f"{root}/first"])
while True:
    into = f"{root}/{count}"
    shutil.copytree(f"{root}/first", into, symlinks=True)
    child = os.fork()
    if not child:
        armed, left = True, count
        main(["build", "--all", new, "--into", into])
        os._exit(0)
    if os.waitpid(child, 0)[1] == 0:
        break
    count += 1
print(count, file=sys.stderr)
"""


def _run(recipe: Path, into: Path, when: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-c", BUILDS, str(recipe), str(into), when], capture_output=True, text=True,
        check=False, timeout=300)


def _set(folder: Path) -> Mapping[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()[:9] for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.startswith(".")}


@pytest.fixture
def recipes(tmp_path: Path) -> Path:
    """A card, and the same with another title in a folder beside it."""
    (tmp_path / "new").mkdir()
    (tmp_path / "card.yaml").write_text(SOUND.replace("title: ", "title: The first "))
    (tmp_path / "new" / "card.yaml").write_text(SOUND.replace("title: ", "title: The other "))
    return tmp_path


OLD, NEW = b"The first", b"The other"
NAMES = ("card.json", "handout.pdf", "page.html", "pictures/a.svg")


def test_a_build_killed_at_any_touch_of_its_folder(recipes: Path, tmp_path: Path) -> None:
    """The command itself, but for quickly made documents, is killed (SIGKILL) before its 1st, 2nd, ... touch."""
    done = _run(recipes / "card.yaml", tmp_path / "out", "each")
    assert done.returncode == 0, done.stderr
    count = int(done.stderr.strip().rpartition("\n")[2])
    assert count > 20
    states = [_set(tmp_path / "out" / str(number) / "card") for number in range(count + 1)]
    old, new = dict.fromkeys(NAMES, OLD), dict.fromkeys(NAMES, NEW)
    assert states == sorted(states, key=lambda state: state == new), "one switch, and no way back"
    assert [state for state in states if state not in (old, new)] == []
    assert states[0] == old and states[-1] == new
    mended = _run(recipes / "new" / "card.yaml", tmp_path / "out" / "5", "once")
    assert (mended.returncode, _set(tmp_path / "out" / "5" / "card")) == (0, new)
    assert len([path for path in (tmp_path / "out" / "5" / ".sets").iterdir() if path.name != "lock"]) == 1


def test_files_that_may_not_grow(recipes: Path, tmp_path: Path) -> None:
    """Each write fails half-way, as on a full disk (RLIMIT_FSIZE, setrlimit(2))."""
    assert _run(recipes / "card.yaml", tmp_path / "out", "once").returncode == 0
    done = _run(recipes / "new" / "card.yaml", tmp_path / "out", "bounded")
    assert done.returncode == 1
    assert "cannot write" in done.stderr and "Traceback" not in done.stderr
    assert _set(tmp_path / "out" / "card") == dict.fromkeys(NAMES, OLD)


def test_a_disk_that_is_full(recipes: Path, tmp_path: Path) -> None:
    """A disk of its own in memory, room for one set and a half."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=400k", "tmpfs", str(disk)]
    may = bool(shutil.which("mount")) and os.geteuid() == 0
    if not may or subprocess.run(mount, capture_output=True, check=False).returncode:
        pytest.skip("only root can mount a small disk, and not everywhere")
    try:
        assert _run(recipes / "card.yaml", disk / "out", "once").returncode == 0
        (disk / "filler").write_bytes(bytes(100_000))
        done = _run(recipes / "new" / "card.yaml", disk / "out", "once")
        assert done.returncode == 1
        assert "No space left on device" in done.stderr and "Traceback" not in done.stderr
        assert _set(disk / "out" / "card") == dict.fromkeys(NAMES, OLD)
        (disk / "filler").unlink()
        assert _run(recipes / "new" / "card.yaml", disk / "out", "once").returncode == 0
        assert _set(disk / "out" / "card") == dict.fromkeys(NAMES, NEW)
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def _as_it_is(folder: Path) -> Mapping[str, tuple[int, int, bytes]]:
    return {
        str(path.relative_to(folder)): (
            path.stat().st_mtime_ns, path.stat().st_mode, path.read_bytes() if path.is_file() else b"")
        for path in (folder, *sorted(folder.rglob("*")))}


@pytest.mark.parametrize("call", [
    ["check"], ["check", "--directions"], ["check", "--mirrored"], ["check", "--measures", "both"],
    ["number", "RECIPE", "4 1/4"], ["rescue", "RECIPE", "1", "4 1/4", "4"], ["film", "RECIPE"], ["draft", "NOTES"],
    ["compare", "RECIPE", "RECIPE"], ["resize", "RECIPE", "A7", "--as", "a7.yaml"], ["ruler", "RECIPE"],
    ["grammar"], ["begin", "gate", "A2", "--as", "gate.yaml"], ["build", "RECIPE"],
], ids=" ".join)
def test_no_command_writes_to_a_recipe(
    call: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:
    """Neither into it nor beside it: bytes, times and rights of all that lies in its folder stay as they are."""
    own = tmp_path / "recipes"
    own.mkdir()
    (own / "card.yaml").write_text(SOUND)
    (own / "card.yaml").chmod(0o640)
    (own / "notes.txt").write_text("Cut the card 8 1/2 x 5 1/2. Score at 4 1/4.\n")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("foldproof.pipeline.documents", lambda *_: {"page.html": b"x", "card.json": b"{}"})
    before = _as_it_is(own)
    places = {"RECIPE": "recipes/card.yaml", "NOTES": "recipes/notes.txt"}
    main([places.get(word, word) for word in call])
    assert "Traceback" not in capsys.readouterr().err
    assert _as_it_is(own) == before
