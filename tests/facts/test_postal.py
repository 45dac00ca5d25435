from fractions import Fraction

import pytest

from foldproof.facts.envelopes import find_envelope
from foldproof.facts.postal import (
    POSTS,
    Feature,
    MailPiece,
    Verdict,
    canada,
    germany,
    united_kingdom,
    united_states,
    united_states_abroad,
    universal_postal_union,
)

INCH = Fraction("25.4")
OUNCE = Fraction("28.349523125")
THIN = Fraction("0.6")
"""Thin, and yet over the 0.009 in that larger letters need."""


def piece(name: str, thickness: Fraction = THIN, mass: Fraction = Fraction(15), *features: Feature) -> MailPiece:
    envelope = find_envelope(name)
    assert envelope is not None
    short, long = envelope.size_mm
    return MailPiece(length_mm=long, height_mm=short, thickness_mm=thickness, mass_g=mass, features=frozenset(features))


def why(verdict: Verdict) -> str:
    return "; ".join(reason.text for reason in verdict.reasons)


# Fourteen envelopes against five posts, reckoned from the sources named in facts/postal.py (C).
# Columns: US, UK Letter, Canada standard, Germany Standardbrief, UPU least face.
TABLE = [
    ("A1", "letter", True, False, False, False),
    ("A2", "letter", True, True, False, True),
    ("A7", "letter", True, True, False, True),
    ("A8", "letter", True, True, False, True),
    ("A9", "letter", True, True, False, True),
    ("#10", "letter", False, True, False, True),
    ("slimline", "letter", True, True, True, True),
    ("6 in square", "nonmachinable letter", True, True, False, True),
    ("6 1/4 in square", "flat", True, False, False, True),
    ("C6", "letter", True, True, True, True),
    ("DL", "letter", True, True, True, True),
    ("B6", "letter", True, True, True, True),
    ("C5", "flat", True, False, False, True),
    ("C7", "not mailable", True, False, False, False),
]


@pytest.mark.parametrize(("name", "us", "uk", "ca", "de", "upu"), TABLE, ids=[row[0] for row in TABLE])
def test_the_cross_check_table(name: str, us: str, uk: bool, ca: bool, de: bool, upu: bool) -> None:
    mail = piece(name)
    assert united_states(mail).what == us
    assert united_kingdom(mail).plain is uk
    assert canada(mail).plain is ca
    assert germany(mail).plain is de
    assert universal_postal_union(mail).plain is upu


@pytest.mark.parametrize("name", [row[0] for row in TABLE if row[0] not in ("A1", "C7") and row[1] == "letter"])
def test_larger_letters_need_nine_thousandths(name: str) -> None:
    # DMM 101.1.1a and 1.2f, January 2021 (P): every row but A1 and C7 is over 6 in long or 4-1/4 in high.
    assert united_states(piece(name, Fraction("0.008") * INCH)).what == "nonmachinable letter"
    assert united_states(piece(name, Fraction("0.009") * INCH)).what == "letter"
    assert united_states(piece("A1", Fraction("0.008") * INCH)).what == "letter"


def test_a_bare_card_has_too_short_a_shape_and_its_envelope_saves_it() -> None:
    bare = MailPiece(
        length_mm=INCH * Fraction(11, 2), height_mm=INCH * Fraction(17, 4), thickness_mm=THIN, mass_g=Fraction(10)
    )
    assert united_states(bare).what == "nonmachinable letter"  # 1.2941, below 1.3 (reckoned)
    assert "1.29 times" in why(united_states(bare))
    assert united_states(piece("A2")).what == "letter"  # 1.3143


def inches(length: str, height: str, thickness: str = "0.02", mass: str = "10", *features: Feature) -> MailPiece:
    return MailPiece(
        length_mm=Fraction(length) * INCH,
        height_mm=Fraction(height) * INCH,
        thickness_mm=Fraction(thickness) * INCH,
        mass_g=Fraction(mass),
        features=frozenset(features),
    )


@pytest.mark.parametrize(
    ("mail", "what", "because"),
    [
        # DMM 101, January 2021 (P) unless said; each limit from both sides.
        pytest.param(inches("5", "3.5"), "letter", "at least 5 x 3 1/2 in", id="least size"),
        pytest.param(inches("4.99", "3.5"), "not mailable", "less than 5 in", id="too short"),
        pytest.param(inches("5", "3.49"), "not mailable", "less than 3 1/2 in", id="too low"),
        pytest.param(inches("5", "3.5", "0.0069"), "not mailable", "0.007", id="too thin"),
        pytest.param(inches("5", "3.5", "0.007"), "letter", "within", id="least thickness"),
        pytest.param(inches("11.5", "6.125", "0.25"), "letter", "within", id="greatest size"),
        pytest.param(inches("11.51", "6.125"), "flat", "11 1/2 in of a letter", id="too long for a letter"),
        pytest.param(inches("9", "6.13"), "flat", "6 1/8 in of a letter", id="too high for a letter"),
        pytest.param(inches("9", "6", "0.26"), "flat", "1/4 in of a letter", id="too thick for a letter"),
        pytest.param(inches("15", "12", "0.75"), "flat", "of a letter", id="greatest flat (USPS flats, P)"),
        pytest.param(inches("15.1", "12"), "parcel", "15 in of a flat", id="too long for a flat"),
        pytest.param(inches("9", "6", "0.76"), "parcel", "3/4 in of a flat", id="too thick for a flat"),
        pytest.param(inches("9", "7", "0.3", "10", Feature.RIGID), "parcel", "flexible", id="a stiff flat"),
        pytest.param(inches("9", "7", "0.3", "368.6"), "parcel", "13 oz", id="too heavy for a flat (M)"),
        pytest.param(
            inches("7.25", "5.25", "0.02", "99.3"), "letter at the price of a flat", "3.5 oz", id="over 3.5 oz"
        ),
        pytest.param(inches("7.25", "5.25", "0.02", "99.2"), "letter", "needs 4 oz", id="under 3.5 oz"),
        pytest.param(inches("6.5", "5"), "letter", "within", id="ratio 1.3 exactly"),
        pytest.param(inches("6.49", "5"), "nonmachinable letter", "1.3 to 2.5", id="ratio under 1.3"),
        pytest.param(inches("10", "4"), "letter", "within", id="ratio 2.5 exactly"),
        pytest.param(inches("10.01", "4"), "nonmachinable letter", "1.3 to 2.5", id="ratio over 2.5"),
        pytest.param(
            inches("5.25", "7.25"), "nonmachinable letter", "short side", id="address on the short side (tips, P)"
        ),
        pytest.param(inches("7", "5", "0.02", "10", Feature.UNEVEN), "nonmachinable letter", "uneven", id="uneven"),
        pytest.param(inches("7", "5", "0.02", "10", Feature.CLASP), "nonmachinable letter", "clasp", id="clasp"),
        pytest.param(
            inches("7", "5", "0.02", "10", Feature.NOT_PAPER), "nonmachinable letter", "not paper", id="plastic"
        ),
        pytest.param(inches("7", "5", "0.02", "10", Feature.RIGID), "nonmachinable letter", "rigid", id="rigid (S)"),
        pytest.param(inches("7", "5", "0.02", "10", Feature.LOOSE), "nonmachinable letter", "loose", id="loose object"),
        pytest.param(
            inches("7", "5", "0.02", "10", Feature.NOT_RECTANGULAR), "not mailable", "rectangular", id="odd shape"
        ),
    ],
)
def test_united_states(mail: MailPiece, what: str, because: str) -> None:
    verdict = united_states(mail)
    assert verdict.what == what
    assert because in why(verdict)
    assert verdict.plain is (what == "letter")
    assert verdict.refused is (what == "not mailable")


def test_letters_abroad_are_half_an_inch_longer() -> None:
    # Postal Bulletin 22230a, 2008 (P).
    assert united_states_abroad(inches("5.49", "4")).refused
    assert not united_states_abroad(inches("5.5", "4")).refused
    assert "less than 5 1/2 in" in why(united_states_abroad(inches("5.4", "4")))


def mm(length: str, height: str, thickness: str = "0.5", mass: str = "15") -> MailPiece:
    return MailPiece(
        length_mm=Fraction(length), height_mm=Fraction(height), thickness_mm=Fraction(thickness), mass_g=Fraction(mass)
    )


@pytest.mark.parametrize(
    ("mail", "what"),
    [
        # Sizes: Ofcom (P); weights S.
        (mm("240", "165", "5", "100"), "Letter"),
        (mm("240.1", "165"), "Large Letter"),
        (mm("240", "165.1"), "Large Letter"),
        (mm("240", "165", "5.1"), "Large Letter"),
        (mm("240", "165", "5", "101"), "Large Letter"),
        (mm("353", "250", "25", "750"), "Large Letter"),
        (mm("353.1", "250"), "parcel"),
        (mm("300", "200", "25.1"), "parcel"),
        (mm("300", "200", "5", "751"), "parcel"),
        (mm("150", "150"), "Letter"),
    ],
)
def test_united_kingdom(mail: MailPiece, what: str) -> None:
    assert united_kingdom(mail).what == what


@pytest.mark.parametrize(
    ("mail", "within"),
    [
        # Two national copies of the UPU text (S).
        (mm("140", "90"), True),
        (mm("139.9", "90"), False),
        (mm("140", "89.9"), False),
        (mm("600", "290", "10"), True),
        (mm("601", "100"), False),
        (mm("600", "290", "10.1"), False),
    ],
)
def test_universal_postal_union(mail: MailPiece, within: bool) -> None:
    assert universal_postal_union(mail).plain is within
    assert universal_postal_union(mail).refused is not within


@pytest.mark.parametrize(
    ("mail", "what"),
    [
        # Canada Post, letter sizes (P); thickness S.
        (mm("140", "90", "0.18", "50"), "standard letter"),
        (mm("139", "90"), "smaller than a standard letter"),
        (mm("140", "90", "0.17"), "smaller than a standard letter"),
        (mm("245", "156", "5", "50"), "standard letter"),
        (mm("245.1", "156"), "oversize letter"),
        (mm("200", "156.1"), "oversize letter"),
        (mm("200", "100", "5.1"), "oversize letter"),
        (mm("200", "100", "5", "51"), "oversize letter"),
        (mm("380", "270", "20", "500"), "oversize letter"),
        (mm("381", "270"), "parcel"),
    ],
)
def test_canada(mail: MailPiece, what: str) -> None:
    assert canada(mail).what == what


@pytest.mark.parametrize(
    ("mail", "what"),
    [
        # Deutsche Post formats (S).
        (mm("140", "90", "5", "20"), "Standardbrief"),
        (mm("235", "125"), "Standardbrief"),
        (mm("175", "125"), "Standardbrief"),
        (mm("174.9", "125"), "Großbrief"),
        (mm("140", "90", "5.1"), "Kompaktbrief"),
        (mm("140", "90", "5", "21"), "Kompaktbrief"),
        (mm("139", "90"), "Kompaktbrief"),
        (mm("100", "70", "10", "50"), "Kompaktbrief"),
        (mm("99", "70"), "smaller than a letter"),
        (mm("353", "250", "20", "500"), "Großbrief"),
        (mm("354", "250"), "larger than a Großbrief"),
        (mm("235.1", "125"), "Großbrief"),
    ],
)
def test_germany(mail: MailPiece, what: str) -> None:
    assert germany(mail).what == what


@pytest.mark.parametrize("post", POSTS)
def test_every_verdict_says_why_whence_and_who_has_the_last_word(post: str) -> None:
    for name in ("A2", "6 in square", "C5", "C7", "C3"):
        verdict = POSTS[post](piece(name))
        assert verdict.post == post
        assert verdict.reasons and all(reason.source.text for reason in verdict.reasons)
        assert verdict.source.text
        assert "last word" in verdict.guidance


def test_the_american_text_is_dated() -> None:
    assert str(united_states(piece("A2")).source) == "USPS Domestic Mail Manual 101 (January 2021)"


@pytest.mark.parametrize(
    ("verdict", "what"),
    [
        # United States (DMM 101, flats: USPS Business Mail 101), at and just past each limit.
        (united_states(inches("4", "3", "0.25")), "not mailable"),
        (united_states(inches("4", "3", "0.251")), "flat"),
        (united_states(inches("15", "12.1")), "parcel"),
        (united_states(inches("9", "7", "0.3", "368.543")), "flat"),
        (united_states(inches("6", "4.25", "0.008")), "letter"),
        (united_states(inches("6.01", "4.25", "0.008")), "nonmachinable letter"),
        (united_states(inches("6", "4.26", "0.008")), "nonmachinable letter"),
        (
            united_states(MailPiece(length_mm=6 * INCH, height_mm=4 * INCH, thickness_mm=THIN, mass_g=OUNCE * 7 / 2)),
            "letter",
        ),
        (
            united_states(MailPiece(length_mm=9 * INCH, height_mm=7 * INCH, thickness_mm=THIN, mass_g=OUNCE * 13)),
            "flat",
        ),
        # United Kingdom (Ofcom)
        (united_kingdom(mm("353", "250.1")), "parcel"),
        # Canada (Canada Post)
        (canada(mm("300", "270.1")), "parcel"),
        (canada(mm("200", "100", "20.1")), "parcel"),
        (canada(mm("200", "100", "5", "500.1")), "parcel"),
        # Germany (Deutsche Post)
        (germany(mm("200", "125.1")), "Großbrief"),
        (germany(mm("200", "125.1", "6")), "Großbrief"),
        (germany(mm("200", "100", "10.1")), "Großbrief"),
        (germany(mm("200", "100", "10", "50.1")), "Großbrief"),
        (germany(mm("100", "71.5")), "Großbrief"),
        (germany(mm("99.9", "70")), "smaller than a letter"),
        (germany(mm("120", "70", "11")), "Großbrief"),
        (germany(mm("120", "69.9", "11")), "smaller than a letter"),
        (germany(mm("100", "70", "11")), "Großbrief"),
        (germany(mm("300", "250.1")), "larger than a Großbrief"),
        (germany(mm("200", "100", "20.1")), "larger than a Großbrief"),
        (germany(mm("200", "100", "5", "500.1")), "larger than a Großbrief"),
    ],
)
def test_just_past_each_limit(verdict: Verdict, what: str) -> None:
    assert verdict.what == what


def test_a_square_is_told_once_that_it_is_square() -> None:
    assert [reason.text for reason in united_states(piece("6 in square")).reasons] == [
        "it is square; 1.3 to 2.5 is wanted"
    ]


@pytest.mark.parametrize(("ounces", "steps"), [("1", None), ("1.01", "2 oz"), ("2", "2 oz"), ("3.4", "4 oz")])
def test_letters_are_priced_by_the_ounce(ounces: str, steps: str | None) -> None:
    mail = MailPiece(length_mm=7 * INCH, height_mm=5 * INCH, thickness_mm=THIN, mass_g=Fraction(ounces) * OUNCE)
    reasons = why(united_states(mail))
    assert (f"needs {steps}" in reasons) if steps else "priced" not in reasons
