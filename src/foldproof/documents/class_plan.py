"""The class plan on paper, as a table, and as facts for other programs."""

import csv
import io
import json
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from markupsafe import Markup

from foldproof.classroom.class_plan import ClassPlan
from foldproof.classroom.paper_plan import PaperPlan
from foldproof.classroom.sheets import Cut, Node, Plan, Taken
from foldproof.documents.class_view import ClassView, tell_class
from foldproof.documents.handout import SHEETS, own_paper
from foldproof.documents.pdf_text import read_pdf
from foldproof.documents.printing import FONT_RULES, to_pdf
from foldproof.documents.readback import squeezed
from foldproof.documents.revision import revision
from foldproof.documents.theme import Theme
from foldproof.documents.trouble import AuditError
from foldproof.recording.cells import guarded

FORMAT = "foldproof class facts"
VERSION = 1
COLUMNS = ("section", "item", "size", "each kit", "all kits", "on hand", "to buy", "price", "note", "revision")


def class_set(
    plan: ClassPlan, theme: Theme, sources: Sequence[str], version: str, dated: str = ""
) -> dict[str, bytes]:
    """class.pdf, class.csv and class.json, read back and found to agree.

    `sources` are the texts that the plan was made from. Raises AuditError where a document does not say what the
    plan is.
    """
    told = "\0".join((*sources, str(plan.heads), str(plan.desk), str(plan.shopping)))
    view = tell_class(plan, revision=revision(told, theme.files.items(), version), version=version, dated=dated)
    files = {"class.pdf": class_pdf(view, theme), "class.csv": class_csv(view).encode()}
    files["class.json"] = class_json(plan, view, [*files, "class.json"]).encode()
    problems = audit_class(view, files)
    if problems:
        raise AuditError(f"the finished class plan disagrees with itself: {'; '.join(problems[:6])}")
    return files


def audit_class(view: ClassView, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """What the finished plan and table leave out of the view."""
    told = squeezed(" ".join(part.text for part in read_pdf(files["class.pdf"]).said))
    wanted: list[tuple[str, tuple[str, ...]]] = []
    wanted += [(f"{row.name}: {row.need}", (row.name, row.need, row.buy)) for row in view.bought]
    wanted += [(line.what, (line.what, line.size, line.total)) for line in view.kit]
    for paper in view.papers:
        wanted.append((paper.name, (paper.sheets, paper.proof)))
        for layout in (*paper.layouts, *paper.own):
            wanted += [(f"{paper.name}, cut {row.number}", (row.take, row.stop, row.get)) for row in layout.rows]
    missing = [f"class.pdf lacks {what}" for what, words in wanted if any(squeezed(w) not in told for w in words)]
    rows = list(csv.reader(io.StringIO(files["class.csv"].decode())))
    items = {(row[0], row[1]) for row in rows}
    missing += [f"class.csv lacks {row.name}" for row in view.bought if ("shopping", guarded(row.name)) not in items]
    return tuple(missing)


def class_html(view: ClassView, theme: Theme) -> str:
    """The class plan before it is printed."""
    sheet = SHEETS[own_paper(view.unit)]
    rule = f'@page {{ size: {sheet}; @bottom-right {{ content: "{view.stamp}"; }} }}'
    css = Markup("\n".join((FONT_RULES, theme.style("class.css"), rule)))
    return theme.render("class.html", view=view, css=css)


def class_pdf(view: ClassView, theme: Theme) -> bytes:
    """The class plan as a PDF."""
    material = {f"drawing/{one.name}.svg": ("image/svg+xml", one.svg.encode()) for one in view.drawings}
    return to_pdf(class_html(view, theme), material)


def class_csv(view: ClassView) -> str:
    """Shopping, kits and cuts as comma-separated values (RFC 4180), a heading first."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)

    def row(section: str, item: str, **cells: str) -> None:
        known = {column.replace(" ", "_"): "" for column in COLUMNS} | cells
        known |= {"section": section, "item": item, "revision": view.stamp}
        rows.writerow([guarded(known[column.replace(" ", "_")]) for column in COLUMNS])

    for one in view.bought:
        row(
            "shopping", one.name, all_kits=one.need, on_hand=one.on_hand, to_buy=one.buy, price=one.price, note=one.note
        )
    for line in view.kit:
        row("kit", line.what, size=line.size, each_kit=line.count, all_kits=line.total, note=line.note)
    for line in view.shared:
        row("on the tables", line.what, note=line.note)
    for paper in view.papers:
        for number, layout in enumerate((*paper.layouts, *paper.own), start=1):
            for cut in layout.rows:
                row(
                    f"cutting {paper.name}",
                    f"layout {number}, {layout.heading.rpartition(': ')[2]}, cut {cut.number}",
                    size=cut.stop,
                    note=f"{cut.take}: {cut.do}; {cut.get}",
                )
    for moment in view.time:
        row("time line", moment.what, size=moment.clock, note="; ".join(filter(None, (moment.queue, moment.note))))
    return out.getvalue()


def class_json(plan: ClassPlan, view: ClassView, files: Iterable[str]) -> str:
    """The facts: exact numbers as text, `{"exact": "17/8", "decimal": 2.125}`; times in seconds, lengths in the
    `unit` of their paper.

    `cutting` lists each paper's layouts as trees: a rectangle is cut (`line`, `at`, `near`, `far`), is a part, or is
    left over.
    """
    told = {
        "format": FORMAT,
        "version": VERSION,
        "program": view.version,
        "revision": view.revision,
        "dated": view.dated or None,
        "unit": plan.unit.value,
        "files": sorted(files),
        "cards": [lesson.card.recipe.name for lesson in plan.lessons],
        "people": plan.heads.people,
        "spares": plan.heads.spares,
        "sample": plan.heads.sample,
        "kits": plan.heads.kits,
        "cutting": {one.need.name: _paper(one) for one in plan.papers},
        "shopping": [
            {
                "name": item.name,
                "kind": item.kind,
                "unit": item.unit or None,
                "need": _number(item.need),
                "on_hand": _number(item.on_hand),
                "pack_holds": _number(item.holds),
                "packs": item.packs,
                "price": _number(item.price),
                "spend": _number(item.spend),
                "used": _number(item.used),
            }
            for item in plan.shopping.items
        ],
        "cost": None
        if plan.shopping.cost is None
        else {
            "currency": plan.shopping.cost.currency,
            "spend": _number(plan.shopping.cost.spend),
            "used": _number(plan.shopping.cost.used),
            "each": _number(plan.shopping.cost.each),
            "margin": _number(plan.shopping.cost.margin),
            "suggested": _number(plan.shopping.cost.suggested),
            "without": list(plan.shopping.cost.without),
        },
        "time_line": [
            {
                "start": _number(moment.start),
                "seconds": _number(moment.seconds),
                "kind": moment.kind,
                "card": moment.card or None,
                "step": moment.number,
                "title": moment.title,
                "queue": None
                if moment.queue is None
                else {"tool": moment.queue.tool, "count": moment.queue.count, "rounds": moment.queue.rounds},
                "hand_out": list(moment.hand_out),
            }
            for moment in plan.moments
        ],
    }
    return json.dumps(told, indent=1, ensure_ascii=False) + "\n"


def _paper(one: PaperPlan) -> dict[str, Any]:
    return {
        "unit": one.need.unit.value,
        "sheet": [_number(side) for side in one.size],
        "sheets": one.sheets,
        "parts": [
            {
                "name": part.name,
                "card": part.title,
                "width": _number(part.width),
                "height": _number(part.height),
                "count": part.count(one.kits),
                "may_turn": part.turn.value,
                "cut_ahead": part.ahead,
            }
            for part in one.need.parts
        ],
        "ahead": _plan(one.ahead),
        "in_class": _plan(one.each),
        "kits_to_a_sheet_in_class": one.together if one.each else None,
        "offcuts": [
            {"width": _number(left.width), "height": _number(left.height), "count": times}
            for left, times in one.leftovers
        ],
    }


def _plan(plan: Plan | None) -> dict[str, Any] | None:
    if plan is None:
        return None
    return {
        "sheets": plan.count,
        "at_least": plan.least,
        "because": plan.reason,
        "layouts": [{"times": layout.times, "cut": _node(layout.root)} for layout in plan.layouts],
    }


def _node(node: Node) -> dict[str, Any]:
    size: dict[str, Any] = {"width": _number(node.width), "height": _number(node.height)}
    if isinstance(node, Cut):
        return {
            **size,
            "line": node.line.value,
            "at": _number(node.at),
            "near": _node(node.near),
            "far": _node(node.far),
        }
    return {**size, "part": node.part, "turned": node.turned} if isinstance(node, Taken) else {**size, "part": None}


def _number(value: Fraction | None) -> dict[str, Any] | None:
    return None if value is None else {"exact": str(value), "decimal": round(float(value), 6)}
