"""Results that are kept: the same records give the same result, others never that of records gone by."""

from foldproof.folding.remembered import remembered

KEPT = 5


class _Record:
    def __init__(self, name: str) -> None:
        self.name = name


def test_the_same_records_are_worked_out_once_and_others_anew() -> None:
    asked: list[str] = []

    @remembered(KEPT)
    def told(one: _Record, two: _Record) -> str:
        asked.append(one.name + two.name)
        return one.name + two.name

    a, b = _Record("a"), _Record("b")
    assert [told(a, b), told(a, b), told(b, a), told(a, _Record("b"))] == ["ab", "ab", "ba", "ab"]
    assert asked == ["ab", "ba", "ab"]


def test_a_record_that_is_gone_is_never_taken_for_another_and_few_are_kept() -> None:
    asked: list[str] = []

    @remembered(KEPT)
    def told(one: _Record) -> str:
        asked.append(one.name)
        return one.name

    names = [f"card {number}" for number in range(3 * KEPT)]
    assert [told(_Record(name)) for name in names] == names  # a new record often stands where the last one stood
    first = _Record("first")
    told(first)
    for name in names[:KEPT]:
        told(_Record(name))
    asked.clear()
    told(first)
    assert asked == ["first"]


def test_a_name_is_known_by_what_it_says() -> None:
    asked: list[str] = []

    @remembered(KEPT)
    def length(name: str) -> int:
        asked.append(name)
        return len(name)

    assert [length("left door"), length(" ".join(("left", "door"))), length("right door")] == [9, 9, 10]
    assert asked == ["left door", "right door"]
