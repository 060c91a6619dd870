"""Where restraints stand: on the edge two bays share, at the sill, or at a bay's free edge.

Everything follows from the geometry and from what an item stops or guides; a direction word in its name
(forward, aft, left, right) only orders items that would stand in the same place.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.draw.frame import Box, Frame
from procgen.model.hold import Hold, Restraint
from procgen.model.words import OUTSIDE, RestraintKind, Side, Travel

_WORDS = ("forward", "aft", "left", "right")
_NEAR = 0.4
"""Bays closer than this (m) across an edge are neighbours there."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight piece of floor between or beside bays; `key` tells edges apart."""

    key: tuple[str, ...]
    start: tuple[float, float]
    end: tuple[float, float]

    @property
    def horizontal(self) -> bool:
        """Whether it runs across the sheet."""
        return self.start[1] == self.end[1]

    @property
    def length(self) -> float:
        """Its length on the sheet."""
        return (self.end[0] - self.start[0]) + (self.end[1] - self.start[1])

    def at(self, share: float) -> tuple[float, float]:
        """The point at this share of its length."""
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )


@dataclass(frozen=True, slots=True)
class Standing:
    """Where one restraint stands: its edges, and its wish along the first (0 start, 1 end)."""

    edges: tuple[Edge, ...]
    wish: float

    @property
    def edge(self) -> Edge:
        """The edge that bears its symbol."""
        return self.edges[len(self.edges) // 2]


class Edges:
    """The edges of one hold in one frame."""

    def __init__(self, hold: Hold, frame: Frame, bays: Mapping[str, Box]) -> None:
        self._hold = hold
        self._frame = frame
        self._bays = bays
        self._floor = frame.box(hold.floor.rectangle)

    def standing(self, item: Restraint) -> Standing:
        """Where a restraint stands."""
        if item.between is not None:
            edges: tuple[Edge, ...] = (self._between(*item.between),)
        elif item.stops:
            edges = self._stopping(item)
        else:
            edges = (self._beside(item),)
        return Standing(edges, self._wish(item, edges[len(edges) // 2]))

    def is_line(self, item: Restraint, standing: Standing) -> bool:
        """Whether it is drawn as a line along its edges: a rail, or something fixed along several bays."""
        return item.fixed and (item.kind is RestraintKind.RAIL or len(standing.edges) > 1)

    def door_side(self, bay: str) -> Side:
        """The side on which a bay's door lies; for a bay without one, the side of the first door."""
        door = self._hold.bays[bay].door
        doors = self._hold.doors
        if door is not None and door in doors:
            return doors[door].side
        return next(iter(doors.values())).side if doors else Side.RIGHT

    def _between(self, first: str, second: str) -> Edge:
        if OUTSIDE in (first, second):
            bay = second if first == OUTSIDE else first
            return self._bay_edge(bay, self._frame.edge(self.door_side(bay)))
        return _shared((first, second), self._bays[first], self._bays[second])

    def _stopping(self, item: Restraint) -> tuple[Edge, ...]:
        inner: dict[tuple[str, ...], Edge] = {}
        outer: dict[tuple[str, ...], Edge] = {}
        for travel in (way for way in Travel if way in item.stops):
            for bay in item.beside:
                side = self._frame.edge(self._direction(travel, bay))
                neighbour = self._neighbour(bay, side)
                edge = self._bay_edge(bay, side)
                (inner if neighbour in item.beside else outer).setdefault(edge.key, edge)
        return tuple((inner or outer).values())

    def _beside(self, item: Restraint) -> Edge:
        """One free edge: beside the way of the units it guides, else away from every neighbour."""
        bay = item.beside[0]
        door = self._frame.edge(self.door_side(bay)) if self._hold.bays[bay].door else None
        if item.guides:
            across = any(OUTSIDE in hop or self._is_across(*hop) for hop in item.guides)
            sides = [self._frame.edge(w) for w in (_WORDS[:2] if across else _WORDS[2:])]
        else:
            every = [self._frame.edge(w) for w in ("aft", "forward", "left", "right")]
            sides = [s for s in every if s != door and self._neighbour(bay, s) is None] or every
        named = [s for s in sides if s in {self._frame.edge(w) for w in self._words(item)}]
        if named:
            return self._bay_edge(bay, named[0])
        alike = [
            other.name
            for other in self._hold.restraints.values()
            if other.between is None
            and not other.stops
            and other.beside == item.beside
            and bool(other.guides) == bool(item.guides)
        ]
        return self._bay_edge(bay, sides[alike.index(item.name) % len(sides)])

    def _wish(self, item: Restraint, edge: Edge) -> float:
        starts, ends = ("left", "right") if edge.horizontal else ("top", "bottom")
        if item.between is None and any(OUTSIDE in hop for hop in item.guides):
            door = self._frame.edge(self.door_side(item.beside[0]))
            if door in (starts, ends):
                return 0.0 if door == starts else 1.0
        for word in self._words(item):
            side = self._frame.edge(word)
            if side in (starts, ends):
                return 0.0 if side == starts else 1.0
        return 0.5

    @staticmethod
    def _words(item: Restraint) -> tuple[str, ...]:
        said = item.title.lower().split()
        return tuple(word for word in _WORDS if word in said)

    def _direction(self, travel: Travel, bay: str) -> str:
        side = self.door_side(bay)
        away = Side.LEFT if side is Side.RIGHT else Side.RIGHT
        if travel is Travel.IN:
            return str(away)
        return str(side) if travel is Travel.OUT else str(travel)

    def _is_across(self, first: str, second: str) -> bool:
        here, there = self._bays[first].middle, self._bays[second].middle
        sideways, downwards = abs(here[0] - there[0]), abs(here[1] - there[1])
        return (sideways > downwards) == self._frame.upright

    def _neighbour(self, bay: str, side: str) -> str | None:
        mine = self._bays[bay]
        near = _NEAR * self._frame.scale
        best: tuple[float, str] | None = None
        for name, other in self._bays.items():
            if name == bay or mine.overlaps(other):
                continue
            gap, shared = _apart(mine, other, side)
            if -0.01 <= gap <= near and shared > 0 and (best is None or shared > best[0]):
                best = (shared, name)
        return best[1] if best else None

    def _bay_edge(self, bay: str, side: str) -> Edge:
        neighbour = self._neighbour(bay, side)
        if neighbour is not None:
            return _shared((bay, neighbour), self._bays[bay], self._bays[neighbour])
        mine, floor = self._bays[bay], self._floor
        key = (bay, side)
        if side in ("top", "bottom"):
            v = (mine.top + max(floor.top, mine.top - 8)) / 2
            if side == "bottom":
                v = (mine.bottom + min(floor.bottom, mine.bottom + 8)) / 2
            return Edge(key, (mine.left, v), (mine.right, v))
        u = (mine.left + max(floor.left, mine.left - 8)) / 2
        if side == "right":
            u = (mine.right + min(floor.right, mine.right + 8)) / 2
        return Edge(key, (u, mine.top), (u, mine.bottom))


def _apart(mine: Box, other: Box, side: str) -> tuple[float, float]:
    """The gap from `mine` to `other` across one of its sides, and the length they share along it."""
    along = min(mine.right, other.right) - max(mine.left, other.left)
    down = min(mine.bottom, other.bottom) - max(mine.top, other.top)
    return {
        "top": (mine.top - other.bottom, along),
        "bottom": (other.top - mine.bottom, along),
        "left": (mine.left - other.right, down),
        "right": (other.left - mine.right, down),
    }[side]


def _shared(names: tuple[str, str], one: Box, two: Box) -> Edge:
    """The middle of the gap between two boxes, as long as both together have it in common."""
    key = tuple(sorted(names))
    sideways = max(one.left, two.left) - min(one.right, two.right)
    downwards = max(one.top, two.top) - min(one.bottom, two.bottom)
    if sideways > downwards:
        u = (max(one.left, two.left) + min(one.right, two.right)) / 2
        low, high = max(one.top, two.top), min(one.bottom, two.bottom)
        return Edge(key, (u, min(low, high)), (u, max(low, high)))
    v = (max(one.top, two.top) + min(one.bottom, two.bottom)) / 2
    low, high = max(one.left, two.left), min(one.right, two.right)
    return Edge(key, (min(low, high), v), (max(low, high), v))
