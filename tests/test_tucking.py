"""Tucking by hand, and the order in which the steps leave the card."""

import pytest

from slips.verdict import check_text
from wrong_numbers import RECIPES

WINDS = (RECIPES / "four-winds.yaml").read_text(encoding="utf-8")
TUCK = "      - tuck: {flap: west flap, under: south flap}\n"
LAST = "      - fold: {score: west hinge, fold: valley}\n"


def _faults(text: str) -> set[str]:
    return {name for name, _ in check_text(text, "four-winds.yaml").faults}


def _last(old: str, new: str) -> str:
    """The recipe with the last of some lines replaced."""
    head, found, tail = WINDS.rpartition(old)
    assert found
    return head + new + tail


def test_the_ring_as_it_is_taught_is_sound() -> None:
    assert _faults(WINDS) == set()


@pytest.mark.parametrize(("text", "name"), [
    pytest.param(_last(TUCK, ""), "closed in another order than the plan", id="the last tuck left out"),
    pytest.param(_last(TUCK, "      - tuck: {flap: south flap, under: west flap}\n"),
                 "closed in another order than the plan", id="tucked the other way round"),
    pytest.param(_last(f"{LAST}{TUCK}", f"{TUCK}{LAST}"), "tucked under paper that is not there",
                 id="tucked too early"),
    pytest.param(_last(TUCK, "      - tuck: {flap: west flap, under: east flap}\n"),
                 "tucked under paper that is not there", id="tucked under the flap across"),
    pytest.param(WINDS.replace("    tucks: [{flap: west flap, under: south flap}]\n", ""),
                 "closed in another order than the plan", id="no tuck in the plan"),
    pytest.param(WINDS.replace("{flap: west flap, under: south flap}]", "{flap: west flap, under: east flap}]"),
                 "order of panels apart", id="a tuck of two flaps that do not meet"),
])
def test_a_tuck_that_is_wrong_is_told(text: str, name: str) -> None:
    assert name in _faults(text)


def test_a_flap_that_is_pulled_out_is_no_longer_tucked() -> None:
    # the last step opens all flaps and closes them again: without its tuck the ring is gone
    making = check_text(WINDS, "four-winds.yaml").making
    assert making is not None
    tucked = [done.after.tucked for done in making.steps[-1].done]
    assert (("south flap", "west flap"),) == tucked[-1] == making.steps[-1].before.tucked
    assert () in tucked
