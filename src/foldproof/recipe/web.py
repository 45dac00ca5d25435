"""Words of a recipe that must be an address on the web or a day of the calendar."""

import re
from datetime import date
from ipaddress import ip_address
from urllib.parse import SplitResult, urlsplit

Fault = tuple[str, str, str]
"""A finding's name, what is wrong, and what would mend it."""

LONGEST = 1_000
"""Characters of an address; there are none so long that a person would write."""
FIRST_YEAR, LAST_YEAR = 1990, 2199
_PLAIN = re.compile(r"[A-Za-z0-9!#$%&'()*+,./:;=?@_~\[\]-]+")
"""What an address is written with (RFC 3986)."""
_HOST = re.compile(r"(?:[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z](?:[a-z0-9-]*[a-z0-9])", re.IGNORECASE)
_EXAMPLE = "Write it as the browser shows it: https://example.org/cards/tide-gate.html"


def address_fault(written: str) -> Fault | None:
    """What keeps words from being an address that a reader anywhere can follow; None when they are one."""
    shown = written if len(written) <= 60 else f"{written[:57]}..."
    if len(written) > LONGEST:
        return "no web address", f"`{shown}` has {len(written):,} characters; {LONGEST:,} are the most.", _EXAMPLE
    try:
        parts = urlsplit(written)
        host, port = parts.hostname or "", parts.port
    except ValueError:
        return "no web address", f"`{shown}` is no address of the web.", _EXAMPLE
    why = _why_not(written, parts, host, port)
    return ("no web address", f"`{shown}` is no address that a reader can follow: {why}.", _EXAMPLE) if why else None


def _why_not(written: str, parts: SplitResult, host: str, port: int | None) -> str:
    if parts.scheme.lower() not in ("http", "https") or not parts.netloc:
        return "it does not start with https:// or http://"
    if not _PLAIN.fullmatch(written):
        return "it has a blank or a sign in it that addresses are not written with"
    if "@" in parts.netloc:
        return "it has a name or a password in it"
    if _is_number(host):
        return "it names a computer by its number"
    if not _HOST.fullmatch(host) or port == 0:
        return f"`{host}` is no name of a place on the web" if host else "it names no place on the web"
    if host.lower().endswith((".local", ".localhost", ".internal", ".invalid", ".test")):
        return f"`{host}` is known on your own computer or network only"
    return ""


def _is_number(host: str) -> bool:
    try:
        ip_address(host)
    except ValueError:
        return bool(re.fullmatch(r"[\d.]+", host))
    return True


def page_fault(written: str) -> Fault | None:
    """The same for the address of a page: it may not point at a spot in one."""
    fault = address_fault(written)
    if fault is None and "#" in written:
        return (
            "no web address", f"`{written}` points at a spot in a page (#).",
            f"Write the page's own address: {written.split('#')[0]}")
    return fault


def day_fault(written: str) -> Fault | None:
    """What keeps words from being a day; None when they are one."""
    try:
        day = date.fromisoformat(written) if re.fullmatch(r"\d{4}-\d\d-\d\d", written) else None
    except ValueError:
        day = None
    if day is None or not FIRST_YEAR <= day.year <= LAST_YEAR:
        return (
            "no date", f"`{written[:40]}` is no day that can be meant: year, month and day, with hyphens.",
            "Write it like 2026-03-01.")
    return None
