"""Stated numbers and plain geometry: what is written, which document says so, where we wrote it."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Source:
    """A document that numbers come from."""

    name: str
    title: str
    issue: str
    date: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class SourceRef:
    """`WB 5-1`: the name of a source and the page or section in it."""

    source: str
    where: str

    def __str__(self) -> str:
        return f"{self.source} {self.where}".strip()


@dataclass(frozen=True, slots=True)
class Stated:
    """A number that limits something: what it is, which document says so, where we wrote it."""

    quantity: Quantity
    source: SourceRef | None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Span1:
    """A closed interval along one axis, low end first."""

    low: Quantity
    high: Quantity


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle on the hold floor."""

    x: Span1
    y: Span1

    def overlaps(self, other: Rectangle) -> bool:
        """Whether the two share floor (touching edges share none)."""
        return (
            self.x.low < other.x.high
            and other.x.low < self.x.high
            and self.y.low < other.y.high
            and other.y.low < self.y.high
        )

    def contains(self, other: Rectangle) -> bool:
        """Whether `other` lies within this rectangle (edges may touch)."""
        return (
            self.x.low <= other.x.low
            and other.x.high <= self.x.high
            and self.y.low <= other.y.low
            and other.y.high <= self.y.high
        )
