"""What became of many recipes, as a table for the terminal."""

from collections import Counter
from collections.abc import Iterator, Sequence

from foldproof.findings.finding import Severity
from foldproof.shell import Outcome

MOST_CHANGES = 3
"""Changes of one card that are told; `foldproof compare` tells all, before it is built."""
_HEADS = ("recipe", "", "errors", "warnings", "advice", "seconds")


def built_table(outcomes: Sequence[Outcome], seconds: float) -> str:
    """A row for each recipe that was made, was not built or has something to say, and a line that counts them all."""
    rows = [_row(outcome) for outcome in outcomes if outcome.made or outcome.findings]
    widths = [max(len(row[i]) for row in (_HEADS, *rows)) for i in range(len(_HEADS))] if rows else []
    table = [_line(row, widths) for row in (_HEADS, *rows)] if rows else []
    changed = [line for outcome in outcomes for line in _changed(outcome)]
    parts = (table, ["What changed since it was last built:", *changed] if changed else [], [_sum(outcomes, seconds)])
    return "\n\n".join("\n".join(part) for part in parts if part)


def _changed(outcome: Outcome) -> Iterator[str]:
    """The first changes of a card; those of a number that many cards share stand with each of them."""
    yield from (f"  {outcome.recipe}: {line}" for line in outcome.changed[:MOST_CHANGES])
    if len(outcome.changed) > MOST_CHANGES:
        yield f"  {outcome.recipe}: {len(outcome.changed) - MOST_CHANGES} more"


def what_became(outcome: Outcome) -> str:
    """`built`, `unchanged`, `refused` (it has errors), or `not built` (something stood in the way)."""
    if outcome.trouble is not None:
        return "not built"
    if outcome.folder is None:
        return "refused"
    return "built" if outcome.made else "unchanged"


def _row(outcome: Outcome) -> tuple[str, ...]:
    count = Counter(finding.severity for finding in outcome.findings)
    found = tuple(str(count[severity] or "") for severity in (Severity.ERROR, Severity.WARNING, Severity.ADVICE))
    return (outcome.recipe, what_became(outcome), *found, f"{outcome.seconds:.1f}" if outcome.made else "")


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    words = [cell.ljust(width) for cell, width in zip(row[:2], widths[:2], strict=True)]
    figures = [cell.rjust(width) for cell, width in zip(row[2:], widths[2:], strict=True)]
    return "  ".join((*words, *figures)).rstrip()


def _sum(outcomes: Sequence[Outcome], seconds: float) -> str:
    became = Counter(map(what_became, outcomes))
    found = Counter(finding.severity for outcome in outcomes for finding in outcome.findings)
    parts = [f"{became[what]} {what}" for what in ("built", "unchanged", "refused", "not built") if became[what]]
    recipes = "1 recipe" if len(outcomes) == 1 else f"{len(outcomes)} recipes"
    return f"{recipes}: {', '.join((*parts, *_counted(found)))}; {seconds:.1f} seconds"


def _counted(found: Counter[Severity]) -> Iterator[str]:
    for severity, one, several in (
        (Severity.ERROR, "error", "errors"), (Severity.WARNING, "warning", "warnings"),
        (Severity.ADVICE, "piece of advice", "pieces of advice"),
    ):
        if found[severity]:
            yield f"{found[severity]} {one if found[severity] == 1 else several}"
