"""One recipe built when all is warm, and the bare libraries at the same work: what `speed.py` runs in a fresh process.

    PYTHONPATH=src python tests/bench/bare.py recipes/tide-gate.yaml

The figures are the same artists on the same kind of matplotlib figure, made and saved once more, as lines and, those
that are pictures of dots, as such, with nothing of ours round them. The sheets are the same HTML with the same fonts,
printed once more by WeasyPrint, and in them the figures as bare matplotlib writes them.
"""

import io
import json
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any
from unittest import mock

from foldproof.documents import preview_picture
from foldproof.documents.hush import hushed
from foldproof.drawing import dots, ink
from foldproof.drawing.record import PLAIN
from foldproof.pipeline import build
from foldproof.shell import seldom_collected


def timed(work: Callable[[], Any]) -> float:
    """Processor seconds of the second of two runs, or of the quicker of the second and the third."""
    took = []
    for _ in range(3):
        begun = time.process_time()
        work()
        took.append(time.process_time() - begun)
    return min(took[1:])


def main(recipe: Path) -> None:
    """Build the recipe, note what it asks of the libraries, and ask the same of them alone."""
    import weasyprint
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    drawn: list[tuple[Any, Any]] = []
    dotted: list[tuple[Any, float, Any]] = []
    printed: list[tuple[dict[str, Any], dict[str, Any]]] = []
    untidied: dict[bytes, bytes] = {}
    bare_ink = ink._tidied
    html: Any = weasyprint.HTML

    class Noted(html):  # type: ignore[misc]
        def __init__(self, **given: Any) -> None:
            super().__init__(**given)
            self.given = given

        def write_pdf(self, **given: Any) -> Any:
            printed.append((self.given, given))
            return super().write_pdf(**given)

    def tidied(svg: str, scene: Any, style: Any) -> str:
        drawn.append((scene, style))
        ours = bare_ink(svg, scene, style)
        untidied[ours.encode()] = svg.encode()
        return ours

    class Untidied(URLFetcher):  # type: ignore[misc]
        """Gives out a drawing as bare matplotlib wrote it, and all else as it is asked for."""

        def __init__(self, ours: Any) -> None:
            super().__init__()
            self.ours = ours

        def fetch(self, url: str, headers: object = None) -> Any:
            found = self.ours.fetch(url, headers)
            data = found.read()
            return URLFetcherResponse(url, untidied.get(data, data), {"Content-Type": found.content_type})

    bare_dots = dots.picture_of

    def picture_of(scene: Any, dots_per_mm: float, style: Any = PLAIN) -> Any:
        dotted.append((scene, dots_per_mm, style))
        return bare_dots(scene, dots_per_mm, style)

    with tempfile.TemporaryDirectory() as made:
        def once() -> None:
            ink.to_svg.cache_clear()  # warm libraries, and nothing inked before
            assert build(recipe, Path(made)).folder is not None

        peaks = []
        with (mock.patch.object(ink, "_tidied", tidied), mock.patch.object(weasyprint, "HTML", Noted),
              mock.patch.object(dots, "picture_of", picture_of),
              mock.patch.object(preview_picture, "picture_of", picture_of)):
            once()
        peaks.append(peak())
        once()
        peaks.append(peak())
        took = timed(once)
        peaks.append(peak())

    def figures() -> None:
        ink.to_svg.cache_clear()
        with mock.patch.object(ink, "_tidied", lambda svg, scene, style: svg):
            for scene, style in drawn:
                ink.to_svg(scene, style)
        for scene, dots_per_mm, style in dotted:
            with ink.inked(scene, style, dotted=False) as figure:
                figure.savefig(io.BytesIO(), format="png", dpi=dots_per_mm * 25.4)

    def sheets() -> None:
        for given, how in printed:
            html(**{**given, "url_fetcher": Untidied(given["url_fetcher"])}).write_pdf(**how)

    with hushed():
        print_times = {"build": took, "figures": timed(figures), "sheets": timed(sheets), "peak": peaks}
    print(json.dumps(print_times))


def peak() -> float:
    """The most memory that this process has held, in MB (Linux tells kilobytes)."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    seldom_collected()
    main(Path(sys.argv[1]))
