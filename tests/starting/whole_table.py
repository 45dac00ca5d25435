"""Every construction in six sizes and two units, proved: `PYTHONPATH=src python tests/starting/whole_table.py`.

About 25 seconds. Prints what is not sound or not quiet, and the count; `test_begin.py` takes a part of the same table.
"""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from foldproof.findings.finding import Severity
from foldproof.measures.quantity import Unit
from foldproof.pipeline import prove
from foldproof.starting.begin import begun, lying
from foldproof.starting.constructions import CONSTRUCTIONS, Construction
from foldproof.starting.sizes import read_size

SIZES = ("A2", "A6", "A7", "C6", "DL", "square")
UNITS = (Unit.INCH, Unit.MM)


def table() -> Iterator[tuple[Construction, str, Unit]]:
    """Each construction in each size and unit."""
    for construction in CONSTRUCTIONS:
        for size in SIZES:
            for unit in UNITS:
                yield construction, size, unit


def wrong_with(text: str, folder: Path) -> list[str]:
    """The errors and warnings of a recipe's text."""
    path = folder / "begun.yaml"
    path.write_text(text, encoding="utf-8")
    proof = prove(path)
    assert proof.card is not None, [finding.message for finding in proof.findings]
    return [f"{one.name}: {one.message}" for one in proof.findings if one.severity is not Severity.ADVICE]


def main() -> int:
    """Prove the whole table."""
    tried, bad = 0, 0
    with tempfile.TemporaryDirectory() as folder:
        for construction, size, unit in table():
            wrong = wrong_with(begun(construction, lying(read_size(size, unit), construction)), Path(folder))
            tried, bad = tried + 1, bad + bool(wrong)
            if wrong:
                print(construction.name, size, unit.value, *wrong, sep="\n  ")
    print(f"{tried} begun and proved, {bad} of them not sound or not quiet")
    return bool(bad)


if __name__ == "__main__":
    sys.exit(main())
