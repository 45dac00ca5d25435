"""The filming order of a real card: every order of its shots tried on the virtual table."""

from itertools import combinations, groupby, permutations
from pathlib import Path

import pytest
from film_recipe import small_film

from foldproof.filming.ordering import sequence
from foldproof.filming.plan import plan_film, shots_of
from foldproof.filming.replay import faults_of
from foldproof.filming.tasks import Split, Task, split_at, tasks_of
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.pipeline import prove

RECIPES = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))


def tasks(card: Card, making: Making) -> tuple[Task, ...]:
    shots = shots_of(card, making)
    return tasks_of(card, making, shots, {shot.key: f"{shot.overhead} {shot.frame.width}" for shot in shots})


def setups(order: tuple[int, ...], found: tuple[Task, ...]) -> int:
    return len(list(groupby(found[i].setup for i in order if found[i].setup is not None)))


FILMS = [
    pytest.param({}, id="as usual"),
    pytest.param({"stamp": "overhead wide", "score": "overhead close"}, id="two set-ups cross"),
    pytest.param({"cut_mat": "off camera"}, id="the mat is cut off camera"),
    pytest.param({"glue": "[{actions: 1, framing: overhead}, {framing: overhead close}]"}, id="a step in two shots"),
    pytest.param({"filming": "{beauty: {pose: closed, when: start}}"}, id="the film starts with the finished card"),
    pytest.param({"stamp": "[{framing: overhead}, {of: cut-the-base, framing: overhead wide}]"}, id="a look back"),
]


@pytest.mark.parametrize("changes", FILMS)
def test_no_order_that_can_be_filmed_needs_fewer_set_ups(changes: dict[str, str]) -> None:
    card, making = small_film(**changes)
    found = tasks(card, making)
    can = [order for order in permutations(range(len(found))) if not faults_of(card, found, order)]
    plan = plan_film(card, making)
    assert plan.order.changes == min(setups(order, found) for order in can)
    assert tuple(found.index(task) for task in found) in can, "story order, by the making, can be filmed"


@pytest.mark.parametrize("changes", FILMS[:2])
def test_a_duplicate_is_placed_where_it_saves_most(changes: dict[str, str]) -> None:
    card, making = small_film(**changes, filming="{duplicates: 1}")
    found = tasks(card, making)
    places = [split for i in range(len(found)) if (split := split_at(found, i))]
    least = min(
        setups(order, found)
        for count in (0, 1) for splits in combinations(places, count)
        for order in permutations(range(len(found))) if not faults_of(card, found, order, splits))
    assert plan_film(card, making).order.changes == least


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_the_demo_films_can_be_filmed(path: Path) -> None:
    proof = prove(path)
    assert proof.card is not None and proof.making is not None
    plan = plan_film(proof.card, proof.making)
    found = tasks(proof.card, proof.making)
    keys = {task.key: i for i, task in enumerate(found)}
    splits = [split for one in plan.order.duplicates if (split := split_at(found, keys[one.shot]))]
    assert faults_of(proof.card, found, sequence(found, splits).jobs, splits) == ()
    assert sorted(plan.order.shots) == sorted(shot.key for shot in plan.shots)
    assert plan.order.fewest
    story = 1 + sum(a.setup != b.setup for a, b in zip(plan.shots, plan.shots[1:], strict=False))
    assert plan.order.changes <= story


def fault(card: Card, found: tuple[Task, ...], order: tuple[int, ...], splits: tuple[Split, ...] = ()) -> str:
    return "; ".join(faults_of(card, found, order, splits))


def test_the_table_says_why_an_order_cannot_be_filmed() -> None:
    card, making = small_film()
    found = tasks(card, making)
    assert [task.key for task in found] == [
        "1.cut-the-base", "2.score-the-base", "3.cut-the-mat", "4.stamp-the-mat", "5.fold-and-glue"]
    assert "2.score-the-base: the base is not there yet" in fault(card, found, (1, 0, 2, 3, 4))
    assert "4.stamp-the-mat: the mat is not as the story has it" in fault(card, found, (0, 1, 2, 4, 3))
    assert "it is not in the order" in fault(card, found, (0, 1, 2, 3))


def test_a_sheet_that_is_cut_is_not_whole_again() -> None:
    """A look at the base before it is scored cannot be filmed after it is scored, but on a duplicate it can."""
    card, making = small_film(score="[{actions: 0, framing: overhead close}, {framing: overhead}]")
    found = tasks(card, making)
    look, score = (next(i for i, task in enumerate(found) if task.key == f"2.score-the-base.{c}") for c in "ab")
    order = tuple(sorted(range(len(found)), key=lambda i: (i == look, i)))
    assert "2.score-the-base.a: the base is not as the story has it" in fault(card, found, order)
    split = split_at(found, score)
    assert split is not None
    whole = (0, score, look, *(i for i in range(len(found)) if i not in (0, look, score)))
    assert fault(card, found, whole, (split,)) == ""


def test_what_a_note_says_is_held_too() -> None:
    """No table knows a pencil cross, but what came after it does not come before it."""
    proof = prove(RECIPES[[path.stem for path in RECIPES].index("tide-gate")])
    assert proof.card is not None and proof.making is not None
    found = tasks(proof.card, proof.making)
    *order, last, beauty = range(len(found))
    assert [found[i].key for i in (last, beauty)] == ["9.check-the-card-and-slide-it-into-its-envelope", "start.1"]
    assert fault(proof.card, found, (*order, last, beauty)) == ""
    assert "start.1: the base is not as the story has it" in fault(proof.card, found, (*order, beauty, last))


def test_a_sharp_fold_leaves_a_trace_the_first_time() -> None:
    """A look at the base that was never folded comes before its fold, though the fold can be opened again."""
    card, making = small_film(
        glue="[{actions: 0, framing: overhead wide}, {actions: 1, framing: overhead}, {framing: overhead close}]")
    found = tasks(card, making)
    look, fold = (next(i for i, task in enumerate(found) if task.key == f"5.fold-and-glue.{c}") for c in "ab")
    assert (look, fold) == (4, 5)
    assert fault(card, found, (0, 1, 2, 3, 4, 5, 6)) == ""
    assert "5.fold-and-glue.a: the base is not as the story has it" in fault(card, found, (0, 1, 2, 3, 5, 4, 6))
