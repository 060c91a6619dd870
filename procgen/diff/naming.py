"""Renames: a thing with another name is the same thing, throughout.

They are found first and the older version is read with the new names, so that a rename shows once and
everything else is compared as if it had always been called so.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from difflib import SequenceMatcher
from enum import Enum
from typing import Any

from procgen.diagnostics import Place
from procgen.diff.shape import compared_fields, place_of
from procgen.diff.texts import Renamed
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind, Side
from procgen.results.page import HoldSite
from procgen.units import Quantity

_NAMED = ("bays", "doors", "panels", "controls", "drives", "restraints", "zones", "cumulative")
_KEYSTONES = frozenset(
    {"between", "beside", "rectangle", "x", "y", "under", "points", "positions", "base", "height"}
)
"""What makes a thing the one it is: it is never the same one with another of these."""
_ALIKE = 0.7
"""The share of its other fields that a renamed thing keeps at least."""


@dataclass(frozen=True, slots=True)
class Names:
    """Old names and titles with the new ones."""

    keys: Mapping[str, str] = field(default_factory=dict)
    titles: Mapping[str, str] = field(default_factory=dict)

    @property
    def none(self) -> bool:
        """Whether nothing is renamed."""
        return not self.keys and not self.titles


def read_with_new_names(was: HoldSite, now: HoldSite) -> tuple[HoldSite, tuple[Difference, ...]]:
    """The older site of a hold in the newer one's names, and each rename as a difference."""
    found: list[Difference] = []
    if was.hold.name != now.hold.name:
        was = _with(was, Names({was.hold.name: now.hold.name}, {was.hold.name: now.hold.name}))
    for name in (*_NAMED, "unit_types"):
        before, after = _things(was, name), _things(now, name)
        keys = renames(before, after)
        if keys:
            shown = name in ("bays", "unit_types")
            found += [_key_told(now, name, old, new, before, after) for old, new in keys.items()]
            was = _with(was, Names(keys, keys if shown else {}))
    titles: dict[str, str] = {}
    for name in _NAMED:
        before, after = _things(was, name), _things(now, name)
        for key in before.keys() & after.keys():
            old, new = getattr(before[key], "title", ""), getattr(after[key], "title", "")
            if old != new and old and new:
                titles[old] = new
                found.append(_title_told(now, name, key, before[key], after[key]))
    if titles:
        was = _with(was, Names({}, titles))
    return was, tuple(sorted(found, key=lambda one: one.identity))


def renames(before: Mapping[str, Any], after: Mapping[str, Any]) -> dict[str, str]:
    """Which things of one mapping are things of the other under a new name."""
    gone = [name for name in before if name not in after]
    new = [name for name in after if name not in before]
    ranked = sorted(
        (-likeness, -_near(old, name), tuple(sorted((old, name))), old, name)
        for old in gone
        for name in new
        if (likeness := _likeness(before[old], after[name])) >= _ALIKE
    )
    found: dict[str, str] = {}
    for _, _, _, old, name in ranked:
        if old not in found and name not in found.values():
            found[old] = name
    return found


def _near(one: str, other: str) -> float:
    forth, back = SequenceMatcher(None, one, other), SequenceMatcher(None, other, one)
    return forth.ratio() + back.ratio()


def _likeness(was: Any, now: Any) -> float:
    """The share of equal fields among those that say anything; 0 where the two are two things."""
    if type(was) is not type(now):
        return 0.0
    same = said = 0
    for name in compared_fields(now):
        one, other = getattr(was, name), getattr(now, name)
        if name in _KEYSTONES and one != other:
            return 0.0
        if name == "title" or (not one and not other):
            continue
        said += 1
        same += one == other
    return same / said if said else 1.0


def _things(site: HoldSite, name: str) -> Mapping[str, Any]:
    return site.unit_types if name == "unit_types" else getattr(site.hold, name)


def _key_told(
    site: HoldSite, name: str, old: str, new: str, before: Mapping[str, Any], after: Mapping[str, Any]
) -> Difference:
    painted = name in ("bays", "unit_types")
    return _told(
        site,
        f"{site.hold.name}/{name.replace('_', '-')}/{new}/renamed",
        f"{name.replace('_', ' ').removesuffix('s')} {new}: renamed",
        DifferenceClass.CHANGED if painted else DifferenceClass.WORDING,
        Side(old, place_of(before[old], Place("")).key()),
        Side(new, place_of(after[new], Place("")).key()),
        f"{name.replace('_', '-')}:{new}",
    )


def _title_told(site: HoldSite, name: str, key: str, was: Any, now: Any) -> Difference:
    return _told(
        site,
        f"{site.hold.name}/{name}/{key}/title",
        f"{name.removesuffix('s')} {key}: name on the pages",
        DifferenceClass.WORDING,
        Side(was.title, place_of(was, Place(""))),
        Side(now.title, place_of(now, Place(""))),
        f"{name}:{key}",
    )


def _told(
    site: HoldSite, identity: str, subject: str, classed: DifferenceClass, was: Side, now: Side, element: str
) -> Difference:
    return Difference(
        identity=identity,
        kind=DifferenceKind.RENAMED,
        classed=classed,
        subject=subject,
        why="the same thing under another name, throughout",
        was=was,
        now=now,
        hold=site.hold.name,
        anchors=(Anchor("hold", site.hold.name, element),),
    )


def _with(site: HoldSite, names: Names) -> HoldSite:
    """The whole site with the new names."""
    known = {
        thing.title: thing.title
        for name in _NAMED
        for thing in _things(site, name).values()
        if hasattr(thing, "title")
    }
    words = {**known, **names.titles}
    words |= {old[:1].upper() + old[1:]: new[:1].upper() + new[1:] for old, new in words.items()}
    pattern = re.compile(
        "|".join(
            rf"(?<![\w]){re.escape(old)}(?![\w])" if old in known else rf"(?<![\w-]){re.escape(old)}(?!\w)"
            for old in sorted(words, key=len, reverse=True)
        )
    )

    def say(text: str) -> str:
        new = pattern.sub(lambda found: words[found.group()], text)
        return text if new == text else Renamed(new, text)

    return renamed(site, names.keys, say) if words or names.keys else site


def renamed(value: Any, keys: Mapping[str, str], say: Callable[[str], str]) -> Any:
    """A value with names and texts replaced everywhere in it, keys of mappings included."""
    if isinstance(value, Enum | Quantity | Place) or value is None:
        return value
    if isinstance(value, str):
        if value in keys:
            return keys[value]
        return value if value.startswith("<") else say(value)
    if isinstance(value, tuple):
        return tuple(renamed(one, keys, say) for one in value)
    if isinstance(value, frozenset):
        return frozenset(renamed(one, keys, say) for one in value)
    if isinstance(value, Mapping):
        return {renamed(key, keys, say): renamed(one, keys, say) for key, one in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        changes = dict(_changes(value, keys, say))
        return replace(value, **changes) if changes else value
    return value


def _changes(value: Any, keys: Mapping[str, str], say: Callable[[str], str]) -> Iterator[tuple[str, Any]]:
    for one in fields(value):
        if not one.init:
            continue
        was = getattr(value, one.name)
        now = renamed(was, keys, say)
        if now is not was and now != was:
            yield one.name, now
