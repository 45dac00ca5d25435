"""What can be had, where and until when: printed as written, and found to be gone by a day that is given or today's."""

import json
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest

from foldproof.checks.sold import check_sold
from foldproof.documents.telling import Drawn, tell
from foldproof.documents.view import View
from foldproof.findings.finding import Finding, Severity
from foldproof.pipeline import Options, Proof, documents, prove, read_day, with_gone

PACKS = """\
class:
  paper packs:
    waves: {holds: 25, called: pad, price: 8.40 USD, link: "https://example.org/waves", until: 2026-06-30,
            substitute: any small pattern}
    slate: {price: 0.80 USD, until: 2026-06-29}
  supply packs:
    wet glue: {holds: 40, of: card, called: bottle, price: 3.20 USD, substitute: "tape of {border}"}
  envelopes: {until: 2026-07-01}
"""


@pytest.fixture
def sold(recipe_file: Path) -> Proof:
    recipe_file.write_text(recipe_file.read_text(encoding="utf-8") + PACKS, encoding="utf-8")
    proof = prove(recipe_file)
    assert proof.sound, proof.findings
    return proof


def view_of(proof: Proof, dated: str = "") -> View:
    assert proof.card is not None and proof.making is not None
    return tell(
        proof.card, proof.making, drawn=Drawn(), photos={}, revision="0123abcd", version="9.9", dated=dated)


def gone(findings: Sequence[Finding]) -> dict[str, Severity]:
    names = ("no longer to be had", "substitute needed")
    return {one.message.split(" could ")[0]: one.severity for one in findings if one.name in names}


@pytest.mark.parametrize(("day", "found"), [
    pytest.param(date(2026, 6, 29), {}, id="its last day is one on which it can be had"),
    pytest.param(date(2026, 6, 30), {"The slate": "warning"}, id="nothing instead"),
    pytest.param(date(2026, 7, 1), {"The slate": "warning", "The waves": "advice"}, id="a substitute is named"),
    pytest.param(
        date(2026, 7, 2), {"The slate": "warning", "The waves": "advice", "The envelope": "warning"},
        id="envelopes, too"),
])
def test_what_is_gone_on_a_day(sold: Proof, day: date, found: dict[str, str]) -> None:
    assert sold.reading.recipe is not None
    assert gone(tuple(check_sold(sold.reading.recipe, day))) == found


def test_it_says_which_day_and_what_instead(sold: Proof) -> None:
    found = with_gone(sold, date(2026, 7, 3)).findings
    (waves,) = [one for one in found if one.name == "substitute needed"]
    assert "until 2026-06-30, and that day is over" in waves.message and "any small pattern" in waves.message
    assert waves.place is not None
    assert sold.reading.source.splitlines()[waves.place.line - 1][waves.place.column - 1:].startswith("2026-06-30")


@pytest.mark.parametrize(("dated", "waves"), [
    ("", "to be had until June 30, 2026, then any small pattern"),
    ("2026-06-30", "to be had until June 30, 2026, then any small pattern"),
    ("2026-07-01", "no longer to be had since June 30, 2026: take any small pattern"),
])
def test_the_documents_print_the_last_day_and_what_does_as_well(sold: Proof, dated: str, waves: str) -> None:
    view = view_of(sold, dated)
    told = {one.name: one for one in (*view.papers, *view.supplies)}
    assert told["waves"].note.endswith(f"; {waves}")
    assert (told["waves"].offer, told["waves"].link) == ("pad of 25 sheets, 8.40 USD", "https://example.org/waves")
    assert told["slate"].offer == "0.80 USD"
    assert told["wet glue"].note.endswith("or tape of 1/8 in")
    assert told["wet glue"].offer == "bottle for 40 cards, 3.20 USD"


def test_only_a_day_that_is_given_is_in_the_documents(sold: Proof) -> None:
    """So that the same recipe makes the same bytes on every day; today is for the author's findings only."""
    assert gone(sold.findings) == {}
    assert set(gone(with_gone(sold).findings)) >= {"The slate", "The waves"}, "today is later than June 2026"
    told = json.loads(documents(sold, Options())["card.json"])
    assert not [one for one in told["findings"] if "had" in one["name"] or "substitute" in one["name"]]


def test_days() -> None:
    assert read_day("2026-07-01") == date(2026, 7, 1)
    assert read_day("") is None and read_day("soon") is None


def test_what_is_gone_is_told_although_nothing_has_changed(sold: Proof, tmp_path: Path) -> None:
    """A set that a build leaves as it is was made before the day was over."""
    from foldproof.checks.sold import ends_of
    from foldproof.documents.placing import place
    from foldproof.kept import KEPT, before, listed, unchanged

    recipe = Path(sold.file)
    assert sold.reading.recipe is not None
    ends = [*ends_of(sold.reading.recipe), ("2199-01-01", ends_of(sold.reading.recipe)[0][1])]
    made = {"page.html": b"x"}
    kept = listed(
        recipe, Options(), known=before(recipe, Options()), texts=sold.sources, photos={}, findings=(), files=made,
        ends=ends)
    place({**made, KEPT: kept}, tmp_path / "build", "quiet")
    found = unchanged(recipe, Options(), tmp_path / "build")
    assert found is not None
    assert [one.place.line for one in found.findings if one.place] == sorted(
        finding.place.line for _, finding in ends[:-1] if finding.place)
