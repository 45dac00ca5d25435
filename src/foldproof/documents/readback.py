"""The audit: finished documents are read again, and what they say is held against the view and against each other.

Every step must have its title, its words, its picture and exactly its numbers, in the handout on each paper, on the
page, and in the shot list on paper and as a table. A build that disagrees with itself fails.
"""

import csv
import io
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from html.parser import HTMLParser

from foldproof.documents.film_view import FilmShot
from foldproof.documents.handout import Handout
from foldproof.documents.handout_kinds import REGULAR, Edition
from foldproof.documents.numerals import numbers
from foldproof.documents.paste_in import NOT_IN_A_POST, PASTE_IN, UPLOADS
from foldproof.documents.pdf_marks import Marks, marks_of
from foldproof.documents.pdf_text import Said, Told, opened, read_pdf
from foldproof.documents.prose import plain
from foldproof.documents.view import Step, View
from foldproof.drawing.record import LEAST_LINE_PT
from foldproof.measures.quantity import Unit
from foldproof.measures.spotted import Sense
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.writing import write_number


def audit(view: View, files: Mapping[str, bytes], handouts: Iterable[Handout] = ()) -> tuple[str, ...]:
    """What the files of a set say wrongly; empty when all agree. Each problem names the file.

    A handout is held against its own view, which has the drawings of its edition; one that is not named, against the
    other documents'.
    """
    problems = []
    known = {one.file: one for one in handouts}
    for name in sorted(name for name in files if name.startswith("handout")):
        pdf, one = opened(files[name]), known.get(name)
        told = read_pdf(pdf)
        found = audit_handout(one.view, told, one.edition) if one else audit_handout(view, told)
        problems += [f"{name}: {problem}" for problem in found]
        least = one.edition.least_pt if one else REGULAR.least_pt
        problems += [f"{name}: {problem}" for problem in too_small(marks_of(pdf), least)]
    problems += [f"{name}: is missing" for name in known if name not in files]
    problems += [f"page.html: {problem}" for problem in _audit_page(view, files["page.html"].decode())]
    if PASTE_IN in files:
        problems += [f"{PASTE_IN}: {problem}" for problem in _audit_paste_in(view, files)]
    problems += [f"shots.pdf: {problem}" for problem in _audit_shots_pdf(view, read_pdf(files["shots.pdf"]))]
    problems += [f"cues.pdf: {problem}" for problem in _audit_cues(view, read_pdf(files["cues.pdf"]))]
    problems += [f"shots.csv: {problem}" for problem in _audit_csv(view, files["shots.csv"].decode())]
    return tuple(problems)


def too_small(sheets: Sequence[Marks], least_pt: float) -> Iterator[str]:
    """Text and lines that are too small to be read on paper, or that run off it."""
    for number, sheet in enumerate(sheets, start=1):
        smallest = min((size for size, _, _ in sheet.letters), default=least_pt)
        if smallest < least_pt - 0.02:
            yield f"sheet {number} has text of {smallest:.2f} pt, less than {least_pt:.2f} pt"
        thinnest = min((stroke.line for stroke in sheet.strokes), default=LEAST_LINE_PT)
        if thinnest < LEAST_LINE_PT - 0.001:
            yield f"sheet {number} has a line of {thinnest:.2f} pt, less than {LEAST_LINE_PT:g} pt"
        off = [1 for _, x, y in sheet.letters if not (0 <= x <= sheet.width and 0 <= y <= sheet.height)]
        off += [1 for one in sheet.strokes
                if min(one.left, one.bottom) < 0 or one.right > sheet.width or one.top > sheet.height]
        if off:
            yield f"sheet {number} has {len(off)} marks outside the paper"


def squeezed(text: str) -> str:
    """Text without its blanks: where a line breaks is no difference."""
    return "".join(text.split())


def words_of(step: Step) -> tuple[str, ...]:
    """Everything that the handout and the page say in a step, in plain text."""
    tip = (plain(step.tip),) if step.tip else ()
    time = (step.time,) if step.time else ()
    return (step.title, plain(step.prose), *step.cautions, *step.short, *step.care, *step.handwork, *tip, *time)


def audit_handout(view: View, told: Told, edition: Edition = REGULAR) -> Iterator[str]:
    """What a handout says wrongly; the view's drawings are those of its edition."""
    yield from _audit_pdf(view, told)
    yield from _missing(_front(view), told.text)
    for drawing in view.drawings:
        if drawing.alt not in told.figures:
            yield f"the drawing {drawing.name} is missing"
    parts = _by_heading(view, told.said)
    yield from _audit_steps(
        view, {id: "\n".join(part.text for part in said if part.tag != "Figure") for id, said in parts.items()},
        check_words)
    yield from _apart(view, parts, most=edition.sheets_a_step)


def _apart(view: View, parts: Mapping[str, Sequence[Said]], most: int) -> Iterator[str]:
    """Steps whose words and picture are on more sheets than they may be, or whose picture stands with another step."""
    for step in view.steps:
        sheets = sorted({part.sheet for part in parts[step.id]})
        if len(sheets) > most:
            yield f"step {step.number}: it is split over the sheets {', '.join(map(str, sheets))}"
        if step.drawing and step.drawing.alt not in [part.text for part in parts[step.id] if part.tag == "Figure"]:
            yield f"step {step.number}: its picture does not stand with it"


def _audit_pdf(view: View, told: Told) -> Iterator[str]:
    """What every PDF must have."""
    for font in told.loose_fonts:
        yield f"the font {font} is not embedded"
    for number, sheet in enumerate(told.sheets, start=1):
        if squeezed(view.stamp) not in squeezed(sheet):
            yield f"sheet {number} does not carry the {view.stamp}"
    if view.title not in told.title or not told.language:
        yield "it does not name its title and its language"


def _by_heading(view: View, said: Sequence[Said]) -> Mapping[str, Sequence[Said]]:
    """What a handout has from each step's heading on, by the step's id; a heading of the second rank ends the steps."""
    starts, at = [], 0
    for step in view.steps:
        wanted = squeezed(f"{step.number}{step.title}")
        at = next((i for i in range(at, len(said)) if _is_heading(said[i], wanted)), len(said))
        starts.append(at)
        at += 1
    last = starts[-1] if starts else 0
    ends = [*starts[1:], next((i for i in range(last + 1, len(said)) if said[i].tag == "H2"), len(said))]
    return {step.id: said[start:end] for step, start, end in zip(view.steps, starts, ends, strict=True)}


def _is_heading(part: Said, wanted: str) -> bool:
    return part.tag.startswith("H") and squeezed(part.text).startswith(wanted)


def _audit_paste_in(view: View, files: Mapping[str, bytes]) -> Iterator[str]:
    """What the page says, and nothing that a post cannot hold; every file that it names is there and in its list."""
    text, listed = files[PASTE_IN].decode(), files[UPLOADS].decode().split()
    page = _read_page(text)
    yield from _audit_read(view, page, prefix=f"{view.name}-")
    for tag in sorted(page.tags & NOT_IN_A_POST):
        yield f"it has <{tag}>, which a post cannot hold"
    for name in dict.fromkeys(page.named):
        if name not in files or name not in listed:
            yield f"it shows {name}, which is not in the set or not in {UPLOADS}"


def _read_page(text: str) -> "_Page":
    page = _Page()
    page.feed(text)
    page.close()
    return page


def _audit_page(view: View, text: str) -> Iterator[str]:
    return _audit_read(view, _read_page(text))


def _audit_read(view: View, page: "_Page", prefix: str = "") -> Iterator[str]:
    """`prefix` stands before the ids of the steps."""
    whole = "".join(page.everything)
    yield from _missing((*_front(view), view.stamp), whole)
    for drawing in view.page_drawings:
        if drawing.alt not in page.pictures:
            yield f"the drawing {drawing.name} is missing"
    offers = [text for item in (*view.papers, *view.supplies) for text in (item.offer, item.link and item.name)]
    yield from _missing([text for text in offers if text], whole)
    texts = {step.id: "".join(page.by_id.get(prefix + step.id, ())) for step in view.steps}
    yield from _audit_steps(view, texts, page_words)
    if view.film is not None:
        yield from _missing((view.film.length, view.film.stamp, *view.film.corrections), whole)


def page_words(step: Step) -> tuple[str, ...]:
    """What the page says beside of a step: its time in the recording, what is said wrongly, what was corrected."""
    filmed = () if step.film is None else (step.film.begins, *step.film.corrections)
    return (*filmed, *(words for one in step.corrections for words in (one.when, plain(one.text))))


def check_words(step: Step) -> tuple[str, ...]:
    """What the handout says beside of a step: what to check before the first glue."""
    return () if step.check is None else (step.check.ask, step.check.mend)


def _no_more(_: Step) -> tuple[str, ...]:
    return ()


def _audit_steps(
    view: View, texts: Mapping[str, str], more: Callable[[Step], tuple[str, ...]] = _no_more
) -> Iterator[str]:
    for step in view.steps:
        words = (str(step.number), *words_of(step), *more(step))
        yield from (f"step {step.number}: {problem}" for problem in _missing(words, texts[step.id]))
        yield from (f"step {step.number}: {problem}" for problem in _numbers_differ(words, texts[step.id]))


def _audit_shots_pdf(view: View, told: Told) -> Iterator[str]:
    """The rows stand in filming order; the list before them in story order."""
    yield from _audit_pdf(view, told)
    shots = view.shooting.filming
    yield from _missing([line for shot in shots for line in (shot.key, *shot.hands)], told.text)
    cells = squeezed(told.text)
    keys = [squeezed(shot.key) for shot in shots]
    starts = [cells.find(key) for key in keys]
    if starts != sorted(starts):
        yield "its shots stand in another order"
    for drawing in view.shooting.drawings:
        if drawing.alt not in told.figures:
            yield f"the drawing {drawing.name} is missing"
    for shot in shots:
        row = _row(told.said, shot.key, keys)
        wanted = (shot.width, *shot.table, *shot.ready, *shot.hands, shot.say, shot.framing)
        problems = (*_missing((shot.width, shot.say, *shot.cautions), row), *_numbers_missing(wanted, row))
        if problems:
            yield f"shot {shot.key}: {problems[0]}"


def _audit_cues(view: View, told: Told) -> Iterator[str]:
    """Every line to speak stands whole, in filming order, and says the numbers that its author wrote."""
    yield from _audit_pdf(view, told)
    text, at = squeezed(told.text).casefold(), 0
    for shot in view.shooting.filming:
        for words in (shot.say, *shot.cautions):
            found = text.find(squeezed(words).casefold(), at)
            if found < 0:
                yield f"shot {shot.key}: “{words}” is missing or out of order"
            at = max(at, found)
        yield from (f"shot {shot.key}: {problem}" for problem in said_otherwise(shot, view.unit))


def said_otherwise(shot: FilmShot, unit: Unit) -> Iterator[str]:
    """Where the numbers of a line, read out of what is spoken, are not those of the line as it was written."""
    written = [number for number in spot_numbers(shot.line) if number.sense is Sense.LENGTH]
    if any("." in number.written.rstrip(".") for number in written):
        return  # a decimal that is spelled out is not read again
    spoken = [number.amount(unit) for number in spot_numbers(shot.say) if number.sense is Sense.LENGTH]
    if [number.amount(unit) for number in written] != spoken:
        yield f"“{shot.say}” says other lengths than “{shot.line}”"


def _row(said: Sequence[Said], key: str, keys: Sequence[str]) -> str:
    """What stands in the row of a shot: from its key to the next one."""
    at = next((i for i, part in enumerate(said) if squeezed(part.text) == squeezed(key)), len(said))
    end = next((i for i in range(at + 1, len(said)) if squeezed(said[i].text) in keys), len(said))
    return "\n".join(part.text for part in said[at + 1:end] if part.tag != "Figure")


def _audit_csv(view: View, text: str) -> Iterator[str]:
    rows = {row["shot"]: row for row in csv.DictReader(io.StringIO(text, newline=""))}
    keys = [shot.key for shot in view.shooting.shots]
    if list(rows) != keys:
        yield f"its shots are {', '.join(rows)}, not {', '.join(keys)}"
        return
    for shot in view.shooting.shots:
        row = rows[shot.key]
        columns = (
            ("hands", shot.hands), ("on the table", shot.table), ("say", (shot.say,)), ("frame width", (shot.width,)),
            ("at the end", shot.after), ("before it", shot.ready))
        for column, wanted in columns:
            yield from (f"shot {shot.key}: {problem}" for problem in _numbers_differ(wanted, row[column]))
            yield from (f"shot {shot.key}: {problem}" for problem in _missing(wanted, row[column]))
        if row["title"].lstrip("'") != shot.title.lstrip("'") or row["revision"] != view.stamp:
            yield f"shot {shot.key}: the title or the revision differs"
        if row["filmed as"] != str(shot.place) or row["set-up"] != shot.setup:
            yield f"shot {shot.key}: its place in the filming order differs"


def _front(view: View) -> tuple[str, ...]:
    """What stands before and after the steps in the handout and on the page."""
    facts = [text for fact in view.facts for text in (fact.label, fact.text)]
    cuts = [text for cut in view.cuts for text in (*cut.names, cut.paper, cut.size, *cut.scores)]
    things = [text for item in (*view.papers, *view.supplies, *view.tools) for text in (item.name, item.note)]
    captions = [shown.caption for shown in view.finished if shown.drawing]
    wrong = [text for one in view.troubles for text in (one.seen, *one.causes, one.helps)]
    return (view.title, view.summary, view.hands, *wrong, *facts, *cuts, *things, *captions, *view.basic_tools)


def _missing(wanted: Sequence[str], text: str) -> Iterator[str]:
    """Texts that cannot be found, blanks and the by-sign aside."""
    within = squeezed(text).replace("×", "x").casefold()
    for words in wanted:
        if squeezed(words).replace("×", "x").casefold() not in within:
            yield f"“{words}” is missing"


def _numbers_differ(wanted: Sequence[str], text: str) -> Iterator[str]:
    """Numbers that are too many or too few, whatever their order: a theme may set the parts of a step as it likes."""
    expected = Counter(number for words in wanted for number in numbers(words))
    found = Counter(numbers(text))
    yield from _said(found - expected, "it says {} that the card does not")
    yield from _said(expected - found, "it does not say {}")


def _numbers_missing(wanted: Sequence[str], text: str) -> Iterator[str]:
    expected = Counter(number for words in wanted for number in numbers(words))
    yield from _said(expected - Counter(numbers(text)), "it does not say {}")


def _said(count: Counter[Fraction], how: str) -> Iterator[str]:
    if count:
        yield how.format(", ".join(write_number(number) for number in sorted(count.elements())))


class _Page(HTMLParser):
    """The page as a reader meets it: text by the step it stands in, pictures by their names; not drawings' words."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.everything: list[str] = []
        self.pictures: list[str] = []
        self.by_id: dict[str, list[str]] = {}
        self.tags: set[str] = set()
        self.named: list[str] = []
        """The files that it shows or leads to, as they are written."""
        self._open: list[tuple[str, str, bool]] = []
        """Tags that stand open, each with its id, and whether it hides what it holds."""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        self.tags.add(tag)
        hides = "hidden" in named or tag in ("template", "dialog") or (tag == "details" and "open" not in named)
        self.named += [
            name for key in ("src", "href")
            if (name := named.get(key) or "") and not name.startswith(("#", "http:", "https:", "mailto:"))]
        if hides or any(hidden for _, _, hidden in self._open):
            pass
        elif tag == "svg":
            self.pictures.append(named.get("aria-label") or "")
        elif tag == "img":
            self.pictures.append(named.get("alt") or "")
        if tag not in ("meta", "img", "br", "hr", "link", "input"):
            self._open.append((tag, named.get("id") or "", hides))

    def handle_endtag(self, tag: str) -> None:
        while self._open:
            if self._open.pop()[0] == tag:
                break
        if tag in ("p", "li", "td", "th", "h1", "h2", "h3", "dt", "dd", "div"):
            self._say("\n")

    def handle_data(self, data: str) -> None:
        if not any(hides or tag in ("svg", "style", "script", "title") for tag, _, hides in self._open):
            self._say(data)

    def _say(self, text: str) -> None:
        self.everything.append(text)
        for _, name, _ in self._open:
            if name:
                self.by_id.setdefault(name, []).append(text)
