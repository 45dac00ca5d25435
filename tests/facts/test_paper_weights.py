from fractions import Fraction

import pytest

from foldproof.facts.paper_weights import (
    GRADES,
    GRAMS_IN_OUNCE,
    estimate_thickness,
    find_grade,
    grammage,
    read_weight,
    sheet_grams,
)
from foldproof.findings.finding import Finding, Place

HERE = Place(file="a.yaml", line=3, column=7, length=5)
INCH = Fraction("25.4")


def weight(text: str) -> Fraction:
    found = read_weight(text, place=HERE)
    assert isinstance(found, Fraction), found
    return found


@pytest.mark.parametrize(
    ("grade", "factor"),
    [
        # Exact factors reckoned from basis sheets (reckoned); a printer maker's guide gives
        # 3.76, 2.7042, 1.4802, 1.81, 2.19, 1.63 (table A-2, S).
        ("bond", "3.759730372"),
        ("cover", "2.704113768"),
        ("text", "1.480146483"),
        ("index", "1.807957775"),
        ("bristol", "2.192809605"),
        ("tag", "1.627475879"),
    ],
)
def test_a_pound_of_each_grade(grade: str, factor: str) -> None:
    found = find_grade(grade)
    assert found is not None
    assert abs(found.grams_per_pound - Fraction(factor)) < Fraction(1, 10**9)


# Rows of a laser-printer guide, table 1-23 "Weight equivalence" (S), rounded there to 1 or 2 g/m2.
PUBLISHED = [
    ("20 lb bond", "75.195", 75),
    ("24 lb bond", "90.234", 90),
    ("28 lb bond", "105.272", 105),
    ("32 lb bond", "120.311", 120),
    ("60 lb text", "88.809", 90),
    ("70 lb text", "103.610", 105),
    ("80 lb text", "118.412", 120),
    ("100 lb text", "148.015", 148),
    ("60 lb cover", "162.247", 163),
    ("80 lb cover", "216.329", 216),
    ("90 lb cover", "243.370", 244),
    ("100 lb cover", "270.411", 271),
    ("110 lb cover", "297.453", 298),
    ("90 lb index", "162.716", 163),
    ("140 lb index", "253.114", 253),
    ("67 lb bristol", "146.918", 148),
    ("80 lb bristol", "175.425", 176),
]


@pytest.mark.parametrize(("written", "exact", "published"), PUBLISHED, ids=[row[0] for row in PUBLISHED])
def test_published_rows(written: str, exact: str, published: int) -> None:
    assert abs(weight(written) - Fraction(exact)) <= Fraction(1, 2000)
    assert abs(weight(written) - published) <= 2


@pytest.mark.parametrize(
    ("written", "grams"),
    [
        ("250 gsm", "250"),
        ("250 g/m2", "250"),
        ("250g/m²", "250"),
        ("80.5 gsm", "80.5"),
        ("0.5 gsm", "0.5"),
        ("2000 gsm", "2000"),
    ],
)
def test_metric_weights_are_exact(written: str, grams: str) -> None:
    assert weight(written) == Fraction(grams)


@pytest.mark.parametrize(
    "written", ["80 lb cover", "80 LB Cover", "80# cover", "80 lbs cardstock", "80 pound card stock"]
)
def test_ways_of_writing_a_cover_weight(written: str) -> None:
    cover = find_grade("cover")
    assert cover is not None
    assert weight(written) == grammage(Fraction(80), cover)


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("heavy", "weight of paper can't be read"),
        ("80", "weight of paper can't be read"),
        ("80 lb", "grade of paper missing"),
        ("80 lb covre", "unknown grade of paper"),
        ("0 gsm", "weight of paper out of range"),
        ("2000.1 gsm", "weight of paper out of range"),
        ("800 lb cover", "weight of paper out of range"),
    ],
)
def test_weights_that_can_not_be_read(written: str, name: str) -> None:
    found = read_weight(written, place=HERE)
    assert isinstance(found, Finding)
    assert (found.name, found.place) == (name, HERE)
    assert found.mend


def test_a_misspelt_grade_is_guessed_and_all_grades_are_listed() -> None:
    found = read_weight("80 lb covre", place=None)
    assert isinstance(found, Finding)
    assert found.mend == "Write `cover`, if that is meant. Grades: bond, cover, text, index, bristol, tag."


@pytest.mark.parametrize(
    ("written", "width", "height", "grams", "ounces"),
    [
        # Sheet masses, reckoned (reckoned).
        pytest.param("65 lb cover", INCH * 17 / 2, INCH * 11, "10.6027", "0.3740", id="letter, 65 lb cover"),
        pytest.param("80 lb cover", INCH * 17 / 2, INCH * 11, "13.0495", "0.4603", id="letter, 80 lb cover"),
        pytest.param("110 lb index", INCH * 17 / 2, INCH * 11, "11.9967", "0.4232", id="letter, 110 lb index"),
        pytest.param("250 g/m2", Fraction(210), Fraction(297), "15.5925", "0.5500", id="A4, 250 g/m2"),
    ],
)
def test_mass_of_a_sheet(written: str, width: Fraction, height: Fraction, grams: str, ounces: str) -> None:
    mass = sheet_grams(weight(written), width, height)
    assert abs(mass - Fraction(grams)) <= Fraction(1, 20000)
    assert abs(mass / GRAMS_IN_OUNCE - Fraction(ounces)) <= Fraction(1, 20000)


def test_an_ounce() -> None:
    assert Fraction("28.349523125") == GRAMS_IN_OUNCE  # NIST Handbook 44, appendix C: pound / 16


@pytest.mark.parametrize(
    ("written", "low", "high"),
    [
        # Typical uncoated card (from memory): the estimate's range must take these in.
        ("65 lb cover", "0.23", "0.25"),
        ("100 lb cover", "0.33", "0.38"),
        ("110 lb index", "0.216", "0.241"),
    ],
)
def test_estimated_thickness_takes_in_typical_stock(written: str, low: str, high: str) -> None:
    thickness = estimate_thickness(weight(written))
    assert thickness.least < Fraction(low) < Fraction(high) < thickness.most
    assert thickness.least < thickness.likely < thickness.most
    assert "estimated" in thickness.statement


def test_thickness_is_weight_times_bulk() -> None:
    thickness = estimate_thickness(Fraction(200))
    assert (thickness.least, thickness.likely, thickness.most) == (Fraction("0.2"), Fraction("0.26"), Fraction("0.29"))


def test_grades_have_no_name_in_common() -> None:
    names = [name for grade in GRADES for name in (grade.name, *grade.synonyms)]
    assert len(names) == len(set(names))
