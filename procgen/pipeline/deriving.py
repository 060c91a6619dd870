"""What a station would publish with other inputs: the same stages, over texts instead of a folder."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from functools import lru_cache

from procgen.diagnostics import Severity
from procgen.disk import packaged
from procgen.load import load_network
from procgen.load.files import HAZARDS_FILE, HAZARDS_PLACE
from procgen.pipeline.building import station_site
from procgen.pipeline.checking import check
from procgen.results.page import StationSite
from procgen.source import read_document

_STATION = "station.yaml"
_HOLDS = "fleet/holds/"


def derive_site(files: Mapping[str, str], holds: Collection[str] | None = None) -> StationSite | None:
    """What the files of one station publish, of some holds or of all; None where they cannot be read.

    The packaged hazard list stands in for one that the files do not bring. Files go by what they call
    themselves, so that a renamed station or hold is found under its new name.
    """
    named = {_own_name(file, text): text for file, text in files.items()}
    return _derived(tuple(sorted(named.items())), None if holds is None else frozenset(holds))


@lru_cache(maxsize=32)
def _derived(files: tuple[tuple[str, str], ...], holds: frozenset[str] | None) -> StationSite | None:
    texts = dict(files)
    hazards = texts.pop(HAZARDS_PLACE, None)
    data = packaged.data() if hazards is None else {**packaged.data(), HAZARDS_FILE: hazards}
    loaded = load_network(texts, data, packaged.schemas())
    if any(finding.severity is Severity.ERROR for finding in loaded.findings):
        return None
    stations = list(loaded.network.stations.values())
    if len(stations) != 1:
        return None
    worked = tuple(name for name in stations[0].holds if holds is None or name in holds)
    procedures = tuple(one for one in stations[0].procedures if one.hold in worked)
    station = replace(stations[0], holds=worked, procedures=procedures)
    network = replace(
        loaded.network,
        holds={name: hold for name, hold in loaded.network.holds.items() if name in worked},
        stations={station.code: station},
    )
    checked = check(replace(loaded, network=network, procedures={}))
    site = station_site(checked, station)
    return replace(site, station=stations[0])


def _own_name(file: str, text: str) -> str:
    """The path under which a file belongs by what it calls itself."""
    folder, _, rest = file.partition("/")
    if rest == _STATION:
        return f"{_called(file, text, 'station') or folder}/{_STATION}"
    if file.startswith(_HOLDS):
        name = _called(file, text, "hold")
        return f"{_HOLDS}{name}.yaml" if name else file
    return file


def _called(file: str, text: str, key: str) -> str:
    data = read_document(file, text)[0].data
    named = data.get(key) if isinstance(data, dict) else None
    return named if isinstance(named, str) else ""
