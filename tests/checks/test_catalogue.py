"""Every check fires on a small wrong recipe, at the line that is wrong, and is silent on the right one."""

import re

import pytest
from recipes_for_checks import GATE, changed, expected, found_in, seen
from test_directions import WRONG as OF_DIRECTIONS
from test_prose import WRONG as IN_WORDS
from test_slides import TOLD as ABOUT_SLIDES
from test_ways import ON_THE_WAY

from foldproof.checks.catalogue import CHECKS

EXTRA_PAPER = "  foam:\n    kind: cardstock\n    weight: 80 lb cover\n    thickness: 0.011 in\n"

TAG = """\
layers:
  tag:
    paper: slate
    bought: [1, 1]
    upon: inside mat front
    at: {centred: both}
    adhesive: wet glue
"""

STANDING = """\
  standing:
    still: middle
    folds: {left hinge: 90}
"""

ROLL = """\
title: Small roll
finished:
  size: [2, 5]
papers:
  slate: {kind: cardstock, thickness: 0.011 in}
pieces:
  strip:
    paper: slate
    size: [8, 5]
    scores:
      first: {across: 2, fold: valley}
      second: {across: 4, fold: valley}
      third: {across: 6, fold: valley}
    panels:
      cover: left of first
      back: between first and second
      inner: between second and third
      innermost: right of third
poses:
  closed:
    still: back
    folds: {third: 180, second: 180, first: 180}
tools:
  trimmer: {}
  scoring board: {}
steps:
  - title: Cut and score
    piece: strip
    tools: [trimmer, scoring board]
    do:
      - cut: [8, 5]
      - turn over: book page
      - score: 2
      - score: 4
      - score: 6
    text: Cut the strip 8 x 5 in. Turn it over. Score at 2, 4 and 6 in.
"""

OVER_FIRST = "      - turn over: book page\n      - lay: {edge: long, up: back}\n"

WRONG = {
    "closed size too wide": [("  size: [4 1/4, 5 1/2]", "  size: [4 3/16, 5 1/2] #! closed size is not as promised")],
    "closed size the other way round": [
        ("  size: [4 1/4, 5 1/2]", "  size: [5 1/2, 4 1/4] #! closed size is not as promised")
    ],
    "doors that do not meet": [
        ("right hinge: {across: 2 * width - door", "right hinge: {across: 2 * width - door + 1/16 in"),
        ("  size: [4 1/4, 5 1/2]", "  size: [4 5/16, 5 1/2]"),
        ("      gap: 0", "      gap: 0 #! edges do not meet as promised"),
        ("  envelope: A2", "  envelope: A2 #! tight in its envelope"),
        ("    size: [4, 5 1/4]", "    size: [4 1/16, 5 1/4]"),
    ],
    "panels without facing edges": [
        ("    - panels: [left door, right door]", "    - panels: [left door, middle] #! edges do not face each other"),
    ],
    "a small gap that is not named": [
        ("  meets:\n    - panels: [left door, right door]\n      gap: 0\n", ""),
        ("  size: [4 1/4, 5 1/2]", "  size: [4 3/8, 5 1/2] #! unnamed gap"),
        ("  envelope: A2", "  envelope: A7"),
        ("    size: [2 * width, height]", "    size: [8 5/8, height]"),
        ("right hinge: {across: 2 * width - door", "right hinge: {across: 6 1/2"),
        ("    size: [4, 5 1/4]", "    size: [4 1/8, 5 1/4]"),
    ],
    "an overlap that is not named": [
        ("  meets:\n    - panels: [left door, right door]\n      gap: 0\n", ""),
        ("  size: [4 1/4, 5 1/2]", "  size: [4 1/8, 5 1/2] #! unnamed overlap"),
        ("right hinge: {across: 2 * width - door", "right hinge: {across: 6 1/4"),
        ("    size: [4, 5 1/4]", "    size: [3 7/8, 5 1/4]"),
    ],
    "closed pose that does not lie flat": [
        ("opening:", STANDING + "opening:"),
        ("finished:\n", "finished:\n  pose: standing #! closed pose does not lie flat\n"),
    ],
    "opening that starts open": [
        ("opening: [closed, open]", "opening: [open, closed] #! opening does not start closed")
    ],
    "score that no pose folds": [
        (
            "      right hinge: {across: 2 * width - door, fold: valley}",
            "      right hinge: {across: 2 * width - door, fold: valley}\n"
            "      lip: {across: 8, fold: valley} #! score that never folds",
        ),
        (
            "      right door: right of right hinge",
            "      right door: between right hinge and lip\n      end: right of lip",
        ),
        ("    - panels: [left door, right door]", "    - panels: [left door, end]"),
        ("    overhangs: [right door]", "    overhangs: [right door, end]"),
    ],
    "layer larger than its panel": [
        ("    size: [4, 5 1/4]\n    upon", "    size: [4, 5 3/4] #\n    upon"),
        ("  inside mat:\n", "  inside mat:  #! layer sticks out of its panel\n"),
    ],
    "overhang past what is named": [
        ("    size: [3 1/2, 1 3/4]", "    size: [4 1/2, 1 3/4]"),
        (
            "    at: {left: 1/4, top: 1 3/4}\n    overhangs",
            "    at: {left: 1/4, top: 1 3/4} #! layer reaches too far\n    overhangs",
        ),
    ],
    "overhang that is not there": [
        ("    size: [3 1/2, 1 3/4]", "    size: [1 1/2, 1 3/4]"),
        ("    overhangs: [right door]", "    overhangs: [right door] #! overhang that is not there"),
    ],
    "adhesive on the overhang": [
        ("    overhangs: [right door]\n    adhesive: wet glue",
         "    overhangs: [right door]\n    adhesive: wet glue\n    glue area: whole  #! adhesive past the edge")
    ],
    "adhesive a little past the edge": [
        ("    overhangs: [right door]\n    adhesive: wet glue",
         "    overhangs: [right door]\n    adhesive: wet glue\n    glue area: {left: 1 3/4}  #! adhesive past the edge")
    ],
    "adhesive across a score": [
        ("    size: [4, 5 1/4]\n    upon: middle front\n    at: {centred: both}\n    adhesive: wet glue",
         "    size: [4, 5 1/4]\n    upon: middle front\n    at: {left: -1/4, top: 1/8}\n    overhangs: [left door]"
         "\n    glue area: whole  #! glued across a fold\n    adhesive: wet glue"),
        ("    at: {left: -1/4, top: 1/8}", "    at: {left: -1/4, top: 1/8}  #! layer reaches too far"),
        ("opening: [closed, open]", "opening: [closed, open]  #! paper in the way"),
    ],
    "a label that the other door covers": [
        ("    folds: {right hinge: 180, left hinge: 180}",
         "    folds: {right hinge: 180, left hinge: 180}\n    shows: [inside mat]  #! hidden where it should show"),
    ],
    "a surprise that shows": [
        ("    folds: {right hinge: 180, left hinge: 180}",
         "    folds: {right hinge: 180, left hinge: 180}\n    hides: [left mat]  #! seen where it should be hidden"),
    ],
    "a band caught under the door that it should reach over": [
        ("    folds: {right hinge: 180, left hinge: 180}", "    folds: {left hinge: 180, right hinge: 180}"),
        ("    overhangs: [right door]", "    overhangs: [right door]  #! layer caught by what it reaches over"),
    ],
    "layer across a fold": [
        ("    size: [4, 5 1/4]\n", "    size: [5, 5 1/4]\n"),
        ("  inside mat:\n", "  inside mat:  #! layer bridges a fold\n"),
    ],
    "borders that differ by a slip": [
        (
            "    upon: middle front\n    at: {centred: both}",
            "    upon: middle front\n    at: {left: 3/32, centred: up}  #! uneven borders",
        )
    ],
    "borders nearly alike": [
        ("    size: [4, 5 1/4]\n", "    size: [4, 5 3/16]\n"),
        ("  inside mat:\n", "  inside mat:  #! borders nearly alike\n"),
    ],
    "sheet too small": [
        ("    sheet: [8 1/2, 11]", "    sheet: [8, 8]"),
        ("  base:\n    paper", "  base: #! sheet too small\n    paper"),
    ],
    "upright pattern on too low a sheet": [
        ("    sheet: [12, 12]", "    sheet: [12, 5]"),
        ("  left mat:\n", "  left mat: #! sheet too small\n"),
    ],
    "pattern on its head": [
        (
            "    upon: left door back\n    at: {centred: both}",
            "    upon: left door back\n    at: {centred: both, turned: half}",
        ),
        ("    at: {left: 1/4, top: 1 3/4}\n", "    at: {right: 1/4, bottom: 1 3/4, turned: half}\n"),
        ("  left mat:\n", "  left mat: #! pattern not upright\n"),
    ],
    "printed face glued down": [
        ("    upon: left door back\n", "    upon: left door back\n    glue on: front\n"),
        ("    upon: left mat front\n", "    upon: left mat back\n"),
        ("  left mat:\n", "  left mat: #! printed face glued down\n"),
    ],
    "unknown envelope": [("  envelope: A2", "  envelope: A22 #! unknown envelope")],
    "card larger than its envelope": [("  envelope: A2", "  envelope: A1 #! card larger than its envelope")],
    "envelope too tight": [("  envelope: A2", "  envelope: [4 5/16, 5 5/8] #! tight in its envelope")],
    "envelope too tight for the bulk": [
        ("  wet glue: {kind: wet glue, dries: 5 min}", "  wet glue: {kind: foam, thickness: 1/16 in}"),
        ("  envelope: A2", "  envelope: A2 #! tight in its envelope"),
    ],
    "weight that can't be read": [("    weight: 70 lb text", "    weight: medium #! paper's weight can't be read")],
    "post that asks more": [("  envelope: A2", "  envelope: 6 in square #! post asks more")],
    "supply listed and not used": [("tools:\n", "  ribbon: {kind: ribbon} #! listed and not used\ntools:\n")],
    "tool listed and not used": [("  ruler: {basic: true}", "  corner punch: {} #! listed and not used")],
    "ribbon too short": [
        ("tools:\n", "  ribbon: {kind: ribbon, length: 17 1/2} #! supply too short\ntools:\n"),
        ("      - dry: 5 min\n", "      - dry: 5 min\n      - tie: {with: ribbon, length: 18}\n"),
        ("Wait 5 minutes.", "Wait 5 minutes. Tie 18 in of ribbon round it."),
    ],
    "paper not used": [("pieces:\n", EXTRA_PAPER.replace("foam:", "foam: #! paper not used") + "pieces:\n")],
    "no adhesive": [
        (
            "    upon: middle front\n    at: {centred: both}\n    adhesive: wet glue\n",
            "    upon: middle front\n    at: {centred: both}\n",
        ),
        ("  inside mat:\n", "  inside mat:  #! no adhesive named\n"),
    ],
    "nothing to cut with": [
        ("    tools: [trimmer]\n", ""),
        ("  trimmer: {}\n", ""),
        (
            "      - {cut: [8 1/2, 5 1/2], piece: base}",
            "      - {cut: [8 1/2, 5 1/2], piece: base} #! nothing to cut with",
        ),
    ],
    "nothing to score with": [
        ("    tools: [scoring board]\n", ""),
        ("  scoring board: {}\n", ""),
        ("    tools: [trimmer]\n", "    tools: [scissors]\n"),
        ("  trimmer: {}", "  scissors: {}"),
        (
            "      - lay: {edge: long, up: back}\n      - score: 2 1/8",
            "      - lay: {edge: long, up: back}\n      - score: 2 1/8 #! nothing to score with",
        ),
    ],
    "nothing to die-cut with": [
        ("layers:\n", TAG),
        ("    tools: [trimmer]\n", "    tools: [guillotine]\n"),
        ("  trimmer: {}", "  guillotine: {}"),
        (
            "      - {cut: [3 1/2, 1 3/4], piece: band}",
            "      - {cut: [3 1/2, 1 3/4], piece: band}\n"
            "      - {die cut: [1, 1], piece: tag} #! nothing to die-cut with",
        ),
    ],
    "standing height": [
        ("opening:", STANDING + "opening:"),
        (
            "finished:\n",
            "finished:\n  stands:\n    pose: standing\n    height: 3 13/16 #! standing height is not as promised\n",
        ),
    ],
    "standing pose that lies flat": [
        ("finished:\n", "finished:\n  stands:\n    pose: open #! no such standing pose\n    height: 1\n")
    ],
    "fold across the grain": [
        ("    sheet: [8 1/2, 11]", "    sheet: [8 1/2, 6]\n    grain: width"),
        (
            "      left hinge: {across: door, fold: valley}",
            "      left hinge: {across: door, fold: valley} #! fold across the grain",
        ),
    ],
    "step that leaves its tool out": [
        ("    tools: [scoring board]\n", "    tools: [ruler]\n"),
        (
            "      - lay: {edge: long, up: back}\n      - score: 2 1/8",
            "      - lay: {edge: long, up: back}\n      - score: 2 1/8 #! tool missing from its step",
        ),
        ("    text: Turn the base over.", "    text: Take the scoring board. Turn the base over."),
    ],
    "tool in the words only": [
        ("    text: Cut the base", "    text: Take the die-cutting machine. Cut the base"),
        ("8 1/2 x 5 1/2 in, the left mat", "8 1/2 x 5 1/2 in, the left mat"),
        ("the band 3 1/2 x 1 3/4 in.", "the band 3 1/2 x 1 3/4 in.  #! named and not listed"),
    ],
    "mark that is made for nothing": [
        (
            "      - turn: half\n",
            "      - mark: {at: 1, edge: top, from: left, name: dot} #! mark never used\n      - turn: half\n",
        ),
        ("Score at 2 1/8 in. Turn", "Score at 2 1/8 in. Make a mark 1 in from the left end. Turn"),
    ],
    "scored from the inside": [
        (OVER_FIRST, "      - lay: {edge: long, up: front}\n"),
        (
            "      - score: 2 1/8\n      - turn: half",
            "      - score: 2 1/8 #! ridge outside the fold\n      - turn: half",
        ),
        ("      - turn over: top to bottom\n", ""),
        ("    text: Turn the base over. Score", "    text: Score"),
        ("score at 2 1/8 in again. Turn it over.", "score at 2 1/8 in again."),
    ],
    "light paper scored from the inside": [
        ("    weight: 80 lb cover\n    thickness: 0.011 in", "    weight: 28 lb bond\n    thickness: 0.005 in"),
        (OVER_FIRST, "      - lay: {edge: long, up: front}\n"),
        (
            "      - score: 2 1/8\n      - turn: half",
            "      - score: 2 1/8 #! scored on the less good face\n      - turn: half",
        ),
        ("      - turn over: top to bottom\n", ""),
        ("    text: Turn the base over. Score", "    text: Score"),
        ("score at 2 1/8 in again. Turn it over.", "score at 2 1/8 in again."),
    ],
    "words stamped on a mat that lies turned": [
        (
            "      - {cut: [4, 5 1/4], piece: inside mat}\n",
            "      - {cut: [4, 5 1/4], piece: inside mat}\n"
            "      - {turn: half, piece: inside mat} #! turn missing from the text\n"
            "      - stamp: {upon: inside mat front, words: Hello} #! words not upright\n",
        ),
    ],
    "tool that sounds sharp": [
        ("    tools: [trimmer]\n", "    tools: [trimmer, rotary blade wheel] #! no caution for a tool that may hurt\n"),
        ("  trimmer: {}", "  trimmer: {}\n  rotary blade wheel: {}"),
    ],
}


NO_MEETS = ("  meets:\n    - panels: [left door, right door]\n      gap: 0\n", "")

GOOD = {
    "a border of nothing along the fold": [
        (
            "    size: [1 7/8, 5 1/4]\n    upon: left door back\n    at: {centred: both}",
            "    size: [2, 5 1/4]\n    upon: left door back\n    at: {right: 0, centred: up}",
        ),
        ("    at: {left: 1/4, top: 1 3/4}\n    overhangs", "    at: {left: 3/8, top: 1 3/4}\n    overhangs"),
    ],
    "plainly off the middle": [
        (
            "    size: [4, 5 1/4]\n    upon: middle front\n    at: {centred: both}",
            "    size: [3 1/2, 5 1/4]\n    upon: middle front\n    at: {left: 1/8, centred: up}",
        )
    ],
    "a broader border below": [
        (
            "    size: [4, 5 1/4]\n    upon: middle front\n    at: {centred: both}",
            "    size: [4, 5]\n    upon: middle front\n    at: {top: 1/8, centred: across}",
        )
    ],
    "a gap that is named": [
        ("      gap: 0", "      gap: 1/8"),
        ("    size: [2 * width, height]", "    size: [8 3/8, height]"),
        ("right hinge: {across: 2 * width - door", "right hinge: {across: 6 3/8"),
    ],
    "an overlap that is named": [
        ("      gap: 0", "      overlap: 1/8"),
        ("    size: [2 * width, height]", "    size: [8 5/8, height]"),
        ("right hinge: {across: 2 * width - door", "right hinge: {across: 6 3/8"),
    ],
    "a wide window between the doors": [
        NO_MEETS,
        ("    size: [2 * width, height]", "    size: [8, height]"),
        ("right hinge: {across: 2 * width - door", "right hinge: {across: 6 3/8"),
        ("    overhangs: [right door]", "    overhangs: [right door, middle]"),
    ],
    "a band that sticks out where it may": [
        ("    size: [3 1/2, 1 3/4]", "    size: [4 1/4, 1 3/4]"),
        ("    overhangs: [right door]", "    overhangs: [right door, edge]"),
        ("  size: [4 1/4, 5 1/2]", "  size: [4 5/8, 5 1/2]"),
        ("  envelope: A2", "  envelope: A7"),
    ],
    "by hand, without an envelope": [("  envelope: A2\n", "")],
    "a pattern that may lie any way": [
        (
            "    upon: left door back\n    at: {centred: both}",
            "    upon: left door back\n    at: {centred: both, turned: half}",
        ),
        ("    at: {left: 1/4, top: 1 3/4}\n", "    at: {right: 1/4, bottom: 1 3/4, turned: half}\n"),
        ("pattern: upright", "pattern: any way"),
    ],
    "a pattern that is hidden but for a strip": [
        ("    size: [3 1/2, 1 3/4]", "    size: [3 1/2, 5 1/4]"),
        (
            "    upon: left mat front\n    at: {left: 1/4, top: 1 3/4}\n",
            "    upon: left mat front\n    at: {right: 3/16, bottom: 0, turned: half}\n",
        ),
        (
            "    upon: left door back\n    at: {centred: both}",
            "    upon: left door back\n    at: {centred: both, turned: half}",
        ),
    ],
    "cut sideways from its sheet": [("    sheet: [8 1/2, 11]", "    sheet: [6, 9]")],
    "an amount of ribbon to spare": [
        ("tools:\n", "  ribbon: {kind: ribbon, length: 20}\ntools:\n"),
        ("      - dry: 5 min\n", "      - dry: 5 min\n      - tie: {with: ribbon, length: 18}\n"),
        ("Wait 5 minutes.", "Wait 5 minutes. Tie 18 in of ribbon round it."),
    ],
    "marks that guide a score": [
        (
            "      - turn: half\n      - score: 2 1/8\n",
            "      - mark: {at: 2 1/8, edge: top, from: right, name: far dot}\n"
            "      - mark: {at: 2 1/8, edge: bottom, from: right, name: near dot}\n"
            "      - score: {from: far dot, to: near dot}\n      - turn: half\n",
        ),
        ("Score at 2 1/8 in. Turn", "Score at 2 1/8 in. Mark 2 1/8 in from the right end, far and near. Turn"),
        ("score at 2 1/8 in again", "score between the marks"),
    ],
    "a mark for the eye": [
        (
            "      - turn: half\n",
            "      - mark: {at: 1, edge: top, from: left, name: dot}\n      - turn: half\n",
        ),
        ("Score at 2 1/8 in. Turn", "Score at 2 1/8 in. Make a mark 1 in from the left end. Turn"),
        ("      Glue the inside mat between", "      The mark shows where the top is. Glue the inside mat between"),
    ],
    "a tool that a tip speaks of": [
        (
            "    minutes: 5\n  - title: Score",
            "    minutes: 5\n    tip: A die-cutting machine does it too.\n  - title: Score",
        ),
    ],
    "words stamped upright": [
        (
            "      - {cut: [4, 5 1/4], piece: inside mat}\n",
            "      - {cut: [4, 5 1/4], piece: inside mat}\n      - stamp: {upon: inside mat front, words: Hello}\n",
        ),
    ],
    "a mat in the way of a blade": [
        ("    tools: [trimmer]\n", "    tools: [trimmer, cutting mat]\n"),
        ("  trimmer: {}", "  trimmer: {}\n  cutting mat: {}"),
    ],
    "a score for looks": [
        (
            "      right hinge: {across: 2 * width - door, fold: valley}",
            "      right hinge: {across: 2 * width - door, fold: valley}\n      frame: {across: 1, fold: none}",
        )
    ],
    "the height that it stands": [
        ("opening:", STANDING + "opening:"),
        ("finished:\n", "finished:\n  stands:\n    pose: standing\n    height: 3 7/8\n"),
    ],
    "with the grain": [("    sheet: [8 1/2, 11]", "    sheet: [8 1/2, 11]\n    grain: height")],
}


@pytest.mark.parametrize("changes", GOOD.values(), ids=GOOD.keys())
def test_good_cards_stay_quiet(changes: list[tuple[str, str]]) -> None:
    assert seen(found_in(changed(*changes))) == []


@pytest.mark.parametrize("changes", WRONG.values(), ids=WRONG.keys())
def test_wrong_recipe_is_told_where_it_is_wrong(changes: list[tuple[str, str]]) -> None:
    recipe = changed(*changes)
    assert seen(found_in(recipe)) == expected(recipe)


def test_a_panel_rolled_up_inside_two_others_needs_room() -> None:
    even = changed(("  size: [2, 5]", "  size: [2, 5] #! inner panel too long"), recipe=ROLL)
    assert seen(found_in(even)) == expected(even)
    shorter = changed(
        ("    size: [8, 5]", "    size: [7 13/16, 5]"), ("third: {across: 6,", "third: {across: 5 15/16,"), recipe=ROLL
    )
    assert found_in(shorter) == ()


@pytest.mark.parametrize(("unit", "paper", "stops", "width", "height"), [
    # panels worked on secondary pages (S), on stock thick enough to need them
    pytest.param("inch", "weight: 100 lb cover, thickness: 0.022 in", ["3.6875", "7.375"], "11", "5", id="letter fold"),
    pytest.param("inch", "weight: 100 lb cover, thickness: 0.012 in", ["4.3125", "8.625", "12.84375"], "17", "5",
                 id="four-panel roll"),
    pytest.param("mm", "weight: 350 gsm, thickness: 0.5 mm", ["100 mm", "200 mm"], "297 mm", "210 mm", id="A4 to DL"),
])
def test_panels_reduced_as_printers_do_are_quiet_and_equal_ones_are_told(
    unit: str, paper: str, stops: list[str], width: str, height: str,
) -> None:
    count = len(stops) + 1
    published = _rolled(unit, paper, stops, width, height)
    assert "inner panel too long" not in {finding.name for finding in found_in(published)}
    equal = [f"({width.removesuffix(' mm')} * {i} / {count}) * 1 {'mm' if unit == 'mm' else 'in'}"
             for i in range(1, count)]
    found = found_in(_rolled(unit, paper, equal, width, height))
    (told,) = (one for one in found if one.name == "inner panel too long")
    assert told.mend is not None and ("1/8 in" if unit == "inch" else "3 mm") in told.mend


def _rolled(unit: str, paper: str, stops: list[str], width: str, height: str) -> str:
    """A strip rolled up from its far end, scored at the stops."""
    names = [f"p{i}" for i in range(len(stops) + 1)]
    scores = ", ".join(f"s{i}: {{across: {stop}, fold: valley}}" for i, stop in enumerate(stops))
    panels = [f"{names[0]}: left of s0", f"{names[-1]}: right of s{len(stops) - 1}"]
    panels += [f"{names[i]}: between s{i - 1} and s{i}" for i in range(1, len(stops))]
    folds = ", ".join(f"s{i}: 180" for i in reversed(range(len(stops))))
    return f"""\
title: Rolled
unit: {unit}
finished: {{size: [{stops[0]}, {height}]}}
papers: {{stock: {{kind: cardstock, {paper}}}}}
pieces: {{strip: {{paper: stock, size: [{width}, {height}], scores: {{{scores}}}, panels: {{{', '.join(panels)}}}}}}}
poses: {{closed: {{still: p1, folds: {{{folds}}}}}}}
steps:
  - {{title: Begin, do: [note: lay all ready], text: Lay all ready.}}
"""


def test_thin_paper_may_be_rolled_up_as_it_is() -> None:
    assert found_in(changed(("thickness: 0.011 in", "thickness: 0.004 in"), recipe=ROLL)) == ()


def test_right_recipe_is_left_alone() -> None:
    assert found_in(GATE) == ()


def test_every_finding_of_the_catalogue_has_a_wrong_recipe() -> None:
    told = {name for changes in WRONG.values() for _, new in changes for name in re.findall(r"#! ([^#\n]+)", new)}
    told |= {"inner panel too long", "directions not all looked at", *ON_THE_WAY, *ABOUT_SLIDES}
    told |= {name for _, name, _ in IN_WORDS.values()}
    told |= {name for name, _ in OF_DIRECTIONS.values()}
    assert {check.name for check in CHECKS} == told
    assert len({check.name for check in CHECKS}) == len(CHECKS)


def test_findings_carry_the_severity_of_the_catalogue() -> None:
    severities = {check.name: check.severity for check in CHECKS}
    for changes in WRONG.values():
        for finding in found_in(changed(*changes)):
            assert finding.severity is severities[finding.name]
            assert finding.message.endswith(".") and (finding.mend or "").endswith(".")


def test_the_mend_for_doors_that_do_not_meet_is_one_that_works() -> None:
    moved = changed(("right hinge: {across: 2 * width - door", "right hinge: {across: 2 * width - door + 1/8 in"))
    told = {finding.name: finding for finding in found_in(moved)}
    gap = told["edges do not meet as promised"]
    assert "1/4 in too far apart" in gap.message
    assert gap.mend == "Score the right hinge at 6 3/8 in from the base's left edge, not 6 1/2 in."
    assert told["closed size is not as promised"].mend == gap.mend
