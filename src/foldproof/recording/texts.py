"""Chapters and captions as the text of files: WebVTT (W3C, read as section 4.1) and the common exchange text, SRT."""

from collections.abc import Iterable

from foldproof.recording.captions import Caption
from foldproof.recording.chapters import Chapter
from foldproof.recording.moments import subrip, webvtt


def chapters_webvtt(listed: Iterable[Chapter], note: str) -> str:
    """Chapter cues, one after another, each with its title."""
    cues = (f"{webvtt(chapter.start)} --> {webvtt(chapter.end)}\n{_escaped(chapter.title)}\n" for chapter in listed)
    return "\n".join((_head(note), *cues))


def captions_webvtt(captions: Iterable[Caption], note: str) -> str:
    """Caption cues; `note` stands in a comment at the top."""
    cues = (
        f"{webvtt(one.start)} --> {webvtt(one.end)}\n" + "".join(f"{_escaped(line)}\n" for line in one.lines)
        for one in captions
    )
    return "\n".join((_head(note), *cues))


def captions_srt(captions: Iterable[Caption]) -> str:
    """Numbered captions. The exchange text has no comments: whether they are a draft is in the file's name."""
    blocks = (
        f"{number}\n{subrip(one.start)} --> {subrip(one.end)}\n"
        + "".join(f"{_arrowless(line)}\n" for line in one.lines)
        for number, one in enumerate(captions, start=1)
    )
    return "\n".join(blocks)


def _head(note: str) -> str:
    """The first line, and a comment block."""
    return f"WEBVTT\n\nNOTE\n{_arrowless(note)}\n"


def _escaped(line: str) -> str:
    """Cue text may not hold `&` and `<` as they are, nor `-->`."""
    return line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _arrowless(line: str) -> str:
    return line.replace("-->", "→")
