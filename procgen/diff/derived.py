"""Differences of what is derived from a hold's data, and which of the data's own differences take them in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, is_dataclass, replace

from procgen.diff.table_reasons import LOADS, gravity
from procgen.diff.texts import compare_texts, unmarked
from procgen.results.difference import Difference
from procgen.results.page import PageStep, PageWarning

_WARNING = re.compile(r"/pages/.*/(?:warnings|marks)/([^/]+)")
_SAID = ("text", "why", "done_when", "if_not", "then", "who", "warnings")


@dataclass(frozen=True, slots=True)
class Derived:
    """A difference of the out-of-service matrix or of the ways out of mishaps.

    `repeats`: it only says in other numbers or other words what differs in the hold's data and procedures.
    `of_limits`: the numbers are what positions may carry.
    """

    difference: Difference
    repeats: bool = False
    of_limits: bool = False


def taken_in(found: Sequence[Difference], derived: Sequence[Derived]) -> list[Difference]:
    """The differences of a hold's data, and those derived ones that say more than they do.

    One that only repeats marks its place by the gravest difference that it can follow from, if that is no
    less grave; where there is none it is told by itself.
    """
    marked = {one.identity: one for one in found}
    alone: list[Difference] = []
    for one in derived:
        told = one.difference
        leads = [lead for lead in found if gravity(lead) <= gravity(told) and _leads(lead, one)]
        if not one.repeats or not leads:
            alone.append(told)
            continue
        lead = min(leads, key=lambda lead: (lead.page != told.page, gravity(lead), lead.identity))
        known = marked[lead.identity]
        marked[lead.identity] = replace(known, anchors=tuple(dict.fromkeys((*known.anchors, *told.anchors))))
    return [*(marked[one.identity] for one in found), *alone]


def _leads(lead: Difference, one: Derived) -> bool:
    return not one.of_limits or lead.identity.split("/")[1] in LOADS | {"tables"}


def warnings_told(found: Sequence[Difference]) -> frozenset[str]:
    """The hazards of which differences of procedures say that their warning went or came."""
    return frozenset(told[1] for one in found if (told := _WARNING.search(one.identity)) is not None)


def texts_of(value: object) -> Iterator[str]:
    """Everything that is said by steps and warnings in words, and every other text as it is."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, PageStep):
        yield from texts_of([getattr(value, name) for name in _SAID])
    elif isinstance(value, PageWarning):
        yield from (value.name, value.signal, value.title, value.hazard, value.consequence, value.avoid)
    elif is_dataclass(value) or isinstance(value, Mapping):
        raise TypeError(f"nobody has said which texts of {type(value).__name__} count")
    elif isinstance(value, Sequence):
        for one in value:
            yield from texts_of(one)


def say_the_same(was: Sequence[str], now: Sequence[str]) -> bool:
    """Whether texts, one by one, mean the same: how amounts are written and what was renamed do not count."""
    if len(was) != len(now):
        return False
    return all(compare_texts(one, other) is None for one, other in zip(was, now, strict=True))


def as_they_stood(texts: Sequence[str]) -> list[str]:
    """The texts without new names read into them."""
    return [str(unmarked(one)) for one in texts]
