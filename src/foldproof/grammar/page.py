"""The grammar as one reference page in Markdown, made from the table that the reader reads by."""

from collections.abc import Iterator, Sequence

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys import forms, forms_in
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
    OneOf,
    PointOnPiece,
    PointOnTable,
    SideOf,
    Size,
    ValueKind,
    WherePanel,
    Words,
)
from foldproof.recipe.wording import a

_QUANTITIES = {
    Kind.LENGTH: "length", Kind.NUMBER: "number", Kind.ANGLE: "angle", Kind.TIME: "time", Kind.MONEY: "price"}


def page(roots: tuple[Form, ...]) -> str:
    """The page of the grammars of some files."""
    return "\n".join(_page(roots)) + "\n"


def _page(roots: tuple[Form, ...]) -> Iterator[str]:
    yield "# Every key"
    yield ""
    yield "Made by `foldproof grammar --page FILE` from the table that the reader reads by; change that, not this page."
    told: set[str] = set()
    for root in roots:
        for form in forms(root):
            if form.name not in told:
                told.add(form.name)
                yield from _section(form, roots)


def _section(form: Form, roots: tuple[Form, ...]) -> Iterator[str]:
    yield from ("", f"## {form.name}", "", form.meaning)
    used = _uses(form, roots)
    if used:
        yield from ("", f"Stands under {_listed(used, 'and')}.")
    yield from ("", "| key | value | meaning | example |", "|---|---|---|---|")
    for key in form.keys:
        yield f"| {' | '.join(_cell(part) for part in _row(key))} |"
    for group in form.choose:
        yield from ("", f"Exactly one of {_listed([f'`{name}`' for name in group], 'and')}.")
    for group in form.together:
        yield from ("", f"{_listed([f'`{name}`' for name in group], 'and')} come together or not at all.")
    for need in form.needs:
        keys = _listed([f"`{name}`" for name in need.keys], "or")
        yield from ("", f"{keys} needs `{need.other}` beside it. {need.why}".rstrip())


def _uses(form: Form, roots: tuple[Form, ...]) -> tuple[str, ...]:
    """The keys that a form stands under, each with the form that has it."""
    found = {
        f"`{key.name}` of [{a(other.name)}](#{_anchor(other)})": None
        for root in roots for other in forms(root) for key in other.keys if form in forms_in(key.kind)}
    return tuple(found)


def _row(key: Key) -> tuple[str, str, str, str]:
    needed = " **needed**" if key.required else ""
    default = f" Unless said: `{key.default}`." if key.default is not None else ""
    return f"`{key.name}`{needed}", value_in_words(key.kind), key.meaning + default, f"`{key.name}: {key.example}`"


def value_in_words(kind: ValueKind) -> str:
    """What may stand after the colon of a key, in words with links to the forms."""
    match kind:
        case Words(prose=prose):
            return "sentences, in Markdown" if prose else "words"
        case OneOf(words=words):
            return _listed([f"`{word}`" for word in words], "or")
        case Measured():
            return _measured(kind)
        case Size(or_words=or_words):
            return "`[width, height]`" + (", or a name" if or_words else "")
        case Coordinates():
            return "`[x, y]`"
        case PointOnPiece():
            return "`[x, y]`, a corner or middle, or a point's name"
        case PointOnTable():
            return "a corner or middle as it lies, a mark, or a point found on scores"
        case Defines(naming=naming):
            return f"a new name for the {naming}"
        case NameOf(namings=namings, also=also):
            return _listed([*(f"{a(naming)}'s name" for naming in namings), *(f"`{word}`" for word in also)], "or")
        case FaceOf():
            return "a panel, then `front` or `back`"
        case SideOf():
            return "a panel, then `left`, `right`, `top` or `bottom`"
        case WherePanel():
            return "`[x, y]`, or sides of scores: `left of A`, `between A and B`, joined by `and`"
        case ListOf(item=item, or_single=or_single):
            many = f"{kind.exactly} in a list" if kind.exactly else f"a list, {kind.least} at least" if kind.least > 1 \
                else "a list"
            return f"{many}: each {value_in_words(item)}" + ("; one may stand alone" if or_single else "")
        case Named(naming=naming, item=item):
            return f"new names, each with {value_in_words(item)}"
        case ByName(naming=naming, item=item):
            return f"names of {naming}s, each with {value_in_words(item)}"
        case Mapped(forms=choices, short=short):
            links = _listed([f"[{a(form.name)}](#{_anchor(form)})" for form in choices], "or")
            return links + (f"; or its `{short}` alone" if short else "")


def _measured(kind: Measured) -> str:
    more = {
        Bound.POSITIVE: "", Bound.PAPER_SIZE: "", Bound.NOT_NEGATIVE: ", 0 or more",
        Bound.ANY: ", also below 0" if kind.kind in (Kind.LENGTH, Kind.ANGLE) else ""}[kind.bound]
    bare = f" (a bare number: {kind.bare})" if kind.bare else ""
    word = f", or `{kind.or_word}`" if kind.or_word else ""
    return f"{_QUANTITIES[kind.kind]}{more}{bare}{word}"


def _anchor(form: Form) -> str:
    return form.name.replace(" ", "-")


def _listed(parts: Sequence[str], joint: str) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} {joint} {parts[-1]}"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
