"""The usual caution for a tool or supply. Local rules and the maker's instructions come first."""

from foldproof.facts.source import CUSTOM, MEMORY, Mark, Source
from foldproof.frozen import dataclass

_ART_TEACHERS = Source(text="a UK art teachers' body, safe use of knives", mark=Mark.SECONDARY)
_SCHOOL = Source(text="a school's rules for trimmers", mark=Mark.SECONDARY)
_ART_SAFETY = Source(text="CPSC Publication 5015, art and craft safety guide (contents read)", mark=Mark.SECONDARY)
_GLUE = Source(text="makers' working temperatures for hot glue", mark=Mark.SECONDARY)
_SMALL_PARTS = Source(text="16 CFR 1501.4, small parts, children under 3", mark=Mark.PUBLISHER)
_MAGNETS = Source(text="16 CFR 1262, magnets", mark=Mark.PUBLISHER)
_CELLS = Source(text="16 CFR 1263, button cells", mark=Mark.PUBLISHER, date="October 2023")
DEFER = "Follow the maker's instructions and the rules of the place you work in."


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """What to say, once, at the first use."""

    kind: str
    text: str
    source: Source


def _caution(kind: str, text: str, source: Source) -> Caution:
    return Caution(kind=kind, text=text, source=source)


CAUTIONS: dict[str, Caution] = {
    c.kind: c
    for c in (
        _caution(
            "knife",
            "Use a sharp blade, a steel safety rule and a cutting mat larger than the cut. Cut away from "
            "yourself, keep the holding hand behind the blade, and cap or retract it at once. Old blades go in a "
            "sharps container.",
            _ART_TEACHERS,
        ),
        _caution(
            "trimmer",
            "Keep fingers off the cutting track, and lower or lock the blade when you stop cutting.",
            CUSTOM,
        ),
        _caution(
            "guillotine",
            "Keep the finger guard fitted and latch the blade down when idle. Cut small stacks, never carry it by the "
            "arm, and let an adult do the cutting.",
            _SCHOOL,
        ),
        _caution(
            "scissors",
            "Hand scissors over with the points closed in your palm.",
            CUSTOM,
        ),
        _caution(
            "heat tool",
            "The air is hot enough to burn skin and scorch paper: work on a heat-proof surface, hold the card with "
            "tweezers, keep the tool moving, and let it cool before you put it away.",
            MEMORY,
        ),
        _caution(
            "hot glue",
            "Hot glue blisters skin, about 120 °C even from a low-temperature gun and up to about 210 °C from a hot "
            "one: do not touch the nozzle or the glue, stand the gun on its rest, and keep cold water near.",
            _GLUE,
        ),
        _caution(
            "spray adhesive",
            "Flammable and not to be breathed in: spray outdoors or with the windows open, away from flames and "
            "sparks, over spread paper. A glue stick does without the spray.",
            _ART_SAFETY,
        ),
        _caution(
            "solvent",
            "Flammable, with fumes: open the windows, keep it from flames and sparks, and close it after use.",
            _ART_SAFETY,
        ),
        _caution(
            "die cutter",
            "Keep fingers, hair and sleeves clear of the rollers while they turn.",
            CUSTOM,
        ),
        _caution(
            "punch",
            "Keep fingers from under the punch.",
            CUSTOM,
        ),
        _caution(
            "piercer",
            "Pierce into a foam mat, never toward your hand, and put the point away in its cork.",
            CUSTOM,
        ),
        _caution(
            "small parts",
            "Small parts can choke: keep them from children under 3 and from anyone who puts things in the mouth.",
            _SMALL_PARTS,
        ),
        _caution(
            "magnets",
            "Swallowed magnets pull together inside the body: keep them from children, glue them in under a layer, and "
            "get medical help at once if one is swallowed.",
            _MAGNETS,
        ),
        _caution(
            "button cells",
            "A swallowed button cell burns within hours: keep it from children, in a holder that needs a tool to open, "
            "and get medical help at once if one is swallowed.",
            _CELLS,
        ),
    )
}
"""By kind. What is not here (a scoring board, a bone folder, a ruler, wet glue, tape) has no usual caution."""


def find_caution(kind: str | None) -> Caution | None:
    """Give the usual caution for a kind of tool or supply (see facts.tools), or None where there is none."""
    return CAUTIONS.get(kind) if kind else None
