"""What is compared again and again while causes are looked for: a site in data and words, and parts of it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from procgen.results.page import HoldSite, StationSite


def bare(site: StationSite) -> StationSite:
    """A site in data and words only."""
    return replace(site, holds=tuple(_bare(one) for one in site.holds))


def _bare(hold: HoldSite) -> HoldSite:
    return HoldSite(
        hold=hold.hold,
        aircraft=hold.aircraft,
        diagram="",
        limits=hold.limits,
        pages=hold.pages,
        diagrams={},
        why_no_page=hold.why_no_page,
        unit_types=hold.unit_types,
        aircraft_type=hold.aircraft_type,
        contours=hold.contours,
    )


def only(site: StationSite, holds: Collection[str] | None) -> StationSite:
    """Some holds of a site, or all where no names are given."""
    if holds is None:
        return site
    return replace(site, holds=tuple(one for one in site.holds if one.hold.name in holds))
