"""Outputs swap in whole: a set is there as it was or as it shall be, whatever happens, wherever a build dies."""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from foldproof.documents.lock import LockedError, held
from foldproof.documents.placing import ASIDE, CONTENTS, place
from foldproof.documents.trouble import PlacingError

OLD = {"page.html": b"old page", "pictures/a.svg": b"old a", "pictures/gone.svg": b"old only"}
NEW = {"page.html": b"new page", "pictures/a.svg": b"new a", "card.json": b"{}"}

both_ways = pytest.mark.parametrize("links", [pytest.param(True, id="links"), pytest.param(False, id="journal")])


def found(folder: Path) -> dict[str, bytes]:
    """The files of a set, without its list."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*") if path.is_file() and path.name != CONTENTS
    }


def aside(into: Path) -> set[str]:
    """What lies in the hidden folder, but for the lock."""
    return {path.name for path in (into / ASIDE).iterdir()} - {"lock"}


@both_ways
def test_a_set_replaces_the_one_before_it_whole(tmp_path: Path, links: bool) -> None:
    assert place(OLD, tmp_path / "build", "card", links=links) == tmp_path / "build" / "card"
    place({"page.html": b"other"}, tmp_path / "build", "other", links=links)
    place(NEW, tmp_path / "build", "card", links=links)
    assert found(tmp_path / "build" / "card") == NEW
    assert found(tmp_path / "build" / "other") == {"page.html": b"other"}
    assert len(aside(tmp_path / "build")) == (2 if links else 0), "the older set is gone"


def test_a_set_of_real_folders_can_become_links_and_back(tmp_path: Path) -> None:
    for links, files in ((False, OLD), (True, NEW), (True, OLD), (False, NEW)):
        place(files, tmp_path, "card", links=links)
        assert found(tmp_path / "card") == files


@pytest.mark.parametrize("make", [
    pytest.param(lambda path: path.mkdir(), id="a folder"),
    pytest.param(lambda path: path.write_text("mine"), id="a file"),
    pytest.param(lambda path: path.symlink_to("elsewhere"), id="a link elsewhere"),
])
def test_what_we_did_not_make_is_refused(tmp_path: Path, make: object) -> None:
    make(tmp_path / "card")  # type: ignore[operator]
    before = os.lstat(tmp_path / "card")
    with pytest.raises(PlacingError, match="not an output of Foldproof"):
        place(NEW, tmp_path, "card")
    assert os.lstat(tmp_path / "card") == before
    assert aside(tmp_path) == set()


@pytest.mark.parametrize("name", [
    pytest.param(name, id=repr(name)[:20]) for name in (
        "", ".", "..", ".sets", ".hidden", "-rf", "a/b", "../up", "/top", "a\\b", "a\nb", "a\x1b[2Jb", "a\u202eb",
        "index.html", "con", "LPT1.card", "card.", "card ", "x" * 151, "\ud800")])
def test_a_name_that_is_no_folder_s(tmp_path: Path, name: str) -> None:
    with pytest.raises(PlacingError, match="no folder can be named"):
        place(NEW, tmp_path / "build", name)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["a b#c%20&d\"e", "<b>", "Kärtchen", "it's", "x" * 150, "100%", "$(touch x)", "=1+1"])
def test_an_odd_name_that_is_one(tmp_path: Path, name: str) -> None:
    place(OLD, tmp_path, name)
    place(NEW, tmp_path, name)
    assert found(tmp_path / name) == NEW
    assert {path.name for path in tmp_path.iterdir()} == {ASIDE, name}


@both_ways
def test_a_file_that_somebody_put_into_a_set_is_never_deleted(tmp_path: Path, links: bool) -> None:
    place(OLD, tmp_path, "card", links=links)
    (tmp_path / "card" / "my notes.txt").write_text("mine")
    place(NEW, tmp_path, "card", links=links)
    place(NEW, tmp_path, "card", links=links)
    assert [path.read_text() for path in (tmp_path / ASIDE).rglob("my notes.txt")] == ["mine"]
    assert found(tmp_path / "card") == NEW


def test_a_list_from_a_stranger_cannot_delete_outside_its_set(tmp_path: Path) -> None:
    (tmp_path / "precious").mkdir()
    (tmp_path / "precious" / "work").write_text("mine")
    bad = tmp_path / "build" / ASIDE / "bad-1"
    bad.mkdir(parents=True)
    (bad / "inside").symlink_to(tmp_path / "precious")
    (bad / CONTENTS).write_text(json.dumps(["../../../precious/work", str(tmp_path / "precious/work"), "inside/work"]))
    place(NEW, tmp_path / "build", "card")
    assert (tmp_path / "precious" / "work").read_text() == "mine"


@both_ways
def test_a_failure_in_the_middle_leaves_the_old_set(
    tmp_path: Path, links: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    place(OLD, tmp_path, "card", links=links)
    write = Path.write_bytes

    def full(path: Path, data: bytes) -> int:
        if path.name == "card.json":
            raise OSError(28, "No space left on device")
        return write(path, data)

    with monkeypatch.context() as patch:
        patch.setattr(Path, "write_bytes", full)
        with pytest.raises(PlacingError, match="No space left on device"):
            place(NEW, tmp_path, "card", links=links)
    assert found(tmp_path / "card") == OLD
    place(NEW, tmp_path, "card", links=links)
    assert found(tmp_path / "card") == NEW
    assert len(aside(tmp_path)) == (1 if links else 0)


def test_a_file_where_the_output_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "build").write_text("mine")
    with pytest.raises(PlacingError, match="cannot write"):
        place(NEW, tmp_path / "build", "card")


KILLER = """
import os, signal, sys
from pathlib import Path
from foldproof.documents.placing import place

OLD, NEW, links = {old!r}, {new!r}, {links!r}
TOUCHES = {{"open", "os.mkdir", "os.rename", "os.symlink", "os.remove", "os.rmdir", "os.listdir", "os.scandir"}}
root, into = Path({into!r}), None
left, armed = 0, False

def hook(event, arguments):
    global left
    if armed and event in TOUCHES:
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)

sys.addaudithook(hook)
count = 0
while True:
    into = root / str(count)
    place(OLD, into, "card", links=links)
    child = os.fork()
    if not child:
        left, armed = count, True
        place(NEW, into, "card", links=links)
        os._exit(0)
    if os.waitpid(child, 0)[1] == 0:
        break
    count += 1
print(count)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="needs fork and SIGKILL")
@both_ways
def test_killed_at_every_point_the_set_is_old_or_new_and_the_next_run_mends(tmp_path: Path, links: bool) -> None:
    """A child is killed (SIGKILL) before its 1st, 2nd, ... touch of the disk, until one lives to the end."""
    script = KILLER.format(old=OLD, new=NEW, links=links, into=str(tmp_path))
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60)
    count = int(run.stdout)
    assert count > 15
    states = []
    for number in range(count):
        into = tmp_path / str(number)
        if links:
            states.append(found(into / "card"))
            assert states[-1] in (OLD, NEW)
        place({"page.html": b"other"}, into, "other", links=links)
        assert found(into / "card") in (OLD, NEW), f"killed before touch {number}"
        place(NEW, into, "card", links=links)
        assert found(into / "card") == NEW
        assert len(aside(into)) == (2 if links else 0), "leftovers are swept"
    if links:
        assert states == sorted(states, key=lambda state: state == NEW), "one switch, and no way back"
        assert OLD in states
        assert NEW in states


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() != 0, reason="needs root to become nobody")
def test_a_folder_that_may_not_be_written(tmp_path: Path) -> None:
    into = tmp_path / "build"
    place(OLD, into, "card")
    script = f"""
import os
from pathlib import Path
from foldproof.documents.placing import place
from foldproof.documents.trouble import PlacingError
os.setuid(65534)
try:
    place({NEW!r}, Path({str(into)!r}), "card")
except PlacingError as error:
    print(error)
"""
    for folder in (tmp_path, *tmp_path.parents):
        if folder.stat().st_mode & 0o005 != 0o005 and folder != Path("/tmp"):
            folder.chmod(folder.stat().st_mode | 0o005)
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60)
    assert "Permission denied" in run.stdout
    assert found(into / "card") == OLD


def test_two_builds_at_once_do_not_mix(tmp_path: Path) -> None:
    script = f"""
import sys
from pathlib import Path
from foldproof.documents.placing import place
for number in range(30):
    place({{f"{{name}}.txt": sys.argv[1].encode() for name in "abcdef"}}, Path({str(tmp_path)!r}), "card")
"""
    builds = [subprocess.Popen([sys.executable, "-c", script, word]) for word in ("one", "two")]
    until = time.monotonic() + 60
    while any(build.poll() is None for build in builds):
        assert time.monotonic() < until
        time.sleep(0.005)
    assert [build.returncode for build in builds] == [0, 0]
    assert set(found(tmp_path / "card").values()) in ({b"one"}, {b"two"})
    assert len(found(tmp_path / "card")) == 6
    assert len(aside(tmp_path)) == 1


def test_a_lock_that_is_held_is_given_up_in_the_end(tmp_path: Path) -> None:
    with held(tmp_path / "lock"), pytest.raises(LockedError, match="another build"), held(tmp_path / "lock", 0.05):
        pass
    with held(tmp_path / "lock", 0.05):
        pass
