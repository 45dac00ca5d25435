"""The units that an edition is told in."""

from enum import StrEnum

from foldproof.measures.quantity import Unit


class Measures(StrEnum):
    """What an edition's lengths are said in."""

    INCHES = "inches"
    METRIC = "metric"
    BOTH = "both"
    """The recipe's own plan, its lengths in the other unit in brackets."""

    @property
    def suffix(self) -> str:
        """Added to the name of the output folder."""
        return f"-{self.value}"

    @property
    def called(self) -> str:
        """What the stamp says."""
        return {"inches": "inch edition", "metric": "metric edition", "both": "edition in both units"}[self.value]


def own_measures(unit: Unit) -> Measures:
    """What a recipe is written in."""
    return Measures.INCHES if unit is Unit.INCH else Measures.METRIC
