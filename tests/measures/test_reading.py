from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.findings.finding import Finding, Place, Severity
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.scanning import LONGEST_TEXT, names_in
from foldproof.measures.writing import write_length


def place(text: str) -> Place:
    return Place(file="gate.yaml", line=4, column=10, length=len(text))


def named(**values: str) -> dict[str, Quantity]:
    here = Place(file="gate.yaml", line=1, column=1)
    return {
        name.replace("_", " "): Quantity(value=Fraction(value), kind=Kind.LENGTH, written=value, place=here)
        for name, value in values.items()
    }


NAMES = named(width="17/4", height="11/2", border="1/8", band="1", band_width="7/2") | {
    "left-hand mat": Quantity(
        value=Fraction(2), kind=Kind.LENGTH, written="2", place=Place(file="f", line=1, column=1)
    ),
    "share": Quantity(value=Fraction(3), kind=Kind.NUMBER, written="3", place=Place(file="f", line=1, column=1)),
}


def read(text: str, kind: Kind | None = Kind.LENGTH, unit: Unit = Unit.INCH) -> Quantity:
    found = read_quantity(text, place=place(text), kind=kind, unit=unit, names=NAMES)
    assert isinstance(found, Quantity), found
    assert found.written == text
    assert found.place == place(text)
    return found


def fault(text: str, kind: Kind | None = Kind.LENGTH, unit: Unit = Unit.INCH) -> Finding:
    found = read_quantity(text, place=place(text), kind=kind, unit=unit, names=NAMES)
    assert isinstance(found, Finding), found
    assert found.severity is Severity.ERROR
    assert found.mend
    return found


@pytest.mark.parametrize(
    ("written", "exact"),
    [
        pytest.param("5 1/2", "11/2", id="whole and fraction"),
        pytest.param('5-1/2"', "11/2", id="hyphen and inch mark"),
        pytest.param("5½ in", "11/2", id="glyph"),
        pytest.param("5 ½", "11/2", id="glyph after a space"),
        pytest.param("5-½", "11/2", id="glyph after a hyphen"),
        pytest.param("½", "1/2", id="glyph alone"),
        pytest.param("⅓ in", "1/3", id="a third as a glyph"),
        pytest.param("2⅞", "23/8", id="seven eighths as a glyph"),
        pytest.param("3/16", "3/16", id="fraction"),
        pytest.param("11/3", "11/3", id="fraction over one"),
        pytest.param("5.5", "11/2", id="decimal"),
        pytest.param(".5", "1/2", id="decimal without a nought"),
        pytest.param("0", "0", id="nought"),
        pytest.param("12″", "12", id="double prime"),
        pytest.param("12”", "12", id="curly quotation mark"),
        pytest.param("5 1⁄2", "11/2", id="fraction slash"),
        pytest.param("5¹⁄₂ in", "11/2", id="raised and lowered figures"),
        pytest.param("5–1/2", "11/2", id="en dash"),
        pytest.param("5‑1/2", "11/2", id="hyphen that does not break"),
        pytest.param("5\u00a01/2\u00a0in", "11/2", id="spaces that do not break"),
        pytest.param("5\u2009½ in", "11/2", id="thin space"),
        pytest.param("5 and 1/2 in", "11/2", id="and"),
        pytest.param("5in", "5", id="no space before the unit"),
        pytest.param("5 in.", "5", id="abbreviated with a stop"),
        pytest.param("5 inches", "5", id="inches"),
        pytest.param("1 inch", "1", id="inch"),
        pytest.param("1 Inch", "1", id="capital"),
        pytest.param("13.97 cm", "11/2", id="centimetres"),
        pytest.param("139.7 mm", "11/2", id="millimetres"),
        pytest.param("140 mm", "700/127", id="whole millimetres"),
        pytest.param("1 ft 6 in", "18", id="feet and inches"),
        pytest.param("1 m", "5000/127", id="metre"),
        pytest.param("1 yd", "36", id="yard"),
        pytest.param("-1/8", "-1/8", id="negative"),
        pytest.param("−1/8", "-1/8", id="true minus sign"),
        pytest.param("(1/8)", "1/8", id="brackets"),
        pytest.param(" 5 1/2 ", "11/2", id="blanks round it"),
    ],
)
def test_lengths_as_people_write_them(written: str, exact: str) -> None:
    found = read(written)
    assert (found.value, found.kind, found.names) == (Fraction(exact), Kind.LENGTH, ())
    assert found.witness


@pytest.mark.parametrize(
    ("written", "unit", "exact"),
    [
        ("5 1/2", Unit.MM, "11/2"),
        ("5 1/2 in", Unit.MM, "139.7"),
        ("140", Unit.MM, "140"),
        ("14 cm", Unit.MM, "140"),
        ("140 mm", Unit.CM, "14"),
        ("1 in", Unit.CM, "2.54"),
        ("297 mm / 3", Unit.MM, "99"),
    ],
)
def test_lengths_come_out_in_the_unit_of_the_recipe(written: str, unit: Unit, exact: str) -> None:
    assert read(written, unit=unit).value == Fraction(exact)


@pytest.mark.parametrize(
    ("written", "exact", "names"),
    [
        ("width", "17/4", ("width",)),
        ("2 * width", "17/2", ("width",)),
        ("width / 2", "17/8", ("width",)),
        ("width ÷ 2", "17/8", ("width",)),
        ("width × 2", "17/2", ("width",)),
        ("height - 2 * border", "21/4", ("height", "border")),
        ("(height - border) / 2", "43/16", ("height", "border")),
        ("height - border - border", "21/4", ("height", "border")),
        ("height - (border - border)", "11/2", ("height", "border")),
        ("2 * border + band width - band", "11/4", ("border", "band width", "band")),
        ("left-hand mat - border", "15/8", ("left-hand mat", "border")),
        ("band   width", "7/2", ("band width",)),
        ("width - 5-1/2 in", "-5/4", ("width",)),
        ("11 in / 3", "11/3", ()),
        ("width - 1/8 in", "33/8", ("width",)),
        ("width – 1/8 in", "33/8", ("width",)),
        ("width + 25.4 mm", "21/4", ("width",)),
        ("-width + 2 in", "-9/4", ("width",)),
        ("width / border * band", "34", ("width", "border", "band")),
        ("share * width", "51/4", ("share", "width")),
        ("2 1/8 in + 1/8 in", "9/4", ()),
        ("(8 1/2 / 2) in", "17/4", ()),
        ("width / (2/3)", "51/8", ("width",)),
        ("width * 2/3", "17/6", ("width",)),
        ("width / 2 1/8", "2", ("width",)),
    ],
)
def test_arithmetic_over_named_measures(written: str, exact: str, names: tuple[str, ...]) -> None:
    found = read(written)
    assert (found.value, found.names) == (Fraction(exact), names)
    assert found.witness == (not names)


@pytest.mark.parametrize(
    ("written", "kind", "exact"),
    [
        ("25 s", Kind.TIME, "25"),
        ("3 min", Kind.TIME, "180"),
        ("1 h 30 min", Kind.TIME, "5400"),
        ("2 hours", Kind.TIME, "7200"),
        ("1 min 30 s", Kind.TIME, "90"),
        ("1/2 min", Kind.TIME, "30"),
        ("1 day", Kind.TIME, "86400"),
        ("2 * 5 min", Kind.TIME, "600"),
        ("90", Kind.ANGLE, "90"),
        ("90 degrees", Kind.ANGLE, "90"),
        ("90°", Kind.ANGLE, "90"),
        ("-180", Kind.ANGLE, "-180"),
        ("4", Kind.NUMBER, "4"),
        ("7/2", Kind.NUMBER, "7/2"),
        ("2 * 3", Kind.NUMBER, "6"),
        ("width / border", Kind.NUMBER, "34"),
    ],
)
def test_other_kinds(written: str, kind: Kind, exact: str) -> None:
    found = read(written, kind)
    assert (found.value, found.kind) == (Fraction(exact), kind)


@pytest.mark.parametrize(
    ("written", "amount", "currency"),
    [
        ("4.50 USD", "4.5", "USD"),
        ("$4.50", "4.5", "$"),
        ("€ 3", "3", "€"),
        ("£2", "2", "£"),
        ("USD 4", "4", "USD"),
        ("3 €", "3", "€"),
        ("2 * 3 EUR", "6", "EUR"),
    ],
)
def test_money_keeps_its_currency_as_written(written: str, amount: str, currency: str) -> None:
    found = read(written, Kind.MONEY)
    assert (found.value, found.currency) == (Fraction(amount), currency)


@pytest.mark.parametrize(
    ("written", "kind", "exact"),
    [
        ("4 1/4", Kind.LENGTH, "17/4"),
        ("width / border", Kind.NUMBER, "34"),
        ("60 degrees", Kind.ANGLE, "60"),
        ("5 min", Kind.TIME, "300"),
    ],
)
def test_a_slot_of_any_kind_takes_a_bare_number_as_a_length(written: str, kind: Kind, exact: str) -> None:
    found = read(written, None)
    assert (found.value, found.kind) == (Fraction(exact), kind)


@pytest.mark.parametrize(
    ("written", "name", "at", "length"),
    [
        ("", "measure missing", 0, 1),
        ("5,5", "comma in a number", 0, 3),
        ("5 1,000", "comma in a number", 2, 5),
        ("12,000", "comma in a number", 0, 6),
        ("5.", "measure can't be read", 0, 2),
        ("5.5.5", "measure can't be read", 0, 4),
        ("?", "measure can't be read", 0, 1),
        ("1 +", "measure can't be read", 2, 1),
        ("* 2", "measure can't be read", 0, 1),
        ("1:30", "measure can't be read", 1, 1),
        ("5 3/2", "fraction not less than one", 0, 5),
        ("1/0", "divided by zero", 0, 3),
        ("width / 0", "divided by zero", 8, 1),
        ("width / (border - border)", "divided by zero", 8, 17),
        ("8 1/2 x 5 1/2", "two sizes where one belongs", 6, 1),
        ("5 1 / 2", "two measures side by side", 0, 3),
        ("5 1/2 in 3 in", "two measures side by side", 0, 13),
        ("width height", "two measures side by side", 0, 12),
        ("1 h 3 min", "wrong kind of measure", 0, 9),
        ("2 width", "sign missing", 0, 7),
        ("2 (width)", "sign missing", 0, 3),
        ("width mm", "unit given twice", 6, 2),
        ("(2 in) mm", "unit given twice", 7, 2),
        ("3 furlongs", "unknown unit", 2, 8),
        ("1e3", "unknown unit", 1, 2),
        ("widht", "unknown measure", 0, 5),
        ("band widht + 1 in", "unknown measure", 0, 10),
        ("2 * dor", "unknown measure", 4, 3),
        ("width-border", "minus without spaces", 0, 12),
        ("width -border", "minus without spaces", 6, 1),
        ("width- border", "minus without spaces", 5, 1),
        ("2-3", "minus without spaces", 1, 1),
        ("width / 1/2", "two slashes", 6, 5),
        ("width/2/3", "two slashes", 5, 4),
        ("1/2/3", "two slashes", 0, 3),
        ("(1", "bracket not closed", 0, 1),
        ("1)", "bracket not opened", 1, 1),
        (")", "bracket not opened", 0, 1),
        ("width + 2", "kinds mixed", 0, 9),
        ("2 - width", "kinds mixed", 0, 9),
        ("width + 5 min", "kinds mixed", 0, 13),
        ("2 / width", "kinds mixed", 0, 9),
        ("3 min * 2 in", "kinds mixed", 0, 12),
        ("$2 + 3 EUR", "currencies mixed", 0, 10),
        ("width * width", "length times length", 0, 13),
        ("2 in × 3 in", "length times length", 0, 11),
        ("8 1/2 / 2", "wrong kind of measure", 0, 9),
        ("90°", "wrong kind of measure", 0, 3),
        ("$3", "wrong kind of measure", 0, 2),
        ("width / border", "wrong kind of measure", 0, 14),
        ("10001 mm", "measure too large", 0, 8),
        ("394 in", "measure too large", 0, 6),
        ("-394 in", "measure too large", 0, 7),
        ("1234567890 mm", "measure too fine", 0, 10),
        ("1 in / 999999999 / 999999999", "measure too fine", 0, 28),
        ("(" * 40 + "1" + ")" * 40, "measure too deep", 26, 1),
        ("-" * 40 + "1", "measure too deep", 26, 1),
    ],
)
def test_what_can_not_be_read_is_pointed_at(written: str, name: str, at: int, length: int) -> None:
    found = fault(written)
    assert found.name == name
    assert found.place == Place(file="gate.yaml", line=4, column=10 + at, length=length)


@pytest.mark.parametrize(
    ("written", "kind", "name"),
    [
        ("25", Kind.TIME, "unit missing"),
        ("4.50", Kind.MONEY, "unit missing"),
        ("3 m", Kind.TIME, "wrong kind of measure"),
        ("3 in", Kind.NUMBER, "wrong kind of measure"),
        ("3 in", Kind.ANGLE, "wrong kind of measure"),
        ("2 * 3", Kind.ANGLE, "wrong kind of measure"),
        ("2000000", Kind.NUMBER, "measure too large"),
        ("90 min 20 min", Kind.TIME, "two measures side by side"),
        ("8 1/2 / 2", None, "wrong kind of measure"),
    ],
)
def test_faults_of_other_kinds(written: str, kind: Kind | None, name: str) -> None:
    assert fault(written, kind).name == name


@pytest.mark.parametrize(
    ("written", "mend"),
    [
        ("5,5", "Write 5.5 with a full stop, or 55 with nothing."),
        ("width + 2", "Give the number its unit: width + 2 in"),
        ("2 - width", "Give the number its unit: 2 in - width"),
        ("width-border", "To take away, put spaces round the minus: width - border"),
        ("width -border", "To take away, write width - border"),
        ("2 width", "To multiply, write 2 * width"),
        ("2 (width + border)", "To multiply, write 2 * (width + border)"),
        ("widht", "Write `width`, if that is meant."),
        ("width band", "Write + - * or / between them. A size is a list: [8 1/2, 11]."),
        ("Border", "Write `border`, if that is meant."),
        ("8 1/2 / 2", "Give the numbers their unit: (8 1/2 / 2) in"),
        ("width mm", "Take `mm` away."),
    ],
)
def test_mends_can_be_copied(written: str, mend: str) -> None:
    assert fault(written).mend == mend


def test_a_mend_takes_the_unit_of_the_recipe() -> None:
    assert fault("width + 2", unit=Unit.MM).mend == "Give the number its unit: width + 2 mm"


def test_a_time_without_a_unit_is_asked_for_it() -> None:
    found = fault("25", Kind.TIME)
    assert (found.message, found.mend) == ("A time needs its unit: 25 of what?", "Write 25 s, 25 min or 25 h.")


def test_a_text_is_only_so_long() -> None:
    assert read("1 in" + " " * (LONGEST_TEXT - 4)).value == 1
    assert fault("1 in" + " " * (LONGEST_TEXT - 3)).name == "measure too long"


def test_quotes_round_a_text_shift_its_place_and_folded_texts_keep_theirs() -> None:
    text = "width + 2"
    quoted = read_quantity(
        text, place=Place(file="f", line=1, column=5, length=len(text) + 2), kind=Kind.LENGTH, unit=Unit.INCH, names={}
    )
    folded = Place(file="f", line=1, column=5, length=3)
    unsure = read_quantity(text, place=folded, kind=Kind.LENGTH, unit=Unit.INCH, names={})
    assert isinstance(quoted, Finding) and isinstance(unsure, Finding)
    assert quoted.place == Place(file="f", line=1, column=6, length=5)
    assert unsure.place == folded


def test_ten_metres_is_still_read() -> None:
    assert read("10 m", unit=Unit.MM).value == 10_000


def test_names_in_any_text() -> None:
    known = ("band", "band width", "width", "left-hand mat")
    assert names_in("2 * band width - band + widths ? left-hand mat left-hand band", known) == (
        "band width",
        "band",
        "left-hand mat",
    )
    assert names_in("bands sub-band band-saw", known) == ()


def test_how_fine_and_how_large_a_result_may_be() -> None:
    assert read("1 in / 40000 / 25000").value == Fraction(1, 10**9)
    assert fault("1 in / 40000 / 30000").name == "measure too fine"
    assert read("1000000", Kind.NUMBER).value == 1_000_000
    assert fault("1000001", Kind.NUMBER).name == "measure too large"


# Laws

ruler = st.builds(lambda top, part: Fraction(top, part), st.integers(0, 390), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))


@given(value=ruler, sign=st.sampled_from([1, -1]), unit=st.sampled_from(Unit))
def test_what_is_written_is_read_again(value: Fraction, sign: int, unit: Unit) -> None:
    assert read(write_length(sign * value, unit), unit=unit).value == sign * value


@given(
    whole=st.integers(0, 99),
    top=st.integers(1, 63),
    joint=st.sampled_from([" ", "-", "–", "\u00a0", " and "]),
    bar=st.sampled_from("/⁄"),
    unit=st.sampled_from(["", " in", '"', "″", " inches", "in"]),
)
def test_every_way_of_writing_a_mixed_number(whole: int, top: int, joint: str, bar: str, unit: str) -> None:
    assert read(f"{whole}{joint}{top}{bar}64{unit}").value == whole + Fraction(top, 64)


lengths = st.recursive(
    st.one_of(
        st.sampled_from(["width", "border", "band width"]).map(lambda name: (name, NAMES[name].value)),
        st.integers(1, 30).map(lambda n: (f"{n} mm", Fraction(n * 5, 127))),
        ruler.map(lambda value: (f"{write_length(value, Unit.INCH)} in", value)),
    ),
    lambda inner: st.one_of(
        st.tuples(inner, inner).map(lambda p: (f"({p[0][0]} + {p[1][0]})", p[0][1] + p[1][1])),
        st.tuples(inner, inner).map(lambda p: (f"({p[0][0]} - {p[1][0]})", p[0][1] - p[1][1])),
        st.tuples(st.integers(1, 9), inner).map(lambda p: (f"{p[0]} * ({p[1][0]})", p[0] * p[1][1])),
        st.tuples(inner, st.integers(1, 9)).map(lambda p: (f"({p[0][0]}) / {p[1]}", p[0][1] / p[1])),
    ),
    max_leaves=6,
)


@given(sum_=lengths)
def test_sums_are_exact(sum_: tuple[str, Fraction]) -> None:
    text, exact = sum_
    found = read_quantity(text, place=place(text), kind=Kind.LENGTH, unit=Unit.INCH, names=NAMES)
    if isinstance(found, Finding):
        assert found.name in ("measure too large", "measure too fine", "measure too long")
    else:
        assert found.value == exact


@given(
    text=st.one_of(st.text(max_size=40), st.text(alphabet="0123456789 ./-+*()½ inwdthborde\"'$:x,°", max_size=30)),
    kind=st.one_of(st.none(), st.sampled_from(Kind)),
)
def test_any_text_is_read_or_reported_within_itself(text: str, kind: Kind | None) -> None:
    found = read_quantity(text, place=place(text), kind=kind, unit=Unit.INCH, names=NAMES)
    if isinstance(found, Finding) and found.place and text:
        assert found.place.column >= 10
        assert found.place.column + found.place.length <= 10 + len(text)
