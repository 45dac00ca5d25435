from fractions import Fraction
from math import sqrt

import pytest

from foldproof.facts.envelopes import find_envelope
from foldproof.facts.sheet_sizes import SHEET_SIZES, find_sheet, iso_size, tolerance

# ISO 216:2007 (A, B) and ISO 269 (C), read in secondary copies (S).
TABLE = {
    "A": "841x1189 594x841 420x594 297x420 210x297 148x210 105x148 74x105 52x74 37x52 26x37",
    "B": "1000x1414 707x1000 500x707 353x500 250x353 176x250 125x176 88x125 62x88 44x62 31x44",
    "C": "917x1297 648x917 458x648 324x458 229x324 162x229 114x162 81x114 57x81 40x57 28x40",
}
ROWS = [
    (series, number, *map(int, size.split("x")))
    for series, sizes in TABLE.items()
    for number, size in enumerate(sizes.split())
]


@pytest.mark.parametrize(("series", "number", "width", "height"), ROWS, ids=[f"{row[0]}{row[1]}" for row in ROWS])
def test_the_published_tables(series: str, number: int, width: int, height: int) -> None:
    assert iso_size(series, number) == (width, height)
    sheet = find_sheet(f"{series}{number}")
    assert sheet is not None
    assert (sheet.width_mm, sheet.height_mm) == (Fraction(width), Fraction(height))


def test_all_thirty_three_rows_are_there() -> None:
    assert len(ROWS) == 33
    assert sum(sheet.name[0] in "ABC" and sheet.name[1:].isdigit() for sheet in SHEET_SIZES) == 33


@pytest.mark.parametrize(
    ("name", "exact", "wrong"),
    [
        # Sizes that rounding each exact value by itself gets wrong (reckoned).
        ("A1", 594.604, 595),
        ("A5", 148.651, 149),
        ("A8", 52.556, 53),
        ("B3", 353.553, 354),
        ("B5", 176.777, 177),
        ("C2", 458.502, 459),
        ("C6", 114.626, 115),
        ("C9", 40.526, 41),
        ("C10", 28.656, 29),
    ],
)
def test_the_half_millimetre_is_dropped_at_each_halving(name: str, exact: float, wrong: int) -> None:
    whole = {"A": 1000 / sqrt(sqrt(2)), "B": 1000.0, "C": 1000 / sqrt(sqrt(sqrt(2)))}[name[0]]
    assert whole / sqrt(2) ** int(name[1:]) == pytest.approx(exact, abs=0.001)
    assert round(exact) == wrong == iso_size(name[0], int(name[1:]))[0] + 1


def test_letter_and_its_likes() -> None:
    # ASME Y14.1: A is 8-1/2 x 11 in, B 11 x 17, C 17 x 22 (S).
    inch = Fraction("25.4")
    for name, width, height in (
        ("letter", "8.5", "11"),
        ("ANSI B", "11", "17"),
        ("ANSI C", "17", "22"),
        ("12 × 12", "12", "12"),
        ("6 x 6", "6", "6"),
        ("legal", "8.5", "14"),
    ):
        sheet = find_sheet(name)
        assert sheet is not None
        assert (sheet.width_mm, sheet.height_mm) == (Fraction(width) * inch, Fraction(height) * inch)


@pytest.mark.parametrize(("side", "may_miss"), [("150", "1.5"), ("150.1", "2"), ("600", "2"), ("601", "3")])
def test_tolerance(side: str, may_miss: str) -> None:
    assert tolerance(Fraction(side)) == Fraction(may_miss)  # ISO 216, from memory (M)


def test_a4_folded_twice_is_an_a6_and_fits_a_c6() -> None:
    a4, a6, c6 = find_sheet("A4"), find_sheet("A6"), find_envelope("C6")
    assert a4 and a6 and c6
    folded = (a4.width_mm / 2, a4.height_mm / 2)
    assert folded == (Fraction(105), Fraction("148.5"))
    assert a6.tolerates(*folded)
    assert a6.tolerates(Fraction("106.5"), Fraction("149.5"))
    assert not a6.tolerates(Fraction(105), Fraction("149.6"))
    assert not a6.tolerates(Fraction("106.6"), Fraction(148))
    assert c6.clearance_mm(folded) == (Fraction(9), Fraction("13.5"))
    assert c6.clearance_mm(folded) >= c6.usual_clearance_mm


def test_a4_in_thirds_fits_a_dl() -> None:
    a4, dl = find_sheet("A4"), find_envelope("DL")
    assert a4 and dl
    assert dl.clearance_mm((a4.height_mm / 3, a4.width_mm)) == (Fraction(11), Fraction(10))
    assert a4.height_mm == 97 + 100 + 100  # the published roll fold: the inner panel 3 mm short
    assert min(dl.clearance_mm((Fraction(100), a4.width_mm))) == 10


def test_letter_in_thirds_fits_a_number_ten() -> None:
    letter, ten = find_sheet("letter"), find_envelope("#10")
    assert letter and ten
    inch = Fraction("25.4")
    assert ten.clearance_mm((letter.height_mm / 3, letter.width_mm)) == (inch * Fraction(11, 24), inch)
    panels = [Fraction("3.6875"), Fraction("3.6875"), Fraction("3.625")]
    assert sum(panels) * inch == letter.height_mm
    assert min(ten.clearance_mm((max(panels) * inch, letter.width_mm))) == inch * Fraction(7, 16)


def test_an_unknown_sheet() -> None:
    assert find_sheet("A11") is None
