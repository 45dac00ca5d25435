from fractions import Fraction

import pytest

from foldproof.facts.envelopes import ENVELOPES, find_envelope, unknown_envelope
from foldproof.findings.finding import Place
from foldproof.measures.quantity import Unit

# Makers' size charts (S; the A9 card and the squares from memory), inches.
INCHES = [
    ("A1", "3.625 x 5.125", "3.5 x 4.875"),
    ("A2", "4.375 x 5.75", "4.25 x 5.5"),
    ("A6", "4.75 x 6.5", "4.5 x 6.25"),
    ("A7", "5.25 x 7.25", "5 x 7"),
    ("A8", "5.5 x 8.125", "5.25 x 7.875"),
    ("A9", "5.75 x 8.75", "5.5 x 8.5"),
    ("A10", "6 x 9.5", "5.75 x 9.25"),
    ("slimline", "3.875 x 8.875", "3.625 x 8.625"),
    ("#10", "4.125 x 9.5", "4 x 9.25"),
    ("Monarch", "3.875 x 7.5", "3.75 x 7.25"),
    ("Lee", "5.25 x 7.25", "5 x 7"),
    ("5 in square", "5 x 5", "4.75 x 4.75"),
    ("5 1/2 in square", "5.5 x 5.5", "5.25 x 5.25"),
    ("6 in square", "6 x 6", "5.75 x 5.75"),
    ("6 1/4 in square", "6.25 x 6.25", "6 x 6"),
    ("6 1/2 in square", "6.5 x 6.5", "6.25 x 6.25"),
    ("7 in square", "7 x 7", "6.75 x 6.75"),
]
# ISO 269 / DIN 678 (S).
METRIC = [
    ("C3", "324 x 458"),
    ("C4", "229 x 324"),
    ("C5", "162 x 229"),
    ("C6", "114 x 162"),
    ("C7/C6", "81 x 162"),
    ("C7", "81 x 114"),
    ("DL", "110 x 220"),
    ("B4", "250 x 353"),
    ("B5", "176 x 250"),
    ("B6", "125 x 176"),
    ("E4", "280 x 400"),
]


def pair(written: str) -> tuple[Fraction, Fraction]:
    short, long = written.split(" x ")
    return Fraction(short), Fraction(long)


@pytest.mark.parametrize(("name", "size", "card"), INCHES, ids=[row[0] for row in INCHES])
def test_north_american_envelopes(name: str, size: str, card: str) -> None:
    envelope = find_envelope(name)
    assert envelope is not None and envelope.usual_card_mm is not None
    assert envelope.unit is Unit.INCH
    assert envelope.size == pair(size)
    assert tuple(side / Fraction("25.4") for side in envelope.usual_card_mm) == pair(card)


@pytest.mark.parametrize(("name", "size"), METRIC, ids=[row[0] for row in METRIC])
def test_metric_envelopes(name: str, size: str) -> None:
    envelope = find_envelope(name)
    assert envelope is not None
    assert (envelope.unit, envelope.size_mm, envelope.size) == (Unit.MM, pair(size), pair(size))


def test_the_tables_are_whole() -> None:
    assert {e.name for e in ENVELOPES} == {row[0] for row in INCHES} | {row[0] for row in METRIC}


@pytest.mark.parametrize(
    ("name", "mm"),
    [
        ("A1", "92.075 x 130.175"),
        ("A2", "111.125 x 146.05"),
        ("A7", "133.35 x 184.15"),
        ("A8", "139.7 x 206.375"),
        ("A9", "146.05 x 222.25"),
        ("#10", "104.775 x 241.3"),
        ("slimline", "98.425 x 225.425"),
        ("6 in square", "152.4 x 152.4"),
    ],
)
def test_exact_millimetres(name: str, mm: str) -> None:
    envelope = find_envelope(name)
    assert envelope is not None
    assert envelope.size_mm == pair(mm)  # reckoned: 1 in = 25.4 mm


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("a7", "A7"),
        ("A7 envelope", "A7"),
        ("4-bar", "A1"),
        ("4bar", "A1"),
        ("10", "#10"),
        ("No. 10", "#10"),
        ("dl", "DL"),
        ("c6", "C6"),
        ("C6/C7", "C7/C6"),
        ("6 in square", "6 in square"),
        ("6 square", "6 in square"),
        ('6" square', "6 in square"),
        ("6.5 inch square", "6 1/2 in square"),
        ("5½ in square", "5 1/2 in square"),
        ("A-Long", "slimline"),
        ("7-3/4", "Monarch"),
        ("lee", "Lee"),
    ],
)
def test_ways_of_naming_an_envelope(written: str, name: str) -> None:
    found = find_envelope(written)
    assert found is not None
    assert found.name == name


def test_a6_names_the_north_american_envelope_not_the_iso_sheet() -> None:
    envelope = find_envelope("A6")
    assert envelope is not None
    assert envelope.size_mm == (Fraction("120.65"), Fraction("165.1"))


def test_usual_clearance_is_what_the_usual_card_leaves() -> None:
    a2, b6 = find_envelope("A2"), find_envelope("B6")
    assert a2 and b6
    assert a2.usual_clearance_mm == (Fraction("3.175"), Fraction("6.35"))  # 1/8 in in height: no general quarter inch
    assert b6.usual_clearance_mm == (Fraction("6.35"), Fraction("6.35"))


def test_clearance_does_not_care_how_the_card_is_held() -> None:
    a2 = find_envelope("A2")
    assert a2 is not None
    assert a2.clearance_mm((Fraction("139.7"), Fraction("107.95"))) == a2.clearance_mm(
        (Fraction("107.95"), Fraction("139.7"))
    )
    assert a2.clearance_mm((Fraction(120), Fraction(100))) == (Fraction("11.125"), Fraction("26.05"))
    assert a2.clearance_mm((Fraction(112), Fraction(100)))[0] > 0 > a2.clearance_mm((Fraction(150), Fraction(112)))[0]


def test_an_unknown_envelope_is_a_finding_with_the_likely_one() -> None:
    place = Place(file="a.yaml", line=1, column=1)
    assert find_envelope("monarc") is None
    finding = unknown_envelope("monarc", place)
    assert finding.place == place
    assert finding.mend is not None and finding.mend.startswith("Write `Monarch`, if that is meant. Known: A1, A2,")


def test_every_row_has_its_source() -> None:
    assert all(e.source.text and (e.card_source is not None) == (e.usual_card_mm is not None) for e in ENVELOPES)


@pytest.mark.parametrize(
    ("name", "card"),
    [
        # Common practice: a sheet of the A series, whole, folded once, twice or in thirds (reckoned from A4 and A3).
        ("C3", "297 x 420"),
        ("C4", "210 x 297"),
        ("C5", "148.5 x 210"),
        ("C6", "105 x 148.5"),
        ("C7/C6", "74.25 x 148.5"),
        ("C7", "74.25 x 105"),
        ("DL", "100 x 210"),
    ],
)
def test_usual_cards_of_metric_envelopes(name: str, card: str) -> None:
    envelope = find_envelope(name)
    assert envelope is not None
    assert envelope.usual_card_mm == pair(card)


def test_quarters_may_be_glyphs() -> None:
    found = find_envelope("6¼ in square")
    assert found is not None
    assert found.name == "6 1/4 in square"
