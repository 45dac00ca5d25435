"""A place in a file is exact: cut out of the file as it stands, it is the words that are meant."""

from pathlib import Path

import pytest
from small_recipe import SOUND

from foldproof.findings.show import as_json
from foldproof.recipe.reader import read_file

CASES = [
    ("[2, 2]", "[5½, dor]", "dor", "fraction in one sign"),
    ("skill: beginner", 'skill: {x: "\U0001f600", y: 1}', '{x: "\U0001f600", y: 1}', "sign beyond the first plane"),
    ("grain: height", "grain:\ttall", "tall", "tab before a value"),
    ("across: door", "across: 2 * dor", "dor", "name in a sum"),
    ("across: door", 'across: "2 ×  dor"', "dor", "name in a quoted sum"),
    ("text: Cut one base.", "text: >\n      Cut ½ of it,\n      a {wdth} wide.", "{wdth}", "name in a folded passage"),
    ("text: Cut one base.", "text: |\n      Cut it.\n\n      A {wdth} wide.", "{wdth}", "name in a kept passage"),
    ("text: Cut one base.", "text: Cut one\n      base {wdth} wide.", "{wdth}", "name in a plain passage of two lines"),
    ("text: Cut one base.", "text: 'Cut one {wdth}.'", "{wdth}", "name in quotes"),
    ("unit: inch", "unit: furlong", "furlong", "word out of a few"),
]


@pytest.mark.parametrize(("ends", "mark"), [("\n", ""), ("\r\n", ""), ("\n", "\ufeff"), ("\r\n", "\ufeff")],
                         ids=["plain", "CRLF", "mark at the start", "CRLF and mark"])
@pytest.mark.parametrize(("old", "new", "meant"), [pytest.param(*case[:3], id=case[3]) for case in CASES])
def test_the_words_at_a_place_are_the_words_meant(
    old: str, new: str, meant: str, ends: str, mark: str, tmp_path: Path,
) -> None:
    recipe = tmp_path / "small.yaml"
    recipe.write_bytes((mark + SOUND.replace(old, new, 1).replace("\n", ends)).encode())
    (told,) = as_json(read_file(recipe).findings)
    place = told["place"]
    assert isinstance(place, dict)
    lines = recipe.read_text(encoding="utf-8-sig").split("\n")
    assert lines[place["line"] - 1][place["column"] - 1 : place["end"] - 1] == meant
