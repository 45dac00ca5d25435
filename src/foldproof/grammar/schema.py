"""The grammar as a JSON Schema (draft 2020-12), so that editors complete and check while a recipe is written.

It says no more than the table of keys. Scalars are judged as an editor's YAML parser gives them: `5` as a number,
`5 1/2` as a string, `true` as a truth value, nothing as null. What leans on the rest of the recipe (whether a name is
given, whether a measure can be worked out, whether the card folds) is left to the reader and the checks.
"""

from collections.abc import Mapping

import yaml

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys import forms
from foldproof.recipe.kinds import (
    Bound,
    ByName,
    Coordinates,
    Defines,
    FaceOf,
    Form,
    Key,
    ListOf,
    Mapped,
    Measured,
    Named,
    NameOf,
    Naming,
    OneOf,
    PointOnPiece,
    PointOnTable,
    SideOf,
    Size,
    ValueKind,
    WherePanel,
    Words,
)
from foldproof.recipe.matching import may_be_empty
from foldproof.recipe.naming import LONGEST_NAME, TRUTH_WORDS, reserved
from foldproof.recipe.panel_sides import BETWEEN, RELATIONS
from foldproof.recipe.words import EDGES, FACES

Schema = dict[str, object]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
_SAID = r"\S"
"""A pattern: something other than blanks."""
_NAME = r"""^\s*[^\s0-9!-/:-@\[-`{-~][^{}\[\],:#*&|<>"`]*$"""
"""A new name: a letter first, and none of the signs that YAML or arithmetic use."""


def schema(root: Form) -> Schema:
    """The schema of a file of one form; every form that it leads to stands once under `$defs`."""
    inner = [form for form in forms(root) if form is not root]
    return {
        "$schema": DRAFT,
        "$id": f"urn:foldproof:{_label(root)}",
        **_form(root),
        "$defs": {_label(form): _form(form) for form in inner},
    }


def _label(form: Form) -> str:
    return form.name.replace(" ", "-")


def _form(form: Form) -> Schema:
    made: Schema = {
        "title": form.name,
        "description": form.meaning,
        "type": "object",
        "properties": {key.name: _key(key) for key in form.keys},
        "additionalProperties": False,
    }
    required = [key.name for key in form.keys if key.required]
    if required:
        made["required"] = required
    if form.choose:
        made["allOf"] = [{"oneOf": [{"required": [name]} for name in group]} for group in form.choose]
    if form.together or form.needs:
        made["dependentRequired"] = {
            **{name: [other for other in group if other != name] for group in form.together for name in group},
            **{name: [need.other] for need in form.needs for name in need.keys},
        }
    return made


def _key(key: Key) -> Schema:
    about: Schema = {"description": key.meaning, "examples": [_as_written(key.example)]}
    if key.default is not None:
        about["default"] = _as_written(key.default)
    judged = _kind(key.kind)
    return {**about, **(_or(judged, {"type": "null"}) if _may_be_nothing(key.kind) else judged)}


def _as_written(text: str) -> object:
    """A value with its scalars as the text that they are, which fits whatever a parser would make of them."""
    return yaml.load(text, Loader=yaml.BaseLoader)


def _may_be_nothing(kind: ValueKind) -> bool:
    """Whether `key:` with nothing after it is a fair way to write an empty mapping or list."""
    match kind:
        case Named(least=least):
            return least == 0
        case ByName():
            return True
        case ListOf(least=least, exactly=exactly):
            return least == 0 and exactly is None
        case Mapped(forms=inner, short=short):
            return not short and may_be_empty(inner[0])
    return False


def _kind(kind: ValueKind) -> Schema:
    match kind:
        case Words():
            return {"type": ["string", "number", "boolean"], "pattern": _SAID}
        case OneOf(words=words):
            return {"enum": [*words, *(word == "true" for word in words if word in ("true", "false"))]}
        case Measured():
            return _measured(kind)
        case Size(or_words=or_words):
            pair = _pair(Bound.PAPER_SIZE)
            return _or(pair, _kind(Words())) if or_words else pair
        case Coordinates():
            return _pair(Bound.ANY)
        case PointOnPiece():
            return _or(_pair(Bound.ANY), _text(_SAID))
        case WherePanel():
            started = "|".join((*RELATIONS, BETWEEN.strip()))
            return _or(_pair(Bound.ANY), _text(rf"^\s*({started})\s+\S"))
        case Defines(naming=naming):
            return _new_name(naming)
        case FaceOf():
            return _text(rf"\S\s+({'|'.join(FACES)})\s*$")
        case SideOf():
            return _text(rf"\S\s+({'|'.join(EDGES)})\s*$")
        case NameOf() | PointOnTable():
            return _text(_SAID)
        case ListOf():
            return _list(kind)
        case Named() | ByName():
            return _by_names(kind)
        case Mapped():
            return _mapped(kind)


def _text(pattern: str) -> Schema:
    return {"type": "string", "pattern": pattern}


def _or(*schemas: Schema) -> Schema:
    """Any of some schemas; what is such a choice already is taken apart."""
    parts: list[object] = []
    for each in schemas:
        choice = each.get("anyOf")
        parts.extend(choice if isinstance(choice, list) and len(each) == 1 else [each])
    return {"anyOf": parts}


def _measured(kind: Measured) -> Schema:
    made: Schema = {"type": ["number", "string"], "pattern": _SAID}
    if kind.bound is Bound.NOT_NEGATIVE:
        made["minimum"] = 0
    elif kind.bound is not Bound.ANY:
        made["exclusiveMinimum"] = 0
    if kind.kind is Kind.MONEY:
        made["type"] = "string"
    return made


def _pair(bound: Bound) -> Schema:
    return {"type": "array", "items": _measured(Measured(bound=bound)), "minItems": 2, "maxItems": 2}


def _new_name(naming: Naming) -> Schema:
    made: Schema = {"type": "string", "pattern": _NAME, "maxLength": LONGEST_NAME}
    taken = sorted({*TRUTH_WORDS, *reserved(naming)})
    return {**made, "not": {"enum": taken}}


def _list(kind: ListOf) -> Schema:
    least, most = (kind.least, kind.most) if kind.exactly is None else (kind.exactly, kind.exactly)
    item = _kind(kind.item)
    made: Schema = {"type": "array", "items": item, "maxItems": most}
    if least:
        made["minItems"] = least
    return _or(made, item) if kind.or_single else made


def _by_names(kind: Named | ByName) -> Schema:
    item = _kind(kind.item)
    if _may_be_nothing(kind.item):
        item = _or(item, {"type": "null"})
    made: Schema = {"type": "object", "additionalProperties": item}
    if isinstance(kind, ByName):
        return {**made, "propertyNames": {"pattern": _SAID}, "maxProperties": 200}
    names: Mapping[str, object] = {} if kind.naming is Naming.MEASURE else {"propertyNames": _new_name(kind.naming)}
    least: Mapping[str, object] = {"minProperties": kind.least} if kind.least else {}
    return {**made, **names, **least, "maxProperties": kind.most}


def _mapped(kind: Mapped) -> Schema:
    choices: list[Schema] = [{"$ref": f"#/$defs/{_label(form)}"} for form in kind.forms]
    if kind.short:
        key = kind.forms[0].key(kind.short)
        assert key is not None
        choices.append(_kind(key.kind))
    return choices[0] if len(choices) == 1 else _or(*choices)
