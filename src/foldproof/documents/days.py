"""Days in words that nobody reads the wrong way round."""

from datetime import date

from foldproof.measures.quantity import Unit

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December")


def day_words(written: str, unit: Unit) -> str:
    """A day written as 2026-03-01: `March 1, 2026` in an inch edition, `1 March 2026` in a metric one."""
    day = date.fromisoformat(written)
    month = MONTHS[day.month - 1]
    return f"{month} {day.day}, {day.year}" if unit is Unit.INCH else f"{day.day} {month} {day.year}"
