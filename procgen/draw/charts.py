"""Every chart of a hold's limits as SVG text, by name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.draw.chart_markup import chart_markup
from procgen.draw.cumulative import cumulative_chart
from procgen.draw.package_chart import package_chart
from procgen.draw.section_chart import section_chart
from procgen.model.hold import Hold
from procgen.model.loads import Contour
from procgen.model.unit import UnitType
from procgen.results.load_limits import Placed
from procgen.results.packages import PackageTable


def limit_charts(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    contours: Mapping[str, Contour],
    own: Sequence[Placed],
    packages: Mapping[str, PackageTable],
    mass_unit: str,
) -> Mapping[str, str]:
    """`cumulative-NAME` for each cumulative limit, `cross-section`, `packages-DOOR`; masses in `mass_unit`.

    `own` is each position with the heaviest unit it may carry; where the data say nothing, there is no chart.
    """
    found = {
        f"cumulative-{name}": chart_markup(cumulative_chart(hold, line, own, mass_unit))
        for name, line in hold.cumulative.items()
    }
    if hold.cross_section is not None:
        chart = section_chart(hold, hold.cross_section, contours, unit_types)
        found["cross-section"] = chart_markup(chart)
    for door, table in packages.items():
        chart = package_chart(hold.doors[door].title, table)
        found[f"packages-{door}"] = chart_markup(chart)
    return found
