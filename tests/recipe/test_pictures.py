"""Pictures: only files inside the recipe's folder are ever looked at."""

from pathlib import Path

import pytest
from small_recipe import SOUND

from foldproof.recipe.reader import read_file


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder of recipes with a picture in it and one beside it, and links between them."""
    inside = tmp_path / "recipes"
    (inside / "pictures").mkdir(parents=True)
    (inside / "pictures" / "gate.jpg").write_bytes(b"a picture")
    (inside / "notes.txt").write_text("no picture")
    (tmp_path / "secret.jpg").write_bytes(b"not for the recipe")
    (inside / "way out.jpg").symlink_to(tmp_path / "secret.jpg")
    (inside / "way in.jpg").symlink_to(inside / "pictures" / "gate.jpg")
    (inside / "out").symlink_to(tmp_path)
    (inside / "ring.jpg").symlink_to(inside / "ring.jpg")
    return inside


@pytest.mark.parametrize(
    "written", ["pictures/gate.jpg", "./pictures/gate.jpg", "pictures/../pictures/gate.jpg", "way in.jpg"]
)
def test_a_picture_in_the_folder(written: str, folder: Path) -> None:
    path = folder / "small.yaml"
    path.write_text(f"{SOUND}    picture: {written}\npicture: {written}\n")
    reading = read_file(path)
    assert reading.findings == ()
    assert reading.recipe is not None
    for picture in (reading.recipe.picture, reading.recipe.steps[-1].picture):
        assert picture is not None and picture.value == written


@pytest.mark.parametrize(
    ("written", "fault"),
    [
        ("pictures/none.jpg", "picture missing"),
        ("pictures", "picture missing"),
        ("ring.jpg", "picture missing"),
        ("../secret.jpg", "picture elsewhere"),
        ("way out.jpg", "picture elsewhere"),
        ("out/secret.jpg", "picture elsewhere"),
        ("pictures/../../secret.jpg", "picture elsewhere"),
        ("/etc/passwd", "picture elsewhere"),
        ("~/secret.jpg", "picture elsewhere"),
        ("C:/secret.jpg", "picture elsewhere"),
        ("pictures\\gate.jpg", "picture elsewhere"),
        ("https://example.org/gate.jpg", "picture elsewhere"),
        ("file:///etc/passwd", "picture elsewhere"),
        ("notes.txt", "no picture"),
        ("n" * 4000 + ".jpg", "picture missing"),
    ],
)
def test_a_path_that_leads_to_no_picture(written: str, fault: str, folder: Path) -> None:
    path = folder / "small.yaml"
    path.write_text(f"{SOUND}    picture: {written}\npicture: {written}\n")
    reading = read_file(path)
    assert [finding.name for finding in reading.findings] == [fault, fault]
    assert reading.recipe is not None
    assert reading.recipe.picture is None and reading.recipe.steps[-1].picture is None


def test_a_picture_that_is_too_large(folder: Path) -> None:
    with (folder / "large.png").open("wb") as stream:
        stream.truncate(20_000_001)
    path = folder / "small.yaml"
    path.write_text(f"{SOUND}picture: large.png\n")
    assert [finding.name for finding in read_file(path).findings] == ["picture too large"]
