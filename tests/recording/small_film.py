"""A demo card with lines to speak, for the tests of recordings."""

from functools import cache
from pathlib import Path

from foldproof.documents.spoken import spoken_lines
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.pipeline import prove
from foldproof.recording.film import Film, Written, make_film

RECIPES = Path(__file__).resolve().parent.parent.parent / "recipes"
STEPS = (
    "Cut the base, 0:10", "Score the doors, 0:40", "Fold the doors, 1:20", "Cut the mats and the band, 2:00",
    "Stamp the greetings, 3:00", "Glue the inside mat, 3:40", "Glue the door mats, 4:30",
    "Glue the band to the left door, 5:30", "Check the card and slide it into its envelope, 6:40",
)
WHOLE = "\n".join((*STEPS, "length, 7:30")) + "\n"


@cache
def tide_gate() -> Card:
    return card("tide-gate")


@cache
def card(name: str) -> Card:
    found = prove(RECIPES / f"{name}.yaml").card
    assert found is not None
    return found


def film(times: str = WHOLE, said: str | None = None, *, kept: bool = False) -> tuple[Film | None, tuple[Finding, ...]]:
    """What comes of a recording of the tide gate."""
    recipe = tide_gate().recipe
    spoken = Written(file="said.vtt", text=said) if said is not None else None
    return make_film(tide_gate(), Written(file="times.csv", text=times), spoken, spoken_lines(recipe), kept=kept)


def made(times: str = WHOLE, said: str | None = None) -> Film:
    found, findings = film(times, said)
    assert found is not None, findings
    return found


def told(times: str = WHOLE, said: str | None = None, *, kept: bool = False) -> list[tuple[str, int]]:
    """The findings, each with the line that it stands at."""
    return [(finding.name, finding.place.line if finding.place else 0) for finding in film(times, said, kept=kept)[1]]
