"""Times in a recording: read, written, and as ISO 8601 durations."""

from fractions import Fraction

import isodate
import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.recording.moments import clock, duration, read_moment, seconds_written, subrip, webvtt

MOMENTS = st.integers(0, 359_999_999).map(lambda thousandths: Fraction(thousandths, 1000))


@pytest.mark.parametrize(("written", "seconds"), [
    pytest.param("1:02:03", Fraction(3723), id="hours"),
    pytest.param("2:03", Fraction(123), id="minutes"),
    pytest.param("0:00", Fraction(0), id="start"),
    pytest.param("75:10", Fraction(4510), id="more than an hour in minutes"),
    pytest.param("123", Fraction(123), id="seconds"),
    pytest.param("123 s", Fraction(123), id="seconds with their unit"),
    pytest.param("2:03.5", Fraction(247, 2), id="half a second"),
    pytest.param("1:02:03.25", Fraction(14893, 4), id="hours and a fraction"),
    pytest.param("0.04", Fraction(1, 25), id="one picture at 25 a second"),
])
def test_times_as_people_write_them(written: str, seconds: Fraction) -> None:
    assert read_moment(written) == seconds


@pytest.mark.parametrize(("written", "says"), [
    pytest.param("1:75", "60 or more seconds", id="75 seconds"),
    pytest.param("1:60:00", "60 or more minutes", id="60 minutes"),
    pytest.param("1:5", "one figure after the colon", id="one figure"),
    pytest.param("-1:05", "before the recording begins", id="negative"),
    pytest.param("1:05,5", "write 1:05.5", id="a comma"),
    pytest.param("soon", "is no time", id="a word"),
    pytest.param("1:2:3:4", "is no time", id="four parts"),
    pytest.param("100:00:00", "100 hours or more", id="too long"),
    pytest.param("", "is no time", id="nothing"),
])
def test_what_is_no_time_says_why(written: str, says: str) -> None:
    found = read_moment(written)
    assert isinstance(found, str) and says in found


@given(MOMENTS)
def test_what_is_written_is_read_again(moment: Fraction) -> None:
    assert read_moment(clock(moment)) == int(moment)
    assert read_moment(webvtt(moment)) == moment
    assert read_moment(seconds_written(moment)) == moment
    assert subrip(moment).replace(",", ".") == webvtt(moment)


@given(MOMENTS)
def test_a_duration_is_one_to_a_general_purpose_library(moment: Fraction) -> None:
    """isodate (BSD licence) reads ISO 8601 durations; it knows nothing of this program."""
    assert Fraction(isodate.parse_duration(duration(moment)).total_seconds()).limit_denominator(1000) == moment


@pytest.mark.parametrize(("seconds", "written"), [
    pytest.param(Fraction(45 * 60), "PT45M", id="schema.org's own PT45M"),
    pytest.param(Fraction(90 * 60), "PT1H30M", id="schema.org's own PT1H30M"),
    pytest.param(Fraction(0), "PT0S", id="nothing"),
    pytest.param(Fraction(3723), "PT1H2M3S", id="all three"),
    pytest.param(Fraction(481, 8), "PT1M0.125S", id="an eighth of a second"),
    pytest.param(Fraction(36 * 3600), "PT36H", id="more than a day"),
])
def test_durations(seconds: Fraction, written: str) -> None:
    assert duration(seconds) == written
