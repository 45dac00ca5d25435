"""Each action carried out: a table in, a table out, and what went wrong on the way."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import singledispatch

from foldproof.findings.finding import Finding
from foldproof.making.away import cut_away, round_corners, scallop
from foldproof.making.bonding import attach, slide_in
from foldproof.making.cutting import cut_across, cut_between, cut_off, cut_out, die_cut
from foldproof.making.folds import bring_to, fold_on, unfold
from foldproof.making.lines import at_stop, line_between, press, slit
from foldproof.making.lying import brought_to_fence, brought_to_stop, turned, turned_over
from foldproof.making.outcome import Outcome, Setting, fault, refused, with_pieces
from foldproof.making.points import at_coordinates
from foldproof.making.stamping import stamp
from foldproof.making.table import Dimension, Lie, Mark
from foldproof.making.tools import set_blade
from foldproof.making.tucking import tuck
from foldproof.making.work import Work, work_with
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Where, locate
from foldproof.paper.vector import Point
from foldproof.recipe import actions as do


@singledispatch
def carry_out_action(action: do.Doing, setting: Setting) -> Outcome:
    """What an action leaves. Actions that change no paper leave the table as it was."""
    return Outcome(table=setting.table, piece=setting.target)


@carry_out_action.register
def _(action: do.CutOut, setting: Setting) -> Outcome:
    return cut_out(setting, action)


@carry_out_action.register
def _(action: do.DieCut, setting: Setting) -> Outcome:
    return die_cut(setting, action)


@carry_out_action.register
def _(action: do.CutAcross, setting: Setting) -> Outcome:
    return cut_across(setting, action)


@carry_out_action.register
def _(action: do.CutOff, setting: Setting) -> Outcome:
    return cut_off(setting, action)


@carry_out_action.register
def _(action: do.SetBlade, setting: Setting) -> Outcome:
    return set_blade(setting, action)


@carry_out_action.register
def _(action: do.CutBetween, setting: Setting) -> Outcome:
    return cut_between(setting, action)


@carry_out_action.register
def _(action: do.FoldOn, setting: Setting) -> Outcome:
    return fold_on(setting, action)


@carry_out_action.register
def _(action: do.Tuck, setting: Setting) -> Outcome:
    return tuck(setting, action)


@carry_out_action.register
def _(action: do.BringTo, setting: Setting) -> Outcome:
    work = _work(setting)
    return work if isinstance(work, Outcome) else bring_to(setting, action)


@carry_out_action.register
def _(action: do.Unfold, setting: Setting) -> Outcome:
    return unfold(setting, action)


@carry_out_action.register
def _(action: do.Attach, setting: Setting) -> Outcome:
    return attach(setting, action)


@carry_out_action.register
def _(action: do.Stamp, setting: Setting) -> Outcome:
    return stamp(setting, action)


@carry_out_action.register
def _(action: do.Dry, setting: Setting) -> Outcome:
    return Outcome(table=replace(setting.table, clock=setting.table.clock + action.time.value), piece=setting.target)


@carry_out_action.register
def _(action: do.Measure, setting: Setting) -> Outcome:
    work = _work(setting)
    if isinstance(work, Outcome):
        return work
    left, right = work.span(work.lie.right)
    bottom, top = work.span(work.lie.away)
    said = (action.size[0].value, action.size[1].value)
    is_now = (right - left, top - bottom)
    findings: tuple[Finding, ...] = ()
    if said != is_now:
        findings = (fault(
            setting, "measures otherwise", f"The step says that the work now measures {setting.size(*said)}; as it is "
            f"folded and lies, it measures {setting.size(*is_now)}.",
            "Check the numbers, their order (width as it lies, then height), and the folds before this."),)
    corners = [at_coordinates(work, x, y) for x, y in ((left, bottom), (right, bottom), (left, top))]
    return Outcome(table=setting.table, piece=work.root, findings=findings, dimensions=(
        Dimension(piece=work.root, start=corners[0], end=corners[1], measure=action.size[0]),
        Dimension(piece=work.root, start=corners[0], end=corners[2], measure=action.size[1])))


@carry_out_action.register
def _(action: do.Turn, setting: Setting) -> Outcome:
    return _lay_anew(setting, lambda lie: turned(lie, action.amount))


@carry_out_action.register
def _(action: do.TurnOver, setting: Setting) -> Outcome:
    return _lay_anew(setting, lambda lie: turned_over(lie, action.way))


@carry_out_action.register
def _(action: do.Lay, setting: Setting) -> Outcome:
    work = _work(setting)
    if isinstance(work, Outcome):
        return work
    lie = work.lie
    findings: list[Finding] = []
    if action.face is not None and action.face is not lie.up:
        findings.append(fault(
            setting, "wrong face up", f"The step says that the {action.face.value} of the {work.root} is up, but as it "
            f"lies its {lie.up.value} is up.", f"Turn the piece over first, or say that its {lie.up.value} is up."))
    if action.anticlockwise and action.against == "stop":
        return refused(
            setting, "mirrored at the stop", "The stop stands at the left for every piece, and is not mirrored.",
            "Lay an edge against the fence instead, or write this piece's step out.")
    side = action.edge
    if side in ("long", "short"):
        wide, high = (work.span(way) for way in (lie.right, lie.away))
        level, upright = wide[1] - wide[0], high[1] - high[0]
        if level == upright:
            findings.append(fault(
                setting, "no longer edge", f"The {work.root} is as wide as it is high as it lies, so it has no "
                f"{side} edge.", f"Name the edge that goes against the {action.against}: left, right, top or bottom."))
        is_level = (level >= upright) == (side == "long")
        near = "right" if action.anticlockwise else "left"
        side = near if not is_level else "top" if action.against == "fence" else "bottom"
    laid = brought_to_fence(lie, side) if action.against == "fence" else brought_to_stop(lie, side)
    table = with_pieces(setting.table, replace(setting.table.pieces[work.root], lie=laid))
    return Outcome(table=table, piece=work.root, findings=tuple(findings))


@carry_out_action.register
def _(action: do.MarkAt, setting: Setting) -> Outcome:
    work = _work(setting)
    if isinstance(work, Outcome):
        return work
    lie = work.lie
    level = action.edge in ("top", "bottom")
    along, across = (lie.right, lie.away) if level else (lie.away, lie.right)
    low, high = work.span(along)
    near, far = work.span(across)
    edge = far if action.edge in ("top", "right") else near
    distance = action.at.value
    inward = action.inward.value if action.inward is not None else Fraction(0)
    if inward >= far - near:
        return refused(
            setting, "off the work", f"A mark {setting.length(inward)} in from the {action.edge} edge is off the "
            f"{work.root}, which is {setting.length(far - near)} across there.", "Check how far in it is.")
    edge += -inward if edge == far else inward
    from_high = action.start in ("right", "top")
    at, start = (high - distance, high) if from_high else (low + distance, low)
    if not low <= at <= high:
        return refused(
            setting, "off the work", f"A mark {setting.length(action.at.value)} along the {action.edge} edge is off "
            f"the {work.root}, whose edge is {setting.length(high - low)} long.", "Check the distance and the edge.")
    point, origin = (
        (at_coordinates(work, at, edge), at_coordinates(work, start, edge)) if level
        else (at_coordinates(work, edge, at), at_coordinates(work, edge, start)))
    found = _part_under(work, point)
    if found is None:
        return refused(setting, "off the work", f"There is no paper at the mark on the {action.edge} edge.",
                       "Choose a point on the edge of the piece as it lies.")
    part_piece, inverse, face = found
    piece = setting.table.pieces[part_piece]
    mark = Mark(name=action.name, at=inverse.point(point), face=face)
    kept = tuple(old for old in piece.marks if old.name != action.name)
    return Outcome(
        table=with_pieces(setting.table, replace(piece, marks=(*kept, mark))), piece=part_piece,
        dimensions=(Dimension(piece=part_piece, start=inverse.point(origin), end=mark.at, measure=action.at),))


@carry_out_action.register
def _(action: do.SlitAt, setting: Setting) -> Outcome:
    work = _loose(setting)
    if isinstance(work, Outcome):
        return work
    return at_stop(setting, work, action, lambda line, measured: slit(setting, work, line, measured))


@carry_out_action.register
def _(action: do.SlitBetween, setting: Setting) -> Outcome:
    work = _loose(setting)
    if isinstance(work, Outcome):
        return work
    line = line_between(setting, work, action, "slit")
    return line if isinstance(line, Outcome) else slit(setting, work, line, ())


@carry_out_action.register
def _(action: do.CutAway, setting: Setting) -> Outcome:
    work = _work(setting)
    return work if isinstance(work, Outcome) else cut_away(setting, work, action)


@carry_out_action.register
def _(action: do.RoundCorners, setting: Setting) -> Outcome:
    work = _work(setting)
    return work if isinstance(work, Outcome) else round_corners(setting, work, action)


@carry_out_action.register
def _(action: do.Scallop, setting: Setting) -> Outcome:
    work = _work(setting)
    return work if isinstance(work, Outcome) else scallop(setting, work, action)


@carry_out_action.register
def _(action: do.SlideIn, setting: Setting) -> Outcome:
    return slide_in(setting, action)


@carry_out_action.register
def _(action: do.ScoreAt, setting: Setting) -> Outcome:
    work = _work(setting)
    if isinstance(work, Outcome):
        return work
    return at_stop(setting, work, action, lambda line, measured: press(setting, work, line, measured, action))


@carry_out_action.register
def _(action: do.ScoreBetween, setting: Setting) -> Outcome:
    work = _work(setting)
    if isinstance(work, Outcome):
        return work
    line = line_between(setting, work, action, "score")
    return line if isinstance(line, Outcome) else press(setting, work, line, (), action)


def _loose(setting: Setting) -> Work | Outcome:
    """The work where it is one sheet; a slit through more would part paper that is meant to stay whole."""
    work = _work(setting)
    if isinstance(work, Work) and len(work.parts) > 1:
        return refused(
            setting, "cut through folded layers", f"The {work.root} is folded or already joined, and this slit would "
            "go through all the paper beneath.", "Cut slits before folding and gluing, or unfold first.")
    return work


def _part_under(work: Work, point: Point) -> tuple[str, Isometry, Face] | None:
    """The piece with paper at a point of the work, the way into its frame, and its face that is up there."""
    for part in work.parts:
        inverse = part.fit.inverse
        if locate(inverse.point(point), part.ring, part.holes) is not Where.OUT:
            return part.piece, inverse, work.face_up(part)
    return None


def _work(setting: Setting) -> Work | Outcome:
    """The work that the action is done on, or the reason why there is none."""
    name = setting.target
    if name is None:
        return refused(setting, "nothing to act on", "The step does not say which piece it works on.",
                       "Give the step a `piece:`, or write `piece:` beside the action.")
    if name not in setting.table.pieces:
        return refused(setting, "not cut yet", f"The {name} is not on the table yet: no step before this one cuts it.",
                       f"Cut the {name} first, or move this step behind the one that does.")
    return work_with(setting.card, setting.table, name)


def _lay_anew(setting: Setting, change: Callable[[Lie], Lie]) -> Outcome:
    work = _work(setting)
    if isinstance(work, Outcome):
        return work
    moved = replace(setting.table.pieces[work.root], lie=change(work.lie))
    return Outcome(table=with_pieces(setting.table, moved), piece=work.root)
