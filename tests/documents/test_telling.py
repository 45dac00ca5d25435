"""What the documents say of the small card, reckoned by hand from its recipe."""

from fractions import Fraction

import pytest

from foldproof.documents.view import Cut, Fact, View
from foldproof.folding.card import Card


def test_at_a_glance(view: View) -> None:
    facts = {fact.label: fact.text for fact in view.facts}
    assert facts["Finished size"] == "4 1/4 × 5 1/2 in (108.0 × 139.7 mm)", "NIST SP 811: 1 in = 25.4 mm exactly"
    assert facts["Envelope"] == "A2, 4 3/8 × 5 3/4 in; it leaves 1/8 × 1/4 in", "the size is from a secondary page"
    assert facts["Time"] == "7 min, drying 5 min"
    assert facts["Sheets"] == "1 slate and 1 waves"
    assert "January 2021" in facts["Post"]
    assert "Your post office has the last word" in facts["Post"]
    assert Fact(label="Skill", text="beginner") in view.facts


def test_cut_and_score(view: View) -> None:
    assert view.cuts == (
        Cut(names=("base",), count=1, paper="slate", size="8 1/2 × 5 1/2 in",
            scores=("score at 4 1/4 in from the left edge (mountain fold)", "its back is the inside of the card")),
        Cut(names=("mat",), count=1, paper="waves", size="4 × 5 1/4 in", scores=()),
    )


def test_finished_views_come_closed_first_with_their_size(view: View) -> None:
    assert [shown.caption for shown in view.finished] == ["Closed: 4 1/4 × 5 1/2 in", "Open: 8 1/2 × 5 1/2 in"]


def test_short_lines_carry_every_number_of_the_actions(view: View) -> None:
    base, mat = view.steps
    assert base.short == (
        "Cut the base 8 1/2 × 5 1/2 in", "Lay the base with a long edge against the fence, front up",
        "Score 4 1/4 in from the stop", "Fold on the spine away from you (mountain)",
    )
    assert mat.short == (
        "Cut the mat 4 × 5 1/4 in", "Fix the mat to the outside of the cover with wet glue: 1/8 in border all round",
        "Let it dry for 5 min",
    )


def test_prose_is_filled_in_and_safe(view: View) -> None:
    base, mat = view.steps
    assert "&lt;behind&gt;" in base.prose
    assert "<em>long</em>" in base.prose
    assert 'border of <span class="length"><span class="fraction">1/8</span> in</span>' in mat.prose
    assert base.tip == "<p>Press <strong>twice</strong>.</p>"


def test_a_caution_stands_once_at_the_first_use(view: View) -> None:
    base, mat = view.steps
    assert any("cutting track" in caution for caution in base.cautions), "the trimmer's usual caution"
    assert mat.cautions == ("Keep glue off the cloth.",), "the trimmer again: its caution is not repeated"


def test_basic_tools_are_told_apart(view: View) -> None:
    assert [tool.name for tool in view.tools] == ["trimmer", "scoring board"]
    assert view.basic_tools == ("pencil",)


def test_shots(view: View) -> None:
    first, second, third, fourth = view.shooting.shots
    assert [shot.key for shot in view.shooting.shots] == ["1.base.a", "1.base.b", "2.mat.a", "2.mat.b"]
    assert [third.framing, fourth.framing] == ["From overhead, wide", "From overhead, close"], "cut, then glue"
    assert [first.seconds, second.seconds] == [Fraction(25), Fraction(5)]
    assert not first.estimated
    assert first.table == ()
    assert second.table == ("base, front up, its bottom edge nearest", "folded: spine")
    assert third.table == ()
    assert fourth.table[0] == "base, front up, its bottom edge nearest"
    assert third.estimated
    assert third.seconds == 15, "26 words at 130 a minute take 12 s, cutting 8 s by our own guess; up to the next five"
    assert fourth.seconds == 10, "gluing, by our own guess"
    assert fourth.so_far == 55 == view.shooting.total
    assert third.line == "Cut the mat 4 x 5 1/4 in. Glue it on with a border of 1/8 in and let it dry 5 min."
    assert third.say == (
        "Cut the mat four by five and a quarter inches. Glue it on with a border of an eighth of an inch and let it "
        "dry five minutes.")
    assert [shot.goes_on for shot in view.shooting.shots] == ["", "", "", "2a"]
    assert [shot.once for shot in view.shooting.shots] == [True, False, True, True]


@pytest.mark.parametrize("name", ["closed", "open"])
def test_captions_are_the_poses_own_size(view: View, card: Card, name: str) -> None:
    pose = card.pose(name)
    assert pose is not None
    assert any(shown.pose == name for shown in view.finished)
