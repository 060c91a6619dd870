"""What the page of a hold's limits in full shows."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.publish.figure_rows import shown_table
from procgen.publish.limit_tables import door_tables, missing_groups, zone_rows
from procgen.results.page import HoldSite, StationSite


def limits_shown(site: StationSite, hold: HoldSite) -> Mapping[str, object]:
    """The names that `limits.md`, `loads.md` and what they include ask for."""
    unit = site.station.mass_unit
    return {
        "demonstration": site.station.demonstration or hold.hold.demonstration,
        "site": hold,
        "hold": hold.hold,
        "charts": hold.tables.charts,
        "figures": [shown_table(hold, table, unit) for table in hold.tables.figures],
        "zone_rows": zone_rows(hold, unit),
        "missing_groups": missing_groups(hold, unit),
        "door_tables": door_tables(hold),
    }
