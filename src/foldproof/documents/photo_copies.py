"""Copies of a photograph: upright, no larger than they are shown, without what the camera wrote about place and person.

A picture is a stranger's file: it is looked at within bounds, and unpacked only by the four readers that are meant.
"""

import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from foldproof.documents.trouble import DocumentsError

FORMATS = ("JPEG", "PNG", "WEBP", "GIF")
LARGE, SMALL = 1600, 1000
"""Dots along the longer side: for print and for posts, and inside the page."""
QUALITY = 84
_GLANCE = (400, 400)
"""A JPEG is tried out at a fraction of its size, which is read just as far."""

_TURNS = {
    2: "FLIP_LEFT_RIGHT", 3: "ROTATE_180", 4: "FLIP_TOP_BOTTOM", 5: "TRANSPOSE", 6: "ROTATE_270", 7: "TRANSVERSE",
    8: "ROTATE_90"}
"""What puts a picture upright, by its Orientation."""


class UnreadableError(DocumentsError):
    """A picture that breaks off, or was never whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Dots across and down, as the picture is to be looked at."""

    width: int
    height: int

    @property
    def dots(self) -> int:
        """All of them."""
        return self.width * self.height


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A copy, ready for a document."""

    data: bytes
    kind: str
    """`image/jpeg`, or `image/png` where the picture has clear parts."""
    width: int
    height: int


def size_of(data: bytes) -> Size:
    """How large a picture is when it lies as its camera says, from its head alone. Raises UnreadableError."""
    with _opened(data) as picture:
        width, height = picture.size
        turned = _orientation(picture) >= 5
    return Size(width=height, height=width) if turned else Size(width=width, height=height)


def try_out(data: bytes) -> None:
    """Read a picture to its end. Raises UnreadableError."""
    with _opened(data) as picture:
        picture.draft("RGB", _GLANCE)
        picture.load()


@lru_cache(maxsize=64)
def copy_of(data: bytes, most: int) -> Copy:
    """A copy whose longer side has at most so many dots; never larger than the picture. Raises UnreadableError."""
    from PIL import Image

    with _opened(data) as picture:
        picture.draft("RGB", (2 * most, 2 * most))
        picture.load()
        turn = _TURNS.get(_orientation(picture))
        upright = picture if turn is None else picture.transpose(Image.Transpose[turn])
        plain = _in_plain_colours(upright, picture.info)
        plain.thumbnail((most, most), Image.Resampling.LANCZOS)
        written = io.BytesIO()
        if plain.mode == "RGBA":
            kind = "image/png"
            Image.frombytes(plain.mode, plain.size, plain.tobytes()).save(written, format="PNG", optimize=True)
        else:
            kind = "image/jpeg"
            bare = Image.frombytes(plain.mode, plain.size, plain.tobytes())
            bare.save(written, format="JPEG", quality=QUALITY, optimize=True, progressive=True)
    return Copy(data=written.getvalue(), kind=kind, width=plain.width, height=plain.height)


def _in_plain_colours(picture: Any, told: Mapping[Any, Any]) -> Any:
    """In the colours that every screen takes for granted (sRGB); see-through only where the picture really is.

    `told` is what the file says beside its dots. A profile of colours that cannot be read is left aside.
    """
    profile = told.get("icc_profile")
    clear = "A" in picture.getbands() or "transparency" in told
    if profile and picture.mode == "RGB":
        with suppress(Exception):
            from PIL import ImageCms

            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            picture = ImageCms.profileToProfile(picture, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
    plain = picture.convert("RGBA" if clear else "RGB")
    if clear and plain.getchannel("A").getextrema()[0] == 255:
        return plain.convert("RGB")
    return plain


def _orientation(picture: Any) -> int:
    """How the camera was held: 1 to 8 by the Exif tag Orientation (274); from 5 on, width and height change places."""
    try:
        held = picture.getexif().get(274, 1)
    except Exception:
        return 1
    return held if isinstance(held, int) and 1 <= held <= 8 else 1


@contextmanager
def _opened(data: bytes) -> Iterator[Any]:
    """A picture, not yet unpacked. What goes wrong inside the block becomes an UnreadableError.

    Pillow's readers raise errors of many kinds on broken files (SyntaxError, ValueError, struct.error, ...).
    Its own bound on dots is lifted: ours is checked before anything is unpacked, and says how many there are. A
    picture that breaks off is an error, although the library that sets the documents tells Pillow to let it pass.
    """
    import warnings

    from PIL import Image, ImageFile

    bound, lenient = Image.MAX_IMAGE_PIXELS, ImageFile.LOAD_TRUNCATED_IMAGES
    Image.MAX_IMAGE_PIXELS, ImageFile.LOAD_TRUNCATED_IMAGES = None, False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(data), formats=FORMATS) as picture:
                yield picture
    except Exception as error:
        raise UnreadableError(str(error)) from error
    finally:
        Image.MAX_IMAGE_PIXELS, ImageFile.LOAD_TRUNCATED_IMAGES = bound, lenient
