"""The reader of a given load: position, type and mass of each unit, in CSV or YAML.

CSV has a first line that names its columns: `position`, `type`, `mass`, and where wanted `unit` (of the mass,
where the mass is a bare number) and `hold`. YAML has `units`, a list of mappings with the same keys, and
where wanted `hold` for all of them. What is wrong in a row is a finding; the row is then left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import PurePosixPath

from procgen.diagnostics import Finding, Place, Related
from procgen.load.log import Log
from procgen.load.node import Node
from procgen.load.table import read_table
from procgen.load.words import offer
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.results.load_check import GivenUnit
from procgen.source import Document, read_document
from procgen.units import Dimension

_NEEDED = ("position", "type", "mass")
_COLUMNS = (*_NEEDED, "unit", "hold")
_KEYS = ("hold", "units")
_NOTHING = Fraction(0)


def given_load(
    file: str, text: str, network: Network, hold: str | None = None
) -> tuple[tuple[GivenUnit, ...], Document, tuple[Finding, ...]]:
    """The units of a load, its document, and what is wrong with it. `hold` is that of rows that name none."""
    if PurePosixPath(file).suffix.lower() in (".yaml", ".yml", ".json"):
        document, found = read_document(file, text)
    else:
        document, found = read_table(file, text, _NEEDED, _COLUMNS)
    has_rows = isinstance(document.data, dict) and bool(document.data.get("units"))
    log = Log(document)
    log.findings.extend(found)
    root = Node(document.data, document.place(), log)
    units = [] if found and not has_rows else list(_units(root, network, hold))
    return tuple(units), document, log.in_order()


def _units(root: Node, network: Network, hold: str | None) -> Iterator[GivenUnit]:
    rows = root["units"]
    for name, value in root.items():
        if name not in _KEYS:
            root.log.wrong("unknown-key", f"“{name}” is not known here", value.key, offer(name, _KEYS))
    if not rows.given and root.log.findings:
        return  # one of the keys that are not known may be the missing one
    if not isinstance(rows.data, list) or not rows.data:
        root.log.wrong(
            "missing-key",
            "the file names no units",
            root.place,
            "give a line for each unit, below a first line “position,type,mass”; or in YAML “units:”, a list",
        )
        return
    common = root["hold"].text(hold or "")
    if root["hold"].given and common not in network.holds:
        root["hold"].refer("hold", network.holds)
        return
    seen: dict[tuple[str, str], Place] = {}
    for row in rows.elements():
        unit = _unit(row, network, common)
        if unit is None:
            continue
        key = (unit.hold, unit.position)
        if key in seen:
            first = Related(seen[key], "the first one")
            message = f"position “{unit.position}” is given to two units"
            row.log.wrong("bay-given-twice", message, row["position"].place, "correct one of the two", first)
            continue
        seen[key] = row["position"].place
        yield unit


def _unit(row: Node, network: Network, common: str) -> GivenUnit | None:
    """One unit; None where its row has a finding."""
    before = len(row.log.findings)
    if not isinstance(row.data, dict):
        row.log.wrong("wrong-type", "a unit is a mapping", row.place, "write {position: …, type: …, mass: …}")
        return None
    for key, value in row.items():
        if key not in _COLUMNS:
            row.log.wrong("unknown-key", f"“{key}” is not known here", value.key, offer(key, _COLUMNS))
    for key in _NEEDED:
        if key not in row or row[key].data == "":
            row.log.wrong("missing-key", f"the unit has no {key}", row.place, f"give its {key}")
    if len(row.log.findings) > before:
        return None
    position = Node(str(row["position"].data), row["position"].place, row.log)
    hold = _hold(row, position, network, common)
    code = Node(str(row["type"].data), row["type"].place, row.log).refer("unit type", network.unit_types)
    mass = _mass(row)
    if hold is not None:
        position.refer("position", hold.positions)
    if hold is None or mass is None or len(row.log.findings) > before:
        return None
    return GivenUnit(hold.name, str(position.data), code, mass.size(Dimension.MASS), row.place)


def _mass(row: Node) -> Node | None:
    """The mass with its unit, where that stands in a column of its own."""
    mass, unit = row["mass"], row["unit"]
    text = f"{mass.data} {unit.data}" if unit.given and unit.data != "" else mass.data
    whole = Node(text, mass.place, row.log)
    return whole if whole.reading(Dimension.MASS, _NOTHING) is not None else None


def _hold(row: Node, position: Node, network: Network, common: str) -> Hold | None:
    """The hold a row names, or that all rows share, or the only one that has the position."""
    named = str(row["hold"].data) if row["hold"].given and row["hold"].data != "" else common
    if named:
        place = row["hold"].place if row["hold"].given else row.place
        Node(named, place, row.log).refer("hold", network.holds)
        return network.holds.get(named)
    having = [hold for hold in network.holds.values() if position.data in hold.positions]
    if len(having) == 1:
        return having[0]
    if having:
        names = ", ".join(hold.name for hold in having)
        row.log.wrong(
            "missing-key",
            f"position “{position.data}” is one of several holds ({names})",
            position.place,
            "name the hold: a column “hold”, or the option --hold",
        )
        return None
    every: Mapping[str, None] = {name: None for hold in network.holds.values() for name in hold.positions}
    position.refer("position", every)
    return None
