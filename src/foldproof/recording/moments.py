"""Times in a recording: read as people write them, written as each kind of file wants them. All in seconds."""

import re
from fractions import Fraction

from foldproof.measures.rounding import decimal, half_even

LONGEST = Fraction(100 * 3600)
"""No recording is as long as this: a hundred hours."""
_CLOCK = re.compile(r"(?:(?P<hours>\d{1,3}):)?(?P<minutes>\d{1,3}):(?P<seconds>\d{1,2}(?:\.\d{1,6})?)")
_SECONDS = re.compile(r"(?P<seconds>\d{1,7}(?:\.\d{1,6})?)(?: ?s)?")


def read_moment(text: str) -> Fraction | str:
    """Read `1:02:03`, `62:03`, `2:03.5` or `123.5`; a reason, as a sentence, where it is no such time."""
    clock, seconds = _CLOCK.fullmatch(text), _SECONDS.fullmatch(text)
    if clock is None and seconds is None:
        return _reason(text)
    if clock is None:
        assert seconds is not None
        moment = Fraction(seconds["seconds"])
    else:
        if len(clock["seconds"].split(".")[0]) != 2:
            return f"`{text}` has one figure after the colon; seconds take two."
        if Fraction(clock["seconds"]) >= 60:
            return f"`{text}` has 60 or more seconds after the colon."
        if clock["hours"] and int(clock["minutes"]) >= 60:
            return f"`{text}` has hours and 60 or more minutes."
        moment = int(clock["hours"] or 0) * 3600 + int(clock["minutes"]) * 60 + Fraction(clock["seconds"])
    return moment if moment < LONGEST else f"`{text}` is 100 hours or more."


def like_a_moment(text: str) -> bool:
    """Whether a word is meant as a time: it begins with a figure and holds figures, colons, stops and commas only."""
    return re.fullmatch(r"-?\d[\d:.,]*(?: ?s)?", text) is not None


def _reason(text: str) -> str:
    if "," in text and not isinstance(read_moment(text.replace(",", ".")), str):
        return f"`{text}` has a comma for its fraction; write {text.replace(',', '.')}."
    if text.startswith("-"):
        return f"`{text}` is before the recording begins."
    return f"`{text}` is no time: write 1:02:03, 2:03 or seconds."


def clock(moment: Fraction) -> str:
    """`1:05`, or `1:02:03` from an hour on; parts of a second are cut off, so that a jump never lands too late."""
    minutes, seconds = divmod(int(moment), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"


def to_millisecond(moment: Fraction) -> Fraction:
    """The nearest thousandth of a second, half to even."""
    return half_even(moment, 3)


def webvtt(moment: Fraction) -> str:
    """`00:01:05.250`: hours, minutes, seconds and three figures (W3C WebVTT, section 4.1)."""
    thousandths = int(to_millisecond(moment) * 1000)
    seconds, thousandths = divmod(thousandths, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{thousandths:03}"


def subrip(moment: Fraction) -> str:
    """`00:01:05,250`: as the common exchange text has it (common practice, no source)."""
    return webvtt(moment).replace(".", ",")


def duration(length: Fraction) -> str:
    """An ISO 8601 duration in hours, minutes and seconds: `PT1H2M3S`, `PT45M`, `PT0S`; to a thousandth of a second."""
    exact = to_millisecond(length)
    minutes, seconds = divmod(exact, 60)
    hours, minutes = divmod(int(minutes), 60)
    written = decimal(seconds, 3).rstrip("0").rstrip(".")
    parts = (f"{hours}H" if hours else "", f"{minutes}M" if minutes else "", f"{written}S" if seconds else "")
    return "PT" + ("".join(parts) or "0S")


def seconds_written(moment: Fraction) -> str:
    """Plain seconds, to a thousandth: `65`, `65.25`."""
    written = decimal(to_millisecond(moment), 3)
    return written.rstrip("0").rstrip(".")
