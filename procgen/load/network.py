"""Load everything: read each file, check its shape, resolve its names, build its record."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from pathlib import PurePosixPath

from procgen.diagnostics import Finding
from procgen.load.across import marked, named_like_file, no_revision_of_its_own, once
from procgen.load.answers import answers
from procgen.load.files import (
    FLEET_FILE,
    HAZARDS_FILE,
    HAZARDS_PLACE,
    Opened,
    Opening,
    by_kind,
    missing,
    not_read,
)
from procgen.load.fleet import NO_FLEET, Fleet, fleet
from procgen.load.hazards import hazards
from procgen.load.hold import hold
from procgen.load.procedure import Context, procedure
from procgen.load.shape import shapes_of
from procgen.load.station import station
from procgen.load.steps import StepNames
from procgen.model.answer import Answer
from procgen.model.effectivity import Registered, applies_to
from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.station import Aircraft, Network, Station
from procgen.model.step import Procedure
from procgen.model.waiver import Waiver
from procgen.model.words import Failure
from procgen.results.out_of_service import possible_failures
from procgen.source import Document


@dataclass(frozen=True, slots=True)
class Loaded:
    """What loading yields: the records that could be built, every document by its file, every finding.

    Everything the network's records refer to is in the network: a procedure whose hold could not be
    built is left out with it, and a station names only holds that were built. `procedures` holds those
    that could be built by their file, also where their station could not. `waivers` are those that stand
    in any of the files, `answers` the answers to differences by the code of the station, `releases` the
    texts of released files by their path, unread.
    """

    network: Network
    documents: Mapping[str, Document]
    findings: tuple[Finding, ...]
    procedures: Mapping[str, Procedure] = field(default_factory=dict)
    waivers: tuple[Waiver, ...] = ()
    answers: Mapping[str, tuple[Answer, ...]] = field(default_factory=dict)
    releases: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Fleetwide:
    """What stations and procedures refer to."""

    fleet: Fleet
    holds: Mapping[str, Hold]
    context: Context


def load_network(
    files: Mapping[str, str], packaged: Mapping[str, str], schemas: Mapping[str, object]
) -> Loaded:
    """Load the stations folder.

    `files` maps each path below the stations folder to its text, `packaged` the data that travels with
    the program (`hazards.yaml`), `schemas` the name of each schema file to its parsed JSON. Everything
    wrong is in `findings`, sorted by file and by place in it. Never raises for what the texts hold.
    """
    opening, kinds = Opening(shapes_of(schemas)), by_kind(files)
    extra = [not_read(file) for file in kinds["stray"]]
    hazard_list = _hazards(opening, packaged)
    shared = _fleet(opening, files, extra)
    hold_files = [opening.open(file, files[file], "hold.json", "hold") for file in kinds["hold"]]
    holds = _holds(hold_files, shared)
    fleetwide = _Fleetwide(shared, holds, _context(hold_files, shared, hazard_list, opening, holds))
    stations, procedures = _stations(opening, files, fleetwide, extra)
    answered = _answers(opening, files, kinds["answers"])
    network = Network(
        airline=shared.airline,
        aircraft=_aircraft(shared, holds),
        bases=shared.bases,
        unit_types=shared.unit_types,
        holds=holds,
        stations=stations,
        hazards=hazard_list,
        contours=shared.contours,
    )
    found = [finding for one in opening.files.values() for finding in one.log.in_order()]
    findings = sorted([*extra, *found], key=lambda finding: finding.place.file)
    documents = {file: one.log.document for file, one in sorted(opening.files.items())}
    released = {file: files[file] for file in kinds["release"]}
    waivers = tuple(opening.waivers)
    return Loaded(network, documents, tuple(findings), procedures, waivers, answered, released)


def load_procedure(
    file: str, text: str, network: Network, schemas: Mapping[str, object]
) -> tuple[Procedure | None, Document, tuple[Finding, ...]]:
    """Load one procedure that stands outside the stations folder, in the context of a network.

    Returns the procedure (None where something keeps it from being built), its document, and what is
    wrong with it.
    """
    one = Opening(shapes_of(schemas)).open(file, text, "procedure.json", "procedure")
    listed = network.hazards
    names = StepNames(
        tuple(listed.hazards) or None, tuple(listed.checks) or None, tuple(listed.reports) or None
    )
    bays = {name: tuple(hold.bays) for name, hold in network.holds.items()}
    registered = _registered(network.holds, network.aircraft)
    context = Context(bays, tuple(network.unit_types), names, registered, _failures(network.holds))
    record = procedure(one.root, context)
    return record, one.log.document, one.log.in_order()


def _hazards(opening: Opening, packaged: Mapping[str, str]) -> HazardList:
    text = packaged.get(HAZARDS_FILE)
    if text is None:
        return HazardList({}, {}, {})
    one = opening.open(HAZARDS_PLACE, text, "hazards.json", "hazards")
    record = hazards(one.root)
    return HazardList({}, {}, {}) if one.log.broken else record


def _fleet(opening: Opening, files: Mapping[str, str], extra: list[Finding]) -> Fleet:
    if FLEET_FILE not in files:
        extra.append(missing(FLEET_FILE, "aircraft types and unit types are described there"))
        return NO_FLEET
    one = opening.open(FLEET_FILE, files[FLEET_FILE], "fleet.json", "airline")
    return NO_FLEET if one.log.document.data is None else fleet(one.root)


def _holds(hold_files: list[Opened], shared: Fleet) -> dict[str, Hold]:
    holds: dict[str, Hold] = {}
    first: dict[str, Opened] = {}
    named = (*(one.name for one in hold_files), *(PurePosixPath(one.file).stem for one in hold_files))
    for one in hold_files:
        named_like_file(one, "hold", PurePosixPath(one.file).stem)
        once(one, first, "hold")
        marked(one, shared.demonstration)
        record = hold(one.root, shared, named)
        if record is not None:
            holds[record.name] = record
    return holds


def _failures(holds: Mapping[str, Hold]) -> Mapping[str, Mapping[str, tuple[Failure, ...]]]:
    return {name: possible_failures(one) for name, one in holds.items()}


def _context(
    hold_files: list[Opened],
    shared: Fleet,
    hazard_list: HazardList,
    opening: Opening,
    holds: Mapping[str, Hold],
) -> Context:
    """What procedures may name; also what could not be built, so that one slip stays one finding.

    The bays of a hold that could not be built are not known for certain: one of them may be misspelt.
    """
    bays: dict[str, Collection[str] | None] = {}
    for one in hold_files:
        keys = one.root["bays"].data
        bays.setdefault(one.name, tuple(keys) if isinstance(keys, dict) and not one.log.broken else None)
    for one in hold_files:
        bays.setdefault(PurePosixPath(one.file).stem, None)
    names = StepNames(None, None, None)
    if HAZARDS_PLACE in opening.files and not opening.files[HAZARDS_PLACE].log.broken:
        names = StepNames(tuple(hazard_list.hazards), tuple(hazard_list.checks), tuple(hazard_list.reports))
    return Context(bays, shared.unit_type_names, names, _registered(holds, shared.aircraft), _failures(holds))


def _registered(
    holds: Mapping[str, Hold], aircraft: Mapping[str, Aircraft]
) -> Mapping[str, Mapping[str, Registered]]:
    """The aircraft that have each hold; none said of a hold whose aircraft type could not be read."""
    return {
        name: {
            mark: of_type.registrations[mark] for mark in applies_to(one.effectivity, of_type.registrations)
        }
        for name, one in holds.items()
        if (of_type := aircraft.get(one.aircraft)) is not None
    }


def _stations(
    opening: Opening, files: Mapping[str, str], fleetwide: _Fleetwide, extra: list[Finding]
) -> tuple[dict[str, Station], dict[str, Procedure]]:
    kinds = by_kind(files)
    folders: dict[str, list[str]] = {file.split("/")[0]: [] for file in kinds["station"]}
    for file in kinds["procedure"]:
        folders.setdefault(file.split("/")[0], []).append(file)
    for file in (*kinds["answers"], *kinds["release"]):
        folders.setdefault(file.split("/")[0], [])
    stations: dict[str, Station] = {}
    procedures: dict[str, Procedure] = {}
    first: dict[str, Opened] = {}
    for folder, its_files in sorted(folders.items()):
        path = f"{folder}/station.yaml"
        one = None
        if path in files:
            one = opening.open(path, files[path], "station.json", "station")
            named_like_file(one, "station", folder)
            once(one, first, "station")
            record = station(one.root, tuple(fleetwide.context.holds or {}))
            if any(file.startswith(f"{folder}/") for file in kinds["release"]):
                no_revision_of_its_own(one)
        else:
            what = "procedures" if its_files else "releases and answers"
            extra.append(missing(path, f"the folder holds the {what} of a station"))
        mine = [opening.open(file, files[file], "procedure.json", "procedure") for file in its_files]
        built = _procedures(mine, fleetwide)
        procedures |= built
        if one is not None and not one.log.broken:
            holds = tuple(name for name in record.holds if name in fleetwide.holds)
            stations[record.code] = replace(record, holds=holds, procedures=tuple(built.values()))
    return stations, procedures


def _answers(opening: Opening, files: Mapping[str, str], of_kind: list[str]) -> dict[str, tuple[Answer, ...]]:
    found: dict[str, tuple[Answer, ...]] = {}
    for file in of_kind:
        one = opening.open(file, files[file], "answers.json", "answers")
        read = answers(one.root)
        found[file.split("/")[0]] = () if one.log.broken else read
    return found


def _procedures(mine: list[Opened], fleetwide: _Fleetwide) -> dict[str, Procedure]:
    first: dict[str, Opened] = {}
    built: dict[str, Procedure] = {}
    for one in mine:
        once(one, first, "procedure")
        record = procedure(one.root, fleetwide.context)
        if record is None or one.log.broken or record.hold not in fleetwide.holds:
            continue
        units = (*record.units.values(), *record.aboard.values())
        if all(unit.unit_type in fleetwide.fleet.unit_types for unit in units):
            built[one.file] = record
    return built


def _aircraft(shared: Fleet, holds: Mapping[str, Hold]) -> dict[str, Aircraft]:
    """The aircraft types; one that a hold names but that could not be read goes by its name."""
    aircraft = dict(shared.aircraft)
    for one in holds.values():
        aircraft.setdefault(one.aircraft, Aircraft(one.aircraft, one.aircraft))
    return aircraft
