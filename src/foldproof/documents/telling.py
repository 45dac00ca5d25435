"""A proved card told in words and drawings: the one place where what the documents say is settled."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import partial

from foldproof.checks.words_of_caution import cautions
from foldproof.documents import cutting, glance, prose
from foldproof.documents.days import day_words
from foldproof.documents.film_words import tell_film
from foldproof.documents.kept_side import kept_side
from foldproof.documents.photo_copies import LARGE, SMALL, copy_of
from foldproof.documents.selling import with_sale
from foldproof.documents.view import Correction, Finished, Listed, Photo, Step, View
from foldproof.documents.words import action_words, again_words, time_words
from foldproof.drawing.record import Drawing
from foldproof.filming.plan import plan_film
from foldproof.filming.records import FilmPlan, Shot
from foldproof.folding.card import Card, FlatPose, Pose
from foldproof.making.table import Making, StepMade
from foldproof.making.upright import stands_upright
from foldproof.measures.writing import with_unit, write_size
from foldproof.recipe.actions import Action, Attach
from foldproof.recipe.records import Circle, Recipe, SupplySpec, Text
from foldproof.recipe.references import fill


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The drawings of a card: by the pose's name and by the step's id."""

    poses: Mapping[str, Drawing] = field(default_factory=dict)
    steps: Mapping[str, Drawing] = field(default_factory=dict)
    shots: Mapping[str, Drawing] = field(default_factory=dict)
    """By the shot's key: what the camera sees."""
    tall_steps: Mapping[str, Drawing] = field(default_factory=dict)
    cutting: Drawing | None = None
    tall_cutting: Drawing | None = None
    key: Drawing | None = None
    tall_key: Drawing | None = None
    scale: str = ""
    """Of the drawings of the steps on paper: `1:5`."""


def tell(
    card: Card,
    making: Making,
    *,
    drawn: Drawn,
    film: FilmPlan | None = None,
    photos: Mapping[str, bytes],
    revision: str,
    version: str,
    dated: str = "",
) -> View:
    """Make the view. Photographs come by their path as written; the film is planned where it is not given."""
    recipe = card.recipe
    said = _filler(recipe)
    usual = cautions(card)
    return View(
        name=recipe.name,
        title=str(recipe.title),
        summary=prose.plain(prose.to_html(said(str(recipe.summary)))) if recipe.summary else "",
        language=recipe.language,
        unit=recipe.unit,
        facts=glance.facts(card, making),
        finished=tuple(_finished(card, pose, drawn.poses.get(pose.name)) for pose in _shown(card)),
        cuts=cutting.cuts(card),
        cutting=drawn.cutting,
        tall_cutting=drawn.tall_cutting,
        key=drawn.key,
        tall_key=drawn.tall_key,
        scale=drawn.scale,
        papers=with_sale(cutting.papers(card, making), recipe, dated, said),
        supplies=with_sale((_supply(supply, card) for supply in recipe.supplies), recipe, dated, said),
        tools=tuple(Listed(name=str(tool.name), note="") for tool in recipe.tools if not tool.basic),
        basic_tools=tuple(str(tool.name) for tool in recipe.tools if tool.basic),
        steps=tuple(
            Step(
                number=step.number,
                id=step.spec.id,
                title=str(step.spec.title),
                prose=prose.to_html(said(str(step.spec.text))),
                short=hands(card, step),
                cautions=(*(one.text for one in usual if one.step == step.spec.id), *_own(step, said)),
                tip=prose.to_html(said(str(step.spec.tip))) if step.spec.tip else "",
                time=time_words(step.spec.minutes.value) if step.spec.minutes else "",
                drawing=drawn.steps.get(step.spec.id),
                tall=drawn.tall_steps.get(step.spec.id),
                photo=_photo(
                    step.spec.picture, f"photo-step-{step.number:02d}",
                    str(step.spec.picture_shows or step.spec.title), photos),
                corrections=tuple(
                    Correction(
                        day=str(one.day), when=day_words(str(one.day), recipe.unit),
                        text=prose.to_html(said(str(one.text))))
                    for one in sorted(step.spec.corrections, key=lambda one: str(one.day), reverse=True)),
            )
            for step in making.steps
        ),
        photo=_photo(
            recipe.picture, "photo-card", str(recipe.picture_shows or f"The finished card {recipe.title}"), photos),
        shooting=tell_film(card, film or plan_film(card, making), lambda shot: shot_hands(card, shot), drawn.shots),
        revision=revision,
        version=version,
        dated=dated,
        published=str(recipe.published or ""),
    )


def hands(card: Card, step: StepMade) -> tuple[str, ...]:
    """What hands do in a step, one short instruction for each action; then what it is done again with."""
    again = again_words(step.spec)
    return (*_hands(card, step, step.spec.actions), *((again,) if again else ()))


def shot_hands(card: Card, shot: Shot) -> tuple[str, ...]:
    """What hands do in a shot; in a step's last shot, what it is done again with."""
    if shot.step is None:
        return ()
    once = [done for done in shot.done if done not in shot.step.again]
    again = again_words(shot.step.spec) if once and once[-1] == shot.step.done[-1] else ""
    return (*_hands(card, shot.step, [done.action for done in once]), *((again,) if again else ()))


def _hands(card: Card, step: StepMade, actions: Iterable[Action]) -> tuple[str, ...]:
    bonds = {bond.name: bond.spec for bond in card.bonds}
    piece = str(step.spec.piece) if step.spec.piece else None
    return tuple(
        action_words(
            action, card.recipe.unit, piece=piece, bond=bonds.get(getattr(action, "bond", "")),
            called=partial(cutting.face_called, card), upright=_upright(card, step, action),
            kept=_kept(card, step, action), circle=_circle(card, action))
        for action in actions
    )


def _upright(card: Card, step: StepMade, action: Action) -> bool:
    """Whether what an action attaches stands upright before the maker, however the work lies."""
    if not isinstance(action, Attach) or action.at.turned == "none":
        return False
    done = next((done for done in step.every if done.action is action), None)
    bond = next((bond for bond in card.bonds if bond.name == action.bond), None)
    return done is not None and bond is not None and stands_upright(card, done.after, bond.over.panel)


def _kept(card: Card, step: StepMade, action: Action) -> str:
    done = next((done for done in step.every if done.action is action), None)
    return kept_side(card, done) if done is not None else ""


def _circle(card: Card, action: Action) -> bool:
    piece = card.piece(action.piece) if action.piece else None
    return piece is not None and isinstance(piece.spec.shape, Circle)


def _filler(recipe: Recipe) -> Callable[[str], str]:
    return lambda text: fill(text, recipe)


def _own(step: StepMade, said: Callable[[str], str]) -> tuple[str, ...]:
    """The caution that the author wrote for this step, on one line."""
    return (prose.plain(prose.to_html(said(str(step.spec.caution)))),) if step.spec.caution else ()


def _shown(card: Card) -> tuple[Pose, ...]:
    """The closed card first, then the others as the card opens."""
    closed = [card.closed.name] if card.closed else []
    names = dict.fromkeys([*closed, *map(str, card.recipe.opening), *(pose.name for pose in card.poses)])
    return tuple(pose for name in names if (pose := card.pose(name)) is not None)


def _finished(card: Card, pose: Pose, drawing: Drawing | None) -> Finished:
    unit = card.recipe.unit
    if isinstance(pose, FlatPose):
        size = write_size((pose.width, pose.height), unit)
    else:
        promised = card.recipe.finished.stands
        known = promised is not None and str(promised.pose) == pose.name
        size = f"{with_unit(promised.height.value, unit)} high" if promised and known else ""
    name = pose.name[:1].upper() + pose.name[1:]
    return Finished(pose=pose.name, caption=f"{name}: {size}" if size else name, drawing=drawing)


def _supply(supply: SupplySpec, card: Card) -> Listed:
    length = with_unit(supply.length.value, card.recipe.unit) if supply.length else ""
    kind = supply.kind if supply.kind and supply.kind != str(supply.name) else ""
    amount = str(supply.amount) if supply.amount else ""
    return Listed(name=str(supply.name), note=", ".join(part for part in (kind, amount, length) if part))


def _photo(path: Text | None, name: str, alt: str, photos: Mapping[str, bytes]) -> Photo | None:
    data = photos.get(path.value) if path else None
    if data is None:
        return None
    large, small = copy_of(data, LARGE), copy_of(data, SMALL)
    return Photo(
        name=f"{name}.{large.kind.removeprefix('image/').replace('jpeg', 'jpg')}", data=large.data, kind=large.kind,
        alt=alt, small=small.data, width=large.width, height=large.height)
