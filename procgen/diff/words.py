"""What a difference is about, in words, from the path to it."""

from __future__ import annotations

from collections.abc import Sequence

_THINGS = {
    "bays": "bay",
    "controls": "control",
    "doors": "door",
    "drives": "drive",
    "panels": "panel",
    "positions": "position",
    "restraints": "restraint",
    "zones": "zone",
    "cumulative": "cumulative line",
    "sources": "source",
    "lanes": "lane",
    "unit-types": "unit type",
    "points": "point",
    "straps": "strap",
    "gear": "pulling gear",
    "contacts": "contact",
    "pages": "procedure",
    "notes": "note",
    "corners": "corner",
}
"""Lists and mappings of named things, and the word for one of them."""

_FIELDS = {
    "max-mass": "limit for",
    "by-direction": "load factor",
    "held-by": "held by",
    "at-rest": "state at rest",
    "closing-state": "state when vacant",
    "rating": "rating",
    "stops": "stops",
    "override": "override going",
    "lowered-by": "lowered by",
    "close-needs": "closing needs",
    "needs": "power needs",
    "by-hand": "moved by hand",
    "powered": "lowered only with power",
    "returns-by-spring": "returns by spring",
    "grips": "grips the base",
    "guides": "guides the move",
    "title": "name",
    "max-gross": "maximum gross mass",
    "clear-width": "clear width",
    "clear-height": "clear height",
    "load-factors": "load factors",
    "bears-on-floor": "units bear on the floor",
    "is-position": "is a position",
    "hold-to-run": "works only while held",
    "returns-when-clear": "returns when clear",
    "hand-moves": "moving by hand",
    "out-together": "may be out together",
    "mass-unit": "unit of mass",
    "opening": "wind to open",
    "open": "wind while open",
    "running": "running load",
    "area": "area load",
    "contact": "contact load",
    "point": "load on one point",
    "line": "load along a bearer",
    "combined": "combined limit",
    "adjacent": "limit for two neighbours",
    "why-no-page": "reason for having no procedure",
}
_LEFT_OUT = frozenset({"load-factors", "hold", "quantity", "station", "wind", "rectangle"})


def subject(path: Sequence[str]) -> str:
    """A path below a hold or station in words: `position 11L: limit for K`."""
    things: list[str] = []
    rest: list[str] = []
    parts = list(path)
    while parts:
        part = parts.pop(0)
        if part in _THINGS and parts:
            rest.append(f"{_THINGS[part]} {parts.pop(0)}")
            things.append(rest.pop())
        elif part not in _LEFT_OUT or not (things or rest or parts):
            rest.append(_FIELDS.get(part, part.replace("-", " ")))
    head = ", ".join(things)
    return f"{head}: {' '.join(rest)}" if head and rest else head or " ".join(rest)
