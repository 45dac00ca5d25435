"""A real browser for tests, which asks nothing of the world.

Debian's chromium drives it (`apt install chromium`), with playwright from the test extra. Where one is missing the
tests say so and are skipped, but never where CI is set.
"""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-dev-shm-usage",
)
OWN = ("127.0.0.1", "localhost")


def _missing() -> str:
    try:
        import playwright.sync_api  # noqa: F401
    except ImportError:
        return "playwright is missing: pip install '.[test]'"
    return "" if Path(CHROMIUM).exists() else "chromium is missing: apt install chromium"


needs_browser = pytest.mark.skipif(
    not os.environ.get("CI") and bool(_missing()), reason=_missing() or "there is a browser")


@contextmanager
def a_browser() -> "Iterator[Browser]":
    """A browser that is closed at the end."""
    if missing := _missing():
        pytest.fail(missing)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        try:
            yield browser
        finally:
            browser.close()


class Outside(list[str]):
    """The addresses off this machine that a page asked for; none is let through."""

    def watch(self, page: "Page") -> None:
        page.route("**/*", self._look)

    def _look(self, route: "Route") -> None:
        asked = urlsplit(route.request.url)
        if asked.scheme in ("file", "data", "blob", "about") or asked.hostname in OWN:
            route.continue_()
        else:
            self.append(route.request.url)
            route.abort()
