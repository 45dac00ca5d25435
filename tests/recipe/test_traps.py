"""What YAML does to people who write sentences: each trap is told in words, and the reading goes on."""

import pytest
import yaml
from small_recipe import SOUND, spoilt, told, underlined

from foldproof.recipe import composing
from foldproof.recipe.reader import read_text

TEXT = "    text: Cut one base."


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both parsers: the fast one is not everywhere, and the two stop at different words."""
    name = str(request.param)
    if not hasattr(yaml, name):
        pytest.skip("this parser is not installed")
    monkeypatch.setattr(composing, "LOADER", getattr(yaml, name))
    return name


CASES = [
    (TEXT, "    text: *Cut* one base.", ("odd first sign", "*"), "leading star"),
    (TEXT, "    text: *Cut", ("copy", "*Cut"), "leading star and one word"),
    (TEXT, "    text: &Cut one base.", ("copy", "&Cut"), "leading ampersand"),
    (TEXT, "    text: & cut one base.", ("odd first sign", "&"), "leading ampersand alone"),
    (TEXT, "    text: % of the base.", ("odd first sign", "%"), "leading percent"),
    (TEXT, "    text: @home cut one base.", ("odd first sign", "@"), "leading at sign"),
    (TEXT, "    text: `Cut` one base.", ("odd first sign", "`"), "leading backtick"),
    (TEXT, "    text: !Cut one base.", ("type mark", "!"), "leading exclamation mark"),
    (TEXT, "    text: !!python/object:os.system ls", ("type mark", "!"), "type of another program"),
    (TEXT, "    text: > Cut one base.", ("odd first sign", ">"), "words right behind the sign for a passage"),
    (TEXT, "    text: {width} wide.", ("odd first sign", "{"), "reference first"),
    (TEXT, "    text: [Cut] one base.", ("odd first sign", "["), "leading bracket"),
    (TEXT, "    text: Careful: cut one base.", ("colon in a sentence", ":"), "colon in a sentence"),
    (TEXT, "    text: Cut one base\n      this way: slowly.", ("colon in a sentence", ":"), "colon in a second line"),
    (TEXT, "    text: 'Don't cut.'", ("words after a quote", "'"), "apostrophe in quotes"),
    (TEXT, '    text: "Cut" one base.', ("words after a quote", '"'), "quotes round one word"),
    (TEXT, '    text: "Cut one base.', ("quote not closed", '"'), "quote left open"),
    (TEXT, "    text: 'Cut one base.", ("quote not closed", "'"), "apostrophe left open"),
    ("skill: beginner", 'skill: "beginner', ("quote not closed", '"'), "quote left open with quotes below"),
    (TEXT, "    text: Take glue #2 for it.", ("words lost to a comment", "Take glue"), "number sign in a sentence"),
    (
        TEXT,
        "    text: Take glue #2\n      for it.",
        ("words lost to a comment", "#2"),
        "number sign in a sentence of two lines",
    ),
    ("envelope: A2", "envelope: #10", ("words lost to a comment", "envelope"), "envelope by its number"),
    ('tone: "#7fb3c8"', "tone: #7fb3c8", ("words lost to a comment", "#7fb3c8"), "colour without quotes"),
    ("unit: inch", "unit:inch", ("space missing", ":"), "no space after the colon"),
    ("unit: inch", "unit inch", ("colon missing", "unit inch"), "no colon"),
    ("unit: inch", "  unit: inch", ("indentation uneven", ":"), "a key too far in"),
    ("    size: [2, 2]", "\tsize: [2, 2]", ("tabs for indentation", "\t"), "tab for indentation"),
    ("size: [2, 2]", "size: [2, 2", ("bracket not closed", "["), "bracket left open"),
    ("  open: {}", "  open: {", ("bracket not closed", "{"), "brace left open"),
    ("unit: inch", "<<: {skill: easy}\nunit: inch", ("unknown key", "<<"), "mapping copied in"),
    ("unit: inch", "? [a, b]\n: c\nunit: inch", ("key is no word", "[a, b]"), "list for a key"),
    ("words: Thanks", "words: Thanks, friend", ("unknown key", "friend"), "comma in braces"),
]


@pytest.mark.parametrize(("old", "new", "expected"), [pytest.param(*case[:3], id=case[3]) for case in CASES])
def test_a_trap_is_told_alone(old: str, new: str, expected: tuple[str, str], loader: str) -> None:
    if old == "words: Thanks":
        text = SOUND + "  - {title: Stamp, do: [{stamp: {upon: middle front, words: Thanks}}], text: Stamp.}\n"
        assert told(text) == []
        found = told(text.replace(old, new))
    else:
        found = told(spoilt(old, new))
    assert found == [expected]


def test_a_quote_left_open_over_several_lines_of_words(loader: str) -> None:
    assert told(spoilt(TEXT, '    text: "Cut one base\n      and look at it.')) == [("quote not closed", '"')]


def test_lines_without_a_colon_are_told_together(loader: str) -> None:
    text = spoilt("skill: beginner", "for people who\nhave never made a card\nskill: beginner")
    assert told(text) == [("colon missing", "for people who")]
    assert "nor has what follows, down to line 4" in read_text(text, "small.yaml").findings[0].message


def test_a_second_document_is_told() -> None:
    found = told(spoilt("opening: [closed, open]", "opening: [closed, open]\n---\nmore: words"))
    assert ("several documents", "more") in found


def test_a_recipe_indented_with_tabs_throughout() -> None:
    text = "\n".join("\t" * ((len(line) - len(line.lstrip())) // 2) + line.lstrip() for line in SOUND.split("\n"))
    found = read_text(text, "tabs.yaml").findings
    assert [(finding.name, finding.place.line) for finding in found if finding.place] == [("tabs for indentation", 6)]
    assert "lines have tabs" in found[0].message


def test_an_uneven_line_is_told_where_nothing_can_be_mended(loader: str) -> None:
    found = told(spoilt("      - turn: half", "     - turn: half"))
    assert found == [("indentation uneven", "- turn: half")]


def test_the_reading_goes_on_behind_a_trap(loader: str) -> None:
    text = (
        spoilt(TEXT, "    text: *Cut* one base.").replace("unit: inch", "unit:inch").replace("basic: true", "basic: on")
    )
    text = text.replace("Glue the mat to the left door.", "Careful: glue the mat to the {lft} door.")
    assert told(text) == [
        ("space missing", ":"),
        ("unknown word", "on"),
        ("odd first sign", "*"),
        ("colon in a sentence", ":"),
        ("unknown name", "{lft}"),
    ]


def test_places_behind_a_mended_word_are_those_of_the_source() -> None:
    text = SOUND.replace("unit: inch", "unit:furlong")
    reading = read_text(text, "small.yaml")
    at = [(finding.name, finding.place.line, finding.place.column) for finding in reading.findings if finding.place]
    assert at == [("space missing", 4, 5), ("unknown word", 4, 6)]


def test_one_tab_among_spaces_makes_up_no_other_mistakes() -> None:
    text = spoilt("    size: [2, 2]", "\tsize: [2, 0]").replace("unit: inch", "unit:inch")
    reading = read_text(text, "small.yaml")
    assert reading.recipe is None
    at = [(finding.name, finding.place.line, finding.place.column) for finding in reading.findings if finding.place]
    assert at == [("space missing", 4, 5), ("tabs for indentation", text.split("\n").index("\tsize: [2, 0]") + 1, 1)]


def test_places_behind_tabs_are_those_of_the_source() -> None:
    text = "\n".join("\t" * ((len(line) - len(line.lstrip())) // 2) + line.lstrip() for line in SOUND.split("\n"))
    text = text.replace("[2, 2]", "[2, 0]")
    reading = read_text(text, "small.yaml")
    at = [
        (finding.name, underlined(reading, finding), finding.place.column)
        for finding in reading.findings
        if finding.place
    ]
    assert at == [("tabs for indentation", "\t", 1), ("not more than zero", "0", 13)]


def test_two_traps_on_one_line() -> None:
    text = spoilt("    text: Cut one base.", "    text:*Cut* one {bsae}.")
    assert told(text) == [("space missing", ":"), ("odd first sign", "*"), ("unknown name", "{bsae}")]


def test_what_was_mended_is_not_called_whole() -> None:
    assert not read_text(spoilt("size: [2, 2]", "size: [2, 2"), "small.yaml").whole


@pytest.mark.parametrize("written", ["12.10", "1:30", "0x10", "1e3", "2024-01-01", "yes", "on", "null", "~", "010"])
def test_every_scalar_stays_the_text_that_was_written(written: str) -> None:
    reading = read_text(spoilt("skill: beginner", f"skill: {written}"), "small.yaml")
    assert reading.recipe is not None and reading.recipe.skill is not None
    assert reading.recipe.skill.value == written


def test_yes_is_explained() -> None:
    finding = read_text(spoilt("basic: true", "basic: yes"), "small.yaml").findings[0]
    assert "YAML programs disagree" in finding.message
    assert finding.mend == "Did you mean `true`?"


def test_a_comment_with_a_space_is_a_comment() -> None:
    assert told(spoilt("skill: beginner", "skill: beginner  # or so")) == []
