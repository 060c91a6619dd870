"""The limit tables of one hold, beside the one by position, as its pages show them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.results.figures import FigureTable
from procgen.results.limits import LimitCell
from procgen.results.load_limits import Most
from procgen.results.packages import PackageTable
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class MissingRow:
    """One position and unit type with the restraints `out`: `before` is its limit with all of them.

    `cell` is what is left; None where everything is as before.
    """

    out: tuple[str, ...]
    position: str
    unit_type: str
    before: Quantity
    cell: LimitCell | None


@dataclass(frozen=True, slots=True)
class HoldTables:
    """`zones` by name of zone, `missing` in the order of the description, `packages` by name of door.

    `figures` are the tables of floor, tie-down, hand moves, wind, notes and times, in the order of the page.
    `charts` holds diagrams of limits as SVG text by name, ready to inline: `cumulative-NAME` for each
    cumulative line, `cross-section`, `packages-DOOR`.
    """

    zones: Mapping[str, Most] = field(default_factory=dict)
    missing: tuple[MissingRow, ...] = ()
    packages: Mapping[str, PackageTable] = field(default_factory=dict)
    figures: tuple[FigureTable, ...] = ()
    charts: Mapping[str, str] = field(default_factory=dict)


def place_key(place: Place) -> str:
    """The name of a place in `HoldSite.lines`."""
    route = "/".join(str(step) for step in place.route)
    return f"{place.file}#{route}{'!' if place.on_key else ''}"
