"""The files of a recording: where they are found, and that a build never loses what came of them.

`foldproof film` names them. `build` and `check` take those that stand beside the recipe under its name:
`NAME.times.csv` or `NAME.times.txt`, and `NAME.said.vtt` or `NAME.said.srt`. So what comes of a recipe and the files
beside it is the same whichever command made it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from foldproof.findings.finding import Finding, Severity

if TYPE_CHECKING:
    from foldproof.folding.card import Card
    from foldproof.recording.film import Film

_TIMES = (".times.csv", ".times.txt")
_SAID = (".said.vtt", ".said.srt")


@dataclass(frozen=True, slots=True, kw_only=True)
class Filmed:
    """The files of a recording."""

    times: Path
    said: Path | None
    kept: bool
    """Whether they are kept beside the recipe rather than named on the command line."""


def beside(recipe: Path) -> Filmed | None:
    """The files that are kept beside a recipe; None where there are no times."""
    times = _first(recipe, _TIMES) if recipe.name else None
    return Filmed(times=times, said=_first(recipe, _SAID), kept=True) if times is not None else None


def may_stand_beside(recipe: Path) -> tuple[Path, ...]:
    """Every file beside a recipe that would be taken for one of its recording, whether it is there or not."""
    return tuple(recipe.parent / f"{recipe.stem}{ending}" for ending in (*_TIMES, *_SAID))


def read_film(
    card: "Card", filmed: Filmed, lines: Sequence[Sequence[str]]
) -> tuple["Film | None", tuple[Finding, ...], Mapping[str, str]]:
    """What comes of a recording, what is wrong with its files, and their texts by name."""
    from foldproof.recipe.opening import read_source
    from foldproof.recording.film import Written, make_film

    findings: tuple[Finding, ...] = ()
    sources: dict[str, str] = {}
    read: list[Written | None] = []
    for path, what in ((filmed.times, "a times file"), (filmed.said, "a caption file")):
        if path is None:
            read.append(None)
            continue
        text, faults = _outside(path, what) if filmed.kept and _leads_out(path) else read_source(path, str(path), what)
        findings = (*findings, *faults)
        if text is not None:
            sources[str(path)] = text
        read.append(Written(file=str(path), text=text) if text is not None else None)
    times, said = read
    if times is None:
        return None, findings, sources
    film, found = make_film(card, times, said, lines, kept=filmed.kept)
    return (film if not findings else None), (*findings, *found), sources


def _leads_out(path: Path) -> bool:
    """Whether a file that is taken without being named is a link to one outside its folder."""
    try:
        return not path.resolve().is_relative_to(path.parent.resolve())
    except (OSError, RuntimeError):
        return True


def _outside(path: Path, what: str) -> tuple[None, tuple[Finding, ...]]:
    finding = Finding(
        name=f"{what.removeprefix('a ')} elsewhere", severity=Severity.ERROR,
        message=f"{path} is a link that leads out of the recipe's folder.",
        mend="Put the file itself beside the recipe, or name it: foldproof film RECIPE FILE.")
    return None, (finding,)


def refuse_to_lose(recipe: Path, target: Path) -> None:
    """Raise PlacingError where the set that stands at the target has a recording that a build knows nothing of."""
    from foldproof.bounded import read_json
    from foldproof.documents.placing import CONTENTS
    from foldproof.documents.recording import TIMES
    from foldproof.documents.trouble import PlacingError

    try:
        listed = read_json(target / CONTENTS)
    except (OSError, ValueError):
        return
    if isinstance(listed, list) and TIMES in listed and (target / TIMES).is_file():
        keep = recipe.with_name(f"{recipe.stem}{_TIMES[0]}")
        raise PlacingError(
            f"{target} holds the chapters and captions of a recording, and a build without its times would lose them. "
            f"Copy {target / TIMES} to {keep} (and what was said to {recipe.stem}{_SAID[0]}), then build again; or run "
            f"foldproof film again; or remove {target} to go without"
        )


def _first(recipe: Path, endings: Sequence[str]) -> Path | None:
    paths = (recipe.parent / f"{recipe.stem}{ending}" for ending in endings)
    return next((path for path in paths if path.is_file()), None)
