"""Photographs: known by what they hold, and shown in the handout and on the page."""

import base64
import struct
import zlib
from dataclasses import replace
from pathlib import Path

import pytest

from foldproof.documents import handout, page
from foldproof.documents.pdf_text import read_pdf
from foldproof.documents.photos import kind_of
from foldproof.documents.theme import Theme
from foldproof.documents.view import Photo, View
from foldproof.pipeline import prove


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


PNG = (
    b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0))
    + chunk(b"IDAT", zlib.compress(b"\x00\xff\x00\x00")) + chunk(b"IEND", b"")
)


def with_picture(text: str) -> str:
    title = "  - title: Glue the mat\n"
    assert title in text
    return text.replace(title, f"{title}    picture: mat.png\n")


@pytest.mark.parametrize(("data", "kind"), [
    (PNG, "image/png"), (b"\xff\xd8\xff\xe0rest", "image/jpeg"), (b"RIFF\x01\x02\x03\x04WEBPVP8", "image/webp"),
    (b"GIF89a", "image/gif"), (b"<svg onload=x>", None), (b"", None), (b"%PDF-1.7", None),
])
def test_kinds(data: bytes, kind: str | None) -> None:
    assert kind_of(data) == kind


def test_a_photograph_is_read_from_beside_the_recipe(recipe_file: Path) -> None:
    text = with_picture(recipe_file.read_text())
    recipe_file.write_text(text)
    (recipe_file.parent / "mat.png").write_bytes(PNG)
    proof = prove(recipe_file)
    assert proof.photos == {"mat.png": PNG}
    assert proof.sound


def test_a_file_that_is_no_picture_is_told(recipe_file: Path) -> None:
    text = with_picture(recipe_file.read_text())
    recipe_file.write_text(text)
    (recipe_file.parent / "mat.png").write_bytes(b"<script>")
    proof = prove(recipe_file)
    (finding,) = [finding for finding in proof.findings if finding.name == "no picture"]
    assert not proof.sound
    assert finding.step == "mat"
    assert finding.place is not None
    assert text.splitlines()[finding.place.line - 1].strip() == "picture: mat.png"


def test_photographs_are_shown(view: View, plain_theme: Theme) -> None:
    photo = Photo(name="step-2.png", data=PNG, kind="image/png", alt="The mat, glued")
    shown = replace(view, steps=(view.steps[0], replace(view.steps[1], photo=photo)))
    assert base64.b64encode(PNG).decode() in page.page(shown, plain_theme)
    assert page.pictures(shown)["pictures/step-2.png"] == PNG
    assert "The mat, glued" in read_pdf(handout.handout(shown, plain_theme, "a4")).figures
