"""The keys of a mapping held against its form: unknown, missing, excluding each other."""

from foldproof.findings.nearest import nearest
from foldproof.recipe.desk import Desk
from foldproof.recipe.kinds import ByName, Form, Key, ListOf, Mapped, Named, namings_in
from foldproof.recipe.nodes import Entry, Mapping, Scalar
from foldproof.recipe.synonyms import SYNONYMS
from foldproof.recipe.wording import a, an_example, in_words

MOST_STRANGERS = 30
"""Unknown keys in one mapping that are told one by one."""


def form_of(node: Mapping, forms: tuple[Form, ...]) -> Form:
    """The form that shares most keys with what is written; the first of equals."""
    written = {entry.key.text for entry in node.entries}
    return max(forms, key=lambda form: sum(key.name in written for key in form.keys))


def may_be_empty(form: Form) -> bool:
    """Whether a mapping of this form needs no key at all."""
    return not form.choose and not any(key.required for key in form.keys)


def matched(node: Mapping, form: Form, desk: Desk) -> list[tuple[Key, Entry]]:
    """The entries with their keys; a misspelt key is reported and then read as the key that was likely meant."""
    taken = {entry.key.text for entry in node.entries}
    pairs: list[tuple[Key, Entry]] = []
    strangers = 0
    for entry in node.entries:
        key = form.key(entry.key.text)
        strangers += key is None
        if strangers > MOST_STRANGERS:
            desk.error(
                "too many",
                f"More than {MOST_STRANGERS} keys here are no keys of {a(form.name)}; the rest is not looked at.",
                entry.key.place,
            )
            break
        if key is None:
            free = [each.name for each in form.keys if each.name not in taken]
            guess = None if _after_comma(node, entry) else nearest(entry.key.text, free, SYNONYMS)
            _report_unknown(node, entry, form, guess, desk)
            key = form.key(guess) if guess else None
            if key is None:
                continue
            taken.add(key.name)
        pairs.append((key, entry))
    return pairs


def _after_comma(node: Mapping, entry: Entry) -> bool:
    """Whether a key in braces has no value: then it is most likely the second half of a sentence with a comma."""
    return node.braces and isinstance(entry.value, Scalar) and entry.value.empty


def _report_unknown(node: Mapping, entry: Entry, form: Form, guess: str | None, desk: Desk) -> None:
    word = entry.key.text
    message = f"`{word}` is no key of {a(form.name)}."
    mend = f"Did you mean `{guess}`?" if guess else f"Its keys: {', '.join(key.name for key in form.keys)}."
    if not word:
        message = "No key stands before the colon."
    elif word == "<<":
        message = "`<<` copies another mapping into this one in YAML. Recipes have no such copies."
        mend = "Write out what it stands for."
    elif _after_comma(node, entry):
        message += " A comma inside braces ends a value, so what follows it is taken for a key."
        mend = "If these words belong to the value before them, put that value in quotes."
    desk.error("unknown key", message, entry.key.place, mend)


def nothing_written(entry: Entry, key: Key, desk: Desk) -> bool:
    """Report a key with nothing after its colon, unless nothing is a fair way to write an empty mapping or list."""
    value, kind = entry.value, key.kind
    if not (isinstance(value, Scalar) and value.empty):
        return False
    if value.lost is None and (
        isinstance(kind, Named | ByName)
        or (isinstance(kind, ListOf) and kind.least == 0 and kind.exactly is None)
        or (isinstance(kind, Mapped) and not kind.short and may_be_empty(kind.forms[0]))
    ):
        return False
    if value.lost is not None:
        desk.error(
            "words lost to a comment",
            f"Nothing is left after `{entry.key.text}:`. YAML drops `{value.lost}`: a # starts a comment.",
            entry.key.place,
            f'Put it in quotes: {entry.key.text}: "{value.lost}"',
        )
    else:
        desk.error(
            "nothing written",
            f"Nothing is written after `{entry.key.text}:`.",
            entry.key.place,
            f"Write it, for example {key.name}: {key.example}",
        )
    return True


def complete(node: Mapping, form: Form, written: dict[str, Entry], desk: Desk) -> bool:
    """Whether all that is needed is there; reports keys that are missing, exclude each other or need each other."""
    sound = True
    for key in form.keys:
        if key.required and key.name not in written:
            desk.unlisted |= namings_in(key.kind)
            sound = _missing(
                f"The {form.name} has no `{key.name}`. {key.meaning}", node, an_example(form, key.name), desk
            )
    for group in form.choose:
        there = [name for name in written if name in group]
        if not there and len(written) < len(node.entries):
            sound = False  # an unknown key is told already, and may be the one
        elif not there:
            needs = f"The {form.name} needs one of these: {in_words(group, 'or')}."
            sound = _missing(needs, node, an_example(form, group[0]), desk)
        elif len(there) > 1:
            sound = False
            desk.error(
                "too many parts",
                f"{in_words(there, 'and')} stand together, where {a(form.name)} takes only one of them.",
                written[there[1]].key.place,
                "Keep one of them.",
            )
    for group in form.together:
        there = [name for name in group if name in written]
        for lacking in group:
            if there and lacking not in written:
                sound = False
                desk.error(
                    "missing part",
                    f"`{there[0]}` needs `{lacking}` beside it.",
                    written[there[0]].key.place,
                    f"Add it, for example {an_example(form, lacking)}",
                )
    for need in form.needs:
        there = [name for name in need.keys if name in written]
        if there and need.other not in written:
            sound = False
            why = f" {need.why}" if need.why else ""
            desk.error(
                "missing part",
                f"`{there[0]}` needs `{need.other}` beside it.{why}",
                written[there[0]].key.place,
                f"Add it, for example {an_example(form, need.other)}",
            )
    return sound


def _missing(message: str, node: Mapping, example: str, desk: Desk) -> bool:
    desk.error("missing part", message, node.place, f"Add it, for example {example}")
    return False
