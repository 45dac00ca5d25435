"""Shots, and the film as a whole, from read fields."""

from collections.abc import Iterable, Iterator

from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Quantity
from foldproof.recipe.desk import Builder, Desk, Fields
from foldproof.recipe.film_records import OFF_CAMERA, BeautySpec, FilmSpec, ShotSpec
from foldproof.recipe.reading_class import whole_numbers
from foldproof.recipe.records import StepSpec
from foldproof.recipe.text import Text


def shot(fields: Fields, name: Text | None, desk: Desk) -> ShotSpec | None:
    """A shot."""
    framing, actions = fields.get("framing", str), fields.get("actions", Quantity)
    say = fields.get("say", Text)
    sound = whole_numbers((("actions", actions),), desk)
    sound = spoken(say, desk) and sound
    return ShotSpec(
        framing=Text(value=framing, place=fields.place) if framing else None,
        seconds=fields.get("seconds", Quantity),
        say=say,
        actions=actions,
        of=fields.get("of", Text),
        inside=fields.several("inside", Text),
        width=fields.get("width", Quantity),
        place=fields.place,
    ) if sound else None


def beauty(fields: Fields, name: Text | None, desk: Desk) -> BeautySpec | None:
    """A shot of the finished card."""
    say = fields.get("say", Text)
    if not spoken(say, desk):
        return None
    return BeautySpec(
        pose=fields.need("pose", Text),
        framing=fields.word("framing") or "front on",
        when=fields.word("when") or "end",
        seconds=fields.get("seconds", Quantity),
        say=say,
        place=fields.place,
    )


def filming(fields: Fields, name: Text | None, desk: Desk) -> FilmSpec | None:
    """The film as a whole."""
    duplicates = fields.get("duplicates", Quantity)
    if not whole_numbers((("duplicates", duplicates),), desk):
        return None
    return FilmSpec(
        bottom=fields.word("bottom") or "maker",
        picture=fields.word("picture") or "wide",
        rate=fields.get("words a minute", Quantity),
        longest_silence=fields.get("longest silence", Quantity),
        duplicates=duplicates,
        beauty=fields.several("beauty", BeautySpec),
        place=fields.place,
    )


def spoken(line: Text | None, desk: Desk) -> bool:
    """Whether a line has words; a finding where it has none."""
    if line is None or any(char.isalnum() for char in line.value):
        return True
    desk.error("nothing to say", "This line has no words.", line.place, "Write what is said, or leave `say` out.")
    return False


def check_shots(steps: Iterable[StepSpec], desk: Desk) -> None:
    """Report inserts of steps that are not there, and shots that take more actions than their step has."""
    known = {step.id: step for step in steps}
    for step in known.values():
        _check_off_camera(step, desk)
        wanted = sum(int(shot.actions.value) for shot in step.shots if shot.actions is not None)
        if wanted > len(step.actions):
            place = next(shot.actions.place for shot in step.shots if shot.actions is not None)
            desk.error(
                "more actions than the step has",
                f"The shots of `{step.title}` take {wanted} actions; the step has {len(step.actions)}.",
                place,
                "Count the lines below `do`.",
            )
        for ref in _inserts(step):
            if ref.value not in known and not desk.broken:
                guess = nearest(ref.value, known)
                desk.error(
                    "insert of a step that is not there",
                    f"No step has the id `{ref}`.",
                    ref.place,
                    f"Did you mean `{guess}`?" if guess else f"Write one of: {', '.join(list(known)[:12])}.",
                )


def _inserts(step: StepSpec) -> Iterator[Text]:
    return (shot.of for shot in step.shots if shot.of is not None)


def _check_off_camera(step: StepSpec, desk: Desk) -> None:
    """A step off camera has no other shots, and nothing is said or timed in it."""
    off = [shot for shot in step.shots if shot.framing is not None and shot.framing.value == OFF_CAMERA]
    if off and (len(step.shots) > 1 or off[0].say is not None or off[0].seconds is not None):
        desk.error(
            "shot of a step off camera",
            f"`{step.title}` is done off camera, so it has no other shot, no line and no seconds of its own.",
            off[0].place,
            "Write `film: off camera` alone, or give it a framing.",
        )


BUILDERS: dict[str, Builder] = {"shot": shot, "beauty shot": beauty, "filming": filming}
