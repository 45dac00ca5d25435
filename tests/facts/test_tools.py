import pytest

from foldproof.facts.cautions import CAUTIONS, find_caution
from foldproof.facts.tools import ADHESIVES, SUPPLY_CAUTIONS, TOOLS, caution_kind, find_adhesive, find_tool


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("trimmer", "trimmer"),
        ("Paper trimmer", "trimmer"),
        ("a craft knife", "craft knife"),
        ("lever trimmer", "guillotine"),
        ("score board", "scoring board"),
        ("Double-sided mat", None),
        ("steel rule", "steel ruler"),
        ("awl", "piercer"),
        ("die cutting machine", "die-cutting machine"),
        ("self healing mat", "cutting mat"),
        ("teapot", None),
    ],
)
def test_tools_by_the_words_people_use(written: str, name: str | None) -> None:
    found = find_tool(written)
    assert (found.name if found else None) == name


@pytest.mark.parametrize(
    ("written", "name", "wet"),
    [
        ("wet glue", "wet glue", True),
        ("PVA glue", "wet glue", True),
        ("foam squares", "foam", False),
        ("double sided tape", "tape", False),
        ("glue stick", "glue stick", True),
        ("spray glue", "spray adhesive", False),
    ],
)
def test_adhesives_by_the_words_people_use(written: str, name: str, wet: bool) -> None:
    found = find_adhesive(written)
    assert found is not None
    assert (found.name, found.wet) == (name, wet)


def test_wet_adhesives_dry_and_dry_ones_hold_at_once() -> None:
    assert all((adhesive.dries_seconds > 0) == adhesive.wet for adhesive in ADHESIVES)
    foam, glue = find_adhesive("foam"), find_adhesive("wet glue")
    assert foam and glue
    assert foam.thickness_mm > 10 * glue.thickness_mm


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("trimmer", "trimmer"),
        ("guillotine", "guillotine"),
        ("scalpel", "knife"),
        ("heat gun", "heat tool"),
        ("glue gun", "hot glue"),
        ("spray glue", "spray adhesive"),
        ("rubber cement", "solvent"),
        ("needle", "piercer"),
        ("wooden beads", "small parts"),
        ("magnets", "magnets"),
        ("two thin magnets", "magnets"),
        ("button cell", "button cells"),
        ("die cutter", "die cutter"),
        ("scoring board", None),
        ("bone folder", None),
        ("wet glue", None),
        ("tape", None),
        ("ribbon", None),
        ("pencil", None),
    ],
)
def test_what_needs_a_caution(written: str, kind: str | None) -> None:
    assert caution_kind(written) == kind
    caution = find_caution(kind)
    assert (caution is None) == (kind is None)
    if caution:
        assert caution.kind == kind and caution.source.text


def test_every_kind_of_caution_that_is_named_has_its_text() -> None:
    of_tools = {tool.caution for tool in TOOLS}
    named = of_tools | {glue.caution for glue in ADHESIVES} | set(SUPPLY_CAUTIONS.values())
    assert named - {None} == set(CAUTIONS)


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        # An art teachers' body on knives (S), rules for trimmers (S), CPSC Pub. 5015 (S), 16 CFR 1501.4 (P).
        ("knife", ["away from yourself", "steel safety rule", "cap or retract", "sharps container"]),
        ("guillotine", ["finger guard", "latch the blade", "adult"]),
        ("hot glue", ["120 °C", "210 °C", "blister"]),
        ("heat tool", ["heat-proof", "tweezers", "moving"]),
        ("spray adhesive", ["Flammable", "windows", "flames"]),
        ("small parts", ["choke", "under 3"]),
        ("magnets", ["medical help"]),
    ],
)
def test_cautions_say_what_their_source_says(kind: str, words: list[str]) -> None:
    for word in words:
        assert word in CAUTIONS[kind].text


def test_no_two_tools_share_a_name() -> None:
    names = [name for kind in (*TOOLS, *ADHESIVES) for name in (kind.name, *kind.synonyms)]
    assert sorted(names) == sorted(set(names))
