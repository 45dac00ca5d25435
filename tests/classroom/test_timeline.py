"""Reckoned by hand from the small card's minutes: 2 and 1 to cut, 4 to score, 7 to glue of which 5 dry, 2 to fold."""

from fractions import Fraction

import pytest
from lessons import STEPS, heads, lesson, minutes

from foldproof.classroom.timeline import timeline

ALL_AHEAD = [("Small card", "base"), ("Small card", "mat")]


def whole(seconds: Fraction) -> int:
    """Whole minutes."""
    assert seconds % 60 == 0, seconds
    return int(seconds // 60)


def test_at_the_recipes_own_pace_everything_cut_ahead() -> None:
    moments = timeline([lesson("  pace: 1\n  welcome: 5 min\n  tidying: 10 min")], heads(12), ALL_AHEAD)
    assert [(one.kind, whole(one.start), whole(one.seconds)) for one in moments] == [
        ("welcome", 0, 5),
        ("cut ahead", 5, 0),
        ("cut ahead", 5, 0),
        ("step", 5, 4),
        ("step", 9, 2),
        ("drying", 11, 5),
        ("step", 16, 2),
        ("tidying", 18, 10),
    ]


def test_beginners_work_slower_but_glue_dries_as_ever() -> None:
    moments = timeline([lesson("  pace: 1 1/2\n  welcome: 0 min\n  tidying: 0 min")], heads(12), ALL_AHEAD)
    assert [(one.kind, whole(one.start), whole(one.seconds)) for one in moments if one.seconds] == [
        ("step", 0, 6),
        ("step", 6, 3),
        ("drying", 9, 5),
        ("step", 14, 3),
    ]


@pytest.mark.parametrize(("tools", "people", "rounds", "total"), [
    pytest.param("", 12, 12, 24, id="one trimmer, twelve people: 12 turns of 2 minutes"),
    pytest.param("\n  tools at hand: {trimmer: 3}", 12, 4, 8, id="three trimmers: 4 turns"),
    pytest.param("\n  tools at hand: {trimmer: 5}", 12, 3, 6, id="five trimmers: 3 turns, the last not full"),
    pytest.param("\n  tools at hand: {trimmer: 12}", 12, None, 2, id="a trimmer each"),
    pytest.param("", 1, None, 2, id="one person"),
])
def test_the_queue_at_the_trimmer(tools: str, people: int, rounds: int | None, total: int) -> None:
    moments = timeline([lesson(f"  pace: 1{tools}")], heads(people), [("Small card", "mat")])
    cut = next(one for one in moments if one.title == "Cut the base")
    assert cut.seconds == minutes(total)
    assert (cut.queue.rounds if cut.queue else None) == rounds
    if cut.queue:
        assert (cut.queue.tool, cut.queue.seconds) == ("trimmer", minutes(total))


TWO = STEPS.replace("  - {title: Cut the mat", """  - title: Cut the tag and mount it
    tools: [trimmer]
    minutes: 3
    do: [{cut: [2, 1], piece: tag}, {cut: [2 1/2, 1 1/2], piece: tag mat}]
  - {title: Cut the mat""")
WHILE_DRYING = TWO.replace("  - {title: Fold it", """  - title: Mount the tag
    supplies: [glue]
    minutes: 2
    do: [{attach: {what: tag, border: 1/4, with: glue}, piece: tag mat}]
  - {title: Fold it""")
LAYERS = """  tag mat: {paper: plain, size: [2 1/2, 1 1/2], upon: front front, at: {centred: both}, adhesive: glue}
  tag: {paper: plain, size: [2, 1], upon: tag mat front, at: {centred: both}, adhesive: glue}
"""
EVERYTHING = [*ALL_AHEAD, ("Small card", "tag"), ("Small card", "tag mat")]


def test_work_that_touches_nothing_wet_goes_on_while_glue_dries() -> None:
    """The base dries from 6 to 11; the tag is mounted from 6 to 8 beside it; so the fold waits 3 minutes, not 5."""
    card = lesson("  pace: 1\n  welcome: 0 min\n  tidying: 0 min", steps=WHILE_DRYING, layers=LAYERS)
    moments = timeline([card], heads(4), EVERYTHING)
    assert [(one.title, whole(one.start), whole(one.seconds)) for one in moments if one.seconds] == [
        ("Score it", 0, 4),
        ("Glue the mat", 4, 2),
        ("Mount the tag", 6, 2),
        ("Let the glue dry", 8, 3),
        ("Fold it", 11, 2),
    ]
    assert next(one for one in moments if one.title == "Mount the tag").note.startswith("while the ")


def test_a_step_half_of_whose_parts_are_cut_ahead_takes_half_of_its_minutes() -> None:
    card = lesson("  pace: 1", steps=TWO, layers=LAYERS)
    moments = timeline([card], heads(1), [*ALL_AHEAD, ("Small card", "tag")])
    assert next(one for one in moments if one.title == "Cut the tag and mount it").seconds == minutes(Fraction(3, 2))


def test_what_is_handed_out_when() -> None:
    moments = timeline([lesson("  pace: 1")], heads(12), ALL_AHEAD)
    given = {one.title: one.hand_out for one in moments if one.hand_out}
    assert given == {"Score it": ("base", "scoring board"), "Glue the mat": ("mat", "glue")}


def test_two_cards_follow_each_other() -> None:
    one, other = lesson("  pace: 1\n  welcome: 0 min\n  tidying: 0 min"), lesson(title="Other")
    moments = timeline([one, other], heads(4), [*ALL_AHEAD, ("Other", "base"), ("Other", "mat")])
    starts = [(m.card, whole(m.start)) for m in moments if m.title == "Score it"]
    assert starts == [("Small card", 0), ("Other", 13)]  # 4 + 2 + 5 of drying + 2


def test_a_step_without_minutes_is_reckoned_as_two_and_says_so() -> None:
    steps = STEPS.replace("title: Score it, piece: base, tools: [scoring board], minutes: 4",
                          "title: Score it, piece: base, tools: [scoring board]")
    score = next(m for m in timeline([lesson("  pace: 1", steps=steps)], heads(1), ALL_AHEAD) if m.number == 3)
    assert (score.seconds, score.guessed) == (minutes(2), True)
