"""A times file read against its recipe: when each step begins in the finished recording."""

import hashlib
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

from foldproof.findings.finding import Finding, Place
from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Quantity
from foldproof.recipe.records import Recipe, StepSpec
from foldproof.recording.faults import (
    BACKWARDS,
    BAD_ADDRESS,
    BY_NUMBER,
    CHANGED,
    EMPTY,
    NO_LENGTH,
    PAST_END,
    TWICE,
    UNKNOWN_STEP,
)
from foldproof.recording.moments import clock, seconds_written
from foldproof.recording.records import Began, Recording
from foldproof.recording.rows import Row, read_rows, write_rows

LENGTH, ADDRESS, OWN = "length", "address", "chapter"
"""Names that are no step's: how long the recording is, where it can be seen, and a chapter of the teacher's own."""


def read_times(
    source: str, file: str, recipe: Recipe, *, kept: bool = False
) -> tuple[Recording | None, tuple[Finding, ...]]:
    """The recording that a times file tells of, or what stands in the way.

    `kept` says that the file is kept beside the recipe, so that it must stay true when the recipe changes.
    """
    source = source.removeprefix("\ufeff")
    if not source.strip():
        return None, (EMPTY.finding(f"{file} is empty.", mend=_how(recipe), place=_top(file)),)
    rows, faults = read_rows(source, file)
    findings = list(faults)
    lengths, begins, address = [], [], ""
    for row in rows:
        name = " ".join(row.name.casefold().split())
        if name == LENGTH:
            lengths.append(row)
        elif name == ADDRESS:
            address = row.address
            findings += _address(row)
        elif row.at is None:
            continue
        else:
            began = _began(row, row.at, recipe)
            if isinstance(began, Began):
                begins.append(began)
            else:
                findings.append(began)
    findings += _twice(begins, lengths)
    length = lengths[0].at if lengths else None
    if length is None and not (faults and not rows):
        findings.append(
            NO_LENGTH.finding(
                f"{file} does not say how long the recording is, so where the last step ends is not known.",
                mend="Add a row: length, 12:30",
                place=_top(file),
            )
        )
    findings += _order(begins, length, recipe)
    if not any(began.step is not None for began in begins) and not findings:
        findings.append(EMPTY.finding(f"{file} gives no step a time.", mend=_how(recipe), place=_top(file)))
    if length is None or any(finding.severity == "error" for finding in findings):
        return None, tuple(findings)
    findings += _stale(begins, recipe, kept)
    ordered = tuple(sorted(begins, key=lambda began: began.at))
    return Recording(length=length, begins=ordered, steps=len(recipe.steps), address=address), tuple(findings)


def fingerprint(step: StepSpec) -> str:
    """Eight hexadecimal digits of what a step does and says, its places in the recipe aside."""
    words = (step.title, step.text, *((step.say,) if step.say else ()))
    digest = hashlib.sha256("\0".join((*(" ".join(str(word).split()) for word in words), _told(step.actions))).encode())
    return digest.hexdigest()[:8]


def _told(value: Any) -> str:
    """What a record says, its places and how its numbers were reached aside."""
    match value:
        case Place():
            return ""
        case Quantity():
            return f"{value.value} {value.kind}"
        case tuple():
            return f"[{' '.join(map(_told, value))}]"
    if is_dataclass(value):
        parts = (f"{field.name}={_told(getattr(value, field.name))}" for field in fields(value))
        return f"{type(value).__name__}({' '.join(parts)})"
    return str(value)


def written(recording: Recording, recipe: Recipe) -> str:
    """The times as a file to keep beside the recipe: every step by its id, those without a time left blank."""
    return write_rows(_rows(recording, recipe))


def blank(recipe: Recipe) -> str:
    """A times file to fill in."""
    return write_rows(iter([*((step.id, "", str(step.title), "") for step in recipe.steps), (LENGTH, "", "", "")]))


def _rows(recording: Recording, recipe: Recipe) -> Iterator[tuple[str, str, str, str]]:
    at = {began.step: began.at for began in recording.begins if began.step is not None}
    for index, step in enumerate(recipe.steps):
        known = index in at
        filmed = next((began.as_filmed for began in recording.begins if began.step == index and began.as_filmed), "")
        yield (
            step.id,
            _exact(at[index]) if known else "",
            str(step.title),
            (filmed or fingerprint(step)) if known else "",
        )
    for began in recording.begins:
        if began.step is None:
            yield f"{OWN}: {began.title}", _exact(began.at), "", ""
    yield LENGTH, _exact(recording.length), "", ""
    if recording.address:
        yield ADDRESS, recording.address, "", ""


def _exact(moment: Fraction) -> str:
    """As a clock, with what there is of a fraction of a second."""
    rest = seconds_written(moment % 1)
    return clock(moment) + rest.removeprefix("0")


def _began(row: Row, at: Fraction, recipe: Recipe) -> Began | Finding:
    own = re.fullmatch(rf"{OWN}\s*:\s*(.+)", row.name, re.IGNORECASE)
    if own:
        return Began(step=None, title=own[1], at=at, place=row.place)
    index, by_number = _step(row.name, recipe)
    if index is None:
        return _unknown(row, recipe)
    step = recipe.steps[index]
    if row.title and _plain(row.title) != _plain(str(step.title)):
        return UNKNOWN_STEP.finding(
            f"The row names the step {row.name} and the title {row.title}; that step is {step.title}.",
            mend="Write the step's own title, or leave the title out.",
            place=row.place,
        )
    return Began(
        step=index,
        title=str(step.title),
        at=at,
        place=row.place,
        by_number=by_number and not row.title,
        as_filmed=row.as_filmed,
    )


def _step(name: str, recipe: Recipe) -> tuple[int | None, bool]:
    """The step's place by its id, its title or its number, and whether it was the number alone."""
    for index, step in enumerate(recipe.steps):
        if name == step.id or _plain(name) in (_plain(step.id), _plain(str(step.title))):
            return index, False
    numbered = re.fullmatch(r"(?:step\s+)?#?(\d{1,4})(?:[.):]?\s+(\D.*))?[.):]?", name, re.IGNORECASE)
    if numbered is None or not 1 <= int(numbered[1]) <= len(recipe.steps):
        return None, False
    index = int(numbered[1]) - 1
    if numbered[2] and _plain(numbered[2]) != _plain(str(recipe.steps[index].title)):
        return None, False
    return index, not numbered[2]


def _unknown(row: Row, recipe: Recipe) -> Finding:
    meant = nearest(row.name, [str(step.title) for step in recipe.steps]) or nearest(
        row.name, [step.id for step in recipe.steps]
    )
    count = len(recipe.steps)
    return UNKNOWN_STEP.finding(
        f"The recipe has no step {row.name}; it has {count}, each with a number, an id and a title.",
        mend=f"Write {meant}, if that is meant."
        if meant
        else f"Name a step from 1 to {count} by number, id or title. A chapter that is no step: chapter: {row.name}",
        place=row.place,
    )


def _twice(begins: list[Began], lengths: list[Row]) -> Iterator[Finding]:
    seen: dict[int, Began] = {}
    for began in begins:
        if began.step is None:
            continue
        first = seen.setdefault(began.step, began)
        if first is not began:
            yield TWICE.finding(
                f"The step {began.title} begins at {clock(began.at)} here, and at {clock(first.at)} in line "
                f"{first.place.line}.",
                mend="Keep the row that is right.",
                place=began.place,
            )
    for row in lengths[1:]:
        yield TWICE.finding("The length is given twice.", mend="Keep the row that is right.", place=row.place)


def _order(begins: list[Began], length: Fraction | None, recipe: Recipe) -> Iterator[Finding]:
    first: dict[int, Began] = {}
    for began in begins:
        if began.step is not None:
            first.setdefault(began.step, began)
    latest: Began | None = None
    for index in sorted(first):
        began = first[index]
        if latest is not None and began.at <= latest.at:
            how = "at the same time as" if began.at == latest.at else "before"
            yield BACKWARDS.finding(
                f"The step {began.title} begins at {_exact(began.at)}, {how} {latest.title} at {_exact(latest.at)}, "
                "which "
                "comes earlier in the recipe.",
                mend="Look at both times: steps begin in the order of the recipe, each after the one before.",
                place=began.place,
            )
        else:
            latest = began
    taken = {began.at: began for began in first.values()}
    for began in begins:
        if began.step is None and taken.setdefault(began.at, began) is not began:
            yield BACKWARDS.finding(
                f"The chapter {began.title} begins at {clock(began.at)}, together with {taken[began.at].title}.",
                mend="Leave one out, or correct its time.",
                place=began.place,
            )
    for began in begins:
        if length is not None and began.at >= length:
            yield PAST_END.finding(
                f"{began.title} begins at {_exact(began.at)}, and the recording lasts {_exact(length)}.",
                mend="Correct the time, or the length.",
                place=began.place,
            )


def _stale(begins: list[Began], recipe: Recipe, kept: bool) -> Iterator[Finding]:
    for began in begins:
        if began.step is None or not began.as_filmed:
            continue
        step = recipe.steps[began.step]
        if began.as_filmed != fingerprint(step):
            yield CHANGED.finding(
                f"The step {step.title} has changed since its time was written down: what the recording shows and says "
                f"at {clock(began.at)} may not be what the recipe says now.",
                mend="Look at the recording from there. If it still holds, name the times to `foldproof film` without "
                "their last column; it writes them anew.",
                place=began.place,
                step=step.id,
            )
    numbered = [began for began in begins if began.by_number]
    if kept and numbered:
        yield BY_NUMBER.finding(
            "The file is kept beside the recipe and names steps by number alone: a step put in before them would move "
            "every time.",
            mend="Name them by title or id; recording.csv in the built set does.",
            place=numbered[0].place,
        )


def _address(row: Row) -> Iterator[Finding]:
    if not re.fullmatch(r"https?://[^\s<>\"'\\^`|]+", row.address):
        yield BAD_ADDRESS.finding(
            f"`{row.address}` is no address that a page can lead to.",
            mend="Write it in full: address, https://example.org/beacon",
            place=row.time_place,
        )


def _how(recipe: Recipe) -> str:
    first = recipe.steps[0].title if recipe.steps else "Cut the base"
    return f"Write a row for each step whose time is known, and one for the length: {first}, 0:12 then length, 12:30."


def _plain(text: str) -> str:
    return " ".join(re.sub(r"[^\w]+", " ", text.casefold()).split())


def _top(file: str) -> Place:
    return Place(file=file, line=1, column=1)
