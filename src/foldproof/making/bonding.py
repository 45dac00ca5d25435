"""Putting layers on and joining pieces."""

from dataclasses import replace
from types import MappingProxyType

from foldproof.findings.finding import Finding, Severity
from foldproof.folding.card import Bond
from foldproof.making.order import lying
from foldproof.making.outcome import Outcome, Setting, fault, refused
from foldproof.making.putting import put, said_distances
from foldproof.making.seen import Seen, seen, to_maker
from foldproof.making.table import Bonded, OnTable
from foldproof.making.work import work_with
from foldproof.paper.polygon import Where, centre_of, locate
from foldproof.recipe.actions import Attach, SlideIn


def attach(setting: Setting, action: Attach) -> Outcome:
    """Lay a guest on its receiver where the step says; it is bonded there from now on."""
    return _put(setting, action, action.bond, action.adhesive)


def slide_in(setting: Setting, action: SlideIn) -> Outcome:
    """Slide something in, or fasten it: a layer comes to lie where the step says; another piece has to be there."""
    card, table = setting.card, setting.table
    slide = next((slide for slide in card.recipe.slides if slide.name.value == action.slide), None)
    if slide is None:
        return refused(setting, "no such slide", f"The plan has no slide called “{action.slide}”.",
                       "Use the name of a slide of the plan.")
    if any(bond.name == slide.what.value for bond in card.bonds):
        return _put(setting, action, slide.what.value, None)
    for name in (slide.what.value, slide.into.value):
        owner = card.panels[name].piece if name in card.panels else name
        if card.piece(owner) is not None and owner not in table.pieces:
            return refused(setting, "not cut yet", f"The {owner} is not on the table yet: no step before this one "
                           "cuts it.",
                           f"Cut the {owner} first, or move this step behind the one that does.")
    return Outcome(table=table, piece=setting.target)


def _put(setting: Setting, action: Attach | SlideIn, name: str, adhesive: str | None) -> Outcome:
    card, table = setting.card, setting.table
    bond = next((bond for bond in card.bonds if bond.name == name), None)
    if bond is None:
        return refused(setting, "no such layer or join", f"The plan has no layer or join called “{name}”.",
                       "Use the name of a layer or a join of the plan.")
    if any(made.name == bond.name for made in table.bonds):
        return refused(setting, "attached twice", f"The {bond.name} has been attached already.", "Take this out.")
    receiver, guest = card.panels[bond.under.panel].piece, card.panels[bond.over.panel].piece
    guest_plan = card.piece(guest)
    assert guest_plan is not None
    pieces = dict(table.pieces)
    if guest not in pieces and guest_plan.bought:
        pieces[guest] = OnTable(name=guest, outline=guest_plan.outline, round=guest_plan.round,
                                holes=guest_plan.holes)
    for one in (receiver, guest):
        if one not in pieces:
            return refused(setting, "not cut yet", f"The {one} is not on the table yet: no step before this one cuts "
                           "it.", f"Cut the {one} first, or move this step behind the one that does.")
    findings: list[Finding] = []
    fit = put(card, bond, action.at)
    if isinstance(fit, str):
        findings.append(fault(setting, "place not said", f"The {bond.name}: {fit}.",
                              "Say the border, or centred, or a distance from two edges."))
        fit = bond.fit
    findings.extend(_adhesive(setting, adhesive, bond))
    findings.extend(_out_of_reach(setting, bond) if isinstance(action, Attach) else ())
    glue = adhesive or bond.adhesive
    wait = next((s.dries.value for s in card.recipe.supplies if s.name.value == glue and s.dries), None)
    made = Bonded(name=bond.name, root=receiver, guest=guest, fit=fit, wet_until=table.clock + (wait or 0),
                  place=action.place)
    if table.root(receiver) == guest:
        return refused(setting, "joined to itself", f"The {guest} already carries the {receiver}.", "Take this out.")
    bonded = replace(table, pieces=MappingProxyType(pieces), bonds=(*table.bonds, made))
    return Outcome(table=bonded, piece=guest, dimensions=said_distances(card, bond, fit, action.at),
                   findings=tuple(findings))


def _out_of_reach(setting: Setting, bond: Bond) -> list[Finding]:
    """A face takes a layer only where it lies open before the maker."""
    card, table = setting.card, setting.table
    receiver = card.panels[bond.under.panel].piece
    if receiver not in table.pieces:
        return []
    if _plainly_open(setting, receiver, bond):
        return []
    above = seen(card, table, receiver)
    panel, face = bond.under.panel, bond.under.face
    unshaped = not any(shown.panel is not None for shown in above.shown if shown.piece == receiver)
    if unshaped or _lies_open(setting, above, bond):
        return []
    if seen(card, table, receiver, behind=True).of(panel, face):
        return [fault(
            setting, "glued to a face that is down", f"The {bond.name} goes on the {face.value} of the {panel}, and as "
            "the work lies that face is down.", "Turn the work over first, or name the face that is up.")]
    return [fault(
        setting, "glued to a face that is covered", f"The {bond.name} goes on the {face.value} of the {panel}, which "
        "is covered at this moment.", "Open the fold that covers it first, or move this step.")]


def _plainly_open(setting: Setting, receiver: str, bond: Bond) -> bool:
    """Whether the panel itself, with that face up, is what lies highest at the middle of where it goes.

    Nothing that is seen from above need be worked out then: most layers go where nothing lies, and the whole view takes
    the longer the more layers there are.
    """
    if bond.area is None:
        return False
    card, table = setting.card, setting.table
    panel, middle = card.panels[bond.under.panel], centre_of(bond.area)
    work = work_with(card, table, receiver)
    own = next((p for p in work.parts if p.piece == receiver and p.panel in (None, panel.name)), None)
    if own is None or work.face_up(own) is not bond.under.face:
        return False
    if any(locate(middle, ring, holes) is not Where.IN
           for ring, holes in ((panel.ring, panel.holes), (own.ring, own.holes))):
        return False
    spot, found = own.fit.point(middle), lying(card, table, work)
    place = found.parts.index(own)
    over = (part for i, part in enumerate(found.parts) if (i, place) in found.over)
    return all(locate(part.fit.inverse.point(spot), part.ring, part.holes) is Where.OUT for part in over)


def _lies_open(setting: Setting, above: Seen, bond: Bond) -> bool:
    """Whether hands reach the middle of where it goes: nothing lies there but what is fixed to that panel itself."""
    panel = bond.under.panel
    if not above.of(panel, bond.under.face) or bond.area is None:
        return bool(above.of(panel, bond.under.face))
    work = work_with(setting.card, setting.table, setting.card.panels[panel].piece)
    part = next((p for p in work.parts if p.panel == panel or (
        p.panel is None and p.piece == setting.card.panels[panel].piece)), None)
    if part is None:
        return True
    middle = to_maker(work).point(part.fit.point(centre_of(bond.area)))
    guest = setting.card.panels[bond.over.panel].piece
    own = {panel, *(name for name, each in setting.card.panels.items() if each.piece == guest)}  # its loose end lifts
    made = {each.name for each in setting.table.bonds}
    while more := {each.over.panel for each in setting.card.bonds
                   if each.name in made and each.under.panel in own} - own:
        own |= more
    top = [shown.panel for shown in above.shown if locate(middle, shown.ring, shown.holes) is Where.IN]
    return not top or top[0] is None or top[0] in own


def _adhesive(setting: Setting, adhesive: str | None, bond: Bond) -> list[Finding]:
    if adhesive is None or bond.adhesive is None or adhesive == bond.adhesive:
        return []
    return [fault(
        setting, "another adhesive than the plan's", f"The step fixes the {bond.name} with {adhesive}; the plan "
        f"says {bond.adhesive}.", "Use the same adhesive in both.", severity=Severity.ERROR)]
