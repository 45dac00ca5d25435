"""Fewest set-ups: against every order that there is."""

from itertools import groupby, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.filming.fewest import Job, Row, fewest_setups


@st.composite
def jobs(draw: st.DrawFn, most: int = 6) -> list[Job]:
    """A few jobs in three set-ups or none, each waiting for some of those before it."""
    count = draw(st.integers(1, most))
    return [
        Job(setup=draw(st.sampled_from(("wide", "close", "front", None))),
            after=frozenset(j for j in range(i) if draw(st.integers(0, 2)) == 0))
        for i in range(count)]


def may_be(order: tuple[int, ...], found: list[Job]) -> bool:
    return all(order.index(j) < order.index(i) for i, job in enumerate(found) for j in job.after)


def setups(order: tuple[int, ...], found: list[Job]) -> int:
    return len(list(groupby(found[i].setup for i in order if found[i].setup is not None)))


@settings(max_examples=150, deadline=None)
@given(jobs())
def test_no_order_needs_fewer(found: list[Job]) -> None:
    row = fewest_setups(found)
    assert row.proved and sorted(row.jobs) == list(range(len(found))) and may_be(row.jobs, found)
    assert row.setups == setups(row.jobs, found)
    assert row.setups == min(
        setups(order, found) for order in permutations(range(len(found))) if may_be(order, found))


@given(jobs(most=12))
def test_beyond_the_limit_it_says_so_and_still_gives_an_order(found: list[Job]) -> None:
    row = fewest_setups(found, most_sets=0)
    assert may_be(row.jobs, found) and row.setups == setups(row.jobs, found) >= fewest_setups(found).setups
    assert row.proved == (row.setups == 0)


def test_the_set_up_with_most_jobs_is_not_always_the_best() -> None:
    """Close first frees a second wide job; wide first needs wide twice."""
    free: frozenset[int] = frozenset()
    found = [
        Job(setup="wide", after=free), Job(setup="wide", after=free), Job(setup="close", after=free),
        Job(setup="wide", after=frozenset({2}))]
    assert fewest_setups(found) == Row(jobs=(2, 0, 1, 3), setups=2, proved=True)


@pytest.mark.parametrize("count", [40])
def test_a_long_film_of_many_loose_pieces_is_quick(count: int) -> None:
    """Forty steps of four pieces that have nothing to do with each other until the last."""
    kinds = ("wide", "work", "close")
    found = [
        Job(setup=kinds[i * 7 % 3], after=frozenset({i - 4}) if i >= 4 else frozenset()) for i in range(count)]
    row = fewest_setups([*found, Job(setup="front", after=frozenset(range(count)))])
    assert row.proved and row.jobs[-1] == count
