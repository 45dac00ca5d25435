"""The schema and the reader say the same of a recipe's shape.

The judge is jsonschema, which implements JSON Schema draft 2020-12 (json-schema.org); the core schema of YAML 1.2
(yaml.org/spec/1.2.2, section 10.3.2) stands in for an editor's parser.
"""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from small_recipe import SOUND, spoilt
from test_wrong_recipes import CASES

from foldproof.grammar.schema import schema
from foldproof.grammar_command import FILES
from foldproof.recipe.keys import RECIPE, forms
from foldproof.recipe.kinds import Form
from foldproof.recipe.reader import read_text

ROOT = Path(__file__).parents[2]
GUIDE = ROOT / "recipes" / "guide"
SHAPE = {
    "unknown key", "missing part", "too many parts", "wrong kind of value", "nothing written", "too few",
    "unknown word", "face missing", "side missing", "name not usable", "name of a measure not usable",
}
"""Findings of the reader about shape; `too many` is one where a list or a mapping is too long."""


class Core(yaml.SafeLoader):
    """Reads YAML as the core schema of YAML 1.2 has it: `yes` is a word, `1_000` and `1:30` are no numbers."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("null", r"null|Null|NULL|~|", "nN~"),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", "-+0123456789"),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(rf"^(?:{pattern})$"), [*first])
Core.add_implicit_resolver("tag:yaml.org,2002:null", re.compile("^$"), [""])


def as_edited(text: str) -> Any:
    """A text as an editor's parser gives it; keys are words."""
    return with_words_for_keys(yaml.load(text, Loader=Core))


def with_words_for_keys(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(key): with_words_for_keys(part) for key, part in value.items()}
    return [with_words_for_keys(part) for part in value] if isinstance(value, list) else value


@cache
def judge(root: Form = RECIPE) -> Draft202012Validator:
    Draft202012Validator.check_schema(schema(root))
    return Draft202012Validator(schema(root))


def faults(value: Any, root: Form = RECIPE) -> list[str]:
    return [f"{list(error.absolute_path)}: {error.message[:200]}" for error in judge(root).iter_errors(value)]


def blocks() -> Iterator[tuple[str, str, str]]:
    for page in sorted(GUIDE.glob("*.md")):
        for kind, text in re.findall(r"```yaml (\w+)\n(.*?)```", page.read_text(encoding="utf-8"), flags=re.S):
            yield page.stem, kind, text


DEMOS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(ROOT.glob("recipes/*.yaml"))}
SOUND_ONES = [
    *(pytest.param(text, RECIPE, id=name) for name, text in DEMOS.items()),
    *(pytest.param(text, FILES[kind], id=f"guide: {page}, {kind}")
      for page, kind, text in blocks()),
    pytest.param(SOUND, RECIPE, id="small recipe"),
]


@pytest.mark.parametrize(("text", "root"), SOUND_ONES)
def test_what_the_reader_takes_the_schema_takes(text: str, root: Form) -> None:
    assert faults(as_edited(text), root) == []


@pytest.mark.parametrize("form", [pytest.param(form, id=form.name) for form in forms()])
def test_the_example_of_every_key_fits_its_own_schema(form: Form) -> None:
    whole = schema(RECIPE)
    part = whole if form is RECIPE else whole["$defs"][form.name.replace(" ", "-")]  # type: ignore[index]
    for key in form.keys:
        about = part["properties"][key.name]  # type: ignore[index]
        assert about["description"] == key.meaning
        judged = Draft202012Validator({**about, "$defs": whole["$defs"]})
        assert [error.message for error in judged.iter_errors(about["examples"][0])] == [], key.name


SHAPELESS = [
    pytest.param(old, new, id=name or old) for old, new, told, name in CASES
    if told and SHAPE.intersection(name for name, _ in told) and "written twice" not in [name for name, _ in told]
]


@pytest.mark.parametrize(("old", "new"), SHAPELESS)
def test_a_small_wrong_recipe_is_wrong_by_the_schema_too(old: str, new: str) -> None:
    assert len(SHAPELESS) > 20
    assert faults(as_edited(spoilt(old, new))) != []


def test_a_list_that_is_too_long_is_wrong_by_the_schema_too() -> None:
    assert faults(as_edited(spoilt("opening: [closed, open]", f"opening: [{', '.join(['open'] * 301)}]"))) != []


TREES = [as_edited(text) for text in (SOUND, *(text for _, kind, text in blocks() if kind == "recipe"))]
INSTEAD: tuple[Any, ...] = (
    None, "", "word", 5, -1, True, [], {}, ["word"], [[1, 2]], {"moon": "full"}, [1, 2, 3], "yes")


def paths(value: Any, at: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The way to every value within a value."""
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for name, part in parts:
        yield (*at, name)
        yield from paths(part, (*at, name))


ALL_PATHS = [tuple(paths(tree)) for tree in TREES]


def changed(value: Any, path: tuple[Any, ...], how: str, instead: Any) -> Any:
    """The value with one part deleted, renamed, or put otherwise."""
    name, rest = path[0], path[1:]
    if isinstance(value, list):
        parts = [changed(value[name], rest, how, instead) if rest else instead] if rest or how == "change" else []
        return [*value[:name], *parts, *value[name + 1 :]]
    made: dict[Any, Any] = {}
    for key, part in value.items():
        if key != name:
            made[key] = part
        elif rest:
            made[key] = changed(part, rest, how, instead)
        elif how != "delete":
            made[f"{key} x" if how == "rename" else key] = part if how == "rename" else instead
    return made


class Plain(yaml.SafeDumper):
    """Writes nothing as nothing, and no copies."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


Plain.add_representer(type(None), lambda dumper, _: dumper.represent_scalar("tag:yaml.org,2002:null", ""))


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_a_recipe_changed_in_one_place_is_judged_alike(data: st.DataObject) -> None:
    """Every error about shape is one of the schema's, and where the reader finds nothing, neither does the schema."""
    which = data.draw(st.integers(0, len(TREES) - 1))
    path = data.draw(st.sampled_from(ALL_PATHS[which]))
    how = data.draw(st.sampled_from(("delete", "rename", "change")))
    instead = data.draw(st.sampled_from(INSTEAD))
    text = yaml.dump(changed(TREES[which], path, how, instead), Dumper=Plain, sort_keys=False, width=1000)
    found = read_text(text, "changed.yaml").findings
    by_schema = faults(as_edited(text))
    shape = [f"{each.name}: {each.message}" for each in found if each.name in SHAPE]
    if shape:
        assert by_schema, (path, how, instead, shape)
    if not found:
        assert by_schema == [], (path, how, instead)
