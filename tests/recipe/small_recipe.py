"""A small sound recipe for the tests of reading, and ways to spoil it."""

from foldproof.findings.finding import Finding
from foldproof.recipe.reader import Reading, read_text

SOUND = """\
title: Small gate
summary: A gate fold, {width} wide.
skill: beginner
unit: inch
measures:
  width: 4 1/4
  door: width / 2
  band width: 3 1/2
papers:
  slate: {kind: cardstock, weight: 80 lb cover, sheet: [8 1/2, 11], grain: height}
  waves: {kind: patterned paper, printed: one face, pattern: upright, tone: "#7fb3c8"}
pieces:
  base:
    paper: slate
    size: [2 * width, 5 1/2]
    points:
      notch: [1, 5 1/2]
    scores:
      left hinge: {across: door, fold: valley}
      right hinge: {across: 2 * width - door, fold: valley}
      slant: {from: notch, to: bottom middle, fold: none}
    panels:
      left door: left of left hinge
      middle: between left hinge and right hinge
      right door: [8, 1]
  flap:
    paper: slate
    size: [2, 2]
joins:
  flap on door:
    put: flap back
    upon: right door back
    at: {left: 0, centred: up}
    adhesive: wet glue
layers:
  left mat:
    paper: waves
    size: [1 7/8, 5 1/4]
    upon: left door back
    at: {centred: both}
    adhesive: wet glue
  button:
    bought: [1/2, 1/2]
    upon: left mat front
    at: {right: -1/8, top: 1/4}
    overhangs: [right door, edge]
poses:
  closed: {still: middle, folds: {left hinge: 180, right hinge: 180}}
  open: {}
opening: [closed, open]
finished:
  size: [4 1/4, 5 1/2]
  envelope: A2
  meets:
    - {panels: [left door, right door], gap: 0}
supplies:
  wet glue: {kind: wet glue, amount: a few dots, dries: 5}
  ribbon: {kind: ribbon, length: 18}
tools:
  trimmer: {caution: Mind the blade.}
  pencil: {basic: true}
steps:
  - title: Cut the base
    piece: base
    tools: [trimmer]
    do:
      - cut: [8 1/2, 5 1/2]
      - lay: {edge: long, up: front}
      - mark: {at: 1, edge: top, from: left, name: nick}
      - score: 2 1/8
      - turn: half
      - score: {from: nick, to: bottom middle}
    text: Cut one base.
    minutes: 2
    film: {framing: overhead wide, seconds: 20}
  - title: Put on the mat
    supplies: [wet glue]
    do:
      - attach: {what: left mat, border: 1/8, with: wet glue}
      - dry: 5 min
    text: Glue the mat to the left door.
"""


def spoilt(old: str, new: str) -> str:
    """The sound recipe with one passage put otherwise; the passage must be there once."""
    assert SOUND.count(old) == 1, f"{old!r} is there {SOUND.count(old)} times"
    return SOUND.replace(old, new)


def underlined(reading: Reading, finding: Finding) -> str:
    """The words of the source at which a finding points."""
    assert finding.place is not None
    line = reading.source.split("\n")[finding.place.line - 1]
    start = finding.place.column - 1
    return line[start : start + finding.place.length]


def told(text: str) -> list[tuple[str, str]]:
    """What is found in a text: the name of each finding and the words at which it points."""
    reading = read_text(text, "small.yaml")
    return [(finding.name, underlined(reading, finding)) for finding in reading.findings]
