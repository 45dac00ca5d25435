"""What must be so when the camera starts."""

from film_recipe import small_film

from foldproof.filming.continuity import Continuity, Drying, continuity
from foldproof.filming.plan import plan_film
from foldproof.filming.ready import pieces_prepared, things_ready


def held(**changes: str) -> dict[str, Continuity]:
    card, making = small_film(**changes)
    return dict(continuity(card, plan_film(card, making).filming_order))


def test_tools_lie_where_they_are_used() -> None:
    found = held()
    assert (found["1.cut-the-base"].under, found["1.cut-the-base"].blade) == (("trimmer",), "cutting")
    assert (found["2.score-the-base"].under, found["2.score-the-base"].blade) == (("scoring board",), None)
    assert found["4.stamp-the-mat"].at_hand == ("stamp", "ink")
    assert found["2.score-the-base"].away == ("stamp", "ink"), "filmed after the stamp"
    assert found["5.fold-and-glue"].away == ("scoring board",)


def test_what_is_made_already_lies_aside() -> None:
    """Filmed: both are cut, the mat is stamped, then the base is scored with the mat out of the picture."""
    found = held()
    assert found["2.score-the-base"].aside == ("mat",)
    assert found["2.score-the-base"].start == ("base",)
    assert found["5.fold-and-glue"].aside == ()


def test_ink_dries_and_hands_are_clean_after_a_stamp() -> None:
    found = held()
    glue = found["5.fold-and-glue"]
    assert glue.dry == (Drying(what="ink", pieces=("mat",), seconds=None, since="4.stamp-the-mat"),)
    assert found["2.score-the-base"].clean == ("ink",), "filmed just after the stamp"
    assert found["4.stamp-the-mat"].clean == () == glue.clean


def test_glue_dries_before_the_card_is_shown() -> None:
    found = held(filming="{beauty: {pose: closed}}")
    (dry,) = (one for one in found["end.1"].dry if one.what == "glue")
    assert dry.seconds == 300
    assert (dry.since, dry.pieces) == ("5.fold-and-glue", ("base", "mat"))
    assert found["end.1"].clean == ("glue",)


def test_things_are_ready_in_the_order_of_filming() -> None:
    card, making = small_film()
    plan = plan_film(card, making)
    things = things_ready(card, plan, continuity(card, plan.filming_order))
    assert [(thing.name, thing.kind, thing.note) for thing in things] == [
        ("plain", "paper", "base, mat"), ("trimmer", "tool", ""), ("stamp", "tool", ""), ("ink", "supply", ""),
        ("scoring board", "tool", ""), ("wet glue", "supply", "")]


def test_what_is_made_off_camera_is_counted() -> None:
    card, making = small_film(cut_mat="off camera", stamp="off camera")
    (prepared,) = pieces_prepared(card, plan_film(card, making))
    assert (prepared.piece, prepared.count, prepared.steps) == ("mat", 1, (3, 4)) and not prepared.duplicate
    assert prepared.shot == "5.fold-and-glue"


def test_duplicates_say_at_which_state() -> None:
    """Close, wide, close on one piece: a second base, cut and scored, saves a set-up."""
    card, making = small_film(
        cut_base="overhead close", score="overhead wide", cut_mat="overhead wide", stamp="overhead wide",
        glue="overhead close", filming="{duplicates: 1}")
    plan = plan_film(card, making)
    assert [choice.setups for choice in plan.order.choices][:1] == [plan.order.changes + len(plan.order.duplicates)]
    for one in plan.order.duplicates:
        assert one.pieces and one.steps and one.seconds > 0
