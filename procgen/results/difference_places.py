"""Where pages show what changed: the elements of pages that differences are anchored to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from procgen.results.difference import Difference

HOLD, PROCEDURE, STATION = "hold", "procedure", "station"
"""The kinds of page an anchor may name."""

WHOLE = ""
"""The element that stands for a whole page."""


def element(kind: str, name: object) -> str:
    """What an anchor calls one thing of a page: `step:17`, `limit:11L.AKE`, `restraints:lock-41`."""
    return f"{kind}:{name}"


def by_page(
    differences: Iterable[Difference],
) -> Mapping[tuple[str, str], Mapping[str, tuple[Difference, ...]]]:
    """The differences by page (`hold`, `procedure` or `station`, and its name), then by what they mark.

    What they mark is an anchor's element; empty for the whole page. No element names a difference twice.
    """
    found: dict[tuple[str, str], dict[str, dict[str, Difference]]] = {}
    for one in differences:
        for anchor in one.anchors:
            page = found.setdefault((anchor.page, anchor.name), {})
            page.setdefault(anchor.element, {})[one.identity] = one
    return {
        page: {name: tuple(ones.values()) for name, ones in elements.items()}
        for page, elements in found.items()
    }
