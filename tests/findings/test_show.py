import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.findings.show import as_json, count, in_order, render

SOURCE = """\
title: Tide gate
measures:
  width: 4 1/4
  door: widht / 2
\tmat: door + 2
  文字: door + 2
"""


def place(line: int, column: int, length: int = 1, file: str = "recipes/gate.yaml") -> Place:
    return Place(file=file, line=line, column=column, length=length)


def finding(name: str = "a fault", severity: Severity = Severity.ERROR, **more: object) -> Finding:
    return Finding(name=name, severity=severity, message="It is wrong.", **more)  # type: ignore[arg-type]


def show(*findings: Finding, source: str = SOURCE, colour: bool = False) -> str:
    return render(findings, {"recipes/gate.yaml": source}, colour)


def test_the_whole_text() -> None:
    unknown = Finding(
        name="unknown measure",
        severity=Severity.ERROR,
        message="No measure is named `widht`.",
        mend="Write `width`, if that is meant.",
        place=place(4, 9, 5),
    )
    tight = Finding(
        name="envelope is tight",
        severity=Severity.WARNING,
        message="The card leaves 1/16 in in height, less than the 1/8 in that the usual card for an A2 envelope "
        "leaves, so it may crease when it is pushed in.",
        mend="Make the card 1/16 in lower, or take an A6 envelope.",
        step="slide-it-in",
        asides=(Aside(text="the height", place=place(3, 10, 5)), Aside(text="its layers add 1/32 in")),
    )
    assert (
        show(tight, unknown)
        == """\
ERROR: unknown measure
  at recipes/gate.yaml:4:9
    door: widht / 2
          =====
  No measure is named `widht`.
  To mend it: Write `width`, if that is meant.

WARNING: envelope is tight
  at step slide-it-in
  The card leaves 1/16 in in height, less than the 1/8 in that the usual card for an A2 envelope
  leaves, so it may crease when it is pushed in.
  see the height, at recipes/gate.yaml:3:10
    width: 4 1/4
           =====
  see its layers add 1/32 in
  To mend it: Make the card 1/16 in lower, or take an A6 envelope.

1 error and 1 warning.
"""
    )


def test_nothing_to_say() -> None:
    assert show() == "Nothing to report.\n"


@pytest.mark.parametrize(
    ("line", "column", "length", "shown"),
    [
        pytest.param(5, 7, 8, "    mat: door + 2\n         ========", id="after a tab"),
        pytest.param(5, 1, 5, "    mat: door + 2\n    ====", id="from the tab on"),
        pytest.param(6, 7, 8, "    文字: door + 2\n          ========", id="after wide characters"),
        pytest.param(6, 3, 2, "    文字: door + 2\n    ====", id="wide characters themselves"),
        pytest.param(1, 17, 1, "    title: Tide gate\n                    =", id="just past the end"),
        pytest.param(1, 90, 9, "    title: Tide gate\n                    =", id="far past the end"),
        pytest.param(1, 8, 900, "    title: Tide gate\n           =========", id="longer than the line"),
    ],
)
def test_the_mark_stands_under_its_place(line: int, column: int, length: int, shown: str) -> None:
    text = show(finding(place=place(line, column, length)))
    quoted = "\n".join(text.splitlines()[2:4])
    assert quoted == shown


def columns(text: str) -> int:
    return sum(2 if ord(c) > 0x2E80 else 1 for c in text)


@pytest.mark.parametrize("spot", [5, 60, 300, 595])
def test_a_long_line_is_cut_to_the_place(spot: int) -> None:
    source = "x" * (spot - 1) + "HERE" + "y" * (600 - spot)
    line, mark = show(finding(place=place(1, spot, 4)), source=source).splitlines()[2:4]
    assert len(line) <= 100
    assert line[mark.index("=") : mark.rindex("=") + 1] == "HERE"
    assert line.endswith("…") == (spot < 595)
    assert ("…" in line[:6]) == (spot > 50)


def test_combining_marks_take_no_column() -> None:
    text = show(finding(place=place(1, 4, 2)), source="e\u0301te\u0301: xy")
    assert text.splitlines()[3] == "      ="


@pytest.mark.parametrize("bad", ["\x1b[2J", "\x07", "\u202e", "\x9b2J", "\r"])
def test_a_recipe_can_not_command_the_terminal(bad: str) -> None:
    wicked = Finding(
        name=f"a{bad}b",
        severity=Severity.ERROR,
        message=f"No `{bad}`.",
        mend=f"Not {bad}",
        step=bad,
        place=place(1, 1),
        asides=(Aside(text=bad, place=place(1, 1)),),
    )
    text = render([wicked], {"recipes/gate.yaml": f"title{bad}: x"})
    assert not set(bad[0]) & set(text)


def test_a_file_that_is_not_at_hand_and_a_line_that_is_not_there() -> None:
    assert (
        show(finding(place=place(99, 1))) == "ERROR: a fault\n  at recipes/gate.yaml:99:1\n  It is wrong.\n\n1 error.\n"
    )
    assert "at other.yaml:1:1\n  It is wrong." in show(finding(place=place(1, 1, file="other.yaml")))


def test_findings_stand_in_the_order_of_their_places() -> None:
    def at(line: int, column: int, severity: Severity = Severity.ERROR, file: str = "b.yaml") -> Finding:
        return finding(f"{file} {line} {column} {severity}", severity, place=place(line, column, file=file))

    nowhere = finding("nowhere")
    mixed = [nowhere, at(2, 1, Severity.WARNING), at(2, 1), at(1, 9), at(1, 2), at(9, 9, file="a.yaml"), at(10, 1)]
    assert [f.name for f in in_order(mixed)] == [
        "a.yaml 9 9 error",
        "b.yaml 1 2 error",
        "b.yaml 1 9 error",
        "b.yaml 2 1 error",
        "b.yaml 2 1 warning",
        "b.yaml 10 1 error",
        "nowhere",
    ]


@pytest.mark.parametrize(
    ("errors", "warnings", "advice", "said"),
    [
        (0, 0, 0, "Nothing to report."),
        (1, 0, 0, "1 error."),
        (2, 1, 0, "2 errors and 1 warning."),
        (1, 2, 3, "1 error, 2 warnings and 3 advice."),
        (0, 0, 1, "1 advice."),
    ],
)
def test_the_closing_count(errors: int, warnings: int, advice: int, said: str) -> None:
    findings = (
        [finding()] * errors
        + [finding(severity=Severity.WARNING)] * warnings
        + [finding(severity=Severity.ADVICE)] * advice
    )
    assert count(findings) == said


def test_colour_only_when_asked_and_never_alone() -> None:
    fault = finding(place=place(4, 9, 5))
    plain, inked = show(fault), show(fault, colour=True)
    assert "\x1b" not in plain
    assert "\x1b[1;31mERROR: a fault\x1b[0m" in inked
    assert "\x1b[1;31m=====\x1b[0m" in inked
    for code in ("\x1b[1;31m", "\x1b[0m"):
        inked = inked.replace(code, "")
    assert inked == plain


def test_plain_data() -> None:
    fault = finding(
        place=place(4, 9, 5), mend="Mend it.", step="cut", asides=(Aside(text="here", place=place(3, 10, 5)),)
    )
    assert json.loads(json.dumps(as_json([finding("later"), fault]))) == [
        {
            "name": "a fault",
            "severity": "error",
            "message": "It is wrong.",
            "mend": "Mend it.",
            "step": "cut",
            "place": {"file": "recipes/gate.yaml", "line": 4, "column": 9, "length": 5, "end": 14},
            "asides": [
                {"text": "here",
                 "place": {"file": "recipes/gate.yaml", "line": 3, "column": 10, "length": 5, "end": 15}}],
        },
        {
            "name": "later",
            "severity": "error",
            "message": "It is wrong.",
            "mend": None,
            "step": None,
            "place": None,
            "asides": [],
        },
    ]


@given(line=st.integers(0, 9), column=st.integers(0, 200), length=st.integers(0, 200), source=st.text(max_size=300))
def test_any_place_in_any_text_is_shown_on_short_lines(line: int, column: int, length: int, source: str) -> None:
    text = show(finding(place=place(line, column, length)), source=source)
    assert text.endswith("1 error.\n")
    assert text.splitlines()[0] == "ERROR: a fault"


def test_a_narrow_terminal_keeps_the_mark_under_its_words() -> None:
    long = Finding(
        name="a fault", severity=Severity.ERROR, message="It is wrong in a way that takes many words to say. " * 3,
        mend="Mend it where it stands, and look at the other place, too.", place=place(1, 62, 6))
    source = "steps: " + "words " * 9 + "border of the mat and more words that go on and on"
    for width in (40, 60, 80):
        lines = render([long], {"recipes/gate.yaml": source}, width=width).split("\n")
        assert max(map(len, lines)) <= width
        words, mark = lines[2], lines[3]
        assert words[mark.index("=") : mark.index("=") + 6] == "border", (words, mark)


def test_a_line_is_shown_whole_after_a_sign_that_some_take_for_its_end() -> None:
    """A form feed, or a line separator (U+2028), ends no line of a recipe."""
    for sign in ("\x0c", "\u2028", "\x85"):
        shown = show(finding(place=place(2, 1, 5)), source=f"title: a{sign}b\nunits: inch\n")
        assert "    units: inch\n    =====" in shown


def test_data_gives_the_column_after_the_last_character() -> None:
    (told,) = as_json([finding(place=place(4, 9, 5), asides=(Aside(text="x"),))])
    assert told["place"] == {"file": "recipes/gate.yaml", "line": 4, "column": 9, "length": 5, "end": 14}
    assert told["asides"] == [{"text": "x", "place": None}]
