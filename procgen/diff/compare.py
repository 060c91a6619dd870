"""Two versions of a station's manual compared: everything that is published, hold by hold."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import fields, replace
from typing import Any

from procgen.diff.cells import candidates_differ, compare_tables
from procgen.diff.derived import taken_in, warnings_told
from procgen.diff.guides import compare_guides
from procgen.diff.hold_orders import orders_of_holds
from procgen.diff.hold_tables import compare_hold_tables
from procgen.diff.merging import merged
from procgen.diff.naming import read_with_new_names
from procgen.diff.out_of_service import compare_matrices
from procgen.diff.procedures import compare_pages
from procgen.diff.procedures_of_hold import compare_procedures, words_for_things
from procgen.diff.station_data import of_station
from procgen.diff.table_reasons import following
from procgen.diff.variants import other_variants, told_apart
from procgen.diff.walk import At, Handler, came_or_went, fields_of, make, orders, walk
from procgen.model.station import Station
from procgen.results.difference import (
    Anchor,
    Comparison,
    Difference,
    DifferenceClass,
    DifferenceKind,
    Version,
)
from procgen.results.limits import LimitTable
from procgen.results.page import HoldSite, ProcedurePage, StationSite

_DRAWN = frozenset({"diagram", "diagrams", "symbols", "legend"})
_BY_AIRCRAFT = frozenset({"effectivity", "variant_of"})
"""What says which aircraft have a hold: compared aircraft by aircraft."""


def compare(was: Version, now: Version) -> Comparison:
    """All that differs between two versions, the gravest first; without causes."""
    return Comparison(was, now, differences(was.site, now.site, same_hold=bool(was.hold and now.hold)))


def differences(was: StationSite, now: StationSite, *, same_hold: bool = False) -> tuple[Difference, ...]:
    """All that differs between what two stations, or one station at two times, publish.

    `same_hold`: the only hold of each is compared with the other's, whatever they are called.
    """
    found = list(_station(was, now))
    pairs, gone, new = _paired(was, now)
    if same_hold:
        pairs, gone, new = list(zip(was.holds, now.holds, strict=True)), [], []
    at = At("station", ("holds",), "StationSite", "holds")
    for hold in gone:
        told = came_or_went(at.down(hold.hold.name), hold.hold, None)
        found.append(replace(told, was=_titled(told, hold), subject=f"hold {hold.hold.name}"))
    for hold in new:
        told = came_or_went(at.down(hold.hold.name), None, hold.hold)
        anchors = (*told.anchors, *_every_page(hold))
        found.append(
            replace(told, now=_titled(told, hold), subject=f"hold {hold.hold.name}", anchors=anchors)
        )
    if not gone and not new:
        found += orders(at, [one.hold.name for one, _ in pairs], [one.hold.name for one in now.holds])
    for before, after in pairs:
        found += _hold(before, after)
    if not same_hold:
        found += other_variants(was, now, _hold)
    return tuple(sorted(merged(found or orders_of_holds(was, now)), key=_gravity))


def difference_hash(comparison: Comparison) -> str:
    """What an approval of all differences binds to: the rules in force and every difference, not its cause.

    SHA-256, in hexadecimal digits. It changes with anything a reviewer was shown of what was and what is.
    """
    return _hash(comparison.now.rule_set, sorted(_told(one) for one in comparison.differences))


def seal(difference: Difference, rule_set: str) -> str:
    """What the acceptance of one difference binds to: the rules in force and what it was given to."""
    return _hash(rule_set, [_told(difference)])[:16]


def _told(one: Difference) -> list[str]:
    """What a reviewer is shown of a difference; no text is told apart from an empty one."""
    sides = [f"={side.text}" if side else "" for side in (one.was, one.now)]
    return [one.identity, one.kind.value, one.classed.value, *sides]


def _hash(rule_set: str, told: list[list[str]]) -> str:
    data = {"rule_set": rule_set, "differences": told}
    text = json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()


def _every_page(hold: HoldSite) -> Iterator[Anchor]:
    """The page of a hold and those of its procedures, each as a whole."""
    yield Anchor("hold", hold.hold.name, "")
    yield from (Anchor("procedure", page.name, "") for page in hold.pages)


def _titled(told: Difference, hold: HoldSite) -> Any:
    side = told.was or told.now
    return None if side is None else replace(side, text=hold.hold.title)


def _station(was: StationSite, now: StationSite) -> Iterator[Difference]:
    at = At("station")
    handlers: Mapping[type, Handler] = {Station: of_station}
    yield from fields_of(at, was, now, handlers, frozenset({"holds", "aircraft"}))


def _paired(
    was: StationSite, now: StationSite
) -> tuple[list[tuple[HoldSite, HoldSite]], list[HoldSite], list[HoldSite]]:
    """Which hold is which: by name; a lone hold left on each side is the same one if it has the same bays."""
    before = {one.hold.name: one for one in was.holds}
    after = {one.hold.name: one for one in now.holds}
    pairs = [(before[name], one) for name, one in after.items() if name in before]
    gone = [one for name, one in before.items() if name not in after]
    new = [one for name, one in after.items() if name not in before]
    for one in list(gone):
        same = [other for other in new if dict(other.hold.bays) == dict(one.hold.bays)]
        if len(same) == 1:
            pairs.append((one, same[0]))
            gone.remove(one)
            new.remove(same[0])
    return pairs, gone, new


def _hold(was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    if was is now or _same_objects(was, now):
        return
    name = now.hold.name
    if was.hold.name != name:
        told = make(
            At(name, ("renamed",), hold=name),
            DifferenceKind.RENAMED,
            DifferenceClass.CHANGED,
            "the same hold under another name",
            was.hold.name,
            name,
        )
        yield replace(told, subject=f"hold {name}: renamed")
    was, renames = read_with_new_names(was, now)
    at = At(name, (), "HoldSite", "", was.hold.place, now.hold.place, name)
    found = list(fields_of(at, was.hold, now.hold, {}, _BY_AIRCRAFT))
    found += _fleet_data(at, was, now)
    explained = bool(found)
    found += compare_tables(at.down("limits"), was.limits, now.limits)
    found += compare_procedures(at, was, now)
    tables = list(compare_hold_tables(at, was.tables, now.tables))
    warned = warnings_told(found)
    derived = [
        *compare_guides(at.down("recoveries"), was, now, warned),
        *compare_matrices(at.down("out-of-service"), was, now, warned),
    ]
    # Every other text and drawing follows from what was compared by now.
    if not explained and not renames:
        found += _unexplained(at, was, now)
        found += tables or _other_words(at, was, now)
        found += _more(at, was, now)
        if not found and not derived:
            found += _drawings(at, was, now)
    else:
        found = following([*renames, *found], tables)
    yield from taken_in(found, derived)


def _other_words(at: At, was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    """Tables that have the same numbers and say something else of them."""
    if replace(was.tables, charts={}) != replace(now.tables, charts={}):
        why = "the same numbers in the tables, told otherwise"
        here, kind = at.down("tables"), DifferenceKind.CHANGED
        yield make(here, kind, DifferenceClass.WORDING, why, "tables", "other words in them")


def _same_objects(was: HoldSite, now: HoldSite) -> bool:
    """Whether both sites were made of the very same parts: then there is nothing to compare."""
    return all(getattr(was, field.name) is getattr(now, field.name) for field in fields(now) if field.compare)


def _fleet_data(at: At, was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    """What the fleet says of the unit types, contours and aircraft that a hold's tables rest on."""
    for field in ("unit_types", "contours"):
        here = at.down(field.replace("_", "-")).of("HoldSite", field)
        yield from walk(here, getattr(was, field), getattr(now, field), {})
    before, after = was.aircraft_type, now.aircraft_type
    if before is not None and after is not None:
        here = at.down("aircraft", after.name, was=before, now=after)
        apart = bool(before.registrations), bool(after.registrations)
        if apart[0] != apart[1]:
            yield from told_apart(here, before, after)
            yield from fields_of(here, before, after, {}, frozenset({"registrations", "configurations"}))
        else:
            yield from fields_of(here, before, after, {})


def _unexplained(at: At, was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    """Candidates that differ though no data do: the reckoning is another."""
    for position, unit_type in candidates_differ(was.limits, now.limits):
        yield replace(
            make(
                at.down("limits", position, unit_type, "candidates"),
                DifferenceKind.CHANGED,
                DifferenceClass.LOOSENED,
                "what limits it is reckoned otherwise, and nothing says which way",
                "the same limit",
                "other candidates behind it",
            ),
            subject=f"position {position}: {unit_type} at most",
            anchors=(Anchor("hold", at.hold, f"limit:{position}.{unit_type}"),),
        )


def _more(at: At, was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    """Whatever else a site shows of a hold: compared field by field, procedures and tables by meaning."""
    names = words_for_things(now)

    def pages(here: At, one: ProcedurePage, other: ProcedurePage) -> Iterator[Difference]:
        yield from compare_pages(here, one, other, names)

    def tables(here: At, one: LimitTable, other: LimitTable) -> Iterator[Difference]:
        yield from compare_tables(here, one, other)

    handlers: Mapping[type, Handler] = {ProcedurePage: pages, LimitTable: tables}
    done = {"hold", "limits", "pages", "unit_types", "contours", "aircraft", "aircraft_type"}
    done |= {"recoveries", "out_of_service", "tables", *_DRAWN}
    for field in fields(now):
        one, other = getattr(was, field.name), getattr(now, field.name)
        if field.name in done or not field.compare or _is_drawing(one) or _is_drawing(other):
            continue
        here = at.down(field.name.replace("_", "-")).of("HoldSite", field.name)
        yield from walk(here, one, other, handlers)


def _is_drawing(value: object) -> bool:
    return isinstance(value, str) and value.lstrip().startswith("<")


def _drawings(at: At, was: HoldSite, now: HoldSite) -> Iterator[Difference]:
    """Drawings that differ though nothing that they show does."""
    for field in fields(now):
        one, other = getattr(was, field.name), getattr(now, field.name)
        if one != other and (field.name in _DRAWN or _is_drawing(other)):
            yield make(
                at.down(field.name.replace("_", "-")),
                DifferenceKind.CHANGED,
                DifferenceClass.WORDING,
                "the same things drawn otherwise",
                "drawing",
                "another drawing",
            )


def _gravity(one: Difference) -> tuple[int, str]:
    return list(DifferenceClass).index(one.classed), one.identity


def owes(classed: DifferenceClass, *, approved: bool) -> bool:
    """Whether a difference that nobody accepted owes something, the whole being approved or not."""
    if classed is DifferenceClass.LOOSENED:
        return True
    return classed is not DifferenceClass.WORDING and not approved
