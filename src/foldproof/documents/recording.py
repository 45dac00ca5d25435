"""A recording's documents: its chapters, captions and description, its times beside the steps of the page."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from foldproof.documents.view import FilmTold, InFilm, Step, View
from foldproof.facts.cautions import DEFER
from foldproof.recording.chapters import chapter_lines
from foldproof.recording.film import Film
from foldproof.recording.moments import clock
from foldproof.recording.said import Slip
from foldproof.recording.texts import captions_srt, captions_webvtt, chapters_webvtt

TIMES = "recording.csv"
"""In a set: the times as a file to keep beside the recipe."""
DRAFT = "DRAFT: laid out from the lines that were written, not from what was said. Do not publish it unread."


def with_film(view: View, film: Film) -> View:
    """The same view with the recording's times and corrections beside the steps."""
    recording = film.recording
    steps = []
    for index, step in enumerate(view.steps):
        at = film.begins(index)
        corrections = tuple(correction(slip) for slip in film.slips if slip.step == index)
        if at is None and not corrections:
            steps.append(step)
            continue
        begins, address = ("", "") if at is None else (clock(at), recording.address_at(at))
        steps.append(replace(step, film=InFilm(begins=begins, address=address, corrections=corrections)))
    loose = tuple(correction(slip) for slip in film.slips if slip.step is None)
    told = FilmTold(length=clock(recording.length), address=_start(film), stamp=film.stamp, corrections=loose)
    return replace(view, steps=tuple(steps), film=told)


def film_files(view: View, film: Film) -> Mapping[str, bytes]:
    """The files of a recording by name. Captions that are a draft say so in their names."""
    note = f"{view.title}, {view.stamp}, times {film.stamp}"
    texts = {
        TIMES: film.times,
        "chapters.txt": chapter_lines(film.chapters),
        "chapters.vtt": chapters_webvtt(film.chapters, note),
        "description.txt": description(view, film),
    }
    if film.captions:
        name, told = ("captions-draft", f"{DRAFT}\n{note}") if film.draft else ("captions", note)
        texts |= {f"{name}.vtt": captions_webvtt(film.captions, told), f"{name}.srt": captions_srt(film.captions)}
    return {name: text.encode() for name, text in texts.items()}


def correction(slip: Slip, step: Step | None = None) -> str:
    """One line that puts a slip of the tongue right; beside its step it need not name the step, so that is left out."""
    said = f"At {clock(slip.at)} of the recording, “{slip.written}” is said."
    where = f" in step {step.number}, {step.title}" if step is not None else ""
    if slip.meant is None:
        return f"{said} Nothing{where or ' there'} has that size: go by the measurements."
    return f"{said} It should be {slip.right}, the {slip.meant.what}{where}."


def description(view: View, film: Film) -> str:
    """What stands beside the recording: what it makes, what it takes, its measurements, chapters, corrections."""
    return "\n".join(line.rstrip() for line in _described(view, film)).strip() + "\n"


def _described(view: View, film: Film) -> Iterator[str]:
    yield from (view.title, "", *((view.summary, "") if view.summary else ()))
    if film.slips:
        yield "Corrections"
        for slip in film.slips:
            yield f"- {correction(slip, view.steps[slip.step] if slip.step is not None else None)}"
        yield ""
    yield from (f"{fact.label}: {fact.text}" for fact in view.facts)
    yield from ("", "Papers and supplies")
    yield from (f"- {item.name}{f', {item.note}' if item.note else ''}" for item in (*view.papers, *view.supplies))
    yield from ("", "Tools")
    yield from (f"- {item.name}{f', {item.note}' if item.note else ''}" for item in view.tools)
    if view.basic_tools:
        yield f"- at the desk: {', '.join(view.basic_tools)}"
    yield from ("", "Measurements")
    for cut in view.cuts:
        scores = "".join(f"; {score}" for score in cut.scores)
        yield f"- {', '.join(cut.names)} ({cut.paper}): {cut.count}, {cut.size}{scores}"
    yield from ("", "Chapters", *chapter_lines(film.chapters).splitlines())
    untimed = [f"{step.number} {step.title}" for index, step in enumerate(view.steps) if film.begins(index) is None]
    if untimed:
        yield f"Without a time of their own: {', '.join(untimed)}"
    cautions = dict.fromkeys(caution for step in view.steps for caution in step.cautions)
    if cautions:
        yield from ("", "Take care", *(f"- {caution}" for caution in cautions), DEFER)
    yield from ("", f"{view.title}, {view.stamp}, times {film.stamp}")


def _start(film: Film) -> str:
    """The address of the recording from its start, without a moment where the address has no room for one."""
    address = film.recording.address
    return address.replace("{seconds}", "0")
