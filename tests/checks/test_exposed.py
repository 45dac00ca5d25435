"""What the checks hand on to the documents: cautions, the fit in the envelope, the piece of mail."""

from fractions import Fraction

import pytest
from recipes_for_checks import GATE, changed, proved

from foldproof.checks.envelope import envelope_fit
from foldproof.checks.post import mail_piece, verdicts
from foldproof.checks.words_of_caution import cautions
from foldproof.facts.cautions import CAUTIONS

MM = Fraction(127, 5)


def test_each_caution_comes_once_at_first_use() -> None:
    recipe = changed(
        ("    tools: [scoring board]\n", "    tools: [scoring board, trimmer, craft knife]\n"),
        ("  trimmer: {}", "  trimmer: {}\n  craft knife: {caution: Cap it.}"),
    )
    card, _ = proved(recipe)
    assert [(one.step, one.about, one.text) for one in cautions(card)] == [
        ("cut", "trimmer", CAUTIONS["trimmer"].text),
        ("score-the-doors", "craft knife", "Cap it."),
    ]


def test_a_scoring_board_and_wet_glue_need_no_caution() -> None:
    assert {one.about for one in cautions(proved(GATE)[0])} == {"trimmer"}


def test_the_usual_card_leaves_the_usual_room() -> None:
    # A2 is 4 3/8 x 5 3/4 in, its usual card 4 1/4 x 5 1/2 in: secondary sources
    fit = envelope_fit(proved(GATE)[0])
    assert fit is not None and fit.goes_in and not fit.tight
    assert fit.room_mm == (MM / 8, MM / 4)


def test_mass_is_the_sum_of_all_papers_and_the_envelope() -> None:
    piece = mail_piece(proved(GATE)[0])
    assert piece is not None
    slate = Fraction(17, 2) * Fraction(11, 2) + 4 * Fraction(21, 4) + Fraction(7, 2) * Fraction(7, 4)
    waves = Fraction(15, 8) * Fraction(21, 4)
    envelope = Fraction(35, 8) * Fraction(23, 4) * Fraction(5, 2)
    # 80 lb cover 216.329 and 70 lb text 103.610 g/m2: reckoned; 90 g/m2 for the envelope, from memory
    grams = (float(slate) * 216.329 + float(waves) * 103.610 + float(envelope) * 90) * 0.0254**2
    assert float(piece.mass_g) == pytest.approx(grams, rel=1e-5)
    # middle, inside mat, door, left mat and band lie on each other; two walls of the envelope, 0.23 mm
    assert piece.thickness_mm == pytest.approx((4 * 0.011 + 0.005) * 25.4 + 0.23)


def test_a_plain_letter_is_a_plain_letter() -> None:
    # A2 is a letter in the United States, the ratio 1.3143 just passes 1.3 (sources: facts/post_united_states.py)
    (verdict,) = verdicts(proved(GATE)[0])
    assert (verdict.post, verdict.what, verdict.plain) == ("United States", "letter", True)
