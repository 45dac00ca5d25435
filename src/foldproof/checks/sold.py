"""What can no longer be had: the one check that needs a day."""

from datetime import date

from foldproof.checks.check import advice, warning
from foldproof.findings.finding import Finding
from foldproof.recipe.class_records import PackSpec
from foldproof.recipe.records import Recipe
from foldproof.recipe.web import day_fault

GONE = warning("no longer to be had", "The day until which something can be had is over, and nothing is named instead.")
GONE_WITH_SUBSTITUTE = advice(
    "substitute needed", "The day until which something can be had is over; the recipe names what does as well.")

End = tuple[str, Finding]
"""A day, as 2026-03-01, and what is found once it is over."""


def is_gone(pack: PackSpec, day: str) -> bool:
    """Whether a day (2026-03-01) lies after the last one on which something can be had; never without a day."""
    return pack.until is not None and day_fault(day) is None and day > str(pack.until)


def check_sold(recipe: Recipe, day: date) -> tuple[Finding, ...]:
    """What is gone on a day, with its substitute."""
    return tuple(finding for last, finding in ends_of(recipe) if day.isoformat() > last)


def ends_of(recipe: Recipe) -> tuple[End, ...]:
    """For each thing that can be had until a day: that day, and what is found once it is over."""
    part = recipe.class_part
    packs = (*part.packs, *((part.envelopes,) if part.envelopes else ())) if part else ()
    return tuple((str(pack.until), _gone(pack)) for pack in packs if pack.until is not None)


def _gone(pack: PackSpec) -> Finding:
    place = pack.until.place if pack.until else pack.place
    over = f"The {pack.name} could be had until {pack.until}, and that day is over"
    if pack.substitute is not None:
        return GONE_WITH_SUBSTITUTE.finding(
            f"{over}. The handout and the page name what does as well: {pack.substitute}.",
            mend="Buy that instead; or choose another, and write the recipe for it.", place=place)
    return GONE.finding(
        f"{over}; the recipe names nothing instead.",
        mend="Write `substitute:` beside it, or choose one that can be had.", place=place)
