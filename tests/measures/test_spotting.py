from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.measures.quantity import Unit
from foldproof.measures.speaking import speak_length
from foldproof.measures.spotted import Sense, Spotted
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.writing import with_unit, write_size


def short(spotted: Spotted) -> str:
    """Show a number as `17/8 in`, `2 folds`, `3 (ordinal)`: the value and its unit, else its sense."""
    return f"{spotted.value} {spotted.unit or f'({spotted.sense})'}"


def spots(text: str) -> list[str]:
    return [short(spotted) for spotted in spot_numbers(text)]


def one(text: str) -> Spotted:
    found = spot_numbers(text)
    assert len(found) == 1, found
    return found[0]


@pytest.mark.parametrize(
    "written",
    [
        "2 1/8 in",
        '2-1/8"',
        "2⅛ in",
        "2 ⅛ inches",
        "2.125 in",
        "2 1⁄8 in",
        "2¹⁄₈ in",
        "2–1/8 in",
        "2 1/8″",
        "2 1/8”",
        "2\u00a01/8\u00a0in",
        "2\n1/8\nin",
        "2 1/8-inch",
        "2 and 1/8 in",
        "2 & 1/8 in",
        "2 and an eighth inches",
        "two and an eighth inches",
        "two and one eighth inches",
        "two-and-an-eighth-inch",
        "two and 1/8 inches",
        "2 1/8in",
        "two inches and an eighth",
    ],
)
def test_one_length_in_every_way_of_writing_it(written: str) -> None:
    found = one(f"Score at {written}, then turn")
    assert (found.value, found.sense, found.unit) == (Fraction(17, 8), Sense.LENGTH, "in")
    assert found.written == written
    assert found.beside == "score"
    assert found.amount(Unit.INCH) == Fraction(17, 8)


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("half an inch", "1/2"),
        ("half inch", "1/2"),
        ("a half inch", "1/2"),
        ("half-inch", "1/2"),
        ("one half inch", "1/2"),
        ("a quarter inch", "1/4"),
        ("a quarter of an inch", "1/4"),
        ("quarter-inch", "1/4"),
        ("an eighth of an inch", "1/8"),
        ("an eighth-inch", "1/8"),
        ("one-eighth inch", "1/8"),
        ("three sixteenths of an inch", "3/16"),
        ("three-sixteenths inch", "3/16"),
        ("three quarters of an inch", "3/4"),
        ("three quarter inch", "3/4"),
        ("a third of an inch", "1/3"),
        ("five eighths inch", "5/8"),
        ("a thirty-second of an inch", "1/32"),
        ("three thirty-seconds of an inch", "3/32"),
        ("five sixty-fourths of an inch", "5/64"),
        ("3/16ths of an inch", "3/16"),
        ("1/16th inch", "1/16"),
        ("an inch", "1"),
        ("one inch", "1"),
        ("an inch and a half", "3/2"),
        ("one inch and a quarter", "5/4"),
        ("two and three quarter inches", "11/4"),
        ("twelve inches", "12"),
        ("twenty-one inches", "21"),
        ("five and a half inches", "11/2"),
        ("five and half inches", "11/2"),
        ("1 ft 6 in", "3/2"),
    ],
)
def test_lengths_in_words(written: str, value: str) -> None:
    found = one(f"Leave {written} free.")
    assert (found.value, found.sense, found.written) == (Fraction(value), Sense.LENGTH, written)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        # Metric and other units
        ("score at 97 mm", ["97 mm"]),
        ("13.97 cm wide", ["1397/100 cm"]),
        ("1 m of twine", ["1 m"]),
        ("5 millimetres", ["5 mm"]),
        ("ninety-seven millimeters", ["97 mm"]),
        ("two hundred and ten millimetres", ["210 mm"]),
        ("a hundred millimetres", ["100 mm"]),
        ("2 yards of ribbon", ["2 yd"]),
        ("1,000 mm", ["1000 mm"]),
        ("5,5 cm", ["11/2 cm"]),
        # Times
        ("dry for 5 minutes", ["5 min"]),
        ("25 s", ["25 s"]),
        ("ten minutes", ["10 min"]),
        ("1 h 30 min", ["3/2 h"]),
        ("an hour and a half", ["3/2 h"]),
        ("half an hour", ["1/2 h"]),
        ("an hour and 20 minutes", ["4/3 h"]),
        ("5-minute rest", ["5 min"]),
        ("wait thirty seconds", ["30 s"]),
        ("1 minute 30 seconds", ["3/2 min"]),
        # Angles and heat
        ("turn it 90 degrees", ["90 degrees"]),
        ("a 45° corner", ["45 degrees"]),
        ("a 45-degree cut", ["45 degrees"]),
        ("at 120 °C", ["120 degrees of heat"]),
        ("350 degrees F", ["350 degrees of heat"]),
        # Weights, money, percents
        ("80 lb cover", ["80 lb"]),
        ("80# cover", ["80 lb"]),
        ("250 gsm", ["250 gsm"]),
        ("250 g/m2", ["250 gsm"]),
        ("250 g/m²", ["250 gsm"]),
        ("3 oz", ["3 oz"]),
        ("20 grams", ["20 g"]),
        ("$4.50 each", ["9/2 $"]),
        ("€3", ["3 €"]),
        ("4.50 USD", ["9/2 USD"]),
        ("3 dollars", ["3 dollars"]),
        ("50%", ["50 percent"]),
        ("50 per cent", ["50 percent"]),
        # Counts
        ("two pieces", ["2 pieces"]),
        ("fold the two doors in", ["2 doors"]),
        ("three foam squares", ["3 squares"]),
        ("the two top corners", ["2 corners"]),
        ("all four sides", ["4 sides"]),
        ("3 times", ["3 times"]),
        ("press it twice", ["2 times"]),
        ("2x", ["2 times"]),
        ("one sheet of sand card", ["1 sheet"]),
        ("a dozen dots", ["12 dots"]),
        ("cut 2 from slate", ["2 (count)"]),
        ("one and a half sheets", ["3/2 sheets"]),
        ("the two door mats", ["2 mats"]),
        ("two half-inch strips", ["2 strips", "1/2 in"]),
        # Bare numbers
        ("score at 2 1/8", ["17/8 (bare)"]),
        ("score at 2 again", ["2 (bare)"]),
        ("score at 4 long edge up", ["4 (bare)"]),
        ("the hinge is at three and a quarter.", ["13/4 (bare)"]),
        ("at three sixteenths", ["3/16 (bare)"]),
        ("the 4 mark", ["4 (bare)"]),
        ("the 2 1/8 mark", ["17/8 (bare)"]),
        ("score at five", ["5 (bare)"]),
        ("seven wide", ["7 (bare)"]),
        # Shares
        ("1/3 of the width", ["1/3 (share)"]),
        ("two thirds of the way", ["2/3 (share)"]),
        ("half of the card", ["1/2 (share)"]),
        # Ordinals
        ("see step 3", ["3 (ordinal)"]),
        ("steps 3 and 4", ["3 (ordinal)", "4 (ordinal)"]),
        ("the 2nd score", ["2 (ordinal)"]),
        ("a #10 envelope", ["10 (ordinal)"]),
        ("a No. 10 envelope", ["10 (ordinal)"]),
        ("on page 4", ["4 (ordinal)"]),
        ("1. Cut\n2. Fold 3 in\n", ["1 (ordinal)", "2 (ordinal)", "3 in"]),
        ("panel 2 lies up", ["2 (ordinal)"]),
        # Other things
        ("a 2-ply sheet", ["2 plies"]),
        ("300 dpi", ["300 dots per inch"]),
        ("in 2024", ["2024 (other)"]),
        ("3-D paper", ["3 (other)"]),
        ("not for children under three", ["3 (other)"]),
        ("not for children under 3 years", ["3 years"]),
        ("at 3 o'clock", ["3 clock"]),
    ],
)
def test_what_a_number_is(text: str, found: list[str]) -> None:
    assert spots(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "turn it half round",
        "turn it half way",
        "half-way along",
        "a quarter turn clockwise",
        "a half turn",
        "quarter turn it",
        "fold it in half",
        "on the right-hand half",
        "on the left half only",
        "the right-hand third only",
        "cut it in two",
        "one of the pieces",
        "one by one",
        "the other one",
        "one at a time",
        "from one end to the other",
        "one side up",
        "at one end",
        "no one",
        "this one is up",
        "everyone",
        "once",
        "someone",
        "one more",
        "either one",
        "one another",
        "an A2 envelope",
        "an A4 sheet",
        "A6 card in a C6 envelope",
        "DL",
        "H2O",
        "the first score",
        "a second piece",
        "the second score",
        "the third panel",
        "the third inch mark",
        "a third door",
        "in the first place",
        "a two-piece card",
        "a three-sided flap",
        "two-tone",
        "an inch ruler",
        "inch by inch",
        "a few minutes",
        "several times",
        "a couple of dots",
        "a half",
        "a quarter",
        "1:30",
        "12/24/2024",
        "a ratio of 1:2",
        "{door} and {2 * width}",
        "{{ 3 }}",
        "[the sheet](http://a.example/3/4)",
        "http://a.example/12",
        "&#189; &frac12;",
        "<b2>",
        "size A7",
        "",
        "tension",
        "often",
        "someone often attends",
        "height",
        "weight",
        "lighten",
        "network",
        "for one",
        "one-sided",
        "tenth",
        "seconds later",
        "minutes",
    ],
)
def test_false_friends(text: str) -> None:
    assert spots(text) == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("8 1/2 x 5 1/2 in", ["17/2 in", "11/2 in"]),
        ("8½ × 5½ in", ["17/2 in", "11/2 in"]),
        ('8 1/2" x 11"', ["17/2 in", "11 in"]),
        ('8 1/2" x 11', ["17/2 in", "11 in"]),
        ("4 1/4 by 5 1/2 inches", ["17/4 in", "11/2 in"]),
        ("8.5x11in", ["17/2 in", "11 in"]),
        ("eight and a quarter by seven", ["33/4 (length)", "7 (length)"]),
        ("six by four inches", ["6 in", "4 in"]),
        ("five by one", ["5 (length)", "1 (length)"]),
        ("four by one half", ["4 (length)", "1/2 (length)"]),
        ("seven and a half wide by six tall", ["15/2 (length)", "6 (length)"]),
        ("4 1/4 in wide x 5 1/2 in tall", ["17/4 in", "11/2 in"]),
        ("a 12 x 12 sheet", ["12 (length)", "12 (length)"]),
        ("100 × 210 mm", ["100 mm", "210 mm"]),
        ("8 1/2 * 11 in", ["17/2 in", "11 in"]),
        ("2 x 3 x 4 cm", ["2 cm", "3 cm", "4 cm"]),
        ("12 in by 30 cm", ["12 in", "30 cm"]),
        ("8\n1/4 x 7 in", ["33/4 in", "7 in"]),
        ("the piece 2 x 3 in", ["2 in", "3 in"]),
        ("a sheet 90 by 120 mm", ["90 mm", "120 mm"]),
    ],
)
def test_sizes_share_their_unit(text: str, found: list[str]) -> None:
    assert spots(text) == found
    assert [spotted.part for spotted in spot_numbers(text)] == list(range(1, len(found) + 1))
    assert {spotted.sense for spotted in spot_numbers(text)} == {Sense.LENGTH}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("score at 2 1/8 and 6 3/8 in", ["17/8 in", "51/8 in"]),
        ("at 97, 197 and 200 mm", ["97 mm", "197 mm", "200 mm"]),
        ("5 to 6 minutes", ["5 min", "6 min"]),
        ("5–6 min", ["5 min", "6 min"]),
        ("2 or 3 in", ["2 in", "3 in"]),
        ("1/8-1/4 in", ["1/8 in", "1/4 in"]),
        ("two and three inches", ["2 in", "3 in"]),
        ("2 1/8 and again at 2 1/8 in", ["17/8 (bare)", "17/8 in"]),
        ("take 2, 4 in wide", ["2 (bare)", "4 in"]),
        ("two, then four inches", ["2 (bare)", "4 in"]),
        ("45 and 90 degrees", ["45 degrees", "90 degrees"]),
        ("two or three dots", ["2 dots", "3 dots"]),
    ],
)
def test_lists_and_ranges_share_their_unit(text: str, found: list[str]) -> None:
    assert spots(text) == found
    assert all(spotted.part == 0 for spotted in spot_numbers(text))


@pytest.mark.parametrize(
    ("text", "hedged"),
    [
        ("about 1/8 in", True),
        ("roughly 2 in", True),
        ("nearly half an inch", True),
        ("approx. 3 mm", True),
        ("almost an inch", True),
        ("a hair under 2 in", True),
        ("just over 5 mm", True),
        ("a touch less than 3 mm", True),
        ("slightly more than 2 in", True),
        ("a scant 1/8 in", True),
        ("at least 1/8 in", True),
        ("no more than 1/4 in", True),
        ("within 1/16 in", True),
        ("~3 mm", True),
        ("±1/16 in", True),
        ("3 mm or so", True),
        ("5 min at least", True),
        ("a minute or two", True),
        ("3-ish", True),
        ("2 in", False),
        ("exactly 2 in", False),
        ("score up to 3 in", False),
        ("fold over 2 in", False),
        ("slide it under 2 in", False),
        ("talk about it. 2 in", False),
        ("about the middle, 2 in", False),
        ("leave it for 5 minutes or until dry", False),
    ],
)
def test_hedges(text: str, hedged: bool) -> None:
    assert spot_numbers(text)[0].hedged is hedged


def test_a_hedge_holds_for_a_whole_size() -> None:
    assert [spotted.hedged for spotted in spot_numbers("about 4 x 5 in, then 6 in")] == [True, True, False]
    assert [spotted.hedged for spotted in spot_numbers("about 5 to 6 min")] == [True, True]


@pytest.mark.parametrize(
    ("text", "restates"),
    [
        ("5 1/2 in (139.7 mm)", [False, True]),
        ("5 1/2 in (about 140 mm)", [False, True]),
        ("5 1/2 in / 140 mm", [False, True]),
        ("8 1/2 × 5 1/2 in (215.9 × 139.7 mm)", [False, False, True, True]),
        ("5 1/2 in (2 in less)", [False, False]),
        ("5 1/2 in, then 140 mm", [False, False]),
        ("(5 1/2 in) 140 mm", [False, False]),
        ("fold it (140 mm)", [False]),
    ],
)
def test_a_length_said_once_more_in_another_unit(text: str, restates: list[bool]) -> None:
    assert [spotted.restates for spotted in spot_numbers(text)] == restates


@pytest.mark.parametrize(
    ("text", "beside"),
    [
        ("score at 2 1/8", "score"),
        ("Scored 2 1/8 in from the left", "score"),
        ("cut the mat 4 in wide", "mat"),
        ("trim to 3 in", "trim"),
        ("mark 1 1/2 in from the end", "mark"),
        ("it measures 4 x 5 in", "measure"),
        ("a border of 1/8 in", "border"),
        ("a 1/8 in border", "border"),
        ("an eighth of an inch of mat", "mat"),
        ("Score it. Then 2 in down", None),
        ("2 in of ribbon", None),
        ("the hinge is at three and a quarter", "at"),
        ("the hinge is at 3", "at"),
        ("set it at 3 in", None),
        ("score: 2 in", None),
        ("cut, turn, and then after all of that fold 3 in", None),
        ("gap of 1/32 in", "gap"),
    ],
)
def test_the_measuring_word_beside_it(text: str, beside: str | None) -> None:
    assert spot_numbers(text)[0].beside == beside


def test_a_quotation_mark_after_a_number() -> None:
    assert spots('say "score at 5" and trim to 3" now') == ["5 (bare)", "3 in"]
    assert spots("say “score at 5” and trim to 3” now") == ["5 (bare)", "3 in"]


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("fold the 2 in half", None),
        ("put 2 in the envelope", None),
        ("put 2 in each corner", None),
        ("2 in from the left", "in"),
        ("score at 2 in.", "in"),
        ("score at 2 1/8 in the long way", "in"),
        ("turn two in", None),
        ("2 in wide", "in"),
    ],
)
def test_in_is_a_unit_or_a_preposition(text: str, unit: str | None) -> None:
    assert one(text).unit == unit


def test_words_round_a_number() -> None:
    found = spot_numbers(
        "Turn it. Lay the long edge up, and score at **2 1/8 in** from the left end of the card. Done."
    )[0]
    assert (found.before, found.after) == ("up and score at", "from the left end")
    assert found.written == "2 1/8 in"


def test_emphasis_may_part_a_number_from_its_unit() -> None:
    found = one("score at **2 1/8** in, now")
    assert (found.value, found.unit) == (Fraction(17, 8), "in")


@pytest.mark.parametrize(
    ("text", "unit", "amount"),
    [
        ("5 1/2 in", Unit.MM, "139.7"),
        ("140 mm", Unit.INCH, "700/127"),
        ("score at 97", Unit.MM, "97"),
        ("1 ft", Unit.INCH, "12"),
        ("3 min", Unit.INCH, "180"),
        ("an hour and a half", Unit.MM, "5400"),
        ("90 degrees", Unit.CM, "90"),
        ("two pieces", Unit.MM, "2"),
    ],
)
def test_amounts_as_a_recipe_holds_them(text: str, unit: Unit, amount: str) -> None:
    assert one(text).amount(unit) == Fraction(amount)


# Laws

sixteenths = st.builds(Fraction, st.integers(1, 400), st.sampled_from([2, 4, 8, 16, 32, 64]))
lead_ins = st.sampled_from(
    ["Score at {}.", "Leave {} at the top.", "The mat is {} from the fold.", "{} is right.", "Cut it {}"]
)


@given(value=sixteenths, lead=lead_ins, unit=st.sampled_from(Unit))
def test_every_written_length_is_found(value: Fraction, lead: str, unit: Unit) -> None:
    found = one(lead.format(with_unit(value, unit)))
    assert (found.amount(unit), found.sense, found.written) == (value, Sense.LENGTH, with_unit(value, unit))


@given(value=sixteenths.filter(lambda v: v < 100), lead=lead_ins)
def test_every_spoken_length_is_found(value: Fraction, lead: str) -> None:
    said = speak_length(value, Unit.INCH)
    found = one(lead.format(said))
    assert (found.value, found.unit, found.written) == (value, "in", said)


@given(width=sixteenths, height=sixteenths)
def test_every_written_size_is_found(width: Fraction, height: Fraction) -> None:
    found = spot_numbers(f"Cut it {write_size((width, height), Unit.INCH)} and fold.")
    assert [(s.value, s.unit, s.part) for s in found] == [(width, "in", 1), (height, "in", 2)]


WORDS = (
    "score",
    "at",
    "2",
    "1/8",
    "in",
    "and",
    "a",
    "half",
    "an",
    "inch",
    "one",
    "two",
    "eighths",
    "x",
    "by",
    "5½",
    '"',
    "-",
    "(",
    ")",
    "mm",
    "quarter",
    "turn",
    ".",
    ",",
    "about",
    "minutes",
    "or",
    "step",
    "#",
    "80",
    "lb",
    "the",
    "of",
    "3.5",
    "thirty",
)


@given(
    text=st.one_of(
        st.text(max_size=60),
        st.lists(st.sampled_from(WORDS), max_size=14).map(" ".join),
        st.lists(st.sampled_from(WORDS), max_size=14).map("".join),
    )
)
def test_any_text_gives_numbers_in_order_that_stand_where_they_say(text: str) -> None:
    last = 0
    for spotted in spot_numbers(text):
        assert last <= spotted.start < spotted.end <= len(text)
        assert text[spotted.start : spotted.end] == spotted.written
        last = spotted.end
