"""What a station would publish with other inputs: the same stages, over texts instead of a folder."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import lru_cache

from procgen.diagnostics import Severity
from procgen.disk import packaged
from procgen.load import Loaded, load_network
from procgen.load.files import HAZARDS_FILE, HAZARDS_PLACE
from procgen.model.hold import Hold
from procgen.model.station import Station
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.pipeline.building import bare_hold_site
from procgen.pipeline.checking import Checked, CheckedProcedure, derive
from procgen.results.page import StationSite
from procgen.results.plan import NoPlan
from procgen.results.state import state_at_rest
from procgen.results.trace import Trace
from procgen.source import read_document

_STATION = "station.yaml"
_HOLDS = "fleet/holds/"


def derive_site(files: Mapping[str, str], holds: Collection[str] | None = None) -> StationSite | None:
    """What the files of one station publish, of some holds or of all; None where they cannot be read.

    In data and words only: without drawings, and without the tables that follow from what is there. The
    packaged hazard list stands in for one that the files do not bring. Files go by what they call
    themselves, so that a renamed station or hold is found under its new name.
    """
    codes = {
        file.partition("/")[0]: _called(file, text, "station")
        for file, text in files.items()
        if file.partition("/")[2] == _STATION
    }
    named = {_own_name(file, text, codes): text for file, text in files.items()}
    return _derived(tuple(sorted(named.items())), None if holds is None else frozenset(holds))


@lru_cache(maxsize=32)
def _derived(files: tuple[tuple[str, str], ...], holds: frozenset[str] | None) -> StationSite | None:
    texts = dict(files)
    hazards = texts.pop(HAZARDS_PLACE, None)
    data = packaged.data() if hazards is None else {**packaged.data(), HAZARDS_FILE: hazards}
    loaded = load_network(texts, data, packaged.schemas())
    if any(finding.severity is Severity.ERROR for finding in loaded.findings):
        return None
    network = loaded.network
    if len(network.stations) != 1:
        return None
    (station,) = network.stations.values()
    worked = tuple(
        name for name in station.holds if name in network.holds and (holds is None or name in holds)
    )
    checked = _unchecked(loaded, station, worked)
    return StationSite(
        network.airline, station, tuple(bare_hold_site(checked, station, name) for name in worked)
    )


def _unchecked(loaded: Loaded, station: Station, worked: Collection[str]) -> Checked:
    """The procedures of some holds, neither simulated nor looked through."""
    network = loaded.network
    generated: dict[tuple[str, Operation], CheckedProcedure] = {}
    no_plans: dict[tuple[str, Operation], NoPlan] = {}
    for name in worked:
        for operation in Operation:
            outcome = derive(network, network.holds[name], operation)
            if isinstance(outcome, NoPlan):
                no_plans[name, operation] = outcome
            else:
                generated[name, operation] = _unseen(outcome, network.holds[name])
    written = tuple(_unseen(one, network.holds[one.hold]) for one in station.procedures if one.hold in worked)
    return Checked(network, loaded.documents, (), generated, no_plans, {station.code: written})


def _unseen(procedure: Procedure, hold: Hold) -> CheckedProcedure:
    return CheckedProcedure(procedure, hold, Trace((), state_at_rest(hold), ()), ())


def _own_name(file: str, text: str, codes: Mapping[str, str]) -> str:
    """The path under which a file belongs by what it, or the station of its folder, calls itself."""
    folder, _, rest = file.partition("/")
    if codes.get(folder):
        return f"{codes[folder]}/{rest}"
    if file.startswith(_HOLDS):
        name = _called(file, text, "hold")
        return f"{_HOLDS}{name}.yaml" if name else file
    return file


def _called(file: str, text: str, key: str) -> str:
    data = read_document(file, text)[0].data
    named = data.get(key) if isinstance(data, dict) else None
    return named if isinstance(named, str) else ""
