"""Findings as notes for the margin of the bench: plain data, each with its line and its spot on the page."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from foldproof.findings.finding import Finding, Place
from foldproof.findings.show import count, in_order
from foldproof.recipe.records import Recipe

SECTIONS = {
    "measurements": ("measures", "papers", "pieces", "layers", "joins", "slides"),
    "needed": ("supplies", "tools"),
    "views": ("title", "summary", "finished", "poses", "opening"),
    "steps": ("steps",),
}
"""Parts of the page, and the keys of a recipe that they come from."""
_KEY = re.compile(r"([A-Za-z][\w ]*?)\s*:")


def told(findings: Sequence[Finding], sources: Mapping[str, str], recipe: Recipe | None) -> dict[str, Any]:
    """What the margin says: `count` in words, and `notes` in the order of their places."""
    return {"count": count(findings), "notes": [_note(finding, sources, recipe) for finding in in_order(findings)]}


def _note(finding: Finding, sources: Mapping[str, str], recipe: Recipe | None) -> dict[str, Any]:
    return {
        "severity": str(finding.severity), "name": finding.name, "message": finding.message, "mend": finding.mend,
        "place": _place(finding.place, sources), "spot": spot_of(finding, sources, recipe),
        "asides": [{"text": aside.text, "place": _place(aside.place, sources)} for aside in finding.asides],
    }


def _place(place: Place | None, sources: Mapping[str, str]) -> dict[str, Any] | None:
    """File, line (from 1), the line's text, and which of its characters are meant (from 0, the end not among them)."""
    if place is None or place.file not in sources:
        return None
    lines = sources[place.file].splitlines()
    text = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
    start = min(max(place.column - 1, 0), len(text))
    return {
        "file": place.file, "line": place.line, "text": text, "start": start,
        "end": min(start + max(place.length, 1), len(text))}


def spot_of(finding: Finding, sources: Mapping[str, str], recipe: Recipe | None) -> str | None:
    """The id of the step, or the part of the page, that a finding is about; None where it has none."""
    place = finding.place
    if finding.step is not None and recipe is not None and any(step.id == finding.step for step in recipe.steps):
        return finding.step
    if place is None or place.file not in sources:
        return None
    key = _top_key(sources[place.file].splitlines()[:place.line])
    if key == "steps" and recipe is not None:
        before = [step.id for step in recipe.steps if step.place.file == place.file and step.place.line <= place.line]
        if before:
            return before[-1]
    return next((part for part, keys in SECTIONS.items() if key in keys), None)


def _top_key(lines: Sequence[str]) -> str | None:
    """The key on the left edge that a line stands under."""
    for line in reversed(lines):
        if line[:1].strip() and not line.startswith(("#", "-")) and (found := _KEY.match(line)):
            return found[1]
    return None
