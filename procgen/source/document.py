"""A document as it was read: plain data, and where each piece of it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import Place, Route, Span

Data = None | bool | int | str | list["Data"] | dict[str, "Data"]
"""What a document holds. Decimal numbers stay text: a bare number is never a quantity."""


@dataclass(frozen=True, slots=True)
class Document:
    """One file. `data` is None where nothing could be read."""

    file: str
    text: str
    data: Data
    value_spans: Mapping[Route, Span] = field(repr=False, default_factory=dict)
    key_spans: Mapping[Route, Span] = field(repr=False, default_factory=dict)

    def place(self, *route: str | int) -> Place:
        """The place of a value in this document."""
        return Place(self.file, route)

    def span(self, place: Place) -> Span:
        """The stretch of text a place points at; the nearest enclosing value if it has none itself."""
        if place.span is not None:
            return place.span
        route = place.route
        if place.on_key and route in self.key_spans:
            return self.key_spans[route]
        while route not in self.value_spans and route:
            route = route[:-1]
        return self.value_spans.get(route, Span(1, 1, 1, 1))
