"""Prose is safe HTML, and its fractions set well and copy well."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.documents.numerals import numbers
from foldproof.documents.prose import line_to_html, plain, to_html

HALF = '<span class="length">5 <span class="fraction">1/2</span></span>'


@pytest.mark.parametrize(("written", "set_as"), [
    pytest.param("5 1/2", HALF, id="mixed"),
    pytest.param("5-1/2", HALF, id="mixed with a hyphen"),
    pytest.param("1/8 in", '<span class="length"><span class="fraction">1/8</span> in</span>', id="fraction with unit"),
    pytest.param("140 mm", '<span class="length">140 mm</span>', id="metric"),
    pytest.param("3/4/2026", "3/4/2026", id="a date is no fraction"),
    pytest.param("1 and/or 2", "1 and/or 2", id="words are no fraction"),
    pytest.param("A2", "A2", id="an envelope"),
    pytest.param("4 x 5", '<span class="length">4 × 5</span>', id="by"),
    pytest.param("100 × 210 mm", '<span class="length">100 × 210 mm</span>', id="a size stays on one line"),
    pytest.param("5-1/2 x 1/8 in", '<span class="length">5 <span class="fraction">1/2</span> × '
                 '<span class="fraction">1/8</span> in</span>', id="a size in fractions"),
    pytest.param("step 4", "step 4", id="a bare number"),
    pytest.param("2 1/8/26", "2 1/8/26", id="no length"),
    pytest.param("<b>&", "&lt;b&gt;&amp;", id="escaped"),
])
def test_lengths_are_set(written: str, set_as: str) -> None:
    assert line_to_html(written) == set_as


@pytest.mark.parametrize("hostile", [
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "[a](javascript:alert(1))", "![a](http://e.example/p.png)",
    "[a](data:text/html,x)", "<http://e.example/\" onclick=\"x>", "[a]: javascript:x\n\n[a]", "[a](file:///etc/passwd)",
    "[a](../secret)",
])
def test_hostile_markdown_makes_no_tag_but_its_own(hostile: str) -> None:
    made = to_html(hostile)
    assert "<script" not in made
    assert "<img" not in made
    assert 'href="javascript' not in made
    assert "href=" not in made or 'href="http' in made
    assert "onclick=" not in made.replace("&quot;", "").split(">")[0]


def test_safe_links_stay() -> None:
    assert to_html("[a](https://e.example/x)") == '<p><a href="https://e.example/x">a</a></p>'
    assert to_html("[a](mailto:a@e.example)") == '<p><a href="mailto:a@e.example">a</a></p>'


def test_headings_are_words() -> None:
    assert "<h1" not in to_html("# Loud")
    assert "<h" not in to_html("Loud\n====")


def test_plain_text_keeps_blocks_apart() -> None:
    assert plain(to_html("Cut 5 1/2 in.\n\n- score *it*\n- fold")) == "Cut 5 1/2 in. score it fold"


@given(st.integers(0, 40), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.sampled_from([" ", "-"]))
def test_setting_a_length_never_changes_its_number(whole: int, top: int, bottom: int, gap: str) -> None:
    written = f"Score at {whole}{gap}{top}/{bottom} in, then turn."
    assert numbers(plain(to_html(written))) == numbers(written)


@given(st.text(max_size=80))
def test_no_line_of_text_becomes_markup(text: str) -> None:
    made = line_to_html(text)
    for own in ('<span class="length">', '<span class="fraction">', "</span>"):
        made = made.replace(own, "")
    assert "<" not in made
