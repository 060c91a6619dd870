"""Publish: records to a plain Markdown tree, a plain builder's file and phone cards; then call the builder.

`station_tree` and `home_tree` are pure. `build_site` is the one function that touches the disk and the
builder, so that another builder can take its place. `build` does it all.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from procgen.publish.address import checked_address
from procgen.publish.builder import build_site
from procgen.publish.comparison import comparison_page
from procgen.publish.home import home_tree
from procgen.publish.links import BrokenLink, broken_links
from procgen.publish.manual import station_tree
from procgen.results.edition import Edition
from procgen.results.page import StationSite

__all__ = [
    "BrokenLink",
    "broken_links",
    "build",
    "build_site",
    "comparison_page",
    "home_tree",
    "station_tree",
]


def build(
    stations: Sequence[StationSite | Sequence[Edition]], templates: Path, out: Path, address: str = ""
) -> None:
    """Build the home and a site for every station under `out`: `index.html`, `CODE/index.html` and so on.

    Each station is its editions, first the one that a reader finds first; every other one goes into a
    folder of its own below the station's, as `CODE/r001/index.html`. A bare site is a draft.

    `address` is where everybody will find `out`; printed cards carry it. Raises `ProcgenError` where
    `build_site` does, and for an address that is none; the old site is then untouched.
    """
    address = checked_address(address)
    texts = {
        path.name: path.read_text(encoding="utf-8") for path in sorted(templates.iterdir()) if path.is_file()
    }
    shelves = [[Edition(one)] if isinstance(one, StationSite) else list(one) for one in stations]
    tree = dict(home_tree([editions[0] for editions in shelves], texts))
    for editions in shelves:
        for edition in editions:
            folder = f"{edition.site.station.code}/{edition.folder}".rstrip("/")
            own = station_tree(edition, texts, address)
            tree.update({f"{folder}/{path}": text for path, text in own.items()})
    build_site(tree, out)
