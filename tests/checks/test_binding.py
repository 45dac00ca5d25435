"""Laws of the binding of mentions to parameters."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise

from hypothesis import given
from hypothesis import strategies as st

from foldproof.checks.binding import Sense, bind, common_order
from foldproof.checks.known import Known
from foldproof.checks.mentions import Mention
from foldproof.checks.parameters import Parameter
from foldproof.findings.finding import Place
from foldproof.measures.quantity import Kind

PLACE = Place(file="small.yaml", line=1, column=1)
NOTHING = Known(ordered=frozenset(), either=frozenset(), lengths=frozenset())
values = st.lists(st.integers(1, 4).map(Fraction), max_size=6)


def mentions(values: Sequence[Fraction]) -> list[Mention]:
    return [
        Mention(
            passage="text",
            start=i,
            end=i + 1,
            written=str(value),
            kind=Kind.LENGTH,
            value=value,
            unit="in",
            beside=None,
            joined=False,
            before="",
            after="",
            place=PLACE,
        )
        for i, value in enumerate(values)
    ]


def parameters(values: Sequence[Fraction]) -> list[Parameter]:
    return [
        Parameter(
            action=i, what=f"distance {i}", kind=Kind.LENGTH, value=value, quantity=None, place=PLACE, needed=True
        )
        for i, value in enumerate(values)
    ]


@given(said=values, set_=values)
def test_the_common_order_is_as_long_as_any(said: list[Fraction], set_: list[Fraction]) -> None:
    found = common_order(mentions(said), parameters(set_))
    pairs = sorted(found.items())
    assert all(said[i] == set_[j] for i, j in pairs)
    assert all(a[1] < b[1] for a, b in pairwise(pairs))
    longest = max(
        size for size in range(len(said) + 1) for part in combinations(said, size) if _in_order(list(part), set_)
    )
    assert len(pairs) == longest


def _in_order(part: list[Fraction], whole: list[Fraction]) -> bool:
    rest = iter(whole)
    return all(any(value == other for other in rest) for value in part)


@given(set_=values)
def test_the_numbers_as_they_are_set_are_all_bound(set_: list[Fraction]) -> None:
    passage = bind("text", mentions(set_), parameters(set_), NOTHING)
    assert [bound.sense for bound in passage.bound] == [Sense.PARAMETER] * len(set_)
    assert [bound.parameter.action for bound in passage.bound if bound.parameter] == list(range(len(set_)))
    assert passage.unsaid == ()


@given(set_=values.filter(bool), where=st.integers(0, 5), wrong=st.sampled_from([Fraction(1, 16), Fraction(9)]))
def test_one_wrong_number_is_one_fault_and_means_the_right_one(
    set_: list[Fraction], where: int, wrong: Fraction
) -> None:
    where %= len(set_)
    said = [*set_[:where], wrong, *set_[where + 1 :]]
    passage = bind("text", mentions(said), parameters(set_), NOTHING)
    faults = [bound for bound in passage.bound if bound.sense in (Sense.UNBOUND, Sense.OUT_OF_ORDER)]
    assert [bound.mention.start for bound in faults] == [where]
    assert faults[0].parameter is not None and faults[0].parameter.value == set_[where]


@given(set_=st.permutations([Fraction(1), Fraction(2), Fraction(3), Fraction(4)]), where=st.integers(0, 2))
def test_two_neighbours_that_change_places_are_told(set_: list[Fraction], where: int) -> None:
    said = [*set_]
    said[where], said[where + 1] = said[where + 1], said[where]
    passage = bind("text", mentions(said), parameters(set_), NOTHING)
    faults = [bound for bound in passage.bound if bound.sense is Sense.OUT_OF_ORDER]
    assert len(faults) == 1 and faults[0].of is not None
    assert {faults[0].mention.value, faults[0].of.value} == {set_[where], set_[where + 1]}
