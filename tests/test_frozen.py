"""Records made quickly behave like the standard's frozen dataclasses."""

import copy
import dataclasses
import pickle
from dataclasses import FrozenInstanceError, field, fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.frozen import dataclass as quick


def _family(dataclass: Any) -> dict[str, Any]:
    """The same classes, made by the one decorator or the other."""

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Base:
        """One field without a default."""

        place: str

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Named(Base):
        """Inherits, has defaults and a list made anew."""

        size: int = 3
        parts: list[int] = field(default_factory=list)

        @property
        def twice(self) -> int:
            """Something reckoned."""
            return 2 * self.size

    @dataclass(frozen=True, slots=True)
    class Pair:
        """By position."""

        x: int
        y: int = 0

    @dataclass(frozen=True, slots=True)
    class Alone:
        """One field."""

        x: Any

    @dataclass(frozen=True, slots=True)
    class Empty:
        """None."""

    @dataclass(frozen=True, slots=True)
    class Odd:
        """Its own ideas, and a check of what it is given."""

        x: int

        def __post_init__(self) -> None:
            if self.x < 0:
                raise ValueError("less than nothing")

        def __eq__(self, other: object) -> bool:
            return True

        def __hash__(self) -> int:
            return 7

        def __repr__(self) -> str:
            return "odd"

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Aside:
        """A field that makes no difference."""

        x: int
        y: list[int] = field(default_factory=list, compare=False)

    return {"Aside": Aside, "Base": Base, "Named": Named, "Pair": Pair, "Alone": Alone, "Empty": Empty, "Odd": Odd}


OURS, STANDARD = _family(quick), _family(dataclasses.dataclass)


@quick(frozen=True, slots=True, kw_only=True)
class Kept:
    """Stands in a module, so that it can be pickled."""

    what: str
    more: tuple[int, ...] = ()


CALLS = [
    ("Base", (), {"place": "here"}), ("Base", ("here",), {}), ("Base", (), {}),
    ("Base", (), {"place": "a", "other": 1}),
    ("Named", (), {"place": "here"}), ("Named", (), {"place": "here", "size": 4, "parts": [1]}),
    ("Pair", (1,), {}), ("Pair", (1, 2), {}), ("Pair", (), {"y": 2}), ("Pair", (1, 2, 3), {}), ("Pair", (1,), {"x": 1}),
    ("Alone", ((1, 2),), {}), ("Empty", (), {}), ("Empty", (1,), {}), ("Odd", (1,), {}), ("Odd", (-1,), {}),
]


def _called(family: dict[str, Any], name: str, given: tuple[Any, ...], named: dict[str, Any]) -> tuple[str, Any]:
    for _ in range(2):  # the first record of a class is made another way than the second
        try:
            made = family[name](*given, **named)
        except (TypeError, ValueError) as error:
            return type(error).__name__, str(error)
    return "made", [getattr(made, one.name) for one in fields(made)]


@pytest.mark.parametrize(("name", "given", "named"), CALLS, ids=str)
def test_it_is_made_and_refused_alike(name: str, given: tuple[Any, ...], named: dict[str, Any]) -> None:
    assert _called(OURS, name, given, named) == _called(STANDARD, name, given, named)
    assert _called(_family(quick), name, given, named) == _called(STANDARD, name, given, named)


@pytest.mark.parametrize("name", OURS)
def test_the_class_is_alike(name: str) -> None:
    ours, standard = OURS[name], STANDARD[name]
    for what in ("__slots__", "__match_args__", "__qualname__", "__doc__", "__module__"):
        assert getattr(ours, what) == getattr(standard, what), what
    assert [(one.name, one.type, one.kw_only) for one in fields(ours)] == [
        (one.name, one.type, one.kw_only) for one in fields(standard)]
    assert dataclasses.is_dataclass(ours)


@given(st.integers(), st.integers(), st.integers(), st.integers())
def test_equality_hash_and_text_are_alike(a: int, b: int, c: int, d: int) -> None:
    ours, others = OURS["Pair"](a, b), OURS["Pair"](c, d)
    as_standard = STANDARD["Pair"](a, b)
    assert (ours == others) is ((a, b) == (c, d))
    assert hash(ours) == hash(as_standard)
    assert repr(ours) == repr(as_standard)
    assert ours != as_standard
    assert OURS["Alone"](a) != OURS["Pair"](a)
    assert hash(OURS["Alone"](a)) == hash(STANDARD["Alone"](a))


@pytest.mark.parametrize("family", [OURS, STANDARD], ids=["ours", "standard"])
def test_a_field_may_make_no_difference(family: dict[str, Any]) -> None:
    one, other = family["Aside"](x=1, y=[1]), family["Aside"](x=1, y=[2])
    assert one == other and hash(one) == hash(other) and one != family["Aside"](x=2, y=[1])


def test_nothing_in_it_can_be_changed() -> None:
    pair = OURS["Pair"](1, 2)
    with pytest.raises(FrozenInstanceError):
        pair.x = 2
    with pytest.raises(FrozenInstanceError):
        del pair.x
    with pytest.raises((AttributeError, TypeError)):
        pair.z = 1
    assert not hasattr(pair, "__dict__")


def test_another_of_its_kind_by_replace_copy_and_pickle() -> None:
    kept = Kept(what="a", more=(1, 2))
    assert replace(kept, what="b") == Kept(what="b", more=(1, 2))
    assert copy.deepcopy(kept) == kept
    assert pickle.loads(pickle.dumps(kept)) == kept
    assert dataclasses.asdict(kept) == {"what": "a", "more": (1, 2)}


def test_each_has_a_list_of_its_own() -> None:
    one, other = OURS["Named"](place="a"), OURS["Named"](place="b")
    one.parts.append(1)
    assert (other.parts, one.twice) == ([], 6)
    with pytest.raises(ValueError, match="mutable default"):
        @quick(frozen=True, slots=True)
        class _Wrong:
            parts: list[int] = []  # noqa: RUF012


def test_its_own_functions_stay() -> None:
    assert (OURS["Odd"](1) == 5, hash(OURS["Odd"](1)), repr(OURS["Odd"](1))) == (True, 7, "odd")
