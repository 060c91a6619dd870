"""The recovery guides of a hold's pages: the ways out found once for each procedure, in words."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from procgen.model.station import Network, Station
from procgen.pipeline.checking import CheckedProcedure
from procgen.pipeline.recovering import recoveries
from procgen.results.page import HoldSite, RecoveryGuide
from procgen.write import recovery_guide

_MADE: dict[str, RecoveryGuide] = {}
_MOST = 32
"""How many guides are kept. Two stations with one hold, and the two sides of a comparison, share them."""


def guides(
    network: Network, station: Station, site: HoldSite, procedures: Sequence[CheckedProcedure]
) -> tuple[RecoveryGuide, ...]:
    """For every page of a hold what to do when something goes wrong at a step.

    `procedures` are those of the site's pages, simulated. One with a finding has no guide: what it leads to
    is not known.
    """
    return tuple(
        _guide(network, station, site, index, checked)
        for index, checked in enumerate(procedures)
        if not checked.trace.findings
    )


def _guide(
    network: Network, station: Station, site: HoldSite, index: int, checked: CheckedProcedure
) -> RecoveryGuide:
    """One guide. It follows from what it is asked of, and from nothing else, so it is made once."""
    asked = (
        site.hold,
        site.limits,
        checked.procedure,
        site.pages[index],
        network.unit_types,
        network.hazards,
        station.mass_unit,
    )
    key = hashlib.sha256(repr(asked).encode("utf-8", "surrogateescape")).hexdigest()
    if key not in _MADE:
        made = _made(network, station, site, index, checked)
        while len(_MADE) >= _MOST:
            del _MADE[next(iter(_MADE))]
        _MADE[key] = made
    return _MADE[key]


def _made(
    network: Network, station: Station, site: HoldSite, index: int, checked: CheckedProcedure
) -> RecoveryGuide:
    cases = recoveries(checked.hold, network.unit_types, network.hazards, checked.procedure, checked.trace)
    return recovery_guide(
        checked.procedure,
        site.pages[index],
        cases,
        site.hold,
        network.unit_types,
        network.hazards,
        site.limits,
        mass_unit=station.mass_unit,
    )
