"""Each mistake in a recipe is told, at the words that are wrong, and no other mistake is made up beside it."""

import pytest
from small_recipe import SOUND, spoilt, told

from foldproof.recipe.reader import read_text


def test_the_sound_recipe_is_quiet() -> None:
    reading = read_text(SOUND, "small.yaml")
    assert reading.findings == ()
    assert reading.whole


MANY = ", ".join(["open"] * 301)
CASES = [
    # keys
    ("skill: beginner", "skil: beginner", [("unknown key", "skil")], "misspelt key"),
    ("skill: beginner", "skil: beginner\nskill: easy", [("unknown key", "skil")], "misspelt key beside the right one"),
    ("skill: beginner", "moon: full", [("unknown key", "moon")], "key that means nothing"),
    ("    size: [2, 2]", "    sise: [2, 2]", [("unknown key", "sise")], "misspelt required key is read all the same"),
    ("grain: height", "grains: height", [("unknown key", "grains")], "misspelt key in braces"),
    ("title: Small gate\n", "", [("missing part", "summary")], "no title"),
    ("    paper: slate\n    size: [2, 2]", "    size: [2, 2]", [("missing part", "size")], "piece without paper"),
    ("    size: [2, 2]", "    points: {}", [("missing part", "paper")], "piece without size"),
    (
        "    size: [2, 2]",
        "    size: [2, 2]\n    outline: [[0, 0], [1, 0], [0, 1]]",
        [("too many parts", "outline")],
        "piece with two shapes",
    ),
    ("skill: beginner", "skill:", [("nothing written", "skill")], "key without value"),
    ("skill: beginner", "skill: ''", [("nothing written", "''")], "empty quotes"),
    ("envelope: A2", "envelope: ''", [("nothing written", "''")], "envelope of no name"),
    ("skill: beginner", "skill: easy\nskill: hard", [("written twice", "skill")], "key written twice"),
    ("  flap:\n", "  base:\n", [("written twice", "base"), ("unknown name", "flap")], "piece named twice"),
    # kinds of values
    ("[2 * width, 5 1/2]", "8 1/2 x 5 1/2", [("wrong kind of value", "8 1/2 x 5 1/2")], "size with an x"),
    ("[2 * width, 5 1/2]", "[8 1/2]", [("too few", "[8 1/2]")], "size of one length"),
    ("[2 * width, 5 1/2]", "[8 1/2, 5 1/2, 1]", [("too many", "[8 1/2, 5 1/2, 1]")], "size of three lengths"),
    ("opening: [closed, open]", "opening: closed", [("wrong kind of value", "closed")], "word for a list"),
    ("unit: inch", "unit: [inch]", [("wrong kind of value", "[inch]")], "list for a word"),
    ("unit: inch", "unit: furlong", [("unknown word", "furlong")], "unit that is none"),
    ("basic: true", "basic: yes", [("unknown word", "yes")], "yes for true"),
    ("grain: height", "grain: tall", [("unknown word", "tall")], "word out of a few"),
    ("  closed: {still", "  closed: [still", None, "brackets mixed up"),
    # names
    ("  flap:\n    paper: slate", "  flap:\n    paper: slat", [("unknown name", "slat")], "paper misspelt"),
    ("    upon: left door back", "    upon: left dor back", [("unknown name", "left dor")], "panel misspelt"),
    ("    upon: left door back", "    upon: left door", [("face missing", "left door")], "panel without face"),
    ("    upon: left door back", "    upon: base back", [("unknown name", "base")], "piece with several panels"),
    ("still: middle", "still: flapp", [("unknown name", "flapp")], "still panel misspelt"),
    ("left hinge: 180,", "left hnge: 180,", [("unknown name", "left hnge")], "score misspelt in a pose"),
    ("tools: [trimmer]", "tools: [trimer]", [("unknown name", "trimer")], "tool misspelt"),
    ("supplies: [wet glue]", "supplies: [glue]", [("unknown name", "glue")], "supply misspelt"),
    ("what: left mat", "what: lft mat", [("unknown name", "lft mat")], "layer misspelt"),
    ("    piece: base", "    piece: bse", [("unknown name", "bse")], "piece of a step misspelt"),
    ("opening: [closed, open]", "opening: [shut, open]", [("unknown name", "shut")], "pose that is none"),
    ("overhangs: [right door, edge]", "overhangs: [right, edge]", [("unknown name", "right")], "overhang of nothing"),
    ("from: nick", "from: nck", [("unknown name", "nck")], "mark misspelt"),
    ("from: notch", "from: notsch", [("unknown name", "notsch")], "point misspelt"),
    ("  button:", "  flap:", [("name given twice", "flap")], "layer named like a piece"),
    ("  button:", "  left door:", [("name given twice", "left door")], "layer named like a panel"),
    ("  button:", "  flap on door:", [("name given twice", "flap on door")], "layer named like a join"),
    ("  button:", "  edge:", [("name not usable", "edge")], "layer named edge"),
    ("  button:", "  yes:", [("name not usable", "yes")], "layer named yes"),
    ("  button:", "  2nd mat:", [("name not usable", "2nd mat")], "name that starts with a digit"),
    ("name: nick", "name: centre", [("name not usable", "centre"), ("unknown name", "nick")], "mark named centre"),
    ("notch: [1, 5 1/2]", "centre: [1, 5 1/2]", [("name not usable", "centre")], "point named centre"),
    ("from: notch,", "from: top left, ", [], "corner instead of a point"),
    # panels
    ("left of left hinge", "left of lft hinge", [("unknown name", "lft hinge")], "score misspelt in a panel"),
    ("left of left hinge", "beside left hinge", [("panel not placed", "beside left hinge")], "unknown relation"),
    (
        "between left hinge and right hinge",
        "between left hinge and rigt hinge",
        [("unknown name", "rigt hinge")],
        "between a score and none",
    ),
    (
        "between left hinge and right hinge",
        "between left hinge and slant",
        [("panel not placed", "between left hinge and slant")],
        "between an upright and a slanted score",
    ),
    ("between left hinge and right hinge", "between left hinge", [("panel not placed", "between left hinge")], "one"),
    # quantities
    ("[1 7/8, 5 1/4]", "[0, 5 1/4]", [("not more than zero", "0")], "no width"),
    ("[1 7/8, 5 1/4]", "[-2, 5 1/4]", [("not more than zero", "-2")], "negative width"),
    ("[1 7/8, 5 1/4]", "[door, door - width]", [("not more than zero", "door - width")], "reckoned to less"),
    ("[1 7/8, 5 1/4]", "[1 7/8, 130]", [("absurd size", "130")], "height of 3.3 metres"),
    ("[1 7/8, 5 1/4]", "[1 7/8, 0.01]", [("absurd size", "0.01")], "height of a quarter millimetre"),
    ("across: door", "across: 0", [("not more than zero", "0")], "score on the edge"),
    ("gap: 0", "gap: -1/8", [("less than zero", "-1/8")], "negative gap"),
    ("gap: 0", "overlap: 0", [("not more than zero", "0")], "overlap of nothing"),
    ("seconds: 20", "seconds: 0", [("not more than zero", "0")], "shot of no time"),
    ("seconds: 20", "seconds: 2 h", [("absurd size", "2 h")], "shot of two hours"),
    ("dry: 5 min", "dry: 5 in", None, "a length for a time"),
    ("{left hinge: 180,", "{left hinge: 181,", [("absurd size", "181")], "fold by more than half a turn"),
    ("across: door", "across: dor", [("unknown measure", "dor")], "measure misspelt"),
    ("across: door", "across: door + 1", None, "a number added to a length"),
    ("door: width / 2", "door: widht / 2", [("unknown measure", "widht")], "one slip in a measure is told once"),
    ("door: width / 2", "door: door / 2", [("measures in a ring", "door / 2")], "measure reckoned from itself"),
    # places
    ("at: {centred: both}", "at: {centred: up}", [("place not fixed", "{centred: up}")], "not fixed across"),
    (
        "at: {centred: both}",
        "at: {left: 0, centred: both}",
        [("place fixed twice", "{left: 0, centred: both}")],
        "twice",
    ),
    (
        "at: {centred: both}",
        "at: {left: 0, top: 0, bottom: 0}",
        [("place fixed twice", "{left: 0, top: 0, bottom: 0}")],
        "",
    ),
    ("at: {centred: both}", "at: centred", [("wrong kind of value", "centred")], "word for a place"),
    (
        "at: {centred: both}",
        "at: {left: 0, top: 0, centred on: card}",
        [("missing part", "centred on")],
        "centred on without centred",
    ),
    ("    bought: [1/2, 1/2]", "    size: [1/2, 1/2]", [("missing part", "size")], "layer of no paper"),
    # the finished card
    (
        "{panels: [left door, right door], gap: 0}",
        "{panels: [left door, left door], gap: 0}",
        [("meets itself", "left door")],
        "",
    ),
    (
        "{panels: [left door, right door], gap: 0}",
        "{panels: [left door], gap: 0}",
        [("too few", "[left door]")],
        "meets one",
    ),
    (
        "    - {panels: [left door, right door], gap: 0}",
        "    - {panels: [left door, right door]}",
        [("missing part", "{panels: [left door, right door]}")],
        "no gap",
    ),
    (
        "  closed: {still",
        "  shut: {still",
        [("unknown name", "closed"), ("unknown name", "size")],
        "no pose named closed",
    ),
    # actions
    (
        "      - turn: half",
        "      - turn: {half: true}",
        [("wrong kind of value", "{half: true}")],
        "mapping for a word",
    ),
    ("      - turn: half", "      - turn", [("wrong kind of value", "turn")], "action without value"),
    ("      - turn: half", "      - turn: left", [("unknown word", "left")], "turn by an unknown amount"),
    ("      - turn: half", "      - spin: half", [("unknown key", "spin")], "unknown action"),
    ("      - turn: half", "      - {turn: half, lay: long}", [("too many parts", "lay")], "two actions in one"),
    ("edge: top, from: left", "edge: top, from: bottom", [("wrong end", "mark")], "end that an edge has not"),
    ("to: bottom middle}\n    text", "to: nick}\n    text", [("no line", "nick")], "score of no length"),
    ("border: 1/8, with", "border: 1/8, left: 1/8, with", [("place fixed twice", "attach")], "border and an edge"),
    (
        "    piece: base\n",
        "",
        [("piece missing", word) for word in ("cut", "lay", "mark", "score", "turn", "score")],
        "no piece",
    ),
    # words
    ("{width} wide", "{widht} wide", [("unknown name", "{widht}")], "reference to no measure"),
    ("Glue the mat", "Glue {} the mat", [("unknown name", "{}")], "reference to nothing"),
    ('tone: "#7fb3c8"', 'tone: "#7fb3c"', [("unknown colour", '"#7fb3c"')], "colour of five digits"),
    ('tone: "#7fb3c8"', "tone: greyish", [("unknown colour", "greyish")], "colour word that is none"),
    (
        "- title: Cut the base",
        "- title: Cut the base\n    id: Cut It",
        [("id not usable", "Cut It")],
        "id with capitals",
    ),
    # how many
    ("    size: [2, 2]", "    outline: [[0, 0], [1, 1]]", [("too few", "[[0, 0], [1, 1]]")], "outline of two corners"),
    ("opening: [closed, open]", f"opening: [{MANY}]", [("too many", f"[{MANY}]")], "list of 301"),
]


@pytest.mark.parametrize(("old", "new", "expected"), [pytest.param(*case[:3], id=case[3] or case[1]) for case in CASES])
def test_it_is_told_where_it_stands(old: str, new: str, expected: list[tuple[str, str]] | None) -> None:
    found = told(spoilt(old, new))
    if expected is None:
        assert found, "something must be told"
        return
    assert found == expected


def names(text: str) -> list[str]:
    return [finding.name for finding in read_text(text, "small.yaml").findings]


def test_measures_are_bounded() -> None:
    many = "".join(f"  extra {chr(97 + n // 26)}{chr(97 + n % 26)}: 1\n" for n in range(197))
    assert names(SOUND.replace("papers:\n", f"{many}papers:\n")) == []
    assert names(SOUND.replace("papers:\n", f"{many}  last: 1\npapers:\n")) == ["too many"]


def test_scores_are_bounded_over_all_pieces() -> None:
    def scores(count: int, name: str) -> str:
        return "{" + ", ".join(f"{name} {n}: {{up: 1, fold: none}}" for n in range(count)) + "}"

    text = spoilt("    size: [2, 2]", f"    size: [2, 2]\n    scores: {scores(100, 'low')}")
    assert names(text + "") == []
    more = text.replace(
        "joins:", f"  third:\n    paper: slate\n    size: [2, 2]\n    scores: {scores(98, 'high')}\njoins:"
    )
    assert names(more) == ["too many"]
    assert names(more.replace("high 97: {up: 1, fold: none}", "").replace(", }", "}")) == []


def test_pieces_are_bounded() -> None:
    pieces = "".join(f"  extra {n}: {{paper: slate, size: [2, 2]}}\n" for n in range(59))
    assert names(SOUND.replace("joins:", f"{pieces}joins:")) == ["too many"]
    assert names(SOUND.replace("joins:", f"{pieces.rpartition('  extra')[0]}joins:")) == []


def test_steps_are_bounded() -> None:
    step = "  - {title: Look, text: See.}\n"
    assert names(SOUND + step * 298) == []
    assert names(SOUND + step * 299) == ["too many"]


def test_a_passage_has_five_thousand_characters_at_most() -> None:
    assert names(spoilt("skill: beginner", f"skill: {'n' * 5000}")) == []
    assert names(spoilt("skill: beginner", f"skill: {'n' * 5001}")) == ["passage too long"]


@pytest.mark.parametrize("escape", ["\\x1b[2J", "\\0", "\\x07", "\\u2028", "\\ufffe", "\\x85"])
def test_an_escape_makes_no_character_that_cannot_be_seen(escape: str) -> None:
    assert names(spoilt("skill: beginner", f'skill: "easy {escape}"')) == ["odd character"]
    assert names(spoilt("skill: beginner", 'skill: "easy\\t\\n\\u00bd \\U0001F600"')) == []


def test_strange_keys_are_not_told_without_end() -> None:
    found = names(SOUND + "".join(f"moon {n}: full\n" for n in range(1000)))
    assert found == ["unknown key"] * 30 + ["too many"]


def test_mistakes_are_not_told_without_end() -> None:
    found = read_text(SOUND + "title: Again\n" * 1000, "small.yaml").findings
    assert [finding.name for finding in found] == ["written twice"] * 200 + ["too many"]
    assert "800 more mistakes" in found[-1].message


@pytest.mark.parametrize(
    ("old", "within", "beyond", "name"),
    [
        pytest.param("sheet: [8 1/2, 11]", "sheet: [3000 mm, 11]", "sheet: [3001 mm, 11]", "absurd size", id="large"),
        pytest.param("sheet: [8 1/2, 11]", "sheet: [1 mm, 11]", "sheet: [0.9 mm, 11]", "absurd size", id="small"),
        pytest.param(
            "bought: [1/2, 1/2]", "bought: [1 mm, 1]", "bought: [0.9 mm, 1]", "absurd size", id="small and bought"
        ),
        pytest.param("length: 18", "length: 9 m", "length: 11 m", "measure too large", id="ribbon"),
        pytest.param("seconds: 20", "seconds: 3600", "seconds: 3601", "absurd size", id="shot"),
        pytest.param("minutes: 2", "minutes: 7 days", "minutes: 8 days", "absurd size", id="step"),
        pytest.param("dry: 5 min", "dry: 7 days", "dry: 8 days", "absurd size", id="drying"),
        pytest.param("right hinge: 180}", "right hinge: -180}", "right hinge: -181}", "absurd size", id="fold"),
        pytest.param("at: 1, edge", "at: 0, edge", "at: -1/64, edge", "less than zero", id="mark"),
        pytest.param("right: -1/8", "right: -3000 mm", "right: -3001 mm", "absurd size", id="offset"),
    ],
)
def test_what_makes_sense_has_two_sides(old: str, within: str, beyond: str, name: str) -> None:
    assert names(spoilt(old, within)) == []
    assert names(spoilt(old, beyond)) == [name]


def test_a_name_has_sixty_letters_at_most() -> None:
    assert names(SOUND.replace("  button:", f"  {'n' * 60}:")) == []
    assert names(SOUND.replace("  button:", f"  {'n' * 61}:")) == ["name not usable"]


def test_where_a_panel_lies_is_said_in_five_hundred_letters() -> None:
    words = " and ".join(["left of left hinge"] * 21)
    longer = f"{words} and left of {'n' * (500 - len(words) - 13)}"
    assert len(longer) == 500
    assert names(spoilt("left of left hinge", longer)) == ["unknown name"]
    assert names(spoilt("left of left hinge", f"{longer}n")) == ["panel not placed"]


def test_a_text_has_a_million_bytes_at_most() -> None:
    room = 1_000_000 - len(SOUND)
    assert names(f"{SOUND}#{' ' * (room - 2)}\n") == []
    assert [finding.name for finding in read_text(f"{SOUND}#{' ' * (room - 1)}\n", "x").findings] == ["file too large"]
    assert [finding.name for finding in read_text(f"{SOUND}#{'é' * (room // 2)}\n", "x").findings] == ["file too large"]
