"""What lies on the bench: the newest findings, and the sheets of the newest save that was sound.

Everything is kept in memory under names of our own, so that nothing else of the disk can be asked for.
"""

import asyncio
import hashlib
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from foldproof.preview.task import AT_ONCE, WORKS, Task

PNG, PDF, HTML = "image/png", "application/pdf", "text/html; charset=utf-8"
_SHEETS = ("handout", "shots", "cues")
Ask = Callable[[str, int], None]
"""Ask one of the workers for its work on a save."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """Something that was made, as it is sent."""

    data: bytes
    media: str


@dataclass(slots=True)
class Bench:
    """Changed only by the thread that runs the server."""

    task: Task
    ask: Ask
    number: int = 0
    """Of the newest save."""
    version: int = 0
    """Counts changes of what is told."""
    told: dict[str, Any] = field(default_factory=dict)
    files: dict[str, Made] = field(default_factory=dict)
    _groups: dict[str, list[dict[str, Made]]] = field(default_factory=dict)
    _open: set[str] = field(default_factory=set)
    """What is yet to be done of the newest save."""
    _stirred: asyncio.Event = field(default_factory=asyncio.Event)

    def __post_init__(self) -> None:
        self.told = {
            "number": 0, "file": str(self.task.recipe), "title": self.task.recipe.stem, "count": "", "notes": [],
            "sources": {}, "sound": None, "working": "findings", "trouble": "", "page": "", "laid": "",
            "sheets": {}, "files": [str(self.task.recipe)],
        }

    def saved(self) -> None:
        """There was a save: what is under way for older ones is no longer wanted."""
        self.number += 1
        self._open = set(WORKS)
        self._tell(number=self.number, working="findings", trouble="")
        for work in AT_ONCE:
            self.ask(work, self.number)

    def take(self, number: int, kind: str, result: Any) -> None:
        """Take what a worker made; what belongs to an older save is dropped."""
        if number != self.number:
            return
        match kind:
            case "findings":
                first = self.told["working"] == "findings"
                working = ("page" if first else self.told["working"]) if result["sound"] else ""
                self._tell(**result, working=working)
            case "page":
                self._tell(page=self._keep("page", {"page.html": Made(data=result, media=HTML)})[0],
                           laid=time.strftime("%H:%M:%S"), working="sheets")
            case "sheets":
                self._lay(result)
            case "trouble":
                self._tell(trouble=result)
            case "done":
                self._done(result)

    def _done(self, work: str) -> None:
        self._open.discard(work)
        if work == "page" and self.told["sound"]:
            self.ask("shots", self.number)
        elif work == "page":
            self._open.clear()
        if not self._open:
            self._tell(working="")

    async def after(self, version: int, patience: float) -> None:
        """Wait until more is told than at a version, but no longer than some seconds."""
        if self.version > version:
            return
        try:
            await asyncio.wait_for(self._stirred.wait(), patience)
        except TimeoutError:
            return

    def concerns(self, path: Path, theme: Path) -> bool:
        """Whether a file that changed has to do with the card: named by it, of its recording, or of the theme."""
        known = {Path(file).resolve() for file in (*self.told["files"], self.task.recipe)}
        stem = self.task.recipe.stem
        own = path.parent == self.task.recipe.resolve().parent and path.name.startswith(
            (f"{stem}.times.", f"{stem}.said.")) and not path.name.endswith("~")
        return path in known or own or path.parent == theme or path.suffix.lower() in (".jpg", ".jpeg", ".png")

    @property
    def folders(self) -> frozenset[Path]:
        """The folders in which changes matter."""
        return frozenset(
            parent for file in self.told["files"] if (parent := Path(file).resolve().parent).is_dir())

    def _tell(self, **more: Any) -> None:
        self.told |= more
        self.version += 1
        self._stirred.set()
        self._stirred = asyncio.Event()

    def _lay(self, made: Mapping[str, Any]) -> None:
        """Lay the sheets of a document on the bench."""
        kind = next(kind for kind in _SHEETS if made["name"].startswith(kind))
        pictures = {f"{kind}-{number}.png": Made(data=one["png"], media=PNG)
                    for number, one in enumerate(made["pictures"], start=1)}
        names = self._keep(kind, {made["name"]: Made(data=made["pdf"], media=PDF), **pictures})
        sheets = [{"file": name, "width": one["width"], "height": one["height"]}
                  for name, one in zip(names[1:], made["pictures"], strict=True)]
        self._tell(sheets={**self.told["sheets"], kind: {"pdf": made["name"], "sheets": sheets}})

    def _keep(self, group: str, made: Mapping[str, Made]) -> list[str]:
        """Keep a group of files beside the one before it, which a browser may still be fetching; PDFs by plain name."""
        named = {
            name if one.media == PDF else f"{hashlib.sha256(one.data).hexdigest()[:16]}-{name}": one
            for name, one in made.items()}
        self._groups[group] = [*self._groups.get(group, [])[-1:], named]
        self.files = {name: one for groups in self._groups.values() for files in groups for name, one in files.items()}
        return list(named)
