"""What a page says to machines: schema.org HowTo in JSON-LD, and the recording in it. Only what is known is said."""

import json
from collections.abc import Sequence
from fractions import Fraction

from markupsafe import Markup

from foldproof.documents import prose
from foldproof.documents.page import preview_address
from foldproof.documents.view import Listed, Step, View
from foldproof.recipe.records import Recipe
from foldproof.recording.film import Film
from foldproof.recording.moments import duration, seconds_written

Told = dict[str, object]


def structured(view: View, recipe: Recipe, film: Film | None) -> Markup:
    """The text of a script element of the type `application/ld+json`; safe in HTML as it stands."""
    told: Told = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": view.title,
        "inLanguage": view.language,
        **({"description": view.summary} if view.summary else {}),
        **_published(view),
        **_time(recipe),
        "supply": _items("HowToSupply", (*view.papers, *view.supplies)),
        "tool": _items("HowToTool", (*view.tools, *(Listed(name=name, note="") for name in view.basic_tools))),
        "step": [_step(step, film) for step in view.steps],
    }
    if film is not None:
        told["video"] = _video(view, film)
    return Markup(json.dumps(told, ensure_ascii=False, indent=1).replace("<", "\\u003c").replace("&", "\\u0026"))


def _published(view: View) -> Told:
    """Where it stands, its picture, and when it was last corrected, as far as the recipe says."""
    days = [one.day for step in view.steps for one in step.corrections]
    picture = preview_address(view)
    return {
        **({"url": view.published} if view.published else {}),
        **({"image": picture} if picture else {}),
        **({"dateModified": max(days)} if days else {}),
    }


def _time(recipe: Recipe) -> Told:
    """The whole time, where every step gives its own."""
    given = [step.minutes.value for step in recipe.steps if step.minutes is not None]
    return {"totalTime": duration(sum(given, Fraction(0)))} if given and len(given) == len(recipe.steps) else {}


def _items(kind: str, listed: Sequence[Listed]) -> list[Told]:
    return [
        {
            "@type": kind,
            "name": one.name,
            **({"description": one.note} if one.note else {}),
            **({"url": one.link} if one.link else {}),
        }
        for one in listed
    ]


def _step(step: Step, film: Film | None) -> Told:
    told: Told = {
        "@type": "HowToStep",
        "position": step.number,
        "name": step.title,
        "text": prose.plain(step.prose),
        "url": f"#{step.id}",
    }
    if film is not None and film.begins(step.number - 1) is not None:
        told["video"] = {"@id": _clip_id(film, step.number - 1)}
    return told


def _clip_id(film: Film, step: int) -> str:
    return f"#clip-{next(number for number, chapter in enumerate(film.chapters, start=1) if chapter.step == step)}"


def _video(view: View, film: Film) -> Told:
    address = film.recording.address.replace("{seconds}", "0")
    return {
        "@type": "VideoObject",
        "name": view.title,
        **({"description": view.summary} if view.summary else {}),
        "inLanguage": view.language,
        "duration": duration(film.recording.length),
        **({"url": address} if address else {}),
        "hasPart": _clips(film),
    }


def _clips(film: Film) -> list[Told]:
    """The chapters. A step's has its end only where that is known."""
    clips: list[Told] = []
    for number, chapter in enumerate(film.chapters, start=1):
        end = chapter.end if chapter.step is None else film.ends(chapter.step)
        clips.append(
            {
                "@type": "Clip",
                "@id": f"#clip-{number}",
                "name": chapter.title,
                "startOffset": _offset(chapter.start),
                **({"endOffset": _offset(end)} if end is not None else {}),
                **({"url": film.recording.address_at(chapter.start)} if film.recording.address else {}),
            }
        )
    return clips


def _offset(moment: Fraction) -> int | float:
    """Seconds as a JSON number, to a thousandth."""
    written = seconds_written(moment)
    return float(written) if "." in written else int(written)
