"""The one family that the documents are set in, from the font's own package: nothing rests on the machine's fonts."""

import base64
from functools import lru_cache
from importlib.resources import files
from io import BytesIO

from foldproof.drawing.ink import FRACTION_PARTS

FAMILY = "Source Sans Pro"
FAMILIES = (FAMILY,)
"""What a theme may name."""
CUTS = {"Regular": (400, "normal"), "It": (400, "italic"), "Semibold": (600, "normal"), "Bold": (700, "normal")}
"""The cuts in use, each with its CSS weight and style."""
PAGE_CUTS = ("Regular", "It", "Bold")
"""The cuts that are carried inside a page."""
PAGE_CHARACTERS = "".join(map(chr, (*range(0x20, 0x7F), *range(0xA0, 0x180)))) + "–—‘’“”…•×−≈≤≥′″½⅓⅔⅛⅜⅝⅞⁄←↑→↓"


def font_file(cut: str) -> bytes:
    """The whole font file of a cut."""
    return (files("font_source_sans_pro") / "files" / f"SourceSansPro-{cut}.ttf").read_bytes()


def face_rules(source: str) -> str:
    """The @font-face rules for all cuts; `source` is a URL with `{cut}` in it. Fractions in drawings have their own."""
    plain = [_rule(cut, f"url({source.format(cut=cut)})") for cut in CUTS]
    regular = f"url({source.format(cut='Regular')})"
    parts = [
        f"@font-face {{ font-family: '{family}'; src: {regular}; font-feature-settings: '{feature}'; }}"
        for feature, family in FRACTION_PARTS.items()]
    return "\n".join((*plain, *parts))


@lru_cache(maxsize=1)
def page_face_rules() -> str:
    """The @font-face rules of a page, each font inside its rule, cut down to the characters of western languages."""
    from fontTools import subset  # type: ignore[import-untyped, unused-ignore]

    rules = []
    for cut in PAGE_CUTS:
        features = ["kern", *FRACTION_PARTS, "liga", "mark"]
        options = subset.Options(layout_features=features, flavor="woff2", notdef_outline=True)
        options.drop_tables += ["DSIG"]
        font = subset.load_font(BytesIO(font_file(cut)), options)
        cutter = subset.Subsetter(options)
        cutter.populate(text=PAGE_CHARACTERS)
        cutter.subset(font)
        out = BytesIO()
        subset.save_font(font, out, options)
        rules.append(_rule(cut, f"url(data:font/woff2;base64,{base64.b64encode(out.getvalue()).decode()})"))
    return "\n".join(rules)


def _rule(cut: str, source: str) -> str:
    weight, style = CUTS[cut]
    return f"@font-face {{ font-family: '{FAMILY}'; font-weight: {weight}; font-style: {style}; src: {source}; }}"
