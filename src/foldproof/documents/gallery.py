"""The gallery: `index.html` in the output folder, with every card that stands there.

It is made anew after each build from what is on the disk, written aside and switched in, and so never claims what is
not there. A file of that name that somebody else wrote is left alone.
"""

import secrets
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import quote

from markupsafe import Markup

from foldproof import __version__
from foldproof.bounded import beginning
from foldproof.documents.fonts import page_face_rules
from foldproof.documents.lock import LockedError, held
from foldproof.documents.placing import ASIDE
from foldproof.documents.standing import StandingSet, exact, facts_of, gallery_state, standing_sets
from foldproof.documents.theme import Theme
from foldproof.documents.trouble import PlacingError
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_size

NAME = "index.html"
OURS = '<meta name="generator" content="Foldproof gallery '
"""What a file of ours has near its top; after it the digest of what stood there when it was made."""
_HEAD = 2_000
GROUPS = (
    ("To read", ("page", "paste-in", "opening")),
    ("To print", ("handout", "template")),
    ("To film", ("shots", "cues", "chapters", "captions", "description", "recording")),
    ("For a class", ("class",)),
)
"""Documents by what they are for, and by the first word of their names."""
OTHERS = "For other programs"
_PAPERS = {"a4": "A4", "letter": "letter"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A file to open."""

    href: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A finding as the gallery tells it."""

    severity: str
    name: str
    message: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A card, or a class plan, of the gallery."""

    id: str
    title: str
    size: str
    """The finished size; empty where it is not known."""
    picture: str
    """The address of its picture; empty where there is none."""
    alt: str
    documents: tuple[tuple[str, tuple[Document, ...]], ...]
    """In groups, each with its heading."""
    state: str
    """`2 warnings and 1 advice`, `nothing found`; empty where it is not known."""
    warned: bool
    findings: tuple[Told, ...]
    missing: tuple[str, ...]
    stamp: str


def make_gallery(into: Path, theme: Theme) -> None:
    """Make the gallery of an output folder anew, where anything in it has changed.

    Raises PlacingError where it cannot, or where a file of somebody else stands in its place.
    """
    target = into / NAME
    if not standing_sets(into) and not target.exists():
        return
    try:
        (into / ASIDE).mkdir(parents=True, exist_ok=True)
        with held(into / ASIDE / "lock"):
            sets = standing_sets(into)
            state = gallery_state(sets, theme.name, theme.files)
            before = _before(target)
            if before == state:
                return
            draft = into / ASIDE / f"{NAME}-{secrets.token_hex(6)}.draft"
            draft.write_text(gallery_html(sets, theme, state), encoding="utf-8")
            draft.replace(target)
    except LockedError as error:
        raise PlacingError(str(error)) from error
    except OSError as error:
        raise PlacingError(f"cannot write {target}: {error.strerror or error}") from error


def _before(target: Path) -> str:
    """The digest that the gallery on the disk carries; empty where there is none."""
    if not target.exists() and not target.is_symlink():
        return ""
    head = beginning(target, _HEAD).decode(errors="replace") if target.is_file() and not target.is_symlink() else ""
    if OURS not in head:
        raise PlacingError(
            f"{target} is no gallery of Foldproof, so it was left as it is; move it, or build into another folder")
    return head.split(OURS, 1)[1].split('"')[0].split()[-1]


def gallery_html(sets: tuple[StandingSet, ...], theme: Theme, state: str) -> str:
    """The gallery as text; `state` is the digest that it carries."""
    shown = [_shown(one) for one in sets]
    cards = sorted(
        (one for one, path in zip(shown, sets, strict=True) if "class.json" not in path.files
         or "card.json" in path.files), key=lambda one: (one.title.casefold(), one.id))
    plans = [one for one in sorted(shown, key=lambda one: (one.title.casefold(), one.id)) if one not in cards]
    css = Markup(page_face_rules() + "\n" + theme.style("gallery.css"))
    return theme.render("gallery.html", cards=cards, plans=plans, css=css, version=__version__, state=state)


def _shown(one: StandingSet) -> Shown:
    facts = facts_of(one, "card.json" if "card.json" in one.files else "class.json")
    name = one.path.rsplit("/", 1)[-1]
    picture = next((file for file in ("pictures/preview.jpg", "pictures/preview.png") if file in one.files), "")
    told = facts.get("picture")
    alt = str(told.get("shows", "")) if isinstance(told, dict) else ""
    title = str(facts.get("title") or _plan_title(facts) or name)
    findings = tuple(_findings(facts))
    known = isinstance(facts.get("findings"), list)
    return Shown(
        id=one.path.replace("/", "-"), title=title, size=_size(facts),
        picture=_address(one, picture) if picture else "", alt=alt or f"{title}: the card",
        documents=tuple(_documents(one)), findings=findings, missing=one.missing,
        state=_counted(findings) if known else "",
        warned=any(finding.severity != "advice" for finding in findings), stamp=_stamp(facts))


def _counted(findings: tuple[Told, ...]) -> str:
    """`1 warning and 2 pieces of advice`."""
    words = {"error": ("error", "errors"), "warning": ("warning", "warnings"), "advice": ("advice", "pieces of advice")}
    counts = Counter(finding.severity for finding in findings)
    parts = [f"{counts[kind]} {words[kind][counts[kind] > 1]}" for kind in words if counts[kind]]
    return " and ".join(filter(None, (", ".join(parts[:-1]), parts[-1]))) if parts else "nothing found"


def _plan_title(facts: Mapping[str, Any]) -> str:
    """`Class of 12: tide gate`."""
    cards, people = facts.get("cards"), facts.get("people")
    names = [card.replace("-", " ") for card in cards if isinstance(card, str)] if isinstance(cards, list) else []
    return f"Class of {people}: {', '.join(names)}" if people and names else ""


def _size(facts: Mapping[str, Any]) -> str:
    finished = facts.get("finished")
    size = finished.get("size") if isinstance(finished, dict) else None
    if not isinstance(size, dict) or facts.get("unit") not in set(Unit):
        return ""
    width, height = exact(size.get("width")), exact(size.get("height"))
    return write_size((width, height), Unit(facts["unit"])) if width is not None and height is not None else ""


def _findings(facts: Mapping[str, Any]) -> Iterator[Told]:
    listed = facts.get("findings")
    for one in listed if isinstance(listed, list) else ():
        if isinstance(one, dict) and one.get("severity") in ("error", "warning", "advice"):
            yield Told(severity=one["severity"], name=str(one.get("name", "")), message=str(one.get("message", "")))


def _stamp(facts: Mapping[str, Any]) -> str:
    parts = (f"revision {facts['revision']}" if facts.get("revision") else "", str(facts.get("dated") or ""))
    return ", ".join(filter(None, parts))


def _documents(one: StandingSet) -> Iterator[tuple[str, tuple[Document, ...]]]:
    """The files at the top of a set, by what they are for; its pictures belong to the page."""
    top = [name for name in one.files if "/" not in name and not name.startswith(".")]
    for heading, words in GROUPS:
        found = sorted((name for name in top if _first(name) in words), key=lambda name: (
            words.index(_first(name)), not name.endswith((".html", ".pdf")), len(name), name))
        if found:
            yield heading, tuple(Document(href=_address(one, name), label=_label(name)) for name in found)
    rest = [name for name in top if all(_first(name) not in words for _, words in GROUPS)]
    if rest:
        yield OTHERS, tuple(Document(href=_address(one, name), label=name) for name in rest)


def _first(name: str) -> str:
    stem = name.split(".")[0]
    return "paste-in" if stem.startswith("paste-in") else stem.split("-")[0]


def _label(name: str) -> str:
    """`handout, A4`, `template (SVG)`."""
    stem, _, ending = name.partition(".")
    first = _first(name)
    rest = [_PAPERS.get(word, word) for word in stem.removeprefix(first).strip("-").split("-") if word]
    words = ", ".join(filter(None, (first.replace("paste-in", "to paste into a post"), " ".join(rest))))
    return words if ending in ("html", "pdf") else f"{words} ({ending.upper()})"


def _address(one: StandingSet, name: str) -> str:
    return quote(f"{one.path}/{name}")
