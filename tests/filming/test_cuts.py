"""Steps cut into shots, by what hands do and as the recipe says; frames measured with a ruler by hand."""

from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest
from film_recipe import small_film

from foldproof.filming.continuity import continuity
from foldproof.filming.plan import plan_film
from foldproof.filming.records import FilmPlan, Shot
from foldproof.pipeline import prove


def plan(**changes: str) -> FilmPlan:
    return plan_film(*small_film(**changes))


def shots(**changes: str) -> dict[str, Shot]:
    return {shot.key: shot for shot in plan(**changes).shots}


def test_each_kind_of_work_has_its_framing() -> None:
    free = dict.fromkeys(("cut_base", "score", "cut_mat", "stamp"), "{seconds: 20}")
    found = shots(**free, glue="{seconds: 20}")
    assert {key: shot.framing for key, shot in found.items()} == {
        "1.cut-the-base": "overhead wide",
        "2.score-the-base": "overhead",
        "3.cut-the-mat": "overhead wide",
        "4.stamp-the-mat": "overhead close",
        "5.fold-and-glue": "overhead",
    }, "folding that makes way for glue is seen with it"


def test_a_step_that_only_shows_the_finished_card_is_seen_from_the_front() -> None:
    card, making = small_film()
    assert plan_film(card, making).shots[-1].framing == "overhead", "the last step glues"


@pytest.mark.parametrize(("key", "width", "why"), [
    ("1.cut-the-base", 19, "the sheet, 11 x 8 1/2, an inch round it: 10 1/2 in high, 18 2/3 in wide at 16 to 9"),
    ("2.score-the-base", 13, "8 x 5, an inch round it: 7 in high, 12 4/9 in wide"),
    ("4.stamp-the-mat", 6, "3 x 2, half an inch round it: 3 in high, 5 1/3 in wide"),
])
def test_the_frame_holds_the_work_with_room_for_hands(key: str, width: int, why: str) -> None:
    assert shots()[key].frame.width == width, why


def test_a_tall_picture_is_as_high_as_it_must_be() -> None:
    frame = shots(filming="{picture: tall}")["2.score-the-base"].frame
    assert frame.need == 10, "8 in wide with an inch on either side"
    assert frame.height == frame.width * F(16, 9)


def test_a_frame_is_given_or_set_on_what_must_be_inside() -> None:
    found = shots(score="{framing: overhead close, inside: cover}", stamp="{framing: overhead close, width: 8}")
    assert found["2.score-the-base"].frame.need == 11, "the cover, 4 x 5, half an inch round: 6 in high, 10 2/3 wide"
    assert found["2.score-the-base"].frame.inside == ("cover",)
    assert found["4.stamp-the-mat"].frame.width == 8


def test_a_step_may_be_told_in_several_shots() -> None:
    found = shots(score="[{actions: 2, seconds: 8}, {actions: 0, framing: overhead close, seconds: 4}, {seconds: 9}]")
    own = [found[f"2.score-the-base.{letter}"] for letter in "abc"]
    assert [len(shot.done) for shot in own] == [2, 0, 2]
    assert [shot.so_far - own[0].so_far for shot in own] == [0, 4, 13]
    assert [shot.say for shot in own] == ["Score it at 4 in.", "", ""]
    assert [shot.once for shot in own] == [False, False, True]


def test_what_is_cut_into_a_piece_is_filmed_once_and_each_shot_has_its_own_tool() -> None:
    proof = prove(Path(__file__).parents[2] / "recipes" / "signal-hut.yaml")
    assert proof.card is not None and proof.making is not None
    found = {shot.key: shot for shot in plan_film(proof.card, proof.making).shots}
    window, slits = found["2.punch-the-lamp-window"], found["3.cut-the-two-slits"]
    assert window.once and slits.once
    assert window.step is not None and slits.step is not None
    tools = (*window.step.spec.tools, *slits.step.spec.tools)
    step = replace(window.step, done=window.done + slits.done, spec=replace(window.step.spec, tools=tools))
    both = continuity(proof.card, [replace(window, step=step), replace(slits, step=step)])
    assert (both[window.key].under, both[window.key].at_hand) == ((), ("circle punch",))
    assert (both[slits.key].under, both[slits.key].at_hand) == (("trimmer",), ())


def test_steps_off_camera_are_no_shots_but_are_told() -> None:
    found = plan(cut_mat="off camera")
    assert "3.cut-the-mat" not in [shot.key for shot in found.shots]
    assert [step.number for step in found.prepared] == [3]
    assert [step.seconds > 0 for step in found.steps] == [True, True, False, True, True]


def test_steps_have_their_times() -> None:
    found = plan(cut_base="{framing: overhead wide, seconds: 12}", score="{seconds: 7}")
    assert [step.start for step in found.steps][:3] == [0, 12, 19]
    assert found.seconds == sum(shot.seconds for shot in found.shots) == found.shots[-1].so_far


def test_seconds_are_reckoned_where_none_are_given() -> None:
    shot = shots()["3.cut-the-mat"]
    assert shot.estimated
    assert shot.seconds == 10, "cutting 8 s by our own guess, up to the next five"
    assert shots(filming="{words a minute: 10}")["3.cut-the-mat"].seconds == 45, "7 words at 10 a minute: 42 s"


def test_set_ups_carry_letters_in_the_order_of_use() -> None:
    found = plan()
    assert [setup.letter for setup in found.setups] == ["A", "B", "C"]
    assert found.setups[0].shots == ("1.cut-the-base", "3.cut-the-mat")
    assert [shot.setup for shot in found.filming_order] == sorted(
        (shot.setup for shot in found.filming_order), key=[setup.letter for setup in found.setups].index)
