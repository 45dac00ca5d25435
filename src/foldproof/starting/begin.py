"""A recipe begun: the text of a construction for a finished size."""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.starting.constructions import Construction, border_of
from foldproof.starting.filling import OffMarkError, filled, measures_of, reckon
from foldproof.starting.sizes import MARK, Size
from foldproof.starting.trouble import CannotBeError

FARTHEST = 64
"""How many marks away the nearest size that can be is looked for."""
_PLAIN_TITLE = re.compile(r"[^\W\d_][\w' -]*", re.UNICODE)
_SHORT_ENVELOPE = re.compile(r"[A-Z][A-Za-z]*\d{0,2}")
_TRIMMER = """\
  trimmer:
    caution: >-
      Keep your fingers off the cutting line and close the blade after each cut. An adult cuts for young children."""
_STOCK: Mapping[Unit, Mapping[str, str]] = {
    Unit.INCH: {
        "foam": "1/16",
        "card stock": "kind: cardstock, weight: 80 lb cover, thickness: 0.011 in",
        "heavy stock": "kind: cardstock, weight: 100 lb cover, thickness: 0.013 in",
        "print stock": "kind: patterned paper, weight: 70 lb text, thickness: 0.005 in, printed: one face, "
                       "pattern: any way"},
    Unit.MM: {
        "foam": "1.5 mm",
        "card stock": "kind: cardstock, weight: 220 gsm, thickness: 0.28 mm",
        "heavy stock": "kind: cardstock, weight: 270 gsm, thickness: 0.33 mm",
        "print stock": "kind: patterned paper, weight: 120 gsm, thickness: 0.14 mm, printed: one face, "
                       "pattern: any way"},
}
"""Usual papers by the unit of the recipe: common practice, no source; thickness as packs of that weight have it."""


def lying(size: Size, construction: Construction) -> Size:
    """The size as the author wants it to lie, or else as the construction usually lies."""
    landscape = size.lies == "landscape" or (size.lies is None and construction.landscape)
    return size.turned if size.named and landscape and size.height > size.width else size


def begun(construction: Construction, size: Size, title: str | None = None) -> str:
    """The text of a recipe. Raises CannotBeError, with the nearest size that can be where there is one."""
    try:
        return _text(construction, size, title)
    except CannotBeError as error:
        near = nearest_size(construction, size)
        mend = f' The nearest that can is "{near.said}".' if near is not None else ""
        raise CannotBeError(f"{error}.{mend}".replace("×", "x")) from None


def nearest_size(construction: Construction, size: Size) -> Size | None:
    """The size with the least change of its sides that the construction can be made in."""
    for near in _around(size):
        try:
            _text(construction, near, None)
        except CannotBeError:
            continue
        return near
    return None


def _around(size: Size) -> Iterator[Size]:
    mark = 2 * MARK[size.unit]
    for far in range(1, FARTHEST):
        for across, up in ((far, 0), (0, far), (-far, 0), (0, -far), (far, far), (-far, -far)):
            width, height = size.width + across * mark, size.height + up * mark
            if min(width, height) > 0:
                yield replace(size, width=width // mark * mark, height=height // mark * mark)


def _text(construction: Construction, size: Size, title: str | None) -> str:
    given = {"width": size.width, "height": size.height, "border": border_of(size), **construction.own(size)}
    text, unit = construction.text, size.unit
    _wide_enough(construction, size, given)
    try:
        return filled(text, given, _phrases(construction, size, title), unit)
    except OffMarkError as off:
        if off.value <= 0:
            raise CannotBeError(_cannot(construction, size, f"{off.what} comes to nothing")) from None
        raise CannotBeError(_cannot(
            construction, size, f"{off.what} would be {with_unit(off.value, unit)}, which no ruler shows")) from None
    except CannotBeError as error:
        raise CannotBeError(_cannot(construction, size, str(error))) from None


def _wide_enough(construction: Construction, size: Size, given: Mapping[str, Fraction]) -> None:
    measures = measures_of(construction.text, given, size.unit)
    for reckoned, what, millimetres in construction.least:
        value = reckon(reckoned, measures, size.unit)
        least = _hands(millimetres, size.unit)
        if value < least:
            raise CannotBeError(_cannot(
                construction, size,
                f"the {what} would be {with_unit(value, size.unit)}, and less than {with_unit(least, size.unit)} is "
                "too little for hands"))


def _hands(millimetres: int, unit: Unit) -> Fraction:
    """The least length in the recipe's unit; in inches to the nearest eighth."""
    exact = millimetres / unit.millimetres
    return Fraction(round(exact * 8), 8) if unit is Unit.INCH else exact


def _cannot(construction: Construction, size: Size, why: str) -> str:
    return f"no {construction.name} card of {size.said}: {why}"


def _phrases(construction: Construction, size: Size, title: str | None) -> dict[str, str]:
    named = title or construction.title
    envelope = size.envelope
    short = envelope is not None and _SHORT_ENVELOPE.fullmatch(envelope)
    return {
        **_STOCK[Unit.INCH if size.unit is Unit.INCH else Unit.MM],
        "title": named if _PLAIN_TITLE.fullmatch(named) else json.dumps(named, ensure_ascii=False),
        "unit": size.unit.value, "in": {Unit.INCH: "in"}.get(size.unit, size.unit.value), "trimmer": _TRIMMER,
        "envelope line": f"envelope: {_written(envelope)}" if envelope is not None
        else "# No usual envelope takes this card. Write the outside of yours: envelope: [5, 7]",
        "envelope": f"{envelope} envelope" if short else "envelope"}


def _written(envelope: str) -> str:
    return json.dumps(envelope) if envelope.startswith("#") else envelope
