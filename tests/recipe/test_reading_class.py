from fractions import Fraction
from pathlib import Path

import pytest

from foldproof.recipe.reader import read_text

TIDE_GATE = (Path(__file__).parent.parent.parent / "recipes" / "tide-gate.yaml").read_text(encoding="utf-8")
BARE = TIDE_GATE.partition("\nclass:")[0]


def test_a_class_part_is_read() -> None:
    read = read_text(
        BARE
        + """
class:
  people: 12
  spares: 2
  margin: 60
  cut ahead: [left mat, right mat]
  tools at hand: {trimmer: 2}
  paper packs:
    slate: {holds: 25, price: 8.40 USD}
  supply packs:
    wet glue: {holds: 40, of: card, called: bottle, price: 3.20 USD}
  wraps:
    wet glue: {round: height, times: 2, tails: 3}
""",
        "x.yaml",
    )
    assert read.findings == ()
    assert read.recipe is not None
    part = read.recipe.class_part
    assert part is not None
    assert part.people is not None and part.people.value == 12
    assert [str(name) for name in part.cut_ahead or ()] == ["left mat", "right mat"]
    assert [(str(one.tool), one.count.value) for one in part.tools] == [("trimmer", Fraction(2))]
    slate, glue = part.packs
    assert slate.unit == "sheet" and slate.price is not None
    assert (slate.price.value, slate.price.currency) == (Fraction(42, 5), "USD")
    assert (str(glue.name), glue.unit, str(glue.called)) == ("wet glue", "card", "bottle")
    assert (part.wraps[0].way, part.wraps[0].times.value) == ("up", Fraction(2))
    assert part.sample


@pytest.mark.parametrize(
    ("written", "finding"),
    [
        pytest.param("people: 0", "nobody comes", id="nobody"),
        pytest.param("people: -3", "nobody comes", id="less than nobody"),
        pytest.param("people: 10000", "absurd size", id="ten thousand"),
        pytest.param("people: 12 1/2", "not a whole number", id="half a person"),
        pytest.param("people: a dozen", "unknown measure", id="in words"),
        pytest.param("people: 12\n  cut ahead: [left matt]", "unknown name", id="no such piece"),
        pytest.param("people: 12\n  paper packs: {slate: {price: 8}}", "unit missing", id="price without currency"),
        pytest.param("people: 12\n  paper packs: {slate: {price: -8 USD}}", "less than zero", id="price below zero"),
        pytest.param("people: 12\n  tools at hand: {trimmer: 1.5}", "not a whole number", id="half a trimmer"),
        pytest.param("peple: 12", "unknown key", id="a slip"),
    ],
)
def test_a_wrong_class_part_is_a_finding(written: str, finding: str) -> None:
    read = read_text(BARE + f"\nclass:\n  {written}\n", "x.yaml")
    assert finding in [each.name for each in read.findings], [each.name for each in read.findings]
    assert all(each.place is not None and each.place.line > BARE.count("\n") for each in read.findings)
