"""The teacher's stock file and desk file, read as a recipe is read: places, findings, nothing thrown."""

from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from fractions import Fraction
from pathlib import Path

from foldproof.classroom.keys_own import DESK, STOCK
from foldproof.findings.finding import Finding, has_errors
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity, Unit
from foldproof.recipe.class_records import PackSpec
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.kinds import Form
from foldproof.recipe.names import settle
from foldproof.recipe.nodes import Mapping as MappingNode
from foldproof.recipe.nodes import Scalar
from foldproof.recipe.opening import open_text, read_source
from foldproof.recipe.reading_class import pack, whole_numbers
from foldproof.recipe.text import Text
from foldproof.recipe.walker import read_fields


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What is on the shelf."""

    papers: Mapping[str, PackSpec] = field(default_factory=dict)
    supplies: Mapping[str, PackSpec] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeskProfile:
    """The desk as it is; lengths in millimetres."""

    cuts_long: Fraction = Fraction(0)
    """How much longer a strip comes out than the stop says."""
    shortest_strip: Fraction = Fraction(0)
    longest_cut: Fraction | None = None
    blade: Fraction = Fraction(0)
    edge_trim: Fraction = Fraction(0)
    widest_score: Fraction | None = None
    least_offcut: tuple[Fraction, Fraction] = (Fraction(50), Fraction(75))
    measured: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnFile:
    """A file that was read: its fields as far as they go, what is wrong, and its text."""

    fields: Fields | None
    unit: Unit
    findings: tuple[Finding, ...]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """Both of the teacher's files; an empty shelf and a plain desk where one is not given."""

    stock: Stock
    desk: DeskProfile
    findings: tuple[Finding, ...]
    sources: Mapping[str, str]
    """Their texts by path."""


def read_own(stock: Path | None, desk: Path | None) -> Own:
    """What is given of the two."""
    shelf, plain = Stock(), DeskProfile()
    findings: tuple[Finding, ...] = ()
    sources: dict[str, str] = {}
    if stock is not None:
        shelf, own = read_stock(stock)
        findings, sources[str(stock)] = (*findings, *own.findings), own.source
    if desk is not None:
        plain, own = read_desk(desk)
        findings, sources[str(desk)] = (*findings, *own.findings), own.source
    return Own(stock=shelf, desk=plain, findings=findings, sources=sources)


def read_stock(path: Path) -> tuple[Stock, OwnFile]:
    """The stock file; an empty shelf where it cannot be read."""
    own = _read(path, STOCK)
    if own.fields is None:
        return Stock(), own
    supplies = {
        str(one.name): one if one.unit != "sheet" else _by_the_piece(one)
        for one in own.fields.several("supplies", PackSpec)
    }
    return Stock(papers={str(one.name): one for one in own.fields.several("papers", PackSpec)}, supplies=supplies), own


def read_desk(path: Path) -> tuple[DeskProfile, OwnFile]:
    """The desk file; a plain desk where it cannot be read."""
    own = _read(path, DESK)
    if own.fields is None:
        return DeskProfile(), own
    mm = own.unit.millimetres
    fields = own.fields
    trimmer = fields.get("trimmer", Fields)

    def length(where: Fields | None, key: str) -> Fraction | None:
        value = where.get(key, Quantity) if where is not None else None
        return None if value is None else value.value * mm

    offcut = fields.size("least offcut")
    plain = DeskProfile()
    return DeskProfile(
        cuts_long=length(trimmer, "cuts long") or Fraction(0),
        shortest_strip=length(trimmer, "shortest strip") or Fraction(0),
        longest_cut=length(trimmer, "longest cut"),
        blade=length(trimmer, "blade") or Fraction(0),
        edge_trim=length(fields, "edge trim") or Fraction(0),
        widest_score=length(fields, "widest score"),
        least_offcut=plain.least_offcut if offcut is None else (offcut[0].value * mm, offcut[1].value * mm),
        measured={
            str(item.name): (item.value[0].value * mm, item.value[1].value * mm)
            for item in fields.get("measured sheets", tuple) or ()
            if isinstance(item, Item) and item.name is not None and isinstance(item.value, tuple)
        },
    ), own


def _by_the_piece(one: PackSpec) -> PackSpec:
    return replace(one, unit="piece")


def _shelf(fields: Fields, name: Text | None, desk: Desk) -> PackSpec | None:
    one = pack(fields, name, desk)
    if one.unit in ("sheet", "piece") and not whole_numbers([("things on hand", one.on_hand)], desk):
        return None
    return one


_BUILDERS: dict[str, Builder] = {"shelf item": _shelf}


def _read(path: Path, form: Form) -> OwnFile:
    text, findings = read_source(path, str(path))
    if text is None:
        return OwnFile(fields=None, unit=Unit.INCH, findings=_of_own(findings, form), source="")
    source, root, found = open_text(text, str(path))
    findings = _of_own((*findings, *found), form)
    if root is None:
        return OwnFile(fields=None, unit=Unit.INCH, findings=findings, source=source)
    desk = Desk(file=str(path), unit=_unit(root), builders=_BUILDERS, findings=list(findings))
    fields, _ = read_fields(root, form, desk)
    settle(desk)
    broken = has_errors(tuple(desk.findings))
    told = _of_own(desk.findings, form)
    return OwnFile(fields=None if broken else fields, unit=desk.unit, findings=told, source=source)


def _of_own(findings: Iterable[Finding], form: Form) -> tuple[Finding, ...]:
    """What the reader of recipes says, in words that fit a file of the teacher's own: it has no measures, no title."""
    told = []
    for one in findings:
        if one.name == "unknown measure":
            text = one.message.removeprefix("No measure is named ").removesuffix(".")
            one = replace(
                one, name="no number", message=f"{text} can't be read as a number.", mend="Write one, like 3 or 5 1/2."
            )
        if one.message.startswith("The recipe "):
            keys = " or ".join(f"`{key.name}:`" for key in form.keys if key.name != "unit")
            one = replace(one, message=one.message.replace("The recipe", f"The {form.name}", 1), mend=f"Write {keys}.")
        if one.name == "not a file":
            one = replace(one, mend=f"Name the {form.name} itself.")
        told.append(one)
    return tuple(told)


def _unit(root: MappingNode) -> Unit:
    node = root.value("unit")
    return Unit(node.text) if isinstance(node, Scalar) and node.text in set(Unit) else Unit.INCH
