"""Load everything: read each file, check its shape, resolve its names, build its record."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from pathlib import PurePosixPath

from procgen.diagnostics import Finding, Place, Related, Severity, Span
from procgen.load.fleet import NO_FLEET, Fleet, fleet
from procgen.load.hazards import hazards
from procgen.load.hold import hold
from procgen.load.log import Log
from procgen.load.node import Node
from procgen.load.procedure import Context, procedure
from procgen.load.shape import Shapes
from procgen.load.station import station
from procgen.load.steps import StepNames
from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.station import Aircraft, Network, Station
from procgen.model.step import Procedure
from procgen.source import Document, read_document

FLEET_FILE = "fleet/fleet.yaml"
HAZARDS_FILE = "hazards.yaml"


@dataclass(frozen=True, slots=True)
class Loaded:
    """What loading yields: the records that could be built, every document by its file, every finding.

    Everything the network's records refer to is in the network: a procedure whose hold could not be
    built is left out with it, and a station names only holds that were built.
    """

    network: Network
    documents: Mapping[str, Document]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _File:
    """One file on its way: its log, the root of its data, what it is named."""

    root: Node
    name: str
    """What the description calls itself; the name of the file where it does not say."""

    @property
    def log(self) -> Log:
        return self.root.log


@dataclass
class _Loading:
    shapes: Shapes
    files: dict[str, _File] = field(default_factory=dict)

    def open(self, file: str, text: str, schema: str, name_key: str) -> _File:
        document, findings = read_document(file, text)
        log = Log(document)
        log.findings.extend(findings)
        if document.data is None:
            log.broken = True
        else:
            self.shapes.check(schema, log)
        root = Node(document.data, document.place(), log)
        named = root[name_key].data
        one = _File(root, named if isinstance(named, str) else PurePosixPath(file).stem)
        self.files[file] = one
        return one


def load_network(
    files: Mapping[str, str], packaged: Mapping[str, str], schemas: Mapping[str, object]
) -> Loaded:
    """Load the stations folder.

    `files` maps each path below the stations folder to its text, `packaged` the data that travels with
    the program (`hazards.yaml`), `schemas` the name of each schema file to its parsed JSON. Everything
    wrong is in `findings`, sorted by file and by place in it. Never raises for what the texts hold.
    """
    loading = _Loading(Shapes(schemas))
    kinds = _sorted_kinds(files)
    extra = _strays(kinds["stray"], files)
    hazard_list = _hazards(loading, packaged)
    shared = _fleet(loading, files, extra)
    hold_files = [loading.open(file, files[file], "hold.json", "hold") for file in kinds["hold"]]
    holds = _holds(hold_files, shared)
    context = _context(hold_files, shared, hazard_list, loading)
    stations = _stations(loading, files, kinds, (holds, shared, context), extra)
    network = Network(
        airline=shared.airline,
        aircraft=_aircraft(shared, holds),
        bases=shared.bases,
        unit_types=shared.unit_types,
        holds=holds,
        stations=stations,
        hazards=hazard_list,
    )
    found = [finding for one in sorted(loading.files) for finding in loading.files[one].log.in_order()]
    documents = {file: one.log.document for file, one in loading.files.items()}
    return Loaded(network, documents, tuple(_by_file([*extra, *found])))


def load_procedure(
    file: str, text: str, network: Network, schemas: Mapping[str, object]
) -> tuple[Procedure | None, Document, tuple[Finding, ...]]:
    """Load one procedure that stands outside the stations folder, in the context of a network.

    Returns the procedure (None where something keeps it from being built), its document, and what is
    wrong with it.
    """
    loading = _Loading(Shapes(schemas))
    one = loading.open(file, text, "procedure.json", "procedure")
    names = StepNames(
        tuple(network.hazards.hazards), tuple(network.hazards.checks), tuple(network.hazards.reports)
    )
    bays = {name: tuple(hold.bays) for name, hold in network.holds.items()}
    record = procedure(one.root, Context(bays, tuple(network.unit_types), names))
    return record, one.log.document, one.log.in_order()


def _by_file(findings: Collection[Finding]) -> list[Finding]:
    return sorted(findings, key=lambda finding: finding.place.file)


def _sorted_kinds(files: Mapping[str, str]) -> Mapping[str, list[str]]:
    kinds: dict[str, list[str]] = {key: [] for key in ("fleet", "hold", "station", "procedure", "stray")}
    for file in sorted(files):
        kinds[_kind(file)].append(file)
    return kinds


def _kind(file: str) -> str:
    path = PurePosixPath(file)
    parts, is_yaml = path.parts, path.suffix == ".yaml"
    if file == FLEET_FILE:
        return "fleet"
    if parts[:2] == ("fleet", "holds") and len(parts) == 3 and is_yaml:
        return "hold"
    if len(parts) == 2 and parts[0] != "fleet" and path.name == "station.yaml":
        return "station"
    if len(parts) == 3 and parts[0] != "fleet" and parts[1] == "procedures":
        return "procedure" if is_yaml or path.suffix == ".json" else "stray"
    return "stray"


def _strays(strays: list[str], files: Mapping[str, str]) -> list[Finding]:
    return [
        Finding(
            "file-not-read",
            f"nothing reads “{file}”",
            Place(file, span=Span(1, 1, 1, 1)),
            Severity.WARNING,
            "the places are fleet/fleet.yaml, fleet/holds/NAME.yaml, CODE/station.yaml,"
            " CODE/procedures/NAME.yaml",
        )
        for file in strays
    ]


def _missing(file: str, what: str) -> Finding:
    return Finding(
        "file-missing",
        f"there is no “{file}”: {what}",
        Place(file, span=Span(1, 1, 1, 1)),
        suggestion="write it",
    )


def _hazards(loading: _Loading, packaged: Mapping[str, str]) -> HazardList:
    text = packaged.get(HAZARDS_FILE)
    if text is None:
        return HazardList({}, {}, {})
    one = loading.open(HAZARDS_FILE, text, "hazards.json", "hazards")
    record = hazards(one.root)
    return HazardList({}, {}, {}) if one.log.broken else record


def _fleet(loading: _Loading, files: Mapping[str, str], extra: list[Finding]) -> Fleet:
    if FLEET_FILE not in files:
        extra.append(_missing(FLEET_FILE, "aircraft types and unit types are described there"))
        return NO_FLEET
    one = loading.open(FLEET_FILE, files[FLEET_FILE], "fleet.json", "airline")
    if one.log.document.data is None:
        return NO_FLEET
    record = fleet(one.root)
    if one.log.broken:
        return replace(record, aircraft={}, bases={}, unit_types={})
    return record


def _holds(hold_files: list[_File], shared: Fleet) -> dict[str, Hold]:
    holds: dict[str, Hold] = {}
    first: dict[str, _File] = {}
    for one in hold_files:
        _named_like_file(one, "hold", PurePosixPath(one.log.document.file).stem)
        _once(one, first, "hold")
        _marked(one, shared)
        record = hold(one.root, shared.aircraft_names, shared.base_names, shared.unit_type_names)
        if record is not None and one.log.document.data is not None and record.name not in holds:
            holds[record.name] = record
    return holds


def _context(hold_files: list[_File], shared: Fleet, hazard_list: HazardList, loading: _Loading) -> Context:
    bays: dict[str, Collection[str] | None] = {}
    for one in hold_files:
        keys = tuple(name for name, _ in one.root["bays"].items())
        bays.setdefault(one.name, keys or None)
    readable = HAZARDS_FILE in loading.files and not loading.files[HAZARDS_FILE].log.broken
    names = StepNames(None, None, None)
    if readable:
        names = StepNames(tuple(hazard_list.hazards), tuple(hazard_list.checks), tuple(hazard_list.reports))
    return Context(bays, shared.unit_type_names, names)


def _stations(
    loading: _Loading,
    files: Mapping[str, str],
    kinds: Mapping[str, list[str]],
    known: tuple[dict[str, Hold], Fleet, Context],
    extra: list[Finding],
) -> dict[str, Station]:
    holds, shared, context = known
    stations: dict[str, Station] = {}
    first: dict[str, _File] = {}
    of_folder: dict[str, list[_File]] = {}
    for file in kinds["procedure"]:
        opened = loading.open(file, files[file], "procedure.json", "procedure")
        of_folder.setdefault(file.split("/")[0], []).append(opened)
    folders = {file.split("/")[0]: file for file in kinds["station"]}
    for folder in sorted({*folders, *of_folder}):
        mine = of_folder.get(folder, [])
        if folder not in folders:
            extra.append(_missing(f"{folder}/station.yaml", "the folder holds procedures of a station"))
            _procedures(mine, None, (holds, shared, context))
            continue
        one = loading.open(folders[folder], files[folders[folder]], "station.json", "station")
        _named_like_file(one, "station", folder)
        _once(one, first, "station")
        _marked(one, shared)
        record = station(one.root, tuple(context.holds or {}))
        record = replace(record, procedures=_procedures(mine, one, (holds, shared, context)))
        if not one.log.broken and record.code not in stations:
            stations[record.code] = replace(record, holds=tuple(h for h in record.holds if h in holds))
    return stations


def _procedures(
    mine: list[_File], station_file: _File | None, known: tuple[dict[str, Hold], Fleet, Context]
) -> tuple[Procedure, ...]:
    holds, shared, context = known
    first: dict[str, _File] = {}
    built: list[Procedure] = []
    for one in mine:
        _once(one, first, "procedure")
        record = procedure(one.root, context)
        if station_file is not None:
            _worked_here(one, station_file)
        if record is None or record.hold not in holds or one.log.broken:
            continue
        units = (*record.units.values(), *record.aboard.values())
        if all(unit.unit_type in shared.unit_types for unit in units):
            built.append(record)
    return tuple(built)


def _worked_here(one: _File, station_file: _File) -> None:
    """A station has procedures for the holds it works."""
    worked = station_file.root["holds"]
    names = [element.data for element in worked.elements()]
    hold = one.root["hold"]
    if isinstance(hold.data, str) and names and hold.data not in names and not one.log.broken:
        one.log.wrong(
            "hold-not-worked-here",
            f"the procedure is for hold “{hold.data}”, which this station does not work",
            hold.place,
            f"add “{hold.data}” to the station's holds, or move the procedure to a station that works it",
            Related(worked.place, "the holds of the station"),
        )


def _named_like_file(one: _File, key: str, expected: str) -> None:
    named = one.root[key]
    if isinstance(named.data, str) and named.data != expected:
        one.log.wrong(
            "name-differs-from-file",
            f"the {key} is called “{named.data}” here, but “{expected}” by its place",
            named.place,
            f"write “{key}: {expected}”, or rename it on the disk",
        )


def _once(one: _File, first: dict[str, _File], kind: str) -> None:
    """Two files do not describe one thing."""
    if one.name in first:
        one.log.wrong(
            "name-used-twice",
            f"two files describe the {kind} “{one.name}”",
            one.root[kind].place,
            "delete one, or give it its own name",
            Related(first[one.name].root[kind].place, "the first one"),
        )
    first.setdefault(one.name, one)


def _marked(one: _File, shared: Fleet) -> None:
    """What belongs to a demonstration fleet says so itself."""
    if (
        shared.demonstration
        and isinstance(one.root.data, dict)
        and one.root["demonstration"].data is not True
    ):
        mark = one.root["demonstration"]
        one.log.wrong(
            "demonstration-not-marked",
            "the fleet is a demonstration, but this file is not marked as one",
            mark.place if mark.given else one.root[next(iter(one.root.data), "")].key,
            "write “demonstration: true”",
            Related(Place(FLEET_FILE, ("demonstration",)), "the fleet's mark"),
        )


def _aircraft(shared: Fleet, holds: Mapping[str, Hold]) -> dict[str, Aircraft]:
    """The aircraft types; one that a hold names but that could not be read goes by its name."""
    aircraft = dict(shared.aircraft)
    for one in holds.values():
        aircraft.setdefault(one.aircraft, Aircraft(one.aircraft, one.aircraft))
    return aircraft
