from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.findings.finding import Finding, Place
from foldproof.measures.named import Entry, resolve_measures
from foldproof.measures.quantity import Kind, Quantity, Unit


def entries(text: str) -> list[Entry]:
    """Read `name: text` lines as the recipe's reader would place them."""
    found = []
    for number, line in enumerate(text.strip().splitlines(), start=1):
        name, _, value = line.strip().partition(": ")
        found.append(
            (
                name,
                Place(file="m.yaml", line=number, column=1, length=len(name)),
                value,
                Place(file="m.yaml", line=number, column=len(name) + 3, length=len(value)),
            )
        )
    return found


def resolve(text: str, unit: Unit = Unit.INCH) -> tuple[dict[str, Quantity], tuple[Finding, ...]]:
    return resolve_measures(entries(text), unit)


def test_measures_may_lean_on_later_ones() -> None:
    read, findings = resolve("""
        mat: door - 2 * border
        door: width / 2
        width: 4 1/4
        border: 1/8
    """)
    assert findings == ()
    assert list(read) == ["mat", "door", "width", "border"]
    assert read["mat"].value == Fraction(15, 8)
    assert read["mat"].names == ("door", "border")
    assert (read["width"].names, read["width"].kind) == ((), Kind.LENGTH)


def test_every_order_gives_the_same_values() -> None:
    lines = ["a: b + 1 in", "b: 2 * c", "c: 1/8", "d: a - c"]
    for order in permutations(lines):
        read, findings = resolve("\n".join(order))
        assert findings == ()
        assert {name: found.value for name, found in read.items()} == {
            "a": Fraction(5, 4),
            "b": Fraction(1, 4),
            "c": Fraction(1, 8),
            "d": Fraction(9, 8),
        }


def test_a_ring_is_shown_once_from_the_one_written_first() -> None:
    read, findings = resolve("""
        free: 2
        b: c + 1 in
        c: 2 * a
        a: b
        leans: c / 2
    """)
    assert list(read) == ["free"]
    assert [f.name for f in findings] == ["measures in a ring"]
    assert findings[0].message.endswith("b -> c -> a -> b.")
    assert findings[0].place == Place(file="m.yaml", line=2, column=4, length=8)
    assert [aside.place.line for aside in findings[0].asides if aside.place] == [3, 4]


def test_a_measure_of_itself() -> None:
    read, findings = resolve("a: a + 1 in")
    assert (read, [f.message for f in findings]) == ({}, ["`a` is reckoned from itself."])


def test_two_rings_are_two_findings() -> None:
    _, findings = resolve("a: b\nb: a\nc: d\nd: c")
    assert [f.message.partition(": ")[2] for f in findings] == ["a -> b -> a.", "c -> d -> c."]


def test_an_unreadable_measure_does_not_cascade() -> None:
    read, findings = resolve("""
        width: 4,25
        door: width / 2
        mat: door - border
        border: 1/8
    """)
    assert list(read) == ["border"]
    assert [f.name for f in findings] == ["comma in a number"]


def test_every_fault_is_found_in_one_run() -> None:
    read, findings = resolve("""
        a: 1,5
        b: widht
        c: 2 in * 2 in
        d: 3
    """)
    assert list(read) == ["d"]
    assert [f.name for f in findings] == ["comma in a number", "unknown measure", "length times length"]


def test_a_name_given_twice() -> None:
    read, findings = resolve("width: 4\nwidth: 5")
    assert read["width"].value == 4
    assert [f.name for f in findings] == ["measure named twice"]
    assert findings[0].place == Place(file="m.yaml", line=2, column=1, length=5)
    assert findings[0].asides[0].place == Place(file="m.yaml", line=1, column=1, length=5)


@pytest.mark.parametrize("name", ["in", "mm", "2nd door", "a + b", "width*", "a  b", "-x", "door/2"])
def test_names_that_sums_could_not_be_told_from(name: str) -> None:
    here = Place(file="m.yaml", line=1, column=1)
    read, findings = resolve_measures([(name, here, "2", here), ("x", here, f"2 * {name}", here)], Unit.INCH)
    assert name not in read
    assert findings[0].name == "name of a measure not usable"


@pytest.mark.parametrize("name", ["band width", "door 2", "left-hand mat", "Höhe", "w", "h", "child's mat", "mat_2"])
def test_names_that_may_be_used(name: str) -> None:
    read, findings = resolve(f"{name}: 2\nother: {name} - 1/2 in")
    assert findings == ()
    assert read["other"].value == Fraction(3, 2)
    assert read["other"].names == (name,)


def test_other_kinds_may_be_named() -> None:
    read, findings = resolve("lean: 60 degrees\nratio: a / b\na: 3\nb: 2\ndry: 5 min")
    assert findings == ()
    assert [(read[n].kind, read[n].value) for n in ("lean", "ratio", "dry")] == [
        (Kind.ANGLE, 60),
        (Kind.NUMBER, Fraction(3, 2)),
        (Kind.TIME, 300),
    ]


def test_a_long_chain_is_no_ring_and_no_depth() -> None:
    lines = [f"m{n}: m{n + 1}" for n in range(500)] + ["m500: 3"]
    read, findings = resolve("\n".join(lines))
    assert findings == ()
    assert read["m0"].value == 3


graphs = st.dictionaries(st.sampled_from("abcdefg"), st.lists(st.sampled_from("abcdefg"), max_size=3), min_size=1)


@given(graph=graphs)
def test_any_web_of_measures_comes_to_an_end(graph: dict[str, list[str]]) -> None:
    text = "\n".join(f"{name}: {' + '.join([*others, '1 in'])}" for name, others in graph.items())
    read, findings = resolve(text)
    missing = {other for others in graph.values() for other in others} - graph.keys()

    def sound(name: str, above: tuple[str, ...] = ()) -> bool:
        return name not in missing and name not in above and all(sound(o, (*above, name)) for o in graph[name])

    assert set(read) == {name for name in graph if sound(name)}
    assert bool(findings) == (len(read) < len(graph))
