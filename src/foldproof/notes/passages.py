"""Notes cut into passages: headings, items of lists, rows of tables, paragraphs; the marks of Markdown taken off."""

import re

from foldproof.notes.records import Passage, Section

_SECTIONS = (
    (Section.SUPPLIES, r"suppl|material|need|ingredient|shopping|tools?\b|stuff"),
    (Section.PARTS, r"^cut|cutting|pieces|parts|measurements|sizes|cut list"),
    (Section.STEPS, r"steps?\b|direction|instruction|method|how to|making|assembl|putting"),
)
_ITEM = re.compile(r"\s*(?:[-*+•]\s+|\(?\d{1,2}[.)]\s+|(?:step|no\.?)\s*\d{1,2}\s*[:.)-]\s*)", re.IGNORECASE)
_BOLD_ITEM = re.compile(
    r"\s*\*\*\s*(?:\(?\d{1,2}[.)]|step \d{1,2}\W?)?\s*(?P<title>[^*]+?)\s*\*\*\s*(?P<rest>.*)",
    re.IGNORECASE)
_HEADING = re.compile(r"\s{0,3}(?P<marks>#{1,6})\s+(?P<words>.+?)\s*#*\s*$")
_LABEL = re.compile(r"(?P<label>[A-Za-z][A-Za-z '-]{0,40}?)\s*(?::|\s[-–—]\s|=)\s+(?P<rest>\S.*)")
_SHORT = 60


def passages(text: str) -> tuple[str, tuple[Passage, ...]]:
    """The title of notes (empty where there is none) and their passages in order."""
    title, section, found = "", Section.OTHER, list[Passage]()
    shown = "".join(sign if sign.isprintable() or sign == "\n" else " " for sign in text.replace("\r\n", "\n"))
    lines = shown.split("\n")
    open_lines: list[str] = []
    opened = 0

    def close() -> None:
        if open_lines:
            found.append(_passage(" ".join(open_lines), opened, section))
            open_lines.clear()

    for number, raw in enumerate(lines, start=1):
        line = raw.strip()
        heading, bold = _HEADING.match(raw), _BOLD_ITEM.match(raw)
        follows = lines[number].strip() if number < len(lines) else ""
        if not line or set(line) <= set("-=_* ") or (line.startswith("|") and set(line) <= set("|-: ")):
            close()
        elif heading:
            close()
            words = plain(heading["words"])
            if not title and not found:
                title = words
            section = _section(words, Section.OTHER)
        elif line.startswith("|"):
            close()
            if not (follows.startswith("|") and set(follows) <= set("|-: ")):  # the row above the rule is its head
                found.append(_row(line, number))
        elif bold and (bold["rest"] or number > 1) and not open_lines:
            close()
            opened = number
            head = plain(bold["title"]).rstrip(".:")
            if not bold["rest"]:
                section = _section(head, section)
            elif not bold["title"].rstrip().endswith(":"):
                found.append(_passage(bold["rest"], number, Section.STEPS, head))
            else:
                found.append(_passage(f"{head}: {bold['rest']}", number, section))
        elif not title and not found and not open_lines and _titles(line, follows):
            title = plain(line).rstrip(".:")
        elif line.endswith(":") and len(line) < _SHORT:
            close()
            section = _section(line, section)
        else:
            item = _ITEM.match(raw)
            if item or (open_lines and len(open_lines[-1]) < _SHORT and open_lines[-1][-1] not in ".!?,;:"):
                close()
            if not open_lines:
                opened = number
            words = raw[item.end() :].strip() if item else line
            if words:  # a number on a line of its own is told by the next
                open_lines.append(words)
    close()
    return title, tuple(found)


def _titles(line: str, follows: str) -> bool:
    """Whether a first line is a title: short, no sentence, and a blank line after it."""
    return len(line) <= _SHORT and line[-1] not in ".!?," and not follows and not line.casefold().startswith("dear")


def _section(words: str, otherwise: Section) -> Section:
    plain_words = words.casefold()
    return next((section for section, pattern in _SECTIONS if re.search(pattern, plain_words)), otherwise)


def _passage(text: str, line: int, section: Section, title: str = "") -> Passage:
    words = plain(text)
    label = _LABEL.fullmatch(words)
    if label and len(label["label"].split()) <= 4 and not title:
        named = _section(label["label"], section) if len(label["rest"]) > _SHORT / 2 else section
        return Passage(text=label["rest"], line=line, section=named, label=label["label"])
    return Passage(text=words, line=line, section=section, title=title)


def _row(line: str, number: int) -> Passage:
    cells = [plain(cell) for cell in line.strip("|").split("|")]
    sized = [cell for cell in cells[1:] if cell and not cell.isdigit()]
    return Passage(text=", ".join(sized), line=number, section=Section.PARTS, label=cells[0])


def plain(markdown: str) -> str:
    """Words without the marks of Markdown, their spaces single."""
    words = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", markdown)
    words = re.sub(r"(\*\*|__|`)", "", words)
    words = re.sub(r"(?<!\w)[*_](\S[^*_]*)[*_](?!\w)", r"\1", words)
    return " ".join(words.split())
