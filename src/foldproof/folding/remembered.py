"""What was worked out of the same records a moment ago, kept: several stages ask the same of a card."""

from collections import OrderedDict
from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

Work = TypeVar("Work", bound=Callable[..., Any])


def remembered(most: int) -> Callable[[Work], Work]:
    """A pure function of frozen records and names that remembers its last results, at most so many.

    Records are known by identity, which a card's depth makes much cheaper than equality; they are held as long as the
    result is, so that no other can take their place. The result that was asked for longest ago goes first.
    """
    def made(work: Work) -> Work:
        kept: OrderedDict[tuple[int | str, ...], tuple[tuple[object, ...], Any]] = OrderedDict()

        @wraps(work)
        def asked(*records: object) -> Any:
            key = tuple([one if isinstance(one, str) else id(one) for one in records])
            if key in kept:
                kept.move_to_end(key)
            else:
                kept[key] = records, work(*records)
                if len(kept) > most:
                    kept.popitem(last=False)
            return kept[key][1]

        return asked  # type: ignore[return-value]

    return made
