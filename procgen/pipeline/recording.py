"""From what was checked to the record of a station's manual."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from procgen import __version__, release
from procgen.disk import packaged
from procgen.load import FLEET_FILE
from procgen.model.station import Station
from procgen.pipeline.building import station_site
from procgen.pipeline.checking import Checked
from procgen.results.page import StationSite
from procgen.results.record import Input, Record


def record_of(checked: Checked, station: Station, known: Record | None = None) -> Record:
    """The record of a station's manual as its files say it now.

    `known` is one that was made before. Where the same version of the program made it by the same rules and
    hazards, the ways out of mishaps and the out-of-service matrices of holds that are equal in all they rest
    on are taken from it: deriving them again takes most of the time and gives the same.
    """
    basis = basis_of(checked, station)
    same = known is not None and (known.made_by, known.rules) == (basis.made_by, basis.rules)
    holds = {one.hold.name: one for one in known.manual.holds} if known is not None and same else {}
    manual = station_site(checked, station, with_recoveries=True, with_matrices=True, known=holds)
    return replace(basis, manual=manual)


def basis_of(checked: Checked, station: Station) -> Record:
    """All that a station's record is made from and by; of the manual, only the station itself."""
    inputs = _inputs(checked, station)
    waived = tuple(one for one in checked.waived if one.finding.place.file in inputs)
    return Record(
        StationSite(checked.network.airline, station, ()), inputs, _rules(), __version__, waived=waived
    )


def _inputs(checked: Checked, station: Station) -> Mapping[str, Input]:
    """Every file that the manual comes from: the fleet's, its holds', its own, the packaged hazard list."""
    known = checked.network.holds
    worked = [known[name] for name in station.holds if name in known]
    # A variant names the hold it stands for: without that file it could not be read again.
    holds = [*worked, *(known[one.variant_of] for one in worked if one.variant_of in known)]
    files = {
        FLEET_FILE,
        station.place.file,
        *(hold.place.file for hold in holds),
        *(procedure.place.file for procedure in station.procedures),
        *(hazard.place.file for hazard in checked.network.hazards.hazards.values()),
    }
    texts = {file: checked.documents[file].text for file in sorted(files)}
    return {file: Input(text, release.sha256(text)) for file, text in texts.items()}


@cache
def _rules() -> str:
    """What the check went by: one hash over the rule pages and the hazard list."""
    texts = {**packaged.rule_pages(), **packaged.data()}
    return release.sha256("".join(f"{name} {release.sha256(texts[name])}\n" for name in sorted(texts)))
