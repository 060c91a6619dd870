"""Versions of a small part of the demonstration, derived from texts, for tests of differences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from procgen.diff import compare, input_edits
from procgen.diff.causes import explained
from procgen.pipeline.building import station_site
from procgen.pipeline.checking import check, load_inputs
from procgen.pipeline.deriving import derive_site
from procgen.results.difference import Comparison, Difference, Version
from procgen.results.page import StationSite
from tests.support import demo_files

FLEET = "fleet/fleet.yaml"
AFT = "fleet/holds/SR-AFT.yaml"
STATION = "K1B/station.yaml"
PROCEDURE = "K1B/procedures/sr-aft-two-units.yaml"


@cache
def files() -> Mapping[str, str]:
    """One station that works one hold, with a procedure of its own."""
    texts = {file: demo_files()[file] for file in (FLEET, AFT, STATION, PROCEDURE)}
    head, _, rest = texts[STATION].partition("holds: [")
    return {**texts, STATION: f"{head}holds: [SR-AFT]{rest.partition(']')[2]}"}


def edited(*edits: tuple[str, str, str]) -> Mapping[str, str]:
    """The files with edits: in a file, the one place where a text stands becomes another."""
    texts = dict(files())
    for file, find, put in edits:
        assert texts[file].count(find) == 1, f"“{find}” stands {texts[file].count(find)} times in {file}"
        texts[file] = texts[file].replace(find, put)
    return texts


def version(texts: Mapping[str, str], label: str = "K1B") -> Version:
    """The files and what they publish."""
    found = derive_site(texts)
    assert found is not None, "the files cannot be read"
    return Version(label, found, texts, "rules")


def explain(was: Mapping[str, str], now: Mapping[str, str]) -> Comparison:
    """The whole comparison, causes included."""
    return explained(compare(version(was), version(now)), input_edits(was, now), derive_site)


def told(found: Iterable[Difference]) -> list[str]:
    """Each difference in one line."""
    return [f"{one.classed} {one.kind} {one.identity}" for one in found]


def whole_site(texts: Mapping[str, str]) -> StationSite:
    """What the files publish with the out-of-service matrix, the ways out of mishaps and the tables."""
    loaded = load_inputs({file: text for file, text in texts.items() if "procedures" not in file})
    checked = check(loaded)
    assert checked.publishable, [finding.message for finding in checked.findings]
    (station,) = checked.network.stations.values()
    return station_site(checked, station, with_recoveries=True, with_matrices=True)
