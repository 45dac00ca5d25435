"""Frozen records made quickly: the standard `dataclass`, with its functions made only when they are first needed.

The standard decorator writes and compiles six functions for each class, half a millisecond each time; the program has
some hundreds of records, and `check` should not spend most of its time on them. For `frozen=True, slots=True` this one
makes the same class (same fields, equality, hash, text, pickling, and the same errors) from shared functions, and
compiles `__init__` when the first record of a class is made. Anything else is handed to the standard decorator.
"""

import dataclasses
from dataclasses import MISSING, Field, FrozenInstanceError
from inspect import get_annotations
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:
    def dataclass(cls=None, /, **options):
        """`dataclasses.dataclass`, and quickly where it is called with `frozen=True, slots=True`."""
        rest = dict(options)
        if cls is not None or not (rest.pop("frozen", False) and rest.pop("slots", False)) or set(rest) - {"kw_only"}:
            return dataclasses.dataclass(cls, **options) if cls is not None else dataclasses.dataclass(**options)
        return lambda made: _record(made, rest.get("kw_only", False))


@dataclasses.dataclass(frozen=True, slots=True)
class _Example:
    """A record as the standard makes it, for the marks by which the standard knows its own."""

    part: int = 0


_IS_FIELD: Any = dataclasses.fields(_Example)[0]._field_type  # type: ignore[attr-defined]
_PARAMS: Any = _Example.__dataclass_params__  # type: ignore[attr-defined]


def _record(cls: type, kw_only: bool) -> type:
    own = get_annotations(cls)
    if any("ClassVar" in str(kind) or "InitVar" in str(kind) for kind in own.values()):
        return dataclasses.dataclass(frozen=True, slots=True, kw_only=kw_only)(cls)
    fields: dict[str, Field[Any]] = {}
    for base in reversed(cls.__mro__[1:]):
        fields.update(getattr(base, "__dataclass_fields__", {}))
    inherited = set(fields)
    fields.update((name, _field(cls, name, kind, kw_only)) for name, kind in own.items())
    space = {name: value for name, value in cls.__dict__.items() if name not in own}
    space.pop("__dict__", None)
    space.pop("__weakref__", None)
    names = tuple(fields)
    space |= {
        "__slots__": tuple(name for name in own if name not in inherited), "__dataclass_fields__": fields,
        "__dataclass_params__": _PARAMS, "__match_args__": tuple(name for name in names if not fields[name].kw_only),
        "__setattr__": _refuse_to_set, "__delattr__": _refuse_to_delete, "__getstate__": _state,
        "__setstate__": _restore,
    }
    same, number = _compared(tuple(name for name in names if fields[name].compare))
    space.setdefault("__repr__", _shown)
    if "__eq__" not in cls.__dict__:
        space["__eq__"] = same
    if cls.__dict__.get("__hash__") is None:
        space["__hash__"] = number
    made: Any = type(cls)(cls.__name__, cls.__bases__, space)
    made.__qualname__ = cls.__qualname__
    if "__init__" not in cls.__dict__:
        made.__init__ = _first_init(made, fields)
    return made  # type: ignore[no-any-return]


def _field(cls: type, name: str, kind: Any, kw_only: bool) -> "Field[Any]":
    given = cls.__dict__.get(name, MISSING)
    found: Any = given if isinstance(given, Field) else dataclasses.field(default=given)
    if type(found.default) in (list, dict, set):
        raise ValueError(f"mutable default {type(found.default)} for field {name} is not allowed: use default_factory")
    found.name, found.type, found._field_type, found.kw_only = name, kind, _IS_FIELD, kw_only
    return found  # type: ignore[no-any-return]


def _compared(names: tuple[str, ...]) -> tuple[Any, Any]:
    """`__eq__` and `__hash__` of a record with these fields."""
    if len(names) > 1:
        values: Any = attrgetter(*names)
    elif names:
        only = attrgetter(names[0])

        def values(record: Any) -> tuple[Any, ...]:
            return (only(record),)
    else:

        def values(record: Any) -> tuple[Any, ...]:
            return ()

    def same(self: Any, other: Any) -> Any:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    def number(self: Any) -> int:
        return hash(values(self))

    return same, number


def _first_init(cls: Any, fields: "dict[str, Field[Any]]") -> Any:
    """An `__init__` that makes the real one when it is called for the first time."""

    def __init__(self: Any, /, *given: Any, **named: Any) -> None:
        cls.__init__ = _init(cls, fields)
        cls.__init__(self, *given, **named)

    return __init__


def _init(cls: Any, fields: "dict[str, Field[Any]]") -> Any:
    known: dict[str, Any] = {}
    plain: list[str] = []
    named: list[str] = []
    body: list[str] = []
    for name, field in fields.items():
        known[f"_set_{name}"] = getattr(cls, name).__set__
        written, value = name, name
        if field.default is not MISSING:
            known[f"_else_{name}"] = field.default
            written = f"{name}=_else_{name}"
        elif field.default_factory is not MISSING:
            known |= {f"_make_{name}": field.default_factory, "_nothing": MISSING}
            written, value = f"{name}=_nothing", f"_make_{name}() if {name} is _nothing else {name}"
        (named if field.kw_only else plain).append(written)
        body.append(f" _set_{name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        body.append(" self.__post_init__()")
    taken = ", ".join(("self", *plain, *(("*", *named) if named else ())))
    exec(f"def __init__({taken}):\n" + ("\n".join(body) or " pass"), known)
    made = known["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made


@recursive_repr()
def _shown(self: Any) -> str:
    parts = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__dataclass_fields__)
    return f"{self.__class__.__qualname__}({parts})"


def _refuse_to_set(self: object, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in self.__dataclass_fields__]


def _restore(self: Any, state: list[Any]) -> None:
    for name, value in zip(self.__dataclass_fields__, state, strict=True):
        object.__setattr__(self, name, value)
