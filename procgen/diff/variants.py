"""Which description of a hold each aircraft has, compared; one that got another is told what that means."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from procgen.diagnostics import NOWHERE, Place
from procgen.diff.walk import At, make
from procgen.model.effectivity import Registered
from procgen.model.station import Aircraft
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind
from procgen.results.page import HoldSite, StationSite

Compare = Callable[[HoldSite, HoldSite], Iterator[Difference]]

_WHY = {
    DifferenceClass.LOOSENED: "for this aircraft another description counts, and something in it is looser",
    DifferenceClass.TIGHTENED: "for this aircraft another description counts; all that differs is stricter",
}
_SAME = "for this aircraft another description counts; nothing in it is looser or stricter"
_NONE = "no page tells any more how this hold of this aircraft is worked"
_FIRST = "the page of this hold now applies to one more aircraft"


def other_variants(was: StationSite, now: StationSite, compare: Compare) -> Iterator[Difference]:
    """Each aircraft of both versions whose hold is described by another variant than before.

    It is classed by what `compare` finds between the two descriptions, for that is what changes for whoever
    works this aircraft. Where the aircraft were not told apart before, all had what says nothing of them.
    """
    before, after = _families(was), _families(now)
    for family, holds in after.items():
        old = before.get(family)
        if old is None:
            continue
        for mark, one in _registered(holds).items():
            known = _registered(old)
            if known and mark not in known:
                continue  # the aircraft itself is new: the fleet's data say so
            had = _has(old, known.get(mark, one))
            has = _has(holds, one)
            yield from _told(family, mark, had, has, compare)


def told_apart(at: At, was: Aircraft, now: Aircraft) -> Iterator[Difference]:
    """The aircraft of a type are known by registration for the first time, or no more.

    By itself it changes nothing but what pages say; which description each has is compared apart.
    """
    yield replace(
        make(
            at.down("registrations").of("Aircraft", "registrations"),
            DifferenceKind.CHANGED,
            DifferenceClass.CHANGED,
            "pages say which aircraft they are for"
            if now.registrations
            else "pages name no aircraft any more",
            ", ".join(was.registrations) or "not told apart",
            ", ".join(now.registrations) or "not told apart",
        ),
        subject=f"aircraft {now.name}: registrations",
    )


def _told(
    family: str, mark: str, had: HoldSite | None, has: HoldSite | None, compare: Compare
) -> Iterator[Difference]:
    if (had and had.hold.name) == (has and has.hold.name):
        return
    shown = has or had
    assert shown is not None  # noqa: S101 - not both are None: their names would be equal
    if had is None or has is None:
        classed, why = DifferenceClass.LOOSENED, _FIRST if had is None else _NONE
    else:
        # Under one name, so that what differs is told as of one hold and not as a rename.
        alike = replace(had, hold=replace(had.hold, name=has.hold.name))
        found = {one.classed for one in compare(alike, has)}
        ranked = (DifferenceClass.LOOSENED, DifferenceClass.TIGHTENED)
        classed = next((one for one in ranked if one in found), DifferenceClass.CHANGED)
        why = _WHY.get(classed, _SAME)
    at = At(family, ("applies-to", mark), "Hold", "effectivity", _place(had), _place(has), shown.hold.name)
    told = make(
        at,
        DifferenceKind.CHANGED,
        classed,
        why,
        None if had is None else had.hold.name,
        None if has is None else has.hold.name,
    )
    yield replace(told, subject=f"hold {family}: the description for {mark}")


def _place(site: HoldSite | None) -> Place:
    if site is None:
        return NOWHERE
    stated = site.hold.effectivity
    return site.hold.place if stated is None else stated.place


def _families(site: StationSite) -> Mapping[str, list[HoldSite]]:
    found: dict[str, list[HoldSite]] = {}
    for hold in site.holds:
        found.setdefault(hold.hold.family, []).append(hold)
    return found


def _registered(holds: list[HoldSite]) -> Mapping[str, Registered]:
    aircraft = holds[0].aircraft_type
    return {} if aircraft is None else aircraft.registrations


def _has(holds: list[HoldSite], one: Registered) -> HoldSite | None:
    covers = (hold for hold in holds if hold.hold.effectivity is None or hold.hold.effectivity.covers(one))
    return next(covers, None)
