"""The opening view in the page, and the picture that moves."""

import io
import json
import re
from collections.abc import Iterable, Mapping
from html import unescape

import pytest
from PIL import Image

from foldproof.documents.opening_picture import IN_A_POSE, LARGEST, ON_THE_WAY, opening_picture
from foldproof.documents.opening_view import caption_at, opening_view
from foldproof.documents.view import View
from foldproof.drawing.opening import Opening, draw_opening
from foldproof.folding.card import Card

_PATH = re.compile(r"([Mlz])|(-?\d+)")


@pytest.fixture(scope="module")
def opening(card: Card) -> Opening:
    drawn = draw_opening(card)
    assert drawn is not None
    return drawn


def rings(path: str) -> list[list[tuple[int, int]]]:
    """An SVG path of M, l and z read back."""
    found: list[list[tuple[int, int]]] = []
    for command, numbers in re.findall(r"([Ml])([^Mlz]*)", path):
        values = [int(number) for number in re.findall(r"-?\d+", numbers)]
        pairs: Iterable[tuple[int, int]] = zip(values[::2], values[1::2], strict=True)
        if command == "M":
            found.append(list(pairs))
            continue
        for dx, dy in pairs:
            x, y = found[-1][-1]
            found[-1].append((x + dx, y + dy))
    return found


def test_the_page_holds_every_frame(opening: Opening) -> None:
    view = opening_view(opening, {"closed": "Closed: 4 1/4 × 5 1/2 in"})
    told = json.loads(str(view.data))
    assert len(told["frames"]) == len(opening.frames) == view.last + 1
    for numbers, patches in zip(told["frames"], opening.frames, strict=True):
        held = [told["patches"][number] for number in numbers]
        assert [told["colours"][colour] for colour, _, _ in held] == [patch.colour for patch in patches]
        assert [tuple(rings(ring)[0]) for _, ring, _ in held] == [patch.ring for patch in patches]
        assert [tuple(map(tuple, rings(edges))) for _, _, edges in held] == [patch.edges for patch in patches]
    assert len({tuple(patch) for patch in told["patches"]}) == len(told["patches"])
    assert "1/4</span>" in told["stops"][0][2] and told["stops"][1][1:] == ["Open", "Open"]


def test_captions_name_the_pose_or_the_two_that_it_is_between(opening: Opening) -> None:
    view = opening_view(opening, {"closed": "Closed: 4 1/4 × 5 1/2 in", "open": "Open: 8 1/2 × 5 1/2 in"})
    assert caption_at(view.stops, 0) == "Closed: 4 1/4 × 5 1/2 in"
    assert caption_at(view.stops, view.last) == "Open: 8 1/2 × 5 1/2 in"
    assert caption_at(view.stops, 1) == "Between closed and open" == view.caption


def test_a_pose_cannot_end_the_script(opening: Opening) -> None:
    from dataclasses import replace

    stop = replace(opening.stops[0], pose="</script><b>")
    view = opening_view(replace(opening, stops=(stop, *opening.stops[1:])), {})
    assert "<" not in str(view.data) and json.loads(str(view.data))["stops"][0][1] == "</script><b>"


def test_the_page_has_the_view_and_the_still(files: Mapping[str, bytes], view: View) -> None:
    page = files["page.html"].decode()
    figure = page[page.index('<figure class="opening">'):]
    figure = figure[:figure.index("</figure>")]
    assert figure.count("<path") > 3 and 'class="moves" hidden' in figure
    alt = re.search(r'aria-label="([^"]*)"', figure)
    assert alt is not None and unescape(alt[1]).startswith("The card as it opens. The card closed, 4 1/4 in wide")
    assert not re.search(r"(?:src|href)=", figure)
    assert len(figure) < 300_000


def test_the_moving_picture_goes_there_and_back(opening: Opening, files: Mapping[str, bytes]) -> None:
    data = opening_picture(opening)
    assert data == files["opening.webp"] and len(data) < LARGEST
    there = 2 * (len(opening.frames) - 1)
    with Image.open(io.BytesIO(data)) as picture:
        assert picture.n_frames == there and picture.info["loop"] == 0  # type: ignore[attr-defined]
        stands = []
        for number in range(there):
            picture.seek(number)
            picture.load()
            stands.append(picture.info["duration"])
    assert stands == [IN_A_POSE, *[ON_THE_WAY] * (there // 2 - 1), IN_A_POSE, *[ON_THE_WAY] * (there // 2 - 1)]
