"""For which aircraft a procedure written by hand is, compared aircraft by aircraft."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from procgen.diff.walk import At, make
from procgen.model.effectivity import Registered
from procgen.results.difference import Anchor, Difference, DifferenceClass, DifferenceKind
from procgen.results.page import HoldSite, ProcedurePage

_COMES = "it is now for one more aircraft, which went by another page or by none"
_DERIVED = "for this aircraft the derived procedure counts now"
_NONE = "no page tells this aircraft any more how to do it"


def page_aircraft(
    at: At, was: tuple[HoldSite, ProcedurePage], now: tuple[HoldSite, ProcedurePage]
) -> Iterator[Difference]:
    """Each aircraft of both versions for which a page is now and was not, or was and is not.

    What the fleet's own data say of an aircraft, and which description of the hold it has, is compared apart.
    """
    before, after = _registered(was[0]), _registered(now[0])
    page = now[1]
    for mark, one in after.items():
        # Where aircraft were not told apart, every page was for all of them.
        had = was[1].effectivity is None or was[1].effectivity.covers(before.get(mark, one))
        has = page.effectivity is None or page.effectivity.covers(one)
        if had == has or (before and mark not in before):
            continue
        derived = any(each.generated and each.operation is page.operation for each in now[0].pages)
        lost = (DifferenceClass.CHANGED, _DERIVED) if derived else (DifferenceClass.LOOSENED, _NONE)
        classed, why = (DifferenceClass.LOOSENED, _COMES) if has else lost
        here = at.down("applies-to", mark, was=was[1].effectivity, now=page.effectivity)
        told = make(here, DifferenceKind.CHANGED, classed, why, _for(had), _for(has))
        yield replace(
            told,
            subject=f"procedure {page.name}: for {mark}",
            page=page.name,
            hold=page.hold,
            anchors=(Anchor("procedure", page.name, ""),),
        )


def _for(covered: bool) -> str:
    return "applies" if covered else "does not apply"


def _registered(site: HoldSite) -> Mapping[str, Registered]:
    return {} if site.aircraft_type is None else site.aircraft_type.registrations
