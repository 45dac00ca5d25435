"""The table of keys of a card's sizes in the other unit: what its metric edition, or its inch edition, is made from."""

from foldproof.recipe.kinds import Bound, ByName, Form, Key, Measured, Naming, Words

_PAPERS = (
    "The sheets that its papers come in there: a sheet's name, or width x height with the unit; papers that are left "
    "out keep their sheets, or come on A4 or letter where their pieces fit.")


def _sizes(name: str, meaning: str, bare: str, measures: str, papers: str, envelope: str) -> Form:
    return Form(name, meaning, (
        Key("measures", ByName(Naming.MEASURE, Measured(bound=Bound.ANY, bare=bare)),
            "Named measures in that unit; those that are left out are rounded so that all sums hold.", measures),
        Key("papers", ByName(Naming.PAPER, Words()), _PAPERS, papers),
        Key("envelope", Words(), "The envelope for that edition; the recipe's own unless said.", envelope),
    ))


METRIC = _sizes(
    "set of metric sizes", "An inch recipe's sizes for its metric edition; bare numbers are millimetres.", "mm",
    "{width: 105, height: 148}", "{slate: A4, waves: 305 x 305 mm}", "C6")
INCHES = _sizes(
    "set of inch sizes", "A metric recipe's sizes for its inch edition; bare numbers are inches.", "in",
    "{width: 4 1/4, height: 5 1/2}", "{slate: letter, waves: 12 x 12}", "A2")
