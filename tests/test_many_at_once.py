"""Many recipes are shared among processes: in what order, to what end, and by what is done last."""

import os
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import Future
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from foldproof.build_command import Task, _each, build_all
from foldproof.options import Options
from foldproof.shell import Outcome

SOUND = Path(__file__).parent / "bad_input" / "sound.yaml"

MANY = """
from operator import attrgetter
from pathlib import Path
from foldproof.build_command import Task, _each, _workers

if __name__ == "__main__":
    tasks = [Task(recipe=Path(str(number)), into=Path("x")) for number in range(250)]
    with _workers(2) as pool:
        print(*_each(attrgetter("recipe"), tasks, pool))
"""


def test_no_number_of_recipes_comes_to_a_standstill(tmp_path: Path) -> None:
    """Processes that gave way to fresh ones after forty recipes stood still for ever at the eightieth."""
    (tmp_path / "many.py").write_text(MANY)
    done = subprocess.run(
        [sys.executable, str(tmp_path / "many.py")], check=True, capture_output=True, text=True, timeout=60)
    assert done.stdout.split() == [str(number) for number in range(250)]


class _Noted:
    """A pool that does at once what it is given, and notes the order."""

    def __init__(self) -> None:
        self.given: list[str] = []

    def submit(self, work: Callable[[Task], Any], task: Task) -> "Future[Any]":
        self.given.append(task.recipe.name)
        future: Future[Any] = Future()
        future.set_result(work(task))
        return future


def test_the_longest_is_begun_first(tmp_path: Path) -> None:
    for name, size in (("a", 5), ("b", 50), ("c", 20)):
        (tmp_path / name).write_bytes(bytes(size))
    tasks = [Task(recipe=tmp_path / name, into=tmp_path) for name in ("a", "b", "gone", "c")]
    pool = _Noted()
    outcomes = _each(
        lambda task: Outcome(recipe=task.recipe.name, findings=(), sources={}), tasks, pool)  # type: ignore[arg-type]
    assert [outcome.recipe for outcome in outcomes] == ["a", "b", "gone", "c"]
    assert pool.given == ["b", "c", "a", "gone"]


@pytest.mark.parametrize("count", [1, 2])
def test_what_is_done_last_sees_every_set(count: int, tmp_path: Path) -> None:
    """In this process or in another one: it lists what stands in the output folder."""
    recipes = [tmp_path / f"card-{number}.yaml" for number in range(count)]
    for recipe in recipes:
        recipe.write_bytes(SOUND.read_bytes())
    tasks = [Task(recipe=recipe, into=tmp_path / "build") for recipe in recipes]
    _, said = build_all(tasks, Options(), anew=False, last=partial(os.listdir, tmp_path / "build"))  # type: ignore[arg-type]
    assert set(said) == {".sets", *(recipe.stem for recipe in recipes)}
