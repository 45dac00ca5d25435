"""card.json: the facts of a card for other programs.

The shape, version 1 (a change that breaks a reader raises the number; new names may come at any time):

- A *number* is `{"exact": "17/8", "decimal": 2.125}`: a fraction in lowest terms or a whole number as text, and the
  same rounded to six places. Lengths are in the recipe's `unit`; times in seconds; angles in degrees.
- A *point* is `{"exact": ["17/8", "0"], "decimal": [2.125, 0.0]}`: x to the right, y up. An *outline* is a list of
  points, anticlockwise, the last joined to the first.
- `format`, `version`, `program`, `revision`, `dated`, `name`, `title`, `language`, `unit`, `recipe` (file name),
  `files` (relative to this file), `picture` (the file that stands for the card, and what it shows).
- `measures`: name to number. `papers`: name to its facts. `finished`: what the recipe promises.
- `pieces`: name to paper, `layer`, `outline` (own frame: front up, origin bottom left), `scores` (from, to, fold as
  seen from the front), `slits` (from, to), `windows` (outline; `round` where it stands for a circle), `panels` (names).
- `panels`: name to its piece and its corners in the piece's frame.
- `joins`: name to `layer`, `under` and `over` (panel and face), `area` in the frame of the piece beneath, adhesive.
- `poses`: name to `flat`; flat ones have `outline`, `size`, `over` (pairs of upper and lower panel), `meetings`,
  `seen` and `seen_from_behind` (panel, face, outline, in the pose's frame) and `thickness`; others have `height`,
  `frames` (origin, right and up of each panel in space), `angles` and `misfit`, all approximate.
- `ways`: for each step of `opening` from pose to pose, `folds` (groups of scores, one group after another), `clear`
  (nothing was found in the way), `step` (no point went farther from one moment looked at to the next, approximate),
  and what was not looked at: `tucked` (pairs of panels), `bent` (panels).
- `supplies`, `tools`: name to what it is, and how much of it.
- `steps`: number, id, title, minutes, its sentences (`text`, `say`, `tip`, `caution`) and `actions` (what is done, on
  which piece, its numbers, in words as `said`).
- `findings`: as `foldproof check --json` gives them, files by name only.
"""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from pathlib import PurePath
from typing import Any

from foldproof.documents.preview_picture import preview_name, preview_words
from foldproof.documents.view import View
from foldproof.findings.finding import Finding, Place
from foldproof.findings.show import as_json
from foldproof.folding.card import Bond, Card, CardPiece, FlatPose, Meeting, Panel, Pose, Region, StandingPose, Surface
from foldproof.folding.motion import Journey, journeys
from foldproof.making.table import Making
from foldproof.measures.quantity import Quantity
from foldproof.paper.vector import Point, Ring
from foldproof.recipe.actions import Action, TablePoint
from foldproof.recipe.records import PaperSpec, Recipe, Text

FORMAT = "foldproof card facts"
VERSION = 1


def facts_file(card: Card, making: Making, findings: tuple[Finding, ...], view: View, files: Iterable[str]) -> str:
    """The whole file as text."""
    told = {
        "format": FORMAT,
        "version": VERSION,
        "program": view.version,
        "revision": view.revision,
        "dated": view.dated or None,
        "files": sorted(files),
        "picture": {"file": picture, "shows": preview_words(view)} if (picture := preview_name(view)) else None,
        **card_facts(card, making, tuple(step.short for step in view.steps)),
        "findings": by_file_name(as_json(findings)),
    }
    return json.dumps(told, indent=1, ensure_ascii=False) + "\n"


def card_facts(card: Card, making: Making, hands: Sequence[Sequence[str]]) -> dict[str, Any]:
    """The facts of a card alone; `hands` are the short lines of each step, one for each action."""
    recipe = card.recipe
    return {
        "name": recipe.name,
        "title": str(recipe.title),
        "language": recipe.language,
        "unit": recipe.unit.value,
        "recipe": PurePath(recipe.file).name,
        "measures": {str(measure.name): _number(measure.value.value) for measure in recipe.measures},
        "papers": {str(paper.name): _paper(paper) for paper in recipe.papers},
        "finished": _finished(recipe),
        "pieces": {piece.name: _piece(piece) for piece in card.pieces},
        "panels": {panel.name: _panel(panel) for panel in card.panels.values()},
        "joins": {bond.name: _bond(bond, card) for bond in card.bonds},
        "poses": {pose.name: _pose(pose) for pose in card.poses},
        "ways": [_way(way) for way in journeys(card)],
        "supplies": {
            str(supply.name): {"kind": supply.kind, "amount": _text(supply.amount)}
            for supply in recipe.supplies},
        "tools": [str(tool.name) for tool in recipe.tools],
        "steps": [
            {
                "number": step.number,
                "id": step.spec.id,
                "title": str(step.spec.title),
                "minutes": _number(step.spec.minutes.value / 60) if step.spec.minutes else None,
                **{name: _text(getattr(step.spec, name)) for name in ("text", "say", "tip", "caution")},
                "actions": [
                    _action(action, str(step.spec.piece) if step.spec.piece else None, words)
                    for action, words in zip(step.spec.actions, said, strict=False)
                ],
                "again": [
                    {"piece": str(again.piece), "mirrored": again.mirrored} for again in step.spec.repeats
                ],
            }
            for step, said in zip(making.steps, hands, strict=True)
        ],
    }


def by_file_name(told: Any) -> Any:
    """Findings as JSON with the folders taken off their files: nothing of the machine's own paths goes out."""
    if isinstance(told, dict):
        return {
            key: PurePath(value).name if key == "file" and isinstance(value, str) else by_file_name(value)
            for key, value in told.items()
        }
    return [by_file_name(item) for item in told] if isinstance(told, (list, tuple)) else told


def _number(value: Fraction) -> dict[str, Any]:
    return {"exact": str(value), "decimal": round(float(value), 6)}


def _point(point: Point) -> dict[str, Any]:
    return {"exact": [str(point.x), str(point.y)], "decimal": [round(float(point.x), 6), round(float(point.y), 6)]}


def _ring(ring: Ring) -> list[dict[str, Any]]:
    return [_point(point) for point in ring]


def _pair(pair: tuple[Quantity, Quantity] | None) -> dict[str, Any] | None:
    return {"width": _number(pair[0].value), "height": _number(pair[1].value)} if pair else None


def _text(text: Text | None) -> str | None:
    return str(text) if text else None


def _paper(paper: PaperSpec) -> dict[str, Any]:
    return {
        "kind": _text(paper.kind), "weight": _text(paper.weight),
        "thickness": _number(paper.thickness.value) if paper.thickness else None, "sheet": _pair(paper.sheet),
        "grain": paper.grain, "printed": paper.printed, "pattern": paper.pattern, "tone": _text(paper.tone),
    }


def _finished(recipe: Recipe) -> dict[str, Any]:
    finished = recipe.finished
    return {
        "size": _pair(finished.size), "pose": _text(finished.pose) or "closed", "envelope": _text(finished.envelope),
        "envelope_size": _pair(finished.envelope_size),
        "stands": {"pose": str(finished.stands.pose), "height": _number(finished.stands.height.value)}
        if finished.stands else None,
    }


def _piece(piece: CardPiece) -> dict[str, Any]:
    return {
        "layer": piece.layer, "paper": piece.paper, "bought": piece.bought, "round": piece.round,
        "outline": _ring(piece.outline),
        "scores": {
            score.name: {"from": _point(score.segment.start), "to": _point(score.segment.end), "fold": score.fold.value}
            for score in piece.scores
        },
        "slits": {
            slit.name: {"from": _point(slit.segment.start), "to": _point(slit.segment.end)} for slit in piece.slits},
        "windows": {window.name: {"round": window.round, "outline": _ring(window.ring)} for window in piece.windows},
        "panels": list(piece.panels),
    }


def _panel(panel: Panel) -> dict[str, Any]:
    return {"piece": panel.piece, "corners": _ring(panel.ring), "holes": [_ring(hole) for hole in panel.holes]}


def _surface(surface: Surface) -> dict[str, str]:
    return {"panel": surface.panel, "face": surface.face.value}


def _bond(bond: Bond, card: Card) -> dict[str, Any]:
    piece = card.piece(bond.name)
    return {
        "layer": piece is not None and piece.layer, "under": _surface(bond.under), "over": _surface(bond.over),
        "area": _ring(bond.area) if bond.area else None, "adhesive": bond.adhesive,
        "glue_area": [_ring(ring) for ring in bond.glue],
    }


def _way(way: Journey) -> dict[str, Any]:
    return {
        "from": way.start, "to": way.end, "folds": [list(stage) for stage in way.stages], "clear": way.free,
        "step": round(way.step, 6), "tucked": [list(pair) for pair in way.not_checked], "bent": list(way.bent),
    }


def _pose(pose: Pose) -> dict[str, Any]:
    match pose:
        case FlatPose():
            return {
                "flat": True,
                "outline": [_ring(ring) for ring in pose.outline],
                "size": {"width": _number(pose.width), "height": _number(pose.height)},
                "over": [list(pair) for pair in sorted(pose.over)],
                "tucked": [[str(upper), str(lower)] for upper, lower in pose.spec.tucks],
                "meetings": [_meeting(meeting) for meeting in pose.meetings],
                "seen": [_region(region) for region in pose.seen],
                "seen_from_behind": [_region(region) for region in pose.hidden_side],
                "thickness": _number(pose.thickness) if pose.thickness is not None else None,
            }
        case StandingPose():
            return {
                "flat": False,
                "height": round(pose.height, 6),
                "frames": {
                    panel: {"origin": _xyz(frame.origin), "right": _xyz(frame.right), "up": _xyz(frame.up)}
                    for panel, frame in pose.frames.items()
                },
                "angles": {score: round(angle, 6) for score, angle in pose.angles.items()},
                "misfit": round(pose.misfit, 9),
            }


def _xyz(point: tuple[float, float, float]) -> list[float]:
    return [round(part, 6) for part in point]


def _meeting(meeting: Meeting) -> dict[str, Any]:
    return {
        "panels": list(meeting.panels), "gap": _number(meeting.gap),
        "edges": [[_point(edge.start), _point(edge.end)] for edge in meeting.edges],
    }


def _region(region: Region) -> dict[str, Any]:
    return {
        "panel": region.panel, "face": region.face.value, "outline": _ring(region.ring),
        "holes": [_ring(hole) for hole in region.holes],
    }


def _action(action: Action, piece: str | None, words: str) -> dict[str, Any]:
    does = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", type(action).__name__).lower()
    return {"does": does, "said": words, **{"piece": piece, **_parts(action)}}


def _parts(record: Any) -> Mapping[str, Any]:
    """The fields of a record that say something, by name."""
    told = {field.name: _value(getattr(record, field.name)) for field in fields(record)}
    return {name: value for name, value in told.items() if value is not None}


def _value(value: Any) -> Any:
    match value:
        case Place():
            return None
        case Quantity():
            return _number(value.value)
        case TablePoint():
            return value.name
        case Enum():
            return value.value
        case tuple():
            return [_value(item) for item in value]
    return _parts(value) if is_dataclass(value) else value
