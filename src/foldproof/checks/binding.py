"""Which number in the words of a step stands for which number of its actions.

A passage's mentions are laid beside the step's parameters in order, by the longest common order, kind by kind. What
is left over is a repeat of a number bound already, a true statement about the card that no action of the step sets, or
a fault.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise

from foldproof.checks.known import Known
from foldproof.checks.mentions import Mention
from foldproof.checks.parameters import Parameter
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind


class Sense(StrEnum):
    """What a mention stands for."""

    PARAMETER = "parameter"
    """A number that an action of the step sets."""
    REPEAT = "repeat"
    """A number that an earlier mention is bound to."""
    CONVERSION = "conversion"
    """The mention before it, in another unit."""
    KNOWN = "known"
    """A size of the card, a sheet or an envelope, which no action of this step sets."""
    LOOSE = "loose"
    """A time, an angle or a count that the step has no number for."""
    UNBOUND = "unbound"
    """Nothing: a fault."""
    OUT_OF_ORDER = "out of order"
    """A number of the step, but not the one whose turn it is: a fault."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A mention and what it stands for."""

    mention: Mention
    sense: Sense
    parameter: Parameter | None = None
    """The one it is bound to; for a fault the nearest that it could have meant."""
    of: Mention | None = None
    """The mention that a conversion converts; for one out of order, the neighbour that it changed places with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """One passage of a step: its title, text, line to speak, tip, or a shot's line."""

    name: str
    bound: tuple[Bound, ...]
    """In order of mention."""
    unsaid: tuple[Parameter, ...]
    """Parameters that no mention stands for, nor one of an equal action just before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepBinding:
    """The passages of one step."""

    step: str
    """The step's id."""
    parameters: tuple[Parameter, ...]
    passages: tuple[Passage, ...]


_CHECKED = (Kind.LENGTH, Kind.ANGLE, Kind.TIME)


def bind(name: str, mentions: Sequence[Mention], parameters: Sequence[Parameter], known: Known) -> Passage:
    """Bind one passage."""
    found: dict[Mention, Bound] = {}
    plain: list[Mention] = []
    for mention in mentions:
        if mention.converts is not None:
            found[mention] = Bound(mention=mention, sense=Sense.CONVERSION, of=mention.converts)
        else:
            plain.append(mention)
    bound_to: set[Parameter] = set()
    for kind in _CHECKED:
        for bound in _bind_kind([m for m in plain if m.kind is kind], [p for p in parameters if p.kind is kind], known):
            found[bound.mention] = bound
            if bound.sense is Sense.PARAMETER and bound.parameter is not None:
                bound_to.add(bound.parameter)
    said = _with_equals(parameters, bound_to)
    return Passage(
        name=name,
        bound=tuple(found[mention] for mention in mentions if mention in found),
        unsaid=tuple(one for one in parameters if one not in said),
    )


def _bind_kind(mentions: list[Mention], parameters: list[Parameter], known: Known) -> Iterator[Bound]:
    aside = known.pairs_in(mentions, parameters)
    yield from (Bound(mention=mention, sense=Sense.KNOWN) for mention in aside)
    mentions = [mention for mention in mentions if mention not in aside]
    matched = common_order(mentions, parameters)
    covered = _with_equals(parameters, {parameters[j] for j in matched.values()})
    for i, mention in enumerate(mentions):
        if i in matched:
            yield Bound(mention=mention, sense=Sense.PARAMETER, parameter=parameters[matched[i]])
            continue
        before = [matched[k] for k in range(i) if k in matched]
        after = [matched[k] for k in range(i + 1, len(mentions)) if k in matched]
        between = range(max(before, default=-1) + 1, min(after, default=len(parameters)))
        open_ = [p for p in parameters if p not in covered]
        gap = [parameters[j] for j in between if parameters[j] in open_]
        unsaid = [parameters[j] for j in between if parameters[j].value and not parameters[j].optional]
        missed = next((p for p in open_ if p.value == mention.value), None)
        if missed is not None:
            yield Bound(mention=mention, sense=Sense.OUT_OF_ORDER, parameter=missed,
                        of=_crossed(mentions, matched, parameters, i, missed))
        elif any(p.value == mention.value for p in parameters) and not any(p.needed for p in gap):
            yield Bound(mention=mention, sense=Sense.REPEAT, parameter=_repeated(mention, parameters, before))
        elif known.explains(mention, open_=bool(unsaid)):
            yield Bound(mention=mention, sense=Sense.KNOWN)
        elif _loose(mention, parameters):
            yield Bound(mention=mention, sense=Sense.LOOSE)
        else:
            meant = _nearest(mention, gap or unsaid or open_ or parameters)
            yield Bound(mention=mention, sense=Sense.UNBOUND, parameter=meant)


def common_order(mentions: Sequence[Mention], parameters: Sequence[Parameter]) -> dict[int, int]:
    """The longest common order of equal values: which mention, by place, goes with which parameter.

    Among equally long ones the one that binds each mention to the earliest parameter, the earliest mention first.
    """
    n, m = len(mentions), len(parameters)
    longest = [[0] * (m + 1) for _ in range(n + 1)]
    for i in range(n - 1, -1, -1):
        for j in range(m - 1, -1, -1):
            if mentions[i].value == parameters[j].value:
                longest[i][j] = longest[i + 1][j + 1] + 1
            else:
                longest[i][j] = max(longest[i + 1][j], longest[i][j + 1])
    matched, i, j = {}, 0, 0
    while i < n and j < m:
        if mentions[i].value == parameters[j].value:
            matched[i] = j
            i, j = i + 1, j + 1
        elif longest[i][j + 1] == longest[i][j]:
            j += 1
        else:
            i += 1
    return matched


def _with_equals(parameters: Sequence[Parameter], bound: set[Parameter]) -> set[Parameter]:
    """The bound parameters, and those of an action that does just what the action before it does.

    `Cut two mats 1 7/8 x 5 1/4 in` says the size of both; `score at 2 1/8, turn, and score again` says both scores.
    """
    said = set(bound)
    groups: dict[int, list[Parameter]] = {}
    for one in parameters:
        if not one.optional:
            groups.setdefault(one.action, []).append(one)
    rows = [groups[action] for action in sorted(groups)]
    neighbours = tuple(pairwise(rows))
    for first, second in (*neighbours, *neighbours[::-1]):
        if [(p.what, p.value) for p in first] != [(p.what, p.value) for p in second]:
            continue
        for a, b in zip(first, second, strict=True):
            if a in said or b in said:
                said |= {a, b}
    return said


def _crossed(
    mentions: list[Mention], matched: dict[int, int], parameters: list[Parameter], at: int, missed: Parameter
) -> Mention | None:
    """The bound neighbour on the wrong side of a mention."""
    turn = parameters.index(missed)
    crossed = [i for i, j in matched.items() if (i < at) != (j < turn)]
    return mentions[min(crossed, key=lambda i: abs(i - at))] if crossed else None


def _loose(mention: Mention, parameters: list[Parameter]) -> bool:
    """Whether the step has no number that the mention could have meant.

    A time is compared with the step's own time only where it says how long something takes.
    """
    if mention.kind is Kind.LENGTH:
        return False
    if mention.kind is Kind.TIME and all(one.optional for one in parameters):
        return not any(word in ("take", "takes", "allow") for word in mention.before.split())
    return not parameters


def _repeated(mention: Mention, parameters: list[Parameter], before: list[int]) -> Parameter:
    """What a repeat repeats: the last one bound before it, else one that is named ahead of its turn."""
    equal = [p for p in parameters if p.value == mention.value]
    earlier = [p for p in equal if parameters.index(p) in before]
    return (earlier or equal)[-1]


def _nearest(mention: Mention, among: Sequence[Parameter]) -> Parameter | None:
    return min(among, key=lambda one: abs(one.value - mention.value), default=None)
