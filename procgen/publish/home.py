"""The home over all stations: a plain Markdown tree and a plain builder's file of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from procgen.publish.control import as_edition, control_of
from procgen.publish.navigation import builder_file, sheets
from procgen.publish.rendering import environment
from procgen.publish.words import DEMONSTRATION, PREVAIL, closing
from procgen.results.edition import Edition
from procgen.results.page import StationSite


@dataclass(frozen=True, slots=True)
class HoldRow:
    """One hold on the home page, with the stations that work it."""

    name: str
    title: str
    aircraft: str
    positions: tuple[str, ...]
    stations: tuple[str, ...]


def home_tree(shown: Sequence[StationSite | Edition], templates: Mapping[str, str]) -> Mapping[str, str]:
    """The home over all stations: a site of its own, whose stations lie in folders beside it."""
    env = environment(templates)
    editions = [as_edition(one) for one in shown]
    sites = [one.site for one in editions]
    demonstration = any(site.station.demonstration for site in sites)
    holds = {hold.hold.name: hold for site in sites for hold in site.holds}
    rows = tuple(
        HoldRow(
            name,
            hold.hold.title,
            hold.aircraft,
            tuple(hold.hold.positions),
            tuple(s.station.code for s in sites if any(h.hold.name == name for h in s.holds)),
        )
        for name, hold in holds.items()
    )
    page = env.get_template("home.md").render(
        sites=sites,
        controls={one.site.station.code: control_of(one, "index.html") for one in editions},
        edition=None,
        holds=rows,
        demonstration=demonstration,
        demonstration_words=DEMONSTRATION,
        prevail=PREVAIL,
        station=None,
    )
    airline = sites[0].airline if sites else "Hold loading procedures"
    return {
        "docs/index.md": page,
        **sheets(env),
        "mkdocs.yml": builder_file(airline, closing(demonstration), [{"Stations": "index.md"}]),
    }
