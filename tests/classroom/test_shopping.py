"""What to buy, reckoned by hand for the small card (tests/classroom/lessons.py)."""

from fractions import Fraction
from pathlib import Path

import pytest
from lessons import BARE_SHELF, lesson, planned

from foldproof.classroom.own_files import Stock, read_stock
from foldproof.classroom.shopping import Item
from foldproof.findings.finding import Severity

F = Fraction
WRAPS = "  sample: none\n  wraps: {ribbon: {round: width, times: 2, knot: 1, tails: 3}}"


def item(name: str, class_part: str, *, people: int = 12, stock: Stock = BARE_SHELF) -> Item:
    plan, _ = planned(lesson(class_part), people=people, stock=stock)
    return next(one for one in plan.shopping.items if one.name == name)


@pytest.mark.parametrize(("sold", "need", "packs"), [
    # closed 4 wide, two plies and a mat of 0.01 thick: 2 x (4 + 0.03) = 8.06 each time round; twice, a knot of 1 and
    # two tails of 3 make 23.12, cut at 23 1/4; twelve of them are 279 in
    pytest.param("{holds: 10, of: yard, called: roll, price: 4 USD}", F(279, 36), 1, id="yards"),
    pytest.param("{holds: 5, of: yard, called: roll, price: 4 USD}", F(279, 36), 2, id="two rolls of 5 yards"),
    pytest.param("{holds: 12, of: foot, called: roll, price: 4 USD}", F(279, 12), 2, id="feet"),
    pytest.param("{holds: 3, of: metre, called: roll, price: 4 USD}", F(279) * F(254, 10000), 3, id="7.0866 metres"),
    pytest.param("{holds: 100, of: cm, called: roll, price: 4 USD}", F(279) * F(254, 100), 8, id="centimetres"),
    pytest.param("{holds: 280, of: inch, called: roll, price: 4 USD}", F(279), 1, id="inches"),
    pytest.param("{holds: 1, of: piece, price: 4 USD}", F(12), 12, id="cut to length in the shop"),
])
def test_ribbon_round_the_closed_card(sold: str, need: Fraction, packs: int) -> None:
    ribbon = item("ribbon", f"{WRAPS}\n  supply packs: {{ribbon: {sold}}}")
    assert (ribbon.need, ribbon.packs) == (need, packs)


@pytest.mark.parametrize(("wrap", "each"), [
    pytest.param("{round: width}", F(33, 4), id="8.06 at the next quarter"),
    pytest.param("{round: height}", F(49, 4), id="2 x (6 + 0.03) = 12.06"),
    pytest.param("{round: height, tails: 1}", F(57, 4), id="two tails, not one"),
    pytest.param("{round: height, times: 3, knot: 1/2}", F(147, 4), id="36.18 and a knot"),
])
def test_one_kits_ribbon(wrap: str, each: Fraction) -> None:
    plan, _ = planned(lesson(f"  wraps: {{ribbon: {wrap}}}"))
    ribbon = next(one for one in plan.needs.supplies if one.name == "ribbon")
    assert ribbon.length == each


def test_a_given_length_that_does_not_go_round_is_told() -> None:
    card = lesson("  wraps: {ribbon: {round: height, tails: 2}}", ribbon=", length: 15")
    _, findings = planned(card)
    told = next(one for one in findings if one.name == "too short to go round")
    assert told.severity is Severity.WARNING
    assert "15 in" in told.message and "1.06 in more" in told.message  # 12.06 + 4 - 15


def test_spares_and_the_sample_count() -> None:
    # 12 people, 3 spares, the teacher: a base of 8 x 6 to a letter sheet, its mat on its side in the rest
    plan, _ = planned(lesson("  sample: one"), people=12, spares=3)
    assert plan.heads.kits == 16
    assert plan.papers[0].sheets == 16
    assert item("plain", "  sample: none", people=12).need == 12


def _stock(text: str, folder: Path) -> Stock:
    path = folder / "shelf.yaml"
    path.write_text(text, encoding="utf-8")
    stock, own = read_stock(path)
    assert own.findings == ()
    return stock


@pytest.mark.parametrize(("on_hand", "packs"), [
    pytest.param(0, 3, id="12 sheets by packs of 4"),
    pytest.param(3, 3, id="9 more"),
    pytest.param(4, 2, id="8 more, two packs to the sheet"),
    pytest.param(5, 2, id="7 more"),
    pytest.param(15, 0, id="enough"),
    pytest.param(99, 0, id="more than enough"),
])
def test_what_is_on_hand_is_used_before_anything_is_bought(on_hand: int, packs: int, tmp_path: Path) -> None:
    stock = _stock(f"papers:\n  plain: {{on hand: {on_hand}}}\n", tmp_path)
    part = "  sample: none\n  paper packs: {plain: {holds: 4, price: 2 USD}}"
    paper = item("plain", part, stock=stock)
    assert paper.need == 12 and paper.packs == packs  # a sheet to a kit
    assert paper.used == F(12, 4) * 2  # what was on hand is worth what it would cost


def test_a_roll_begun_is_used_first(tmp_path: Path) -> None:
    stock = _stock("supplies:\n  ribbon: {on hand: 3, of: yard, holds: 5, called: roll, price: 4 USD}\n", tmp_path)
    ribbon = item("ribbon", WRAPS, stock=stock)
    assert ribbon.on_hand == 3 and ribbon.packs == 1  # 7.75 - 3 = 4.75


def test_the_stock_files_own_price_goes_before_the_recipes(tmp_path: Path) -> None:
    stock = _stock("papers:\n  plain: {on hand: 0, holds: 10, price: 3 USD}\n", tmp_path)
    paper = item("plain", "  sample: none\n  paper packs: {plain: {holds: 4, price: 2 USD}}", stock=stock)
    assert paper.packs == 2 and paper.spend == 6


def test_two_currencies_are_not_added() -> None:
    from foldproof.classroom.class_plan import plan_class
    from foldproof.classroom.lesson import Wanted
    from foldproof.classroom.own_files import DeskProfile

    part = "  paper packs: {plain: {price: 2 USD}}\n  supply packs: {glue: {price: 3 EUR, of: card, holds: 9}}"
    plan, findings = plan_class(
        [lesson(part)], Wanted(people=2), stock=Stock(), desk=DeskProfile(), seconds=1
    )
    assert plan is None
    told = next(one for one in findings if one.name == "prices in two currencies")
    assert told.severity is Severity.ERROR
    assert "plain is priced in USD and glue in EUR" in told.message
    assert told.place is not None and told.asides


def test_a_missing_price_is_told_and_in_no_sum() -> None:
    plan, findings = planned(
        lesson("  sample: none\n  paper packs: {plain: {price: 2 USD}}", envelope=", envelope: A6"), people=4
    )
    cost = plan.shopping.cost
    assert cost is not None
    assert cost.without == ("glue", "ribbon", "black ink", "A6 envelope")
    assert cost.spend == cost.used == 2 * 4
    assert cost.suggested is None
    assert [one.name for one in findings if one.severity is not Severity.ADVICE] == []
    assert "price missing" in [one.name for one in findings]


def test_no_price_at_all_is_no_fault() -> None:
    plan, findings = planned(lesson())
    assert plan.shopping.cost is None
    assert "price missing" not in [one.name for one in findings]
