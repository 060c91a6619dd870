"""From what was checked to a published site, through records."""

from __future__ import annotations

from pathlib import Path

from procgen import publish
from procgen.disk import packaged
from procgen.pipeline.checking import Checked
from procgen.pipeline.editions import editions_of


def build(checked: Checked, out: Path, on: str, address: str = "") -> None:
    """Publish every station's site under `out` as of a day (ISO 8601), and a home page over them.

    Each station's site holds every release as it was recorded, and the draft where it differs from the
    last release. `address` is where everybody will find `out`; printed cards carry it. The old site stays
    untouched until the new one is complete. Raises `ProcgenError` when the builder fails, a link of the new
    site leads nowhere, or a release cannot be read.
    """
    stations = [editions_of(checked, station, on) for station in checked.network.stations.values()]
    publish.build(stations, packaged.templates(), out, address)
