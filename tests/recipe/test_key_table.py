"""The table of keys holds for itself: its examples can be read, and its words do for a reference page."""

from dataclasses import fields as record_fields

import pytest
import yaml

from foldproof.measures.quantity import Unit
from foldproof.recipe import film_records, records
from foldproof.recipe.composing import compose
from foldproof.recipe.desk import Desk
from foldproof.recipe.keys import ALL_KEYS, RECIPE, forms
from foldproof.recipe.kinds import Form, Key, Mapped, OneOf
from foldproof.recipe.naming import TRUTH_WORDS
from foldproof.recipe.nodes import Mapping
from foldproof.recipe.reader import BUILDERS, read_text
from foldproof.recipe.walker import read

FORMS = forms()
KEYS = [pytest.param(form, key, id=f"{form.name}: {key.name}") for form in FORMS for key in form.keys]
NEEDS_CONTEXT = {"unknown measure", "unknown name"}  # an example uses names that the rest of its recipe gives


@pytest.mark.parametrize(("form", "key"), KEYS)
def test_an_example_is_read_by_its_own_kind(form: Form, key: Key) -> None:
    (root,), composed = compose(f"{key.name}: {key.example}\n", "example.yaml")
    assert composed == () and isinstance(root, Mapping)
    desk = Desk(file="example.yaml", unit=Unit.INCH, builders=BUILDERS)
    found = read(root.entries[0].value, key.kind, desk)
    faults = [finding for finding in desk.findings if finding.name not in NEEDS_CONTEXT]
    assert faults == []
    assert found is not None or desk.findings


@pytest.mark.parametrize(("form", "key"), KEYS)
def test_a_key_is_said_in_one_sentence(form: Form, key: Key) -> None:
    assert key.meaning[0].isupper() and key.meaning.endswith(".")
    assert key.example == yaml.safe_load(f"['{key.example.replace(chr(39), chr(39) * 2)}']")[0]
    assert key.default is None or not key.required
    if isinstance(key.kind, OneOf):
        assert key.default is None or key.default in key.kind.words
        assert key.example in key.kind.words
    assert key.name not in TRUTH_WORDS


@pytest.mark.parametrize("form", FORMS, ids=[form.name for form in FORMS])
def test_a_form_holds_together(form: Form) -> None:
    names = [key.name for key in form.keys]
    assert len(names) == len(set(names))
    assert form.meaning.endswith(".")
    needs = tuple((*need.keys, need.other) for need in form.needs)
    for group in (*form.choose, *form.together, *needs):
        assert set(group) <= set(names)
        assert not any(key.required for key in form.keys if key.name in group)
    for key in form.keys:
        if isinstance(key.kind, Mapped) and key.kind.short:
            assert key.kind.short in [part.name for part in key.kind.forms[0].keys]


def test_names_of_forms_are_all_different() -> None:
    names = [form.name for form in FORMS]
    assert len(names) == len(set(names))
    assert set(BUILDERS) <= set(names)


def test_the_walk_reaches_every_form() -> None:
    assert FORMS[0] is RECIPE
    assert {"step", "action", "cut between two points", "place", "rest", "shot"} <= {form.name for form in FORMS}
    assert {"centred on", "right angle", "glue on", "overhangs", "edge"} <= ALL_KEYS


@pytest.mark.parametrize(
    ("form_name", "record", "apart"),
    [
        ("paper", records.PaperSpec, {"name"}),
        ("piece", records.PieceSpec, {"name", "shape", "cuts"}),
        ("join", records.JoinSpec, {"name"}),
        ("layer", records.LayerSpec, {"name", "shape", "face", "cuts"}),
        ("pose", records.PoseSpec, {"name"}),
        ("finished card", records.FinishedSpec, {"envelope_size"}),
        ("meeting", records.MeetSpec, set()),
        ("supply", records.SupplySpec, {"name"}),
        ("tool", records.ToolSpec, {"name"}),
        ("step", records.StepSpec, {"actions", "shots", "repeats"}),
        ("shot", records.ShotSpec, set()),
        ("beauty shot", film_records.BeautySpec, set()),
        ("filming", film_records.FilmSpec, {"rate"}),
        ("recipe", records.Recipe, {"texts", "file", "name", "class_part"}),
        ("place", records.PlaceOn, set()),
    ],
)
def test_every_field_of_a_record_has_its_key(form_name: str, record: type, apart: set[str]) -> None:
    form = next(form for form in FORMS if form.name == form_name)
    keys = {key.name.replace(" ", "_") for key in form.keys}
    names = {each.name for each in record_fields(record)} - {"place"} - apart
    assert names <= keys


@pytest.mark.parametrize("form", FORMS, ids=[form.name for form in FORMS])
def test_a_misspelt_key_brings_the_right_one(form: Form) -> None:
    for key in form.keys:
        if len(key.name) < 5:
            continue
        misspelt = key.name[:-2] + key.name[-1]
        desk = Desk(file="x.yaml", unit=Unit.INCH, builders={})
        (root,), _ = compose(f"{misspelt}: {key.example}\n", "x.yaml")
        read(root, Mapped((form,)), desk)
        assert desk.findings[0].mend == f"Did you mean `{key.name}`?"


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("color", "tone"),
        ("glue", "adhesive"),
        ("instructions", "text"),
        ("image", "picture"),
        ("materials", "supplies"),
    ],
)
def test_everyday_words_are_known(word: str, meant: str) -> None:
    found = read_text(
        f"title: x\nsteps:\n  - {{{word}: x}}\nlayers: {{mat: {{{word}: x}}}}\n{word}: x\n", "x.yaml"
    ).findings
    papers = read_text(f"papers: {{slate: {{{word}: white}}}}\n", "x.yaml").findings
    assert f"Did you mean `{meant}`?" in [finding.mend for finding in (*found, *papers)]
