"""The demonstration's sites, made by the whole chain, for the tests of publishing."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from procgen.disk import packaged
from procgen.pipeline.building import station_site
from procgen.pipeline.checking import Checked, check
from procgen.results.page import HoldSite, StationSite
from tests.support import demo

WITH_RECOVERIES = "N4T"
"""The station whose sites here have them and matrices: at the other they take long to find."""


@cache
def checked() -> Checked:
    """The demonstration, checked."""
    return check(demo())


@cache
def site(code: str) -> StationSite:
    """What one station's site shows; with the ways out of mishaps at the one whose holds are soon done."""
    station = checked().network.stations[code]
    whole = code == WITH_RECOVERIES
    return station_site(checked(), station, with_recoveries=whole, with_matrices=whole)


@cache
def sites() -> tuple[StationSite, ...]:
    """Every station."""
    return tuple(site(code) for code in checked().network.stations)


def hold_site(code: str, hold: str) -> HoldSite:
    """One hold of one station."""
    return next(found for found in site(code).holds if found.hold.name == hold)


@cache
def templates() -> Mapping[str, str]:
    """The templates of the checkout, by file name."""
    return {path.name: path.read_text("utf-8") for path in sorted(packaged.templates().iterdir())}
