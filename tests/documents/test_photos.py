"""Photographs: known by what they hold, looked at within bounds, copied upright and small, shown with their words."""

import base64
import io
import struct
import zlib
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from foldproof.documents import handout, page
from foldproof.documents.pdf_text import read_pdf
from foldproof.documents.photo_copies import LARGE, SMALL, Size, copy_of, size_of
from foldproof.documents.photos import kind_of
from foldproof.documents.theme import Theme
from foldproof.documents.view import Photo, View
from foldproof.findings.finding import Finding, Severity
from foldproof.pipeline import prove

RED, BLUE = (200, 30, 30), (30, 30, 200)


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png_that_claims(width: int, height: int) -> bytes:
    """A few bytes that say they are so many dots (PNG, third edition: the IHDR chunk)."""
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
        + chunk(b"IDAT", zlib.compress(b"\x00\xff\x00\x00")) + chunk(b"IEND", b"")
    )


PNG = png_that_claims(1, 1)


def photograph(width: int = 900, height: int = 600, held: int = 1, kind: str = "JPEG") -> bytes:
    """Its top half red, its bottom half blue as it is stored; with the Exif tags Orientation, Make and a place."""
    picture = Image.new("RGB", (width, height), RED)
    picture.paste(BLUE, (0, height // 2, width, height))
    exif = Image.Exif()
    exif[274] = held
    exif[271] = "A camera of somebody's"
    exif.get_ifd(0x8825)[1] = "N"
    written = io.BytesIO()
    picture.save(written, format=kind, exif=exif)
    return written.getvalue()


def with_picture(text: str, more: str = "") -> str:
    title = "  - title: Glue the mat\n"
    assert title in text
    return text.replace(title, f"{title}    picture: mat.png\n{more}")


OF_PICTURES = ("no picture", "picture", "photograph")


def found_with(
    recipe_file: Path, data: bytes, more: str = "    picture shows: The mat lies on the cover.\n",
) -> list[Finding]:
    recipe_file.write_text(with_picture(recipe_file.read_text(), more))
    (recipe_file.parent / "mat.png").write_bytes(data)
    return [finding for finding in prove(recipe_file).findings if finding.name.startswith(OF_PICTURES)]


@pytest.mark.parametrize(("data", "kind"), [
    (PNG, "image/png"), (b"\xff\xd8\xff\xe0rest", "image/jpeg"), (b"RIFF\x01\x02\x03\x04WEBPVP8", "image/webp"),
    (b"GIF89a", "image/gif"), (b"<svg onload=x>", None), (b"", None), (b"%PDF-1.7", None),
])
def test_kinds(data: bytes, kind: str | None) -> None:
    assert kind_of(data) == kind


def test_a_photograph_is_read_from_beside_the_recipe(recipe_file: Path) -> None:
    data = photograph()
    assert found_with(recipe_file, data) == []
    proof = prove(recipe_file)
    assert proof.photos == {"mat.png": data}
    assert proof.sound


@pytest.mark.parametrize(("data", "name", "told", "severity"), [
    pytest.param(b"<script>", "no picture", "by what it holds", Severity.ERROR, id="something else"),
    pytest.param(photograph()[:3000], "picture damaged", "to its end", Severity.ERROR, id="cut off"),
    pytest.param(b"\xff\xd8\xff" + bytes(500), "picture damaged", "to its end", Severity.ERROR, id="only begins so"),
    pytest.param(png_that_claims(60_000, 60_000), "picture too large", "3,600 million", Severity.ERROR, id="a bomb"),
    pytest.param(png_that_claims(10_000, 5_001), "picture too large", "10,000 by 5,001", Severity.ERROR, id="just so"),
    pytest.param(photograph(500, 300), "picture is coarse", "500 by 300", Severity.ADVICE, id="few dots"),
    pytest.param(photograph(2000, 400), "picture long and thin", "5.0 times", Severity.ADVICE, id="a strip"),
])
def test_a_picture_that_will_not_do_is_told(
    recipe_file: Path, data: bytes, name: str, told: str, severity: Severity,
) -> None:
    (finding,) = found_with(recipe_file, data)
    assert (finding.name, finding.severity, finding.step) == (name, severity, "mat")
    assert told in finding.message and finding.place is not None
    assert recipe_file.read_text().splitlines()[finding.place.line - 1].strip() == "picture: mat.png"


@pytest.mark.parametrize(("more", "told"), [
    pytest.param("", "Nothing says what is seen in `mat.png`", id="no words"),
    pytest.param("    picture shows: IMG_2041.jpg\n", "a file's name", id="a file's name"),
    pytest.param("    picture shows: DSC-0031\n", "a file's name", id="a camera's name"),
])
def test_a_photograph_needs_words(recipe_file: Path, more: str, told: str) -> None:
    (finding,) = found_with(recipe_file, photograph(), more)
    assert (finding.name, finding.severity) == ("photograph without words", Severity.WARNING)
    assert told in finding.message


# Orientation as Exif 2.32 (CIPA DC-008) has it: where the first row and the first column of what is stored lie.
@pytest.mark.parametrize(("held", "at"), [
    pytest.param(1, "top", id="as stored"), pytest.param(2, "top", id="mirrored"),
    pytest.param(3, "bottom", id="half round"), pytest.param(4, "bottom", id="mirrored down"),
    pytest.param(5, "left", id="row 1 left"), pytest.param(6, "right", id="row 1 right"),
    pytest.param(7, "right", id="row 1 right, mirrored"), pytest.param(8, "left", id="row 1 left, turned"),
    pytest.param(99, "top", id="nonsense"),
])
def test_a_copy_stands_upright(held: int, at: str) -> None:
    data = photograph(held=held)
    copy = copy_of(data, LARGE)
    wide = (copy.width, copy.height)
    assert wide == ((600, 900) if at in ("left", "right") else (900, 600))
    assert size_of(data) == Size(width=copy.width, height=copy.height)
    seen = Image.open(io.BytesIO(copy.data))
    spots = {"top": (0.5, 0.1), "bottom": (0.5, 0.9), "left": (0.1, 0.5), "right": (0.9, 0.5)}
    x, y = spots[at]
    dot = seen.getpixel((int(x * copy.width), int(y * copy.height)))
    assert isinstance(dot, tuple) and dot[0] > 150 > dot[2], dot


def test_a_copy_says_nothing_of_camera_and_place() -> None:
    data = photograph(held=6)
    assert b"somebody" in data
    for most in (LARGE, SMALL):
        copy = copy_of(data, most)
        assert b"somebody" not in copy.data and b"Exif" not in copy.data
        assert not dict(Image.open(io.BytesIO(copy.data)).getexif())


@pytest.mark.parametrize(("size", "most", "wanted"), [
    ((4000, 3000), 1600, (1600, 1200)), ((3000, 4000), 1000, (750, 1000)), ((900, 600), 1600, (900, 600)),
])
def test_a_copy_is_no_larger_than_it_is_shown(
    size: tuple[int, int], most: int, wanted: tuple[int, int],
) -> None:
    copy = copy_of(photograph(*size), most)
    assert (copy.width, copy.height) == wanted
    assert Image.open(io.BytesIO(copy.data)).size == wanted


def test_a_clear_ground_stays_clear_and_everything_else_becomes_jpeg() -> None:
    def png(colour: tuple[int, ...]) -> bytes:
        written = io.BytesIO()
        Image.new("RGBA", (700, 500), colour).save(written, format="PNG")
        return written.getvalue()

    assert copy_of(png((10, 20, 30, 128)), LARGE).kind == "image/png"
    assert copy_of(png((10, 20, 30, 255)), LARGE).kind == "image/jpeg"


def test_a_copy_has_the_same_bytes_every_time() -> None:
    first = copy_of(photograph(), SMALL)
    copy_of.cache_clear()
    assert copy_of(photograph(), SMALL) == first


def test_photographs_are_shown(view: View, plain_theme: Theme) -> None:
    photo = Photo(name="step-2.png", data=PNG, kind="image/png", alt="The mat, glued", small=photograph(kind="PNG"))
    shown = replace(view, steps=(view.steps[0], replace(view.steps[1], photo=photo)))
    assert base64.b64encode(photo.small).decode() in page.page(shown, plain_theme)
    assert page.pictures(shown)["pictures/step-2.png"] == PNG
    assert "The mat, glued" in read_pdf(handout.handout(shown, plain_theme, "a4")).figures
