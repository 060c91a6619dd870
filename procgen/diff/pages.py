"""Where pages show what changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from procgen.results.difference import Difference


def by_page(
    differences: Iterable[Difference],
) -> Mapping[tuple[str, str], Mapping[str, tuple[Difference, ...]]]:
    """The differences by page (`hold`, `procedure` or `station`, and its name), then by what they mark.

    What they mark is an anchor's element: `step:17`, `limit:11L.AKE`, `restraints:lock-41`; empty for the
    whole page.
    """
    found: dict[tuple[str, str], dict[str, list[Difference]]] = {}
    for one in differences:
        for anchor in one.anchors:
            page = found.setdefault((anchor.page, anchor.name), {})
            page.setdefault(anchor.element, []).append(one)
    return {
        page: {element: tuple(ones) for element, ones in elements.items()} for page, elements in found.items()
    }
